// The day strip as the page calls it.
import { setRules } from "../rules.js";
import { blocks } from "./blocks.js";
import { cursor, placeCursor } from "./cursor.js";
import { patterns, picture, spoken } from "./picture.js";
import { followRibbon, list, ribbon } from "./ribbon.js";
import { layout, xOf } from "./scale.js";

/** @type {StripView | null} */
let view = null;
// What was given before the strip was mounted, or while it was not.
/** @type {{ day: Day | null; blocks: Block[] | null; ribbon: any; cursor: number | null; palette: string | null }} */
const given = { day: null, blocks: null, ribbon: null, cursor: null, palette: null };

/** @param {HTMLElement} div @param {Notify} notify @param {Rules} rules */
function mount(div, notify, rules) {
  setRules(rules);
  unmount();
  const v = (view = newView(div, notify));
  setPalette(given.palette);
  takeRibbon(v);
  render(v);
}

/** @param {HTMLElement} div @param {Notify} notify @returns {StripView} */
function newView(div, notify) {
  const root = document.createElement("div");
  root.className = "strip";
  root.setAttribute("role", "group");
  root.setAttribute("aria-label", "The day");
  const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
  svg.setAttribute("aria-hidden", "true");
  patterns(svg);
  const spoken = document.createElement("p");
  spoken.className = "strip-spoken";
  root.append(spoken, svg);
  div.append(root);
  const v = /** @type {StripView} */ (/** @type {Partial<StripView>} */ ({
    div, root, svg, spoken, day: given.day, slots: [], slotStep: 0, cursor: given.cursor, change: null, picked: null,
    holds: new Map(), frame: null, frameId: 0, drawId: 0, waiting: 0, yOf: null,
    tell: (kind, detail) => notify(kind, detail),
  }));
  addFrames(v);
  v.cursorParts = cursor(v);
  v.ribbonParts = list(v);
  v.watch = new ResizeObserver(() => v.draw());
  v.watch.observe(root);
  return v;
}

// Drawing waits for the next frame, and so does what a pointer does: the newest wins.
/** @param {StripView} v */
function addFrames(v) {
  v.draw = () => { v.drawId ||= requestAnimationFrame(() => { v.drawId = 0; if (v === view) render(v); }); };
  v.eachFrame = (run) => {
    v.frame = run;
    v.frameId ||= requestAnimationFrame(() => { v.frameId = 0; v.runFrame(); });
  };
  v.runFrame = () => {
    const run = v.frame;
    v.frame = null;
    if (run && v === view) run();
  };
}

function unmount() {
  if (!view) return;
  const v = view;
  view = null;
  v.watch.disconnect();
  clearTimeout(v.waiting);
  for (const hold of v.holds.values()) clearTimeout(hold.timer);
  cancelAnimationFrame(v.drawId);
  cancelAnimationFrame(v.frameId);
  v.root.remove();
}

/** @param {StripView} v */
function render(v) {
  const width = v.root.clientWidth;
  const height = v.root.clientHeight;
  if (width < 40 || height < 40) return; // hidden
  v.layout = layout(width, height);
  v.yOf = null;
  v.svg.setAttribute("viewBox", `0 0 ${width} ${height}`);
  v.svg.setAttribute("width", String(width));
  v.svg.setAttribute("height", String(height));
  while (v.svg.children.length > 1) v.svg.lastElementChild?.remove();
  picture(v);
  blocks(v);
  ribbon(v);
  followRibbon(v);
  placeCursor(v);
  const words = spoken(v);
  if (v.spoken.textContent !== words) v.spoken.textContent = words;
}

// parsed takes a text or a value; what cannot be read is a day that is not known.
/** @param {unknown} value @returns {any} */
function parsed(value) {
  if (typeof value !== "string") return value || null;
  try {
    return JSON.parse(value);
  } catch {
    return null;
  }
}

/** @param {unknown} dayText */
function setDay(dayText) {
  const day = parsed(dayText);
  given.day = day && day.to > day.from && day.step_s > 0 && Array.isArray(day.hours) ? day : null;
  given.blocks = null;
  if (!view) return;
  clearTimeout(view.waiting);
  view.change = null;
  view.day = shownDay();
  view.draw();
}

// shownDay is the day, with the blocks of a plan that is being changed.
function shownDay() { return given.day && given.blocks ? { ...given.day, blocks: given.blocks } : given.day; }

// showBlocks shows other blocks than those of the day, until the next day comes; null
// shows those of the day again. What moves by less than a pixel is not drawn anew.
/** @param {Block[] | null} list */
function showBlocks(list) {
  given.blocks = list;
  const day = shownDay();
  if (!view?.day || !day || view.change) return;
  const before = placed({ ...view, day }, view.day.blocks);
  view.day = day;
  if (placed({ ...view, day }, day.blocks) !== before) view.draw();
}

/** @param {StripOfDay} v @param {Block[]} list */
function placed(v, list) {
  const at = (/** @type {number} */ t) => (v.layout ? Math.round(xOf(v, t)) : t);
  return list.map((b) => `${b.kind} ${b.part} ${b.name} ${at(b.from)} ${at(b.to)}`).join("\n");
}

/** @param {unknown} departures */
function setRibbon(departures) {
  given.ribbon = parsed(departures);
  if (!view) return;
  takeRibbon(view);
  view.draw();
}

/** @param {StripView} v */
function takeRibbon(v) {
  const departures = given.ribbon;
  const known = Array.isArray(departures?.slots) && departures.step_min > 0;
  v.slots = known ? [...departures.slots].sort((a, b) => a.t - b.t) : [];
  v.slotStep = known ? departures.step_min * 60 : 0;
}

/** @param {number} t */
function setCursor(t) {
  given.cursor = t;
  if (!view) return;
  view.cursor = t;
  view.draw();
}

/** @param {string | null} name */
function setPalette(name) {
  given.palette = name;
  if (!view) return;
  if (name) view.root.dataset.palette = name;
  else delete view.root.dataset.palette;
}

export const strip = { mount, unmount, setDay, showBlocks, setRibbon, setCursor, setPalette };
