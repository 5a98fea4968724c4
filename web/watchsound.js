// The sounds of the anchor watch, made by the audio graph alone, with no file to fetch.
//
// The dead man's tone: a node of the graph that is to start some time ahead. The graph runs on a
// thread of its own, so it starts though no script runs any more; each good position puts it back.

const BEAT_S = 1; // the alarm repeats after this long
const LOUD = 0.9;

/** @type {AudioContext | null} */
let audio = null;
/** @type {GainNode | null} */
let out = null;
/** @type {AudioBuffer | null} */
let beat = null; // one beat of the alarm
/** @type {AudioBufferSourceNode | null} */
let alarm = null; // that sounds now
/** @type {AudioBufferSourceNode | null} */
let tone = null; // that is set ahead
let toneAt = 0; // when, in the seconds of the graph
let alarmWanted = false;
let toneWanted = 0; // seconds ahead, asked for while nothing could sound; 0 is none

const on = () => audio?.state === "running";

// Two tones in turn: 880 and 660 Hz carry through a cabin door, and two are no hum of an engine.
/** @param {AudioContext} context */
const makeBeat = (context) => {
  const rate = context.sampleRate;
  const buffer = context.createBuffer(1, BEAT_S * rate, rate);
  const samples = buffer.getChannelData(0);
  for (let i = 0; i < samples.length; i++) {
    const t = i / rate;
    const [from, to, hertz] = t < 0.4 ? [0, 0.4, 880] : [0.45, 0.85, 660];
    if (t < from || t > to) continue;
    const edge = Math.min(1, (t - from) / 0.01, (to - t) / 0.01);
    samples[i] = Math.tanh(3 * Math.sin(2 * Math.PI * hertz * t)) * edge;
  }
  return buffer;
};

/** @param {number} at @returns {AudioBufferSourceNode | null} */
const beatsFrom = (at) => {
  if (!audio || !out) return null;
  beat ??= makeBeat(audio);
  const source = audio.createBufferSource();
  source.buffer = beat;
  source.loop = true;
  source.connect(out);
  source.start(at);
  return source;
};

/** @param {AudioBufferSourceNode | null} source */
const silence = (source) => {
  source?.stop();
  source?.disconnect();
};

// Makes the graph, or lets it run again; browsers want a touch or a key before it does. changed
// is called when it comes to sound or falls silent.
/** @param {() => void} changed */
const open = (changed) => {
  if (!audio && "AudioContext" in globalThis) {
    audio = new AudioContext();
    out = audio.createGain();
    out.gain.value = LOUD;
    out.connect(audio.destination);
    audio.onstatechange = () => {
      catchUp();
      changed();
    };
  }
  audio?.resume().catch(() => {});
};

// What was wanted while the browser held the sound back is done once it does not.
const catchUp = () => {
  if (!on()) return;
  sound.alarm(alarmWanted);
  if (toneWanted > 0) sound.putBack(toneWanted);
};

export const sound = {
  open,
  on,
  /** @param {boolean} wanted */
  alarm(wanted) {
    alarmWanted = wanted;
    if (wanted === Boolean(alarm) || (wanted && !on())) return;
    silence(alarm);
    alarm = wanted ? beatsFrom(0) : null;
  },
  // Sets the dead man's tone so many seconds ahead, in the place of the one that was set.
  /** @param {number} seconds */
  putBack(seconds) {
    toneWanted = on() ? 0 : seconds;
    if (!audio || !on()) return;
    silence(tone);
    toneAt = audio.currentTime + seconds;
    tone = beatsFrom(toneAt);
  },
  takeAway() {
    toneWanted = 0;
    silence(tone);
    tone = null;
  },
  // Sounds the alarm for some seconds, so that it is known how it sounds and that it does.
  /** @param {number} seconds */
  attempt(seconds) {
    const source = beatsFrom(0);
    if (audio) source?.stop(audio.currentTime + seconds);
  },
  // The graph, for whoever measures it.
  graph: () => ({ audio, out, alarm: Boolean(alarm), toneIn: tone && audio ? toneAt - audio.currentTime : null }),
};
