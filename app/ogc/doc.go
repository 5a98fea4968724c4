// Package ogc writes geometries that other programs read: the timed track of a plan and
// the soundings of charts, as well-known text or GeoJSON.
//
// # Model
//
// Geometries are those of go-geom. The track is one line whose vertices have a measure,
// M: seconds since 1970-01-01 UTC. Soundings are one multipoint a chart whose Z is the
// depth: metres, positive down, below the sounding datum of that chart. Positions are
// WGS 84 longitude and latitude in degrees, with 7 decimals.
//
// Well-known text (OGC 06-103r4, ISO 13249-3: LINESTRING M, MULTIPOINT Z) is one
// geometry a line. GeoJSON (RFC 7946) is a FeatureCollection. It has no measures: there
// the times stand beside the line in the property "times", one for each position. The
// property "cautions" goes with every feature.
//
// # Out of scope
//
// Reading. Soundings of unknown depth have no Z and are left out: how many there were is
// returned, and is to be reported, as a place without a sounding may look like deep water.
package ogc
