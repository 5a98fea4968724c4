package demobed

import "github.com/paulmach/orb"

// Place is a named position of the demo waters.
type Place struct {
	Name string
	At   orb.Point // longitude, latitude in degrees, WGS 84
}

// Key places, for tests and for the demo plan.
var (
	Berth        = At(-3955, 2189.5) // on the pontoon in the harbour, bow 090
	BasinTurn    = At(-3876, 2190)   // in the basin, off the berth
	HarbourMouth = At(-3852, 1540)   // between the breakwater heads
	FairwayEnd   = At(-3848, 960)    // between the outermost pair of lateral marks
	ElbowBay     = At(380, 1010)     // first anchorage: lee in winds from south through west to north-west
	BarBay       = At(2270, 2500)    // second anchorage, behind the bar
	SurfBay      = At(-1150, 620)    // open to the west
	Gat          = At(2425, 1560)    // the gap in the bar; least depth about 1.5 m
	BarWest      = At(2080, 1590)    // the bar west of the gat, dries
	BarEast      = At(2830, 1600)    // the bar east of the gat, dries
	DryingSands  = At(-2650, 850)    // a bank that dries
	Bridge       = At(-3600, 2950)   // fixed bridge over the creek
	HookLedge    = At(1320, -1480)   // shoal off the headland
	UnsurveyedSE = At(4775, -3750)   // middle of the unsurveyed ground
)

// Hazard is a danger that stands above the bed and is not part of DepthM.
type Hazard struct {
	Class   string // UWTROC, WRECKS, OBSTRN or LNDARE (an islet too small for an area)
	At      orb.Point
	LeastM  float64 // true least depth below the sounding datum; drying negative
	Charted bool    // the chart states LeastM; otherwise it states none
}

// Hazards lists the dangers that stand above the bed.
func Hazards() []Hazard {
	return []Hazard{
		{"UWTROC", At(-2500, -1450), 1.2, true},  // under the isolated danger mark
		{"UWTROC", At(1045, -770), -0.8, false},  // off the hook, covers and uncovers
		{"UWTROC", At(-1500, -290), -1.1, true},  // on the arm of Surf Bay
		{"UWTROC", At(2790, -1190), 0.6, false},  // always covered, depth not known
		{"UWTROC", At(3560, -880), 0, false},     // awash
		{"UWTROC", At(4010, -560), 0.4, true},    //
		{"UWTROC", At(-5150, 1060), -0.6, true},  // off the western point
		{"UWTROC", At(1330, -1450), 1.9, true},   // on the ledge
		{"UWTROC", At(-4650, -420), 4.5, true},   // value unreliable
		{"UWTROC", At(2010, 1405), -0.4, false},  // outside the bar
		{"WRECKS", At(4400, -2200), 8.4, true},   // dangerous
		{"WRECKS", At(-1200, -2900), 19, false},  // stated to be no danger
		{"OBSTRN", At(1750, 240), 6.1, true},     //
		{"OBSTRN", At(-3050, 1180), 0.5, false},  // depth not known
		{"LNDARE", At(3640, -1225), -3.4, false}, // the smallest Hen
		{"LNDARE", At(2860, -850), -3.2, false},  // a stack
	}
}
