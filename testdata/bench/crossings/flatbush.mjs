// The depth areas that legs meet, and where they cross their boundaries, by
// flatbush and plane tests in plain JavaScript: what a careful hand would write
// without a geometry library. Answers lines of JSON as package legs has them.
//
//   node flatbush.mjs FOLDER
//
// It computes in the plane of mercator.mjs, where a leg is straight. The boundaries
// lie in one Float64Array, and the tree keeps the boxes of runs of 16 edges.
import { createInterface } from "node:readline";
import Flatbush from "flatbush";
import { areasOf, isometric, latitude } from "./mercator.mjs";

const features = areasOf(process.argv[2]);
const run = 16;

let count = 0, vertices = 0;
for (const rings of features) {
  for (const ring of rings) {
    vertices += ring.length;
    count += Math.ceil((ring.length - 1) / run);
  }
}
const xs = new Float64Array(vertices), ys = new Float64Array(vertices);
const first = new Uint32Array(count), last = new Uint32Array(count), owner = new Uint32Array(count);
const runs = new Flatbush(count), areas = new Flatbush(features.length);
let at = 0, k = 0;
features.forEach((rings, index) => {
  const whole = [Infinity, Infinity, -Infinity, -Infinity];
  for (const ring of rings) {
    const start = at;
    for (const [x, y] of ring) {
      xs[at] = x;
      ys[at++] = y;
    }
    for (let i = start; i < at - 1; i += run) {
      first[k] = i;
      last[k] = Math.min(i + run, at - 1);
      owner[k++] = index;
      let minX = Infinity, minY = Infinity, maxX = -Infinity, maxY = -Infinity;
      for (let j = i; j <= last[k - 1]; j++) {
        minX = Math.min(minX, xs[j]);
        minY = Math.min(minY, ys[j]);
        maxX = Math.max(maxX, xs[j]);
        maxY = Math.max(maxY, ys[j]);
      }
      runs.add(minX, minY, maxX, maxY);
      whole[0] = Math.min(whole[0], minX);
      whole[1] = Math.min(whole[1], minY);
      whole[2] = Math.max(whole[2], maxX);
      whole[3] = Math.max(whole[3], maxY);
    }
  }
  areas.add(...whole);
});
runs.finish();
areas.finish();

// begins is where each area's runs begin among all, which are in its order.
const begins = new Uint32Array(features.length + 1);
for (let i = count - 1; i >= 0; i--) begins[owner[i]] = i;
begins[features.length] = count;

// holds tells whether an area holds a place: a ray due east crosses its boundary an
// odd number of times (Shimrat 1962, CACM 5(8) 434).
function holds(index, x, y) {
  let odd = false;
  for (let r = begins[index]; r < begins[index + 1]; r++) {
    for (let i = first[r]; i < last[r]; i++) {
      const y0 = ys[i], y1 = ys[i + 1];
      if (y0 > y !== y1 > y && x < xs[i] + ((xs[i + 1] - xs[i]) * (y - y0)) / (y1 - y0)) odd = !odd;
    }
  }
  return odd;
}

// find gives the areas that a leg meets: those whose boundary it crosses, and those
// around its start.
function find(x0, y0, x1, y1) {
  const found = new Map(), dx = x1 - x0, dy = y1 - y0;
  const near = runs.search(Math.min(x0, x1), Math.min(y0, y1), Math.max(x0, x1), Math.max(y0, y1));
  for (const r of near) {
    let side = dx * (ys[first[r]] - y0) - dy * (xs[first[r]] - x0);
    for (let i = first[r]; i < last[r]; i++) {
      const next = dx * (ys[i + 1] - y0) - dy * (xs[i + 1] - x0);
      if (side < 0 !== next < 0) {
        const f = side / (side - next);
        const x = xs[i] + f * (xs[i + 1] - xs[i]), y = ys[i] + f * (ys[i + 1] - ys[i]);
        const along = (x - x0) * dx + (y - y0) * dy;
        if (along >= 0 && along <= dx * dx + dy * dy) {
          const cross = found.get(owner[r]);
          if (cross === undefined) found.set(owner[r], [[x, y]]);
          else cross.push([x, y]);
        }
      }
      side = next;
    }
  }
  for (const index of areas.search(x0, y0, x0, y0)) {
    if (!found.has(index) && holds(index, x0, y0)) found.set(index, []);
  }
  return found;
}

for await (const text of createInterface({ input: process.stdin })) {
  const { legs } = JSON.parse(text);
  const begun = process.hrtime.bigint();
  const found = legs.map(([x0, y0, x1, y1]) => find(x0, isometric(y0), x1, isometric(y1)));
  const ns = Number(process.hrtime.bigint() - begun);
  const answer = ([index, cross]) => ({ id: `DEPARE/${index}`, cross: cross.map(([x, y]) => [x, latitude(y)]) });
  process.stdout.write(JSON.stringify({ ns, areas: found.map((m) => Array.from(m, answer)) }) + "\n");
}
