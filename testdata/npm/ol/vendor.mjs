// Makes web/vendor/ol from the packages named in package.json:
//
//   npm ci --ignore-scripts --prefix testdata/npm/ol && node testdata/npm/ol/vendor.mjs
//
// The same packages give the same bytes; the README there says their sums.
import { createHash } from "node:crypto";
import { readFileSync, writeFileSync, readdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { brotliCompressSync } from "node:zlib";
import { build } from "esbuild";

const here = dirname(fileURLToPath(import.meta.url));
const out = join(here, "../../../web/vendor/ol");
const packages = join(here, "node_modules");

// Modules that the map refers to and that the chart view never reaches: the
// defaults for controls and interactions, of which it names its own, and vector
// layers, against which the map's renderer compares its layers' class.
const LEFT_OUT = {
  "control/defaults.js": "export const defaults = () => [];",
  "interaction/defaults.js": "export const defaults = () => [];",
  "layer/BaseVector.js": "export default class {}",
};
const leaveOut = {
  name: "leave-out",
  setup(building) {
    for (const [path, contents] of Object.entries(LEFT_OUT)) {
      const filter = new RegExp(`[/\\\\]ol[/\\\\]${path.replace("/", "[/\\\\]").replace(".", "\\.")}$`);
      building.onLoad({ filter }, () => ({ contents }));
    }
  },
};

const built = await build({
  plugins: [leaveOut],
  entryPoints: [join(here, "entry.js")],
  absWorkingDir: here,
  bundle: true,
  minify: true,
  format: "iife",
  target: "es2022",
  legalComments: "none",
  banner: { js: "/* OpenLayers, BSD-2-Clause, and what it brings along: see LICENSE beside this file. */" },
  outfile: join(out, "ol.js"),
  metafile: true,
});

const used = new Set();
for (const [path, input] of Object.entries(Object.values(built.metafile.outputs)[0].inputs)) {
  const name = /^node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(path)?.[1];
  if (name && input.bytesInOutput > 0) used.add(name);
}
const about = (name) => JSON.parse(readFileSync(join(packages, name, "package.json"), "utf8"));
const licenceOf = (name) => {
  const file = readdirSync(join(packages, name)).find((f) => /^licen[cs]e/i.test(f));
  if (!file) throw new Error(`${name} has no licence file`);
  return readFileSync(join(packages, name, file), "utf8").trim();
};
const names = ["ol", ...[...used].filter((n) => n !== "ol").sort()];
const rule = "\n\n----------------------------------------------------------------------\n\n";
writeFileSync(join(out, "LICENSE"), names.map((n) => `${n} ${about(n).version} (${about(n).license})\n\n${licenceOf(n)}`).join(rule) + "\n");

const row = (file) => {
  const bytes = readFileSync(join(out, file));
  return `| \`${file}\` | ${bytes.length} | ${brotliCompressSync(bytes).length} | \`${createHash("sha256").update(bytes).digest("hex")}\` |`;
};
writeFileSync(
  join(out, "README.md"),
  `# OpenLayers, as far as the chart view uses it

${names.map((n) => `- \`${n}\` ${about(n).version}, ${about(n).license}`).join("\n")}

Made by \`testdata/npm/ol/vendor.mjs\` with esbuild ${about("esbuild").version} from \`testdata/npm/ol/entry.js\`; do not edit. The chart view paints layers
itself and uses the map, its view and its pan and zoom interactions, so vector layers, styles, sources, the default interactions and controls are
left out (three modules that refer to them are replaced by empty ones, see \`LEFT_OUT\` in the script). The style sheet
of OpenLayers styles its controls only, of which none is used; what little else is needed is in \`web/chart/chart.css\`. No source map.

| file | bytes | brotli | sha256 |
|---|---|---|---|
${["ol.js", "LICENSE"].map(row).join("\n")}
`,
);
console.log(readFileSync(join(out, "README.md"), "utf8"));
