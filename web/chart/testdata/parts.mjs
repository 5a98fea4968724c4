// Tests of the chart view's scripts that need no browser.
import { setRules } from "../../rules.js";
import { rulesOf } from "../classes.js";
import * as graticule from "../graticule.js";
import * as ground from "../ground.js";
import * as labels from "../labels.js";
import { paintContours, paintLines } from "../lines.js";
import { fillOf, paletteOf } from "../palette.js";
import { legsOf, moved, readPlan, readReport, severityOf } from "../plan.js";
import * as rake from "../rake.js";
import * as reader from "../reader.js";
import * as space from "../space.js";
import * as trace from "../trace.js";
import { stateOf, Water } from "../water.js";

let failures = 0;
const check = (name, ok, found = "") => {
  if (!ok) failures++;
  console.log(`${ok ? "ok" : "not ok"} ${name}${ok ? "" : `: ${JSON.stringify(found)}`}`);
};
const near = (a, b, tolerance) => Math.abs(a - b) <= tolerance;

// Mulberry32, a public-domain generator by Tommy Ettinger, with a fixed seed.
let state = 20260718;
const random = () => {
  state = (state + 0x6d2b79f5) | 0;
  let t = Math.imul(state ^ (state >>> 15), 1 | state);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
};

// IOGP Guidance Note 7-2, method 1024 "Popular Visualisation Pseudo Mercator", its example (from memory).
{
  const [x, y] = space.project([-(100 + 20 / 60), 24 + 22 / 60 + 54.433 / 3600]);
  check("position of the IOGP example", near(x, -11169055.58, 0.01) && near(y, 2800000.0, 0.02), [x, y]);
  const [lon, lat] = space.unproject([-11169055.58, 2800000.0]);
  check("and back", near(lon, -100.3333333, 2e-7) && near(lat, 24.3817869, 2e-7), [lon, lat]);
}

// OGC 07-057r7, annex E.4, GoogleMapsCompatible, level 0 (from memory).
{
  const scale = space.scaleOf(156543.033928041, 0);
  check("scale of a known pixel size", near(scale, 559082264.0287178, 1), scale);
}

// The thresholds as the drawing format states them: a bound on a threshold has the better state.
{
  const levels = { dries_m: -1.5, afloat_m: 0.2, enough_m: 2 };
  const cases = [
    [-1.51, "dries"], [-1.5, "shallow"], [0.19, "shallow"], [0.2, "margin"], [1.99, "margin"], [2, "enough"], [undefined, "unknown"], [null, "unknown"], ["3", "unknown"],
  ];
  for (const [bound, want] of cases) check(`state of ${bound}`, stateOf(bound, levels) === want, stateOf(bound, levels));
  check("no levels: nothing is said of her", stateOf(30, null) === "neutral");
  const water = new Water();
  water.set({ dries_m: 0, afloat_m: NaN, enough_m: 2 }, ["a"]);
  check("a threshold that is no number", water.stateIn({ id: "a" }, 30) === "neutral");
  water.set(levels, ["a"]);
  check("a set the tide is not comparable with", water.stateIn({ id: "b" }, 30) === "neutral");
  check("a bound that a snapshot does not know", water.snapshot([{ id: "a", bounds: [3] }]).stateIn({ id: "a" }, 4) === "unknown");
}

// What is written is never deeper than what is charted, and at most a tenth (from 31 m a metre) shoaler.
{
  let worst = null;
  for (let i = 0; i < 5000 && !worst; i++) {
    const d = random() * 45 - 4;
    const s = labels.splitDepth(d);
    const written = (s.dries ? -1 : 1) * Number(`${s.whole}.${s.tenth || 0}`);
    if (written > d + 1e-5 || written < d - (d >= 31 ? 1.00001 : 0.10001)) worst = [d, s];
  }
  check("soundings round to the shoal side", worst === null, worst);
  const s = labels.splitDepth(-0.34);
  check("a drying height", s.dries && s.whole === "0" && s.tenth === "4", s);
}

// Runs on the limit of the data are not stroked (S-57 USAG 3): a square whose
// second and third side are such a run.
{
  const traced = [];
  const path = { moveTo: (x, y) => traced.push("M", x, y), lineTo: (x, y) => traced.push("L", x, y) };
  const frame = { perM: 1, west: 0, north: 100, width: 100, height: 100 };
  const square = { xy: [10, 90, 50, 90, 50, 50, 10, 50, 10, 90], ends: [5], props: { edge: [1, 3] } };
  trace.lines(path, square, frame);
  check("the limit of the data is no line", traced.join(" ") === "M 10 10 L 50 10 M 10 50 L 10 10", traced.join(" "));
  traced.length = 0;
  trace.lines(path, { ...square, props: {} }, frame);
  check("without a limit all sides are", traced.join(" ") === "M 10 10 L 50 10 L 50 50 L 10 50 L 10 10", traced.join(" "));
}

