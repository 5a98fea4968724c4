// What is known of the plan while a point of it is dragged, as the overlay draws it:
// the newest answer, and the place that it is for.
import { severityFrom } from "../rules.js";
import { outline } from "./plan.js";
import { project } from "./space.js";

/** @param {Props} props @param {any} geometry */
const placed = (props, geometry) => ({ props, lines: outline(geometry).filter((line) => line.length > 0), type: geometry?.type ?? "" });
/** @param {number} lon @param {number} lat */
const point = (lon, lat) => [[project([lon, lat])]];

// Items of an answer stay the same objects while they do not change: what was made of
// one is kept.
/** @type {WeakMap<object, any>} */
const made = new WeakMap();
/** @param {any} item @param {(item: any) => any} make */
const once = (item, make) => {
  let out = made.get(item);
  if (!out) made.set(item, (out = make(item)));
  return out;
};

/** @param {{ severity: string, geometry: any, also: Point[] }} item */
const finding = (item) => ({ ...placed({ severity: item.severity }, item.geometry), also: item.also.map((p) => project(p)) });
/** @param {[number, number, number | null, boolean][]} list */
const zones = (list) => list.map(([lon, lat, limit_kn, stated]) => ({ props: { limit_kn, stated }, lines: point(lon, lat), type: "Point" }));
/** @param {[number, number, number | null][]} list */
const slowDowns = (list) => list.map(([lon, lat, to_kn]) => ({ props: { to_kn }, lines: point(lon, lat), type: "Point" }));
/** @param {Point[][]} list */
const circles = (list) => list.map((ring) => ({ props: {}, lines: [ring.map((p) => project(p))], type: "Polygon" }));

/**
 * The report of an answer's items, in the shape that readReport gives.
 * @param {Map<string, any>} items @returns {ReportView}
 */
export const reportOf = (items) => {
  /** @type {ReportView} */
  const report = { legs: new Map(), findings: [], zones: [], slowDowns: [], clearances: [], circles: [], worst: new Map() };
  for (const [name, item] of items) {
    const [kind, which] = name.split(" ", 2);
    if (kind === "leg") {
      report.legs.set(Number(which), { props: {}, lines: [], type: "" });
      report.worst.set(Number(which), item === "clear" ? item : severityFrom(item));
    } else if (kind === "finding") report.findings.push({ ...once(item, finding), index: report.findings.length });
    else if (kind === "clearance") report.clearances.push({ props: { leg: Number(which), clearance_m: item[2] }, lines: point(item[0], item[1]), type: "Point" });
    else if (kind === "zones") report.zones = once(item, zones);
    else if (kind === "slow-downs") report.slowDowns = once(item, slowDowns);
    else if (kind === "circles") report.circles = once(item, circles);
  }
  return report;
};

/**
 * What an answer says of the plan with its point at a place.
 * @param {{ place: Place, items: Map<string, any> | null }} answer @returns {Live}
 */
export const liveOf = ({ place, items }) => ({
  feature: place.feature,
  vertex: place.vertex,
  insert: place.insert,
  point: project([place.lon, place.lat]),
  at: place.at,
  along: items?.get("moved") ?? [], // the points that go along, by feature and vertex
  report: items ? reportOf(items) : null,
});
