"""What lies within the corridors of legs, by GEOS through shapely.

Answers lines of JSON as package legs has them:

    python3 geos.py FOLDER

All coordinates are projected once, by the Mercator projection of the WGS 84
ellipsoid with true scale at the chart's middle latitude; each leg's half-width
is multiplied by the scale at its own middle latitude, so that it means metres
there. Long edges are cut first: RFC 7946 has them straight in longitude and
latitude. The tree and the prepared geometries are made once.

Shapely is asked leg by leg: 1.8, which Debian 12 has, knows no other way. Its
calls cost some microseconds each, which is Python's part of the time.
"""
import json
import math
import os
import sys
import time
import warnings

from shapely.geometry import LineString, Point, Polygon, shape
from shapely.prepared import prep
from shapely.strtree import STRtree

warnings.filterwarnings("ignore")  # 1.8 announces the changes of 2.0

LAYERS = ["DEPARE", "DEPCNT", "SOUNDG", "UWTROC", "OBSTRN", "WRECKS"]
A, F = 6378137.0, 1 / 298.257223563
E = math.sqrt(F * (2 - F))
LONG_EDGE = 0.009  # degrees, about a kilometre of latitude


def isometric(lat):
    """Isometric latitude in radians (Snyder 1987, USGS PP 1395, eq. 7-7)."""
    phi = math.radians(lat)
    return math.asinh(math.tan(phi)) - E * math.atanh(E * math.sin(phi))


def parallel_radius(lat):
    s = math.sin(math.radians(lat))
    return A * math.cos(math.radians(lat)) / math.sqrt(1 - E * E * s * s)


class Projection:
    def __init__(self, lon, lat):
        self.lon, self.radius, self.north = lon, parallel_radius(lat), isometric(lat)

    def xy(self, position):
        return (math.radians(position[0] - self.lon) * self.radius,
                (isometric(position[1]) - self.north) * self.radius)

    def scale(self, lat):
        return self.radius / parallel_radius(lat)


def cut(line):
    """The line with edges longer than LONG_EDGE cut."""
    out = [line[0]]
    for a, b in zip(line, line[1:]):
        n = math.ceil(max(abs(b[0] - a[0]), abs(b[1] - a[1])) / LONG_EDGE)
        for i in range(1, n):
            out.append((a[0] + (b[0] - a[0]) * i / n, a[1] + (b[1] - a[1]) * i / n))
        out.append(b)
    return out


def project(projection, geometry):
    kind, c = geometry["type"], geometry["coordinates"]
    xy = projection.xy
    if kind == "Point":
        return Point(xy(c))
    if kind == "LineString":
        return LineString([xy(p) for p in cut(c)])
    if kind == "Polygon":
        rings = [[xy(p) for p in cut(ring)] for ring in c]
        return Polygon(rings[0], rings[1:])
    raise ValueError(f"{kind}; wanted Point, LineString or Polygon")


def load(folder):
    ids, geometries = [], []
    for name in LAYERS:
        with open(os.path.join(folder, name + ".geojson"), encoding="utf-8") as f:
            for i, feature in enumerate(json.load(f)["features"]):
                ids.append(f"{name}/{i}")
                geometries.append(feature["geometry"])
    boxes = [shape(g).bounds for g in geometries]
    lon = (min(b[0] for b in boxes) + max(b[2] for b in boxes)) / 2
    lat = (min(b[1] for b in boxes) + max(b[3] for b in boxes)) / 2
    projection = Projection(lon, lat)
    return ids, [project(projection, g) for g in geometries], projection


def quarter_segments(half):
    """Segments a quarter of a circle, so that it is 1 cm out at most."""
    return max(8, math.ceil(math.pi / 4 / math.acos(1 - 0.01 / max(half, 0.1))))


class Finder:
    """A point is tested by its distance from the leg, all else by
    its prepared geometry against the buffered leg."""

    def __init__(self, geometries):
        self.tree = STRtree(geometries)
        self.points = [g if g.geom_type == "Point" else None for g in geometries]
        self.prepared = [prep(g) for g in geometries]

    def find(self, legs, halves):
        out = []
        for leg, half in zip(legs, halves):
            line = LineString(leg)
            corridor = line.buffer(half, quarter_segments(half))
            found = []
            for i in self.tree.query_items(corridor):
                point = self.points[i]
                if line.distance(point) <= half if point is not None else self.prepared[i].intersects(corridor):
                    found.append(i)
            out.append(found)
        return out


def main():
    ids, geometries, projection = load(sys.argv[1])
    finder = Finder(geometries)
    for text in sys.stdin:
        task = json.loads(text)
        begun = time.perf_counter_ns()
        legs = [(projection.xy(leg[:2]), projection.xy(leg[2:])) for leg in task["legs"]]
        halves = [task["half_m"] * projection.scale((leg[1] + leg[3]) / 2) for leg in task["legs"]]
        found = finder.find(legs, halves)
        ns = time.perf_counter_ns() - begun
        things = [[ids[i] for i in things] for things in found]
        print(json.dumps({"ns": ns, "things": things}), flush=True)


main()
