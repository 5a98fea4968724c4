// Package stationdata holds the built-in list of tide stations as bytes for native programs. A
// browser fetches the same file instead, so nothing that is built for it imports this.
//
// The file stations.bin is made by hazards/tide/stationgen, which says from what and how, and is
// read by tide.LoadStations. Its data are under the licences that each station names: public
// domain (NOAA CO-OPS) or CC BY 4.0 (TICON-4, Kartverket); the attributions in it must be shown.
package stationdata

import _ "embed" // for the list

// Bytes is the list of tide stations. It must not be changed.
//
//go:embed stations.bin
var Bytes []byte
