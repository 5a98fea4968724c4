// What the anchor watch wants of the device: positions, a screen that stays on, a sound, the battery.
// Nothing here decides anything: the program is told what happens, and says what is to sound.
import { sound } from "./watchsound.js";

const TICK_MS = 1000;
const ATTEMPT_S = 3;
const SCREEN_MS = 15000; // from one wish for a screen that stays on to the next
const SHAKE_MS = [400, 150, 400, 150, 700];

/** @typedef {(kind: string, detail?: object) => void} Tell */
/** @type {Tell} */
let tell = () => {};
let askAfterMs = 15000;
let running = false;
let watchId = -1;
let newsAt = 0; // when the receiver was last heard, or asked, by the steady clock
let ticker = 0;
let screenAskedAt = 0;
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
  newsAt = performance.now();
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
  newsAt = performance.now();
  watchId = navigator.geolocation.watchPosition(taken, refused, precise);
};

// A receiver that lies still may send nothing new by itself: it is asked.
const tick = () => {
  if (performance.now() - newsAt >= askAfterMs) {
    newsAt = performance.now();
    navigator.geolocation.getCurrentPosition(taken, refused, { ...precise, timeout: askAfterMs });
  }
  if (touchedOnce() && !sound.on()) sound.open(tellSound);
  if (performance.now() - screenAskedAt >= SCREEN_MS) keepScreenOn();
  tell("tick");
};

// The device may let the screen go dark though the page is in front, as with a low battery: it is
// asked again.
const keepScreenOn = async () => {
  if (!running || document.visibilityState !== "visible") return;
  screenAskedAt = performance.now();
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

// A browser that does not tell counts as touched.
const touchedOnce = () => navigator.userActivation?.hasBeenActive !== false;

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
      } else tell("denied"); // to be asked again is no permission
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
const LOCK = "keelroom anchor watch";
const LOCK_MS = 5000;
/** @returns {Promise<boolean>} */
const alone = () =>
  new Promise((done) => {
    if (!navigator.locks || letGo) {
      done(true);
      return;
    }
    navigator.locks
      .request(LOCK, { signal: AbortSignal.timeout(LOCK_MS) }, () => {
        done(true);
        return held();
      })
      .catch(() => done(false));
  });

// Lasts as long as this tab is the one that watches.
const held = () => new Promise((end) => (letGo = () => end(undefined)));

// Where another tab watches, this one waits until that is gone, whatever ends it, and tells of it then.
let waiting = false;
const waitForTurn = () => {
  if (waiting) return;
  waiting = true;
  navigator.locks
    .request(LOCK, () => {
      waiting = false;
      tell("alone");
      return held();
    })
    .catch(() => (waiting = false));
};

// Browsers let a page shake the device once it was touched.
/** @param {number[] | number} pattern */
const vibrate = (pattern) => touchedOnce() && navigator.vibrate?.(pattern);
const shake = () => vibrate(SHAKE_MS);

document.addEventListener("visibilitychange", tellVisible);
// A finger that touches the screen lets nothing come yet, only one that leaves it.
for (const kind of ["pointerdown", "pointerup", "touchend", "click", "keydown"]) addEventListener(kind, touched, true);
// The program has stopped by a mistake of its own: nobody watches, and nothing else would say so aloud.
addEventListener("keelroomstopped", () => running && watch.alarm(true));

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
      waitForTurn();
      return;
    }
    if (!running) { // it was ended meanwhile
      letGo?.();
      letGo = null;
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
