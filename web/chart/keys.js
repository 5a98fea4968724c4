// The chart by keyboard.

const PAN_PX = 90;
const NUDGE_PX = 8;
/** @type {Record<string, [number, number]>} */
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

export const LABEL =
  "Chart. Arrow keys move it, plus and minus zoom. N and P step through the plan's points; " +
  "with a point chosen, Shift and arrows move it, Delete removes it. Enter looks at the place under the cross-hair, " +
  "or adds a point there while drawing; F finishes a drawing, Backspace takes back its last point, Escape cancels.";

/** @param {Board} host @param {KeyboardEvent} event */
const act = (host, event) => {
  const { scene } = host;
  const { sketch } = scene;
  const arrow = ARROWS[event.key];
  if (arrow && event.shiftKey && scene.selected?.feature !== undefined) return host.nudge(arrow[0] * NUDGE_PX, arrow[1] * NUDGE_PX);
  if (arrow) return host.pan(arrow[0] * PAN_PX, arrow[1] * PAN_PX);
  switch (event.key) {
    case "+":
    case "=":
      return host.zoomBy(1);
    case "-":
    case "_":
      return host.zoomBy(-1);
    case "Enter":
      return sketch.active ? host.addAtCentre() : host.placeAtCentre();
    case "Escape":
      if (host.gestures.giveUp()) return true;
      if (sketch.active) return sketch.cancel();
      return scene.selected ? host.select({}) : false;
    case "Backspace":
      return sketch.active ? sketch.undo() : false;
    case "Delete":
      return sketch.active ? sketch.undo() : host.removeSelected();
    case "f":
    case "F":
      return sketch.active ? sketch.finish() : false;
    case "n":
    case "N":
      return host.step(1);
    case "p":
    case "P":
      return host.step(-1);
    default:
      return false;
  }
};

// Keys with Ctrl, Alt or Meta are the browser's.
/** @param {Board} host @param {KeyboardEvent} event */
export const onKey = (host, event) => {
  if (event.ctrlKey || event.altKey || event.metaKey) return;
  host.keyUsed();
  if (act(host, event) === false) return;
  event.preventDefault();
  event.stopPropagation();
};
