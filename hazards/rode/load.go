package rode

import "math"

// Densities in kg/m³: of air at 15 °C at sea level (International Standard Atmosphere),
// of sea water and of steel, as they are commonly taken.
const (
	airDensity   = 1.225
	waterDensity = 1025
	steelDensity = 7850
)

const (
	gravity = 9.80665       // m/s², standard
	knot    = 1852.0 / 3600 // m/s
)

// DragN is the drag ½ρCAV² of a body, in newtons: density in kg/m³, area in m², speed
// in m/s.
func DragN(density, coefficient, areaM2, speedMps float64) float64 {
	return density / 2 * coefficient * areaM2 * speedMps * speedMps
}

// Of the wind's load: the drag coefficient of a boat, and the factor for her yawing and
// surging at anchor. The factor is fitted, with the default area of plan.Boat.Windage, to
// published design loads: see TestPublishedLoads.
const (
	windDrag = 1.2
	yawing   = 2.5
)

// WindLoadN is the pull of a gust on a boat at anchor, in newtons, through so many
// square metres.
func WindLoadN(areaM2, gustKn float64) float64 {
	return yawing * DragN(airDensity, windDrag, areaM2, gustKn*knot)
}

// streamDrag is the coefficient of a hull end on to a stream, over beam × draught: an
// upper estimate, as hulls are finer than that (judgement).
const streamDrag = 0.5

// StreamLoadN is the pull of a stream on her hull, in newtons: an upper estimate.
func StreamLoadN(beamM, draughtM, streamKn float64) float64 {
	return DragN(waterDensity, streamDrag, beamM*draughtM, streamKn*knot)
}

// GustForLoadKn is the gust whose pull is so many newtons: WindLoadN turned about. No
// load takes no gust; no area takes none ever, +Inf.
func GustForLoadKn(areaM2, loadN float64) float64 {
	if loadN <= 0 {
		return 0
	}
	return math.Sqrt(loadN/WindLoadN(areaM2, 1)) + 0
}

// KilogramsForce is a force as the weight of so many kilograms.
func KilogramsForce(newtons float64) float64 { return newtons / gravity }
