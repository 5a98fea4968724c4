// What the day strip shows and nobody takes hold of: hours, daylight, wind, the tide.
import { clamp, clock, hasDay, metres, point, xOf } from "./scale.js";

const space = "http://www.w3.org/2000/svg";

/** @param {Element} parent @param {string} name @param {Record<string, string | number>} attributes @param {string | number} [text] */
export function shape(parent, name, attributes, text) {
  const e = document.createElementNS(space, name);
  for (const [key, value] of Object.entries(attributes)) e.setAttribute(key, String(value));
  if (text !== undefined) e.textContent = String(text);
  parent.appendChild(e);
  return e;
}

// patterns tell areas apart without colour.
/** @param {SVGElement} svg */
export function patterns(svg) {
  const defs = shape(svg, "defs", {});
  /** @param {string} id @param {number} size @param {number} turn @param {number} width */
  const lines = (id, size, turn, width) => {
    const p = shape(defs, "pattern", { id: `strip-${id}`, width: size, height: size, patternUnits: "userSpaceOnUse", patternTransform: `rotate(${turn})` });
    shape(p, "rect", { class: `ground ground-${id}`, width: size, height: size });
    shape(p, "line", { class: `hatch hatch-${id}`, x1: 0, y1: 0, x2: 0, y2: size, "stroke-width": width });
    return p;
  };
  lines("night", 5, 45, 2);
  lines("twilight", 9, 45, 1.5);
  lines("unknown", 7, -45, 2);
  lines("warm", 6, 45, 3);
  lines("care", 6, 45, 3);
  const dots = shape(defs, "pattern", { id: "strip-dots", width: 6, height: 6, patternUnits: "userSpaceOnUse" });
  shape(dots, "rect", { class: "ground ground-dots", width: 6, height: 6 });
  shape(dots, "circle", { class: "dot", cx: 3, cy: 3, r: 1.4 });
}

// widthOf is about how wide words are in the system's font.
/** @param {string} text @param {number} font */
function widthOf(text, font) {
  let w = 0;
  for (const c of text) w += c === "W" || c === "M" ? 0.95 : c === " " || c === "." || c === ":" ? 0.35 : 0.62;
  return w * font;
}

// labels keeps words from lying over each other.
/** @param {Element} parent @param {number} font @returns {Say} */
function labels(parent, font) {
  /** @type {{ l: number; r: number; t: number; b: number }[]} */
  const taken = [];
  return (x, y, text, kind, anchor = "middle") => {
    const w = widthOf(text, font) + 4;
    const left = anchor === "middle" ? x - w / 2 : anchor === "end" ? x - w : x;
    const box = { l: left, r: left + w, t: y - font + 1, b: y + 2 };
    if (taken.some((o) => box.l < o.r && o.l < box.r && box.t < o.b && o.t < box.b)) return false;
    taken.push(box);
    shape(parent, "text", { class: `word word-${kind}`, x, y, "text-anchor": anchor, "font-size": font }, text);
    return true;
  };
}

/** @param {StripView} view */
export function picture(view) {
  const g = shape(view.svg, "g", {});
  const { width, rows, font } = view.layout;
  if (!hasDay(view)) {
    shape(g, "text", { class: "word word-empty", x: width / 2, y: rows.tide.y + rows.tide.h / 2, "text-anchor": "middle", "font-size": font + 1 }, "The day is not worked out yet");
    return g;
  }
  const say = labels(g, font);
  daylight(view, g);
  hours(view, g, say);
  wind(view, g, say);
  tide(view, g, say);
  nights(view, say);
  return g;
}

/** @param {StripOfDay} view @param {Element} g */
function daylight(view, g) {
  const { rows } = view.layout;
  for (const span of view.day.light || []) {
    if (span.kind === "day") continue;
    const x = xOf(view, Math.max(span.from, view.day.from));
    const end = xOf(view, Math.min(span.to, view.day.to));
    if (end <= x) continue;
    shape(g, "rect", { x, y: rows.hours.end, width: end - x, height: rows.blocks.end - rows.hours.end, fill: `url(#strip-${span.kind})` });
  }
}

