// The three palettes, and the patterns by which water is told apart without
// colour: dots dry, slanting lines too shallow, flat dashes a thin margin,
// plain enough, crossed lines with question marks unknown.
import { contextOf } from "./canvas.js";

const DAY = {
  dries: "#d9c48e", driesInk: "#7a6226", shallow: "#ecc3b4", shallowInk: "#a4492f", margin: "#d3dfe0", marginInk: "#5b7f8c",
  enough: "#eaf1ef", neutral: "#dfe0da", neutralInk: "#a9aba2", unknown: "#e6dfea", unknownInk: "#8d74a6",
  land: "#b9b3a2", built: "#a59e8b", coast: "#3c3a33", contour: "#7f97a0", depth: "#41535c", text: "#1d2a33", halo: "#fbf8ee",
  paper: "#fffdf6", soft: "#55626b", rule: "#8a5200", noEntry: "#9c1c1c", notice: "#6b5b86", works: "#7a5a3a", cover: "#55626b",
  red: "#c0282c", green: "#1c7a44", yellow: "#d9a400", black: "#15191c", white: "#ffffff", orange: "#d96c13", blue: "#2b5fa8", grey: "#77808a", brown: "#7a4f2a", violet: "#7d3f98", magenta: "#b3307f",
  danger: "#7e1f1f", own: "#00686b", ownFill: "rgba(0,104,107,0.10)", grid: "rgba(29,42,51,0.22)",
  route: "#17323f", bad: "#9c1c1c", care: "#a05f00", none: "#5b2a86", good: "#1e6136", note: "#33566b", focus: "#0b63c4", circle: "#17323f",
};
const BRIGHT = {
  ...DAY,
  dries: "#e3b94f", driesInk: "#3f2f00", shallow: "#ff9f86", shallowInk: "#7a1400", margin: "#b5d3dc", marginInk: "#12495d",
  enough: "#ffffff", neutral: "#e3e3e3", neutralInk: "#6a6a6a", unknown: "#e2cff0", unknownInk: "#4b1a78",
  land: "#9c937a", built: "#857b60", coast: "#000000", contour: "#3d6577", depth: "#000000", text: "#000000", halo: "#ffffff",
  paper: "#ffffff", soft: "#1b1b1b", rule: "#7a3d00", noEntry: "#a00000", notice: "#41206b", works: "#4d2f10", cover: "#000000",
  red: "#d00012", green: "#007a35", yellow: "#e0a800", danger: "#800000", own: "#00494c", ownFill: "rgba(0,73,76,0.14)", grid: "rgba(0,0,0,0.35)",
  route: "#000000", bad: "#a80000", care: "#8f4a00", none: "#4b1a78", good: "#00561f", note: "#0e3c55", focus: "#0047b3", circle: "#000000",
};
const NIGHT = {
  dries: "#2e2106", driesInk: "#7d5a14", shallow: "#35100a", shallowInk: "#8c2f1c", margin: "#170d0a", marginInk: "#5e3324",
  enough: "#0b0706", neutral: "#15100f", neutralInk: "#3d2a26", unknown: "#170a12", unknownInk: "#6b2c4b",
  land: "#2a1a12", built: "#3a2417", coast: "#8a4a2c", contour: "#4c2a20", depth: "#97503a", text: "#c0603e", halo: "#0b0706",
  paper: "#120a08", soft: "#8c4a36", rule: "#a4661a", noEntry: "#c0301f", notice: "#7d4256", works: "#6e4424", cover: "#6e3a2a",
  red: "#c2331f", green: "#6f7a22", yellow: "#b5811c", black: "#050303", white: "#b98a72", orange: "#b85c18", blue: "#5e4a6a", grey: "#6e5348", brown: "#6e4424", violet: "#74405c", magenta: "#93344f",
  danger: "#d2452d", own: "#b0752a", ownFill: "rgba(176,117,42,0.14)", grid: "rgba(192,96,62,0.22)",
  route: "#d08a52", bad: "#e0412b", care: "#d08a1c", none: "#b0527e", good: "#8f8f2e", note: "#9c6a50", focus: "#f0a050", circle: "#d08a52",
};
/** @type {Record<string, Colours>} */
const PALETTES = { day: DAY, bright: BRIGHT, night: NIGHT };

