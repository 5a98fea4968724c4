// Paints, over the ground, lines, then symbols, then writing by what matters
// most: dangers and marks, limits, soundings, contours, names.
import { Room } from "./labels.js";
import { paintContours, paintLines, writeContours, writeLines, writeNames } from "./lines.js";
import { paintBeds, paintPoints, paintSoundings } from "./points.js";
import * as rake from "./rake.js";
import { meets } from "./space.js";
import * as trace from "./trace.js";

// Where a set of the larger scale has data, the one below it is not drawn.
// Private sets neither hide others nor are hidden.
/** @param {LayerSet[]} sets @param {LayerSet} set @param {Frame} frame */
const coversAbove = (sets, set, frame) => {
  if (set.authority === "private") return [];
  return sets
    .slice(sets.indexOf(set) + 1)
    .filter((other) => other.authority !== "private")
    .flatMap((other) => other.lines.filter((s) => s.kind === "area" && s.props.c === "M_COVR" && s.props.CATCOV !== 2 && meets(frame, s.box)))
    .filter((s) => !rake.heavy(s, frame)); // a tangle is no edge to cut along
};

/** @param {Ctx} ctx @param {Shape[]} covers @param {Frame} frame @param {Turns} painting */
function* clipped(ctx, covers, frame, painting) {
  if (covers.length === 0) {
    yield* painting;
    return;
  }
  ctx.save();
  for (const cover of covers) {
    ctx.beginPath();
    ctx.rect(-100, -100, frame.width + 200, frame.height + 200);
    trace.rings(ctx, cover, frame);
    ctx.clip("evenodd");
  }
  yield* painting;
  ctx.restore();
}

/** @param {Ctx} ctx @param {LayerSet[]} sets @param {Frame} frame @param {Colours} colours */
export function* paintInk(ctx, sets, frame, colours) {
  const seen = sets.filter((set) => meets(frame, set.box, 20));
  const covers = new Map(seen.map((set) => [set, coversAbove(seen, set, frame)]));
  const room = new Room();
  /** @param {Phase} phase @param {LayerSet[]} order */
  const all = function* (phase, order) {
    for (const set of order) yield* clipped(ctx, covers.get(set) ?? [], frame, phase(ctx, set, frame, colours, room));
  };
  for (const phase of [paintContours, paintLines]) yield* all(phase, seen);
  const topFirst = [...seen].reverse(); // the upper set's writing finds room first
  for (const phase of [paintPoints, writeLines, paintSoundings, paintBeds, writeContours, writeNames]) yield* all(phase, topFirst);
}
