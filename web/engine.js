// The worker that checks: the same program as the page, which finds no document
// here and so takes the other role. The page sends the compiled module first, and
// the channel to the chart view.
import "../wasm_exec.js";

self.onmessage = async (event) => {
  self.onmessage = null; // the program sets its own
  Object.assign(globalThis, { keelroomMoves: event.data.moves }); // the way of a drag: see moves.js
  const go = new Go();
  try {
    /** @type {WebAssembly.Module} */
    const module = event.data.module ?? (await WebAssembly.compileStreaming(fetch(new URL("app.wasm", import.meta.url))));
    await go.run(await WebAssembly.instantiate(module, go.importObject));
    postMessage({ stopped: "the program has ended" });
  } catch (problem) {
    postMessage({ stopped: "it could not start: " + problem });
  }
};
