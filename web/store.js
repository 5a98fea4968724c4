// What is kept on this device: plans with their earlier states, layer sets and
// settings, in IndexedDB. Every change is one transaction, so it is there whole
// or not at all. Another tab is told of each saved plan.

const name = "keelroom";
const version = 1;
const others = "BroadcastChannel" in globalThis ? new BroadcastChannel("keelroom") : null;

// The schema's steps, from the version before each to its own.
/** @type {((db: IDBDatabase) => void)[]} */
const steps = [
  (db) => {
    db.createObjectStore("plans", { keyPath: "id" });
    db.createObjectStore("sets", { keyPath: "id" });
    db.createObjectStore("settings");
  },
];

// Two troubles go by a word of their own, for the screen knows what helps.
/** @param {any} error */
const worded = (error) => {
  if (error?.name === "QuotaExceededError") {
    return "no room";
  }
  if (error?.name === "VersionError" || overtaken) {
    return "overtaken";
  }
  return String(error?.message || error || "the device refused") + ".";
};

let opened = null;
let overtaken = false; // a newer version wants to change how things are kept
let tellOvertaken = () => {};
let waits = ""; // what opening waits for
const open = () => {
  opened ??= new Promise((done, fail) => {
    const request = indexedDB.open(name, version);
    request.onupgradeneeded = (event) => {
      for (let v = event.oldVersion; v < version; v++) {
        steps[v](request.result);
      }
    };
    // It goes on by itself once the other has let go.
    request.onblocked = () => (waits = "An older Keelroom is open in another tab or window, and has to be closed first.");
    request.onerror = () => fail(request.error);
    request.onsuccess = () => {
      const db = request.result;
      waits = "";
      // A newer tab is not held up. One that only deletes leaves the way open.
      db.onversionchange = (event) => {
        db.close();
        opened = null;
        if (event.newVersion !== null) {
          overtaken = true;
          tellOvertaken();
        }
      };
      db.onclose = () => (opened = null);
      done(db);
    };
  });
  opened.catch(() => (opened = null));
  return opened;
};

// It is opened at once, while the program is still on its way; who asks first hears of
// what fails.
open().catch(() => {});

// run does work in one transaction and gives its result once it is committed.
let running = 0;
/** @param {string[]} stores @param {IDBTransactionMode} mode @param {(t: IDBTransaction, give: (result: any) => void, fail: (why: string) => void) => void} work */
const run = async (stores, mode, work) => {
  running++;
  try {
    if (overtaken) {
      throw new Error("overtaken");
    }
    const db = await open();
    return await new Promise((done, fail) => {
      /** @type {any} */
      let result;
      const t = db.transaction(stores, mode, mode === "readwrite" ? { durability: "strict" } : {});
      t.oncomplete = () => done(result);
      t.onabort = () => fail(t.error ?? new Error(result));
      work(t, (value) => (result = value), (why) => {
        result = why;
        t.abort();
      });
    });
  } catch (error) {
    throw worded(error);
  } finally {
    running--;
  }
};

// idle waits until nothing is under way: twice in a row, as one call follows another.
const idle = async () => {
  for (let quiet = 0; quiet < 2; quiet = running ? 0 : quiet + 1) {
    await new Promise((done) => setTimeout(done, 50));
  }
};

// got hands on what a request gives.
/** @template T @param {IDBRequest<T>} request @param {(result: T) => void} take */
const got = (request, take) => {
  request.onsuccess = () => take(request.result);
};

/** @param {IDBTransaction} t @param {string} store @param {(list: any[]) => void} take */
const all = (t, store, take) => {
  got(t.objectStore(store).getAll(), take);
};

export const store = {
  idle,
  waits: () => waits,
  /** @param {(...what: any[]) => void} told */
  onOvertaken: (told) => (tellOvertaken = told),
  // load gives plan heads, sets and settings.
  load: () =>
    run(["plans", "sets", "settings"], "readonly", (t, give) => {
      /** @type {{ plans: object[]; sets: object[]; settings: Record<string, unknown> }} */
      const kept = { plans: [], sets: [], settings: {} };
      give(kept);
      got(t.objectStore("plans").openCursor(), (at) => {
        if (at) {
          const { id, title, rev, changed } = at.value;
          kept.plans.push({ id, title, rev, changed });
          at.continue();
        }
      });
      all(t, "sets", (list) => (kept.sets = list.sort((a, b) => a.order - b.order)));
      got(t.objectStore("settings").openCursor(), (at) => {
        if (at) {
          kept.settings[String(at.key)] = at.value;
          at.continue();
        }
      });
    }),
  /** @param {string} id */
  plan: (id) =>
    run(["plans"], "readonly", (t, give) => {
      got(t.objectStore("plans").get(id), (kept) => give(kept ?? null));
    }),
  // savePlan keeps a plan if the revision kept is the one before it. It gives
  // "newer" where another tab was faster.
  /** @param {any} record */
  savePlan: async (record) => {
    const outcome = await run(["plans"], "readwrite", (t, give) => {
      const store = t.objectStore("plans");
      got(store.get(record.id), (kept) => {
        if (kept && kept.rev !== record.rev - 1) {
          give("newer");
          return;
        }
        give("kept");
        store.put(record);
      });
    });
    if (outcome === "kept") {
      others?.postMessage({ plan: record.id, rev: record.rev });
    }
    return outcome;
  },
  /** @param {string} id */
  deletePlan: (id) => run(["plans"], "readwrite", (t) => t.objectStore("plans").delete(id)),
  // saveSet keeps a set if the revision kept is what it was, or none is. It gives
  // "newer" where another tab was faster.
  /** @param {any} record */
  saveSet: (record) =>
    run(["sets"], "readwrite", (t, give) => {
      const store = t.objectStore("sets");
      got(store.get(record.id), (kept) => {
        if (kept && (kept.rev ?? "") !== record.was) {
          give("newer");
          return;
        }
        give("kept");
        store.put(record);
      });
    }),
  // arrangeSet changes how a set is shown, if it is kept.
  /** @param {string} id @param {boolean} hidden @param {number} order */
  arrangeSet: (id, hidden, order) =>
    run(["sets"], "readwrite", (t) => {
      const store = t.objectStore("sets");
      got(store.get(id), (kept) => {
        if (kept) store.put({ ...kept, hidden, order });
      });
    }),
  // deleteSet deletes a set. It gives "newer" where another tab has changed it.
  /** @param {string} id @param {string} was */
  deleteSet: (id, was) =>
    run(["sets"], "readwrite", (t, give) => {
      const store = t.objectStore("sets");
      got(store.get(id), (kept) => {
        if (kept && (kept.rev ?? "") !== was) {
          give("newer");
          return;
        }
        give("gone");
        store.delete(id);
      });
    }),
  /** @param {string} key @param {unknown} value */
  saveSetting: (key, value) => run(["settings"], "readwrite", (t) => t.objectStore("settings").put(value, key)),
  /** @param {(...what: any[]) => void} told */
  onOther: (told) => {
    if (others) {
      others.onmessage = (event) => told(String(event.data?.plan ?? ""), Number(event.data?.rev ?? 0));
    }
  },
};
