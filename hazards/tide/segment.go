package tide

import (
	"math"
	"time"
)

// segmentHours is how long arguments and node factors run straight. The node turns by 0.4° and
// twice the perigee by 1.8° in that time, so that a chord misses the curve by 1 part in 10 000.
const segmentHours = 8 * hoursPerDay

// segment is a span of time in which every constituent is a cosine whose amplitude and argument
// run straight. It is not changed once made.
type segment struct {
	index    int
	from, to float64 // hours since epoch1900
	z0M      float64
	waves    []wave
	bound3   float64 // bound of the third derivative, metres an hour cubed
}

// wave is (amp + ampRate·x) · cos(arg + argRate·x), x in hours since the segment began.
type wave struct{ amp, ampRate, arg, argRate float64 }

// segmentAt gives the segment that holds x, from the cache if it is there. Two goroutines may make
// the same segment at once; both are right.
func (h *Harmonic) segmentAt(x float64) *segment {
	index := h.segmentIndex(x)
	slot := &h.cache[((index%cacheSize)+cacheSize)%cacheSize]
	if s := slot.Load(); s != nil && s.index == index {
		return s
	}
	s := h.newSegment(index)
	slot.Store(s)
	return s
}

func (h *Harmonic) segmentIndex(x float64) int {
	if h.practice == midYear {
		return atHour(x).Year()
	}
	return int(math.Floor(x / segmentHours))
}

func (h *Harmonic) newSegment(index int) *segment {
	s := &segment{index: index, z0M: h.z0M, waves: make([]wave, len(h.terms))}
	if h.practice == midYear {
		h.fillYear(s)
	} else {
		h.fillStraight(s)
	}
	for _, w := range s.waves {
		top := math.Max(math.Abs(w.amp), math.Abs(w.amp+w.ampRate*(s.to-s.from)))
		speed := math.Abs(w.argRate)
		s.bound3 += (top*speed + 3*math.Abs(w.ampRate)) * speed * speed
	}
	return s
}

// fillStraight joins the values at both ends of the segment.
func (h *Harmonic) fillStraight(s *segment) {
	s.from = float64(s.index) * segmentHours
	s.to = s.from + segmentHours
	a, b := longitudesAt(s.from), longitudesAt(s.to)
	nodesA, nodesB := nodesAt(orbitAt(a)), nodesAt(orbitAt(b))
	for i, t := range h.terms {
		vA, vB := t.argument(a), t.argument(b)
		mA, mB := t.modulation(&nodesA), t.modulation(&nodesB)
		turned := (vB-vA)*deg + math.Remainder(mB.u-mA.u, 2*math.Pi)
		s.waves[i] = wave{
			amp:     t.amplitudeM * mA.f,
			ampRate: t.amplitudeM * (mB.f - mA.f) / segmentHours,
			arg:     reduce(vA*deg + mA.u - t.phaseRad),
			argRate: turned / segmentHours,
		}
	}
}

// fillYear is NOAA's practice: V at the start of the year, f and u at its middle, published speeds.
func (h *Harmonic) fillYear(s *segment) {
	s.from = hours(time.Date(s.index, 1, 1, 0, 0, 0, 0, time.UTC))
	s.to = hours(time.Date(s.index+1, 1, 1, 0, 0, 0, 0, time.UTC))
	start, next := longitudesAt(s.from), longitudesAt(s.from+1)
	middle := longitudesAt((s.from + s.to) / 2)
	nodes := nodesAt(orbitAt(middle))
	for i, t := range h.terms {
		m := t.modulation(&nodes)
		speed := t.speed
		if speed == 0 {
			speed = t.argument(next) - t.argument(start)
		}
		arg := t.argumentNOAA(start, middle)*deg + m.u - t.phaseRad
		s.waves[i] = wave{amp: t.amplitudeM * m.f, arg: reduce(arg), argRate: speed * deg}
	}
}

// argument is V in degrees.
func (d definition) argument(l longitudes) float64 {
	return float64(d.args[0])*l.tau + float64(d.args[1])*l.s + float64(d.args[2])*l.h +
		float64(d.args[3])*l.p - float64(d.args[4])*l.n + float64(d.args[5])*l.p1 + 90*float64(d.quarter)
}

// argumentNOAA is V at the start of a year. The u of M1 holds −P, so its argument takes p at the
// same instant, the middle of the year: Schureman leaves p out of V and P out of u.
func (d definition) argumentNOAA(start, middle longitudes) float64 {
	if len(d.factors) == 1 && d.factors[0].node == nodeM1 {
		start.p = middle.p
	}
	return d.argument(start)
}

// modulation multiplies the factors f and adds the u.
func (d definition) modulation(nodes *[nodeCount]modulation) modulation {
	m := modulation{1, 0}
	for _, c := range d.factors {
		n := nodes[c.node]
		m.f *= math.Pow(n.f, math.Abs(float64(c.count)))
		m.u += n.u * float64(c.count)
	}
	return m
}

func reduce(rad float64) float64 {
	r := math.Mod(rad, 2*math.Pi)
	if r < 0 {
		r += 2 * math.Pi
	}
	return r
}

// height is the height at x hours since epoch1900.
func (s *segment) height(x float64) float64 {
	x -= s.from
	sum := s.z0M
	for i := range s.waves {
		w := &s.waves[i]
		sum += (w.amp + w.ampRate*x) * math.Cos(w.arg+w.argRate*x)
	}
	return sum
}

// slopes are the first and second derivatives by hours at x hours since epoch1900.
func (s *segment) slopes(x float64) (first, second float64) {
	x -= s.from
	for i := range s.waves {
		w := &s.waves[i]
		sin, cos := math.Sincos(w.arg + w.argRate*x)
		a := w.amp + w.ampRate*x
		first += w.ampRate*cos - a*w.argRate*sin
		second -= 2*w.ampRate*w.argRate*sin + a*w.argRate*w.argRate*cos
	}
	return first, second
}

// publishedSpeeds are NOAA CO-OPS's speeds in degrees an hour, for its practice only. (Those of
// the arguments above differ in the last digits.)
var publishedSpeeds = map[string]float64{
	"M2": 28.984104, "S2": 30.0, "N2": 28.43973, "K1": 15.041069, "M4": 57.96821, "O1": 13.943035,
	"M6": 86.95232, "MK3": 44.025173, "S4": 60.0, "MN4": 57.423832, "NU2": 28.512583, "S6": 90.0,
	"MU2": 27.968208, "2N2": 27.895355, "OO1": 16.139101, "LAMBDA2": 29.455626, "S1": 15.0,
	"M1": 14.496694, "J1": 15.5854435, "MM": 0.5443747, "SSA": 0.0821373, "SA": 0.0410686,
	"MSF": 1.0158958, "MF": 1.0980331, "RHO1": 13.471515, "Q1": 13.398661, "T2": 29.958933,
	"R2": 30.041067, "2Q1": 12.854286, "P1": 14.958931, "2SM2": 31.015896, "M3": 43.47616,
	"L2": 29.528479, "2MK3": 42.92714, "K2": 30.082138, "M8": 115.93642, "MS4": 58.984104,
}
