// Paints what fills: water by its state, land, what is unknown. Painters are
// generators that give way after each small piece of work.
import { fillOf, paletteOf } from "./palette.js";
import * as rake from "./rake.js";
import { meets } from "./space.js";
import * as trace from "./trace.js";

const PIECE = 1500; // corners between two turns to give way

/** @param {Ctx} ctx @param {Shape} shape @param {Frame} frame @param {string | CanvasPattern} style */
const fillShape = (ctx, shape, frame, style) => {
  ctx.beginPath();
  trace.rings(ctx, shape, frame);
  ctx.fillStyle = style;
  ctx.fill("evenodd");
};

// One style a state and frame.
/** @param {Ctx} ctx @param {string} palette @param {Frame} frame */
const styler = (ctx, palette, frame) => {
  /** @type {Map<string, Style>} */
  const made = new Map();
  /** @param {string} state */
  return (state) => {
    if (!made.has(state)) {
      const flat = state === "land" || state === "built";
      made.set(state, flat ? paletteOf(palette)[state] : fillOf(ctx, palette, state, frame));
    }
    return made.get(state) ?? null;
  };
};

/** @param {Ctx} ctx @param {Shape[]} shapes @param {Frame} frame @param {(shape: Shape) => Style} styleOf */
function* paintShapes(ctx, shapes, frame, styleOf) {
  let corners = 0;
  for (const shape of shapes) {
    if (!meets(frame, shape.box)) continue;
    const style = styleOf(shape);
    if (!style) continue;
    if (rake.heavy(shape, frame)) {
      yield* rake.fill(ctx, shape, frame, style);
      continue;
    }
    fillShape(ctx, shape, frame, style);
    corners += shape.xy.length / 2 + 100;
    if (corners > PIECE) {
      corners = 0;
      yield;
    }
  }
}

/** @param {LayerSet} set */
const isPrivate = (set) => set.authority === "private";

// The whole ground: unknown wherever no set says anything. The water of
// private sets counts only where nothing else is loaded; where it is bad its
// pattern is laid over the others: it may add a danger, never hide one.
// what: {sets, states, palette, privateCovers}.
/** @param {Ctx} ctx @param {Ground} what @param {Frame} frame */
export function* paintAll(ctx, what, frame) {
  const { sets, states, palette, privateCovers } = what;
  const style = styler(ctx, palette, frame);
  /** @param {LayerSet} set */
  const water = (set) => (/** @type {Shape} */ s) => style(states.stateIn(set, s.props.DRVAL1));
  /** @param {Shape} s */
  const cover = (s) => style(s.look.fill ?? "unknown");
  const own = sets.filter(isPrivate);
  ctx.fillStyle = style("unknown") ?? "";
  ctx.fillRect(0, 0, frame.width, frame.height);
  yield;
  for (const set of privateCovers ? own : []) yield* paintShapes(ctx, set.water, frame, water(set));
  for (const set of sets) {
    if (isPrivate(set) || !meets(frame, set.box)) continue;
    yield* paintShapes(ctx, set.water, frame, water(set));
    yield* paintShapes(ctx, set.cover, frame, cover);
  }
  for (const set of own) {
    yield* paintShapes(ctx, set.water, frame, (s) => style(`${states.stateIn(set, s.props.DRVAL1)} over`));
    yield* paintShapes(ctx, set.cover, frame, cover);
  }
}

// Repaints from the deepest area whose state is another than before. What is
// shoaler lies over it and is painted again, and so is every set above.
/** @param {Ctx} ctx @param {Ground} what @param {WaterStates} before @param {Frame} frame */
export function* paintChanged(ctx, what, before, frame) {
  const { sets, states, palette } = what;
  if (sets.some(isPrivate)) {
    yield* paintAll(ctx, what, frame);
    return;
  }
  const style = styler(ctx, palette, frame);
  let all = false;
  for (const set of sets) {
    if (!meets(frame, set.box)) continue;
    /** @param {Shape} s */
    const changed = (s) => typeof s.props.DRVAL1 === "number" && states.stateIn(set, s.props.DRVAL1) !== before.stateIn(set, s.props.DRVAL1);
    const first = all ? 0 : set.water.findIndex(changed);
    if (first < 0) continue;
    yield* paintShapes(ctx, set.water.slice(first), frame, (s) => style(states.stateIn(set, s.props.DRVAL1)));
    yield* paintShapes(ctx, set.cover, frame, (s) => style(s.look.fill ?? "unknown"));
    all = true;
  }
}
