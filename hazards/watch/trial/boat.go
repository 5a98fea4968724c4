package trial

import (
	"math"
	"math/rand/v2"

	"keelroom/geo"
)

// kind is what the weather does.
type kind int

const (
	steady kind = iota
	still       // a night with hardly any wind
	shift       // the wind goes round by 180° in the middle of the time
	stream      // and a stream that turns
	kinds
)

// boat is a boat at anchor, in metres about her anchor. Loads and the catenary are those of textbooks; the
// figures of the boat are those of small motor boats.
type boat struct {
	rng    *rand.Rand
	kind   kind
	length float64 // of the boat
	rode   float64
	height float64 // from the ground to the bow roller
	weight float64 // of the chain in water, newtons a metre
	area   float64 // that the wind takes hold of, m²
	under  float64 // beam × draught, m²
	device float64 // metres from the bow to the device

	meanKn, fromDeg   float64 // wind
	gust              float64 // Gauss-Markov, about nought, of unit variance
	yawS, yawAt       float64 // period and phase
	streamKn, axisDeg float64
	shiftS            float64 // how long the shift of wind takes
	endS              float64 // of the night
	bow               geo.XY
	dragged           geo.XY // where the anchor has got to
	force             geo.XY
}

const (
	gustS     = 40.0 // seconds that a gust lasts
	gustShare = 0.25 // of the mean wind
	yawDeg    = 40.0 // either way
	bowLagS   = 25.0 // the bow follows the pull
	mostMPS   = 0.6  // and no faster than that
	waterKg   = 1025.0
	chainKg   = 7850.0
	gravity   = 9.80665
)

func newBoat(rng *rand.Rand, k kind, endS float64) *boat {
	b := &boat{rng: rng, kind: k, endS: endS}
	b.length = 6 + 6*rng.Float64()
	b.height = 3 + 5*rng.Float64()
	b.rode = b.height * (4 + 3*rng.Float64())
	b.weight = (0.8 + 1.4*rng.Float64()) * gravity * (1 - waterKg/chainKg)
	beam := b.length * (0.32 + 0.04*rng.Float64())
	b.area, b.under = beam*math.Max(1.8, 0.23*b.length), beam*0.9
	b.device = b.length * rng.Float64()
	b.fromDeg = 360 * rng.Float64()
	b.meanKn = 6 + 16*rng.Float64()
	b.yawS, b.yawAt = 60+60*rng.Float64(), 2*math.Pi*rng.Float64()
	b.shiftS = 3600 * (1 + rng.Float64())
	switch k {
	case still:
		b.meanKn = 0.3 + 1.7*rng.Float64()
	case stream:
		b.meanKn, b.streamKn, b.axisDeg = 4+6*rng.Float64(), 1+rng.Float64(), 360*rng.Float64()
	}
	b.pull(0)
	b.bow = b.target(0)
	return b
}

// toward is the unit vector of a direction.
func toward(deg float64) geo.XY {
	s, c := math.Sincos(deg * math.Pi / 180)
	return geo.XY{X: s, Y: c}
}

// windFrom is the direction of the wind at a time of the night.
func (b *boat) windFrom(t float64) float64 {
	if b.kind != shift {
		return b.fromDeg
	}
	return b.fromDeg + 180*math.Max(0, math.Min(1, (t-b.endS/3)/b.shiftS))
}

// pull works out the force on the boat.
func (b *boat) pull(t float64) {
	ms := b.meanKn * math.Max(0, 1+gustShare*b.gust) * geo.KnotMPS
	b.force = toward(b.windFrom(t) + 180).Scale(0.5 * 1.225 * 1.2 * b.area * ms * ms)
	if b.streamKn > 0 {
		v := b.streamKn * geo.KnotMPS * math.Cos(2*math.Pi*t/(12.42*3600))
		b.force = b.force.Add(toward(b.axisDeg).Scale(0.5 * waterKg * 0.5 * b.under * v * math.Abs(v)))
	}
}

// span is how far from the anchor the bow lies under a horizontal pull: the catenary,
// from chain on the ground to a chain that is lifted altogether.
func (b *boat) span(pullN float64) float64 {
	a := math.Max(pullN, 1e-6) / b.weight
	lifted := math.Sqrt(b.height*b.height + 2*b.height*a)
	if lifted <= b.rode {
		return b.rode - lifted + a*math.Asinh(lifted/a)
	}
	return 2 * a * math.Asinh(math.Sqrt(b.rode*b.rode-b.height*b.height)/(2*a))
}

// flat is the span of a rode stretched straight: no pull brings her farther.
func (b *boat) flat() float64 { return math.Sqrt(b.rode*b.rode - b.height*b.height) }

// target is where the bow would come to under the pull, yawing.
func (b *boat) target(t float64) geo.XY {
	newtons := b.force.Len()
	if newtons == 0 {
		return b.bow
	}
	swing := yawDeg * math.Sin(b.yawAt+2*math.Pi*t/b.yawS) * math.Min(1, newtons/30)
	s, c := math.Sincos(swing * math.Pi / 180)
	u := b.force.Scale(1 / newtons)
	return geo.XY{X: u.X*c - u.Y*s, Y: u.X*s + u.Y*c}.Scale(b.span(newtons)).Add(b.dragged)
}

// step lets some seconds go by; the anchor drags at a speed.
func (b *boat) step(t, seconds, dragKn float64) {
	keep := math.Exp(-seconds / gustS)
	b.gust = b.gust*keep + math.Sqrt(1-keep*keep)*b.rng.NormFloat64()
	b.pull(t)
	if n := b.force.Len(); n > 0 && dragKn > 0 {
		d := b.force.Scale(dragKn * geo.KnotMPS * seconds / n)
		b.dragged, b.bow = b.dragged.Add(d), b.bow.Add(d)
	}
	move := b.target(t).Sub(b.bow).Scale(1 - math.Exp(-seconds/bowLagS))
	if most := mostMPS * seconds; move.Len() > most {
		move = move.Scale(most / move.Len())
	}
	b.bow = b.bow.Add(move)
}

// receiver is where the device is: aft of the bow, as she lies to her rode.
func (b *boat) receiver() geo.XY {
	out := b.bow.Sub(b.dragged)
	if n := out.Len(); n > 1 {
		return b.bow.Add(out.Scale(b.device / n))
	}
	return b.bow.Add(toward(b.windFrom(0) + 180).Scale(b.device))
}
