// Paints soundings, dangers, marks and the other objects that are points.
import { placeIn, write, writeDepth } from "./labels.js";
import { drawLight, drawMark } from "./marks.js";
import { meets } from "./space.js";
import * as trace from "./trace.js";

/** @param {Ctx} ctx @param {string} colour @param {number} width @param {(ctx: Ctx) => void} draw @param {number[]} [dash] */
export const stroke = (ctx, colour, width, draw, dash = []) => {
  ctx.beginPath();
  draw(ctx);
  ctx.setLineDash(dash);
  ctx.strokeStyle = colour;
  ctx.lineWidth = width;
  ctx.stroke();
  ctx.setLineDash([]);
};

/** @param {number} x @param {number} y @param {number} r @param {number} n @param {number} [turn] */
const arms = (x, y, r, n, turn = 0) => (/** @type {Ctx} */ c) => {
  for (let i = 0; i < n; i++) {
    const a = turn + (i * Math.PI) / n;
    c.moveTo(x - r * Math.sin(a), y - r * Math.cos(a));
    c.lineTo(x + r * Math.sin(a), y + r * Math.cos(a));
  }
};

/** @param {Ctx} ctx @param {number} x @param {number} y @param {number} rx @param {number} ry @param {number} u @param {Colours} c */
const dotted = (ctx, x, y, rx, ry, u, c) => {
  ctx.beginPath();
  ctx.ellipse(x, y, rx * u, ry * u, 0, 0, 7);
  ctx.globalAlpha = 0.75;
  ctx.fillStyle = c.halo;
  ctx.fill();
  ctx.globalAlpha = 1;
  stroke(ctx, c.danger, 1.4 * u, (k) => k.ellipse(x, y, rx * u, ry * u, 0, 0, 7), [1.4 * u, 2.4 * u]);
};

/** @param {Ctx} ctx @param {Props} p @param {number} x @param {number} y @param {number} u @param {Colours} c */
const depthIn = (ctx, p, x, y, u, c) => {
  dotted(ctx, x, y, 10, 8, u, c);
  writeDepth(ctx, null, p.VALSOU, x, y, { size: 10.5, colour: c.danger, unit: u });
};

// WATLEV: 1, 2 always dry; 4 covers and uncovers; 5 awash; 3 under water.
/** @param {Ctx} ctx @param {Props} p @param {number} x @param {number} y @param {number} u @param {Colours} c */
const drawRock = (ctx, p, x, y, u, c) => {
  if (typeof p.VALSOU === "number") return depthIn(ctx, p, x, y, u, c);
  const level = Number(p.WATLEV);
  if (level === 4) return stroke(ctx, c.danger, 1.4 * u, arms(x, y, 4.6 * u, 3));
  if (level === 1 || level === 2) return islet(ctx, x, y, u, c);
  if (level !== 5) dotted(ctx, x, y, 7, 7, u, c);
  stroke(ctx, c.danger, 1.5 * u, arms(x, y, 4.4 * u, 2));
  if (level === 5) {
    ctx.fillStyle = c.danger;
    for (const [i, j] of [[-1, -1], [1, -1], [-1, 1], [1, 1]]) ctx.fillRect(x + (i * 3 - 0.7) * u, y + (j * 3 - 0.7) * u, 1.5 * u, 1.5 * u);
  }
};

// CATWRK: 1 no danger, 2 dangerous, 4 and 5 showing above the water.
/** @param {Ctx} ctx @param {Props} p @param {number} x @param {number} y @param {number} u @param {Colours} c */
const drawWreck = (ctx, p, x, y, u, c) => {
  if (typeof p.VALSOU === "number") {
    depthIn(ctx, p, x, y, u, c);
    return;
  }
  const kind = Number(p.CATWRK);
  if (kind === 4 || kind === 5) {
    stroke(ctx, c.danger, 1.5 * u, (k) => {
      k.moveTo(x - 8 * u, y + 2 * u);
      k.lineTo(x + 8 * u, y + 2 * u);
      k.moveTo(x - 6 * u, y + 2 * u);
      k.lineTo(x - 3 * u, y - 4 * u);
      k.lineTo(x + 6 * u, y + 2 * u);
      k.moveTo(x, y - 1 * u);
      k.lineTo(x + 3 * u, y - 7 * u);
    });
    return;
  }
  if (kind !== 1 && kind !== 3) dotted(ctx, x, y, 11, 7, u, c);
  stroke(ctx, c.danger, 1.5 * u, (k) => {
    k.moveTo(x - 7.5 * u, y);
    k.lineTo(x + 7.5 * u, y);
    for (const [dx, r] of [[-3.5, 2.6], [0, 4.4], [3.5, 2.6]]) {
      k.moveTo(x + dx * u, y - r * u);
      k.lineTo(x + dx * u, y + r * u);
    }
  });
};

