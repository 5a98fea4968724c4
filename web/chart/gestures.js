// What a pointer does on the chart: drags of points and handles, taps, long
// presses, sketching. Panning and zooming are the map's own.
import { unproject } from "./space.js";

const PRESS_MS = 550;
/** @type {Record<string, number>} */
const SLOP_PX = { mouse: 4, touch: 9, pen: 6 }; // a pointer that moved less was held still
const DOUBLE_PX = 12;

export class Gestures {
  // host: {scene, picture, map, moves, notify, redraw}
  /** @param {Board} host */
  constructor(host) {
    this.host = host;
    /** @type {Down | null} */
    this.down = null;
    this.pressTimer = 0;
    /** @type {Point | null} */
    this.before = null; // where the last two clicks of a sketch were
    /** @type {Point | null} */
    this.latest = null;
    this.swallow = false; // the click that ends a press or a drag
    const me = this;
    this.interaction = new ol.PointerInteraction({
      handleEvent(event) {
        try {
          return me.handle(event);
        } catch (error) {
          host.trouble(error);
          return true;
        }
      },
    });
  }

  // Gives false where the map's own interactions must not see the event.
  /** @param {MapEvent} event */
  handle(event) {
    switch (event.type) {
      case "pointerdown":
        return this.onDown(event);
      case "pointerdrag":
        return this.onDrag(event);
      case "pointerup":
        return this.onUp(event);
      case "pointermove":
        return this.onHover(event);
      case "click":
        return this.onClick(event);
      case "singleclick":
        return this.onSingle(event);
      case "dblclick":
        return this.onDouble();
      default:
        return true;
    }
  }

  /** @param {MapEvent} event */
  fingers(event) {
    return event.activePointers?.length ?? 1;
  }

  /** @param {MapEvent} event */
  onDown(event) {
    this.stopPress();
    if (this.fingers(event) > 1) {
      this.giveUp();
      return true;
    }
    const original = event.originalEvent;
    this.swallow = false;
    if (original.button > 0) return true;
    const [px, py] = event.pixel;
    const { scene, picture } = this.host;
    this.down = { px, py, type: original.pointerType, moved: false, held: false, grip: null };
    if (scene.mode === "look") this.down.grip = gripAt(picture, px, py, event.coordinate);
    if (!scene.sketch.active) this.pressTimer = setTimeout(() => this.onPress(), PRESS_MS);
    return !this.down.grip;
  }

  /** @param {Down} down */
  slop(down) {
    return SLOP_PX[down.type] ?? 6;
  }

  /** @param {MapEvent} event */
  onDrag(event) {
    const down = this.down;
    if (!down) return true;
    if (this.fingers(event) > 1) {
      this.giveUp();
      return true;
    }
    const [px, py] = event.pixel;
    if (!down.moved && Math.hypot(px - down.px, py - down.py) < this.slop(down)) return !down.grip;
    const { scene } = this.host;
    if (!down.moved && down.grip && !down.grip.insert) this.host.select({ feature: down.grip.feature, vertex: down.grip.vertex });
    down.moved = true;
    this.stopPress();
    if (!down.grip) return true;
    const { offset } = down.grip; // what was taken hold of beside its middle does not jump
    if (!scene.drag || scene.drag.dropped) scene.grasp(down.grip);
    scene.drag = { ...down.grip, point: [event.coordinate[0] + offset[0], event.coordinate[1] + offset[1]], at: event.originalEvent.timeStamp };
    this.host.moves.ask(place(scene.drag));
    if (scene.isLate()) this.host.redraw(); // else with the answer
    return false;
  }

  /** @param {MapEvent} event */
  onUp(event) {
    this.stopPress();
    const down = this.down;
    const { scene } = this.host;
    if (event.originalEvent.type === "pointercancel") return !this.giveUp(); // nobody has let go of it
    this.down = null;
    if (down?.held && !down.moved && down.grip?.insert) this.press(down.px, down.py);
    if (!down?.moved || !down.grip || !scene.drag) return true;
    this.swallow = true;
    const { drag } = scene;
    drag.dropped = true;
    this.host.moves.end();
    this.host.dropped();
    this.host.notify(drag.insert ? "insert" : "move", place(drag));
    return false;
  }

  // Ends a drag without effect.
  giveUp() {
    const { scene } = this.host;
    this.stopPress();
    this.down = null;
    if (!scene.drag) return false;
    scene.letGo();
    this.swallow = true;
    this.host.moves.giveUp();
    this.host.redraw();
    return true;
  }

