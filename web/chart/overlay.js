// Draws the plan over the chart, afresh each time the map moves: legs, way
// points, stays, and what the report found where it holds.
import { SANS, widthOf, write } from "./labels.js";
import { anchor } from "./points.js";
import * as trace from "./trace.js";

export const HANDLE_LEG_PX = 96; // a shorter leg has no handle in its middle, so that its targets do not overlap
const NUMBER_LEG_PX = 54;
/** @type {Record<string, { key: string; width: number; dash?: number[]; double?: boolean }>} */
const PENS = {
  "not-clear": { key: "bad", width: 5 },
  "no-data": { key: "none", width: 3.5, dash: [7, 5] },
  care: { key: "care", width: 6, double: true },
  clear: { key: "good", width: 3 },
  unchecked: { key: "route", width: 2, dash: [2, 4] },
};
export const SHAPES = { "not-clear": "■", "no-data": "?", care: "▲", note: "–" };
/** @type {Record<string, string>} */
export const KEYS = { "not-clear": "bad", "no-data": "none", care: "care", note: "note" };

/** @param {Frame} view @returns {ToScreen} */
export const toScreen = (view) => (p) => [(p[0] - view.west) * view.perM, (view.north - p[1]) * view.perM];

/** @param {Ctx} ctx @param {Point[]} points @param {string} colour @param {number} width @param {number[]} [dash] */
export const strokeLine = (ctx, points, colour, width, dash = []) => {
  ctx.beginPath();
  for (const [x, y] of points) ctx.lineTo(x, y);
  ctx.setLineDash(dash);
  ctx.strokeStyle = colour;
  ctx.lineWidth = width;
  ctx.stroke();
  ctx.setLineDash([]);
};

/** @param {Ctx} ctx @param {SeenLeg} leg @param {string} severity @param {Colours} c @param {number} u */
const drawLeg = (ctx, leg, severity, c, u) => {
  const pen = PENS[severity];
  const line = [leg.from, leg.to];
  strokeLine(ctx, line, c.halo, (pen.width + 3) * u);
  strokeLine(ctx, line, c[pen.key], pen.width * u, (pen.dash ?? []).map((v) => v * u));
  if (pen.double) strokeLine(ctx, line, c.halo, 2 * u);
};

/** @param {Ctx} ctx @param {SeenLeg} leg @param {number} share @param {string} colour @param {string} halo @param {number} u */
const drawArrow = (ctx, leg, share, colour, halo, u) => {
  const x = leg.from[0] + (leg.to[0] - leg.from[0]) * share;
  const y = leg.from[1] + (leg.to[1] - leg.from[1]) * share;
  ctx.save();
  ctx.translate(x, y);
  ctx.rotate(Math.atan2(leg.to[1] - leg.from[1], leg.to[0] - leg.from[0]));
  ctx.beginPath();
  ctx.moveTo(9 * u, 0);
  ctx.lineTo(-6 * u, 6 * u);
  ctx.lineTo(-3 * u, 0);
  ctx.lineTo(-6 * u, -6 * u);
  ctx.closePath();
  ctx.fillStyle = colour;
  ctx.fill();
  ctx.strokeStyle = halo;
  ctx.lineWidth = 1.2 * u;
  ctx.stroke();
  ctx.restore();
};


/** @param {Ctx} ctx @param {Room} room @param {string} text @param {number} x @param {number} y @param {string} colour @param {Colours} c @param {number} u @param {boolean} [bold] */
export const tag = (ctx, room, text, x, y, colour, c, u, bold = true) => {
  const font = `${bold ? "bold " : ""}${11 * u}px ${SANS}`;
  const half = widthOf(ctx, font, text) / 2 + 4 * u;
  const high = 8.5 * u;
  if (!room.take([x - half, y - high, x + half, y + high])) return false;
  ctx.beginPath();
  ctx.roundRect(x - half, y - high, 2 * half, 2 * high, 3 * u);
  ctx.fillStyle = c.paper;
  ctx.fill();
  ctx.strokeStyle = colour;
  ctx.lineWidth = u;
  ctx.stroke();
  ctx.font = font;
  ctx.textAlign = "center";
  ctx.textBaseline = "middle";
  ctx.fillStyle = colour;
  ctx.fillText(text, x, y + 0.5 * u);
  return true;
};

/** @param {SeenLeg} leg @returns {Point} */
export const midOf = (leg) => [(leg.from[0] + leg.to[0]) / 2, (leg.from[1] + leg.to[1]) / 2];
/** @param {SeenLeg} leg */
export const longOf = (leg) => Math.hypot(leg.to[0] - leg.from[0], leg.to[1] - leg.from[1]);
/** @param {SeenLeg} leg @param {number} share @param {number} off */
const beside = (leg, share, off) => {
  const long = longOf(leg) || 1;
  const dx = (leg.to[0] - leg.from[0]) / long;
  const dy = (leg.to[1] - leg.from[1]) / long;
  return [leg.from[0] + (leg.to[0] - leg.from[0]) * share - dy * off, leg.from[1] + (leg.to[1] - leg.from[1]) * share + dx * off];
};

