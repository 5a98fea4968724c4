"use strict";
// The worker that checks: the same program as the page, which finds no document
// here and so takes the other role. The page sends the compiled module first.
importScripts("../wasm_exec.js");

onmessage = async (event) => {
  onmessage = null; // the program sets its own
  const go = new Go();
  try {
    const module = event.data.module ?? (await WebAssembly.compileStreaming(fetch("app.wasm")));
    go.run(await WebAssembly.instantiate(module, go.importObject));
  } catch (problem) {
    postMessage({ error: "the checking part could not start: " + problem });
  }
};
