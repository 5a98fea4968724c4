// Versions of the app: whether all of this one is kept on the device, and a newer
// one, offered when it is ready.
import { calm } from "./calm.js";

const page = globalThis.keelroomPage;

// runs tells the service worker that the program runs: other versions may be cleared
// away. It gives in words whether all of this one is kept.
export const runs = async () => {
  if (!("serviceWorker" in navigator)) return "This browser cannot keep the app for use without a network here.";
  const registration = await navigator.serviceWorker.ready;
  const worker = /** @type {ServiceWorker} */ (registration.active); // there is one once it is ready
  const answer = await page.ask(worker, "whole?");
  if (!answer) {
    registration.update().catch(() => {}); // none of ours: the right one is asked for
  }
  if (!answer?.whole && !(answer && (await page.ask(worker, "mend"))?.whole)) {
    return "Not all of the app is kept on this device. Load this page again while there is a network.";
  }
  worker.postMessage("runs");
  return "Ready for use without a network.";
};

// A version is offered when its worker says that every file of it is there and right.
/** @type {HTMLElement | null} */
let offered = null;
/** @param {ServiceWorker} waiting */
const offer = async (waiting) => {
  const answer = await page.ask(waiting, "whole?");
  if (!answer?.whole || waiting.state !== "installed" || offered?.isConnected) {
    return;
  }
  const box = (offered = page.bar("newer", "A newer version of Keelroom is ready."));
  box.append(
    page.button("Use it now", async () => {
      const newest = (await navigator.serviceWorker.getRegistration(page.base))?.waiting ?? waiting;
      const refusal = await page.useVersion(newest);
      page.tell(box, refusal || "The newer version is not whole on this device, so this one goes on.");
    }),
    page.button("Later", () => box.remove()),
  );
};

/** @param {ServiceWorker} worker */
const watch = async (worker) => {
  await page.settled(worker);
  if (worker.state === "installed" && navigator.serviceWorker.controller) {
    offer(worker);
  }
};

// keepVersions has this version kept on the device, and offers newer ones as they come.
export const keepVersions = () => {
  if (!("serviceWorker" in navigator)) return;
  // While this page is open, the files of its version stay on the device.
  navigator.locks?.request("keelroom-files:" + page.folder.pathname, { mode: "shared" }, () => new Promise(() => {}));
  calm.then(() => navigator.serviceWorker.register(page.base.pathname + "app-worker.js")).catch((problem) => console.error("keelroom:", problem));
  navigator.serviceWorker.ready.then((registration) => {
    if (registration.waiting) offer(registration.waiting);
    if (registration.installing) watch(registration.installing);
    registration.addEventListener("updatefound", () => registration.installing && watch(registration.installing));
  });
  // The browser's own offer to install would lie over the sheet; its menu has it.
  addEventListener("beforeinstallprompt", (event) => event.preventDefault());
};
