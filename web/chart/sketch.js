// What is being drawn by hand: a route, the outline of a zone, one danger.
import { strokeLine } from "./overlay.js";
import { unproject } from "./space.js";
import * as trace from "./trace.js";

/** @type {Record<string, number>} */
const LEAST = { route: 2, zone: 3, danger: 1 };
/** @type {Record<string, string>} */
const WORDS = { route: "A route needs two points or more.", zone: "A zone needs three points or more.", danger: "Tap where the danger lies." };

export class Sketch {
  /** @param {Notify} notify @param {() => void} redraw */
  constructor(notify, redraw) {
    this.notify = notify;
    this.redraw = redraw;
    this.mode = "look";
    /** @type {Point[]} */
    this.points = [];
    /** @type {Point | null} */
    this.hover = null;
  }

  get active() {
    return this.mode !== "look";
  }

  /** @param {string} mode */
  setMode(mode) {
    this.mode = LEAST[mode] ? mode : "look";
    this.clear();
  }

  clear() {
    this.points = [];
    this.hover = null;
    this.redraw();
  }

  tell() {
    this.notify("sketching", { mode: this.mode, points: this.points.length });
    this.redraw();
  }

  /** @param {Point} point */
  add(point) {
    if (!this.active) return;
    this.points.push(point);
    this.tell();
    if (this.mode === "danger") this.finish();
  }

  undo() {
    if (!this.active || this.points.length === 0) return;
    this.points.pop();
    this.tell();
  }

  // Gives the sketch to the page and starts afresh.
  finish() {
    if (!this.active) return;
    if (this.points.length < LEAST[this.mode]) {
      this.notify("trouble", { text: WORDS[this.mode] });
      return;
    }
    const coordinates = this.points.map(unproject);
    const mode = this.mode;
    this.clear();
    this.notify("sketch", { mode, coordinates });
  }

  cancel() {
    if (!this.active) return;
    this.clear();
    this.notify("sketching", { mode: this.mode, points: 0 });
  }

  /** @param {Ctx} ctx @param {ToScreen} at @param {Colours} c @param {number} u */
  draw(ctx, at, c, u) {
    if (this.points.length === 0) return;
    const line = this.points.map(at);
    const ahead = this.hover ? [...line, at(this.hover)] : line;
    if (this.mode === "zone" && ahead.length > 2) {
      ctx.beginPath();
      for (const [x, y] of ahead) ctx.lineTo(x, y);
      ctx.closePath();
      ctx.fillStyle = c.ownFill;
      ctx.fill();
      strokeLine(ctx, [ahead[ahead.length - 1], ahead[0]], c.focus, 1.5 * u, [4 * u, 5 * u]);
    }
    strokeLine(ctx, ahead, c.halo, 5 * u);
    strokeLine(ctx, line, c.focus, 3 * u);
    if (this.hover) strokeLine(ctx, ahead.slice(-2), c.focus, 2 * u, [6 * u, 5 * u]);
    for (const [x, y] of line) trace.disc(ctx, x, y, 5.5 * u, c.paper, c.focus, 2.5 * u);
  }
}

// The cross-hair that Enter puts points at.
/** @param {Ctx} ctx @param {Frame} view @param {Colours} c */
export const drawCrossHair = (ctx, view, c) => {
  const u = view.ratio;
  const x = view.width / 2;
  const y = view.height / 2;
  for (const { colour, width } of [{ colour: c.halo, width: 4 }, { colour: c.focus, width: 1.8 }]) {
    for (const [dx, dy] of [[1, 0], [-1, 0], [0, 1], [0, -1]]) {
      strokeLine(ctx, [[x + dx * 5 * u, y + dy * 5 * u], [x + dx * 20 * u, y + dy * 20 * u]], colour, width * u);
    }
  }
};
