// What the screen wants of the machine beside drawing: files in and out, the
// share sheet, the palette, keys, and whether the app is ready without a network.
import { calm, startIsOver } from "./calm.js";
import { runs } from "./version.js";

// How large files may be, as the program's decoders have it: what is more is refused by
// its size, before a byte of it is read.
/** @type {FileLimits} */
let limits;
const MB = 1024 * 1024;
const HEAD = 64; // bytes in which an archive of plans says that it is one

/** @param {FileKind} kind @param {string} name */
const named = (kind, name) => new RegExp(kind.names).test(name.toLowerCase());

/** @param {string} name */
const kindByName = (name) => /** @type {FileKind} */ (limits.kinds.find((kind) => !kind.begins && named(kind, name)));

// kindByHead is the kind of a file that is too large for what its name says.
/** @param {NamedFile} named @param {FileKind} kind */
const kindByHead = async ({ name, file }, kind) => {
  const head = await file.slice(0, HEAD).text();
  const begun = limits.kinds.find((other) => other.begins && named(other, name) && head.includes(other.begins));
  if (begun) return begun;
  const json = /^\s*[{[]/.test(head.replace("\ufeff", ""));
  return kind.aside && json ? /** @type {FileKind} */ (limits.kinds.at(-1)) : kind;
};

/** @param {number} bytes */
const megabytes = (bytes) => `${Math.ceil(bytes / MB)} MB`;

/** @param {NamedFile[]} files */
const bytesOf = (files) => files.reduce((sum, { file }) => sum + file.size, 0);

// fits tells whether a file is taken, false where it is left out. One that is too large
// is an error in words.
/** @param {NamedFile} one @param {boolean} alone */
const fits = async (one, alone) => {
  const { name, file } = one;
  let kind = kindByName(name);
  if (file.size <= kind.bytes) return true;
  kind = await kindByHead(one, kind);
  if (file.size <= kind.bytes) return true;
  if (kind.aside && !alone) return false;
  throw `${name} has ${megabytes(file.size)}. ${kind.words}`;
};

// fitTogether refuses files of a kind that are one chart and too large together.
/** @param {FileKind} kind @param {NamedFile[]} found */
const fitTogether = async (kind, found) => {
  let files = found.filter(({ name }) => kindByName(name) === kind);
  if (bytesOf(files) <= kind.bytes) return;
  const kinds = await Promise.all(files.map((one) => kindByHead(one, kind)));
  files = files.filter((_, i) => kinds[i] === kind);
  if (bytesOf(files) > kind.bytes) throw `${files[0].name} and ${files.length - 1} more have ${megabytes(bytesOf(files))} together. ${kind.words}`;
};

// fitting are the files but for those that are left out.
/** @param {NamedFile[]} found */
const fitting = async (found) => {
  if (bytesOf(found) > limits.together.bytes) throw `They have ${megabytes(bytesOf(found))} together. ${limits.together.words}`;
  /** @type {NamedFile[]} */
  const out = [];
  for (const one of found) if (await fits(one, found.length === 1)) out.push(one);
  for (const kind of limits.kinds) if (kind.sum) await fitTogether(kind, out);
  return out;
};

/** @param {NamedFile[]} found */
const taken = async (found) =>
  Promise.all(
    (await fitting(found)).map(async ({ name, file }) => {
      try {
        return { name, data: new Uint8Array(await file.arrayBuffer()) };
      } catch (problem) {
        throw `${name} cannot be read (${/** @type {Error} */ (problem).name}). Copy it to this device and try again.`;
      }
    }),
  );
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
      if (found.length >= limits.files) throw `The folder holds more than ${limits.files} files that may be charts. Open it in parts.`;
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
const onOffline = (take) => calm.then(runs).then(take);

export const device = {
  // The program says at its start how large files may be.
  /** @param {string} text */
  limitFiles: (text) => void (limits = JSON.parse(text)),
  save,
  pick,
  onFiles,
  onShared,
  onKey,
  onOffline,
  startIsOver,
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
