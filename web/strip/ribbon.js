// The departure ribbon of the day strip: for each departure, is the whole day clear,
// and if not, why.
import { verdictWords } from "../rules.js";
import { shape } from "./picture.js";
import { clamp, clock, hasDay, timeAt, xOf } from "./scale.js";

// How a verdict is drawn: its mark, and its part of the row.
/** @type {Record<string, { mark: string; part: number }>} */
const verdicts = {
  "not-clear": { mark: "\u25a0", part: 1 },
  "no-data": { mark: "?", part: 0.8 },
  care: { mark: "\u25b2", part: 0.6 },
  clear: { mark: "\u25cb", part: 0.34 },
};
/** @param {Slot} slot */
const verdictOf = (slot) => verdicts[slot.verdict] ? slot.verdict : "no-data";

/** @param {StripView} view */
export function ribbon(view) {
  const g = shape(view.svg, "g", {});
  const { rows, width, font } = view.layout;
  if (!hasDay(view)) return g;
  shape(g, "line", { class: "shore", x1: 0, x2: width, y1: rows.ribbon.end - 0.5, y2: rows.ribbon.end - 0.5 });
  const slots = view.slots;
  if (slots.length === 0) {
    const text = (view.day.blocks || []).length === 0 ? "departures: no plan yet" : "departures are not worked out yet";
    shape(g, "text", { class: "word word-empty", x: width / 2, y: rows.ribbon.y + rows.ribbon.h / 2 + 4, "text-anchor": "middle", "font-size": font }, text);
    return g;
  }
  for (const run of runs(view, slots)) stretch(view, g, run);
  departure(view, g);
  if (view.picked) picked(view, g, view.picked);
  return g;
}

// picked frames the slot that is chosen, and points at it.
/** @param {StripOfDay} view @param {Element} g @param {Slot} slot */
function picked(view, g, slot) {
  const { rows } = view.layout;
  const middle = xOf(view, slot.t + view.slotStep / 2);
  const w = Math.max(7, xOf(view, slot.t + view.slotStep) - xOf(view, slot.t) + 3);
  for (const name of ["picked-ground", "picked"]) {
    shape(g, "rect", { class: name, x: middle - w / 2, y: rows.ribbon.y + 1, width: w, height: rows.ribbon.h - 3, rx: 1.5 });
  }
}

// runs puts neighbouring slots of one verdict together.
/** @param {StripView} view @param {Slot[]} slots */
function runs(view, slots) {
  /** @type {Run[]} */
  const out = [];
  for (const slot of slots) {
    const verdict = verdictOf(slot);
    const last = out[out.length - 1];
    if (last && last.verdict === verdict && slot.t - last.to < 1) last.to = slot.t + view.slotStep;
    else out.push({ verdict, from: slot.t, to: slot.t + view.slotStep });
  }
  return out;
}

// stretch draws a run: the worse, the higher; each with its pattern and its mark.
/** @param {StripOfDay} view @param {Element} g @param {Run} run */
function stretch(view, g, run) {
  const { rows, font } = view.layout;
  const x = xOf(view, run.from);
  const w = xOf(view, Math.min(run.to, view.day.to)) - x;
  if (w <= 0) return;
  const { part, mark } = verdicts[run.verdict];
  const h = (rows.ribbon.h - 1) * part;
  const y = rows.ribbon.end - 1 - h;
  const r = shape(g, "rect", { class: `slot slot-${run.verdict}`, x: x + 0.4, y, width: Math.max(1, w - 0.8), height: h });
  if (run.verdict === "care") r.setAttribute("fill", "url(#strip-care)");
  if (run.verdict === "no-data") r.setAttribute("fill", "url(#strip-dots)");
  if (w < font + 4) return;
  const middle = run.verdict === "clear" ? y - 3 : rows.ribbon.end - 1 - h / 2 + font * 0.36;
  if (run.verdict !== "clear" && run.verdict !== "not-clear") {
    shape(g, "circle", { class: "slot-plate", cx: x + w / 2, cy: middle - font * 0.36, r: font * 0.62 });
  }
  shape(g, "text", { class: `mark mark-${run.verdict}`, x: x + w / 2, y: middle, "text-anchor": "middle", "font-size": font }, mark);
}

// departure marks when she leaves as planned.
/** @param {StripOfDay} view @param {Element} g */
function departure(view, g) {
  const first = (view.day.blocks || []).find((b) => b.part === 0);
  if (!first) return;
  const { rows } = view.layout;
  const x = xOf(view, first.from + (view.change && view.change.kind === "shift" && view.change.first === 0 ? view.change.by : 0));
  shape(g, "path", { class: "leaves", d: `M${x} ${rows.ribbon.y + 7} L${x - 5} ${rows.ribbon.y - 2} H${x + 5} Z M${x} ${rows.ribbon.y + 4} V${rows.ribbon.end}` });
}

/** @param {StripOfDay} view @param {Slot} slot */
function words(view, slot) {
  return `${clock(view.day, slot.t)}, ${verdictWords(verdictOf(slot))}${slot.title ? `: ${slot.title}` : ""}`;
}

