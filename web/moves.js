// The way of a drag. The places of a point that is dragged go straight to the worker
// that checks, and what it answers straight to who draws: the page's program only
// makes the channel, and says which plan and chart the worker has been given.
//
// One place is asked about at a time; of those that come meanwhile the newest waits.
// An answer holds what differs from the one before (see app/engine/view.go).

/**
 * @typedef {{place: Place, items: Map<string, any> | null, words: string}} Answer
 *   items: what the screen shows of the check, by name; null where there is none, and words say why
 * @typedef {{seq: number, state: string, base?: number, items?: Record<string, any>, gone?: string[], words?: string}} Message
 */

/** How long the answer for the place before may stand for a newer one, in ms. */
export const LATE_MS = 100;
/** How often a plan is sent again for a worker that says it has another. */
const MOST_RESENT = 2;

export class Moves {
  /**
   * @param {{answered: (answer: Answer) => void, outdated: () => void, resend: () => void, late: () => void}} host
   *   answered takes every answer, outdated hears that those before are of another plan,
   *   chart or worker, resend is to send the plan again, late hears that an answer is
   *   LATE_MS overdue
   * @param {() => number} now ms
   */
  constructor(host, now = () => performance.now()) {
    this.host = host;
    this.now = now;
    /** @type {MessagePort | null} */
    this.port = null;
    this.planRev = -1; // below 0: there is none that the worker may be asked of
    this.chartRev = -1;
    this.seq = 0;
    /** @type {{seq: number, place: Place, overtaken: number | null} | null} */
    this.asked = null; // and not answered yet; overtaken: when the next place was wanted
    /** @type {Place | null} */
    this.waiting = null;
    /** @type {Place | null} */
    this.newest = null; // of the drag that goes on, answered or not
    this.has = 0; // the newest answer in items
    /** @type {Map<string, any>} */
    this.items = new Map();
    this.resent = 0;
    /** @type {number | null} */
    this.since = null; // when the oldest place was wanted that has no answer
    this.timer = /** @type {any} */ (0);
  }

  /** Takes the channel to a worker that was started. @param {MessagePort} port */
  connect(port) {
    this.port?.close();
    this.port = port;
    port.onmessage = (event) => this.take(JSON.parse(event.data));
    this.has = 0;
    this.host.outdated();
    this.askAgain();
  }

  /** Says which plan and chart the worker has been given. @param {number} planRev @param {number} chartRev */
  follow(planRev, chartRev) {
    const other = planRev !== this.planRev || chartRev !== this.chartRev;
    this.planRev = planRev;
    this.chartRev = chartRev;
    this.has = 0;
    if (other) {
      this.resent = 0;
      this.host.outdated();
    }
    this.askAgain();
  }

  /** Asks about a place. @param {Place} place */
  ask(place) {
    this.newest = place;
    this.startClock();
    if (this.asked) {
      this.asked.overtaken ??= this.now();
      this.waiting = place;
    } else this.send(place);
  }

  /** Ends a drag: nothing more is asked, and no answer is taken. */
  end() {
    this.asked = null;
    this.waiting = null;
    this.newest = null;
    this.stopClock();
  }

  /** Whether an answer is overdue. */
  isLate() {
    return this.since !== null && this.now() - this.since >= LATE_MS;
  }

  // What was answered for the newest place is asked again too: a finger that rests
  // moves on to no other.
  askAgain() {
    this.asked = null;
    this.waiting = null;
    if (!this.newest) return;
    this.startClock();
    this.send(this.newest);
  }

  /** @param {Place} place */
  send(place) {
    this.seq++;
    this.asked = { seq: this.seq, place, overtaken: null };
    if (this.planRev >= 0) this.port?.postMessage([this.seq, this.planRev, this.chartRev, place.feature, place.vertex, place.insert ? 1 : 0, place.lon, place.lat, this.has]);
  }

  /** @param {Message} message */
  take(message) {
    const asked = this.asked;
    if (!asked || message.seq !== asked.seq) return;
    switch (message.state) {
      case "done":
        if (message.base !== 0 && message.base !== this.has) { // it changes what is not here
          this.has = 0;
          this.send(asked.place);
        } else this.answered(asked, this.apply(message), "");
        break;
      case "failed":
        this.answered(asked, null, message.words ?? "");
        break;
      case "stale":
        if (this.resent++ < MOST_RESENT) this.host.resend(); // the place is asked about again once the plan is sent
        break;
      default: // ended by a plan or a chart that came: the place is asked about again after it
    }
  }

  /** @param {{place: Place, overtaken: number | null}} asked @param {Map<string, any> | null} items @param {string} words */
  answered(asked, items, words) {
    const next = this.waiting;
    this.asked = null;
    this.waiting = null;
    this.resent = 0;
    this.stopClock();
    if (next) {
      this.startClock(asked.overtaken ?? this.now());
      this.send(next);
    }
    this.host.answered({ place: asked.place, items, words });
  }

  /** Puts an answer together with the one before. @param {Message} message @returns {Map<string, any>} */
  apply(message) {
    if (message.base === 0) this.items.clear();
    for (const name of message.gone ?? []) this.items.delete(name);
    for (const [name, item] of Object.entries(message.items ?? {})) this.items.set(name, item);
    this.has = message.seq;
    return this.items;
  }

  /** @param {number} since when the oldest place without an answer was wanted */
  startClock(since = this.now()) {
    if (this.since !== null) return;
    this.since = since;
    this.timer = setTimeout(() => this.host.late(), Math.max(0, LATE_MS - (this.now() - since)));
  }

  stopClock() {
    clearTimeout(this.timer);
    this.since = null;
  }
}
