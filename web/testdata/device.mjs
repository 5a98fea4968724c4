// Tests of device.js that need no browser: what is dropped, and what of it is read.
const handlers = {};
globalThis.addEventListener = (name, take) => (handlers[name] = take);
globalThis.document = { documentElement: { dataset: {} } };
const { device } = await import("../device.js");
// The limits are the program's own: TestDevice gives them.
device.limitFiles(process.env.FILE_LIMITS);
const limits = JSON.parse(process.env.FILE_LIMITS);

let failures = 0;
const check = (name, ok, found = "") => {
  if (!ok) failures++;
  console.log(`${ok ? "ok" : "not ok"} ${name}${ok ? "" : `: ${JSON.stringify(found)}`}`);
};

const MB = 1024 * 1024;

// A file of which it is known whether it was read.
const fileOf = (name, size, head = "{") => ({
  name, size, read: false,
  slice: (from, to) => ({ text: async () => head.slice(from, to) }),
  async arrayBuffer() {
    this.read = true;
    return new ArrayBuffer(8);
  },
});

const dropped = (files) =>
  new Promise((done) => {
    device.onFiles((taken) => done({ taken }), (why) => done({ why }));
    handlers.drop({ preventDefault() {}, dataTransfer: { files } });
  });

// A folder, as the browser hands it over.
const folderOf = (name, files) => {
  let left = [files.map((file) => ({ isFile: true, name: file.name, file: (done) => done(file) }))];
  return { isDirectory: true, name, createReader: () => ({ readEntries: (done) => done(left.shift() ?? []) }) };
};
const droppedFolder = (files) =>
  new Promise((done) => {
    device.onFiles((taken) => done({ taken }), (why) => done({ why }));
    handlers.drop({ preventDefault() {}, dataTransfer: { files: [], items: [{ webkitGetAsEntry: () => folderOf("ENC_ROOT", files) }] } });
  });
const opened = (files) =>
  new Promise((done) => {
    globalThis.launchQueue = { setConsumer: (take) => take({ files: files.map((file) => ({ getFile: async () => file })) }) };
    device.onFiles((taken) => done({ taken }), (why) => done({ why }));
    delete globalThis.launchQueue;
  });
const shared = (files) =>
  new Promise((done) => {
    let hear;
    const serviceWorker = { addEventListener: (_, take) => (hear = take), ready: new Promise(() => {}) };
    Object.defineProperty(globalThis, "navigator", { value: { serviceWorker }, configurable: true });
    device.onShared((taken) => done({ taken }), (why) => done({ why }));
    hear({ data: { shared: { files } } });
  });
const picked = (files) =>
  new Promise((done) => {
    let change;
    document.createElement = () => ({ addEventListener: (_, take) => (change = take), click: () => change(), files, remove() {} });
    document.body = { append() {} };
    device.pick(true, "", (taken) => done({ taken }), (why) => done({ why }));
  });

const layer = '{"type":"FeatureCollection"';
// What is larger than the decoder of its kind reads.
const tooLarge = [
  ["sea.geojson", 64 * MB + 1, layer, "sea.geojson has 65 MB"],
  ["SEA.JSON", 200 * MB, layer, "SEA.JSON has 200 MB"],
  ["US5XX11M.000", 65 * MB, "01582", "US5XX11M.000 has 65 MB"],
  ["US5XX11M.007", 65 * MB, "01582", "US5XX11M.007 has 65 MB"],
  ["CATALOG.031", 70 * MB, "01582", "CATALOG.031 has 70 MB"],
  ["US5XX11M (1)", 70 * MB, "01582", "US5XX11M (1) has 70 MB"],
  ["terms.txt", 1 * MB, "Terms", "terms.txt has 1 MB"],
  ["all.zip", 300 * MB, "PK", "300 MB together"],
  ["Keelroom archive.json", 300 * MB, '{"keelroom_archive":1,', "300 MB together"],
];
for (const [way, give] of Object.entries({ dropped, droppedFolder, opened, shared, picked })) {
  for (const [name, size, head, words] of tooLarge) {
    if (way === "droppedFolder" && !/\.(\d{3}|zip|geojson|json|txt)$/i.test(name)) continue;
    const file = fileOf(name, size, head);
    const { why } = await give([file]);
    check(`${way}: ${name} of ${size / MB} MB is refused in words`, String(why).includes(words), why);
    check(`${way}: ${name} is refused unread`, !file.read);
  }
}
for (const [name, size, head] of [
  ["sea.geojson", 64 * MB, "{"],
  ["Keelroom archive.json", 100 * MB, '{"keelroom_archive":1,'],
  ["cells.zip", 100 * MB, "PK"],
  ["US5XX11M.000", 64 * MB, "01582"],
  ["plan.txt", 1 * MB, ' {"type":"FeatureCollection"'],
]) {
  const file = fileOf(name, size, head);
  const { taken, why } = await dropped([file]);
  check(`${name} of ${size / MB} MB is read`, file.read && taken?.length === 1, why);
}

// Layers that are opened together are one chart, and count together.
{
  const files = ["DEPARE.geojson", "DEPCNT.geojson", "SOUNDG.geojson"].map((name) => fileOf(name, 30 * MB, layer));
  const { why } = await dropped(files);
  check("layers too large together are refused in words", String(why).includes("DEPARE.geojson and 2 more have 90 MB together"), why);
  check("and unread", files.every((file) => !file.read));
}
{
  const files = [fileOf("a.json", 40 * MB, '{"keelroom_archive":1,'), fileOf("b.json", 40 * MB, '{"keelroom_archive":1,'), fileOf("c.geojson", 40 * MB, layer)];
  const { taken, why } = await dropped(files);
  check("archives of plans are no layers", taken?.length === 3, why);
}
// A text that no decoder would take does not keep the cells from being read.
{
  const files = [fileOf("US5XX11M.000", MB, "01582"), fileOf("README.TXT", MB, "Terms")];
  const { taken, why } = await droppedFolder(files);
  check("a long text beside a cell is left out unread", taken?.length === 1 && !files[1].read && files[0].read, why);
}
check("each limit has its words", [limits.together, ...limits.kinds].every((kind) => kind.bytes > 0 && kind.words));

process.exitCode = failures ? 1 : 0;
