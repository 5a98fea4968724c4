// Tests of the day strip on a page that is made up: where things are, what they say,
// and what of a gesture is told.
import { holder, nextFrame } from "./dom.mjs";
import { clock, heightAt, layout, metres, point, snap, xOf } from "../scale.js";
import { strip } from "../strip.js";

let failures = 0;
const check = (name, ok, found = "") => {
  if (!ok) failures++;
  console.log(`${ok ? "ok" : "not ok"} ${name}${ok ? "" : `: ${JSON.stringify(found)}`}`);
};
const near = (a, b, tolerance = 0.06) => Math.abs(a - b) <= tolerance;

const FROM = 1782000000; // any midnight
const HOUR = 3600;
const STEP = 600;
const hoursOf = (n) => Array.from({ length: n }, (_, i) => ({ t: FROM + i * HOUR, label: String(i).padStart(2, "0") }));
const heights = (of) => Array.from({ length: 145 }, (_, i) => {
  const h = of(i / 6);
  return h === null ? null : [FROM + i * STEP, h];
});
// A tide that rises a metre in six hours and falls again, and is not known from 18 h on.
const tide = { points: heights((t) => (t > 18 ? null : 2 - Math.abs(t - 6) / 6)), events: [{ t: FROM + 6 * HOUR, kind: "HW", h: 2 }] };
const dayOf = (more = {}) => ({
  zone: "UTC", from: FROM, to: FROM + 24 * HOUR, step_s: STEP, hours: hoursOf(24), tide,
  light: [{ kind: "night", from: FROM, to: FROM + 4 * HOUR }, { kind: "day", from: FROM + 5 * HOUR, to: FROM + 21 * HOUR }],
  wind: [{ t: FROM + 6 * HOUR, from_deg: 225, kn: 12.4, gust_kn: 18.2 }],
  blocks: [
    { part: 0, kind: "warm-up", name: "Out", from: FROM + 8 * HOUR, to: FROM + 8 * HOUR + 300 }, { part: 0, kind: "under-way", name: "Out", from: FROM + 8 * HOUR + 300, to: FROM + 9 * HOUR },
    { part: 1, kind: "anchor", name: "Cove", from: FROM + 9 * HOUR, to: FROM + 12 * HOUR }, { part: 2, kind: "under-way", name: "Home", from: FROM + 12 * HOUR, to: FROM + 13 * HOUR },
  ],
  ...more,
});

// 980 pixels between the margins of 10 are 24 hours.
const view = { day: dayOf(), layout: layout(1000, 200) };
check("midnight is at the left margin", xOf(view, FROM) === 10);
check("noon is in the middle", xOf(view, FROM + 12 * HOUR) === 500);
check("the cursor stands on the step that comes with the day", snap(view, FROM + 899) === FROM + 600 && snap(view, FROM + 901) === FROM + 1200);
check("another step of another day", snap({ ...view, day: dayOf({ step_s: 300 }) }, FROM + 451) === FROM + 600);
check("it stays within the day", snap(view, FROM - 5000) === FROM);

// A height between two points lies on the line between them; beside an unknown one it is not known.
check("height of tide on a point", heightAt(view.day, FROM + 3 * HOUR) === 1.5);
check("height of tide between points", near(heightAt(view.day, FROM + 3 * HOUR + 300), 1.5 + 1 / 72, 1e-9), heightAt(view.day, FROM + 3 * HOUR + 300));
check("no height beside an unknown one", heightAt(view.day, FROM + 18 * HOUR + 300) === null);
check("no height without a tide", heightAt(dayOf({ tide: null }), FROM) === null);
check("a height is written with a true minus", metres(-0.34) === "\u22120.3 m" && metres(-0.04) === "0.0 m", metres(-0.04));
check("points of the compass, 22.5 degrees each", ["N", "NNE", "S", "N"].every((want, i) => point([11, 12, 180, 349][i]) === want));

// As clocks go back the hour from two to three comes twice, and the second says so.
{
  const hours = [0, 1, 2, 2, 3].map((label, i) => ({ t: FROM + i * HOUR, label: String(label).padStart(2, "0"), ...(i === 3 && { again: true }) }));
  const day = dayOf({ to: FROM + 5 * HOUR, hours });
  check("the first of two hours", clock(day, FROM + 2 * HOUR + 600) === "02:10");
  check("the second of two hours", clock(day, FROM + 3 * HOUR + 600) === "02:10 again");
  check("after them", clock(day, FROM + 4 * HOUR) === "03:00");
  check("the end of the day", clock(day, FROM + 5 * HOUR) === "24:00");
}

