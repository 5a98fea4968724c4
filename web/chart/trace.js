// Puts rings and lines of the chart into a canvas path, thinned to what the
// picture can show.

const CLIP_PX = 24; // beyond the edge by the widest pen

/** @param {number} x @param {number} y @param {number} w @param {number} h */
const sideOf = (x, y, w, h) => (x < -CLIP_PX ? 1 : x > w + CLIP_PX ? 2 : 0) | (y < -CLIP_PX ? 4 : y > h + CLIP_PX ? 8 : 0);

// Adds one ring. Corners fall on a grid of half pixels of the picture, so that
// neighbours keep a common edge although both are thinned. A corner is left
// out where it, the one before and the one after lie beyond the same side of
// the picture: what is inside stays the same.
/** @param {Path} path @param {Float64Array | number[]} xy @param {number} from @param {number} to @param {Frame} frame */
const ring = (path, xy, from, to, frame) => {
  const { perM, west, north, width, height } = frame;
  let lastX = NaN;
  let lastY = NaN;
  let lastSide = 0;
  let heldX = 0;
  let heldY = 0;
  let heldSide = -1; // of a corner that waits for its successor
  let started = false;
  for (let i = from; i < to; i++) {
    const x = Math.round((xy[2 * i] - west) * perM * 2) / 2;
    const y = Math.round((north - xy[2 * i + 1]) * perM * 2) / 2;
    if (heldSide >= 0 ? x === heldX && y === heldY : x === lastX && y === lastY) continue;
    const side = sideOf(x, y, width, height);
    if (!started) {
      path.moveTo(x, y);
      started = true;
      lastX = x;
      lastY = y;
      lastSide = side;
      continue;
    }
    if (heldSide >= 0 && (lastSide & heldSide & side) === 0) {
      path.lineTo(heldX, heldY);
      lastX = heldX;
      lastY = heldY;
      lastSide = heldSide;
    }
    heldX = x;
    heldY = y;
    heldSide = side;
  }
  if (heldSide >= 0) path.lineTo(heldX, heldY);
  path.closePath();
};

// Adds one line; stretches outside the picture are lifted over, and so are runs
// on the limit of the data (edge: pairs of a first and a last corner), which are
// no shore.
/** @param {Path} path @param {Float64Array | number[]} xy @param {number} from @param {number} to @param {Frame} frame @param {number[] | undefined} edge */
const line = (path, xy, from, to, frame, edge) => {
  const { perM, west, north, width, height } = frame;
  let x = NaN;
  let y = NaN;
  let side = 0;
  let down = false; // the pen is at x, y
  let run = 0;
  for (let i = from; i < to; i++) {
    const nextX = Math.round((xy[2 * i] - west) * perM * 2) / 2;
    const nextY = Math.round((north - xy[2 * i + 1]) * perM * 2) / 2;
    if (nextX === x && nextY === y && i < to - 1) continue;
    const nextSide = sideOf(nextX, nextY, width, height);
    while (edge && run < edge.length && edge[run + 1] < i) run += 2;
    const lifted = edge !== undefined && run < edge.length && edge[run] < i;
    if (i > from && (side & nextSide) === 0 && !lifted) {
      if (!down) path.moveTo(x, y);
      path.lineTo(nextX, nextY);
      down = true;
    } else {
      down = false;
    }
    x = nextX;
    y = nextY;
    side = nextSide;
  }
};

/** @param {Path} path @param {Shape} shape @param {Frame} frame */
export const rings = (path, shape, frame) => {
  let from = 0;
  for (const to of shape.ends) {
    ring(path, shape.xy, from, to, frame);
    from = to;
  }
};

// The outline of an area or the course of a line.
/** @param {Path} path @param {Shape} shape @param {Frame} frame */
export const lines = (path, shape, frame) => {
  let from = 0;
  for (const to of shape.ends) {
    line(path, shape.xy, from, to, frame, shape.props.edge);
    from = to;
  }
};

// The same in pieces of so many corners at most, each given on by itself: what is
// drawn of a path is drawn all at once. A piece begins where the one before ends.
/** @param {Path} path @param {Shape} shape @param {Frame} frame @param {number} most */
export function* pieces(path, shape, frame, most) {
  let from = 0;
  for (const to of shape.ends) {
    for (let a = from; a < to - 1 || a === from; a += most) {
      const b = Math.min(to, a + most + 1);
      path.beginPath();
      line(path, shape.xy, a, b, frame, shape.props.edge);
      yield;
    }
    from = to;
  }
}

/** @param {Shape} shape @param {Frame} frame @returns {Point} */
export const point = (shape, frame) => [(shape.xy[0] - frame.west) * frame.perM, (frame.north - shape.xy[1]) * frame.perM];

/** @param {Ctx} ctx @param {string} fill @param {string} edge @param {number} width */
const finish = (ctx, fill, edge, width) => {
  ctx.fillStyle = fill;
  ctx.fill();
  ctx.strokeStyle = edge;
  ctx.lineWidth = width;
  ctx.stroke();
};

// A disc, and a shape of corners about a spot, filled and edged.
/** @param {Ctx} ctx @param {number} x @param {number} y @param {number} r @param {string} fill @param {string} edge @param {number} width */
export const disc = (ctx, x, y, r, fill, edge, width) => {
  ctx.beginPath();
  ctx.arc(x, y, r, 0, 7);
  finish(ctx, fill, edge, width);
};

/** @param {Ctx} ctx @param {Point[]} corners @param {number} x @param {number} y @param {number} u @param {string} fill @param {string} edge @param {number} width */
export const shape = (ctx, corners, x, y, u, fill, edge, width) => {
  ctx.beginPath();
  for (const [dx, dy] of corners) ctx.lineTo(x + dx * u, y + dy * u);
  ctx.closePath();
  finish(ctx, fill, edge, width);
};
