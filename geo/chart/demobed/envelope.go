package demobed

import (
	"math"

	"github.com/paulmach/orb"
)

// Envelope bounds the bed over a disc.
type Envelope struct {
	LoM, HiM  float64 // least and greatest depth, metres
	Slope     float64 // greatest length of the gradient, metres per metre
	CurvePerM float64 // greatest second derivative along any line, 1 / metre
}

// Within bounds depth, slope and curvature of the bed within radiusM metres
// of p. The bounds are not sharp: each term adds its own worst case. They
// hold for distances in true metres (the frame's scale error is included).
//
// A sum of terms adds bounds; a work of man blends the bed z into the depth
// c with weight w, z + w(c-z), whose second derivative is at most
// (1-w)|z"| + 2|w'||z'| + |c-z||w"|.
func Within(p orb.Point, radiusM float64) Envelope {
	x, y := Local(p)
	r := radiusM * scaleSlack
	z := planeDepthM - float64(planeFall*y)
	s := Envelope{LoM: z - float64(planeFall*r), HiM: z + float64(planeFall*r), Slope: planeFall}
	for _, t := range bed {
		s = t.within(x, y, r, s)
	}
	s = s.tighten(x, y, r)
	s.Slope *= scaleSlack
	s.CurvePerM *= scaleSlack2
	return s
}

// tighten narrows the slope by the slope at the centre and the curvature,
// then the depth range by the depth at the centre and the slope.
func (s Envelope) tighten(x, y, r float64) Envelope {
	const h = 0.01 // metres; a difference quotient is out by Curve*h/2 at most
	z := depthAt(x, y)
	east, north := (depthAt(x+h, y)-z)/h, (depthAt(x, y+h)-z)/h
	here := math.Sqrt(float64(east*east) + float64(north*north))
	s.Slope = math.Min(s.Slope, here+float64(s.CurvePerM*(r+h)))
	s.LoM = math.Max(s.LoM, z-float64(s.Slope*r))
	s.HiM = math.Min(s.HiM, z+float64(s.Slope*r))
	return s
}
