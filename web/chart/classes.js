// How each S-57 class is drawn: what fills, what lines, what is written, and
// from which scale on.

/** @param {unknown} list @param {...number} codes */
export const has = (list, ...codes) => Array.isArray(list) && list.some((v) => codes.includes(Number(v)));

// Figures are rounded to the side that is unsafe to go past: clearances,
// depths and limits down, drying heights up.
/** @param {number} v */
const tenths = (v) => (Math.floor(v * 10 + 1e-6) / 10);
/** @param {number} v */
export const metres = (v) => `${tenths(v).toFixed(1)} m`;
/** @param {number} v */
export const knots = (v) => (typeof v === "number" ? `${tenths(v)} kn` : "limit not stated");

// What holds in an area, the gravest first: [applies, key of its colour, words].
// Codes of RESTRN and CATREA are those of S-57, appendix A.
/** @type {[(p: Props) => any, string, (p: Props) => string][]} */
const RULES = [
  [(p) => has(p.CATREA, 18), "noEntry", () => "Bathing area: no entry"],
  [(p) => has(p.CATREA, 14), "noEntry", () => "Minefield: no entry"],
  [(p) => has(p.RESTRN, 7, 14, 42) && !has(p.CATREA, 14, 18), "noEntry", () => "No entry"],
  [(p) => p.speed, "rule", (p) => knots(p.limit_kn)],
  [(p) => has(p.RESTRN, 8), "rule", () => "Entry restricted"],
  [(p) => has(p.CATREA, 1), "rule", () => "Safety zone"],
  [(p) => has(p.CATREA, 9), "rule", () => "Military area"],
  [(p) => has(p.RESTRN, 1, 24, 25), "notice", () => "No anchoring"],
  [(p) => has(p.RESTRN, 2), "notice", () => "Anchoring restricted"],
];

/** @param {Props} p */
export const rulesOf = (p) => {
  const found = RULES.filter(([applies]) => applies(p));
  if (found.length === 0) return { key: "notice", words: "" };
  const key = found[0][1];
  const words = found.map(([, , say], i) => (i ? say(p).replace(/^[A-Z]/, (c) => c.toLowerCase()) : say(p))).join(", ");
  return { key, words, ticks: key === "noEntry", plate: Boolean(p.speed) && key === "rule" };
};

/** @param {Props} p */
const clearanceOf = (p) => {
  const stated = [["", p.VERCLR], ["closed ", p.VERCCL], ["safe ", p.VERCSA]].filter(([, v]) => typeof v === "number");
  if (stated.length === 0) return "clearance not stated";
  const wide = typeof p.HORCLR === "number" ? `, ${metres(p.HORCLR)} wide` : "";
  return stated.map(([word, v]) => word + metres(v)).join(", ") + wide;
};

/** @param {string} word @returns {(p: Props) => string} */
const withRule = (word) => (p) => {
  const rule = rulesOf(p);
  return rule.words ? `${word}: ${rule.words.toLowerCase()}` : word;
};

/** @type {Look} */
const restricted = {
  order: 50, band: true,
  style(p) {
    const rule = rulesOf(p);
    return { key: rule.key, width: rule.ticks ? 2 : 1.6, dash: rule.ticks ? null : rule.plate ? [9, 4] : [6, 4], ticks: rule.ticks, plate: rule.plate };
  },
  words: (p) => rulesOf(p).words || p.n || "Restricted area",
};
/** @param {string} word @returns {Look} */
const overhead = (word) => ({ order: 60, pen: { key: "coast", width: 2.5 }, casing: true, /** @param {Props} p */ words: (p) => `${word} ${clearanceOf(p)}`, labelScale: 40000 });
/** @param {string} word @param {number} [scale] */
const notice = (word, scale = 60000) => ({ order: 40, pen: { key: "notice", width: 1.1, dash: [10, 3, 2, 3] }, words: withRule(word), labelScale: scale });
/** @param {string} word @param {number[]} dash @param {number} [scale] */
const works = (word, dash, scale = 30000) => ({ order: 30, pen: { key: "works", width: 1.2, dash }, words: withRule(word), labelScale: scale });
const built = { fill: "built", fillOrder: 5, order: 20, pen: { key: "coast", width: 1.4 }, point: "pile" };
const silent = { order: 0 };
/** @param {boolean} water @param {number} scale */
const named = (water, scale) => ({ order: 0, name: water ? "water" : "land", labelScale: scale });
/** @param {string} kind */
const buoy = (kind) => ({ point: kind, rank: 90, order: 46, pen: { key: "coast", width: 1.4 } });
/** @param {string} word @returns {Look} */
const afloat = (word) => ({ point: "special", rank: 90, words: () => word, labelScale: 20000 });

