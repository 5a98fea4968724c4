// Draws what the report says, where it holds: findings by their shapes, the
// swinging circle, limits' beginnings, slow-down points, least clearances.
import { byGravity } from "../rules.js";
import { knots } from "./classes.js";
import { SANS, write } from "./labels.js";
import { KEYS, longOf, strokeLine, tag } from "./overlay.js";
import { EMPTY_BOX, growBox } from "./space.js";
import * as trace from "./trace.js";

const SIZE_PX = 11; // half of a finding's shape
const NOTE_SCALE = 30000; // further out, notes are left to the list

/** @param {Ctx} ctx @param {ReportView} report @param {ToScreen} at @param {Colours} c @param {number} u */
export const drawCircles = (ctx, report, at, c, u) => {
  for (const circle of report.circles) {
    for (const ring of circle.lines) {
      const line = ring.map(at);
      ctx.beginPath();
      for (const [x, y] of line) ctx.lineTo(x, y);
      ctx.closePath();
      ctx.globalAlpha = 0.1;
      ctx.fillStyle = c.circle;
      ctx.fill();
      ctx.globalAlpha = 1;
      strokeLine(ctx, [...line, line[0]], c.circle, 1.6 * u, [8 * u, 3 * u, 2 * u, 3 * u]);
    }
  }
};

// Where a finding holds along a line or over an area.
/** @param {Ctx} ctx @param {Finding} finding @param {ToScreen} at @param {Colours} c @param {number} u */
export const drawReach = (ctx, finding, at, c, u) => {
  if (finding.type === "Point" || finding.props.severity === "note") return;
  const colour = c[KEYS[finding.props.severity] ?? "note"];
  for (const part of finding.lines) {
    ctx.globalAlpha = 0.35;
    strokeLine(ctx, part.map(at), colour, 11 * u, finding.props.severity === "no-data" ? [6 * u, 5 * u] : []);
    ctx.globalAlpha = 1;
  }
};

/** @param {Finding} finding @returns {Point | null} */
export const middle = (finding) => {
  const line = finding.lines[0];
  if (!line) return null;
  if (line.length === 1) return line[0];
  if (finding.type.endsWith("Polygon")) {
    const box = EMPTY_BOX();
    for (const p of line) growBox(box, p[0], p[1]);
    return [(box[0] + box[2]) / 2, (box[1] + box[3]) / 2];
  }
  const i = Math.floor((line.length - 1) / 2);
  return [(line[i][0] + line[i + 1][0]) / 2, (line[i][1] + line[i + 1][1]) / 2];
};

/** @param {Ctx} ctx @param {string} severity @param {number} x @param {number} y @param {Colours} c @param {number} u @param {boolean} chosen */
const drawShape = (ctx, severity, x, y, c, u, chosen) => {
  const colour = c[KEYS[severity] ?? "note"];
  const r = (chosen ? 1.3 : 1) * 7.5 * u;
  ctx.beginPath();
  if (severity === "care") {
    ctx.moveTo(x, y - r * 1.15);
    ctx.lineTo(x + r * 1.15, y + r * 0.9);
    ctx.lineTo(x - r * 1.15, y + r * 0.9);
    ctx.closePath();
  } else if (severity === "not-clear") ctx.rect(x - r, y - r, 2 * r, 2 * r);
  else ctx.arc(x, y, severity === "note" ? r * 0.8 : r * 1.05, 0, 7);
  const filled = severity === "not-clear" || severity === "care";
  ctx.fillStyle = filled ? colour : c.paper;
  ctx.strokeStyle = filled ? c.paper : colour;
  ctx.lineWidth = 1.8 * u;
  ctx.fill();
  ctx.stroke();
  if (severity === "no-data") write(ctx, null, "?", x, y + 0.5 * u, { size: 12, colour, halo: c.paper, unit: u, style: "bold" });
  else if (severity === "care") mark(ctx, "!", x, y + 1.5 * u, c.paper, u);
  else if (severity === "not-clear") cross(ctx, x, y, r * 0.5, c.paper, u);
  else strokeLine(ctx, [[x - 3 * u, y], [x + 3 * u, y]], colour, 2 * u);
};

/** @param {Ctx} ctx @param {string} text @param {number} x @param {number} y @param {string} colour @param {number} u */
function mark(ctx, text, x, y, colour, u) {
  ctx.font = `bold ${10 * u}px ${SANS}`;
  ctx.textAlign = "center";
  ctx.textBaseline = "middle";
  ctx.fillStyle = colour;
  ctx.fillText(text, x, y);
}

/** @param {Ctx} ctx @param {number} x @param {number} y @param {number} r @param {string} colour @param {number} u */
function cross(ctx, x, y, r, colour, u) {
  strokeLine(ctx, [[x - r, y - r], [x + r, y + r]], colour, 1.8 * u);
  strokeLine(ctx, [[x + r, y - r], [x - r, y + r]], colour, 1.8 * u);
}