const mounted = (width, height) => {
  const told = [];
  const div = holder(width, height);
  strip.mount(div, (kind, detail) => told.push({ kind, ...detail }), { worst_first: [], verdicts: { care: "with care", "no-data": "not known" } });
  return { div, root: div.children[0], told };
};
const text = (e) => e.map((one) => one.textContent).join(" | ");

strip.setDay(null);
strip.setRibbon(null);
const { div, root, told } = mounted(1000, 200);
nextFrame();
check("without a day it says so", root.textContent.includes("The day is not worked out yet"), root.textContent);
check("without a day nothing is taken hold of", root.all("class", "strip-cursor")[0].hidden && root.all("class", "strip-hold").length === 0);

for (const [what, day] of [["no text", "{"], ["no step", { ...dayOf(), step_s: undefined }], ["no hours", { ...dayOf(), hours: null }], ["a day that ends before it begins", { ...dayOf(), to: FROM }]]) {
  strip.setDay(typeof day === "string" ? day : JSON.stringify(day));
  nextFrame();
  check(`${what}: the day is not known`, root.textContent.includes("The day is not worked out yet"));
}

strip.setDay(JSON.stringify(dayOf()));
strip.setCursor(FROM + 6 * HOUR);
nextFrame();
{
  const curve = root.all("class", "curve");
  const corners = curve[0].attributes.d.slice(1).split(" L").map((at) => at.split(" ").map(Number));
  check("the curve has a corner a step as far as the tide is known", curve.length === 1 && corners.length === 109, corners.length);
  check("it begins at midnight and ends at six in the evening", near(corners[0][0], 10) && near(corners.at(-1)[0], 10 + (980 * 18) / 24), corners.at(-1));
  const top = Math.min(...corners.map(([, y]) => y));
  check("its top is the high water", near(corners.find(([, y]) => y === top)[0], 10 + 980 / 4), top);
  const unknown = root.all("fill", "url(#strip-unknown)");
  check("what is not known is shown as unknown to the end", unknown.length === 1 && near(Number(unknown[0].attributes.x), 745) && near(Number(unknown[0].attributes.x) + Number(unknown[0].attributes.width), 990), unknown[0].attributes);
  check("words for those who do not see it", ["High water 06:00, 2.0 m.", "Daylight 05:00 to 21:00.", "Wind at 06:00 from SW, 12 knots, gusts 18."].every((w) => root.all("class", "strip-spoken")[0].textContent.includes(w)), root.all("class", "strip-spoken")[0].textContent);
  const cursor = root.all("class", "strip-cursor")[0];
  check("the cursor says the hour and the height", cursor.attributes["aria-valuetext"] === "06:00, height of tide 2.0 m" && cursor.children[0].textContent === "06:00 2.0 m", cursor.attributes);
  strip.setCursor(FROM + 20 * HOUR);
  nextFrame();
  check("a height that is not known is a question mark", cursor.attributes["aria-valuetext"] === "20:00, height of tide not known" && cursor.children[0].textContent === "20:00 ?" && root.all("class", "strip-dot")[0].hidden, cursor.attributes);
  check("a key moves it by a step", cursor.send("keydown", { key: "ArrowLeft" }) === false && told.at(-1).t === FROM + 20 * HOUR - STEP, told.at(-1));
  check("a key of the browser is left alone", cursor.send("keydown", { key: "ArrowLeft", ctrlKey: true }) === true);
}
{
  strip.setDay(JSON.stringify(dayOf({ tide: null, wind: [] })));
  nextFrame();
  check("no tide and no wind are said", root.textContent.includes("tide not given") && root.textContent.includes("wind not given") && root.all("class", "strip-spoken")[0].textContent.startsWith("Tide not given."));
  strip.setDay(JSON.stringify(dayOf()));
  nextFrame();
}

