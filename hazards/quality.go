package hazards

import "math"

// Survey quality codes (CATZOC, IHO S-57 App. A; S-101 agrees).
const (
	zocA1 = 1
	zocA2 = 2
	zocB  = 3
	zocC  = 4
)

// DepthAccuracyM is how far a charted depth may be out at 95 % confidence, in
// metres: a + b·depth by the zone of confidence (IHO S-57 App. A, CATZOC, and
// S-67). Zones D and U, and no zone at all, have no figure: they are given
// C's, the worst there is, for they are never better. Drying heights count by
// their size.
func DepthAccuracyM(catzoc int, depthM float64) float64 {
	d := math.Abs(depthM)
	switch catzoc {
	case zocA1:
		return 0.5 + 0.01*d
	case zocA2, zocB:
		return 1 + 0.02*d
	}
	return 2 + 0.05*d
}

// PositionAccuracyM is how far charted things may be from where they are, in
// metres at 95 % confidence. ok is false where the figure is no help to a boat
// in a channel (C: 500 m) or there is none (D, U, unknown): there the report
// warns once instead of widening every corridor.
func PositionAccuracyM(catzoc int, depthM float64) (metres float64, ok bool) {
	switch catzoc {
	case zocA1:
		return 5 + 0.05*math.Abs(depthM), true
	case zocA2:
		return 20, true
	case zocB:
		return 50, true
	}
	return 0, false
}
