// Command demogen makes the demo chart and the demo plans: invented waters,
// derived from the sea bed of package demobed.
//
// # Purpose
//
// The demo is what a skipper sees at first open, and the tests run over it.
// Because the true bed is known, the chart's promise can be checked: inside
// an area whose least depth is stated as L the bed is nowhere shoaler than
// L, also between the vertices of its edge.
//
// # Model
//
// The charted surface is piecewise linear over a triangle mesh that is
// refined where the bed bends and a contour passes. It lies above the bed
// by a margin that covers all that the straight edges get wrong: the error
// of linear interpolation (bounded by the bed's second derivative), what
// thinning the lines moves (bounded by its slope) and the rounding of
// coordinates to 7 decimals. Depth areas, dredged areas and land are the
// pieces of that one surface, so neighbours share every vertex and together
// tile the coverage. Everything else (marks, zones, rocks) is written by
// hand in local metres.
//
// The output depends on nothing but this source: no clock, no randomness,
// no iteration over maps, and only arithmetic that every machine rounds
// alike.
//
// # Use
//
//	go run ./geo/chart/demogen [-web FOLDER] [-plans FOLDER]
//
// writes the layers and the demo plan into FOLDER/chart (web/demo/chart) and the plan of
// a day that goes wrong into testdata/plans.
//
// # Out of scope
//
// Reading charts, checking plans, tides: the generator depends on demobed
// alone.
package main
