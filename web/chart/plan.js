// The plan and its report as the overlay needs them: parts with projected
// points, legs with the worst that was found on them.
import { byGravity, severityFrom } from "../rules.js";
import { EMPTY_BOX, growBox, project } from "./space.js";

const SAME_M = 0.5; // a leg of the report is the plan's if its ends are this near (projected)

/** @param {any} geometry @returns {Point[]} */
const positions = (geometry) => {
  if (geometry?.type === "Point") return [geometry.coordinates];
  if (geometry?.type === "LineString") return geometry.coordinates;
  return [];
};

// The features that are drawn as the plan, in the order of the file.
/** @param {string} text */
export const readPlan = (text) => {
  const doc = JSON.parse(text);
  /** @type {PlanItem[]} */
  const items = [];
  (doc.features ?? []).forEach((/** @type {any} */ feature, /** @type {number} */ index) => {
    const p = feature.properties ?? {};
    if (!["route", "stay", "berth", "refuge"].includes(p.role)) return;
    const degrees = positions(feature.geometry);
    if (degrees.length === 0) return;
    items.push({ feature: index, role: p.role, name: String(p.name ?? ""), props: p, degrees, points: degrees.map(project) });
  });
  return { items };
};

// The plan with one of its points elsewhere, and the points that go along with it:
// which those are the engine says, as feature and vertex.
/** @param {PlanView} plan @param {DrawnPoint} drawn @returns {PlanView} */
export const moved = (plan, { feature, vertex, point, along = [] }) => {
  /** @param {PlanItem} item @param {number} i */
  const goes = (item, i) => (item.feature === feature && i === vertex) || along.some(([f, v]) => f === item.feature && v === i);
  return { items: plan.items.map((item) => ({ ...item, points: item.points.map((p, i) => (goes(item, i) ? point : p)) })) };
};

// The plan with a point more.
/** @param {PlanView} plan @param {DrawnPoint} drawn @returns {PlanView} */
export const inserted = (plan, { feature, vertex, point }) => ({
  items: plan.items.map((item) => (item.feature === feature ? { ...item, points: [...item.points.slice(0, vertex), point, ...item.points.slice(vertex)] } : item)),
});

// Legs are counted from 1 through the day.
/** @param {PlanView} plan */
export const legsOf = (plan) => {
  const legs = [];
  for (const item of plan.items) {
    if (item.role !== "route") continue;
    for (let i = 1; i < item.points.length; i++) legs.push({ number: legs.length + 1, feature: item.feature, vertex: i, a: item.points[i - 1], b: item.points[i] });
  }
  return legs;
};

/** @param {any} geometry @returns {Point[][]} */
export const outline = (geometry) => {
  if (!geometry) return [];
  if (geometry.type === "Polygon") return geometry.coordinates.map((/** @type {Point[]} */ ring) => ring.map(project));
  if (geometry.type === "MultiPolygon") return geometry.coordinates.flat().map((/** @type {Point[]} */ ring) => ring.map(project));
  if (geometry.type === "MultiLineString") return geometry.coordinates.map((/** @type {Point[]} */ line) => line.map(project));
  return [positions(geometry).map(project)];
};

/** @param {string | null} text */
export const readReport = (text) => {
  /** @type {ReportView} */
  const report = { legs: new Map(), findings: [], zones: [], slowDowns: [], clearances: [], circles: [], worst: new Map() };
  if (text === null) return report;
  const doc = JSON.parse(text);
  for (const feature of doc.features ?? []) {
    const p = feature.properties ?? {};
    const lines = outline(feature.geometry).filter((line) => line.length > 0);
    if (lines.length === 0 && p.kind !== "finding") continue;
    const item = { props: p, lines, type: feature.geometry?.type ?? "" };
    if (p.kind === "leg") report.legs.set(p.leg, item);
    else if (p.kind === "zone") report.zones.push(item);
    else if (p.kind === "slow-down") report.slowDowns.push(item);
    else if (p.kind === "clearance") report.clearances.push(item);
    else if (p.kind === "swinging-circle") report.circles.push(item);
    else if (p.kind === "finding") addFinding(report, item);
  }
  return report;
};

// Findings keep the index they have among the report's findings.
/** @param {ReportView} report @param {ReportItem} item */
function addFinding(report, item) {
  const others = Array.isArray(item.props.also) ? item.props.also : [];
  const also = others.filter((place) => Array.isArray(place.position)).map((place) => project(place.position));
  report.findings.push({ ...item, index: report.findings.length, also });
  for (const { leg } of [item.props, ...others]) noteWorst(report, leg, item.props.severity);
}

/** @param {ReportView} report @param {Leg} leg @param {string} severity */
function noteWorst(report, leg, severity) {
  if (typeof leg !== "number") return;
  const known = severityFrom(severity);
  const old = report.worst.get(leg);
  if (old === undefined || byGravity(known, old) < 0) report.worst.set(leg, known);
}

// How a leg is drawn: by the report's worst finding if the report is about
// this very leg, else as not checked. What is known of a plan whose point is dragged
// is about the plan as it is drawn: its legs are taken by their numbers.
/** @param {Leg} leg @param {ReportView} report @param {boolean} byNumber */
export const severityOf = (leg, report, byNumber) => {
  const known = report.legs.get(leg.number);
  if (!known) return "unchecked";
  const line = known.lines[0];
  /** @param {Point} p @param {Point} q */
  const far = (p, q) => Math.hypot(p[0] - q[0], p[1] - q[1]) > SAME_M;
  if (!byNumber && (far(line[0], leg.a) || far(line[line.length - 1], leg.b))) return "unchecked";
  const worst = report.worst.get(leg.number);
  return worst === undefined || worst === "note" ? "clear" : worst;
};

/** @param {PlanView} plan */
export const boxOf = (plan) => {
  const box = EMPTY_BOX();
  for (const item of plan.items) for (const p of item.points) growBox(box, p[0], p[1]);
  return box[0] > box[2] ? null : box;
};
