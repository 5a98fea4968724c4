// The depth areas that legs meet, and where they cross their boundaries, by
// turf and rbush. Answers lines of JSON as package legs has them.
//
//   node turf.mjs FOLDER areas|pieces
//
// Turf computes in the plane, so it gets the Mercator coordinates of mercator.mjs.
//
// `areas` keeps the boxes of whole areas in the tree and asks lineIntersect for
// each, as the libraries' own documents show it. `pieces` keeps the boxes of
// runs of 16 edges, so that lineIntersect sees no more than it must.
import { createInterface } from "node:readline";
import RBush from "rbush";
import { bbox, booleanPointInPolygon, lineIntersect, lineString, polygon } from "@turf/turf";
import { areasOf, isometric, latitude } from "./mercator.mjs";

const [folder, mode] = process.argv.slice(2);
const features = areasOf(folder).map((rings) => polygon(rings));

const boxed = (feature, item) => {
  const [minX, minY, maxX, maxY] = bbox(feature);
  return { minX, minY, maxX, maxY, ...item };
};
const areaTree = new RBush().load(features.map((f, index) => boxed(f, { index })));

const pieces = [];
features.forEach((f, index) => {
  for (const ring of f.geometry.coordinates) {
    for (let i = 0; i < ring.length - 1; i += 16) {
      const line = lineString(ring.slice(i, i + 17));
      pieces.push(boxed(line, { index, line }));
    }
  }
});
const pieceTree = new RBush().load(pieces);

const legBox = ([x0, y0, x1, y1]) => ({
  minX: Math.min(x0, x1), minY: Math.min(y0, y1), maxX: Math.max(x0, x1), maxY: Math.max(y0, y1),
});

// byAreas asks each area whose box meets the leg's.
function byAreas(leg) {
  const from = [leg[0], leg[1]], line = lineString([from, [leg[2], leg[3]]]);
  const out = [];
  for (const { index } of areaTree.search(legBox(leg))) {
    const cross = lineIntersect(line, features[index]).features.map((p) => p.geometry.coordinates);
    if (cross.length > 0 || booleanPointInPolygon(from, features[index])) out.push({ index, cross });
  }
  return out;
}

// byPieces asks each piece of boundary whose box meets the leg's, and the areas
// around the leg's start. The sweep's cost is in the events it sorts.
function byPieces(leg) {
  const from = [leg[0], leg[1]], line = lineString([from, [leg[2], leg[3]]]);
  const found = new Map();
  for (const piece of pieceTree.search(legBox(leg))) {
    for (const p of lineIntersect(line, piece.line).features) {
      const cross = found.get(piece.index);
      if (cross === undefined) found.set(piece.index, [p.geometry.coordinates]);
      else cross.push(p.geometry.coordinates);
    }
  }
  for (const { index } of areaTree.search({ minX: leg[0], minY: leg[1], maxX: leg[0], maxY: leg[1] })) {
    if (!found.has(index) && booleanPointInPolygon(from, features[index])) found.set(index, []);
  }
  return Array.from(found, ([index, cross]) => ({ index, cross }));
}

const find = mode === "pieces" ? byPieces : byAreas;
for await (const text of createInterface({ input: process.stdin })) {
  const { legs } = JSON.parse(text);
  const begun = process.hrtime.bigint();
  const found = legs.map(([x0, y0, x1, y1]) => find([x0, isometric(y0), x1, isometric(y1)]));
  const ns = Number(process.hrtime.bigint() - begun);
  const answer = ({ index, cross }) => ({ id: `DEPARE/${index}`, cross: cross.map(([x, y]) => [x, latitude(y)]) });
  const areas = found.map((areas) => areas.map(answer));
  process.stdout.write(JSON.stringify({ ns, areas }) + "\n");
}