/** @param {StripOfDay} view @param {Say} say */
function nights(view, say) {
  const { rows, font } = view.layout;
  for (const span of view.day.light || []) {
    if (span.kind !== "night") continue;
    const x = xOf(view, Math.max(span.from, view.day.from));
    const end = xOf(view, Math.min(span.to, view.day.to));
    if (end - x <= 44) continue;
    for (const y of [rows.tide.y + font, rows.tide.end - 4, rows.blocks.end - 6]) {
      if (say((x + end) / 2, y, "night", "soft")) break;
    }
  }
}

// hours are labelled as densely as there is room.
/** @param {StripOfDay} view @param {Element} g @param {Say} say */
function hours(view, g, say) {
  const { rows, compact, font, width } = view.layout;
  const list = view.day.hours || [];
  const apart = list.length > 1 ? (width - 20) / list.length : width;
  const every = [1, 2, 3, 4, 6, 12].find((n) => n * apart >= (compact ? 30 : 26)) || 24;
  list.forEach((h, i) => {
    const x = xOf(view, h.t);
    const named = h.again || Number(h.label) % every === 0;
    shape(g, "line", { class: named ? "hour hour-named" : "hour", x1: x, x2: x, y1: rows.hours.end - (named ? 3 : 0), y2: rows.blocks.end });
    if (named && i < list.length) say(x, rows.hours.end - 4, h.again ? "again" : h.label, "hour");
  });
}

/** @param {StripOfDay} view @param {Element} g @param {Say} say */
function wind(view, g, say) {
  const { rows, compact, font, width } = view.layout;
  const known = new Map((view.day.wind || []).map((w) => [w.t, w]));
  const middle = rows.wind.y + rows.wind.h / 2;
  if (known.size === 0) {
    say(width / 2, middle + 4, "wind not given", "empty");
    return;
  }
  const list = view.day.hours || [];
  const apart = (width - 20) / Math.max(1, list.length);
  const room = compact ? 58 : 30;
  const every = [1, 2, 3, 4, 6].find((n) => n * apart >= room) || 12;
  for (const h of list) {
    if (Number(h.label) % every !== 0) continue;
    const w = known.get(h.t);
    const x = xOf(view, h.t);
    if (!w) {
      say(x, middle + 4, "?", "soft");
    } else if (compact) {
      arrow(g, x - 7, middle, w, 6);
      say(x + 1, middle + 4, `${point(w.from_deg)} ${Math.round(w.kn)}`, "wind", "start");
    } else {
      arrow(g, x - 7, rows.wind.y + 8, w, 7);
      say(x + 1, rows.wind.y + 12, `${Math.round(w.kn)}`, "wind", "start");
      say(x, rows.wind.y + 26, point(w.from_deg), "soft");
    }
  }
  if (!compact) say(width - 2, rows.wind.y + 12, "kn", "soft", "end");
}

// arrow shows where the wind blows to; the words beside it where it comes from.
/** @param {Element} g @param {number} x @param {number} y @param {Wind} w @param {number} size */
function arrow(g, x, y, w, size) {
  const s = size;
  shape(g, "path", {
    class: "arrow", transform: `translate(${x} ${y}) rotate(${w.from_deg + 180})`,
    d: `M0 ${s} L0 ${-s * 0.4} M${-s * 0.55} ${-s * 0.1} L0 ${-s} L${s * 0.55} ${-s * 0.1} Z`,
  });
}

// scale gives the row's place of a height.
/** @param {StripOfDay} view @param {Tide} given */
function scale(view, given) {
  const { rows } = view.layout;
  const heights = given.points.flatMap((p) => (p ? [p[1]] : []));
  const least = Math.min(...heights);
  const most = Math.max(...heights);
  const top = rows.tide.y + 3;
  const foot = rows.tide.end - 4;
  return (/** @type {number} */ h) => (most - least < 0.01 ? (top + foot) / 2 : foot - ((h - least) / (most - least)) * (foot - top));
}

