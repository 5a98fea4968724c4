// Paints contours, coast, zones, cables, overhead works and what is written on
// them.
import { placeIn, placeOn, SANS, widthOf, write, writeDepth } from "./labels.js";
import * as rake from "./rake.js";
import { meets } from "./space.js";
import * as trace from "./trace.js";

const PIECE = 1500; // corners between two turns to give way
const LONG = 4000; // corners of a line that is drawn in pieces
const CONTOUR_LABEL_PX = 260; // a contour shorter than this in the picture has no figure

/** @param {Shape} shape @param {Frame} frame @param {LayerSet} set */
export const seen = (shape, frame, set) => frame.scale <= Math.min(shape.scamin, shape.look.scale ?? Infinity, set.scale * 12) && meets(frame, shape.box, 10);

/** @param {Ctx} ctx @param {LayerSet} set @param {Frame} frame @param {Colours} colours */
export function* paintContours(ctx, set, frame, colours) {
  const unit = frame.ratio;
  for (const bold of [false, true]) {
    ctx.strokeStyle = colours.contour;
    ctx.lineWidth = (bold ? 1.4 : 0.8) * unit;
    ctx.setLineDash([]);
    let corners = 0;
    ctx.beginPath();
    for (const shape of set.contours) {
      if ((shape.props.VALDCO <= 0) !== bold || !seen(shape, frame, set)) continue;
      if (shape.xy.length / 2 > LONG) {
        ctx.stroke();
        for (const _ of trace.pieces(ctx, shape, frame, PIECE)) {
          ctx.stroke();
          yield;
        }
        ctx.beginPath();
        corners = 0;
        continue;
      }
      trace.lines(ctx, shape, frame);
      corners += shape.xy.length / 2;
      if (corners > PIECE) {
        ctx.stroke();
        yield;
        ctx.beginPath();
        corners = 0;
      }
    }
    ctx.stroke();
  }
}

/** @param {Shape} shape @param {LayerSet} set */
const penOf = (shape, set) => {
  const look = shape.look;
  if (look.water && set.authority === "private") return { key: "own", width: 1.4, dash: [4, 3] };
  const pen = look.style ? look.style(shape.props) : look.pen;
  return pen && shape.props.own ? { ...pen, key: "own", width: pen.width + 0.6 } : pen;
};

/** @param {Ctx} ctx @param {Shape} shape @param {Pen} pen @param {Frame} frame @param {Colours} colours */
function* strokeShape(ctx, shape, pen, frame, colours) {
  if (shape.xy.length / 2 > LONG) {
    for (const _ of trace.pieces(ctx, shape, frame, PIECE)) {
      strokePath(ctx, shape, pen, frame, colours);
      yield;
    }
    return;
  }
  ctx.beginPath();
  trace.lines(ctx, shape, frame);
  strokePath(ctx, shape, pen, frame, colours);
}

// Strokes the path at hand with the pen of a shape.
/** @param {Ctx} ctx @param {Shape} shape @param {Pen} pen @param {Frame} frame @param {Colours} colours */
const strokePath = (ctx, shape, pen, frame, colours) => {
  const unit = frame.ratio;
  if (shape.look.casing) {
    ctx.setLineDash([]);
    ctx.strokeStyle = colours.halo;
    ctx.lineWidth = (pen.width + 2.5) * unit;
    ctx.stroke();
  }
  if (shape.look.band || shape.props.own) {
    ctx.setLineDash([]);
    ctx.globalAlpha = 0.16;
    ctx.strokeStyle = colours[pen.key];
    ctx.lineWidth = 9 * unit;
    ctx.stroke();
    ctx.globalAlpha = 1;
  }
  ctx.setLineDash((pen.dash ?? []).map((v) => v * unit));
  ctx.strokeStyle = colours[pen.key];
  ctx.lineWidth = pen.width * unit;
  ctx.stroke();
  if (pen.ticks) {
    ctx.setLineDash([1.6 * unit, 8 * unit]);
    ctx.lineWidth = 8 * unit;
    ctx.stroke();
  }
  ctx.setLineDash([]);
};

/** @param {Ctx} ctx @param {LayerSet} set @param {Frame} frame @param {Colours} colours */
export function* paintLines(ctx, set, frame, colours) {
  ctx.lineJoin = "round";
  ctx.lineCap = "butt";
  let corners = 0;
  for (const shape of set.lines) {
    const pen = penOf(shape, set);
    if (!pen || !seen(shape, frame, set)) continue;
    if (shape.props.own && shape.kind === "area") {
      if (rake.heavy(shape, frame)) yield* rake.fill(ctx, shape, frame, colours.ownFill);
      else {
        ctx.beginPath();
        trace.rings(ctx, shape, frame);
        ctx.fillStyle = colours.ownFill;
        ctx.fill("evenodd");
      }
    }
    yield* strokeShape(ctx, shape, pen, frame, colours);
    corners += shape.xy.length / 2 + 50;
    if (corners > PIECE) {
      corners = 0;
      yield;
    }
  }
}

