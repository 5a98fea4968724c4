"use strict";
// The worker that checks: the same program as the page, which finds no document
// here and so takes the other role. The page sends the compiled module first.
importScripts("../wasm_exec.js");

onmessage = async (event) => {
  onmessage = null; // the program sets its own
  const go = new Go();
  try {
    const module = event.data.module ?? (await WebAssembly.compileStreaming(fetch("app.wasm")));
    await go.run(await WebAssembly.instantiate(module, go.importObject));
    postMessage({ stopped: "the program has ended" });
  } catch (problem) {
    postMessage({ stopped: "it could not start: " + problem });
  }
};