// Blocks: an hour is 980 / 24 pixels.
{
  const hold = (label) => root.all("class", "strip-hold").find((e) => e.attributes["aria-label"] === label);
  check("a part is one thing to take hold of", root.all("class", "strip-hold").length === 4, root.all("class", "strip-hold").map((e) => e.attributes["aria-label"]));
  const out = hold("under way, Out");
  check("it says when it is", out.attributes["aria-valuetext"] === "08:00 to 09:00", out.attributes);
  const drag = (e, hours, end = "pointerup") => {
    e.send("pointerdown", { clientX: 400 });
    e.send("pointermove", { clientX: 400 + (980 / 24) * hours });
    nextFrame();
    e.send(end, {});
    nextFrame();
  };
  drag(out, 0.6);
  check("a part dragged 36 minutes is shifted by the nearest step", told.at(-1).kind === "shift" && told.at(-1).part === 0 && told.at(-1).seconds === 2400, told.at(-1));
  strip.setDay(JSON.stringify(dayOf()));
  nextFrame();
  drag(hold("End of the stay, Cove"), -1);
  check("the end of a stay dragged an hour", told.at(-1).kind === "until" && told.at(-1).t === FROM + 11 * HOUR, told.at(-1));
  strip.setDay(JSON.stringify(dayOf()));
  nextFrame();
  drag(hold("End of the stay, Cove"), -9);
  check("a stay keeps a step", told.at(-1).t === FROM + 9 * HOUR + STEP, told.at(-1));
  strip.setDay(JSON.stringify(dayOf()));
  nextFrame();
  const before = told.length;
  drag(out, 2, "pointercancel");
  check("a drag that is cancelled tells nothing", told.length === before, told.slice(before));
  check("a press that does not move tells nothing", (drag(out, 0), told.length === before));
  hold("at anchor, Cove").send("keydown", { key: "ArrowRight" });
  hold("at anchor, Cove").send("keydown", { key: "ArrowRight" });
  hold("at anchor, Cove").send("keydown", { key: "Enter" });
  check("two keys and Enter shift by two steps, told once", told.length === before + 1 && told.at(-1).seconds === 2 * STEP, told.slice(before));
}

// Departures: an unknown verdict is never better than not known.
{
  const slots = Array.from({ length: 144 }, (_, i) => ({ t: FROM + i * STEP, verdict: i < 36 ? "clear" : i < 72 ? "care" : i < 108 ? "not-clear" : "of another kind", title: "why" }));
  strip.setDay(JSON.stringify(dayOf()));
  strip.setRibbon({ step_min: 10, slots: slots.toReversed() });
  nextFrame();
  const runs = root.all("class", "slot-").filter((e) => e.name === "rect");
  check("neighbours of one verdict are one run, in order of time", text(runs) !== null && runs.map((r) => r.attributes.class).join() === "slot slot-clear,slot slot-care,slot slot-not-clear,slot slot-no-data", runs.map((r) => r.attributes.class));
  check("a run is as long as its departures", runs.every((r) => near(Number(r.attributes.width), 980 / 4 - 0.8, 0.1)), runs.map((r) => r.attributes.width));
  check("the worse, the higher", Number(runs[0].attributes.height) < Number(runs[1].attributes.height) && Number(runs[1].attributes.height) < Number(runs[3].attributes.height) && Number(runs[3].attributes.height) < Number(runs[2].attributes.height), runs.map((r) => r.attributes.height));
  const list = root.all("class", "strip-ribbon")[0];
  check("a departure says its verdict and why", list.children[40].attributes["aria-label"] === "06:40, with care: why", list.children[40].attributes);
  check("a verdict that is none counts as not known", list.children[120].attributes["aria-label"] === "20:00, not known: why", list.children[120].attributes);
  list.send("keydown", { key: "ArrowRight" });
  check("the first key chooses the departure of the plan", told.at(-1).kind === "why" && told.at(-1).slot.t === FROM + 8 * HOUR, told.at(-1));
  list.send("keydown", { key: "PageUp" });
  check("a page up is an hour later", told.at(-1).slot.t === FROM + 9 * HOUR, told.at(-1));
  list.send("keydown", { key: "Enter" });
  check("Enter leaves then", told.at(-1).kind === "depart" && told.at(-1).t === FROM + 9 * HOUR, told.at(-1));
  strip.setRibbon({ slots });
  nextFrame();
  check("departures without their step are not shown", list.hidden && root.textContent.includes("departures are not worked out yet"));
}

// What was given stays for the next mount; a strip without a size draws nothing.
strip.setPalette("night");
strip.unmount();
check("unmounted it leaves nothing", div.children.length === 0);
const again = mounted(390, 100);
nextFrame();
check("mounted again it has the day and the palette", again.root.all("class", "curve").length === 1 && again.root.dataset.palette === "night");
strip.unmount();
const hidden = mounted(0, 0);
nextFrame();
check("a strip without a size draws nothing", hidden.root.all("class", "curve").length === 0);
strip.unmount();

process.exit(failures ? 1 : 0);
