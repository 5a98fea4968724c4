// The blocks of the plan on the day strip: to be dragged in time, by hand or by keys.
import { shape } from "./picture.js";
import { clamp, clock, hasDay, pad, xOf } from "./scale.js";

const patience = 600; // ms after the last key until what it did is told
const waiting = 4000; // ms that a change is shown before the day that follows it comes

/** @type {Record<string, string>} */
const words = { "warm-up": "warm-up", "under-way": "under way", anchor: "at anchor", mooring: "at a mooring", berth: "at a berth" };
/** @param {Block} block */
const isStay = (block) => block.kind in words && block.kind !== "warm-up" && block.kind !== "under-way";

// moved is a block as the change in hand would have it. Shifting a part moves all
// that follows; the stay before lasts longer or shorter. A stay is shifted by the
// route that leads to it.
/** @param {StripView} view @param {Block} block */
function moved(view, block) {
  const change = view.change;
  if (!change) return block;
  if (change.kind === "until") {
    return block.part === change.part ? { ...block, to: block.to + change.by } : block;
  }
  if (block.part >= change.first) return { ...block, from: block.from + change.by, to: block.to + change.by };
  return block.part === change.first - 1 ? { ...block, to: block.to + change.by } : block;
}

/** @param {Block} block */
function firstMoved(block) { return isStay(block) ? Math.max(0, block.part - 1) : block.part; }

// draw shows the blocks, and follows the elements that take hold of them.
/** @param {StripView} view */
export function blocks(view) {
  const g = shape(view.svg, "g", {});
  const day = view.day;
  const list = (day && day.blocks) || [];
  const { rows, width, font } = view.layout;
  if (day && list.length === 0) {
    shape(g, "text", { class: "word word-empty", x: width / 2, y: rows.blocks.y + rows.blocks.h / 2 + 4, "text-anchor": "middle", "font-size": font }, "no plan yet");
  }
  if (hasDay(view)) {
    for (const original of list) one(view, g, moved(view, original));
    tellChange(view, g, list);
  }
  follow(view, list);
  return g;
}

/** @param {StripOfDay} view @param {Element} g @param {Block} block */
function one(view, g, block) {
  const { rows, font } = view.layout;
  const x = xOf(view, clamp(block.from, view.day.from, view.day.to));
  const end = xOf(view, clamp(block.to, view.day.from, view.day.to));
  const w = Math.max(2, end - x);
  const { y, h } = rows.blocks;
  const tip = Math.min(7, w / 2);
  if (isStay(block)) {
    shape(g, "rect", { class: `block block-stay block-${block.kind}`, x, y: y + 1, width: w, height: h - 2, rx: Math.min(7, w / 3) });
  } else {
    const d = block.kind === "warm-up"
      ? `M${x} ${y + 5} H${x + w} V${y + h - 5} H${x} Z`
      : `M${x} ${y + 4} H${end - tip} L${x + w} ${y + h / 2} L${end - tip} ${y + h - 4} H${x} Z`;
    const path = shape(g, "path", { class: `block block-${block.kind}`, d });
    if (block.kind === "warm-up") path.setAttribute("fill", "url(#strip-warm)");
  }
  const icon = isStay(block) && w > 20;
  if (icon) sign(g, block.kind, x + 11, y + h / 2);
  const room = w - (icon ? 34 : 12);
  const text = fit(isStay(block) ? block.name || words[block.kind] : block.name || "under way", room, font);
  if (text && block.kind !== "warm-up") {
    shape(g, "text", { class: isStay(block) ? "word word-stay" : "word word-way", x: x + (icon ? 21 : 6), y: y + h / 2 + font * 0.36, "font-size": font }, text);
  }
  if (isStay(block)) shape(g, "path", { class: "grip", d: `M${end - 5} ${y + 7} V${y + h - 7} M${end - 9} ${y + 7} V${y + h - 7}` });
}

/** @param {string} text @param {number} room @param {number} font */
function fit(text, room, font) {
  const most = Math.floor(room / (font * 0.62));
  if (text.length <= most) return text;
  return most >= 7 ? text.slice(0, most - 1) + "\u2026" : "";
}

