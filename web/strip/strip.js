// The day strip as the page calls it.
import { blocks } from "./blocks.js";
import { cursor, placeCursor } from "./cursor.js";
import { patterns, picture, spoken } from "./picture.js";
import { followRibbon, list, ribbon } from "./ribbon.js";
import { layout } from "./scale.js";

let view = null;
// What was said before the strip was mounted, or while it was not.
const said = { day: null, ribbon: null, cursor: null, palette: null };

/** @param {HTMLElement} div @param {Notify} notify */
function mount(div, notify) {
  unmount();
  view = {
    div, notify, day: null, slots: [], slotStep: 600, cursor: said.cursor, change: null, picked: null,
    holds: new Map(), frame: null, frameId: 0, drawId: 0, waiting: 0, yOf: null,
  };
  const v = view;
  v.tell = (kind, detail) => notify(kind, detail);
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
  build(v);
  v.watch = new ResizeObserver(() => v.draw());
  v.watch.observe(v.root);
  setPalette(said.palette);
  v.day = said.day;
  takeRibbon(v);
  render(v);
}

/** @param {number} v */
function build(v) {
  v.root = document.createElement("div");
  v.root.className = "strip";
  v.root.setAttribute("role", "group");
  v.root.setAttribute("aria-label", "The day");
  v.svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
  v.svg.setAttribute("aria-hidden", "true");
  patterns(v.svg);
  v.spoken = document.createElement("p");
  v.spoken.className = "strip-spoken";
  v.root.append(v.spoken, v.svg);
  v.div.append(v.root);
  v.cursorParts = cursor(v);
  v.ribbonParts = list(v);
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

/** @param {number} v */
function render(v) {
  const width = v.root.clientWidth;
  const height = v.root.clientHeight;
  if (width < 40 || height < 40) return; // hidden
  v.layout = layout(width, height);
  v.yOf = null;
  v.svg.setAttribute("viewBox", `0 0 ${width} ${height}`);
  v.svg.setAttribute("width", width);
  v.svg.setAttribute("height", height);
  while (v.svg.children.length > 1) v.svg.lastChild.remove();
  picture(v);
  blocks(v);
  ribbon(v);
  followRibbon(v);
  placeCursor(v);
  const words = spoken(v);
  if (v.spoken.textContent !== words) v.spoken.textContent = words;
}

// parsed takes a text or a value; what cannot be read is a day that is not known.
/** @param {unknown} value */
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
  said.day = day && day.to > day.from && Array.isArray(day.hours) ? day : null;
  if (!view) return;
  clearTimeout(view.waiting);
  view.change = null;
  view.day = said.day;
  view.draw();
}

/** @param {unknown} departures */
function setRibbon(departures) {
  said.ribbon = parsed(departures);
  if (!view) return;
  takeRibbon(view);
  view.draw();
}

/** @param {number} v */
function takeRibbon(v) {
  const given = said.ribbon;
  v.slots = given && Array.isArray(given.slots) ? [...given.slots].sort((a, b) => a.t - b.t) : [];
  v.slotStep = (given && given.step_min > 0 ? given.step_min : 10) * 60;
}

/** @param {number} t */
function setCursor(t) {
  said.cursor = t;
  if (!view) return;
  view.cursor = t;
  view.draw();
}

/** @param {string} name */
function setPalette(name) {
  said.palette = name;
  if (!view) return;
  if (name) view.root.dataset.palette = name;
  else delete view.root.dataset.palette;
}

export const strip = { mount, unmount, setDay, setRibbon, setCursor, setPalette };