// The shapes stand beside the track, the worst nearest; those at one place
// are laid in a row. Gives where each is, for taps.
/** @param {Ctx} ctx @param {ReportView} report @param {Frame} view @param {ToScreen} at @param {Colours} c @param {Room} room @param {number | undefined} chosen */
export const drawFindings = (ctx, report, view, at, c, room, chosen) => {
  const u = view.ratio;
  const placed = [];
  const order = [...report.findings].sort((a, b) => byGravity(a.props.severity, b.props.severity));
  for (const finding of order) {
    const note = finding.props.severity === "note";
    if (note && view.scale > NOTE_SCALE && finding.index !== chosen) continue;
    for (const [x, y] of placesOf(finding, at, u)) {
      const spot = freeSpot(room, x, y, u, note);
      if (!spot) continue;
      placed.push({ index: finding.index, x: spot[0], y: spot[1], severity: finding.props.severity });
      const colour = c[KEYS[finding.props.severity] ?? "note"];
      strokeLine(ctx, [[x, y], spot], c.halo, 2.6 * u);
      strokeLine(ctx, [[x, y], spot], colour, 1.1 * u);
    }
  }
  for (const s of placed) drawShape(ctx, s.severity, s.x, s.y, c, u, s.index === chosen);
  return placed;
};

// Where a finding holds, on the canvas: its own place and the others of it that
// are not drawn on top of one another.
/** @param {Finding} finding @param {ToScreen} at @param {number} u */
function placesOf(finding, at, u) {
  /** @type {Point[]} */
  const places = [];
  for (const p of [middle(finding), ...finding.also]) {
    if (!p) continue;
    const [x, y] = at(p);
    if (places.every(([px, py]) => Math.hypot(px - x, py - y) > 3 * SIZE_PX * u)) places.push([x, y]);
  }
  return places;
}

// A note gives way where there is no room; what is worse is drawn all the same.
/** @param {Room} room @param {number} x @param {number} y @param {number} u @param {boolean} note @returns {Point | null} */
function freeSpot(room, x, y, u, note) {
  const half = SIZE_PX * u;
  const tries = [[0, -22], [22, 0], [-22, 0], [0, 22], [18, -20], [-18, -20], [24, 20], [-24, 20], [0, -44], [44, 0], [-44, 0], [0, 44]];
  for (const [dx, dy] of tries) {
    if (room.takeAround(x + dx * u, y + dy * u, half)) return [x + dx * u, y + dy * u];
  }
  if (note) return null;
  room.takeAround(x, y - 22 * u, half, true);
  return [x, y - 22 * u];
}

/** @param {Ctx} ctx @param {number} x @param {number} y @param {string} colour @param {string} halo @param {number} u */
const bar = (ctx, x, y, colour, halo, u) => {
  for (const pen of [{ colour: halo, width: 6 }, { colour, width: 3 }]) {
    strokeLine(ctx, [[x, y - 9 * u], [x, y + 9 * u]], pen.colour, pen.width * u);
  }
};


/** @param {Ctx} ctx @param {ReportView} report @param {ToScreen} at @param {Colours} c @param {number} u */
export const drawLimits = (ctx, report, at, c, u) => {
  for (const z of report.zones) bar(ctx, ...at(z.lines[0][0]), c.rule, c.halo, u);
  for (const s of report.slowDowns) {
    const [x, y] = at(s.lines[0][0]);
    trace.shape(ctx, [[-6, -6], [6, -6], [0, 6]], x, y, u, c.paper, c.rule, 2 * u);
  }
};

/** @param {Ctx} ctx @param {ReportView} report @param {ToScreen} at @param {Colours} c @param {number} u @param {Room} room */
export const writeLimits = (ctx, report, at, c, u, room) => {
  for (const z of report.zones) {
    const [x, y] = at(z.lines[0][0]);
    tag(ctx, room, z.props.stated === false ? "limit not stated" : knots(z.props.limit_kn), x, y + 19 * u, c.rule, c, u);
  }
  for (const s of report.slowDowns) {
    const [x, y] = at(s.lines[0][0]);
    tag(ctx, room, `slow to ${knots(s.props.to_kn)}`, x, y - 17 * u, c.rule, c, u);
  }
};

/** @param {Ctx} ctx @param {ReportView} report @param {SeenLeg[]} legs @param {ToScreen} at @param {Colours} c @param {number} u @param {Room} room */
export const drawClearances = (ctx, report, legs, at, c, u, room) => {
  const least = [...report.clearances].sort((a, b) => a.props.clearance_m - b.props.clearance_m);
  for (const item of least) {
    const v = item.props.clearance_m;
    const leg = legs.find((l) => l.number === item.props.leg);
    if (typeof v !== "number" || !leg || longOf(leg) < 70 * u) continue;
    const [x, y] = at(item.lines[0][0]);
    // Already rounded down to hundredths: written as the report's words write it.
    const text = `${v < 0 ? "−" : ""}${Math.abs(v).toFixed(2)} m`;
    const spots = [[0, 15], [0, -15], [30, 0], [-30, 0]];
    const found = spots.find(([dx, dy]) => tag(ctx, room, text, x + dx * u, y + dy * u, c.soft, c, u, false));
    const atPoint = [leg.from, leg.to].some(([px, py]) => Math.hypot(px - x, py - y) < 7 * u);
    if (found && !atPoint) trace.disc(ctx, x, y, 2.6 * u, c.soft, c.halo, u);
  }
};
