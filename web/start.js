"use strict";
// Runs after wasm_exec.js and before app.js. It keeps the compiled module for
// the worker that checks, says so when the program has stopped, and offers a
// newer version when one is ready.
(() => {
  // The worker runs the same program: compiled once, used twice.
  const stream = WebAssembly.instantiateStreaming;
  if (stream) {
    WebAssembly.instantiateStreaming = async (source, imports) => {
      const result = await stream.call(WebAssembly, source, imports);
      globalThis.keelroomModule = result.module;
      return result;
    };
  }

  const bar = (className, text) => {
    const box = document.createElement("div");
    box.className = "bar " + className;
    box.setAttribute("role", "alert");
    const words = document.createElement("p");
    words.textContent = text;
    box.append(words);
    document.body.append(box);
    return box;
  };

  const button = (text, press) => {
    const b = document.createElement("button");
    b.type = "button";
    b.textContent = text;
    b.addEventListener("click", press);
    return b;
  };

  let said = false;
  globalThis.keelroomStopped = (why) => {
    console.error("keelroom:", why);
    if (!said) {
      said = true;
      bar("stopped", "Keelroom has stopped by a mistake of its own. What is on the screen is no longer kept up: do not go by it.")
        .append(button("Start again", () => location.reload()));
    }
  };

  // go.run ends only when the program has ended, which it never should.
  const run = Go.prototype.run;
  Go.prototype.run = async function (instance) {
    try {
      return await run.call(this, instance);
    } finally {
      globalThis.keelroomStopped("the program has ended");
    }
  };

  if (!("serviceWorker" in navigator)) {
    return;
  }
  let offered = false;
  const offer = (waiting) => {
    if (offered) {
      return;
    }
    offered = true;
    const box = bar("newer", "A newer version of Keelroom is ready.");
    box.append(
      button("Use it now", () => {
        navigator.serviceWorker.addEventListener("controllerchange", () => location.reload());
        waiting.postMessage("take over");
      }),
      button("Later", () => box.remove()),
    );
  };
  const watch = (worker) => {
    worker.addEventListener("statechange", () => {
      if (worker.state === "installed" && navigator.serviceWorker.controller) {
        offer(worker);
      }
    });
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
