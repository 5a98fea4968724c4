// What the page runs after web/first.js and the classic scripts: it puts the views,
// the store and the device where the program looks for them, then starts it.
import { chart } from "./chart/chart.js";
import { device } from "./device.js";
import { lastDay } from "./lastday.js";
import { runProgram } from "./program.js";
import { store } from "./store.js";
import { strip } from "./strip/strip.js";
import { keepVersions } from "./version.js";
import { watch } from "./watch.js";

Object.assign(globalThis, { keelroomChart: chart, keelroomDevice: device, keelroomLastDay: lastDay, keelroomStore: store, keelroomStrip: strip, keelroomWatch: watch });
chart.onBlocks(strip.showBlocks);
keepVersions();
runProgram();