// A circle with a plus: here a point can be pulled out of the leg.
/** @param {Ctx} ctx @param {SeenLeg} leg @param {Colours} c @param {number} u */
const drawHandle = (ctx, leg, c, u) => {
  const [x, y] = midOf(leg);
  trace.disc(ctx, x, y, 6 * u, c.paper, c.soft, 1.2 * u);
  strokeLine(ctx, [[x - 3 * u, y], [x + 3 * u, y]], c.soft, 1.4 * u);
  strokeLine(ctx, [[x, y - 3 * u], [x, y + 3 * u]], c.soft, 1.4 * u);
};

/** @param {Ctx} ctx @param {SeenLeg[]} legs @param {Scene} scene @param {Colours} c @param {number} u @param {Room} room */
export const drawLegs = (ctx, legs, scene, c, u, room) => {
  for (const leg of legs) drawLeg(ctx, leg, leg.severity, c, u);
  for (const leg of legs) {
    const long = longOf(leg);
    if (long > NUMBER_LEG_PX * u) drawArrow(ctx, leg, long > HANDLE_LEG_PX * u ? 0.66 : 0.5, c[PENS[leg.severity].key], c.halo, u);
    if (long > HANDLE_LEG_PX * u && scene.mode === "look") {
      const [x, y] = midOf(leg);
      drawHandle(ctx, leg, c, u);
      room.takeAround(x, y, 7 * u, true);
    }
  }
  for (const leg of legs) {
    if (longOf(leg) < NUMBER_LEG_PX * u) continue;
    const [x, y] = beside(leg, 0.36, 15 * u);
    tag(ctx, room, String(leg.number), x, y, c[PENS[leg.severity].key], c, u);
  }
};

/** @param {Ctx} ctx @param {PlanView} plan @param {Scene} scene @param {ToScreen} at @param {Colours} c @param {number} u @param {Room} room */
export const drawWaypoints = (ctx, plan, scene, at, c, u, room) => {
  const stays = plan.items.filter((item) => item.role === "stay").map((item) => at(item.points[0]));
  for (const item of plan.items) {
    if (item.role !== "route") continue;
    item.points.forEach((p, i) => {
      const [x, y] = at(p);
      if (stays.some(([sx, sy]) => Math.hypot(sx - x, sy - y) < 3 * u)) return; // the stay's own sign is there
      const chosen = scene.selected?.feature === item.feature && scene.selected.vertex === i;
      room.takeAround(x, y, 6 * u, true);
      if (chosen) trace.disc(ctx, x, y, 14 * u, "transparent", c.focus, 3 * u);
      trace.disc(ctx, x, y, (chosen ? 7.5 : 5.5) * u, chosen ? c.focus : c.paper, c.route, 2 * u);
    });
  }
};

/** @param {Ctx} ctx @param {PlanItem} item @param {number} x @param {number} y @param {Colours} c @param {number} u */
const drawStay = (ctx, item, x, y, c, u) => {
  trace.disc(ctx, x, y, 13 * u, c.paper, c.route, 1.8 * u);
  if (item.props.kind === "mooring") {
    trace.disc(ctx, x, y - 2 * u, 4.5 * u, c.route, c.route, u);
    strokeLine(ctx, [[x, y + 2 * u], [x, y + 8 * u]], c.route, 2 * u);
  } else if (item.props.kind === "berth") bollard(ctx, x, y, c.route, u);
  else anchor(ctx, x, y, 1.15 * u, c.route, 1.7);
};

/** @param {Ctx} ctx @param {number} x @param {number} y @param {string} colour @param {number} u */
const bollard = (ctx, x, y, colour, u) => {
  ctx.fillStyle = colour;
  ctx.fillRect(x - 6 * u, y - 5 * u, 12 * u, 3 * u);
  ctx.fillRect(x - 3.5 * u, y - 3 * u, 7 * u, 7 * u);
  ctx.fillRect(x - 7 * u, y + 4 * u, 14 * u, 2 * u);
};

/** @param {Ctx} ctx @param {number} x @param {number} y @param {Colours} c @param {number} u */
const drawRefuge = (ctx, x, y, c, u) => {
  trace.shape(ctx, [[0, -11], [10, -3], [10, 9], [-10, 9], [-10, -3]], x, y, u, c.paper, c.route, 1.8 * u);
};

