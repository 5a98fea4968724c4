// A year of hourly heights at Boston by a JavaScript library. Answers lines of
// JSON as package year has them.
//
// The library has M3 half a turn off, so it is given M3 turned; and it counts the lunar perigee
// twice in M1, so M1 is left out on both sides.
import { readFileSync } from "node:fs";
import { createInterface } from "node:readline";
import { createTidePredictor } from "@neaps/tide-predictor";

const file = new URL("../../../hazards/tide/testdata/tide_noaa_8443970.json", import.meta.url);
const station = JSON.parse(readFileSync(file, "utf8"));
const constituents = station.constituents
  .filter((c) => c.name !== "M1")
  .map((c) => (c.name === "M3" ? { ...c, phase: (c.phase + 180) % 360 } : c));
const offset = station.z0_msl_above_chart_datum_m;
const predictor = createTidePredictor(constituents, { offset, nodeCorrections: "schureman" });

for await (const text of createInterface({ input: process.stdin })) {
  const { year } = JSON.parse(text);
  const start = new Date(Date.UTC(year, 0, 1)), end = new Date(Date.UTC(year + 1, 0, 1));
  const begun = process.hrtime.bigint();
  const heights = predictor.getTimelinePrediction({ start, end, timeFidelity: 3600 });
  const ns = Number(process.hrtime.bigint() - begun);
  process.stdout.write(JSON.stringify({ ns, heights_m: heights.map((h) => h.level) }) + "\n");
}