// 60 minutes make a degree.
{
  const cases = [[-36.0525, 0.1, "E", "W", "36°03.2′ W"], [43, 1, "N", "S", "43°00′ N"], [42.99999, 1, "N", "S", "43°00′ N"], [0, 1, "N", "S", "0°00′"], [-0.5, 10, "N", "S", "0°30′ S"]];
  for (const [v, step, p, n, want] of cases) check(`figure of ${v}`, graticule.figure(v, step, p, n) === want, graticule.figure(v, step, p, n));
}

// A ring as traced covers the same part of the picture as the ring itself: brute
// force over random points that are further from its edges than the thinning moves them.
{
  let wrong = null;
  for (let round = 0; round < 60 && !wrong; round++) {
    const n = 3 + Math.floor(random() * 60);
    const xy = new Float64Array(2 * n);
    const size = 200 + random() * 6000;
    const cx = random() * 800 - 100;
    const cy = random() * 600 - 100;
    const box = space.EMPTY_BOX();
    for (let i = 0; i < n; i++) {
      const a = (i / n) * 2 * Math.PI;
      const r = size * (0.2 + random());
      xy[2 * i] = cx + r * Math.cos(a);
      xy[2 * i + 1] = cy + r * Math.sin(a);
      space.growBox(box, xy[2 * i], xy[2 * i + 1]);
    }
    const frame = { perM: 1, west: 0, north: 500, width: 600, height: 500 };
    const traced = [];
    const path = { moveTo: (x, y) => traced.push(x, 500 - y), lineTo: (x, y) => traced.push(x, 500 - y), closePath() {} };
    const shape = { xy, ends: [n], box };
    trace.rings(path, shape, frame);
    const thin = { xy: traced, ends: [traced.length / 2], box: [-1e9, -1e9, 1e9, 1e9] };
    const closed = { xy: [...xy, xy[0], xy[1]], ends: [n + 1] };
    for (let i = 0; i < 200; i++) {
      const x = random() * 600;
      const y = random() * 500;
      if (space.distanceToShape(closed, x, y) < 1) continue;
      if (space.inside(shape, x, y) !== space.inside(thin, x, y)) wrong = { round, x, y };
    }
  }
  check("traced rings cover what the rings cover", wrong === null, wrong);
}

// Codes of RESTRN and CATREA with the meanings of S-57 appendix A.
{
  check("entry prohibited", rulesOf({ RESTRN: [7], speed: true, limit_kn: 5 }).words === "No entry, 5 kn", rulesOf({ RESTRN: [7], speed: true, limit_kn: 5 }));
  check("a limit without a figure", rulesOf({ RESTRN: [27], speed: true }).words === "limit not stated");
  check("a limit is not rounded up", rulesOf({ speed: true, limit_kn: 5.39 }).words === "5.3 kn", rulesOf({ speed: true, limit_kn: 5.39 }));
  check("bathing", rulesOf({ CATREA: ["18"] }).ticks === true);
}

const square = (w, s, e, n) => ({ type: "Polygon", coordinates: [[[w, s], [e, s], [e, n], [w, n], [w, s]]] });
const setOf = (id, authority, features) =>
  reader.readSet(id, JSON.stringify({ set: { id, title: id, authority, scale: 10000 }, features: features.map(([properties, geometry]) => ({ properties, geometry })) }));

// Reading: what cannot be drawn is counted, the shoalest claim comes last.
{
  const set = setOf("a", "derived", [
    [{ c: "DEPARE", DRVAL1: 2 }, square(0, 0, 1, 1)], [{ c: "DEPARE", DRVAL1: 20 }, square(0, 0, 1, 1)], [{ c: "DEPARE" }, square(0, 0, 1, 1)],
    [{ c: "BOYLAT" }, { type: "Point", coordinates: ["x", 1] }], [{ c: "DSID" }, null],
  ]);
  check("left out is counted", set.left === 1 && set.shapes.length === 3, [set.left, set.shapes.length]);
  check("unknown and shoal water on top", JSON.stringify(set.water.map((s) => s.props.DRVAL1 ?? null)) === "[20,2,null]", set.water.map((s) => s.props.DRVAL1));
}

globalThis.DOMMatrix = class {}; // of a browser; where a pattern lies is not looked at here

