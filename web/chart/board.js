// One mounted chart: the map, its pictures, and what its parts ask of each other.
import { Gestures } from "./gestures.js";
import { ScaleBar } from "./graticule.js";
import { LABEL, onKey } from "./keys.js";
import { Painter } from "./painter.js";
import { Picture } from "./picture.js";
import { frameOf, project, stretch, unproject } from "./space.js";

const GLIDE_MS = 220;
const MOST_RATIO = 2; // device pixels a CSS pixel; more is not seen, and costs
const REACH_PX = 14; // around a tap, for what lies there
const CLOSE_RESOLUTION = 4; // metres a pixel to come near to a place
const DROP_HELD_MS = 1500; // a dropped point stays there until the page gives the plan anew

const rootIn = (/** @type {HTMLElement} */ div) => {
  const root = document.createElement("div");
  root.className = "keelroom-chart";
  root.tabIndex = 0;
  root.setAttribute("role", "application");
  root.setAttribute("aria-label", LABEL);
  div.append(root);
  return root;
};

// What is told in words to those who do not see the chart.
const statusIn = (/** @type {HTMLElement} */ root) => {
  const status = document.createElement("div");
  status.className = "keelroom-chart-heard";
  status.setAttribute("role", "status");
  root.append(status);
  return status;
};

export class Board {
  /** @param {HTMLElement} div @param {Scene} scene @param {DragHost} moves @param {Notify} notify @param {(error: unknown) => void} trouble */
  constructor(div, scene, moves, notify, trouble) {
    this.scene = scene;
    this.moves = moves;
    this.notify = notify;
    this.trouble = trouble;
    this.placedOnce = false; // the view shows something chosen
    this.byPointer = false; // the focus comes by a pointer
    this.dropTimer = 0;
    /** @type {Box | null} */
    this.pendingBox = null; // to be shown once the chart has a size
    this.still = matchMedia("(prefers-reduced-motion: reduce)");
    this.root = rootIn(div);
    this.painter = new Painter(scene, trouble);
    this.picture = new Picture(scene);
    this.view = new ol.View({ center: [0, 0], zoom: 3, minZoom: 3, maxZoom: 21, enableRotation: false });
    this.map = this.newMap();
    this.heard = statusIn(this.root);
    this.scaleBar = new ScaleBar(this.root);
    this.gestures = new Gestures(this);
    this.map.addInteraction(this.gestures.interaction);
    this.map.on("moveend", () => this.tellView());
    this.sizes = new ResizeObserver(() => this.guard(() => this.resized()));
    this.listen();
    this.showPalette();
    scene.changed = () => this.redraw();
  }

  newMap() {
    /** @param {HTMLElement} element @param {(state: ViewState) => void} draw */
    const layerOf = (element, draw) => new ol.Layer({
      render: (state) => {
        try {
          draw(state);
        } catch (error) {
          this.trouble(error);
        }
        return element;
      },
    });
    return new ol.Map({
      target: this.root,
      view: this.view,
      controls: [],
      interactions: this.interactions(),
      moveTolerance: 4,
      layers: [layerOf(this.painter.element, (s) => this.drawChart(s)), layerOf(this.picture.canvas, (s) => this.drawPicture(s))],
    });
  }

  interactions() {
    const kinetic = this.still.matches ? undefined : new ol.Kinetic(-0.005, 0.05, 100);
    return [
      new ol.DragPan({ kinetic }),
      new ol.PinchZoom(),
      new ol.MouseWheelZoom({ duration: this.glide(), useAnchor: true }),
      new ol.DoubleClickZoom({ duration: this.glide() }),
    ];
  }

  listen() {
    this.root.addEventListener("keydown", (event) => this.guard(() => onKey(this, event)));
    this.root.addEventListener("contextmenu", (event) => this.guard(() => this.onMenu(/** @type {PointerEvent} */ (event))));
    this.root.addEventListener("focus", () => this.guard(() => this.setKeyboard(this.root.matches(":focus-visible") && !this.byPointer)));
    this.root.addEventListener("blur", () => this.setKeyboard(false));
    const onPointer = () => {
      this.byPointer = true;
      setTimeout(() => (this.byPointer = false), 0);
    };
    this.root.addEventListener("pointerdown", onPointer, true);
    this.sizes.observe(this.root);
  }

