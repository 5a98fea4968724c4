"use strict";
// Runs before everything else, so that it can say when a file of the app did not
// arrive, or when the program has stopped, and offer what helps. Files of the app
// are fetched anew without touching what the skipper has kept.
(() => {
  /** @param {string} className @param {string} text */
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

  // tell puts other words into a bar.
  /** @param {HTMLElement} box @param {string} text */
  const tell = (box, text) => {
    const words = box.querySelector("p");
    if (words) words.textContent = text;
  };

  /** @param {string} text @param {(event: Event) => void} press */
  const button = (text, press) => {
    const b = document.createElement("button");
    b.type = "button";
    b.textContent = text;
    b.addEventListener("click", press);
    return b;
  };

  // The folder of this version, and its name.
  const folder = new URL("../", /** @type {HTMLScriptElement} */ (document.currentScript).src);
  const base = new URL("../", folder);
  const version = /\/build-([^/]*)\/$/.exec(folder.pathname)?.[1] ?? "";

  // The program is fetched and compiled while all else comes. The response is handed
  // over as it is: only so does the browser keep what it has compiled of it.
  const program = WebAssembly.compileStreaming(fetch(new URL("web/app.wasm", folder)));
  program.catch(() => {}); // web/program.js says that it did not arrive

  // ask gives a service worker's answer, or null where it has none in time.
  const patience = 60000;
  /** @param {ServiceWorker} worker @param {string} what @param {number} [milliseconds] */
  const ask = (worker, what, milliseconds = patience) =>
    new Promise((done) => {
      const channel = new MessageChannel();
      channel.port1.onmessage = (event) => done(event.data);
      setTimeout(() => done(null), milliseconds);
      worker.postMessage(what, [channel.port2]);
    });

  /** @param {ServiceWorker} worker @returns {Promise<void>} */
  const settled = (worker) =>
    new Promise((done) => {
      const look = () => worker.state !== "installing" && done();
      worker.addEventListener("statechange", look);
      look();
    });

  // saved waits until nothing is being saved, but not for a device that never answers.
  const saved = () => Promise.race([globalThis.keelroomStore?.idle(), new Promise((done) => setTimeout(done, 10000))]);

  // unsaved says what would be lost with this page, "" where nothing would. A program
  // that has stopped can save and export nothing any more.
  let stopped = false;
  const unsaved = () => (!stopped && globalThis.keelroomUnsaved?.()) || "";

  // leave loads the page again, unless something would be lost: then it says what.
  const leave = async () => {
    await saved();
    const why = unsaved();
    if (why) return why;
    location.reload();
    return "Loading again.";
  };

  // useVersion puts a version that waits in charge and loads its page, if it is whole.
  // It gives what it did in words, "" where the version is not whole.
  /** @param {ServiceWorker} waiting */
  const useVersion = async (waiting) => {
    await saved();
    const why = unsaved();
    if (why) return why;
    const workers = navigator.serviceWorker;
    const changed = new Promise((done) => workers.addEventListener("controllerchange", done));
    const said = await ask(waiting, "take over");
    if (!said?.whole) return "";
    if (workers.controller !== waiting) await changed;
    return leave();
  };

  // ours says whether a service worker is one of Keelroom's. It says so at once,
  // whatever else it is at; one of an earlier version knows only the longer question.
  /** @param {ServiceWorker} worker */
  const ours = async (worker) => Boolean((await ask(worker, "who?", 10000)) ?? (await ask(worker, "whole?")));

  const stillComing = "The app is still being fetched, as the network is slow. Nothing was changed. Try again in a while.";
  const unchanged = "The app could not be fetched whole, so nothing was changed. Try again with a better network.";

  // anew fetches the app: the newest version if there is another, else what is
  // missing or damaged of this one. What works is not given up before that.
  const anew = async () => {
    const registration = await navigator.serviceWorker?.getRegistration(base);
    if (!registration) return again();
    await registration.update();
    const coming = registration.installing ?? registration.waiting;
    if (coming) {
      await settled(coming);
      return (coming.state !== "redundant" && (await useVersion(coming))) || unchanged;
    }
    const worker = registration.active;
    const said = worker && (await ask(worker, "mend"));
    if (said && !said.whole) return unchanged;
    if (!said && worker && (await ours(worker))) return stillComing;
    if (!said) await registration.unregister(); // none of ours: the page brings the right one
    return again();
  };

  // again loads the page, with files that did not arrive asked for anew.
  const missing = new Map(); // with the hash of each, "" where the page names none
  const again = async () => {
    for (const [file, integrity] of missing) {
      if (!(await fetch(file, { cache: "reload", integrity })).ok) return unchanged;
    }
    return leave();
  };

  /** @param {HTMLElement} box */
  const anewButton = (box) =>
    button("Fetch the app anew, plans kept", async (event) => {
      const pressed = /** @type {HTMLButtonElement} */ (event.target);
      pressed.disabled = true;
      tell(box, "Asking for the app.");
      tell(box, await anew().catch(() => unchanged));
      pressed.disabled = false;
    });

  let said = false;
  /** @param {string} text */
  const trouble = (text) => {
    if (said) return;
    said = true;
    const box = bar("stopped", text);
    box.append(button("Start again", () => location.reload()), anewButton(box));
  };

  globalThis.keelroomStopped = (why) => {
    stopped = true;
    console.error("keelroom:", why);
    dispatchEvent(new Event("keelroomstopped")); // for the anchor watch, which sounds
    whenThere(() => trouble("Keelroom has stopped by a mistake of its own. What is on the screen is no longer kept up: do not go by it."));
  };

  // A page of which a part is missing must not run: what it would show is not to be gone by.
  /** @param {() => void} work */
  const whenThere = (work) => (document.body ? work() : addEventListener("DOMContentLoaded", work));
  globalThis.keelroomMissing = (file, integrity = "") => {
    missing.set(file, integrity);
    const name = file.startsWith(folder.href) ? file.slice(folder.href.length) : file;
    whenThere(() => trouble(`A part of Keelroom did not arrive as it should (${name}), so it does not run. What you have kept is untouched.`));
  };
  globalThis.keelroomWhole = () => missing.size === 0;
  addEventListener(
    "error",
    (event) => {
      const part = /** @type {any} */ (event.target);
      const file = part.tagName === "SCRIPT" ? part.src : part.tagName === "LINK" && /^(stylesheet|modulepreload)$/.test(part.rel) ? part.href : "";
      if (file) globalThis.keelroomMissing(file, part.integrity);
      // A script that fails before the program runs, such as a module that lacks what another imports of it, would leave the page loading for ever.
      else if (!globalThis.keelroomModule && event.filename?.startsWith(folder.href)) globalThis.keelroomStopped(event.message);
    },
    true,
  );

  globalThis.keelroomPage = { bar, button, tell, ask, settled, useVersion, folder, base, version, program };
})();