// What lies on top at a place, by painting into a record of fills.
{
  const frame = space.frameOf(space.project([0.5, 0.5]), 200, 600, 600, 1);
  const nothing = new Proxy({}, { get: () => () => {}, set: () => true });
  globalThis.document = { createElement: () => ({ getContext: () => nothing }) };
  const patterns = { createPattern: (tile) => ({ tile, setTransform() {} }) };
  const states = ["dries", "shallow", "margin", "enough", "neutral", "unknown"];
  const styles = new Map(["land", "built"].map((name) => [paletteOf("day")[name], name]));
  const keyOf = (style) => style?.tile ?? style;
  for (const state of states.flatMap((name) => [name, `${name} over`])) {
    const style = fillOf(patterns, "day", state, frame);
    if (style) styles.set(keyOf(style), state);
  }
  check("every state has a fill of its own", styles.size === 11, [...styles.values()]);
  const top = (sets, privateCovers, levels) => {
    const water = new Water();
    water.set(levels, sets.map((s) => s.id));
    let last = null;
    const ctx = { ...patterns, beginPath() {}, moveTo() {}, lineTo() {}, closePath() {}, fillRect() { last = this.fillStyle; }, fill() { last = this.fillStyle; } };
    const painting = ground.paintAll(ctx, { sets, states: water.snapshot(sets), palette: "day", privateCovers }, frame);
    while (!painting.next().done);
    return styles.get(keyOf(last));
  };
  const levels = { dries_m: -1, afloat_m: 1, enough_m: 3 };
  const shoal = setOf("chart", "official", [[{ c: "DEPARE", DRVAL1: 0 }, square(0, 0, 1, 1)]]);
  const deep = setOf("chart", "official", [[{ c: "DEPARE", DRVAL1: 9 }, square(0, 0, 1, 1)]]);
  const mineDeep = setOf("mine", "private", [[{ c: "DEPARE", DRVAL1: 9 }, square(0, 0, 1, 1)]]);
  const mineShoal = setOf("mine", "private", [[{ c: "DEPARE", DRVAL1: 0 }, square(0, 0, 1, 1)]]);
  check("nothing loaded is unknown", top([], true, levels) === "unknown");
  check("a private depth hides no charted shoal", top([shoal, mineDeep], false, levels) === "shallow", top([shoal, mineDeep], false, levels));
  check("a private shoal is added", top([deep, mineShoal], false, levels) === "shallow over");
  check("a private depth covers nothing beside a chart", top([mineDeep], false, levels) === "unknown", top([mineDeep], false, levels));
  check("a private set alone", top([mineDeep], true, levels) === "enough", top([mineDeep], true, levels));
  const refused = setOf("chart", "official", [[{ c: "DEPARE", DRVAL1: 9 }, square(0, 0, 1, 1)], [{ c: "REFUSED" }, square(0, 0, 1, 1)]]);
  check("a refused feature's box is unknown", top([refused], false, levels) === "unknown");
}

setRules({ worst_first: ["not-clear", "no-data", "care", "note"], verdicts: {} });

// A leg is drawn as checked only if the report is about this very leg.
{
  const plan = readPlan(JSON.stringify({ features: [{ properties: { role: "route" }, geometry: { type: "LineString", coordinates: [[0, 0], [0.01, 0], [0.02, 0]] } }] }));
  const leg = (n, a, b) => ({ properties: { kind: "leg", leg: n }, geometry: { type: "LineString", coordinates: [a, b] } });
  const report = readReport(JSON.stringify({
    features: [leg(1, [0, 0], [0.01, 0]), leg(2, [0.01, 0], [0.02, 0.001]), { properties: { kind: "finding", severity: "care", leg: 1 }, geometry: null }, { properties: { kind: "finding", severity: "no-data", leg: 1 }, geometry: null }],
  }));
  const [one, two] = legsOf(plan);
  check("the worst finding of a leg", severityOf(one, report, false) === "no-data", severityOf(one, report, false));
  check("a leg that has moved since is not checked", severityOf(two, report, false) === "unchecked");
  const again = readReport(JSON.stringify({
    features: [leg(1, [0, 0], [0.01, 0]), { properties: { kind: "finding", severity: "not-clear", leg: 7, also: [{ leg: 1, position: [0.005, 0] }, { leg: 2, position: null }] }, geometry: null }],
  }));
  check("a finding weighs on every leg where it holds", severityOf(one, again, false) === "not-clear" && again.worst.get(2) === "not-clear", [...again.worst]);
  check("the other places of a finding are drawn", again.findings[0].also.length === 1 && near(again.findings[0].also[0][0], space.project([0.005, 0])[0], 0.01), again.findings[0].also);
  const odd = readReport(JSON.stringify({ features: [leg(1, [0, 0], [0.01, 0]), { properties: { kind: "finding", severity: "of another kind", leg: 1 }, geometry: null }] }));
  check("a severity that is none is not taken for clear", severityOf(one, odd, false) === "no-data", severityOf(one, odd, false));
  check("no report", severityOf(one, readReport(null), false) === "unchecked");
}

