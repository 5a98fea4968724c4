// Places writing so that no two pieces lie over each other; what comes first
// keeps its place.

const CELL_PX = 48;
export const SANS = "system-ui, 'Segoe UI', 'Liberation Sans', 'DejaVu Sans', sans-serif";
export const SERIF = "Georgia, 'Times New Roman', 'Liberation Serif', serif";

export class Room {
  constructor() {
    /** @type {Map<number, Box[]>} */
    this.cells = new Map();
  }

  // Takes a box [left, top, right, bottom] if it is free.
  /** @param {Box} box @param {boolean} [force] */
  take(box, force = false) {
    const [l, t, r, b] = box;
    const cells = [];
    for (let i = Math.floor(l / CELL_PX); i <= Math.floor(r / CELL_PX); i++) {
      for (let j = Math.floor(t / CELL_PX); j <= Math.floor(b / CELL_PX); j++) {
        const key = i * 65536 + j;
        const list = this.cells.get(key);
        if (!force && list && list.some((o) => l < o[2] && r > o[0] && t < o[3] && b > o[1])) return false;
        cells.push(key);
      }
    }
    for (const key of cells) {
      const list = this.cells.get(key);
      if (list) list.push(box);
      else this.cells.set(key, [box]);
    }
    return true;
  }

  /** @param {number} x @param {number} y @param {number} half @param {boolean} [force] */
  takeAround(x, y, half, force) {
    return this.take([x - half, y - half, x + half, y + half], force);
  }
}

const widths = new Map();
/** @param {Ctx} ctx @param {string} font @param {string} text */
export const widthOf = (ctx, font, text) => {
  const key = font + text;
  let w = widths.get(key);
  if (w === undefined) {
    if (widths.size > 5000) widths.clear();
    ctx.font = font;
    w = ctx.measureText(text).width;
    widths.set(key, w);
  }
  return w;
};

/** @param {Ctx} ctx @param {string} text @param {number} x @param {number} y @param {string} colour @param {string} halo @param {number} width */
export const haloText = (ctx, text, x, y, colour, halo, width) => {
  ctx.strokeStyle = halo;
  ctx.lineWidth = width;
  ctx.lineJoin = "round";
  ctx.strokeText(text, x, y);
  ctx.fillStyle = colour;
  ctx.fillText(text, x, y);
};

// Writes centred on x, y if there is room. Sizes in CSS pixels.
const MOST_LETTERS = 48;
/** @param {string} text */
const shorten = (text) => (text.length > MOST_LETTERS ? `${text.slice(0, MOST_LETTERS - 1)}…` : text);

/** @param {Ctx} ctx @param {Room | null} room @param {string} words @param {number} x @param {number} y @param {Writing} writing */
export const write = (ctx, room, words, x, y, { size, colour, halo, unit, serif = false, style = "", pad = 2, force = false }) => {
  const text = shorten(words);
  const font = `${style} ${size * unit}px ${serif ? SERIF : SANS}`;
  const half = widthOf(ctx, font, text) / 2 + pad * unit;
  const high = (size / 2 + pad) * unit;
  if (room && !room.take([x - half, y - high, x + half, y + high], force)) return false;
  ctx.font = font;
  ctx.textAlign = "center";
  ctx.textBaseline = "middle";
  haloText(ctx, text, x, y, colour, halo, 3 * unit);
  return true;
};

// A depth as written on charts: tenths small and low, a drying height
// underlined. Rounded toward the shoaler tenth, from 31 m on the metre.
/** @param {number} d */
export const splitDepth = (d) => {
  const tenths = Math.floor(Math.abs(d) >= 31 ? Math.floor(d + 1e-6) * 10 : d * 10 + 1e-6);
  const whole = Math.floor(Math.abs(tenths) / 10);
  const rest = Math.abs(tenths) % 10;
  return { whole: String(whole), tenth: Math.abs(d) >= 31 || rest === 0 ? "" : String(rest), dries: tenths < 0 };
};