// list is the ribbon for those who do not see it, and for keys.
/** @param {StripView} view */
export function list(view) {
  const e = document.createElement("div");
  e.className = "strip-ribbon";
  e.tabIndex = 0;
  e.setAttribute("role", "listbox");
  e.setAttribute("aria-label", "Departures of the day. Arrow keys choose, Enter leaves then.");
  view.root.append(e);
  const self = { e };
  listen(view, self);
  return self;
}

// follow keeps the options with the slots.
/** @param {StripView} view */
export function followRibbon(view) {
  const { e } = view.ribbonParts;
  const slots = view.slots;
  view.picked = slots.find((s) => s.t === view.picked?.t) || null;
  e.hidden = !hasDay(view) || slots.length === 0;
  const { rows } = view.layout;
  // A finger's breadth, below the blocks where they are.
  const tall = Math.max(44, rows.ribbon.h);
  e.style.top = `${rows.ribbon.end - tall}px`;
  e.style.height = `${tall}px`;
  if (!hasDay(view) || slots.length === 0) {
    view.picked = null;
    return;
  }
  while (e.children.length > slots.length) e.lastElementChild?.remove();
  slots.forEach((slot, i) => {
    let option = e.children[i];
    if (!option) {
      option = document.createElement("div");
      option.id = `strip-slot-${i}`;
      option.setAttribute("role", "option");
      e.append(option);
    }
    option.setAttribute("aria-label", words(view, slot));
    option.setAttribute("aria-selected", String(view.picked?.t === slot.t));
  });
  const i = slots.findIndex((s) => s.t === view.picked?.t);
  if (i < 0) e.removeAttribute("aria-activedescendant");
  else e.setAttribute("aria-activedescendant", `strip-slot-${i}`);
}

// pick chooses a slot and asks the page to tell its reason.
/** @param {StripView} view @param {Slot | null} slot @param {boolean} [again] */
function pick(view, slot, again) {
  if (!slot || !again && view.picked && view.picked.t === slot.t) return;
  view.picked = slot;
  view.draw();
  view.tell("why", { slot });
}

/** @param {StripView} view */
function unpick(view) {
  view.picked = null;
  view.draw();
}

/** @param {StripView} view */
function depart(view) {
  const slot = view.picked;
  if (!slot) return;
  unpick(view);
  view.tell("depart", { t: slot.t });
}

/** @param {StripOfDay} view @param {number} x @returns {Slot | null} */
function slotAt(view, x) {
  const t = timeAt(view, x) - view.slotStep / 2;
  /** @type {Slot | null} */
  let best = null;
  for (const slot of view.slots) {
    if (!best || Math.abs(slot.t - t) < Math.abs(best.t - t)) best = slot;
  }
  return best;
}

/** @param {StripView} view @param {{ e: HTMLElement }} self */
function listen(view, self) {
  const { e } = self;
  let held = false;
  /** @param {PointerEvent} event */
  const at = (event) => event.clientX - view.root.getBoundingClientRect().left;
  e.addEventListener("pointerdown", (event) => {
    event.stopPropagation();
    if (event.button !== 0 || !hasDay(view)) return;
    held = true;
    e.setPointerCapture(event.pointerId);
    pick(view, slotAt(view, at(event)), true);
  });
  e.addEventListener("pointermove", (event) => {
    if (!held) return;
    const x = at(event);
    view.eachFrame(() => hasDay(view) && pick(view, slotAt(view, x)));
  });
  for (const end of ["pointerup", "pointercancel"]) e.addEventListener(end, () => { held = false; });
  e.addEventListener("dblclick", () => depart(view));
  e.addEventListener("keydown", (event) => keys(view, event));
}

/** @param {StripView} view @param {KeyboardEvent} event */
function keys(view, event) {
  if (event.altKey || event.ctrlKey || event.metaKey || !hasDay(view) || view.slots.length === 0) return;
  const last = view.slots.length - 1;
  const first = (view.day.blocks || []).find((b) => b.part === 0);
  const near = view.picked ?? slotAt(view, xOf(view, first ? first.from + view.slotStep / 2 : (view.cursor ?? view.day.from)));
  const now = view.slots.findIndex((slot) => slot === near);
  const hour = Math.round(3600 / view.slotStep);
  /** @type {Record<string, number>} */
  const places = {
    ArrowRight: now + (view.picked ? 1 : 0), ArrowDown: now + 1, ArrowLeft: now - (view.picked ? 1 : 0), ArrowUp: now - 1,
    PageUp: now + hour, PageDown: now - hour, Home: 0, End: last,
  };
  const to = places[event.key];
  if (to !== undefined) pick(view, view.slots[clamp(to, 0, last)]);
  else if ((event.key === "Enter" || event.key === " ") && view.picked) depart(view);
  else if (event.key === "Escape" && view.picked) unpick(view);
  else return;
  event.preventDefault();
}
