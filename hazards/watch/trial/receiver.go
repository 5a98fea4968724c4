package trial

import (
	"math"
	"math/rand/v2"

	"keelroom/geo"
)

// receiver gives positions with errors.
type receiver struct {
	rng    *rand.Rand
	sigmaM float64 // of each coordinate
	everyS float64 // seconds from one fix to the next
	errM   geo.XY
	gapS   float64 // left of a gap
	scale  float64 // reported accuracy over sigma
	scaleS float64 // left of the time that it stays so
}

const (
	alikeS      = 60.0 // seconds that errors stay alike
	outlierOdds = 0.01
	gapEveryS   = 3600.0
)

// cadences are the seconds between fixes of receivers.
var cadences = []float64{1, 1, 2, 5}

func newReceiver(rng *rand.Rand, sigmaM float64) *receiver {
	r := &receiver{rng: rng, sigmaM: sigmaM, everyS: cadences[rng.IntN(len(cadences))]}
	r.errM = geo.XY{X: rng.NormFloat64(), Y: rng.NormFloat64()}.Scale(sigmaM)
	return r
}

// fix is where the device, truly at a place, says that it is; ok is false within a gap.
func (r *receiver) fix(at geo.XY) (said geo.XY, accuracyM float64, ok bool) {
	keep := math.Exp(-r.everyS / alikeS)
	fresh := r.sigmaM * math.Sqrt(1-keep*keep)
	r.errM = r.errM.Scale(keep).Add(geo.XY{X: r.rng.NormFloat64() * fresh, Y: r.rng.NormFloat64() * fresh})
	if r.scaleS -= r.everyS; r.scaleS <= 0 {
		r.scale, r.scaleS = 1+3*r.rng.Float64(), 60+540*r.rng.Float64()
	}
	if r.gapS -= r.everyS; r.gapS > 0 {
		return at, 0, false
	}
	if r.rng.Float64() < r.everyS/gapEveryS {
		r.gapS = 10 + 110*r.rng.Float64()
	}
	said = at.Add(r.errM)
	if r.rng.Float64() < outlierOdds {
		said = said.Add(toward(360 * r.rng.Float64()).Scale(30 + 30*r.rng.Float64()))
	}
	return said, r.scale * r.sigmaM, true
}