/** @type {Record<string, Look>} */
const LOOKS = {
  DEPARE: { water: true }, DRGARE: { water: true, order: 10, pen: { key: "contour", width: 1, dash: [5, 3] } },
  UNSARE: { fill: "unknown", fillOrder: 0, order: 10, pen: { key: "unknownInk", width: 1, dash: [2, 3] } },
  REFUSED: { fill: "unknown", fillOrder: 9, order: 55, pen: { key: "unknownInk", width: 1.6, dash: [6, 3] }, words: () => "left out: unknown", labelScale: 80000 },
  LNDARE: { fill: "land", fillOrder: 2, order: 15, pen: { key: "coast", width: 0.6 }, point: "islet", rank: 20 },
  LAKARE: { fill: "neutral", fillOrder: 3 }, RIVERS: { fill: "neutral", fillOrder: 3, order: 12, pen: { key: "contour", width: 0.8 } }, CANALS: { fill: "neutral", fillOrder: 3, order: 12, pen: { key: "contour", width: 0.8 } },
  BUAARE: { fill: "built", fillOrder: 4, name: "land", labelScale: 40000 }, BUISGL: { fill: "built", fillOrder: 5, point: "house", scale: 20000 },
  COALNE: { order: 25, pen: { key: "coast", width: 1.5 } }, SLCONS: { order: 24, fill: "built", fillOrder: 5, pen: { key: "coast", width: 1.5 }, point: "pile" },
  PONTON: built, FLODOC: built, HULKES: built, OFSPLF: built, DAMCON: built, CAUSWY: built, DYKCON: built, GATCON: built, PYLONS: built, LOGPON: { ...built, words: () => "Log pond", labelScale: 20000 },
  PILPNT: { point: "pile", rank: 30, scale: 30000 }, MORFAC: { point: "pile", rank: 30, scale: 30000, order: 20, pen: { key: "coast", width: 1 } },
  DEPCNT: { order: 5 },
  RESARE: restricted, FAIRWY: { order: 35, pen: { key: "soft", width: 1, dash: [14, 6] }, words: withRule("Fairway"), labelScale: 60000 },
  CTNARE: { ...notice("Caution area"), point: "notice" }, PRCARE: { ...notice("Precaution area"), point: "notice" }, ACHARE: { ...notice("Anchorage"), point: "anchor" }, ACHBRT: { ...notice("Anchor berth", 25000), point: "anchor" },
  TSSLPT: notice("Traffic lane"), TSEZNE: notice("Separation zone"), ISTZNE: notice("Inshore traffic zone"),
  MIPARE: { ...notice("Military practice area"), point: "notice" }, SPLARE: { ...notice("Seaplane landing area"), point: "notice" },
  SUBTLN: notice("Submarine lane"), OSPARE: notice("Offshore production area"), ICEARE: notice("Ice"),
  OILBAR: { ...works("Oil barrier", [6, 2]), order: 52 }, RAPIDS: { ...works("Rapids", [2, 2]), order: 52, point: "notice" }, WATTUR: { ...works("Broken water", [2, 4]), point: "notice" },
  CRANES: { ...built, point: "landmark", scale: 40000 }, LITFLT: afloat("Light float"), LITVES: afloat("Light vessel"),
  CBLARE: works("Cable area", [8, 3, 2, 3]), PIPARE: works("Pipeline area", [8, 3, 2, 3]), CBLSUB: works("Cable", [2, 3, 7, 3]), PIPSOL: works("Pipeline", [1.5, 4]),
  MARCUL: { ...works("Marine farm", [3, 3]), order: 52 }, FSHFAC: { ...works("Fishing gear", [3, 3]), order: 52, point: "pile" },
  BRIDGE: overhead("Bridge"), CBLOHD: overhead("Overhead cable"), PIPOHD: overhead("Overhead pipe"), CONVYR: overhead("Conveyor"),
  NAVLNE: { order: 28, pen: { key: "soft", width: 1, dash: [12, 5] }, /** @param {Props} p */ words: (p) => bearingOf(p), labelScale: 60000 }, RECTRC: { order: 28, pen: { key: "soft", width: 1, dash: [12, 5] }, /** @param {Props} p */ words: (p) => bearingOf(p), labelScale: 60000 },
  OBSTRN: { order: 45, pen: { key: "danger", width: 1.5, dash: [1.5, 3] }, /** @param {Props} p */ words: (p) => dangerWords(p, "Obstruction"), labelScale: 25000, point: "obstruction", rank: 70 },
  WRECKS: { order: 45, pen: { key: "danger", width: 1.5, dash: [1.5, 3] }, /** @param {Props} p */ words: (p) => dangerWords(p, "Wreck"), labelScale: 25000, point: "wreck", rank: 75 },
  UWTROC: { order: 45, pen: { key: "danger", width: 1.5, dash: [1.5, 3] }, /** @param {Props} p */ words: (p) => dangerWords(p, "Rocks"), labelScale: 25000, point: "rock", rank: 72 },
  WEDKLP: { order: 26, pen: { key: "contour", width: 1, dash: [1.5, 4] }, words: () => "Weed", labelScale: 20000 },
  M_COVR: { order: 58, pen: { key: "cover", width: 1.4, dash: [16, 4, 3, 4] } },
  SEAARE: named(true, 40000), LNDRGN: named(false, 40000),
  SBDARE: silent, M_QUAL: silent, M_SDAT: silent, M_VDAT: silent, M_NSYS: silent, M_NPUB: silent, M_CSCL: silent, MAGVAR: silent, ADMARE: silent, SOUNDG: silent, C_AGGR: silent, DSID: silent, LNDELV: silent, VEGATN: silent, HRBARE: silent, FOGSIG: silent, DAYMAR: silent, TOPMAR: silent, RTPBCN: silent,
  BOYLAT: buoy("lateral"), BCNLAT: buoy("lateral"), BOYCAR: buoy("cardinal"), BCNCAR: buoy("cardinal"), BOYISD: buoy("isolated"), BCNISD: buoy("isolated"),
  BOYSAW: buoy("safe"), BCNSAW: buoy("safe"), BOYSPP: buoy("special"), BCNSPP: buoy("special"), BOYINB: buoy("special"),
  LIGHTS: { point: "light", rank: 60 }, LNDMRK: { point: "landmark", rank: 10, scale: 40000 }, HRBFAC: { point: "harbour", rank: 12, scale: 40000 },
};
/** @type {Look} */
const PLAIN = { order: 8, pen: { key: "soft", width: 0.7, dash: [3, 3] }, point: "plain", scale: 25000, rank: 0 };

/** @param {Props} p */
function bearingOf(p) {
  return typeof p.ORIENT === "number" ? `${String(Math.round(p.ORIENT) % 360).padStart(3, "0")}°` : "";
}

/** @param {Props} p @param {string} word */
function dangerWords(p, word) {
  return typeof p.VALSOU === "number" ? `${word} ${tenths(p.VALSOU) < 0 ? `dries ${(-tenths(p.VALSOU)).toFixed(1)} m` : metres(p.VALSOU)}` : word;
}

/** @param {string} c @returns {Look} */
export const lookOf = (c) => LOOKS[c] ?? PLAIN;
