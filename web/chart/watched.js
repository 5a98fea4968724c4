// Draws the anchor watch: the anchor, the circle that the boat stays in while it holds, where she was,
// and where she is.
import { write } from "./labels.js";
import { strokeLine } from "./overlay.js";
import { anchor } from "./points.js";
import { project, stretch } from "./space.js";
import * as trace from "./trace.js";

/** @typedef {{ anchor: Point | null; radius: number; track: Point[]; boat: Point | null; accuracy: number; alarm: boolean; seen: string }} Watched */

// What the page's program tells of the watch, in projected metres.
/** @param {string} text @returns {Watched | null} */
export const readWatch = (text) => {
  if (!text) return null;
  const d = JSON.parse(text);
  const here = d.anchor ?? d.boat;
  const perMetre = here ? 1 / stretch(project(here)[1]) : 1; // projected metres in one on the ground
  return {
    anchor: d.anchor ? project(d.anchor) : null,
    radius: d.radius_m * perMetre,
    track: d.track.map(project),
    boat: d.boat ? project(d.boat) : null,
    accuracy: d.accuracy_m * perMetre,
    alarm: d.alarm,
    seen: d.seen ?? "",
  };
};

/** @param {Ctx} ctx @param {Watched} watched @param {Frame} view @param {ToScreen} at @param {Colours} c @param {Room} room */
export const drawWatch = (ctx, watched, view, at, c, room) => {
  const u = view.ratio;
  // While she is not seen, nothing that was seen before looks well: grey, dashed, and with its time.
  const blind = watched.seen !== "";
  const colour = watched.alarm ? c.bad : blind ? c.note : c.good;
  if (watched.anchor) {
    const [x, y] = at(watched.anchor);
    const radius = watched.radius * view.perM;
    for (const { stroke, width } of [{ stroke: c.halo, width: 5 }, { stroke: colour, width: 2.4 }]) {
      ctx.beginPath();
      ctx.arc(x, y, radius, 0, 7);
      ctx.strokeStyle = stroke;
      ctx.lineWidth = width * u;
      ctx.setLineDash(blind ? [6 * u, 5 * u] : []);
      ctx.stroke();
    }
    ctx.setLineDash([]);
    trace.disc(ctx, x, y, 12 * u, c.paper, colour, 1.8 * u);
    anchor(ctx, x, y, 1.1 * u, colour, 1.7);
    room.takeAround(x, y, 12 * u, true);
  }
  const track = watched.track.map(at);
  strokeLine(ctx, track, c.halo, 3.5 * u);
  strokeLine(ctx, track, c.route, 1.4 * u, [3 * u, 2 * u]);
  if (!watched.boat) return;
  const [x, y] = at(watched.boat);
  ctx.globalAlpha = 0.15;
  trace.disc(ctx, x, y, Math.max(watched.accuracy * view.perM, 1), colour, "transparent", u);
  ctx.globalAlpha = 1;
  trace.disc(ctx, x, y, 6 * u, watched.alarm ? c.bad : blind ? c.note : c.focus, c.paper, 2 * u);
  write(ctx, room, wordsFor(watched), x, y + 15 * u, { size: 12, colour: c.text, halo: c.halo, unit: u, force: watched.alarm || blind });
};

/** @param {Watched} watched */
const wordsFor = ({ alarm, seen }) => [alarm && "She drags", seen].filter(Boolean).join(". ") || "She lies here";
