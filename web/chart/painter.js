// Keeps two pictures of the chart, the ground (what fills) and the ink (lines,
// marks, figures), a little larger than the window. While the view moves, the
// pictures are moved and scaled by the compositor; new ones are painted beside
// them in turns of a few milliseconds and then take their place.
import { contextOf } from "./canvas.js";
import { paintAll, paintChanged } from "./ground.js";
import { paintInk } from "./ink.js";
import { paletteOf } from "./palette.js";
import { frameOf } from "./space.js";

const NOWHERE = frameOf([0, 0], 1, 0, 0, 1); // before the map has a place
const MARGIN = 0.22; // of the window, on each side
const MOST_PIXELS = 6e6; // of a picture: the margin gives way to that
const TURN_MOVING_MS = 5;
const TURN_STILL_MS = 12;
const IDLE_MS = 1500; // then the pictures that are not shown give their memory back
const ZOOM_LIMIT = 2; // enlarged by more than this, new pictures are begun while moving

class Sheet {
  /** @param {HTMLElement} holder @param {boolean} opaque */
  constructor(holder, opaque) {
    this.canvas = document.createElement("canvas");
    this.canvas.className = "keelroom-chart-sheet";
    this.canvas.hidden = true;
    this.ctx = contextOf(this.canvas, { alpha: !opaque, willReadFrequently: true });
    /** @type {Frame | null} */
    this.frame = null;
    holder.append(this.canvas);
  }

  /** @param {Frame} frame */
  begin(frame) {
    if (this.canvas.width !== frame.width || this.canvas.height !== frame.height) {
      this.canvas.width = frame.width;
      this.canvas.height = frame.height;
    } else {
      this.ctx.setTransform(1, 0, 0, 1, 0, 0);
      this.ctx.clearRect(0, 0, frame.width, frame.height);
    }
    this.frame = frame;
  }

  // A browser only notes what is painted and does it before the next frame, all
  // at once. Reading a pixel makes it paint now, in this turn.
  settle() {
    if (this.frame) this.ctx.getImageData(0, 0, 1, 1);
  }

  release() {
    this.canvas.width = this.canvas.height = 0;
    this.frame = null;
  }

  // Lays the sheet where its part of the chart is in the view.
  /** @param {Frame} view */
  place(view) {
    const f = this.frame;
    if (!f) return;
    const scale = f.resolution / view.resolution;
    let x = (f.west - view.west) / view.resolution;
    let y = (view.north - f.north) / view.resolution;
    if (Math.abs(scale - 1) < 1e-6) {
      x = Math.round(x * f.ratio) / f.ratio; // on whole pixels writing stays sharp
      y = Math.round(y * f.ratio) / f.ratio;
    }
    const css = scale / f.ratio;
    this.canvas.style.transform = `matrix(${css}, 0, 0, ${css}, ${x}, ${y})`;
  }
}

class Pair {
  /** @param {HTMLElement} holder @param {boolean} opaque */
  constructor(holder, opaque) {
    this.front = new Sheet(holder, opaque);
    this.back = new Sheet(holder, opaque);
  }

  swap() {
    [this.front, this.back] = [this.back, this.front];
    this.front.canvas.hidden = false;
    this.back.canvas.hidden = true;
  }
}

export class Painter {
  // scene gives what to paint: {sets(), water, palette}.
  /** @param {Scene} scene @param {(error: unknown) => void} trouble */
  constructor(scene, trouble) {
    this.scene = scene;
    this.trouble = trouble;
    this.element = document.createElement("div");
    this.element.className = "keelroom-chart-sheets";
    const groundHolder = document.createElement("div");
    const inkHolder = document.createElement("div");
    this.element.append(groundHolder, inkHolder);
    this.ground = new Pair(groundHolder, true);
    this.ink = new Pair(inkHolder, false);
    this.view = NOWHERE;
    this.moving = false;
    /** @type {{ frame: Frame; steps: Turns } | null} */
    this.job = null;
    /** @type {Sheet | null} */
    this.sheet = null; // that is being painted
    this.stale = true; // the whole picture is out of date
    this.staleGround = false; // only the water's states are
    /** @type {States | null} */
    this.painted = null; // states on the front ground
    this.turn = this.turn.bind(this);
    this.asked = 0;
    this.resting = 0;
  }

  // Called each time the map draws itself.
  /** @param {Frame} view @param {boolean} moving */
  show(view, moving) {
    this.view = view;
    this.moving = moving;
    for (const pair of [this.ground, this.ink]) pair.front.place(view);
    if (this.wanting()) this.ask();
  }

  spoil() {
    this.stale = true;
    this.ask();
  }

  spoilWater() {
    this.staleGround = true;
    this.ask();
  }

