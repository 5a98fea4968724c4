// Where things are on the day strip, and what its clock says. Nothing is drawn here.

export const pad = 10;

/** @param {StripView} view @returns {view is StripOfDay} */
export const hasDay = (view) => view.day !== null;

// rows of the strip from the top, in CSS pixels. A strip that is narrow or low has
// fewer words in it.
/** @param {number} width @param {number} height @returns {Layout} */
export function layout(width, height) {
  const compact = width < 560 || height < 130;
  const fixed = compact
    ? { hours: 15, wind: 17, blocks: 22, ribbon: 20, gap: 2 }
    : { hours: 18, wind: 30, blocks: 28, ribbon: 26, gap: 3 };
  const tide = Math.max(24, height - fixed.hours - fixed.wind - fixed.blocks - fixed.ribbon - 3 * fixed.gap);
  /** @type {Record<string, Row>} */
  const rows = {};
  let y = 0;
  for (const [name, h] of Object.entries({ hours: fixed.hours, wind: fixed.wind, tide, blocks: fixed.blocks, ribbon: fixed.ribbon })) {
    rows[name] = { y, h, end: y + h };
    y += h + (name === "hours" || name === "ribbon" ? 0 : fixed.gap);
  }
  return { width, height, compact, rows, font: compact ? 11 : 12 };
}

/** @param {StripOfDay} view @param {number} t */
export function xOf(view, t) {
  const { from, to } = view.day;
  return pad + (t - from) / (to - from) * (view.layout.width - 2 * pad);
}

/** @param {StripOfDay} view @param {number} x */
export function timeAt(view, x) {
  const { from, to } = view.day;
  return from + (x - pad) / (view.layout.width - 2 * pad) * (to - from);
}

/** @param {number} v @param {number} least @param {number} most */
export function clamp(v, least, most) { return Math.min(Math.max(v, least), most); }

// snap takes a time to the nearest step of the day.
/** @param {StripOfDay} view @param {number} t */
export function snap(view, t) {
  const { from, to, step_s } = view.day;
  return clamp(from + Math.round((t - from) / step_s) * step_s, from, to);
}

// clock writes a time as the zone's clocks show it. The whole hours come with the day,
// so that a change of the clocks is told as the engine tells it.
/** @param {Day} day @param {number} t */
export function clock(day, t) {
  if (t >= day.to) return "24:00";
  let hour = null;
  for (const h of day.hours) {
    if (h.t > t) break;
    hour = h;
  }
  if (!hour || t - hour.t >= 3600) return clockOfZone(day, t);
  const minutes = Math.floor((t - hour.t) / 60);
  return `${hour.label}:${String(minutes).padStart(2, "0")}${hour.again ? " again" : ""}`;
}

/** @param {Day} day @param {number} t */
function clockOfZone(day, t) {
  try {
    return new Intl.DateTimeFormat("en-GB", { timeZone: day.zone, hour: "2-digit", minute: "2-digit", hourCycle: "h23" }).format(new Date(t * 1000));
  } catch {
    return "?";
  }
}

// heightAt is the height of tide, or null where it is not known.
/** @param {Day} day @param {number} t */
export function heightAt(day, t) {
  const points = day.tide && day.tide.points;
  if (!points) return null;
  const at = (t - day.from) / day.step_s;
  const i = Math.floor(at);
  const a = points[i];
  const b = points[at === i ? i : i + 1];
  return a && b ? a[1] + (b[1] - a[1]) * (at - i) : null;
}

/** @param {number} h */
export function metres(h) { return `${(Math.abs(h) < 0.05 ? 0 : h).toFixed(1).replace("-", "\u2212")} m`; }

const compass = ["N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "NNW"];
/** @param {number} deg */
export function point(deg) { return compass[((Math.round(deg / 22.5) % 16) + 16) % 16]; }
