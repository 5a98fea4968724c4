// What the depth of an area means for her at the hour shown.

// The state of a charted bound (DRVAL1, metres, drying negative). levels is
// null where the height of the water is not known, or not above this chart's
// datum: then no depth says anything about her.
/** @param {unknown} bound @param {WaterLevels | null} levels */
export const stateOf = (bound, levels) => {
  if (typeof bound !== "number") return "unknown";
  if (!levels) return "neutral";
  if (bound < levels.dries_m) return "dries";
  if (bound < levels.afloat_m) return "shallow";
  if (bound < levels.enough_m) return "margin";
  return "enough";
};

/** @param {WaterLevels | null} levels */
const usable = (levels) => levels !== null && [levels.dries_m, levels.afloat_m, levels.enough_m].every(Number.isFinite);

// The levels as the page gave them, and for which sets.
export class Water {
  constructor() {
    /** @type {WaterLevels | null} */
    this.levels = null;
    /** @type {Set<string>} */
    this.ids = new Set();
  }

  /** @param {WaterLevels | null} levels @param {string[]} setIds */
  set(levels, setIds) {
    this.levels = usable(levels) ? levels : null;
    this.ids = new Set(setIds ?? []);
  }

  /** @param {LayerSet} set @param {unknown} bound */
  stateIn(set, bound) {
    return stateOf(bound, this.ids.has(set.id) ? this.levels : null);
  }

  // The states as they are now, for a picture that takes several turns to
  // paint while the water goes on changing.
  /** @param {LayerSet[]} sets */
  snapshot(sets) {
    const states = new Map();
    for (const set of sets) states.set(set.id, new Map(set.bounds.map((bound) => [bound, this.stateIn(set, bound)])));
    return new States(states);
  }
}

class States {
  /** @param {Map<string, Map<number, string>>} bySet */
  constructor(bySet) {
    this.bySet = bySet;
  }

  // A bound that was not there when the snapshot was taken is not known.
  /** @param {LayerSet} set @param {unknown} bound */
  stateIn(set, bound) {
    return this.bySet.get(set.id)?.get(/** @type {number} */ (bound)) ?? "unknown";
  }

  /** @param {States | null} other */
  same(other) {
    if (!other || this.bySet.size !== other.bySet.size) return false;
    for (const [id, states] of this.bySet) {
      const others = other.bySet.get(id);
      if (!others || others.size !== states.size) return false;
      for (const [bound, state] of states) if (others.get(bound) !== state) return false;
    }
    return true;
  }
}
