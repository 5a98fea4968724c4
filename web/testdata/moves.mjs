// Tests of moves.js and of what the chart draws of a drag, which need no browser.
import { liveOf, reportOf } from "../chart/live.js";
import { readPlan, severityOf, legsOf } from "../chart/plan.js";
import { Scene } from "../chart/scene.js";
import { project } from "../chart/space.js";
import { LATE_MS, Moves } from "../moves.js";
import { setRules } from "../rules.js";

setRules({ worst_first: ["not-clear", "no-data", "care", "note"], verdicts: {} });

let failures = 0;
const check = (name, ok, found = "") => {
  if (!ok) failures++;
  console.log(`${ok ? "ok" : "not ok"} ${name}${ok ? "" : `: ${JSON.stringify(found)}`}`);
};

// A worker that answers when it is told to.
const rig = () => {
  const r = { now: 0, sent: [], answers: [], resent: 0, late: 0, outdated: 0, port: null };
  r.moves = new Moves({ answered: (a) => r.answers.push({ ...a, items: a.items && Object.fromEntries(a.items) }), outdated: () => r.outdated++, resend: () => r.resent++, late: () => r.late++ }, () => r.now);
  r.connect = () => r.moves.connect((r.port = { postMessage: (m) => r.sent.push(m), close() {} }));
  r.says = (message) => r.port.onmessage({ data: JSON.stringify(message) });
  r.at = (lon) => r.moves.ask({ feature: 1, vertex: 2, lon, lat: 50, insert: false, at: r.now });
  r.connect();
  r.moves.follow(3, 1);
  return r;
};
const done = (seq, base, items, gone = []) => ({ seq, state: "done", base, items, gone });

{
  const r = rig();
  r.at(10);
  r.at(11);
  r.at(12);
  check("one place is asked about at a time", r.sent.length === 1 && r.sent[0].join() === "1,3,1,1,2,0,10,50,0", r.sent);
  r.says(done(1, 0, { head: 1, "leg 1": "care" }));
  check("of those that wait the newest is asked about next", r.sent.length === 2 && r.sent[1][6] === 12 && r.sent[1][8] === 1, r.sent);
  check("an answer names the place it is for", r.answers[0].place.lon === 10, r.answers);
  r.says(done(2, 1, { "leg 1": "clear", "leg 2": "care" }, ["head"]));
  check("answers add up", JSON.stringify(r.answers[1].items) === '{"leg 1":"clear","leg 2":"care"}', r.answers[1]);
  r.at(13);
  r.says(done(2, 1, { "leg 1": "care" }));
  check("an answer to what was not asked is not taken", r.answers.length === 2);
  r.says(done(3, 9, { "leg 1": "care" }));
  check("an answer that changes what is not here is asked for whole", r.answers.length === 2 && r.sent[3][6] === 13 && r.sent[3][8] === 0, r.sent);
  r.moves.end();
}
{
  const r = rig();
  r.at(10);
  r.says({ seq: 1, state: "failed", words: "too far" });
  check("what cannot be checked has words and nothing else", r.answers[0].items === null && r.answers[0].words === "too far", r.answers);
  r.at(11);
  r.says({ seq: 2, state: "stale" });
  check("a worker with another plan is sent it again", r.resent === 1 && r.answers.length === 1);
  r.moves.follow(4, 1);
  check("and asked about the same place after it", r.sent.at(-1)[0] === 3 && r.sent.at(-1)[1] === 4 && r.sent.at(-1)[6] === 11, r.sent.at(-1));
  for (let seq = 3; seq < 9; seq++) {
    r.says({ seq, state: "stale" });
    r.moves.follow(4, 1);
  }
  check("but not for ever", r.resent === 3, r.resent);
  r.connect();
  check("a worker that was started again is asked again", r.sent.at(-1)[6] === 11 && r.sent.at(-1)[8] === 0);
  r.at(12);
  r.moves.end();
  r.says(done(r.sent.at(-1)[0], 0, { head: 1 }));
  check("after the end no answer is taken", r.answers.length === 1 && !r.moves.isLate(), r.answers);
  r.moves.follow(5, 1);
  const n = r.sent.length;
  r.moves.follow(6, 1);
  check("and nothing is asked", r.sent.length === n);
}
{
  const r = rig();
  r.at(10);
  r.now = LATE_MS - 1;
  check("an answer is not late before its time", !r.moves.isLate());
  r.at(11);
  r.now = LATE_MS;
  check("an answer is late after it", r.moves.isLate());
  r.now = LATE_MS + 10;
  r.says(done(1, 0, { head: 1 }));
  check("the next answer is awaited from when its place was wanted", !r.moves.isLate() && r.moves.since === LATE_MS - 1, r.moves.since);
  r.now = 2 * LATE_MS;
  check("and is late in its turn", r.moves.isLate());
  r.says(done(2, 1, {}));
  check("nothing is late once the newest place is answered", !r.moves.isLate());
}
{
  const r = rig();
  r.at(10);
  await new Promise((go) => setTimeout(go, LATE_MS + 60));
  check("a late answer is told of", r.late === 1, r.late);
  r.moves.end();
}
{
  const r = rig();
  const n = r.outdated;
  r.at(10);
  r.says(done(1, 0, { head: 1 }));
  r.moves.follow(3, 1);
  check("the same plan outdates nothing", r.outdated === n, r.outdated);
  r.moves.follow(3, 2);
  check("another chart outdates what was answered", r.outdated === n + 1, r.outdated);
  check("and a finger that rests is answered anew", r.sent.at(-1)[2] === 2 && r.sent.at(-1)[6] === 10 && r.sent.at(-1)[8] === 0, r.sent);
  r.now += LATE_MS;
  check("which may be late too", r.moves.isLate());
  r.says(done(r.sent.at(-1)[0], 0, { head: 2 }));
  r.connect();
  check("so does another worker", r.outdated === n + 2 && r.sent.at(-1)[6] === 10, r.outdated);
  const sent = r.sent.length;
  r.moves.follow(-1, 2);
  r.at(11);
  check("where no plan may be asked of nothing is asked", r.sent.length === sent, r.sent.slice(sent));
  r.moves.follow(4, 2);
  check("until there is one", r.sent.length === sent + 1 && r.sent.at(-1)[1] === 4 && r.sent.at(-1)[6] === 11, r.sent.slice(sent));
  r.moves.end();
}

