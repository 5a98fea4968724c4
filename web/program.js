// Starts the program. It does not start with a part of the page missing, is kept
// compiled for the worker that checks, and is never to end.
import { startIsOver } from "./calm.js";

const page = globalThis.keelroomPage;

// What go-app asks the page for when it runs.
/** @returns {Record<string, string>} */
const settings = () => ({
  GOAPP_INTERNAL_URLS: "null",
  GOAPP_ROOT_PREFIX: page.base.pathname,
  GOAPP_STATIC_RESOURCES_URL: page.folder.pathname + "web",
  GOAPP_VERSION: page.version,
});

// compiled gives the program, or null where it did not arrive.
const compiled = async () => {
  try {
    return await page.program;
  } catch (problem) {
    console.error("keelroom:", problem);
    const label = document.getElementById("app-wasm-loader-label");
    if (label) label.textContent = "Keelroom is not loaded.";
    globalThis.keelroomMissing(new URL("web/app.wasm", page.folder).href);
    return null;
  }
};

export const runProgram = async () => {
  if (!globalThis.keelroomWhole()) return startIsOver();
  const env = settings();
  globalThis.goappGetenv = (name) => env[name];
  const module = await compiled();
  if (!module || !globalThis.keelroomWhole()) return startIsOver();
  globalThis.keelroomModule = module; // the worker runs the same program: compiled once, used twice
  let why = "the program has ended";
  try {
    const go = new Go();
    const running = go.run(await WebAssembly.instantiate(module, go.importObject));
    document.getElementById("app-wasm-loader")?.remove();
    await running;
  } catch (problem) {
    why = "the program has failed: " + problem; // such as for want of memory
  }
  startIsOver();
  globalThis.keelroomStopped(why);
};
