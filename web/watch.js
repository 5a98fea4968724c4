// What the anchor watch wants of the device: positions, a screen that stays on, a sound, the battery.
// Nothing here decides anything: the program is told what happens, and says what is to sound.
import { sound } from "./watchsound.js";

const TICK_MS = 1000;
const ATTEMPT_S = 3;
const SHAKE_MS = [400, 150, 400, 150, 700];

/** @typedef {(kind: string, detail?: object) => void} Tell */
/** @type {Tell} */
let tell = () => {};
let askAfterMs = 15000;
let running = false;
let watchId = -1;
let newsAt = 0; // when the receiver was last heard, or asked
let ticker = 0;
let shaking = 0;
/** @type {(() => void) | null} */
let letGo = null; // gives up being the tab that watches
/** @type {WakeLockSentinel | null} */
let screenLock = null;

/** @type {PositionOptions} */
const precise = { enableHighAccuracy: true, maximumAge: 0, timeout: 60000 };

/** @param {GeolocationPosition} position */
const taken = ({ coords, timestamp }) => {
  if (!running) return;
  newsAt = Date.now();
  tell("fix", { t: timestamp, lon: coords.longitude, lat: coords.latitude, accuracy: coords.accuracy });
};

/** @param {GeolocationPositionError} problem */
const refused = (problem) => {
  if (!running) return;
  if (problem.code === problem.PERMISSION_DENIED) tell("denied");
  else tell("no position", { text: problem.message });
};

const listen = () => {
  if (watchId >= 0) navigator.geolocation.clearWatch(watchId);
  newsAt = Date.now();
  watchId = navigator.geolocation.watchPosition(taken, refused, precise);
};

// A receiver that lies still may send nothing new by itself: it is asked.
const tick = () => {
  if (Date.now() - newsAt >= askAfterMs) {
    newsAt = Date.now();
    navigator.geolocation.getCurrentPosition(taken, refused, { ...precise, timeout: askAfterMs });
  }
  tell("tick");
};

const keepScreenOn = async () => {
  if (!running || document.visibilityState !== "visible") return;
  if (!("wakeLock" in navigator)) {
    tell("screen", { on: false, able: false });
    return;
  }
  try {
    if (screenLock && !screenLock.released) return;
    screenLock = await navigator.wakeLock.request("screen");
    screenLock.onrelease = () => running && tell("screen", { on: false, able: true });
    tell("screen", { on: true, able: true });
  } catch {
    tell("screen", { on: false, able: true });
  }
};

const tellVisible = () => {
  if (!running) return;
  tell(document.visibilityState === "visible" ? "visible" : "hidden");
  keepScreenOn();
};

const tellSound = () => running && tell("sound", { on: sound.on() });

// A touch or a key lets the sound come that the browser held back.
const touched = () => running && !sound.on() && sound.open(tellSound);

/** @type {PermissionStatus | null} */
let permission = null;
const watchPermission = async () => {
  try {
    permission ??= await navigator.permissions.query({ name: "geolocation" });
    permission.onchange = () => {
      if (!running) return;
      if (permission?.state === "granted") {
        listen();
        tell("granted");
      } else if (permission?.state === "denied") tell("denied");
    };
  } catch {
    // A browser that does not tell of permissions tells of them by refusing a position.
  }
};

const watchBattery = async () => {
  /** @type {any} */
  const device = navigator;
  try {
    const battery = await device.getBattery();
    const told = () => running && tell("battery", { watched: true, level: battery.level, charging: battery.charging });
    battery.onlevelchange = battery.onchargingchange = told;
    told();
  } catch {
    tell("battery", { watched: false });
  }
};

// One tab watches: the lock is gone with the tab that has it, whatever ends it. A page that is loaded
// again may have to wait a moment for the one before it.
const LOCK_MS = 5000;
/** @returns {Promise<boolean>} */
const alone = () =>
  new Promise((done) => {
    if (!navigator.locks) {
      done(true);
      return;
    }
    navigator.locks
      .request("keelroom anchor watch", { signal: AbortSignal.timeout(LOCK_MS) }, () => {
        done(true);
        return new Promise((end) => (letGo = () => end(undefined)));
      })
      .catch(() => done(false));
  });

// Browsers let a page shake the device once it was touched.
/** @param {number[] | number} pattern */
const vibrate = (pattern) => navigator.userActivation?.hasBeenActive !== false && navigator.vibrate?.(pattern);
const shake = () => vibrate(SHAKE_MS);

document.addEventListener("visibilitychange", tellVisible);
addEventListener("pointerdown", touched, true);
addEventListener("keydown", touched, true);

export const watch = {
  /** @param {Tell} told */
  mount: (told) => (tell = told),
  // Why no position can be had here, or nothing.
  lacks: () => (!globalThis.isSecureContext ? "insecure" : !navigator.geolocation ? "none" : ""),
  /** @param {number} askAfter seconds */
  async begin(askAfter) {
    if (running) return;
    askAfterMs = askAfter * 1000;
    running = true;
    sound.open(tellSound);
    if (!(await alone())) {
      running = false;
      tell("elsewhere");
      return;
    }
    if (!running) { // it was ended meanwhile
      letGo?.();
      return;
    }
    listen();
    clearInterval(ticker);
    ticker = setInterval(tick, TICK_MS);
    tell("begun");
    tellSound();
    tellVisible();
    watchPermission();
    watchBattery();
  },
  end() {
    running = false;
    clearInterval(ticker);
    if (watchId >= 0) navigator.geolocation.clearWatch(watchId);
    watchId = -1;
    watch.alarm(false);
    sound.takeAway();
    screenLock?.release().catch(() => {});
    screenLock = null;
    letGo?.();
    letGo = null;
  },
  /** @param {number} toneAfter seconds */
  healthy: (toneAfter) => sound.putBack(toneAfter),
  /** @param {boolean} wanted */
  alarm(wanted) {
    sound.alarm(wanted);
    clearInterval(shaking);
    shaking = 0;
    if (wanted) {
      shake();
      shaking = setInterval(shake, 2500);
    } else vibrate(0);
  },
  attempt() {
    sound.open(tellSound);
    sound.attempt(ATTEMPT_S);
    shake();
  },
  soundOn() {
    sound.open(tellSound);
  },
  // For whoever measures what sounds.
  graph: sound.graph,
};
