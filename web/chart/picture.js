// The overlay's canvas: draws graticule, plan, findings and sketch each time the
// map draws itself, and remembers where things are, for taps.
import { contextOf } from "./canvas.js";
import { drawCircles, drawClearances, drawFindings, drawLimits, drawReach, writeLimits } from "./found.js";
import { drawGraticule } from "./graticule.js";
import { Room } from "./labels.js";
import { drawAnchorages, drawAsked, drawLegs, drawPlaces, drawWaypoints, HANDLE_LEG_PX, longOf, midOf, namePlaces, toScreen } from "./overlay.js";
import { paletteOf } from "./palette.js";
import { legsOf, severityOf } from "./plan.js";
import { drawCrossHair } from "./sketch.js";
import { drawWatch } from "./watched.js";

const POINT_PX = 22; // half of a touch target of 44
const HANDLE_PX = 20;
const FINDING_PX = 20;

export class Picture {
  /** @param {Scene} scene */
  constructor(scene) {
    this.scene = scene;
    this.canvas = document.createElement("canvas");
    this.canvas.className = "keelroom-chart-overlay";
    this.ctx = contextOf(this.canvas);
    /** @type {Frame | null} */
    this.view = null;
    /** @type {{ index: number; x: number; y: number; severity: string }[]} */
    this.placed = []; // findings in the picture
    /** @type {{ place: DrawnPoint & { at?: number }, legs: SeenLeg[] } | null} */
    this.painted = null; // while a point is dragged: where it is drawn, and the legs
  }

  /** @param {Frame} view */
  show(view) {
    this.view = view;
    const { canvas, ctx } = this;
    if (canvas.width !== view.width || canvas.height !== view.height) {
      canvas.width = view.width;
      canvas.height = view.height;
      canvas.style.width = `${view.width / view.ratio}px`;
      canvas.style.height = `${view.height / view.ratio}px`;
    } else {
      ctx.clearRect(0, 0, view.width, view.height);
    }
    this.draw(view);
  }

  /** @param {Frame} view */
  draw(view) {
    const { ctx, scene } = this;
    const c = paletteOf(scene.palette);
    const u = view.ratio;
    const at = toScreen(view);
    const room = new Room();
    ctx.lineJoin = "round";
    ctx.lineCap = "butt";
    drawGraticule(ctx, view, c);
    const { plan, report, byNumber, at: place } = scene.shown();
    const legs = this.legs(plan, at, report, byNumber);
    drawCircles(ctx, report, at, c, u);
    for (const finding of report.findings) drawReach(ctx, finding, at, c, u);
    drawLegs(ctx, legs, scene, c, u, room);
    drawLimits(ctx, report, at, c, u);
    drawWaypoints(ctx, plan, scene, at, c, u, room);
    drawPlaces(ctx, plan, scene, at, c, u, room);
    if (scene.watched) drawWatch(ctx, scene.watched, view, at, c, room);
    drawAnchorages(ctx, scene.anchorages, at, c, u, room);
    if (scene.place) drawAsked(ctx, ...at(scene.place), c, u, room);
    this.placed = scene.drag || scene.live ? [] : drawFindings(ctx, scene.report, view, at, c, room, scene.selected?.finding);
    writeLimits(ctx, report, at, c, u, room);
    drawClearances(ctx, report, legs, at, c, u, room);
    namePlaces(ctx, plan, at, c, u, room, view);
    scene.sketch.draw(ctx, at, c, u);
    if (scene.sketch.active || scene.keyboard) drawCrossHair(ctx, view, c);
    this.painted = place && { place, legs };
  }

  /** @param {PlanView} plan @param {ToScreen} at @param {ReportView} report @param {boolean} byNumber @returns {SeenLeg[]} */
  legs(plan, at, report = this.scene.report, byNumber = false) {
    return legsOf(plan).map((leg) => ({ ...leg, from: at(leg.a), to: at(leg.b), severity: severityOf(leg, report, byNumber) }));
  }

  // The route's or stay's point under a CSS pixel: the nearest within a finger's reach;
  // of points at one place, a stay before a route's end.
  /** @param {number} px @param {number} py */
  pointAt(px, py) {
    if (!this.view) return null;
    const at = toScreen(this.view);
    const u = this.view.ratio;
    /** @type {Near | null} */
    let best = null;
    for (const item of this.scene.plan.items) {
      if (item.role !== "stay" && item.role !== "route") continue;
      for (const [vertex, p] of item.points.entries()) {
        const [x, y] = at(p);
        const distance = Math.hypot(x / u - px, y / u - py) + (item.role === "stay" ? -2 : 0);
        if (distance <= POINT_PX && (!best || distance < best.distance)) best = { feature: item.feature, vertex, distance, point: p };
      }
    }
    return best;
  }

  // The handle in the middle of a leg: a new point before that vertex.
  /** @param {number} px @param {number} py */
  handleAt(px, py) {
    if (!this.view) return null;
    const u = this.view.ratio;
    const legs = this.legs(this.scene.plan, toScreen(this.view));
    /** @type {Near | null} */
    let best = null;
    for (const leg of legs) {
      if (longOf(leg) <= HANDLE_LEG_PX * u) continue;
      const [x, y] = midOf(leg);
      const distance = Math.hypot(x / u - px, y / u - py);
      if (distance <= HANDLE_PX && (!best || distance < best.distance)) best = { feature: leg.feature, vertex: leg.vertex, distance, point: [(leg.a[0] + leg.b[0]) / 2, (leg.a[1] + leg.b[1]) / 2] };
    }
    return best;
  }

  /** @param {number} px @param {number} py */
  findingAt(px, py) {
    const u = this.view?.ratio ?? 1;
    let best = null;
    for (const s of this.placed) {
      const distance = Math.hypot(s.x / u - px, s.y / u - py);
      if (distance <= FINDING_PX && (!best || distance < best.distance)) best = { finding: s.index, distance };
    }
    return best;
  }
}
