// The chart view as the page calls it. Nothing here
// throws; what goes wrong is told through notify("trouble", {text}).
import { setRules } from "../rules.js";
import { Board } from "./board.js";
import { Moves } from "../moves.js";
import { fillLegend } from "./legend.js";
import { liveOf } from "./live.js";
import { paletteNames, paletteOf } from "./palette.js";
import { boxOf, readPlan, readReport } from "./plan.js";
import { NOTHING, Scene } from "./scene.js";
import { project } from "./space.js";
import { readWatch } from "./watched.js";

/** @type {Notify | null} */
let say = null; // the page's notify
/** @type {Board | null} */
let board = null;

/** @param {unknown} error */
const trouble = (error) => {
  console.error(error);
  tell("trouble", { text: error instanceof Error ? error.message : String(error) });
};

// A page that fails on a message must not break the chart.
/** @param {string} kind @param {object} [detail] */
const tell = (kind, detail) => {
  try {
    say?.(kind, detail);
  } catch (error) {
    console.error(error);
  }
};

const scene = new Scene(tell);

/** @type {(list: Block[] | null) => void} */
let showBlocks = () => {}; // on the day strip; null shows those of the day again

const moves = new Moves({
  answered(answer) {
    if (!scene.drag) return;
    scene.live = liveOf(answer);
    board?.redraw();
    showBlocks(answer.items?.get("blocks") ?? null);
    told.later(answer.items ? { head: answer.items.get("head") } : { words: answer.words });
  },
  outdated() {
    told.text = "";
    if (!scene.drag || scene.drag.dropped) return;
    scene.outdated();
    board?.redraw();
    showBlocks(null);
    told.later({ late: true });
  },
  resend: () => tell("resend", {}),
  late() {
    board?.redraw();
    told.later({ late: true });
  },
});
scene.isLate = () => moves.isLate();

// What the page's program is told of a drag: after the frame is painted, and only what
// it shows in another way than before.
const told = {
  frame: 0,
  text: "",
  /** @type {Moving | null} */
  next: null,
  /** @param {Moving} detail */
  later(detail) {
    told.next = detail;
    told.frame ||= requestAnimationFrame(() => setTimeout(() => {
      told.frame = 0;
      if (!told.next) return;
      const text = JSON.stringify(told.next, (key, value) => (key === "depart" || key === "back" || key === "least_at" ? Math.floor(value / 60) : value));
      if (text !== told.text) tell("moving", told.next);
      told.text = text;
    }));
  },
  stop() {
    told.next = null;
    told.text = "";
  },
};

// What the gestures ask of a drag.
/** @type {DragHost} */
const drag = {
  ask: (place) => moves.ask(place),
  end() {
    moves.end();
    told.stop();
  },
  giveUp() {
    drag.end();
    showBlocks(null);
    tell("given-up", {});
  },
};

/** @type {Record<string, string>} */
const CALLS = { setSet: "The layer set could not be drawn", setPrivate: "Your own zones and dangers could not be drawn", setPlan: "The plan could not be drawn", setReport: "What was found could not be drawn" };

/** @param {string} name @param {(...args: any[]) => any} call @returns {(...args: any[]) => any} */
const guarded = (name, call) => (...args) => {
  try {
    return call(...args);
  } catch (error) {
    trouble(CALLS[name] ? new Error(`${CALLS[name]}: ${/** @type {Error} */ (error).message}`, { cause: error }) : error);
    return undefined;
  }
};

const repaint = () => {
  board?.painter.spoil();
  board?.redraw();
};

/** @param {Box} box @returns {Box} */
const projectBox = ([w, s, e, n]) => {
  const [west, south] = project([w, s]);
  const [east, north] = project([e, n]);
  return [west, south, east, north];
};