/** @param {Ctx} ctx @param {Props} p @param {number} x @param {number} y @param {number} u @param {Colours} c */
const drawObstruction = (ctx, p, x, y, u, c) => {
  if (typeof p.VALSOU === "number") {
    depthIn(ctx, p, x, y, u, c);
    return;
  }
  dotted(ctx, x, y, 7.5, 7.5, u, c);
  const foul = [7, 9].includes(Number(p.CATOBS));
  if (foul) stroke(ctx, c.danger, 1.2 * u, (k) => {
    for (const d of [-2, 2]) {
      k.moveTo(x + d * u - u, y + 4 * u);
      k.lineTo(x + d * u + u, y - 4 * u);
      k.moveTo(x - 4 * u, y + d * u);
      k.lineTo(x + 4 * u, y + d * u);
    }
  });
  else stroke(ctx, c.danger, 1.6 * u, arms(x, y, 3.2 * u, 2, Math.PI / 4));
};

/** @param {Ctx} ctx @param {number} x @param {number} y @param {number} u @param {Colours} c */
function islet(ctx, x, y, u, c) {
  trace.disc(ctx, x, y, 2.6 * u, c.land, c.coast, 1.1 * u);
}

/** @param {number} r @param {string} colour @returns {DrawSymbol} */
const square = (r, colour) => (ctx, p, x, y, u, c) => {
  ctx.fillStyle = c[colour];
  ctx.fillRect(x - r * u, y - r * u, 2 * r * u, 2 * r * u);
};

// An anchor: ring, shank, stock, arms.
/** @param {Ctx} ctx @param {number} x @param {number} y @param {number} u @param {string} colour @param {number} [width] */
export const anchor = (ctx, x, y, u, colour, width = 1.5) => {
  stroke(ctx, colour, width * u, (k) => {
    k.moveTo(x + 1.6 * u, y - 6.4 * u);
    k.arc(x, y - 6.4 * u, 1.6 * u, 0, 7);
    k.moveTo(x, y - 4.8 * u);
    k.lineTo(x, y + 6 * u);
    k.moveTo(x - 3.4 * u, y - 2.6 * u);
    k.lineTo(x + 3.4 * u, y - 2.6 * u);
    k.moveTo(x - 5.4 * u, y + 1.4 * u);
    k.quadraticCurveTo(x - 4.6 * u, y + 6 * u, x, y + 6 * u);
    k.quadraticCurveTo(x + 4.6 * u, y + 6 * u, x + 5.4 * u, y + 1.4 * u);
  });
};

/** @param {string} letter @returns {DrawSymbol} */
const ringed = (letter) => (ctx, p, x, y, u, c) => {
  trace.disc(ctx, x, y, 6.5 * u, c.halo, c.notice, 1.2 * u);
  write(ctx, null, letter, x, y + 0.5 * u, { size: 9, colour: c.notice, halo: c.halo, unit: u, style: "bold" });
};

/** @type {Record<string, DrawSymbol>} */
const SYMBOLS = {
  rock: drawRock, wreck: drawWreck, obstruction: drawObstruction,
  islet: (ctx, p, x, y, u, c) => islet(ctx, x, y, u, c),
  pile: square(1.8, "coast"), house: square(2, "built"), plain: square(1.3, "soft"),
  landmark: ringed("L"), harbour: ringed("H"), notice: ringed("!"),
  anchor: (ctx, p, x, y, u, c) => anchor(ctx, x, y, u, c.notice),
  light: (ctx, p, x, y, u, c) => drawLight(ctx, x, y, u, c),
};
const DANGERS = new Set(["rock", "wreck", "obstruction"]);
/** @type {Record<string, number>} */
const HALF_PX = { rock: 6, wreck: 9, obstruction: 8, islet: 3, pile: 2, house: 2, plain: 2, light: 4, notice: 7, anchor: 7, landmark: 7, harbour: 7 };

// A skipper's own danger has another outline than a charted one.
/** @param {Ctx} ctx @param {number} x @param {number} y @param {number} u @param {Colours} c */
const ownRing = (ctx, x, y, u, c) => {
  stroke(ctx, c.own, 2 * u, (k) => {
    k.moveTo(x, y - 12 * u);
    k.lineTo(x + 12 * u, y);
    k.lineTo(x, y + 12 * u);
    k.lineTo(x - 12 * u, y);
    k.closePath();
  });
};