// sign is what kind of stay it is, drawn.
/** @param {Element} g @param {string} kind @param {number} x @param {number} y */
function sign(g, kind, x, y) {
  /** @type {Record<string, string>} */
  const signs = {
    anchor: "M0 -6 a1.8 1.8 0 1 0 0.01 0 M0 -2.4 V6 M-3.5 0 H3.5 M-5.5 2 Q-4.5 6 0 6.2 Q4.5 6 5.5 2",
    mooring: "M-4 2 a4 4 0 1 1 8 0 Z M0 2 V6",
    berth: "M-5 -5 V6 M5 -5 V6 M-5 0 H5",
  };
  const d = signs[kind];
  if (d) shape(g, "path", { class: "sign", d, transform: `translate(${x} ${y})` });
}

// tellChange writes what the change in hand comes to.
/** @param {StripOfDay} view @param {Element} g @param {Block[]} list */
function tellChange(view, g, list) {
  const { change } = view;
  const block = parts(list).find((b) => b.part === change?.part);
  if (!change || !block) return;
  const now = moved(view, block);
  const until = change.kind === "until";
  const text = until ? `until ${clock(view.day, now.to)}` : `${clock(view.day, now.from)} \u2013 ${clock(view.day, now.to)}`;
  const { rows, width, font } = view.layout;
  const x = clamp(xOf(view, until ? now.to : (now.from + now.to) / 2), 46, width - 46);
  const w = text.length * font * 0.6 + 12;
  shape(g, "rect", { class: "plate", x: x - w / 2, y: rows.blocks.y - font - 10, width: w, height: font + 8, rx: 3 });
  shape(g, "text", { class: "word word-plate", x, y: rows.blocks.y - 6, "text-anchor": "middle", "font-size": font }, text);
}

// parts puts the blocks of one part together: what is taken hold of is the part.
/** @param {Block[]} list */
function parts(list) {
  const out = new Map();
  for (const block of list) {
    const whole = out.get(block.part);
    if (!whole) out.set(block.part, { ...block });
    else Object.assign(whole, { kind: block.kind, from: Math.min(whole.from, block.from), to: Math.max(whole.to, block.to) });
  }
  return [...out.values()];
}

// follow keeps one element a part, so that the focus stays where it is.
/** @param {StripView} view @param {Block[]} list */
function follow(view, list) {
  /** @type {Set<string>} */
  const wanted = new Set();
  if (hasDay(view)) {
    for (const block of parts(list)) {
      place(view, block, "shift", wanted);
      if (isStay(block)) place(view, block, "until", wanted);
    }
  }
  for (const [key, hold] of view.holds) {
    if (wanted.has(key)) continue;
    hold.e.remove();
    view.holds.delete(key);
  }
}

/** @param {StripOfDay} view @param {Block} original @param {string} kind @param {Set<string>} wanted */
function place(view, original, kind, wanted) {
  const key = `${kind} ${original.part}`;
  wanted.add(key);
  let hold = view.holds.get(key);
  if (!hold) {
    hold = { e: document.createElement("div"), kind, block: original, timer: 0, by: 0 };
    hold.e.className = `strip-hold strip-hold-${kind}`;
    hold.e.tabIndex = 0;
    hold.e.setAttribute("role", "slider");
    view.root.insertBefore(hold.e, view.cursorParts.e);
    view.holds.set(key, hold);
    listen(view, hold);
  }
  hold.block = original;
  const block = moved(view, original);
  const { from, to } = view.day;
  const left = xOf(view, clamp(block.from, from, to));
  const right = xOf(view, clamp(block.to, from, to));
  const { rows } = view.layout;
  const tall = Math.max(44, rows.blocks.h);
  hold.e.style.top = `${rows.blocks.end - tall}px`;
  hold.e.style.height = `${tall}px`;
  const x = kind === "until" ? Math.max(right - 30, left + (right - left) * 0.45) : left;
  hold.e.style.left = `${x}px`;
  hold.e.style.width = `${kind === "until" ? 44 : Math.max(6, right - left)}px`;
  speak(view, hold, block);
}

