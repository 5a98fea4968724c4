// All that is on the chart: the layer sets, the water, the plan, the report.
import { moved, readReport } from "./plan.js";
import { readSet } from "./reader.js";
import { Sketch } from "./sketch.js";
import { distanceToShape, inside } from "./space.js";
import { Water } from "./water.js";

/** @type {PlanView} */
export const NOTHING = { items: [] };

export class Scene {
  /** @param {Notify} notify */
  constructor(notify) {
    /** @type {Map<string, LayerSet>} */
    this.all = new Map(); // sets by id, in the order they came
    /** @type {{ id: string; shown: boolean }[]} */
    this.order = [];
    /** @type {LayerSet | null} */
    this.own = null; // the plan's zones and hazards
    this.ownText = "";
    this.water = new Water();
    this.palette = "day";
    /** @type {PlanView} */
    this.plan = NOTHING;
    this.report = readReport(null);
    /** @type {Selected | null} */
    this.selected = null;
    /** @type {Point | null} */
    this.place = null; // that the page tells of, projected
    /** @type {Drag | null} */
    this.drag = null; // {feature, vertex, point} or an insertion {feature, vertex, point, insert: true}
    this.mode = "look";
    this.keyboard = false;
    this.changed = () => {};
    this.sketch = new Sketch(notify, () => this.changed());
    /** @type {LayerSet[] | null} */
    this.shownSets = null;
  }

  // The sets that are shown, bottom first. One that the order does not name
  // is shown above the others.
  /** @returns {LayerSet[]} */
  sets() {
    if (this.shownSets) return this.shownSets;
    const named = new Map(this.order.map((o, i) => [o.id, { ...o, place: i }]));
    const list = [...this.all.values()].filter((s) => named.get(s.id)?.shown !== false);
    /** @param {LayerSet} s */
    const place = (s) => named.get(s.id)?.place ?? Infinity;
    this.shownSets = list.map((set, i) => ({ set, i })).sort((a, b) => place(a.set) - place(b.set) || a.i - b.i).map(({ set }) => set);
    return this.shownSets;
  }

  // Private depths cover water only where no other set is loaded, shown or not.
  privateCovers() {
    return [...this.all.values()].every((set) => set.authority === "private");
  }

  inkSets() {
    return this.own ? [...this.sets(), this.own] : this.sets();
  }

  /** @param {string} id @param {string | null} text */
  setSet(id, text) {
    this.shownSets = null;
    if (text === null || text === undefined) this.all.delete(id);
    else this.all.set(id, readSet(id, text));
    return this.all.get(id);
  }

  // Says whether anything is other than before, as setOwn does.
  /** @param {{ id: string; shown: boolean }[]} list */
  setOrder(list) {
    if (JSON.stringify(list) === JSON.stringify(this.order)) return false;
    this.order = list;
    this.shownSets = null;
    return true;
  }

  /** @param {string} text */
  setOwn(text) {
    if (text === this.ownText) return false;
    this.ownText = text;
    this.own = null;
    if (text === "") return true;
    const set = readSet(" own", text);
    for (const shape of set.shapes) {
      shape.props.own = true;
      shape.scamin = Infinity;
    }
    set.authority = "private";
    set.scale = Infinity;
    this.own = set;
    return true;
  }

  // The plan as drawn: with the point that is being dragged where it is.
  shownPlan() {
    if (!this.drag) return this.plan;
    if (!this.drag.insert) return moved(this.plan, this.drag);
    const { feature, vertex, point } = this.drag;
    return { items: this.plan.items.map((item) => (item.feature === feature ? { ...item, points: [...item.points.slice(0, vertex), point, ...item.points.slice(vertex)] } : item)) };
  }

  // Properties of all that lies at a place (projected), what is on top first.
  /** @param {number} x @param {number} y @param {number} reachM */
  objectsAt(x, y, reachM) {
    const found = [];
    for (const set of [...this.inkSets()].reverse()) {
      const near = [];
      const over = [];
      for (const shape of set.shapes) {
        const b = shape.box;
        if (x < b[0] - reachM || x > b[2] + reachM || y < b[1] - reachM || y > b[3] + reachM) continue;
        if (shape.kind === "area") {
          if (inside(shape, x, y)) over.push(shape);
        } else if (distanceToShape(shape, x, y) <= reachM) near.push(shape);
      }
      for (const shape of [...near, ...over]) found.push({ ...shape.props, set: set.id });
    }
    return found;
  }
}
