// Tests of watch.js and watchsound.js, with a device that does what the test says.
let failures = 0;
const check = (name, ok, found = "") => {
  if (!ok) failures++;
  console.log(`${ok ? "ok" : "not ok"} ${name}${ok ? "" : `: ${JSON.stringify(found)}`}`);
};
const settled = () => new Promise((done) => setTimeout(done, 5));

// The device.
const handlers = {};
let ticks = [];
let clock = 1000;
const asked = { position: 0, screen: 0 };
const permission = { state: "granted" };
const locks = { taken: false, queue: [], timed: [] };
let screenGiven = true;
class Audio {
  state = "suspended";
  sampleRate = 8000;
  currentTime = 0;
  destination = {};
  static resumed = 0;
  static free = false;
  static sources = [];
  createGain = () => ({ gain: {}, connect() {} });
  createBuffer = (_, n) => ({ getChannelData: () => new Float32Array(n) });
  createBufferSource = () => {
    const source = { connect() {}, disconnect() {}, start: (at) => (source.at = at), stop: () => (source.stopped = true) };
    Audio.sources.push(source);
    return source;
  };
  resume() {
    Audio.resumed++;
    if (Audio.free && this.state !== "running") {
      this.state = "running";
      this.onstatechange();
    }
    return Promise.resolve();
  }
}
const put = (name, value) => Object.defineProperty(globalThis, name, { value, configurable: true, writable: true });
put("isSecureContext", true);
put("AudioContext", Audio);
put("document", { visibilityState: "visible", addEventListener() {} });
put("addEventListener", (kind, run) => (handlers[kind] = run));
put("setInterval", (run, ms) => (ticks.push({ run, ms }), ticks.length));
put("clearInterval", () => {});
put("performance", { now: () => clock });
put("AbortSignal", { timeout: () => "timed" });
put("navigator", {
  userActivation: { hasBeenActive: true },
  vibrate: () => true,
  geolocation: { watchPosition: () => 1, clearWatch() {}, getCurrentPosition: () => asked.position++ },
  permissions: { query: async () => permission },
  wakeLock: {
    request: async () => {
      asked.screen++;
      if (!screenGiven) throw new Error("no");
      return { released: false, release: async () => {} };
    },
  },
  locks: {
    request(_, given, run) {
      if (!run) return new Promise(() => locks.queue.push(given)); // waits as long as it takes
      if (locks.taken) return Promise.reject(new Error("timed out"));
      return run();
    },
  },
});

const { watch } = await import("../watch.js");
const told = [];
watch.mount((kind, detail) => told.push([kind, detail]));
const kinds = () => told.map(([kind]) => kind);

// Another tab watches.
locks.taken = true;
watch.begin(15);
await settled();
check("where another tab watches this one does not", kinds().includes("elsewhere") && !kinds().includes("begun"), told);
check("it waits for its turn", locks.queue.length === 1, locks.queue.length);
locks.queue[0]();
check("its turn has come, and it says so", kinds().at(-1) === "alone", told);
watch.begin(15);
await settled();
check("then it watches, though the lock is taken: by itself", kinds().includes("begun"), told);

const tick = ticks.find((t) => t.ms === 1000).run;

// A touch on a phone lets the sound come when the finger leaves the screen.
for (const kind of ["pointerup", "touchend", "click"]) {
  const before = Audio.resumed;
  handlers[kind]();
  check(`${kind} lets the sound come`, Audio.resumed > before);
}
{
  const before = Audio.resumed;
  tick();
  check("while it does not sound it is asked for again", Audio.resumed > before);
}

// The tone that is set before any sound may come starts counting when it may.
watch.healthy(150);
Audio.free = true;
tick();
check("the tone is set once the sound comes", watch.graph().toneIn === 150, watch.graph().toneIn);

// The clock on the wall may be set back; the receiver is asked all the same.
{
  const was = Date.now;
  Date.now = () => 0;
  clock += 16000;
  tick();
  check("a still receiver is asked after 15 s of the steady clock", asked.position === 1, asked.position);
  Date.now = was;
}

// The screen.
{
  screenGiven = false;
  watch.end();
  locks.taken = false;
  watch.begin(15);
  await settled();
  const before = asked.screen;
  clock += 16000;
  tick();
  await settled();
  check("a screen that is not kept on is asked for again", asked.screen === before + 1, [before, asked.screen]);
}

// Permission that has to be asked for anew is none.
permission.state = "prompt";
told.length = 0;
permission.onchange();
check("permission that is to be asked for again is lost", kinds().join() === "denied", told);

// The program stops by a mistake of its own.
check("before it stops it is silent", !watch.graph().alarm);
handlers.keelroomstopped();
check("a program that stopped sounds the alarm", watch.graph().alarm);

console.log(`# ${failures} failures`);
process.exit(failures ? 1 : 0);
