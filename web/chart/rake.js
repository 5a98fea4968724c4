// Fills areas whose boundary runs up and down the picture ever so often: a tangle,
// a comb. A browser fills a path all at once, in time that grows with the square of
// how often its edges cross or lie beside each other, and the page stands still. Such
// areas are filled here row by row, in turns; the work grows with the rows that the
// edges pass.
import { contextOf } from "./canvas.js";

// A path that passes so many rows of pixels is filled by the browser in some tens of
// milliseconds. Coasts of real charts take a few thousand, for their edges are short.
export const MOST_ROWS = 20000;
const STEPS = 100000; // between two turns to give way

/** @param {Shape} shape */
const eachEdge = function* (shape) {
  let from = 0;
  for (const to of shape.ends) {
    for (let i = from, j = to - 1; i < to; j = i++) yield [j, i];
    from = to;
  }
};

// How many rows of the picture the edges of an area pass, all together; it stops
// counting at the limit.
/** @param {Shape} shape @param {Frame} frame @param {number} limit */
export const rowsOf = (shape, frame, limit) => {
  const { perM, west, north, width, height } = frame;
  let rows = 0;
  let from = 0;
  for (const to of shape.ends) {
    for (let i = from, j = to - 1; i < to && rows <= limit; j = i++) {
      if (Math.min(shape.xy[2 * i], shape.xy[2 * j]) > west + width / perM) continue;
      const a = Math.max(0, Math.min(height, (north - shape.xy[2 * j + 1]) * perM));
      const b = Math.max(0, Math.min(height, (north - shape.xy[2 * i + 1]) * perM));
      rows += Math.abs(a - b);
    }
    from = to;
  }
  return rows;
};

/** @param {Shape} shape @param {Frame} frame */
export const heavy = (shape, frame) => shape.xy.length > 256 && rowsOf(shape, frame, MOST_ROWS) > MOST_ROWS;

// The pixels of the picture that an area may touch: [left, top, right, bottom].
/** @param {Shape} shape @param {Frame} frame @returns {Box} */
export const boxOf = (shape, { perM, west, north, width, height }) => [
  Math.max(0, Math.floor((shape.box[0] - west) * perM)),
  Math.max(0, Math.floor((north - shape.box[3]) * perM)),
  Math.min(width, Math.ceil((shape.box[2] - west) * perM)),
  Math.min(height, Math.ceil((north - shape.box[1]) * perM)),
];

// Which pixels of a box have their middle in the area, even-odd: a byte each, row by
// row. An edge turns what is right of it, in each row whose middle it passes.
/** @param {Shape} shape @param {Frame} frame @param {Box} box */
export function* mask(shape, frame, [left, top, right, bottom]) {
  const { perM, west, north } = frame;
  const wide = right - left;
  const inside = new Uint8Array(wide * (bottom - top));
  let steps = 0;
  for (const [j, i] of eachEdge(shape)) {
    let ax = (shape.xy[2 * j] - west) * perM;
    let ay = (north - shape.xy[2 * j + 1]) * perM;
    let bx = (shape.xy[2 * i] - west) * perM;
    let by = (north - shape.xy[2 * i + 1]) * perM;
    if (ay > by) [ax, ay, bx, by] = [bx, by, ax, ay];
    const last = Math.min(bottom, Math.ceil(by - 0.5));
    for (let row = Math.max(top, Math.ceil(ay - 0.5)); row < last; row++) {
      const x = ax + ((row + 0.5 - ay) / (by - ay)) * (bx - ax);
      const column = Math.max(left, Math.ceil(x - 0.5));
      if (column < right) inside[(row - top) * wide + column - left] ^= 1;
      steps++;
    }
    if (++steps > STEPS) {
      steps = 0;
      yield;
    }
  }
  for (let k = 0; k < inside.length; k++) {
    if (k % wide !== 0) inside[k] ^= inside[k - 1];
    if (k % (10 * STEPS) === 0) yield;
  }
  return inside;
}

// Fills an area in a style, in turns.
/** @param {Ctx} ctx @param {Shape} shape @param {Frame} frame @param {string | CanvasPattern} style */
export function* fill(ctx, shape, frame, style) {
  const box = boxOf(shape, frame);
  const [left, top, right, bottom] = box;
  if (right <= left || bottom <= top) return;
  const inside = yield* mask(shape, frame, box);
  const canvas = document.createElement("canvas");
  canvas.width = right - left;
  canvas.height = bottom - top;
  const over = contextOf(canvas, { willReadFrequently: true });
  const image = over.createImageData(canvas.width, canvas.height);
  for (let k = 0; k < inside.length; k++) image.data[4 * k + 3] = 255 * inside[k];
  over.putImageData(image, 0, 0);
  yield;
  over.globalCompositeOperation = "source-in";
  over.translate(-left, -top); // patterns are tied to the picture
  over.fillStyle = style;
  over.fillRect(left, top, canvas.width, canvas.height);
  ctx.drawImage(canvas, left, top);
  canvas.width = canvas.height = 0;
  yield;
}
