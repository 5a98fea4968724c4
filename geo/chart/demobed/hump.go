package demobed

import "math"

// hump raises the bed by up to heightM (hollows it where negative) within
// an ellipse: height * (1-q)^3 for q < 1, where q is 0 at the centre and 1
// on the ellipse. It is twice continuously differentiable.
type hump struct {
	xM, yM        float64 // centre
	longM, shortM float64 // semi-axes
	dirX, dirY    float64 // unit vector along the long axis
	heightM       float64
}

// q returns the squared elliptic distance from the centre.
func (h hump) q(x, y float64) float64 {
	dx, dy := x-h.xM, y-h.yM
	u := (float64(dx*h.dirX) + float64(dy*h.dirY)) / h.longM
	v := (float64(dy*h.dirX) - float64(dx*h.dirY)) / h.shortM
	return float64(u*u) + float64(v*v)
}

func (h hump) apply(x, y, z float64) float64 {
	if math.Abs(x-h.xM) > h.longM || math.Abs(y-h.yM) > h.longM {
		return z // longM is the greater semi-axis: outside for certain
	}
	q := h.q(x, y)
	if q >= 1 {
		return z
	}
	return z - float64(h.heightM*cube(1-q))
}

func cube(v float64) float64 { return v * v * v }

// within uses, with k = 1-q and the axes scaled to 1: gradient 6 A k^2 √q,
// second derivatives 6 A k (5q-1) along and -6 A k^2 across the radius.
// Scaling back divides by at most the short axis, twice for the latter.
func (h hump) within(x, y, r float64, in Envelope) Envelope {
	centre := math.Sqrt(h.q(x, y))
	lo := math.Max(0, centre-r/h.shortM)
	if lo >= 1 {
		return in
	}
	hi := math.Min(1, centre+r/h.shortM)
	qlo, qhi := lo*lo, hi*hi
	a, k := math.Abs(h.heightM), 1-qlo
	least, greatest := h.heightM*cube(1-qhi), h.heightM*cube(k)
	if h.heightM < 0 {
		least, greatest = greatest, least
	}
	bend := math.Max(k, math.Max(math.Abs(float64(5*qlo)-1), math.Abs(float64(5*qhi)-1)))
	return Envelope{
		LoM:       in.LoM - greatest,
		HiM:       in.HiM - least,
		Slope:     in.Slope + 6*a*k*k*hi/h.shortM,
		CurvePerM: in.CurvePerM + 6*a*k*bend/(h.shortM*h.shortM),
	}
}
