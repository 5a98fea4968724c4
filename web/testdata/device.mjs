// Tests of device.js that need no browser: what is dropped, and what of it is read.
const handlers = {};
globalThis.addEventListener = (name, take) => (handlers[name] = take);
globalThis.document = { documentElement: { dataset: {} } };
const { device } = await import("../device.js");

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

for (const [name, size, head, words] of [
  ["sea.geojson", 65 * MB, '{"type":"FeatureCollection"', "sea.geojson has 65 MB"],
  ["day.json", 200 * MB, '{"type":"FeatureCollection"', "day.json has 200 MB"],
  ["all.zip", 300 * MB, "PK", "300 MB together"],
]) {
  const file = fileOf(name, size, head);
  const { why } = await dropped([file]);
  check(`${name} of ${size / MB} MB is refused in words`, String(why).includes(words), why);
  check(`${name} is refused unread`, !file.read);
}
for (const [name, size, head] of [
  ["sea.geojson", 64 * MB, "{"],
  ["Keelroom archive.json", 100 * MB, '{"keelroom_archive":1,'],
  ["cells.zip", 100 * MB, "PK"],
]) {
  const file = fileOf(name, size, head);
  const { taken, why } = await dropped([file]);
  check(`${name} of ${size / MB} MB is read`, file.read && taken?.length === 1, why);
}

process.exitCode = failures ? 1 : 0;
