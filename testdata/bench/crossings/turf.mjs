// The depth areas that legs meet, and where they cross their boundaries, by
// turf and rbush. Answers lines of JSON as package legs has them.
//
//   node turf.mjs FOLDER areas|pieces
//
// Turf computes in the plane, so it gets Mercator coordinates (longitude and
// isometric latitude of the WGS 84 ellipsoid, both in degrees): there a leg, a
// rhumb line, is straight. Edges over a kilometre are cut first, since RFC 7946
// has them straight in longitude and latitude.
//
// `areas` keeps the boxes of whole areas in the tree and asks lineIntersect for
// each, as the libraries' own documents show it. `pieces` keeps the boxes of
// runs of 16 edges, so that lineIntersect sees no more than it must.
import { readFileSync } from "node:fs";
import { createInterface } from "node:readline";
import { join } from "node:path";
import RBush from "rbush";
import { bbox, booleanPointInPolygon, lineIntersect, lineString } from "@turf/turf";

const [folder, mode] = process.argv.slice(2);
const features = JSON.parse(readFileSync(join(folder, "DEPARE.geojson"), "utf8")).features;

// Isometric latitude and back (Snyder 1987, USGS PP 1395, eqs 7-7 and 7-9).
const e = Math.sqrt((2 - 1 / 298.257223563) / 298.257223563), degree = Math.PI / 180;
const isometric = (lat) => {
  const s = Math.sin(lat * degree);
  return (Math.atanh(s) - e * Math.atanh(e * s)) / degree;
};
const latitude = (y) => {
  let s = Math.tanh(y * degree);
  for (let i = 0; i < 8; i++) s = Math.tanh(y * degree + e * Math.atanh(e * s));
  return Math.asin(s) / degree;
};

const longEdge = 0.009; // degrees, about a kilometre of latitude
function project(line) {
  const out = [];
  line.forEach(([lon, lat], i) => {
    const [lon0, lat0] = line[Math.max(i - 1, 0)];
    const n = Math.ceil(Math.max(Math.abs(lon - lon0), Math.abs(lat - lat0)) / longEdge);
    for (let k = 1; k < n; k++) out.push([lon0 + ((lon - lon0) * k) / n, isometric(lat0 + ((lat - lat0) * k) / n)]);
    out.push([lon, isometric(lat)]);
  });
  return out;
}
for (const { geometry } of features) {
  if (geometry.type !== "Polygon") throw new Error(`DEPARE: ${geometry.type}; wanted Polygon`);
  geometry.coordinates = geometry.coordinates.map(project);
}

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
