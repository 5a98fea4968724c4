// The start comes first: what the first verdict does not need, such as bringing the
// files for use without a network or going through them, waits until it is there.
const LONGEST_MS = 10000; // a start without a verdict holds nothing up for longer

/** @type {() => void} */
let settle = () => {};

// calm is kept once the start is over.
/** @type {Promise<void>} */
export const calm = new Promise((done) => {
  settle = done;
  setTimeout(done, LONGEST_MS);
});

// startIsOver is called with the first verdict, or when there will be none.
export const startIsOver = () => settle();
