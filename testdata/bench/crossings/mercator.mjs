// The depth areas of a folder of layers in Mercator coordinates (longitude and
// isometric latitude of the WGS 84 ellipsoid, both in degrees): there a leg, a rhumb
// line, is straight. Edges over a kilometre are cut first, since RFC 7946 has them
// straight in longitude and latitude.
import { readFileSync } from "node:fs";
import { join } from "node:path";

// Isometric latitude and back (Snyder 1987, USGS PP 1395, eqs 7-7 and 7-9).
const e = Math.sqrt((2 - 1 / 298.257223563) / 298.257223563), degree = Math.PI / 180;
export const isometric = (lat) => {
  const s = Math.sin(lat * degree);
  return (Math.atanh(s) - e * Math.atanh(e * s)) / degree;
};
export const latitude = (y) => {
  let s = Math.tanh(y * degree);
  for (let i = 0; i < 8; i++) s = Math.tanh(y * degree + e * Math.atanh(e * s));
  return Math.asin(s) / degree;
};

const longEdge = 0.009; // degrees, about a kilometre of latitude
function project(line) {
  const out = [];
  line.forEach(([lon, lat], i) => {
    const [lon0, lat0] = line[Math.max(i - 1, 0)];
    const n = Math.ceil(Math.max(Math.abs(lon - lon0), Math.abs(lat - lat0)) / longEdge);
    for (let k = 1; k < n; k++) out.push([lon0 + ((lon - lon0) * k) / n, isometric(lat0 + ((lat - lat0) * k) / n)]);
    out.push([lon, isometric(lat)]);
  });
  return out;
}

// areasOf gives the rings of each depth area of a folder.
export function areasOf(folder) {
  const { features } = JSON.parse(readFileSync(join(folder, "DEPARE.geojson"), "utf8"));
  return features.map(({ geometry }) => {
    if (geometry.type !== "Polygon") throw new Error(`DEPARE: ${geometry.type}; wanted Polygon`);
    return geometry.coordinates.map(project);
  });
}
