// Meridians and parallels with their figures in degrees and decimal minutes at
// the edges, and the scale bar in nautical miles.
import { haloText, SANS } from "./labels.js";
import { latOf, lonOf, stretch, xOf, yOf } from "./space.js";

const STEPS_MIN = [0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 30, 60, 120, 300, 600, 1200]; // minutes of arc
const LEAST_APART_PX = 130;
const NM_M = 1852;
const BAR_PX = 130; // the longest a scale bar gets

/** @param {number} minutesPerPx */
const stepFor = (minutesPerPx) => STEPS_MIN.find((s) => s / minutesPerPx >= LEAST_APART_PX) ?? 1800;

/** @param {number} degrees @param {number} step @param {string} positive @param {string} negative */
export const figure = (degrees, step, positive, negative) => {
  const decimals = step < 0.1 ? 2 : step < 1 ? 1 : 0;
  const factor = 10 ** decimals;
  const minutes = Math.round(Math.abs(degrees) * 60 * factor) / factor;
  const whole = Math.floor(minutes / 60 + 1e-9);
  const rest = Math.abs(minutes - whole * 60).toFixed(decimals).padStart(decimals ? 3 + decimals : 2, "0");
  const side = minutes === 0 ? "" : degrees > 0 ? ` ${positive}` : ` ${negative}`;
  return `${whole}°${rest}′${side}`;
};

/** @param {Ctx} ctx @param {Frame} view @param {Colours} c */
export const drawGraticule = (ctx, view, c) => {
  const u = view.ratio;
  const west = lonOf(view.west);
  const east = lonOf(view.east);
  const minutesPerPx = ((east - west) * 60) / (view.width / u);
  const step = stepFor(minutesPerPx);
  ctx.strokeStyle = c.grid;
  ctx.lineWidth = Math.max(1, Math.round(u));
  ctx.beginPath();
  /** @type {Point[]} */
  const columns = [];
  for (let i = Math.ceil((west * 60) / step); i * step <= east * 60; i++) {
    const x = Math.round((xOf((i * step) / 60) - view.west) * view.perM) + 0.5;
    columns.push([x, (i * step) / 60]);
    ctx.moveTo(x, 0);
    ctx.lineTo(x, view.height);
  }
  /** @type {Point[]} */
  const rows = [];
  for (let i = Math.ceil((latOf(view.south) * 60) / step); i * step <= latOf(view.north) * 60; i++) {
    const y = Math.round((view.north - yOf((i * step) / 60)) * view.perM) + 0.5;
    rows.push([y, (i * step) / 60]);
    ctx.moveTo(0, y);
    ctx.lineTo(view.width, y);
  }
  ctx.stroke();
  write(ctx, view, columns, rows, step, c);
};

/** @param {Ctx} ctx @param {Frame} view @param {Point[]} columns @param {Point[]} rows @param {number} step @param {Colours} c */
function write(ctx, view, columns, rows, step, c) {
  const u = view.ratio;
  ctx.font = `${10.5 * u}px ${SANS}`;
  ctx.textBaseline = "middle";
  ctx.textAlign = "center";
  for (const [x, lon] of columns) {
    if (x < 60 * u || x > view.width - 60 * u) continue;
    const wrapped = ((((lon + 180) % 360) + 360) % 360) - 180;
    haloText(ctx, figure(wrapped, step, "E", "W"), x, 9 * u, c.text, c.halo, 3 * u);
  }
  ctx.textAlign = "left";
  for (const [y, lat] of rows) {
    if (y < 24 * u || y > view.height - 20 * u) continue;
    haloText(ctx, figure(lat, step, "N", "S"), 5 * u, y - 8 * u, c.text, c.halo, 3 * u);
  }
}

// A bar of a round number of nautical miles at the middle of the view.
export class ScaleBar {
  /** @param {HTMLElement} parent */
  constructor(parent) {
    this.element = document.createElement("div");
    this.element.className = "keelroom-chart-scale";
    this.words = document.createElement("span");
    this.bar = document.createElement("span");
    this.bar.className = "keelroom-chart-scale-bar";
    this.element.append(this.words, this.bar);
    parent.append(this.element);
    this.last = "";
  }

  /** @param {Frame} view */
  show(view) {
    const ground = view.resolution * stretch(view.centre[1]); // metres a CSS pixel
    const most = (BAR_PX * ground) / NM_M;
    const power = 10 ** Math.floor(Math.log10(most));
    const nm = [5, 2, 1].map((n) => n * power).find((n) => n <= most * 1.0001) ?? power;
    const px = Math.round((nm * NM_M) / ground);
    const text = `${Number(nm.toPrecision(1))} nm`;
    if (this.last === text + px) return;
    this.last = text + px;
    this.words.textContent = text;
    this.bar.style.width = `${px}px`;
  }
}