export const TILE_PX = 24;

/** @type {Record<string, (c: Ctx, s: number) => void>} */
const drawOn = {
  /** @param {Ctx} c @param {number} s */
  dries(c, s) {
    for (const [x, y] of [[4, 4], [16, 4], [10, 12], [22, 12], [4, 20], [16, 20]]) {
      c.beginPath();
      c.arc(x, y, 1.1 * s, 0, 7);
      c.fill();
    }
  },
  /** @param {Ctx} c */
  shallow(c) {
    c.lineWidth = 1.3;
    slants(c, 8, 1);
  },
  /** @param {Ctx} c */
  margin(c) {
    c.lineWidth = 1;
    c.beginPath();
    for (const [x, y] of [[2, 6], [14, 18]]) {
      c.moveTo(x, y + 0.5);
      c.lineTo(x + 8, y + 0.5);
    }
    c.stroke();
  },
  enough() {},
  /** @param {Ctx} c */
  neutral(c) {
    for (const [x, y] of [[6, 6], [18, 18]]) c.fillRect(x, y, 1.5, 1.5);
  },
  /** @param {Ctx} c */
  unknown(c) {
    c.lineWidth = 0.8;
    c.globalAlpha = 0.4;
    slants(c, 24, 1);
    slants(c, 24, -1);
    c.globalAlpha = 0.8;
    c.font = "bold 11px system-ui, sans-serif";
    c.textAlign = "center";
    c.textBaseline = "middle";
    c.fillText("?", 12, 0.5);
    c.fillText("?", 12, 24.5);
  },
};

// Slanting lines that run on from tile to tile.
/** @param {Ctx} c @param {number} step @param {number} way */
function slants(c, step, way) {
  c.beginPath();
  for (let i = -TILE_PX; i <= 2 * TILE_PX; i += step) {
    c.moveTo(i - way * TILE_PX, -TILE_PX);
    c.lineTo(i + way * 2 * TILE_PX, 2 * TILE_PX);
  }
  c.stroke();
}

const OVER = new Set(["dries", "shallow", "unknown"]);

// The tile of a state; "shallow over" is its pattern without the tint.
/** @param {Colours} palette @param {string} name @param {number} ratio */
export const makeTile = (palette, name, ratio) => {
  const [state, over] = name.split(" ");
  const size = Math.round(TILE_PX * ratio);
  const tile = document.createElement("canvas");
  tile.width = tile.height = size;
  const c = contextOf(tile);
  c.fillStyle = palette[state];
  if (!over) c.fillRect(0, 0, size, size);
  c.scale(size / TILE_PX, size / TILE_PX);
  c.fillStyle = c.strokeStyle = palette[state + "Ink"] ?? palette[state];
  drawOn[state](c, 1);
  return tile;
};

const tiles = new Map();

// The fill of a state in a frame; null where there is none. The pattern is tied to the ground, so that
// it does not jump when a new picture takes the place of an old one.
/** @param {Ctx} ctx @param {string} name @param {string} state @param {Frame} frame */
export const fillOf = (ctx, name, state, frame) => {
  const palette = PALETTES[name];
  if (state === "enough") return palette.enough;
  if (state.endsWith(" over") && !OVER.has(state.slice(0, -5))) return null;
  const key = `${name} ${state} ${frame.ratio}`;
  if (!tiles.has(key)) tiles.set(key, makeTile(palette, state, frame.ratio));
  const tile = tiles.get(key);
  const pattern = /** @type {CanvasPattern} */ (ctx.createPattern(tile, "repeat"));
  /** @param {number} v */
  const shift = (v) => -Math.round(((v % tile.width) + tile.width) % tile.width);
  pattern.setTransform(new DOMMatrix([1, 0, 0, 1, shift(frame.west * frame.perM), shift(-frame.north * frame.perM)]));
  return pattern;
};

/** @param {string} name */
export const paletteOf = (name) => PALETTES[name];
export const paletteNames = Object.keys(PALETTES);
