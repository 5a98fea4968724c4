// The day that was checked last, for the next start to show while it is checked anew.
// It is in a database of its own: it may be lost at any time, and is no part of what
// the skipper keeps.

const name = "keelroom-last-day";
const MOST_LETTERS = 8e6; // more would cost the start more than it gives

/** @typedef {{ of: string, report: string, private: string, day: string }} CheckedDay */

/** @template T @param {IDBRequest<T>} request @returns {Promise<T>} */
const answerOf = (request) =>
  new Promise((done, fail) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => fail(request.error);
  });

const open = async () => {
  const request = indexedDB.open(name, 1);
  request.onupgradeneeded = () => request.result.createObjectStore("days");
  const db = await answerOf(request);
  db.onversionchange = () => db.close();
  return db;
};

// withDays does one thing with the store. What fails is a day that is not stored.
/** @param {IDBTransactionMode} mode @param {(days: IDBObjectStore) => IDBRequest<any>} work @returns {Promise<any>} */
const withDays = async (mode, work) => {
  try {
    const db = await open();
    try {
      return await answerOf(work(db.transaction("days", mode).objectStore("days")));
    } finally {
      db.close();
    }
  } catch {
    return null;
  }
};

// It is read at once, while the program is still on its way.
/** @type {Promise<CheckedDay | null> | null} */
let reading = withDays("readonly", (days) => days.get("last"));

export const lastDay = {
  // take gives the documents of the day that was worked out from something, null
  // where the one stored is of something else. It gives them once.
  /** @param {string} of */
  take: async (of) => {
    const day = await reading;
    reading = null;
    return day?.of === of ? day : null;
  },
  /** @param {CheckedDay} day */
  keep: (day) =>
    withDays("readwrite", (days) =>
      day.of.length + day.report.length + day.private.length + day.day.length > MOST_LETTERS ? days.clear() : days.put(day, "last"),
    ),
};