  stop() {
    cancelAnimationFrame(this.asked);
    clearTimeout(this.resting);
    this.job = null;
  }

  ask() {
    if (!this.asked) this.asked = requestAnimationFrame(this.turn);
  }

  rest() {
    clearTimeout(this.resting);
    this.resting = setTimeout(() => {
      if (this.job) return;
      this.ground.back.release();
      this.ink.back.release();
    }, IDLE_MS);
  }

  // Whether the front pictures do not do for the view.
  outgrown() {
    const f = this.ground.front.frame;
    const v = this.view;
    if (!f) return true;
    const scale = f.resolution / v.resolution;
    if (this.moving) {
      const slackX = (v.east - v.west) * 0.06;
      const slackY = (v.north - v.south) * 0.06;
      const near = v.west - slackX < f.west || v.east + slackX > f.east || v.south - slackY < f.south || v.north + slackY > f.north;
      return near || scale > ZOOM_LIMIT;
    }
    const still = Math.abs(scale - 1) < 1e-6 && f.ratio === v.ratio;
    return !still || Math.hypot(f.centre[0] - v.centre[0], f.centre[1] - v.centre[1]) > 1e-6 * v.resolution + this.leeway();
  }

  // At rest, pictures need not be centred, only reach beyond the window.
  leeway() {
    const v = this.view;
    return Math.min(v.east - v.west, v.north - v.south) * MARGIN * 0.5;
  }

  wanting() {
    return this.view.width > 1 && this.view.height > 1 && (this.job || this.stale || this.staleGround || this.outgrown());
  }

  /** @param {Frame} view */
  frameFor(view) {
    const w = view.width / view.ratio;
    const h = view.height / view.ratio;
    let margin = MARGIN;
    while (margin > 0.05 && w * h * view.ratio ** 2 * (1 + 2 * margin) ** 2 > MOST_PIXELS) margin -= 0.03;
    const grow = 1 + 2 * margin;
    return frameOf(view.centre, view.resolution, Math.round(w * grow), Math.round(h * grow), view.ratio);
  }

  // A job for the view has gone stale if the view has left what it paints.
  /** @param {Frame} f */
  outrun(f) {
    const v = this.view;
    const scale = f.resolution / v.resolution;
    return scale > 1.8 || scale < 0.56 || v.west > f.east || v.east < f.west || v.north < f.south || v.south > f.north;
  }

  begin() {
    if (this.stale || this.outgrown()) {
      const frame = this.frameFor(this.view);
      this.stale = this.staleGround = false;
      this.job = { frame, steps: this.paintAll(frame) };
    } else if (this.staleGround && this.ground.front.frame) {
      this.staleGround = false;
      const { frame } = this.ground.front;
      this.job = { frame, steps: this.paintWater(frame) };
    }
  }

  turn() {
    this.asked = 0;
    try {
      if (this.job && this.outrun(this.job.frame)) {
        this.job = null;
        this.stale = true;
      }
      if (!this.job) {
        if (!this.wanting()) return;
        this.begin();
      }
      const until = performance.now() + (this.moving ? TURN_MOVING_MS : TURN_STILL_MS);
      while (this.job && performance.now() < until) {
        const { sheet } = this;
        if (this.job.steps.next().done) this.job = null;
        else sheet?.settle();
      }
      if (this.wanting()) this.ask();
      else this.rest();
    } catch (error) {
      this.job = null;
      this.trouble(error);
    }
  }

  // What the ground is to show, held while it is painted.
  groundNow() {
    const { palette, water } = this.scene;
    const sets = this.scene.sets();
    return { sets, palette, states: water.snapshot(sets), privateCovers: this.scene.privateCovers() };
  }

  /** @param {Frame} frame */
  *paintAll(frame) {
    const what = this.groundNow();
    const ground = this.ground.back;
    const ink = this.ink.back;
    ground.begin(frame);
    this.sheet = ground;
    yield* paintAll(ground.ctx, what, frame);
    ink.begin(frame);
    this.sheet = ink;
    yield* paintInk(ink.ctx, this.scene.inkSets(), frame, paletteOf(what.palette));
    this.painted = what.states;
    for (const pair of [this.ground, this.ink]) {
      pair.swap();
      pair.front.place(this.view);
    }
  }

  /** @param {Frame} frame @returns {Turns} */
  *paintWater(frame) {
    const what = this.groundNow();
    if (!this.painted || what.states.same(this.painted)) return;
    const { front, back } = this.ground;
    back.begin(frame);
    this.sheet = back;
    back.ctx.drawImage(front.canvas, 0, 0);
    yield* paintChanged(back.ctx, what, this.painted, frame);
    this.painted = what.states;
    this.ground.swap();
    this.ground.front.place(this.view);
  }
}