// What is drawn.
const plan = (lon) => JSON.stringify({ features: [
  { properties: { role: "route" }, geometry: { type: "LineString", coordinates: [[10, 50], [lon, 50], [12, 50]] } },
  { properties: { role: "stay" }, geometry: { type: "Point", coordinates: [12, 50] } }] });
const items = (one, two, more = {}) => new Map(Object.entries({ "leg 1": one, "leg 2": two, zones: [], "slow-downs": [], circles: [], moved: [[0, 1]], ...more }));
const answer = (lon, all) => ({ place: { feature: 0, vertex: 1, lon, lat: 50, insert: false, at: 5 }, items: all, words: "" });
const legs = (scene) => {
  const { plan: shown, report, byNumber } = scene.shown();
  return legsOf(shown).map((leg) => severityOf(leg, report, byNumber)).join();
};
const middle = (scene) => scene.shown().plan.items[0].points[1][0];
const near = (a, b) => Math.abs(a - b) < 0.01;

{
  const scene = new Scene(() => {});
  let late = false;
  scene.isLate = () => late;
  scene.setPlan(plan(11), readPlan(plan(11)), false);
  scene.setReport({ ...reportOf(items("clear", "care")), legs: new Map([[1, { lines: [[project([10, 50]), project([11, 50])]] }], [2, { lines: [[project([11, 50]), project([12, 50])]] }]]) });
  check("a checked plan is drawn as checked", legs(scene) === "clear,care", legs(scene));
  scene.grasp({ feature: 0, vertex: 1, from: project([11, 50]), insert: false });
  scene.drag = { feature: 0, vertex: 1, insert: false, point: project([11.1, 50]) };
  check("until the first answer the plan stays as it was checked", legs(scene) === "clear,care" && near(middle(scene), project([11, 50])[0]));
  late = true;
  check("when that is late it is drawn at the pointer and nothing is known", legs(scene) === "unchecked,unchecked" && near(middle(scene), project([11.1, 50])[0]), legs(scene));
  late = false;
  scene.live = liveOf(answer(11.1, items("not-clear", "clear")));
  scene.drag = { ...scene.drag, point: project([11.2, 50]) };
  check("an answer is drawn with its own place", legs(scene) === "not-clear,clear" && near(middle(scene), project([11.1, 50])[0]), legs(scene));
  scene.drag = { ...scene.drag, point: project([11.1, 50]) };
  scene.outdated();
  check("what was answered of another chart is not drawn, also where the finger rests", legs(scene) === "unchecked,unchecked", legs(scene));
  scene.drag = { ...scene.drag, point: project([11.2, 50]) };
  scene.live = liveOf({ ...answer(11.2, null) });
  check("what cannot be checked is drawn as unknown", legs(scene) === "unchecked,unchecked" && near(middle(scene), project([11.2, 50])[0]));
  scene.live = liveOf(answer(11.1, items("not-clear", "clear")));
  scene.drag = { ...scene.drag, dropped: true };
  check("what is dropped elsewhere than answered is not known", legs(scene) === "unchecked,unchecked" && near(middle(scene), project([11.2, 50])[0]));
  scene.setPlan(plan(11.2), readPlan(plan(11.2)), false);
  check("nor once the plan comes", legs(scene) === "unchecked,unchecked" && scene.live === null, legs(scene));
  scene.letGo();
}
{
  const scene = new Scene(() => {});
  scene.setPlan(plan(11), readPlan(plan(11)), false);
  scene.grasp({ feature: 0, vertex: 1, from: project([11, 50]), insert: false });
  scene.drag = { feature: 0, vertex: 1, insert: false, point: project([11.1, 50]) };
  scene.live = liveOf(answer(11.1, items("not-clear", "clear")));
  scene.drag = { ...scene.drag, dropped: true };
  scene.setPlan(plan(11.1), readPlan(plan(11.1)), false);
  check("what is known where it was dropped stands until the report", legs(scene) === "not-clear,clear" && !scene.drag, legs(scene));
  scene.setReport(reportOf(new Map()));
  check("and goes with it", scene.live === null && legs(scene) === "unchecked,unchecked", legs(scene));
}
{
  const scene = new Scene(() => {});
  scene.setPlan(plan(11), readPlan(plan(11)), false);
  scene.grasp({ feature: 0, vertex: 1, from: project([11, 50]), insert: false });
  scene.drag = { feature: 0, vertex: 1, insert: false, point: project([11.1, 50]) };
  scene.live = liveOf(answer(11.1, items("not-clear", "clear")));
  scene.letGo();
  check("a drag that is given up leaves the plan where it was", near(middle(scene), project([11, 50])[0]) && scene.live === null);
  scene.grasp({ feature: 0, vertex: 1, from: project([11, 50]), insert: true });
  scene.drag = { feature: 0, vertex: 1, insert: true, point: project([10.5, 50.1]) };
  check("a new point has no verdict before the first answer", legs(scene) === "unchecked,unchecked,unchecked", legs(scene));
  scene.live = liveOf({ ...answer(10.5, new Map(Object.entries({ "leg 1": "clear", "leg 2": "care", "leg 3": "no-data", moved: [] }))), insert: true });
  scene.live.point = scene.drag.point;
  check("and its own legs with it", legs(scene) === "clear,care,no-data", legs(scene));
}
check("a severity that is none is not taken for clear", reportOf(new Map([["leg 1", "fine"]])).worst.get(1) === "no-data");
{
  const report = reportOf(new Map(Object.entries({
    "leg 1": "care", "clearance 1": [10, 50, 0.42], zones: [[10, 50, 5, false]], "slow-downs": [[10, 50, 4.5]], circles: [[[10, 50], [10, 51], [11, 50]]],
    "finding abc": { severity: "care", geometry: { type: "LineString", coordinates: [[10, 50], [11, 50]] }, also: [[10, 50]] },
    "finding xyz": { severity: "note", geometry: null, also: [] }, blocks: [], head: {},
  })));
  check("a report has all that is drawn", report.worst.get(1) === "care" && report.clearances[0].props.clearance_m === 0.42 && report.zones[0].props.limit_kn === 5 && report.zones[0].props.stated === false &&
    report.slowDowns[0].props.to_kn === 4.5 && report.circles[0].lines[0].length === 3 && report.findings.length === 2 && report.findings[0].lines[0].length === 2 && report.findings[0].also.length === 1 && report.findings[1].lines.length === 0, report);
}
process.exitCode = failures ? 1 : 0;
