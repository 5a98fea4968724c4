// The key to the water's patterns, for the page to show where it likes.
import { contextOf } from "./canvas.js";
import { makeTile, paletteOf } from "./palette.js";

const WORDS = [
  ["dries", "dries now"],
  ["shallow", "too shallow for her now"],
  ["margin", "enough only within the margin"],
  ["enough", "enough"],
  ["neutral", "depth charted, height of the water not known"],
  ["unknown", "unknown: never taken as safe"],
];
const SIZE_PX = [48, 28];

// Fills div with one line a state.
/** @param {HTMLElement} div @param {string} palette */
export const fillLegend = (div, palette) => {
  const ratio = Math.max(1, Math.round(devicePixelRatio));
  div.replaceChildren(
    ...WORDS.map(([state, words]) => {
      const line = document.createElement("p");
      const swatch = document.createElement("canvas");
      swatch.width = SIZE_PX[0] * ratio;
      swatch.height = SIZE_PX[1] * ratio;
      swatch.style.width = `${SIZE_PX[0]}px`;
      swatch.style.height = `${SIZE_PX[1]}px`;
      const ctx = contextOf(swatch);
      ctx.fillStyle = /** @type {CanvasPattern} */ (ctx.createPattern(makeTile(paletteOf(palette), state, ratio), "repeat"));
      ctx.fillRect(0, 0, swatch.width, swatch.height);
      line.className = "keelroom-chart-key";
      line.append(swatch, words);
      return line;
    }),
  );
};
