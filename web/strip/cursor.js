// The hour cursor of the day strip: the time at which the chart shows the water.
import { clamp, clock, hasDay, heightAt, metres, snap, timeAt, xOf } from "./scale.js";

/** @param {StripView} view */
export function cursor(view) {
  const e = document.createElement("div");
  e.className = "strip-cursor";
  e.tabIndex = 0;
  e.setAttribute("role", "slider");
  e.setAttribute("aria-label", "Hour of the chart's water");
  const line = document.createElement("div");
  line.className = "strip-line";
  const flag = document.createElement("div");
  flag.className = "strip-flag";
  const dot = document.createElement("div");
  dot.className = "strip-dot";
  e.append(flag);
  view.root.append(line, dot, e);
  const self = { e, line, flag, dot, widths: new Map() };
  listen(view, self);
  return self;
}

// widthOf is how wide the flag is. To ask the page for it makes it lay out everything
// first, so it is asked once for each length of the words: figures are of one width.
/** @param {StripOfDay} view @param {string} words */
function widthOf(view, words) {
  const { flag, widths } = view.cursorParts;
  const kind = `${words.length} ${view.layout.compact}`;
  const width = widths.get(kind) ?? flag.offsetWidth;
  if (width > 0) widths.set(kind, width);
  return width;
}

// place puts the cursor where the view's time is.
/** @param {StripView} view */
export function placeCursor(view) {
  const { e, line, flag, dot } = view.cursorParts;
  for (const part of [e, line, dot]) part.hidden = !hasDay(view);
  if (!hasDay(view)) return;
  const t = view.cursor = clamp(view.cursor ?? view.day.from, view.day.from, view.day.to);
  const x = xOf(view, t);
  const h = heightAt(view.day, t);
  const words = clock(view.day, t);
  e.style.left = `${x - 22}px`;
  line.style.left = `${x}px`;
  line.style.height = `${view.layout.rows.blocks.end}px`;
  const written = h === null ? `${words} ?` : `${words} ${view.layout.compact ? metres(h).slice(0, -2) : metres(h)}`;
  flag.textContent = written;
  const half = widthOf(view, written) / 2;
  flag.style.left = `${clamp(x, half, view.layout.width - half) - x + 22 - half}px`;
  dot.hidden = h === null || !view.yOf;
  if (h !== null && view.yOf) {
    dot.style.left = `${x}px`;
    dot.style.top = `${view.yOf(h)}px`;
  }
  e.setAttribute("aria-valuemin", String(view.day.from));
  e.setAttribute("aria-valuemax", String(view.day.to));
  e.setAttribute("aria-valuenow", String(t));
  e.setAttribute("aria-valuetext", `${words}, height of tide ${h === null ? "not known" : metres(h)}`);
}

/** @param {StripOfDay} view @param {number} t */
function go(view, t) {
  const to = snap(view, t);
  if (to === view.cursor) return;
  view.cursor = to;
  placeCursor(view);
  view.tell("cursor", { t: to });
}

/** @param {StripView} view @param {CursorParts} self */
function listen(view, self) {
  /** @param {HTMLElement} target @param {boolean} jump */
  const drag = (target, jump) => {
    let off = 0;
    let held = false;
    /** @param {PointerEvent} event */
    const at = (event) => event.clientX - view.root.getBoundingClientRect().left;
    target.addEventListener("pointerdown", (event) => {
      if (!hasDay(view) || event.button !== 0) return;
      held = true;
      target.setPointerCapture(event.pointerId);
      off = jump ? 0 : at(event) - xOf(view, view.cursor ?? view.day.from);
      if (jump) view.eachFrame(() => go(view, timeAt(view, at(event))));
    });
    target.addEventListener("pointermove", (event) => {
      if (!held) return;
      const x = at(event) - off;
      view.eachFrame(() => hasDay(view) && go(view, timeAt(view, x)));
    });
    for (const end of ["pointerup", "pointercancel", "lostpointercapture"]) target.addEventListener(end, () => { held = false; });
  };
  drag(view.root, true);
  drag(self.e, false);
  self.e.addEventListener("pointerdown", (event) => event.stopPropagation());
  self.e.addEventListener("keydown", (event) => {
    if (!hasDay(view)) return;
    const { from, to, step_s: step } = view.day;
    const t = view.cursor ?? from;
    /** @type {Record<string, number>} */
    const steps = {
      ArrowRight: t + step, ArrowUp: t + step, ArrowLeft: t - step, ArrowDown: t - step,
      PageUp: t + 3600, PageDown: t - 3600, Home: from, End: to,
    };
    if (!(event.key in steps) || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    go(view, clamp(steps[event.key], from, to));
  });
}