  /** @param {PointerEvent} event */
  onMenu(event) {
    event.preventDefault();
    if (event.pointerType === "touch" || this.gestures.pressTimer || this.gestures.swallow) return;
    const box = this.root.getBoundingClientRect();
    this.gestures.press(event.clientX - box.left, event.clientY - box.top);
  }

  close() {
    this.sizes.disconnect();
    this.gestures.stopPress();
    this.painter.stop();
    this.scene.changed = () => {};
    this.map.setTarget(undefined);
    this.map.dispose();
    this.root.remove();
  }

  /** @param {() => any} what */
  guard(what) {
    try {
      return what();
    } catch (error) {
      this.trouble(error);
      return undefined;
    }
  }

  // A hidden chart has no size; it keeps what it has until it is shown again.
  resized() {
    if (this.root.clientWidth === 0 || this.root.clientHeight === 0) return;
    this.map.updateSize();
    if (this.pendingBox) this.fit(this.pendingBox);
    this.map.renderSync();
  }

  /** @param {ViewState} state */
  frame(state) {
    const [width, height] = state.size;
    return frameOf(state.viewState.center, state.viewState.resolution, width, height, Math.min(devicePixelRatio, MOST_RATIO));
  }

  /** @param {ViewState} state */
  drawChart(state) {
    const view = this.frame(state);
    const moving = state.viewHints[0] > 0 || state.viewHints[1] > 0;
    this.painter.show(view, moving);
    this.scaleBar.show(view);
  }

  /** @param {ViewState} state */
  drawPicture(state) {
    this.picture.show(this.frame(state));
    if (this.picture.painted || this.root.dataset.painted) this.tellPainted();
  }

  redraw() {
    this.map.render();
  }

  showPalette() {
    this.root.dataset.palette = this.scene.palette;
  }

  /** @param {boolean} on */
  setKeyboard(on) {
    if (this.scene.keyboard === on) return;
    this.scene.keyboard = on;
    this.redraw();
  }

  keyUsed() {
    this.setKeyboard(true);
  }

  pointerUsed() {
    this.setKeyboard(false);
  }

  glide() {
    return this.still.matches ? 0 : GLIDE_MS;
  }

  // Moves the view, gliding where motion is welcome.
  /** @param {ol.ViewTarget} to */
  move(to) {
    this.placedOnce = true;
    this.view.cancelAnimations();
    if (this.glide() === 0) {
      if (to.center) this.view.setCenter(to.center);
      if (to.resolution) this.view.setResolution(to.resolution);
    } else {
      this.view.animate({ ...to, duration: this.glide() });
    }
  }

  /** @param {number} dx @param {number} dy */
  pan(dx, dy) {
    const r = this.view.getResolution();
    const [x, y] = this.view.getCenter();
    this.move({ center: [x + dx * r, y + dy * r] });
  }

  /** @param {number} n */
  zoomBy(n) {
    this.move({ resolution: this.view.getConstrainedResolution(this.view.getResolution() / 2 ** n) });
  }

  /** @param {number} lon @param {number} lat */
  goTo(lon, lat) {
    const center = project([lon, lat]);
    this.move({ center, resolution: Math.min(this.view.getResolution(), CLOSE_RESOLUTION / stretch(center[1])) });
  }

  // Shows a box of projected metres, at once where nothing was shown before.
  /** @param {Box} box */
  fit(box) {
    const size = this.map.getSize();
    if (!size || size[0] < 2 || size[1] < 2) {
      this.pendingBox = box;
      return;
    }
    this.pendingBox = null;
    const pad = Math.min(56, size[0] / 8, size[1] / 8);
    /** @type {{ size: Point; padding: number[]; maxZoom: number; duration?: number }} */
    const options = { size, padding: [Math.min(84, size[1] / 4), pad, pad, pad], maxZoom: 17 };
    if (this.placedOnce && this.glide() > 0) options.duration = this.glide();
    this.placedOnce = true;
    this.view.fit(box, options);
  }

  /** @param {Box} box */
  fitFirst(box) {
    if (!this.placedOnce && !this.pendingBox && box) this.fit(box);
  }

  tellView() {
    const size = this.map.getSize();
    if (!size || size[0] < 2) return;
    const view = frameOf(this.view.getCenter(), this.view.getResolution(), size[0], size[1], 1);
    const [lon, lat] = unproject(view.centre);
    const [w, s] = unproject([view.west, view.south]);
    const [e, n] = unproject([view.east, view.north]);
    // Where the chart is, for whoever reads the page: west, south, east, north.
    this.root.dataset.bounds = [w, s, e, n].map((v) => v.toFixed(7)).join(",");
    this.notify("view", { lon, lat, bounds: [w, s, e, n], scale: Math.round(view.scale) });
  }

