package demobed

import "math"

// step is the quintic smooth step: 0 up to t = 0, 1 from t = 1, twice
// continuously differentiable (Perlin 2002, "Improving Noise", from memory).
func step(t float64) float64 {
	switch {
	case t <= 0:
		return 0
	case t >= 1:
		return 1
	}
	return cube(t) * (10 + float64(t*(float64(6*t)-15)))
}

// Greatest first and second derivatives of step: 15/8 at 1/2, and 10/√3.
const (
	stepSlope = 1.875
	stepCurve = 5.7736
)

// ramp raises the bed by heightM from one side of a strip to the other.
type ramp struct {
	xM, yM     float64 // a point on the line where the rise begins
	dirX, dirY float64 // unit vector in which it rises
	widthM     float64 // how far the rise takes
	heightM    float64
}

func (a ramp) along(x, y float64) float64 {
	return (float64((x-a.xM)*a.dirX) + float64((y-a.yM)*a.dirY)) / a.widthM
}

func (a ramp) apply(x, y, z float64) float64 {
	return z - float64(a.heightM*step(a.along(x, y)))
}

func (a ramp) within(x, y, r float64, in Envelope) Envelope {
	t, d := a.along(x, y), r/a.widthM
	lo, hi := a.heightM*step(t-d), a.heightM*step(t+d)
	in.LoM -= math.Max(lo, hi)
	in.HiM -= math.Min(lo, hi)
	if t+d <= 0 || t-d >= 1 {
		return in
	}
	in.Slope += math.Abs(a.heightM) * stepSlope / a.widthM
	in.CurvePerM += math.Abs(a.heightM) * stepCurve / (a.widthM * a.widthM)
	return in
}

// work pulls the bed to depthM inside a box and lets go over bankM around
// it: a dredged channel, a basin, the stream bed of a creek, a breakwater.
type work struct {
	xM, yM     float64 // centre
	dirX, dirY float64 // unit vector along the length
	halfM      float64 // half the length of the core
	sideM      float64 // half the width of the core
	bankM      float64 // width of the bank around the core
	depthM     float64
}

// axes returns the distances from the centre along and across the work.
func (w work) axes(x, y float64) (u, v float64) {
	dx, dy := x-w.xM, y-w.yM
	u = math.Abs(float64(dx*w.dirX) + float64(dy*w.dirY))
	v = math.Abs(float64(dy*w.dirX) - float64(dx*w.dirY))
	return u, v
}

// weight is 1 in the core and 0 beyond the bank.
func (w work) weight(u, v float64) float64 {
	return step((w.halfM+w.bankM-u)/w.bankM) * step((w.sideM+w.bankM-v)/w.bankM)
}

func (w work) apply(x, y, z float64) float64 {
	u, v := w.axes(x, y)
	if u >= w.halfM+w.bankM || v >= w.sideM+w.bankM {
		return z
	}
	return z + float64(w.weight(u, v)*(w.depthM-z))
}

func (w work) within(x, y, r float64, in Envelope) Envelope {
	u, v := w.axes(x, y)
	if u-r >= w.halfM+w.bankM || v-r >= w.sideM+w.bankM {
		return in
	}
	if u+r <= w.halfM && v+r <= w.sideM {
		return Envelope{LoM: w.depthM, HiM: w.depthM}
	}
	least := w.weight(u+r, v+r)
	pull := math.Max(math.Abs(w.depthM-in.LoM), math.Abs(w.depthM-in.HiM))
	slope, curve := w.weightBounds(u, v, r)
	return Envelope{
		LoM:       math.Min(w.depthM, in.LoM+float64(least*(w.depthM-in.LoM))),
		HiM:       math.Max(w.depthM, in.HiM+float64(least*(w.depthM-in.HiM))),
		Slope:     float64((1-least)*in.Slope) + float64(slope*pull),
		CurvePerM: float64((1-least)*in.CurvePerM) + float64(2*slope*in.Slope) + float64(curve*pull),
	}
}

// weightBounds bounds gradient and curvature of the weight. The second
// derivative along any line is at most the greater of the two pure ones
// plus the mixed one; where only one side varies the others vanish.
func (w work) weightBounds(u, v, r float64) (slope, curve float64) {
	s, c := stepSlope/w.bankM, stepCurve/(w.bankM*w.bankM)
	endVaries, sideVaries := u+r > w.halfM, v+r > w.sideM
	if endVaries && sideVaries {
		return s * math.Sqrt2, c + float64(s*s)
	}
	return s, c
}
