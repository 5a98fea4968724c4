// Package layer decodes chart layers: GeoJSON files, as a program for S-57
// cells writes them or as a skipper draws them, become the features of package
// chart, with a message for everything that was wrong or doubtful.
//
// # Model
//
// A layer set is one or more files read as one chart. [Decode] reads a set,
// [Private] reads features that travel with a plan. Both translate GeoJSON to
// an [Object] (class, attributes, geometry) and give it to a [Builder], which
// knows the rules of IHO S-57 edition 3.1 and the names of S-101 and nothing of
// JSON: a decoder of S-57 cells feeds the same Builder and gets the same
// features.
//
// # What is unknown
//
// Nothing that cannot be read is read as safe. A feature that is wrong is left
// out, and where a check would have needed it its box goes to the Refused of
// the set, which makes that water unknown. A file that is wrong as a whole
// gives no set.
//
// # Units and frame
//
// Positions are WGS 84 longitude and latitude in degrees. Depths are metres
// positive down from the sounding datum, drying heights negative; only plain
// bathymetry (a `depth` or `elev` without an S-57 class) may be in feet or
// fathoms or positive up, and is turned to metres down here. Speeds are knots.
//
// # Messages
//
// A message carries a code (E-NUM, W-RING, ...), the file, the JSON path, what
// was found and what is wanted. The first 20 of each code are listed, the rest
// are counted.
//
// # Out of scope
//
// Judging: whether a rock without a depth may be passed, which of two layers
// decides, whether a datum fits the tide. S-57 cells, tides, drawing. Members
// that the package does not know are ignored; they stay in the file, which the
// caller keeps.
package layer
