// Canvases to draw on.

// What draws on a canvas; a device that gives none says so instead of drawing nothing.
/** @param {HTMLCanvasElement} canvas @param {CanvasRenderingContext2DSettings} [settings] */
export const contextOf = (canvas, settings) => {
  const ctx = canvas.getContext("2d", settings);
  if (!ctx) throw new Error("this device gives no canvas to draw the chart on");
  return ctx;
};
