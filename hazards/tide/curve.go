package tide

import (
	"math"
	"sync/atomic"
	"time"
)

// A check asks for hundreds of heights within a day, each a sum of some 37 cosines. A curve works
// out, once for each half hour, the polynomial that the sum is over it: Taylor's, about the middle,
// whose coefficients are the same sum's derivatives there. With x within r = 15 min of the middle,
// Lagrange's remainder of A·cos(ωx + φ) after the power n is at most A·(ωr)^(n+1)/(n+1)!. For the
// largest tides on Earth that is below 1e-11 m with n = 10; curveErrorM bounds it for the tide at
// hand, and a tide above curveWithinM is not taken by polynomials.
const (
	pieceHours   = 0.5
	pieceDegree  = 10
	curveWithinM = 1e-9 // a millionth of the millimetre that figures are shown in
)

// curve is a harmonic tide over a span by polynomials, worked out where they are first asked for.
type curve struct {
	tide   *Harmonic
	from   float64 // hours since epoch1900, whole
	pieces []atomic.Pointer[polynomial]
}

// polynomial gives a height from the hours since the middle of its piece, by rising powers.
type polynomial [pieceDegree + 1]float64

// newCurve makes the curve of a tide from from to to.
func newCurve(h *Harmonic, from, to time.Time) *curve {
	first := math.Floor(hours(from))
	n := int(math.Ceil((hours(to)-first)/pieceHours)) + 1
	return &curve{tide: h, from: first, pieces: make([]atomic.Pointer[polynomial], n)}
}

// heightM is the height at x hours since epoch1900; ok is false outside the curve, or where
// polynomials are not near enough.
func (c *curve) heightM(x float64) (heightM float64, ok bool) {
	i := int((x - c.from) / pieceHours)
	if x < c.from || i >= len(c.pieces) {
		return 0, false
	}
	middle := c.from + (float64(i)+0.5)*pieceHours
	p := c.pieces[i].Load()
	if p == nil {
		p = c.tide.segmentAt(middle).around(middle)
		c.pieces[i].Store(p)
	}
	return p.at(x - middle), !math.IsNaN(p[0])
}

// at is the height x hours from the middle.
func (p *polynomial) at(x float64) float64 {
	sum := p[pieceDegree]
	for k := pieceDegree - 1; k >= 0; k-- {
		sum = sum*x + p[k]
	}
	return sum
}

// around is the polynomial of the half hour about x hours since epoch1900, which lies in one
// segment: those begin at whole hours. It is not a number where it is not near enough.
func (s *segment) around(x float64) *polynomial {
	x -= s.from
	p := &polynomial{}
	if s.curveErrorM() > curveWithinM {
		p[0] = math.NaN()
		return p
	}
	p[0] = s.z0M
	for i := range s.waves {
		w := &s.waves[i]
		sin, cos := math.Sincos(w.arg + w.argRate*x)
		// The derivatives of cos(arg + argRate·x) are in turn −sin, −cos, sin and cos, by rising
		// powers of argRate; the amplitude, which runs straight, adds its rate times the one before.
		turns := [4]float64{cos, -sin, -cos, sin}
		amp, power := w.amp+w.ampRate*x, 1.0 // power is argRate^k / k!
		for k := range p {
			p[k] += amp * power * turns[k%4]
			if k < pieceDegree {
				p[k+1] += w.ampRate * power * turns[k%4]
			}
			power *= w.argRate / float64(k+1)
		}
	}
	return p
}

// curveErrorM is the most by which a polynomial of the segment may miss the height.
func (s *segment) curveErrorM() float64 {
	const r = pieceHours / 2
	sum := 0.0
	for _, w := range s.waves {
		top := math.Max(math.Abs(w.amp), math.Abs(w.amp+w.ampRate*(s.to-s.from)))
		term := 1.0 // (argRate·r)^n / n!
		for n := 1; n <= pieceDegree; n++ {
			term *= math.Abs(w.argRate) * r / float64(n)
		}
		sum += term * (top*math.Abs(w.argRate)*r/(pieceDegree+1) + math.Abs(w.ampRate)*r)
	}
	return sum
}
