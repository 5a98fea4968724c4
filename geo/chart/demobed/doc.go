// Package demobed is the sea bed of the demo waters: an invented piece of
// sea, far out in the Atlantic where there is no coast, given as a pure
// function of position.
//
// # Purpose
//
// The demo chart (folder web/demo, made by geo/chart/demogen) is derived
// from this bed, and tests ask the bed for the true depth wherever the chart
// states a bound. A chart that claims more water than the bed has is wrong,
// and a test can tell.
//
// # Model
//
// Depths are metres below the sounding datum of the demo chart (lowest
// astronomical tide), positive down; a negative depth is a height above
// that datum. The bed is a plane that falls off to the south, raised and
// hollowed by a list of smooth terms: ramps, elliptic humps and hollows,
// and works of man (dredged channels, basins, breakwaters) that pull the
// bed towards a given depth. Every term is twice continuously
// differentiable, so slope and curvature of the bed can be bounded over any
// disc, see [Within].
//
// Only +, -, *, / and square root are used, products that are summed are
// rounded explicitly, and nothing is fused: every machine computes the same
// bits, and with them the same chart.
//
// # Out of scope
//
// Single rocks, the wreck and the obstruction stand above the bed and are
// not in [DepthM]: they are listed by [Hazards]. There is no tide here.
// All names are invented.
package demobed
