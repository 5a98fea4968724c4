package demobed

import "github.com/paulmach/orb"

// LandHeightM is the height above the sounding datum from which the chart
// shows land: no tide of the demo plan reaches it (its highest possible
// height is 2.97 m). The coastline is the line where DepthM is -LandHeightM.
const LandHeightM = 3.0

// GreatestDepthM bounds DepthM from above, everywhere within [Bounds].
const GreatestDepthM = 35.0

// The plane under all terms: depth at the origin and its fall to the south.
const (
	planeDepthM = 16.0
	planeFall   = 0.0029 // metres deeper for each metre further south
)

// term is one smooth change of the bed.
type term interface {
	// apply returns the depth at local x, y, where z is the depth that the
	// terms before left there.
	apply(x, y, z float64) float64
	// within bounds the depth, slope and curvature that apply leaves within
	// radius r of x, y, where in bounds what the terms before left.
	within(x, y, r float64, in Envelope) Envelope
}

// DepthM returns the true depth of the bed at p (longitude, latitude in
// degrees): metres below the sounding datum, positive down, negative where
// the bed dries or is land. A position that is not a number gives NaN.
func DepthM(p orb.Point) float64 {
	return depthAt(Local(p))
}

func depthAt(x, y float64) float64 {
	z := planeDepthM - float64(planeFall*y)
	for _, t := range bed {
		z = t.apply(x, y, z)
	}
	return z
}