/** @param {Ctx} ctx @param {Room} room @param {Shape} shape @param {number} x @param {number} y @param {Frame} frame @param {Colours} c */
const drawSymbol = (ctx, room, shape, x, y, frame, c) => {
  const kind = shape.look.point ?? "";
  const u = frame.ratio * (frame.scale < 45000 ? 1 : 0.8);
  const danger = DANGERS.has(kind);
  if (!room.takeAround(x, y, (HALF_PX[kind] ?? 5) * u * (frame.scale < 45000 ? 0.55 : 0.9), danger && frame.scale < 15000) && !shape.props.own) return;
  SYMBOLS[kind]?.(ctx, shape.props, x, y, u, c);
  if (shape.props.light && frame.scale < 20000) {
    const style = { size: 10, colour: c.text, halo: c.halo, unit: u };
    const off = (11 + 2.7 * shape.props.light.length) * u;
    for (const [dx, dy] of [[off, 0], [-off, 0], [0, 14 * u]]) if (write(ctx, room, shape.props.light, x + dx, y + dy, style)) break;
  }
  if (shape.props.own) {
    ownRing(ctx, x, y, u, c);
    write(ctx, room, shape.props.n ? `own: ${shape.props.n}` : "own", x, y + 19 * u, { size: 11, colour: c.own, halo: c.halo, unit: u, style: "bold", force: true });
  }
};

/** @param {Ctx} ctx @param {Room} room @param {Shape} shape @param {number} x @param {number} y @param {Frame} frame @param {Colours} c */
const placeMark = (ctx, room, shape, x, y, frame, c) => {
  const { u, letter, top } = drawMark(ctx, shape.look.point ?? "", shape.props, x, y, frame, c);
  room.take([x - 5 * u, y - (top + 6) * u, x + 5 * u, y + 2 * u], true);
  if (frame.scale > 70000) return;
  const off = (10 + 3.2 * letter.length) * u;
  /** @type {Point[]} */
  const spots = [[x + off, y - 3 * u], [x - off, y - 3 * u], [x, y + 9 * u], [x, y - (top + 14) * u]];
  const style = { size: 10.5, colour: c.text, halo: c.halo, unit: u, style: "bold", pad: 0 };
  if (!spots.some(([sx, sy]) => write(ctx, room, letter, sx, sy, style))) write(ctx, room, letter, ...spots[0], { ...style, force: true });
  if (frame.scale < 9000 && shape.props.n) write(ctx, room, shape.props.n, x, y + 11 * u, { size: 10, colour: c.soft, halo: c.halo, unit: u });
};

const MARKS = new Set(["lateral", "cardinal", "isolated", "safe", "special"]);

/** @param {Shape} shape @param {Frame} frame @param {LayerSet} set */
const shown = (shape, frame, set) => {
  if (!meets(frame, shape.box, 15)) return false;
  if (shape.props.own) return true;
  const kind = shape.look.point ?? "";
  const danger = DANGERS.has(kind);
  return frame.scale <= Math.min(shape.scamin, shape.look.scale ?? Infinity, danger || MARKS.has(kind) ? set.scale * 6 : set.scale * 3);
};

/** @param {Ctx} ctx @param {LayerSet} set @param {Frame} frame @param {Colours} c @param {Room} room */
export function* paintPoints(ctx, set, frame, c, room) {
  let n = 0;
  for (const shape of set.points) {
    const kind = shape.look.point;
    if (!kind || !shown(shape, frame, set)) continue;
    for (let i = 0; i < shape.xy.length / 2; i++) {
      const x = (shape.xy[2 * i] - frame.west) * frame.perM;
      const y = (frame.north - shape.xy[2 * i + 1]) * frame.perM;
      if (MARKS.has(kind)) placeMark(ctx, room, shape, x, y, frame, c);
      else drawSymbol(ctx, room, shape, x, y, frame, c);
    }
    if (++n % 60 === 0) yield;
  }
}

// A least zoom of our own where the chart has no SCAMIN.
/** @param {Ctx} ctx @param {LayerSet} set @param {Frame} frame @param {Colours} c @param {Room} room */
export function* paintSoundings(ctx, set, frame, c, room) {
  if (frame.scale > Math.max(set.scale * 1.6, 20000)) return;
  let n = 0;
  for (const shape of set.soundings) {
    if (frame.scale > shape.scamin || !meets(frame, shape.box)) continue;
    const [x, y] = trace.point(shape, frame);
    writeDepth(ctx, room, shape.props.d, x, y, { size: 11, colour: c.depth, unit: frame.ratio, pad: 5 });
    if (++n % 80 === 0) yield;
  }
}

// The nature of the sea bed, in letters, where soundings leave room.
/** @param {Ctx} ctx @param {LayerSet} set @param {Frame} frame @param {Colours} c @param {Room} room */
export function* paintBeds(ctx, set, frame, c, room) {
  if (frame.scale > Math.max(set.scale * 0.8, 15000)) return;
  let n = 0;
  for (const shape of set.beds) {
    if (frame.scale > shape.scamin || !meets(frame, shape.box)) continue;
    const at = shape.kind === "area" ? placeIn(shape, frame) : null;
    const [x, y] = shape.kind === "area" ? [at?.x, at?.y] : trace.point(shape, frame);
    if (x === undefined || y === undefined) continue;
    write(ctx, room, shape.props.bed, x, y, { size: 10.5, colour: c.depth, halo: c.halo, unit: frame.ratio, style: "italic" });
    if (++n % 80 === 0) yield;
  }
}
