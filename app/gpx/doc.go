// Package gpx writes a plan's routes as a GPX 1.1 file, which other devices read.
//
// # Model
//
// Each route is an rte with its waypoints as rtept; stays, berths and refuges are
// wpt. Positions are WGS 84 degrees with 7 decimals. The standing cautions of the
// plan travel in the file's description, and so does what the file leaves out.
// Structure: GPX 1.1 schema, namespace http://www.topografix.com/GPX/1/1 (2004).
//
// # Out of scope
//
// Reading GPX; tracks; the skipper's own zones and dangers, tide and margins, for
// which GPX has no place. A file of this package is not a plan that was checked.
package gpx