const api = {
  // Builds the chart in div. Mounting again moves it there.
  /** @param {HTMLElement} div @param {Notify} notify @param {Rules} rules */
  mount(div, notify, rules) {
    setRules(rules);
    api.unmount();
    say = notify;
    board = new Board(div, scene, drag, tell, trouble);
    const box = boxOf(scene.plan) ?? [...scene.all.values()][0]?.box;
    if (box) board.fitFirst(box);
  },

  // What was set stays for the next mount.
  unmount() {
    board?.gestures.giveUp();
    board?.close();
    board = null;
    say = null;
  },

  /** @param {string} id @param {string | null} text */
  setSet(id, text) {
    const set = scene.setSet(id, text);
    if (set?.left) tell("trouble", { text: `${set.left} features of “${set.title}” could not be drawn.` });
    if (set && set.shapes.length) board?.fitFirst(set.box);
    repaint();
  },

  /** @param {{ id: string; shown: boolean }[]} list */
  setOrder(list) {
    if (scene.setOrder(list ?? [])) repaint();
  },

  /** @param {string | null} text */
  setPrivate(text) {
    if (scene.setOwn(text || "")) repaint();
  },

  /** @param {string | null} text */
  setPlan(text) {
    const held = board?.holds() ?? false;
    board?.answered();
    if (!held) drag.end();
    scene.setPlan(text, text ? readPlan(text) : NOTHING, held);
    const box = boxOf(scene.plan);
    if (box) board?.fitFirst(box);
    board?.redraw();
  },

  /** @param {string | null} text */
  setReport(text) {
    scene.setReport(readReport(text ?? null));
    board?.redraw();
  },

  // Takes the channel to a worker that was started.
  /** @param {MessagePort} port */
  connect: (port) => moves.connect(port),
  // Says which plan and chart the worker has been given.
  /** @param {number} planRev @param {number} chartRev */
  follow(planRev, chartRev) {
    told.text = "";
    moves.follow(planRev, chartRev);
  },
  // Takes who shows the blocks of a day while a point is dragged.
  /** @param {(list: Block[] | null) => void} show */
  onBlocks(show) {
    showBlocks = show;
  },

  /** @param {WaterLevels | null} levels @param {string[]} setIds */
  setWater(levels, setIds) {
    scene.water.set(levels, setIds);
    board?.painter.spoilWater();
  },

  // Marks a place that something is told about; null takes the mark away.
  /** @param {Point | null} at */
  markPlace(at) {
    scene.place = at ? project(at) : null;
    if (board) board.root.dataset.place = at ? at.map((v) => v.toFixed(7)).join(",") : "";
    board?.redraw();
  },

  // Draws the anchor watch; an empty text takes it away.
  /** @param {string} text */
  setWatch(text) {
    scene.watched = readWatch(text);
    if (board) board.root.dataset.watch = text;
    board?.redraw();
  },

  // Marks places to lie at by their numbers; none takes the marks away.
  /** @param {Point[]} list */
  markAnchorages(list) {
    scene.anchorages = list.map(project);
    if (board) board.root.dataset.anchorages = String(list.length);
    board?.redraw();
  },

  /** @param {string} mode */
  setMode(mode) {
    if (scene.mode === mode) return; // a sketch goes on
    board?.gestures.giveUp();
    scene.mode = mode;
    scene.sketch.setMode(mode);
    if (board) board.root.dataset.mode = mode;
    board?.redraw();
  },

  finishSketch: () => scene.sketch.finish(),
  undoSketchPoint: () => scene.sketch.undo(),
  cancelSketch: () => scene.sketch.cancel(),
  addAtCentre: () => board?.addAtCentre(),

  /** @param {string} name */
  setPalette(name) {
    if (!paletteOf(name)) throw new Error(`palette ${name}: one of ${paletteNames.join(", ")}`);
    if (scene.palette === name) return;
    scene.palette = name;
    board?.showPalette();
    repaint();
  },

  /** @param {number} lon @param {number} lat */
  goTo: (lon, lat) => board?.goTo(lon, lat),
  /** @param {Box} bounds */
  fit: (bounds) => board?.fit(projectBox(bounds)),
  /** @param {number} n */
  zoomBy: (n) => board?.zoomBy(n),
  centre: () => board?.centre() ?? [0, 0],
  /** @param {number} feature @param {number} vertex */
  select: (feature, vertex) => board?.choose(feature === null || feature === undefined || feature < 0 ? null : { feature, vertex: vertex ?? 0 }),
  focus: () => board?.root.focus(),
  // Fills div with the key to the water's patterns in the palette of now.
  /** @param {HTMLElement} div */
  legend: (div) => fillLegend(div, scene.palette),
};

export const chart = Object.fromEntries(Object.entries(api).map(([name, call]) => [name, guarded(name, call)]));
