// Reads the drawing format (GeoJSON of one layer set) into shapes with
// projected coordinates, ready to be painted.
import { lookOf } from "./classes.js";
import { EMPTY_BOX, growBox, xOf, yOf } from "./space.js";

// How deep the lists of a geometry's coordinates are nested.
/** @type {Record<string, number>} */
const NESTED = { Point: 0, MultiPoint: 1, LineString: 1, MultiLineString: 2, Polygon: 2, MultiPolygon: 3 };
/** @type {Record<string, string>} */
const KIND = { Point: "point", MultiPoint: "point", LineString: "line", MultiLineString: "line", Polygon: "area", MultiPolygon: "area" };

/** @param {any} list @param {number} depth */
const count = (list, depth) => {
  if (depth === 0) return 1;
  let n = 0;
  for (const part of list) n += count(part, depth - 1);
  return n;
};

/** @param {any} geometry */
const readGeometry = (geometry) => {
  const nested = NESTED[geometry.type];
  if (nested === undefined || !Array.isArray(geometry.coordinates)) return null;
  const xy = new Float64Array(2 * count(geometry.coordinates, nested));
  /** @type {number[]} */
  const ends = [];
  const box = EMPTY_BOX();
  let n = 0;
  /** @param {any} position */
  const put = (position) => {
    const x = xOf(position[0]);
    const y = yOf(position[1]);
    if (!Number.isFinite(x) || !Number.isFinite(y)) throw new Error("a position that is no pair of numbers");
    xy[2 * n] = x;
    xy[2 * n + 1] = y;
    growBox(box, x, y);
    n++;
  };
  /** @param {any} list @param {number} depth */
  const walk = (list, depth) => {
    if (depth > 1) {
      for (const part of list) walk(part, depth - 1);
      return;
    }
    if (depth === 0) put(list);
    else for (const position of list) put(position);
    ends.push(n);
  };
  walk(geometry.coordinates, nested);
  if (n === 0) return null;
  return { kind: KIND[geometry.type], xy, ends, box };
};

/** @param {string} key @param {number} way */
const byValue = (key, way) => (/** @type {Shape} */ a, /** @type {Shape} */ b) => way * ((a.props[key] ?? -Infinity) - (b.props[key] ?? -Infinity));

// A layer set, sorted by what is painted when:
//   water  depth areas, the deepest first, so that the shoaler claim is on top
//   cover  other areas that fill (land, unknown water, structures)
//   rest   by class
/** @param {LayerSet} set */
const sort = (set) => {
  for (const shape of set.shapes) {
    const { look } = shape;
    if (shape.kind === "area" && look.water) set.water.push(shape);
    else if (shape.kind === "area" && look.fill) set.cover.push(shape);
    if (shape.props.bed && shape.kind !== "line") set.beds.push(shape);
    if (shape.props.c === "SOUNDG" && typeof shape.props.d === "number") set.soundings.push(shape);
    else if (shape.kind === "line" && shape.props.c === "DEPCNT") set.contours.push(shape);
    else if (shape.kind === "point") set.points.push(shape);
    else set.lines.push(shape);
  }
  set.water.sort(byValue("DRVAL1", -1));
  set.cover.sort((a, b) => (a.look.fillOrder ?? 0) - (b.look.fillOrder ?? 0));
  set.lines.sort((a, b) => (a.look.order ?? 0) - (b.look.order ?? 0));
  set.soundings.sort(byValue("d", 1)); // the shoalest keeps its place
  set.points.sort((a, b) => (b.look.rank ?? 0) - (a.look.rank ?? 0));
  set.bounds = [...new Set(set.water.map((s) => s.props.DRVAL1).filter((v) => typeof v === "number"))].sort((a, b) => a - b);
};

/** @param {string} id @param {string} text */
export const readSet = (id, text) => {
  const doc = JSON.parse(text);
  const head = doc.set ?? {};
  /** @type {LayerSet} */
  const set = {
    id, title: String(head.title ?? id), scale: Number(head.scale) || Infinity, authority: head.authority ?? "", left: 0,
    shapes: [], water: [], cover: [], lines: [], contours: [], soundings: [], beds: [], points: [], box: EMPTY_BOX(), bounds: [],
  };
  for (const feature of doc.features ?? []) {
    const props = feature.properties ?? {};
    let geometry = null;
    try {
      geometry = feature.geometry && readGeometry(feature.geometry);
    } catch {
      set.left++;
    }
    if (!geometry) continue;
    set.shapes.push({ ...geometry, props, look: lookOf(props.c), scamin: props.SCAMIN ?? Infinity });
    growBox(set.box, geometry.box[0], geometry.box[1]);
    growBox(set.box, geometry.box[2], geometry.box[3]);
  }
  sort(set);
  return set;
};
