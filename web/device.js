// What the screen wants of the machine beside drawing: files in and out, the
// share sheet, the palette, keys, and whether the app is ready without a network.
import { runs } from "./version.js";

// As much as the decoders read at once; what is more is refused before it is read.
const MOST_FILES = 20000;
const MOST_BYTES = 256 * 1024 * 1024;
const MOST_LAYER = 64 * 1024 * 1024;

// A layer or a plan that is too large is refused unread, but for an archive of
// everything, which says so at its beginning.
/** @param {NamedFile} named */
const fits = async ({ name, file }) => {
  if (file.size <= MOST_LAYER || !/\.(geo)?json$/i.test(name)) return;
  const head = await file.slice(0, 64).text();
  if (!head.includes('"keelroom_archive"')) {
    throw `${name} has ${Math.ceil(file.size / 1024 / 1024)} MB; a layer has at most 64 MB, a plan 8. Open a part of it.`;
  }
};

/** @param {NamedFile[]} found */
const taken = async (found) => {
  const bytes = found.reduce((sum, { file }) => sum + file.size, 0);
  if (bytes > MOST_BYTES) {
    throw `They have ${Math.ceil(bytes / 1024 / 1024)} MB together, and 256 MB are read at once. Open them in parts.`;
  }
  for (const one of found) await fits(one);
  return Promise.all(
    found.map(async ({ name, file }) => {
      try {
        return { name, data: new Uint8Array(await file.arrayBuffer()) };
      } catch (problem) {
        throw `${name} cannot be read (${/** @type {Error} */ (problem).name}). Copy it to this device and try again.`;
      }
    }),
  );
};
/** @param {Iterable<File>} files */
const read = (files) => taken([...files].map((file) => ({ name: file.name, file })));

// What of a dropped folder may be a chart, such as of an exchange set; files that
// were dropped by themselves are all taken, so that others are told to be refused.
const chartLike = /\.(\d{3}|zip|geojson|json|txt)$/i;
/** @param {any[]} entries */
const readFolders = async (entries) => {
  /** @type {NamedFile[]} */
  const found = [];
  /** @param {any} entry @param {string} within */
  const walk = async (entry, within) => {
    if (entry.isFile) {
      if (within && !chartLike.test(entry.name)) return;
      if (found.length >= MOST_FILES) throw `The folder holds more than ${MOST_FILES} files that may be charts. Open it in parts.`;
      const file = await new Promise((done, fail) => entry.file(done, fail)).catch((problem) => {
        throw `${entry.name} cannot be read (${problem.name}). Copy it to this device and try again.`;
      });
      found.push({ name: within + entry.name, file });
      return;
    }
    const reader = entry.createReader();
    for (;;) {
      const some = await new Promise((done, fail) => reader.readEntries(done, fail));
      if (!some.length) return;
      for (const child of some) await walk(child, within + entry.name + "/");
    }
  };
  for (const entry of entries) await walk(entry, "");
  if (!found.length) throw "There is no file in it that may be a chart: .000 and its updates, .zip, .geojson or .json.";
  return taken(found);
};

// give hands files on once they are read, or says why they cannot be.
/** @param {Promise<ReadFile[]>} reading @param {(files: ReadFile[]) => void} take @param {(why: string) => void} fail */
const give = async (reading, take, fail) => {
  try {
    take(await reading);
  } catch (problem) {
    fail(typeof problem === "string" ? problem : String(/** @type {Error} */ (problem)?.message || problem));
  }
};

/** @param {string} name @param {string} kind @param {string} text */
const save = (name, kind, text) => {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type: kind }));
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
};

/** @param {string} name @param {string} kind @param {string} text */
const fileOf = (name, kind, text) => new File([text], name, { type: kind });

// One field for all picking: it stays in the page, or some browsers forget it.
/** @type {HTMLInputElement | null} */
let field = null;
/** @param {boolean} many @param {string} accept @param {(files: ReadFile[]) => void} take @param {(why: string) => void} fail */
const pick = (many, accept, take, fail) => {
  field?.remove();
  const input = (field = document.createElement("input"));
  input.type = "file";
  input.multiple = many;
  input.accept = accept;
  input.hidden = true;
  input.id = "picker";
  input.addEventListener("change", () => give(read(input.files ?? []), take, fail));
  document.body.append(input);
  input.click();
};