/** @param {Ctx} ctx @param {Room | null} room @param {number} d @param {number} x @param {number} y @param {DepthWriting} writing */
export const writeDepth = (ctx, room, d, x, y, { size, colour, halo, unit, force = false, pad = 2 }) => {
  const { whole, tenth, dries } = splitDepth(d);
  const big = `${size * unit}px ${SANS}`;
  const small = `${size * 0.75 * unit}px ${SANS}`;
  const w = widthOf(ctx, big, whole);
  const total = w + (tenth ? widthOf(ctx, small, tenth) : 0);
  const left = x - total / 2;
  const high = (size / 2 + pad) * unit;
  if (room && !room.take([left - pad * unit, y - high, left + total + pad * unit, y + high], force)) return false;
  ctx.textAlign = "left";
  ctx.textBaseline = "middle";
  ctx.font = big;
  if (halo) haloText(ctx, whole, left, y, colour, halo, 2.5 * unit);
  else {
    ctx.fillStyle = colour;
    ctx.fillText(whole, left, y);
  }
  if (tenth) {
    ctx.font = small;
    if (halo) haloText(ctx, tenth, left + w, y + size * 0.28 * unit, colour, halo, 2.5 * unit);
    else ctx.fillText(tenth, left + w, y + size * 0.28 * unit);
  }
  if (dries) ctx.fillRect(left, y + size * 0.5 * unit, w, Math.max(1, unit));
  return true;
};

// The middle of the widest stretch inside an area, on a level through what
// can be seen of it; null where nothing is.
/** @param {Outline & { box: Box }} shape @param {Frame} frame */
export const placeIn = (shape, frame) => {
  const top = Math.min(shape.box[3], frame.north);
  const bottom = Math.max(shape.box[1], frame.south);
  let best = null;
  for (const share of [0.5, 0.35, 0.65]) {
    const y = bottom + (top - bottom) * share;
    const cuts = crossings(shape, y);
    for (let i = 0; i + 1 < cuts.length; i += 2) {
      const l = Math.max(cuts[i], frame.west);
      const r = Math.min(cuts[i + 1], frame.east);
      if (r > l && (!best || (r - l) * frame.perM > best.wide * 1.3)) best = { x: ((l + r) / 2 - frame.west) * frame.perM, y: (frame.north - y) * frame.perM, wide: (r - l) * frame.perM };
    }
  }
  return best;
};

/** @param {Outline & { box: Box }} shape @param {number} y */
function crossings(shape, y) {
  const cuts = [];
  let from = 0;
  for (const to of shape.ends) {
    for (let i = from, j = to - 1; i < to; j = i++) {
      const yi = shape.xy[2 * i + 1];
      const yj = shape.xy[2 * j + 1];
      if (yi > y !== yj > y) cuts.push(((shape.xy[2 * j] - shape.xy[2 * i]) * (y - yi)) / (yj - yi) + shape.xy[2 * i]);
    }
    from = to;
  }
  return cuts.sort((a, b) => a - b);
}

// Where on a line a piece of writing goes: the middle of its longest segment
// in the picture, with the angle it runs at (never upside down).
/** @param {Outline & { box: Box }} shape @param {Frame} frame */
export const placeOn = (shape, frame) => {
  let best = null;
  let from = 0;
  for (const to of shape.ends) {
    for (let i = from + 1; i < to; i++) {
      const ax = (shape.xy[2 * i - 2] - frame.west) * frame.perM;
      const ay = (frame.north - shape.xy[2 * i - 1]) * frame.perM;
      const bx = (shape.xy[2 * i] - frame.west) * frame.perM;
      const by = (frame.north - shape.xy[2 * i + 1]) * frame.perM;
      const x = (ax + bx) / 2;
      const y = (ay + by) / 2;
      if (x < 0 || y < 0 || x > frame.width || y > frame.height) continue;
      const long = Math.hypot(bx - ax, by - ay);
      if (best && long <= best.long) continue;
      let angle = Math.atan2(by - ay, bx - ax);
      if (angle > Math.PI / 2) angle -= Math.PI;
      if (angle < -Math.PI / 2) angle += Math.PI;
      best = { x, y, long, angle };
    }
    from = to;
  }
  return best;
};