  stopPress() {
    clearTimeout(this.pressTimer);
    this.pressTimer = 0;
  }

  // What was held long keeps its grip: it may be dragged all the same. A handle
  // between two points answers when it is let go, for then it was no drag.
  onPress() {
    const down = this.down;
    this.pressTimer = 0;
    if (!down || down.moved) return;
    this.swallow = true;
    down.held = true;
    if (!down.grip?.insert) this.press(down.px, down.py);
  }

  /** @param {number} px @param {number} py */
  press(px, py) {
    const { scene, picture, map } = this.host;
    const coordinate = map.getCoordinateFromPixel([px, py]);
    if (!coordinate) return;
    const [lon, lat] = unproject(coordinate);
    const point = scene.mode === "look" ? picture.pointAt(px, py) : null;
    if (point) this.host.select({ feature: point.feature, vertex: point.vertex });
    this.host.notify("press", { lon, lat, x: px, y: py, objects: this.host.objectsAt(coordinate), ...(point && { feature: point.feature, vertex: point.vertex }) });
  }

  /** @param {MapEvent} event */
  onHover(event) {
    const { scene } = this.host;
    if (event.dragging || event.originalEvent.pointerType === "touch") return true;
    if (scene.sketch.active) {
      scene.sketch.hover = event.coordinate;
      if (scene.sketch.points.length) this.host.redraw();
    }
    this.host.cursorFor(event.pixel);
    return true;
  }

  /** @param {MapEvent} event */
  onClick(event) {
    if (this.swallow) return false;
    const [px, py] = event.pixel;
    const { scene, picture } = this.host;
    this.host.pointerUsed();
    if (scene.sketch.active) {
      this.sketchAt(event.coordinate, px, py);
      this.before = this.latest;
      this.latest = [px, py];
      this.swallow = true; // a tap that ends a sketch is no question about the place
      return false;
    }
    const point = picture.pointAt(px, py);
    const finding = point && point.distance < 12 ? null : picture.findingAt(px, py);
    if (finding) this.host.select({ finding: finding.finding });
    else if (point) this.host.select({ feature: point.feature, vertex: point.vertex });
    return true;
  }

  /** @param {Point} coordinate @param {number} px @param {number} py */
  sketchAt(coordinate, px, py) {
    const { scene, map } = this.host;
    const { sketch } = scene;
    /** @param {Point} p */
    const near = (p) => {
      const [x, y] = map.getPixelFromCoordinate(p);
      return Math.hypot(x - px, y - py) <= DOUBLE_PX;
    };
    const last = sketch.points.at(-1);
    if (last && near(last)) return; // the second tap of two
    if (sketch.mode === "zone" && sketch.points.length >= 3 && near(sketch.points[0])) sketch.finish();
    else sketch.add(coordinate);
  }

  // A tap on the open chart, once it is sure that no second one follows.
  /** @param {MapEvent} event */
  onSingle(event) {
    const { scene, picture } = this.host;
    if (this.swallow || scene.sketch.active) return true;
    const [px, py] = event.pixel;
    if (picture.pointAt(px, py) || picture.findingAt(px, py)) return true;
    if (scene.selected) this.host.select({});
    this.host.placeAt(event.coordinate, px, py);
    return true;
  }

  onDouble() {
    const { sketch } = this.host.scene;
    if (!sketch.active) return true;
    // Two quick taps in different places are two points, not an end.
    if (!this.before || !this.latest || Math.hypot(this.before[0] - this.latest[0], this.before[1] - this.latest[1]) > DOUBLE_PX) return false;
    sketch.finish();
    return false;
  }
}

/** @param {Picture} picture @param {number} px @param {number} py @param {Point} at @returns {Grip | null} */
const gripAt = (picture, px, py, [x, y]) => {
  const point = picture.pointAt(px, py);
  const held = point ?? picture.handleAt(px, py);
  if (!held) return null;
  return { feature: held.feature, vertex: held.vertex, from: held.point, offset: [held.point[0] - x, held.point[1] - y], insert: !point };
};

/** @param {Drag} drag @returns {Place} */
const place = ({ feature, vertex, point, insert, at }) => {
  const [lon, lat] = unproject(point);
  return { feature, vertex, lon, lat, insert, at };
};
