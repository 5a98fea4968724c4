package hazards

import (
	"math"

	"keelroom/geo"
	"keelroom/hazards/plan"
)

// froudeLimit is the depth Froude number from which a hull in shallow water
// rides its own wave and sits deepest (the formulas for squat hold below it).
const froudeLimit = 0.7

// Squat is how much deeper a boat sits at a speed in knots than at rest, in
// metres, over a depth of water in metres.
//
// Below planing: k·Cb·V²/100 with V in knots, k = 2 in canals, rivers and
// locks, else 1, at most the boat's hump (the simple form of C. B. Barrass,
// The phenomena of ship squat, 1979, as pilots use it). From planing speed up,
// or where V/√(g·depth) reaches 0.7, the whole hump: such formulas are for
// displacement hulls, and a planing boat must be able to come off the plane
// over the same ground. Water that is not deeper than nothing gives the hump.
func Squat(b *plan.Boat, kn, depthM float64, confined bool) float64 {
	if kn >= b.PlaningKn || !(depthM > 0) || DepthFroude(kn, depthM) >= froudeLimit {
		return b.HumpM
	}
	return deepWaterSquat(b, kn, confined)
}

// deepWaterSquat is the squat below planing speed and below the limit of the
// depth Froude number.
func deepWaterSquat(b *plan.Boat, kn float64, confined bool) float64 {
	if kn >= b.PlaningKn {
		return b.HumpM
	}
	k := 1.0
	if confined {
		k = 2
	}
	return math.Min(k*b.BlockCoeff*kn*kn/100, b.HumpM)
}

// waterNeeded is the least depth of water that leaves a boat at a speed what is
// wanted, where besides M metres are needed without squat. As water falls the
// depth Froude number reaches its limit and squat jumps to the whole hump: the
// water must either stay above that, or be enough for the hump.
func waterNeeded(besidesM, lowSquatM, humpM, kn float64) float64 {
	v := kn * geo.KnotMPS / froudeLimit
	whereItJumps := v * v / gravity
	if whereItJumps > 0 {
		whereItJumps += 1e-6 // at the limit itself it has jumped
	}
	return math.Min(besidesM+humpM, math.Max(besidesM+lowSquatM, whereItJumps))
}

// gravity is the standard acceleration, m/s² (3rd CGPM, 1901).
const gravity = 9.80665

// DepthFroude is the depth Froude number V/√(g·depth), V in knots, depth in
// metres.
func DepthFroude(kn, depthM float64) float64 {
	return kn * geo.KnotMPS / math.Sqrt(gravity*depthM)
}