// Which points go along with one that is moved the engine says; no other does, however
// near it lies.
{
  const plan = readPlan(JSON.stringify({ features: [
    { properties: { role: "route" }, geometry: { type: "LineString", coordinates: [[9.9, 60], [10, 60]] } },
    { properties: { role: "stay" }, geometry: { type: "Point", coordinates: [10, 60] } },
  ] }));
  const at = space.project([10, 60.01]);
  for (const along of [[], [[1, 0]]]) {
    const { items } = moved(plan, { feature: 0, vertex: 1, point: at, along });
    check(`a stay ${along.length ? "goes along" : "stays"}`, (items[1].points[0][1] === at[1]) === (along.length > 0) && items[0].points[1][1] === at[1], items[1].points);
  }
}

// A canvas that only counts: rows that the edges of a path pass, and corners.
const counting = () => {
  const told = { rows: 0, corners: 0, images: 0 };
  let y = 0;
  let rows = 0;
  let corners = 0;
  const none = () => {};
  const corner = (way) => (_, to) => {
    if (way) rows += Math.abs(to - y);
    y = to;
    corners++;
  };
  const end = () => {
    told.rows = Math.max(told.rows, rows);
    told.corners = Math.max(told.corners, corners);
  };
  const ctx = {
    beginPath: () => (rows = corners = 0), moveTo: corner(false), lineTo: corner(true), closePath: none, fill: end, stroke: () => (told.corners = Math.max(told.corners, corners)),
    fillRect: none, setLineDash: none, translate: none, putImageData: none, createImageData: (w, h) => ({ data: new Uint8ClampedArray(4 * w * h) }),
    drawImage: () => told.images++, createPattern: () => ({ setTransform: none }),
  };
  return { ctx, told };
};

// Areas that a browser would fill for seconds, all at once: a tangle of 10 000 corners, and a comb that is valid.
{
  const made = (corners) => {
    const xy = new Float64Array(corners.flat());
    return { kind: "area", xy, ends: [corners.length], box: [0, 0, 1000, 1000], props: { c: "DEPARE", DRVAL1: 5 }, look: { fill: "land", pen: { key: "coast", width: 1 } }, scamin: Infinity };
  };
  const tangle = made(Array.from({ length: 10000 }, () => [1000 * random(), 1000 * random()]));
  const comb = made([[0, 0], ...Array.from({ length: 5000 }, (_, i) => [[i / 5, 990], [i / 5 + 0.1, 990], [i / 5 + 0.1, 10], [i / 5 + 0.2, 10]]).flat(), [1000, 0]]);
  const frame = { width: 900, height: 800, west: 50, north: 950, east: 950, south: 150, perM: 1, ratio: 1, scale: 10000 };
  globalThis.document = { createElement: () => ({ getContext: () => counting().ctx }) };
  const turnsOf = (painting) => {
    let turns = 0;
    while (!painting.next().done) turns++;
    return turns;
  };
  for (const [name, shape] of [["a tangle", tangle], ["a comb", comb]]) {
    const { ctx, told } = counting();
    const set = { id: "s", authority: "derived", box: shape.box, water: [], cover: [shape], lines: [shape], contours: [shape], scale: Infinity };
    const states = { stateIn: () => "enough" };
    turnsOf(ground.paintAll(ctx, { sets: [set], states, palette: "day", privateCovers: false }, frame));
    check(`${name} is not left to the browser as one path`, told.rows <= rake.MOST_ROWS, told);
    check(`${name} is filled all the same`, told.images === 1, told);
    const lines = counting();
    turnsOf(paintLines(lines.ctx, set, frame, {}));
    turnsOf(paintContours(lines.ctx, set, frame, {}));
    check(`the outline of ${name} is drawn in pieces`, lines.told.corners <= 4000, lines.told);

    // The same pixels as an even-odd test of their middles, by brute force.
    const box = rake.boxOf(shape, frame);
    const masking = rake.mask(shape, frame, box);
    let turns = 0;
    let step = masking.next();
    for (; !step.done; step = masking.next()) turns++;
    check(`${name} is raked in turns`, turns > 10, turns);
    let wrong = 0;
    for (let n = 0; n < 300; n++) {
      const x = Math.floor(900 * random());
      const y = Math.floor(800 * random());
      const inside = space.inside(shape, 50 + x + 0.5, 950 - y - 0.5);
      if ((step.value[(y - box[1]) * (box[2] - box[0]) + x - box[0]] === 1) !== inside) wrong++;
    }
    check(`${name} is raked as even-odd has it`, wrong === 0, wrong);
  }
  const coast = made(Array.from({ length: 15000 }, (_, i) => [i / 15, 500 + 200 * Math.sin(i / 3000) + 3 * random()]));
  check("a coast of 15 000 corners is the browser's own work", !rake.heavy(coast, frame), rake.rowsOf(coast, frame, Infinity));
}

process.exitCode = failures ? 1 : 0;
