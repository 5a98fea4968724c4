"""Which discs have neither land nor shoal water, by GEOS through shapely.

Answers lines of JSON as package task has them:

    python3 geos.py FOLDER

Areas that are land, or may be shoaler than what is needed, are projected once, by the
projection of ../crossings/geos.py; a disc is clear if none of them is within its radius.
"""
import json
import os
import sys
import time

from shapely.geometry import Point
from shapely.prepared import prep
from shapely.strtree import STRtree

sys.argv, folder = sys.argv[:1], sys.argv[1]
here = os.path.dirname(os.path.abspath(__file__))
source = open(os.path.join(here, "..", "crossings", "geos.py"), encoding="utf-8").read()
names = {"__name__": "projection"}
exec(compile(source.replace("\nmain()\n", "\n"), "geos.py", "exec"), names)


def load():
    found = []
    for name in ("DEPARE", "LNDARE"):
        with open(os.path.join(folder, name + ".geojson"), encoding="utf-8") as f:
            for feature in json.load(f)["features"]:
                depth = feature["properties"].get("DRVAL1")
                found.append((None if name == "LNDARE" else depth, feature["geometry"]))
    boxes = [names["shape"](g).bounds for _, g in found]
    projection = names["Projection"]((min(b[0] for b in boxes) + max(b[2] for b in boxes)) / 2,
                                     (min(b[1] for b in boxes) + max(b[3] for b in boxes)) / 2)
    return [(d, names["project"](projection, g)) for d, g in found], projection


def main():
    areas, projection = load()
    trees = {}
    for text in sys.stdin:
        task = json.loads(text)
        need = task["need_m"]
        if need not in trees:
            bad = [g for d, g in areas if d is None or d < need]
            trees[need] = STRtree(bad), [prep(g) for g in bad]
        tree, prepared = trees[need]
        begun = time.perf_counter_ns()
        clear = []
        for place in task["places"]:
            radius = task["radius_m"] * projection.scale(place[1])
            disc = Point(projection.xy(place)).buffer(radius, names["quarter_segments"](radius))
            clear.append(not any(prepared[i].intersects(disc) for i in tree.query_items(disc)))
        print(json.dumps({"ns": time.perf_counter_ns() - begun, "clear": clear}), flush=True)


main()