/** @param {StripOfDay} view @param {Hold} hold @param {Block} block */
function speak(view, hold, block) {
  const e = hold.e;
  const name = block.name ? `, ${block.name}` : "";
  const until = hold.kind === "until";
  e.setAttribute("aria-label", until ? `End of the stay${name}` : `${words[block.kind] || block.kind}${name}`);
  e.setAttribute("aria-valuemin", String(view.day.from));
  e.setAttribute("aria-valuemax", String(view.day.to));
  e.setAttribute("aria-valuenow", String(until ? block.to : block.from));
  e.setAttribute("aria-valuetext", until ? `until ${clock(view.day, block.to)}` : `${clock(view.day, block.from)} to ${clock(view.day, block.to)}`);
}

// take sets the change in hand, within the day.
/** @param {StripOfDay} view @param {Hold} hold @param {number} by */
function take(view, hold, by) {
  const { block, kind } = hold;
  const { from, to, step_s: step, blocks: list } = view.day;
  const steps = Math.round(by / step) * step;
  if (kind === "until") {
    by = clamp(steps, Math.min(0, block.from + step - block.to), Math.max(0, to - block.to));
  } else {
    const first = firstMoved(block);
    const before = list.find((b) => b.part === first - 1);
    const starts = Math.min(...list.filter((b) => b.part >= first).map((b) => b.from));
    const least = before ? before.from + step - before.to : from - starts;
    by = clamp(steps, Math.min(0, least), Math.max(0, to - starts - step));
  }
  view.change = by === 0 ? null : { kind, part: block.part, first: firstMoved(block), by };
  view.draw();
}

// commit tells the change, and shows it until the new day comes.
/** @param {StripView} view @param {Hold} hold */
function commit(view, hold) {
  clearTimeout(hold.timer);
  hold.timer = 0;
  hold.by = 0;
  const change = view.change;
  if (!change) return;
  const { block } = hold;
  clearTimeout(view.waiting);
  view.waiting = setTimeout(() => { view.change = null; view.draw(); }, waiting);
  if (change.kind === "until") view.tell("until", { part: change.part, t: block.to + change.by });
  else view.tell("shift", { part: change.part, seconds: change.by });
}

/** @param {StripView} view @param {Hold} hold */
function drop(view, hold) {
  clearTimeout(hold.timer);
  hold.timer = 0;
  hold.by = 0;
  view.change = null;
  view.draw();
}

/** @param {StripView} view @param {Hold} hold */
function listen(view, hold) {
  const e = hold.e;
  /** @type {number | null} */
  let start = null;
  let dragged = false;
  e.addEventListener("pointerdown", (event) => {
    event.stopPropagation();
    if (event.button !== 0) return;
    if (hold.timer) commit(view, hold);
    start = event.clientX;
    dragged = false;
    e.setPointerCapture(event.pointerId);
  });
  e.addEventListener("pointermove", (event) => {
    if (start === null || !hasDay(view)) return;
    const dx = event.clientX - start;
    dragged ||= Math.abs(dx) > 4;
    if (!dragged) return;
    const seconds = dx / (view.layout.width - 2 * pad) * (view.day.to - view.day.from);
    view.eachFrame(() => { if (start !== null && hasDay(view)) take(view, hold, seconds); });
  });
  e.addEventListener("pointerup", () => {
    if (start === null) return;
    view.runFrame();
    start = null;
    if (dragged) commit(view, hold);
  });
  e.addEventListener("pointercancel", () => {
    start = null;
    if (dragged) drop(view, hold);
  });
  e.addEventListener("keydown", (event) => keys(view, hold, event));
  e.addEventListener("blur", () => { if (hold.timer) commit(view, hold); });
}

/** @param {StripView} view @param {Hold} hold @param {KeyboardEvent} event */
function keys(view, hold, event) {
  if (event.altKey || event.ctrlKey || event.metaKey || !hasDay(view)) return;
  const { step_s: step } = view.day;
  /** @type {Record<string, number>} */
  const steps = { ArrowRight: step, ArrowUp: step, ArrowLeft: -step, ArrowDown: -step, PageUp: 3600, PageDown: -3600 };
  const by = steps[event.key];
  if (event.key === "Escape" && hold.timer) drop(view, hold);
  else if (event.key === "Enter" && hold.timer) commit(view, hold);
  else if (by) {
    take(view, hold, hold.by + by);
    hold.by = view.change ? view.change.by : 0;
    clearTimeout(hold.timer);
    hold.timer = setTimeout(() => commit(view, hold), patience);
  } else return;
  event.preventDefault();
}
