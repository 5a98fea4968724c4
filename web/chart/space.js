// Positions: degrees (lon, lat), metres of EPSG:3857 and pixels of a picture.
// On this projection a rhumb line is straight, which is what a leg is.

const RADIUS_M = 6378137; // of the sphere of EPSG:3857
const DEGREE_M = (RADIUS_M * Math.PI) / 180;
const LAT_LIMIT_DEG = 85.05; // the projection ends near here
const PIXEL_M = 0.00028; // a "standardized rendering pixel", OGC 07-057r7, 6.1

/** @param {number} lon */
export const xOf = (lon) => lon * DEGREE_M;
/** @param {number} lat */
export const yOf = (lat) => {
  const held = Math.max(-LAT_LIMIT_DEG, Math.min(LAT_LIMIT_DEG, lat));
  return RADIUS_M * Math.log(Math.tan(Math.PI / 4 + (held * Math.PI) / 360));
};
/** @param {number} x */
export const lonOf = (x) => x / DEGREE_M;
/** @param {number} y */
export const latOf = (y) => (Math.atan(Math.sinh(y / RADIUS_M)) * 180) / Math.PI;
/** @param {number} lon */
const wrapLon = (lon) => ((((lon + 180) % 360) + 360) % 360) - 180;
/** @param {number} degrees */
const tidy = (degrees) => Math.round(degrees * 1e7) / 1e7;

/** @param {Point} at @returns {Point} */
export const project = ([lon, lat]) => [xOf(lon), yOf(lat)];
/** @param {Point} at @returns {Point} */
export const unproject = ([x, y]) => [tidy(wrapLon(lonOf(x))), tidy(latOf(y))];

// True metres on the ground in one metre of the projection, at y.
/** @param {number} y */
export const stretch = (y) => 1 / Math.cosh(y / RADIUS_M);

// The scale's denominator, by which SCAMIN is judged.
/** @param {number} resolution @param {number} y */
export const scaleOf = (resolution, y) => (resolution * stretch(y)) / PIXEL_M;

// A frame is a picture of a part of the chart: west and north edge in
// projected metres, device pixels a metre, size in device pixels.
/** @param {Point} centre @param {number} resolution @param {number} width @param {number} height @param {number} ratio @returns {Frame} */
export const frameOf = (centre, resolution, width, height, ratio) => ({
  centre,
  resolution,
  ratio,
  width: Math.max(1, Math.round(width * ratio)),
  height: Math.max(1, Math.round(height * ratio)),
  perM: ratio / resolution,
  west: centre[0] - (width * resolution) / 2,
  north: centre[1] + (height * resolution) / 2,
  east: centre[0] + (width * resolution) / 2,
  south: centre[1] - (height * resolution) / 2,
  scale: scaleOf(resolution, centre[1]),
});

/** @param {Frame} frame @param {Box} box @param {number} [padPx] */
export const meets = (frame, box, padPx = 0) => {
  const pad = padPx / frame.perM;
  return box[0] <= frame.east + pad && box[2] >= frame.west - pad && box[1] <= frame.north + pad && box[3] >= frame.south - pad;
};

/** @returns {Box} */
export const EMPTY_BOX = () => [Infinity, Infinity, -Infinity, -Infinity];
/** @param {Box} box @param {number} x @param {number} y */
export const growBox = (box, x, y) => {
  if (x < box[0]) box[0] = x;
  if (y < box[1]) box[1] = y;
  if (x > box[2]) box[2] = x;
  if (y > box[3]) box[3] = y;
};

// Even-odd inside test over all the rings of an area (ray crossing).
/** @param {Outline & { box: Box }} shape @param {number} x @param {number} y */
export const inside = (shape, x, y) => {
  const b = shape.box;
  if (x < b[0] || x > b[2] || y < b[1] || y > b[3]) return false;
  const xy = shape.xy;
  let odd = false;
  let from = 0;
  for (const to of shape.ends) {
    for (let i = from, j = to - 1; i < to; j = i++) {
      const yi = xy[2 * i + 1];
      const yj = xy[2 * j + 1];
      if (yi > y !== yj > y && x < ((xy[2 * j] - xy[2 * i]) * (y - yi)) / (yj - yi) + xy[2 * i]) odd = !odd;
    }
    from = to;
  }
  return odd;
};

// Distance from a point to the segment a-b, with the share of the way along it.
/** @param {number} x @param {number} y @param {number} ax @param {number} ay @param {number} bx @param {number} by */
export const toSegment = (x, y, ax, ay, bx, by) => {
  const dx = bx - ax;
  const dy = by - ay;
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / square));
  return { distance: Math.hypot(x - ax - t * dx, y - ay - t * dy), t };
};

/** @param {Outline} shape @param {number} x @param {number} y */
export const distanceToShape = (shape, x, y) => {
  let least = Infinity;
  let from = 0;
  for (const to of shape.ends) {
    if (to - from === 1) least = Math.min(least, Math.hypot(x - shape.xy[2 * from], y - shape.xy[2 * from + 1]));
    for (let i = from + 1; i < to; i++) {
      const s = toSegment(x, y, shape.xy[2 * i - 2], shape.xy[2 * i - 1], shape.xy[2 * i], shape.xy[2 * i + 1]);
      if (s.distance < least) least = s.distance;
    }
    from = to;
  }
  return least;
};