/** @param {(files: ReadFile[]) => void} take @param {(why: string) => void} fail */
const onFiles = (take, fail) => {
  addEventListener("dragover", (event) => event.preventDefault());
  addEventListener("drop", (event) => {
    event.preventDefault();
    // Entries are to be asked for before anything is waited for.
    const entries = [...(event.dataTransfer?.items ?? [])].map((item) => item.webkitGetAsEntry?.()).filter(Boolean);
    const files = event.dataTransfer?.files ?? [];
    if (entries.some((entry) => entry?.isDirectory)) give(readFolders(entries), take, fail);
    else if (files.length) give(read(files), take, fail);
  });
  globalThis.launchQueue?.setConsumer(async (launch) => {
    const files = await Promise.all((launch.files ?? []).map((handle) => handle.getFile()));
    if (files.length) {
      give(read(files), take, fail);
    }
  });
};

// What another app shared waits in the service worker's hands: files, or why there are none.
/** @param {(files: ReadFile[]) => void} take @param {(why: string) => void} fail */
const onShared = (take, fail) => {
  navigator.serviceWorker?.addEventListener("message", (event) => {
    const shared = event.data?.shared;
    if (shared?.files) give(read(shared.files), take, fail);
    if (shared?.none) fail(shared.none);
  });
  navigator.serviceWorker?.ready.then((registration) => registration.active?.postMessage("what was shared"));
};

/** @param {any} element */
const typing = (element) => element?.closest("input, textarea, select, [contenteditable]");

/** @param {(text: string) => void} take */
const onKey = (take) => {
  addEventListener("keydown", (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || typing(event.target)) {
      return;
    }
    const key = event.key.toLowerCase();
    const name = key === "z" ? (event.shiftKey ? "redo" : "undo") : key === "y" ? "redo" : "";
    if (name) {
      event.preventDefault();
      take(name);
    }
  });
};

/** @param {(text: string) => void} take */
const onOffline = (take) => runs().then(take);

export const device = {
  save,
  pick,
  onFiles,
  onShared,
  onKey,
  onOffline,
  canShare: () => Boolean(navigator.canShare?.({ files: [fileOf("plan.geojson", "application/geo+json", "{}")] })),
  /** @param {string} name @param {string} kind @param {string} title @param {string} text */
  share: (name, kind, title, text) =>
    navigator.share({ title, files: [fileOf(name, kind, text)] }).catch((problem) => {
      if (problem.name !== "AbortError") {
        throw problem;
      }
    }),
  print: () => setTimeout(() => print(), 50),
  reload: () => location.reload(),
  persist: async () => (await navigator.storage?.persist?.()) ?? false,
  /** @param {string} name */
  setPalette: (name) => {
    document.documentElement.dataset.palette = name;
    const paper = getComputedStyle(document.documentElement).getPropertyValue("--paper").trim();
    document.querySelector('meta[name="theme-color"]')?.setAttribute("content", paper);
  },
  // On a phone the sheet scrolls as a whole: a section comes up to its tabs.
  /** @param {string} id */
  reveal: (id) =>
    requestAnimationFrame(() => {
      const sheet = document.querySelector(".sheet");
      const tabs = document.getElementById(id)?.parentElement;
      if (sheet && tabs && sheet.scrollHeight > sheet.clientHeight) {
        sheet.scrollTop = /** @type {HTMLElement} */ (document.querySelector(".verdict")).offsetHeight;
      }
      document.getElementById(id)?.scrollIntoView({ block: "nearest", inline: "nearest" });
    }),
  /** @param {string} id */
  focus: (id) =>
    requestAnimationFrame(() => {
      const element = document.getElementById(id);
      element?.focus({ preventScroll: true });
      element?.scrollIntoView({ block: "nearest" });
    }),
};