/** @param {Ctx} ctx @param {PlanItem} item @param {number} x @param {number} y @param {Colours} c @param {number} u */
const drawBerth = (ctx, item, x, y, c, u) => {
  trace.disc(ctx, x, y, 11 * u, c.paper, c.route, 1.8 * u);
  bollard(ctx, x, y, c.route, 0.9 * u);
  if (typeof item.props.heading_deg !== "number") return;
  const a = ((item.props.heading_deg - 90) * Math.PI) / 180;
  strokeLine(ctx, [[x + 11 * u * Math.cos(a), y + 11 * u * Math.sin(a)], [x + 20 * u * Math.cos(a), y + 20 * u * Math.sin(a)]], c.route, 2.5 * u);
};

// The place that something is told about: a ring with four hairs, open in the
// middle, so that what lies there is seen.
/** @param {Ctx} ctx @param {number} x @param {number} y @param {Colours} c @param {number} u @param {Room} room */
export const drawAsked = (ctx, x, y, c, u, room) => {
  room.takeAround(x, y, 12 * u, true);
  for (const { colour, width } of [{ colour: c.halo, width: 5 }, { colour: c.focus, width: 2.2 }]) {
    ctx.beginPath();
    ctx.arc(x, y, 9 * u, 0, 7);
    ctx.strokeStyle = colour;
    ctx.lineWidth = width * u;
    ctx.stroke();
    for (const [dx, dy] of [[1, 0], [-1, 0], [0, 1], [0, -1]]) strokeLine(ctx, [[x + 9 * dx * u, y + 9 * dy * u], [x + 17 * dx * u, y + 17 * dy * u]], colour, width * u);
  }
};

// Places to lie at, by their numbers: a plate on a staff with its foot at the place, so
// that what lies there is seen. The best is drawn last.
/** @param {Ctx} ctx @param {Point[]} places @param {ToScreen} at @param {Colours} c @param {number} u @param {Room} room */
export const drawAnchorages = (ctx, places, at, c, u, room) => {
  for (let i = places.length - 1; i >= 0; i--) {
    const [x, y] = at(places[i]);
    const wide = (i < 9 ? 15 : 22) * u;
    room.takeAround(x + wide / 2, y - 22 * u, 11 * u, true);
    strokeLine(ctx, [[x, y], [x, y - 30 * u]], c.halo, 5 * u);
    strokeLine(ctx, [[x, y], [x, y - 30 * u]], c.route, 2 * u);
    ctx.beginPath();
    ctx.rect(x, y - 30 * u, wide, 17 * u);
    ctx.fillStyle = c.paper;
    ctx.strokeStyle = c.route;
    ctx.lineWidth = 2 * u;
    ctx.fill();
    ctx.stroke();
    write(ctx, null, String(i + 1), x + wide / 2, y - 21.5 * u, { size: 13, colour: c.text, halo: c.paper, unit: u, style: "bold" });
  }
};

const UPWARD = ["refuge", "berth", "stay"]; // the last is drawn on top

/** @param {Ctx} ctx @param {PlanView} plan @param {Scene} scene @param {ToScreen} at @param {Colours} c @param {number} u @param {Room} room */
export const drawPlaces = (ctx, plan, scene, at, c, u, room) => {
  const stays = plan.items.filter((item) => item.role === "stay").map((item) => at(item.points[0]));
  for (const item of UPWARD.flatMap((role) => plan.items.filter((i) => i.role === role))) {
    let [x, y] = at(item.points[0]);
    if (item.role === "refuge" && stays.some(([sx, sy]) => Math.hypot(sx - x, sy - y) < 16 * u)) {
      x += 18 * u; // a refuge where she stays anyway stands beside the stay's sign
      y -= 18 * u;
    }
    if (scene.selected?.feature === item.feature) trace.disc(ctx, x, y, 19 * u, "transparent", c.focus, 3 * u);
    room.takeAround(x, y, 13 * u, true);
    if (item.role === "stay") drawStay(ctx, item, x, y, c, u);
    else if (item.role === "berth") drawBerth(ctx, item, x, y, c, u);
    else drawRefuge(ctx, x, y, c, u);
  }
};

/** @param {Ctx} ctx @param {PlanView} plan @param {ToScreen} at @param {Colours} c @param {number} u @param {Room} room @param {Frame} view */
export const namePlaces = (ctx, plan, at, c, u, room, view) => {
  if (view.scale > 80000) return;
  for (const item of plan.items) {
    if (item.role === "route" || !item.name) continue;
    const [x, y] = at(item.points[0]);
    write(ctx, room, item.name, x, y + 23 * u, { size: 12.5, colour: c.text, halo: c.halo, unit: u, serif: true });
  }
};
