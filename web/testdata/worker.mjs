// Tests of the service worker that need no browser.
import { readFileSync } from "node:fs";
import { createHash, webcrypto } from "node:crypto";
import { createContext, runInContext } from "node:vm";

let failures = 0;
const check = (name, ok, found = "") => {
  if (!ok) failures++;
  console.log(`${ok ? "ok" : "not ok"} ${name}${ok ? "" : `: ${JSON.stringify(found)}`}`);
};

const text = "what the file holds";
const sum = createHash("sha256").update(text).digest("hex");
const code = readFileSync(new URL("../app-worker.js", import.meta.url), "utf8")
  .replace("{{.Base}}", '"/"')
  .replace("{{.Version}}", '"1"')
  .replace("{{.Folder}}", '"files/1/"')
  .replace("{{.Files}}", JSON.stringify({ "a.js": sum }))
  .replace("{{.Page}}", '"index.html"');

// workerOf is a service worker on a device with a full cache, to which the network
// gives a text.
const workerOf = (arrives) => {
  const on = {};
  const full = { match: async () => undefined, put: async () => { throw new DOMException("full", "QuotaExceededError"); } };
  const self = { location: new URL("https://example.test/app-worker.js"), addEventListener: (name, take) => (on[name] = take), registration: {} };
  const around = { self, URL, Response, Uint8Array, crypto: webcrypto, navigator: {}, caches: { open: async () => full, keys: async () => [], has: async () => true }, fetch: async () => new Response(arrives) };
  runInContext(code, createContext(around));
  return on;
};

const asked = async (on) => {
  let answer;
  on.fetch({ request: { url: "https://example.test/files/1/a.js", method: "GET", mode: "cors" }, respondWith: (given) => (answer = given) });
  return answer.then((response) => response.text(), (problem) => "refused: " + problem.message);
};

const right = await asked(workerOf(text));
check("a file that is right is given though there is no room to keep it", right === text, right);
const wrong = await asked(workerOf("an error page"));
check("a file that is wrong is not given", wrong.startsWith("refused"), wrong);

const who = await new Promise((done) => {
  workerOf(text).message({ data: "who?", ports: [{ postMessage: done }], waitUntil() {} });
  setTimeout(() => done(null), 1000);
});
check("a worker says at once who it is", who?.version === "1", who);

process.exit(failures ? 1 : 0);
