// Tests of first.js that need no browser: when a page is loaded again, and when not.
import { readFileSync } from "node:fs";
import { createContext, runInContext } from "node:vm";

let failures = 0;
const check = (name, ok, found = "") => {
  if (!ok) failures++;
  console.log(`${ok ? "ok" : "not ok"} ${name}${ok ? "" : `: ${JSON.stringify(found)}`}`);
};

const code = readFileSync(new URL("../first.js", import.meta.url), "utf8");

// A page in which a minute passes in 60 milliseconds.
const pageOf = (more = {}) => {
  const seen = { reloads: 0, unregistered: 0, buttons: [], onError: null };
  const element = () => ({
    children: [], classList: {}, setAttribute() {},
    addEventListener(name, press) { this.press = press; seen.buttons.push(this); },
    append(...some) { this.children.push(...some); },
    querySelector() { return this.children[0]; },
  });
  const controller = { change: null };
  const page = {
    URL, MessageChannel, Promise, console: { error() {} }, fetch: async () => null, WebAssembly: { compileStreaming: async () => null },
    setTimeout: (run, ms) => setTimeout(run, ms / 1000),
    Event, dispatchEvent: () => true, addEventListener: (name, hear) => name === "error" && (seen.onError = hear), location: { reload: () => seen.reloads++ },
    document: { body: element(), currentScript: { src: "https://example.test/1/web/first.js" }, createElement: element },
    navigator: {
      serviceWorker: {
        controller: null,
        addEventListener: (_, change) => (controller.change = change),
        getRegistration: async () => more.registration,
      },
    },
    keelroomStore: { idle: more.idle ?? (async () => {}) },
    keelroomUnsaved: more.unsaved ?? (() => ""),
  };
  page.globalThis = page;
  if (more.registration) more.registration.unregister = async () => seen.unregistered++;
  runInContext(code, createContext(page));
  return { page, seen, controller };
};

// A service worker that answers some questions, and keeps silent on others.
const workerOf = (answers, heard = []) => ({
  state: "installed",
  addEventListener() {},
  postMessage(what, [port]) {
    heard.push(what);
    if (Object.hasOwn(answers, what)) port.postMessage(answers[what]);
    setTimeout(() => port.close(), 500);
  },
});

// versionOf is a version that waits, and takes over when it is asked.
const versionOf = (got, then = () => {}) => {
  const heard = [];
  const worker = workerOf({ "take over": { whole: true } }, heard);
  const post = worker.postMessage;
  worker.postMessage = (what, ports) => {
    post(what, ports);
    then();
    got().page.navigator.serviceWorker.controller = worker;
    setTimeout(() => got().controller.change?.(), 5);
  };
  return { worker, heard };
};

// within gives what a promise gives, or "nothing yet" when that takes long.
const within = (work) => Promise.race([work, new Promise((done) => setTimeout(() => done("nothing yet"), 1000))]);

{
  let words = "Export this plan first: it is not saved.";
  let got;
  const { worker, heard } = versionOf(() => got);
  got = pageOf({ unsaved: () => words });
  const said = await within(got.page.keelroomPage.useVersion(worker));
  check("a newer version is refused while something is not saved", said === words && got.seen.reloads === 0, { said, ...got.seen });
  check("a newer version is not put in charge while something is not saved", heard.length === 0, heard);
  words = "";
  await within(got.page.keelroomPage.useVersion(worker));
  check("a newer version is used once all is saved", got.seen.reloads === 1, got.seen);
}
{
  let words = "";
  let got;
  const { worker } = versionOf(() => got, () => (words = "Export this plan first: it is not saved."));
  got = pageOf({ unsaved: () => words });
  const said = await within(got.page.keelroomPage.useVersion(worker));
  check("a change that comes while a version takes over is not lost", said === words && got.seen.reloads === 0, { said, ...got.seen });
  const again = workerOf({ "take over": { whole: true } });
  got.page.navigator.serviceWorker.controller = again; // it is in charge by now
  words = "";
  await within(got.page.keelroomPage.useVersion(again));
  check("a version in charge already is used once all is saved", got.seen.reloads === 1, got.seen);
}
{
  let got;
  const { worker } = versionOf(() => got);
  got = pageOf({ idle: () => new Promise(() => {}), unsaved: () => "Export this plan first: it is not saved." });
  await within(got.page.keelroomPage.useVersion(worker));
  await new Promise((done) => setTimeout(done, 100));
  check("a store that hangs leads to no loading again", got.seen.reloads === 0, got.seen);
}

// anew presses the button that fetches the app anew, after the program has stopped.
const anew = async (answers) => {
  const heard = [];
  const registration = { update: async () => {}, active: workerOf(answers, heard) };
  const { page, seen } = pageOf({ registration, unsaved: () => { throw new Error("the program has ended"); } });
  page.keelroomStopped("a test");
  const button = seen.buttons.find((one) => one.textContent.startsWith("Fetch the app anew"));
  await within(button.press({ target: button }));
  return seen;
};

{
  const slow = await anew({ "who?": { version: "1", whole: null } });
  check("a worker of ours on a slow network is not unregistered", slow.unregistered === 0 && slow.reloads === 0, slow);
  const older = await anew({ "whole?": { version: "0", whole: false } });
  check("nor is one that does not know the question", older.unregistered === 0 && older.reloads === 0, older);
  const foreign = await anew({});
  check("a worker that answers nothing is unregistered", foreign.unregistered === 1 && foreign.reloads === 1, foreign);
  const mended = await anew({ mend: { version: "1", whole: true } });
  check("a program that has stopped is loaded again whatever it held", mended.unregistered === 0 && mended.reloads === 1, mended);
}

{
  const { page, seen } = pageOf();
  const fails = (filename) => seen.onError({ target: page, filename, message: "The requested module does not provide an export named 'x'" });
  const told = () => page.document.body.children.length > 0;
  fails("https://elsewhere.test/x.js");
  check("a script that is not of the app is no trouble of it", !told());
  fails("https://example.test/1/web/start.js");
  check("a module that cannot be joined to another is told of", told() && seen.buttons.some((one) => one.textContent.startsWith("Fetch the app anew")));
  const running = pageOf();
  running.page.keelroomModule = {};
  running.seen.onError({ target: running.page, filename: "https://example.test/1/web/start.js", message: "x" });
  check("an error in one script does not end a program that runs", running.page.document.body.children.length === 0);
}
{
  let stopped = "";
  Object.assign(globalThis, {
    document: { getElementById: () => null }, keelroomWhole: () => true, keelroomStopped: (why) => (stopped = why), Go: class {},
    keelroomPage: { base: new URL("https://example.test/"), folder: new URL("https://example.test/1/"), version: "1", program: Promise.resolve({}) },
  });
  WebAssembly.instantiate = async () => { throw new RangeError("out of memory"); };
  const { runProgram } = await import("../program.js");
  await runProgram().catch(() => {});
  check("a program that cannot begin says so", stopped.includes("out of memory"), stopped);
}

process.exit(failures ? 1 : 0);
