"use strict";
// Runs after wasm_exec.js and before app.js. It keeps the compiled module for
// the worker that checks, says so when the program has stopped, and offers a
// newer version when one is ready.
(() => {
  const { bar, button, ask, settled, useVersion, folder, base } = globalThis.keelroomPage;

  // The worker runs the same program: compiled once, used twice.
  const stream = WebAssembly.instantiateStreaming;
  if (stream) {
    WebAssembly.instantiateStreaming = async (source, imports) => {
      try {
        const result = await stream.call(WebAssembly, source, imports);
        globalThis.keelroomModule = result.module;
        return result;
      } catch (problem) {
        globalThis.keelroomMissing(new URL("web/app.wasm", folder).href);
        throw problem;
      }
    };
  }

  // go.run ends only when the program has ended, which it never should.
  const run = Go.prototype.run;
  Go.prototype.run = async function (instance) {
    if (!globalThis.keelroomWhole()) {
      return;
    }
    try {
      return await run.call(this, instance);
    } finally {
      globalThis.keelroomStopped("the program has ended");
    }
  };

  if (!("serviceWorker" in navigator)) {
    globalThis.keelroomRuns = async () => "This browser cannot keep the app for use without a network here.";
    return;
  }

  // While this page is open, the files of its version stay on the device.
  navigator.locks?.request("keelroom-files:" + folder.pathname, { mode: "shared" }, () => new Promise(() => {}));

  // The program says that it runs: other versions may be cleared away. What it gets
  // is whether all of this one is kept, in words.
  globalThis.keelroomRuns = async () => {
    const registration = await navigator.serviceWorker.ready;
    const said = await ask(registration.active, "whole?");
    if (!said) {
      registration.update().catch(() => {}); // none of ours: the right one is asked for
    }
    if (!said?.whole && !(said && (await ask(registration.active, "mend"))?.whole)) {
      return "Not all of the app is kept on this device. Load this page again while there is a network.";
    }
    registration.active.postMessage("runs");
    return "Ready for use without a network.";
  };

  // A version is offered when its worker says that every file of it is there and right.
  let offered = null;
  const offer = async (waiting) => {
    const said = await ask(waiting, "whole?");
    if (!said?.whole || waiting.state !== "installed" || offered?.isConnected) {
      return;
    }
    const box = (offered = bar("newer", "A newer version of Keelroom is ready."));
    box.append(
      button("Use it now", async () => {
        const newest = (await navigator.serviceWorker.getRegistration(base))?.waiting ?? waiting;
        const said = await useVersion(newest);
        box.querySelector("p").textContent = said || "The newer version is not whole on this device, so this one goes on.";
      }),
      button("Later", () => box.remove()),
    );
  };
  const watch = async (worker) => {
    await settled(worker);
    if (worker.state === "installed" && navigator.serviceWorker.controller) {
      offer(worker);
    }
  };
  navigator.serviceWorker.ready.then((registration) => {
    if (registration.waiting) {
      offer(registration.waiting);
    }
    if (registration.installing) {
      watch(registration.installing);
    }
    registration.addEventListener("updatefound", () => watch(registration.installing));
  });
})();
