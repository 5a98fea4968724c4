// Aids to navigation, drawn from their own shape: can, cone, sphere, pillar,
// spar, with the topmarks of the IALA Maritime Buoyage System. A letter stands
// beside each, so that nothing hangs on colour.
import * as trace from "./trace.js";

// S-57 COLOUR: the colour and the letter charts use for it.
/** @type {Record<number, [string, string]>} */
const COLOURS = {
  1: ["white", "W"], 2: ["black", "B"], 3: ["red", "R"], 4: ["green", "G"], 5: ["blue", "Bu"], 6: ["yellow", "Y"], 7: ["grey", "Gy"],
  8: ["brown", "Br"], 9: ["orange", "Am"], 10: ["violet", "Vi"], 11: ["orange", "Or"], 12: ["magenta", "Mg"], 13: ["magenta", "Pk"],
};
/** @type {Record<number, string>} */
const CARDINALS = { 1: "N", 2: "E", 3: "S", 4: "W" };

// Outlines in units of the mark, standing on 0, 0, y up.
/** @type {Record<string, Point[] | null>} */
const BODIES = {
  cone: [[-4.5, 0], [4.5, 0], [0, 11]],
  can: [[-4, 0], [4, 0], [4, 9], [-4, 9]],
  sphere: null,
  pillar: [[-4.5, 0], [4.5, 0], [1.6, 3.5], [1.6, 12], [-1.6, 12], [-1.6, 3.5]],
  spar: [[-1.5, 0], [1.5, 0], [1.5, 13], [-1.5, 13]],
  barrel: [[-6, 1], [6, 1], [6, 6], [-6, 6]],
  tower: [[-4.5, 0], [4.5, 0], [2.8, 12], [-2.8, 12]],
  large: [[-7, 0], [7, 0], [4, 4], [2, 4], [2, 10], [-2, 10], [-2, 4], [-4, 4]],
};
/** @type {Record<number, string>} */
const BUOY_SHAPES = { 1: "cone", 2: "can", 3: "sphere", 4: "pillar", 5: "spar", 6: "barrel", 7: "large", 8: "spar" };
/** @type {Record<number, string>} */
const BEACON_SHAPES = { 1: "spar", 2: "spar", 3: "tower", 4: "tower", 5: "spar", 6: "cone", 7: "pillar" };

/** @param {Props} p */
const bodyOf = (p) => (String(p.c).startsWith("BCN") ? BEACON_SHAPES[p.shape] : BUOY_SHAPES[p.shape]) ?? "pillar";

/** @param {Ctx} ctx @param {Point[]} points @param {number} x @param {number} y @param {number} u */
const pathOf = (ctx, points, x, y, u) => {
  ctx.beginPath();
  for (const [px, py] of points) ctx.lineTo(x + px * u, y - py * u);
  ctx.closePath();
};

/** @param {any[]} list @param {Colours} colours */
const bands = (list, colours) => {
  const known = (list ?? []).map((v) => colours[COLOURS[v]?.[0]]).filter(Boolean);
  return known.length ? known : [colours.grey];
};

// Fills the path with its colours as bands, from the top down or (safe water)
// from left to right.
/** @param {Ctx} ctx @param {any[]} list @param {number} x @param {number} y @param {number} u @param {boolean} upright */
const fillBands = (ctx, list, x, y, u, upright) => {
  ctx.save();
  ctx.clip();
  const n = list.length;
  const stripes = upright ? [...list, ...list, ...list].slice(0, Math.max(3, n)) : list;
  stripes.forEach((colour, i) => {
    ctx.fillStyle = colour;
    if (upright) ctx.fillRect(x + (-6 + (12 * i) / stripes.length) * u, y - 14 * u, (12 / stripes.length) * u + 1, 15 * u);
    else ctx.fillRect(x - 8 * u, y - (13 - (13 * i) / stripes.length) * u, 16 * u, (13 / stripes.length) * u + 1);
  });
  ctx.restore();
};

/** @param {Ctx} ctx @param {Props} p @param {number} x @param {number} y @param {number} u @param {Colours} colours @param {boolean} upright */
const drawBody = (ctx, p, x, y, u, colours, upright) => {
  const body = bodyOf(p);
  if (body === "sphere") {
    ctx.beginPath();
    ctx.arc(x, y - 5 * u, 5 * u, 0, 7);
  } else {
    pathOf(ctx, BODIES[body] ?? [], x, y, u);
  }
  const list = bands(p.COLOUR, colours);
  if (list.length === 1) {
    ctx.fillStyle = list[0];
    ctx.fill();
  } else {
    const again = () => (body === "sphere" ? (ctx.beginPath(), ctx.arc(x, y - 5 * u, 5 * u, 0, 7)) : pathOf(ctx, BODIES[body] ?? [], x, y, u));
    fillBands(ctx, list, x, y, u, upright);
    again();
  }
  ctx.strokeStyle = colours.text;
  ctx.lineWidth = 1.1 * u;
  ctx.stroke();
  ctx.beginPath();
  ctx.arc(x, y, 1.7 * u, 0, 7);
  ctx.fillStyle = colours.halo;
  ctx.fill();
  ctx.stroke();
  return body === "sphere" ? 10 : body === "barrel" ? 6 : body === "can" ? 9 : 12.5;
};