  centre() {
    return unproject(this.view.getCenter());
  }

  addAtCentre() {
    this.scene.sketch.add(this.view.getCenter());
  }

  placeAtCentre() {
    const [w, h] = this.map.getSize() ?? [0, 0];
    this.placeAt(this.view.getCenter(), w / 2, h / 2);
  }

  /** @param {Point} coordinate */
  objectsAt(coordinate) {
    return this.scene.objectsAt(coordinate[0], coordinate[1], REACH_PX * this.view.getResolution());
  }

  /** @param {Point} coordinate @param {number} x @param {number} y */
  placeAt(coordinate, x, y) {
    const [lon, lat] = unproject(coordinate);
    this.notify("place", { lon, lat, x, y, objects: this.objectsAt(coordinate) });
  }

  /** @param {Selected | null} selected */
  choose(selected) {
    this.scene.selected = selected && ((selected.feature ?? -1) >= 0 || (selected.finding ?? -1) >= 0) ? selected : null;
    this.redraw();
  }

  // Chooses and tells the page.
  /** @param {Selected} selected */
  select(selected) {
    this.choose(selected);
    this.notify("select", selected);
  }

  /** @param {Point} pixel */
  cursorFor(pixel) {
    const { sketch } = this.scene;
    const over = sketch.active ? "crosshair" : this.picture.pointAt(...pixel) || this.picture.handleAt(...pixel) ? "grab" : this.picture.findingAt(...pixel) ? "pointer" : "";
    if (this.root.style.cursor !== over) this.root.style.cursor = over;
  }

  // What was dropped stays until the page answers with the plan; without an
  // answer the plan is shown as it is.
  dropped() {
    clearTimeout(this.dropTimer);
    this.dropTimer = setTimeout(() => this.settle(), DROP_HELD_MS);
  }

  answered() {
    clearTimeout(this.dropTimer);
  }

  settle() {
    if (this.holds()) return;
    this.scene.letGo();
    this.redraw();
  }

  // Whether a point is being dragged.
  holds() {
    return Boolean(this.gestures.down?.grip && this.gestures.down.moved);
  }

  // Says, for whoever reads the page, where the dragged point is drawn, how its legs
  // are, and when the pointer was there.
  tellPainted() {
    const { painted } = this.picture;
    if (painted) this.root.dataset.painted = JSON.stringify({ at: painted.place.at, place: unproject(painted.place.point), legs: painted.legs.map((leg) => leg.severity) });
    else delete this.root.dataset.painted;
  }

  /** @param {Selected | null} selected */
  pointOf(selected) {
    return this.scene.plan.items.find((item) => item.feature === selected?.feature)?.points[selected?.vertex ?? 0];
  }

  removeSelected() {
    const { selected } = this.scene;
    if (!selected || !this.pointOf(selected)) return false;
    this.notify("remove", { feature: selected.feature, vertex: selected.vertex });
    return true;
  }

  /** @param {number} dx @param {number} dy */
  nudge(dx, dy) {
    const { selected } = this.scene;
    const from = this.pointOf(selected);
    if (!selected || !from) return;
    const r = this.view.getResolution();
    const [lon, lat] = unproject([from[0] + dx * r, from[1] + dy * r]);
    this.notify("move", { feature: selected.feature, vertex: selected.vertex, lon, lat });
  }

  // Chooses the next or the previous point of the plan, and shows it.
  /** @param {number} by */
  step(by) {
    const movable = this.scene.plan.items.filter((item) => item.role === "route" || item.role === "stay");
    const points = movable.flatMap((item) => item.points.map((point, vertex) => ({ feature: item.feature, vertex, point, words: `${item.role} ${item.name}, point ${vertex + 1} of ${item.points.length}` })));
    if (points.length === 0) return;
    const { selected } = this.scene;
    const now = points.findIndex((p) => p.feature === selected?.feature && p.vertex === selected.vertex);
    const next = points[(now < 0 ? (by > 0 ? 0 : points.length - 1) : now + by + points.length) % points.length];
    this.move({ center: next.point });
    this.select({ feature: next.feature, vertex: next.vertex });
    this.heard.textContent = next.words;
  }
}
