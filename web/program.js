// Starts the program. It does not start with a part of the page missing, is kept
// compiled for the worker that checks, and is never to end.
const page = globalThis.keelroomPage;

// What go-app asks the page for when it runs.
/** @returns {Record<string, string>} */
const settings = () => ({
  GOAPP_INTERNAL_URLS: "null",
  GOAPP_ROOT_PREFIX: page.base.pathname,
  GOAPP_STATIC_RESOURCES_URL: page.folder.pathname + "web",
  GOAPP_VERSION: page.version,
});

// compiled gives the program, instantiated, or null where it did not arrive.
/** @param {Go} go */
const compiled = async (go) => {
  const address = new URL("web/app.wasm", page.folder).href;
  try {
    const { instance, module } = await WebAssembly.instantiateStreaming(fetch(address), go.importObject);
    globalThis.keelroomModule = module; // the worker runs the same program: compiled once, used twice
    return instance;
  } catch (problem) {
    console.error("keelroom:", problem);
    const label = document.getElementById("app-wasm-loader-label");
    if (label) label.textContent = "Keelroom is not loaded.";
    globalThis.keelroomMissing(address);
    return null;
  }
};

export const runProgram = async () => {
  if (!globalThis.keelroomWhole()) return;
  const env = settings();
  globalThis.goappGetenv = (name) => env[name];
  const go = new Go();
  const instance = await compiled(go);
  if (!instance || !globalThis.keelroomWhole()) return;
  try {
    const running = go.run(instance);
    document.getElementById("app-wasm-loader")?.remove();
    await running;
  } finally {
    globalThis.keelroomStopped("the program has ended");
  }
};