/** @type {Point[]} */
const UP = [[-3.2, 0], [3.2, 0], [0, 4.6]];
/** @type {Point[]} */
const DOWN = [[-3.2, 4.6], [3.2, 4.6], [0, 0]];
/** @type {Record<number, Point[][]>} */
const TOPMARKS = { 1: [UP, UP], 2: [DOWN, UP], 3: [DOWN, DOWN], 4: [UP, DOWN] }; // lower, upper

/** @param {Ctx} ctx @param {number} catcam @param {number} x @param {number} y @param {number} u @param {Colours} colours */
const drawCardinalTop = (ctx, catcam, x, y, u, colours) => {
  const pair = TOPMARKS[catcam];
  if (!pair) return;
  pair.forEach((cone, i) => {
    pathOf(ctx, cone, x, y - i * 5.2 * u, u);
    ctx.fillStyle = colours.black;
    ctx.fill();
    ctx.strokeStyle = colours.text;
    ctx.lineWidth = 0.8 * u;
    ctx.stroke();
  });
};

/** @param {Ctx} ctx @param {number} x @param {number} y @param {number} r @param {string} fill @param {string} edge @param {number} u */
const ball = (ctx, x, y, r, fill, edge, u) => trace.disc(ctx, x, y, r, fill, edge, 0.8 * u);

/** @param {Ctx} ctx @param {string} kind @param {Props} p @param {number} x @param {number} y @param {number} u @param {Colours} colours */
const drawTop = (ctx, kind, p, x, y, u, colours) => {
  if (kind === "cardinal") drawCardinalTop(ctx, p.CATCAM, x, y, u, colours);
  else if (kind === "isolated") [2.6, 8].forEach((up) => ball(ctx, x, y - up * u, 2.4 * u, colours.black, colours.text, u));
  else if (kind === "safe") ball(ctx, x, y - 2.8 * u, 2.5 * u, colours.red, colours.text, u);
  else if (kind === "special") {
    ctx.strokeStyle = colours.text;
    ctx.lineWidth = 1.3 * u;
    ctx.beginPath();
    ctx.moveTo(x - 2.5 * u, y - 5 * u);
    ctx.lineTo(x + 2.5 * u, y);
    ctx.moveTo(x + 2.5 * u, y - 5 * u);
    ctx.lineTo(x - 2.5 * u, y);
    ctx.stroke();
  }
};

/** @param {string} kind @param {Props} p */
export const letterOf = (kind, p) => {
  if (kind === "cardinal") return CARDINALS[p.CATCAM] ?? "?";
  const letters = (Array.isArray(p.COLOUR) ? p.COLOUR : []).map((v) => COLOURS[v]?.[1] ?? "").join("");
  return letters || "?";
};

/** @param {Ctx} ctx @param {string} kind @param {Props} p @param {number} x @param {number} y @param {Frame} frame @param {Colours} colours */
export const drawMark = (ctx, kind, p, x, y, frame, colours) => {
  const u = frame.ratio * (frame.scale < 30000 ? 1.15 : 0.85);
  const top = drawBody(ctx, p, x, y, u, colours, kind === "safe");
  drawTop(ctx, kind, p, x, y - (top + 1.2) * u, u, colours);
  return { u, letter: letterOf(kind, p), top };
};

// A light: four rays about a point.
/** @param {Ctx} ctx @param {number} x @param {number} y @param {number} unit @param {Colours} colours */
export const drawLight = (ctx, x, y, unit, colours) => {
  ctx.beginPath();
  for (let i = 0; i < 8; i++) {
    const r = (i % 2 ? 2 : 7.5) * unit;
    const a = (i * Math.PI) / 4;
    ctx.lineTo(x + r * Math.sin(a), y - r * Math.cos(a));
  }
  ctx.closePath();
  ctx.fillStyle = colours.yellow;
  ctx.fill();
  ctx.strokeStyle = colours.text;
  ctx.lineWidth = 0.8 * unit;
  ctx.stroke();
};