/** @param {StripOfDay} view @param {Element} g @param {Say} say */
function tide(view, g, say) {
  const { rows, width, compact } = view.layout;
  const given = view.day.tide;
  if (!given?.points?.some(Boolean)) {
    shape(g, "rect", { x: 0, y: rows.tide.y, width, height: rows.tide.h, fill: "url(#strip-unknown)" });
    say(width / 2, rows.tide.y + rows.tide.h / 2 + 4, "tide not given", "empty");
    return;
  }
  const yOf = (view.yOf = scale(view, given));
  for (const run of stretches(given.points)) {
    if (run.known) curve(view, g, given.points.slice(run.start, run.end + 1));
    else gap(view, g, run, say);
  }
  // The words stand under a high water and over a low one: there is the room.
  for (const e of given.events || []) {
    const x = clamp(xOf(view, e.t), compact ? 40 : 54, width - (compact ? 40 : 54));
    const high = e.kind === "HW";
    const name = compact ? `${clock(view.day, e.t)} ${metres(e.h)}` : `${e.kind} ${clock(view.day, e.t)} ${metres(e.h)}`;
    say(x, high ? yOf(e.h) + view.layout.font + 4 : yOf(e.h) - 5, name, "tide");
  }
}

// stretches divides the points into known and unknown ones; each ends where the next
// begins.
/** @param {(Point | null)[]} points */
function stretches(points) {
  /** @type {Stretch[]} */
  const out = [];
  points.forEach((p, i) => {
    const known = Boolean(p);
    const last = out[out.length - 1];
    if (last && last.known === known) last.end = i;
    else out.push({ known, start: i, end: i });
  });
  return out;
}

/** @param {StripOfDay} view @param {Element} g @param {(Point | null)[]} points */
function curve(view, g, points) {
  const { rows } = view.layout;
  const corners = points.flatMap((p) => (p ? [{ x: xOf(view, p[0]).toFixed(1), y: (view.yOf?.(p[1]) ?? 0).toFixed(1) }] : []));
  const d = `M${corners.map(({ x, y }) => `${x} ${y}`).join(" L")}`;
  shape(g, "path", { class: "sea", d: `${d} L${corners[corners.length - 1].x} ${rows.tide.end} L${corners[0].x} ${rows.tide.end} Z` });
  shape(g, "path", { class: "curve", d });
}

/** @param {StripOfDay} view @param {Element} g @param {Stretch} run @param {Say} say */
function gap(view, g, run, say) {
  const { rows, font } = view.layout;
  const { from, to, step_s } = view.day;
  const left = xOf(view, from + Math.max(0, run.start - 1) * step_s);
  const right = xOf(view, Math.min(to, from + (run.end + 1) * step_s));
  shape(g, "rect", { x: left, y: rows.tide.y, width: right - left, height: rows.tide.h, fill: "url(#strip-unknown)" });
  const wide = right - left > 110;
  say((left + right) / 2, rows.tide.y + rows.tide.h / 2 + font / 3, wide ? "? tide not known" : "?", "empty");
}

// spoken is the picture in words, for those who do not see it.
/** @param {StripView} view */
export function spoken(view) {
  const day = view.day;
  if (!day) return "The day is not worked out yet.";
  const parts = [];
  const events = (day.tide && day.tide.events) || [];
  if (!day.tide || !heightKnown(day)) parts.push("Tide not given.");
  for (const e of events) parts.push(`${e.kind === "HW" ? "High" : "Low"} water ${clock(day, e.t)}, ${metres(e.h)}.`);
  for (const span of day.light || []) {
    if (span.kind === "day") parts.push(`Daylight ${clock(day, span.from)} to ${clock(day, span.to)}.`);
  }
  const winds = day.wind || [];
  if (winds.length === 0) parts.push("Wind not given.");
  for (const w of winds.filter((_, i) => i % 3 === 0)) {
    parts.push(`Wind at ${clock(day, w.t)} from ${point(w.from_deg)}, ${Math.round(w.kn)} knots${w.gust_kn ? `, gusts ${Math.round(w.gust_kn)}` : ""}.`);
  }
  return parts.join(" ");
}

/** @param {Day} day */
function heightKnown(day) { return Boolean(day.tide?.points?.some(Boolean)); }
