package hazards

import (
	"math"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
)

// discKey is a place, and how far about it is looked.
type discKey struct {
	at               orb.Point
	radiusM, hazardM float64
	wide             bool // without bearings
}

// discStepM is in what steps discs are kept: leaving a stay later changes its circle by
// some metres, and asks nothing new of the chart.
const discStepM = 64

// disc is what lies in a disc. Where it does not depend on how far is looked, one of a
// round radius is kept and the one asked for cut out of it.
func (g *ground) disc(at orb.Point, radiusM, hazardM float64) chart.Disc {
	kept := radiusM
	if g.chart.OneScale() {
		kept = math.Ceil(radiusM/discStepM) * discStepM
	}
	d := g.keptDisc(discKey{at, kept, hazardM, false}, g.query.Disc)
	if kept == radiusM {
		return *d
	}
	return d.Within(radiusM)
}

// wideDisc is what lies in a disc of about a radius, at least, without bearings.
func (g *ground) wideDisc(at orb.Point, radiusM, hazardM float64) *chart.Disc {
	return g.keptDisc(discKey{at, math.Ceil(radiusM/discStepM) * discStepM, hazardM, true}, g.query.Wide)
}

// keptDisc is the disc kept under a key, looked for if there is none.
func (g *ground) keptDisc(key discKey, look func(at orb.Point, radiusM, hazardM float64) chart.Disc) *chart.Disc {
	d := g.discs[key]
	if d == nil {
		if len(g.discs) >= maxDiscs {
			clear(g.discs)
		}
		found := look(key.at, key.radiusM, key.hazardM)
		d = &found
		g.discs[key] = d
	}
	return d
}

// maxDiscs bounds the discs that are kept: those of wide looks are large.
const maxDiscs = 200
