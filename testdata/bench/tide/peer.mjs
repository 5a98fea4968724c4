// A year of hourly heights at Boston by a JavaScript library, as JSON on standard output:
// {constituents, z0_m, start, step_s, ns_per_height, heights_m}. The Go program beside this reads
// it, computes the same, compares, and prints both times:
//
//   npm ci --prefix testdata/bench/tide
//   node testdata/bench/tide/peer.mjs | go run ./testdata/bench/tide
//
// The library has M3 half a turn off, so it is given M3 turned; and it counts the lunar perigee
// twice in M1, so M1 is left out on both sides.
import { readFileSync } from "node:fs";
import { createTidePredictor } from "@neaps/tide-predictor";

const file = new URL("../../../hazards/tide/testdata/tide_noaa_8443970.json", import.meta.url);
const station = JSON.parse(readFileSync(file, "utf8"));
const constituents = station.constituents.filter((c) => c.name !== "M1");
const theirs = constituents.map((c) => (c.name === "M3" ? { ...c, phase: (c.phase + 180) % 360 } : c));

const z0 = station.z0_msl_above_chart_datum_m;
const predictor = createTidePredictor(theirs, { offset: z0, nodeCorrections: "schureman" });
const start = new Date("2026-01-01T00:00:00Z");
const end = new Date("2027-01-01T00:00:00Z");
const year = () => predictor.getTimelinePrediction({ start, end, timeFidelity: 3600 });

let heights = year(); // also warms up
let best = Infinity;
for (let i = 0; i < 9; i++) {
  const t = process.hrtime.bigint();
  heights = year();
  best = Math.min(best, Number(process.hrtime.bigint() - t));
}
process.stdout.write(JSON.stringify({
  constituents: constituents.map((c) => ({ Name: c.name, AmplitudeM: c.amplitude, PhaseDeg: c.phase })),
  z0_m: z0, start: start.toISOString(), step_s: 3600,
  ns_per_height: best / heights.length, heights_m: heights.map((h) => h.level),
}) + "\n");
