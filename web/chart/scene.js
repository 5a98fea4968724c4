// All that is on the chart: the layer sets, the water, the plan, the report.
import { inserted, moved, readReport } from "./plan.js";
import { readSet } from "./reader.js";
import { Sketch } from "./sketch.js";
import { distanceToShape, inside } from "./space.js";
import { Water } from "./water.js";

/** @type {PlanView} */
export const NOTHING = { items: [] };
const UNCHECKED = readReport(null);
const SAME_M = 0.05; // two places are one: the plan file has 7 decimals of a degree
/** @param {Point} p @param {Point} q */
const near = (p, q) => Math.hypot(p[0] - q[0], p[1] - q[1]) < SAME_M;

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
    this.planText = "";
    this.report = readReport(null);
    /** @type {Selected | null} */
    this.selected = null;
    /** @type {Point | null} */
    this.place = null; // that the page tells of, projected
    /** @type {AnchorWatch | null} */
    this.watched = null;
    /** @type {Point[]} */
    this.anchorages = []; // places to lie at, the best first, projected
    /** @type {Drag | null} */
    this.drag = null; // {feature, vertex, point, insert}; dropped: it waits for the plan with the point there
    /** @type {Live | null} */
    this.live = null; // what is known with the point at a place it was dragged through: see live.js
    this.isLate = () => false; // whether the answer for the newest place is overdue
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

  // The plan and what is known of it, as drawn. While a point is dragged it is drawn
  // where it was when the newest answer was asked for, so that all that is seen belongs
  // together; where that is overdue, at the pointer, and nothing is known.
  /** @returns {Shown} */
  shown() {
    const { drag, live } = this;
    if (!drag) return { plan: this.plan, report: live?.report ?? this.report, byNumber: Boolean(live), at: null };
    const answered = live && (near(live.point, drag.point) || (!drag.dropped && !this.isLate()));
    /** @type {Live} */
    const at = answered ? { ...live, insert: drag.insert } : { ...drag, along: live?.along ?? [], report: null };
    const plan = drag.insert ? inserted(this.plan, at) : moved(this.plan, at);
    return { plan, report: at.report ?? UNCHECKED, byNumber: !at.checked, at };
  }

  // Begins a drag of a point that lies at a place: until the first answer the plan is
  // drawn as it was checked.
  /** @param {Grip} grip */
  grasp({ feature, vertex, from, insert }) {
    this.live = insert ? null : { feature, vertex, point: from, along: [], report: this.report, checked: true };
  }

  // Takes away what was answered of a point that is dragged: it was of another plan or chart.
  outdated() {
    if (this.drag) this.live = null;
  }

  // Ends a drag without effect.
  letGo() {
    this.drag = null;
    this.live = null;
  }

  // Takes the plan anew. What is known with a point where it was dropped stands until
  // the report of that plan comes. A point that is held stays in hand.
  /** @param {string | null} text @param {PlanView} plan @param {boolean} held */
  setPlan(text, plan, held) {
    const { live } = this;
    const at = live && plan.items.find((item) => item.feature === live.feature)?.points[live.vertex];
    const keep = live?.report && !live.checked && text !== this.planText && at && near(at, live.point);
    this.plan = plan;
    this.planText = text ?? "";
    if (!held) this.drag = null;
    this.live = keep && !held ? live : null;
  }

  /** @param {ReportView} report */
  setReport(report) {
    this.report = report;
    if (!this.drag) this.live = null;
    else if (this.live?.checked) this.live.report = report;
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
