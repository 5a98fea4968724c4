// Writes the tide stations that passed the database's own checks to standard output, one JSON
// object a line. The fields context, locality and region are under other licences and are not
// written. hazards/tide/stationgen reads this.
import { stations } from "@neaps/tide-database";

const lines = stations.map((s) => JSON.stringify({
  id: s.id, kind: s.kind, type: s.type, name: s.name, country: s.country,
  latitude: s.latitude, longitude: s.longitude, timezone: s.timezone,
  source: s.source?.name, licence: s.license?.type, attribution: s.attribution,
  note: s.disclaimers, chart_datum: s.chart_datum, datums: s.datums, epoch: s.epoch, offsets: s.offsets,
  constituents: s.harmonic_constituents,
}));
process.stdout.write(lines.join("\n") + "\n");