// A limit stands on a plate with a border, so that it is found at a glance.
/** @param {Ctx} ctx @param {Room} room @param {string} text @param {Spot} at @param {string} colour @param {Colours} colours @param {number} unit */
const plate = (ctx, room, text, at, colour, colours, unit) => {
  const font = `bold ${12.5 * unit}px ${SANS}`;
  const half = widthOf(ctx, font, text) / 2 + 6 * unit;
  const high = 10 * unit;
  if (!room.take([at.x - half, at.y - high, at.x + half, at.y + high])) return;
  ctx.beginPath();
  ctx.roundRect(at.x - half, at.y - high, 2 * half, 2 * high, high);
  ctx.fillStyle = colours.halo;
  ctx.fill();
  ctx.strokeStyle = colour;
  ctx.lineWidth = 1.8 * unit;
  ctx.stroke();
  ctx.font = font;
  ctx.textAlign = "center";
  ctx.textBaseline = "middle";
  ctx.fillStyle = colour;
  ctx.fillText(text, at.x, at.y + 0.5 * unit);
};

/** @param {Ctx} ctx @param {LayerSet} set @param {Frame} frame @param {Colours} colours @param {Room} room */
export function* writeLines(ctx, set, frame, colours, room) {
  const unit = frame.ratio;
  let n = 0;
  for (let i = set.lines.length - 1; i >= 0; i--) {
    const shape = set.lines[i];
    const words = shape.look.words?.(shape.props);
    if (!words || frame.scale > (shape.look.labelScale ?? 100000) || !seen(shape, frame, set)) continue;
    const at = shape.kind === "area" ? placeIn(shape, frame) : placeOn(shape, frame);
    if (!at || ("wide" in at && at.wide < 40 * unit && !shape.look.band && !shape.look.casing)) continue;
    const pen = penOf(shape, set);
    const text = shape.props.own ? `own: ${words}` : words;
    if (!pen) continue;
    if (pen.plate) plate(ctx, room, text, at, colours[pen.key], colours, unit);
    else write(ctx, room, text, at.x, at.y, { size: 11.5, colour: colours[pen.key], halo: colours.halo, unit, style: shape.look.band || shape.look.casing ? "bold" : "italic" });
    if (++n % 6 === 0) yield;
  }
}

/** @param {Shape} shape @param {Frame} frame */
const extentPx = (shape, frame) => Math.max(shape.box[2] - shape.box[0], shape.box[3] - shape.box[1]) * frame.perM;

/** @param {Ctx} ctx @param {LayerSet} set @param {Frame} frame @param {Colours} colours @param {Room} room */
export function* writeContours(ctx, set, frame, colours, room) {
  if (frame.scale > Math.max(30000, set.scale * 2)) return;
  let n = 0;
  for (const shape of set.contours) {
    if (typeof shape.props.VALDCO !== "number" || !seen(shape, frame, set) || extentPx(shape, frame) < CONTOUR_LABEL_PX * frame.ratio) continue;
    const at = placeOn(shape, frame);
    if (at && room.takeAround(at.x, at.y, 11 * frame.ratio)) writeAlong(ctx, shape.props.VALDCO, at, frame, colours);
    if (++n % 6 === 0) yield;
  }
}

/** @param {Ctx} ctx @param {number} depth @param {Spot} at @param {Frame} frame @param {Colours} colours */
function writeAlong(ctx, depth, at, frame, colours) {
  ctx.save();
  ctx.translate(at.x, at.y);
  ctx.rotate(at.angle ?? 0);
  writeDepth(ctx, null, depth, 0, 0, { size: 10, colour: colours.contour, halo: colours.halo, unit: frame.ratio });
  ctx.restore();
}

/** @param {Ctx} ctx @param {LayerSet} set @param {Frame} frame @param {Colours} colours @param {Room} room */
export function* writeNames(ctx, set, frame, colours, room) {
  const unit = frame.ratio;
  let n = 0;
  for (const shape of set.shapes) {
    const look = shape.look;
    if (!look.name || !shape.props.n || frame.scale > Math.min(shape.scamin, look.labelScale ?? Infinity) || !meets(frame, shape.box)) continue;
    const at = shape.kind === "area" ? placeIn(shape, frame) : { x: trace.point(shape, frame)[0], y: trace.point(shape, frame)[1] };
    if (!at) continue;
    const water = look.name === "water";
    write(ctx, room, shape.props.n, at.x, at.y, { size: 13, colour: colours[water ? "depth" : "text"], halo: colours.halo, unit, serif: true, style: water ? "italic" : "" });
    if (++n % 6 === 0) yield;
  }
}
