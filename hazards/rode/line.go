package rode

import "math"

// Line is a rode between anchor and bow roller: chain at the anchor, rope above it. Rope
// has no weight in the water here, which is never better for the anchor: rope that sinks
// holds its chain lower.
type Line struct {
	ChainM      float64
	ChainKgPerM float64 // in air
	RopeM       float64
}

// LengthM is all of it.
func (l Line) LengthM() float64 { return l.ChainM + l.RopeM }

// Laid is so much of a rode aboard, chain first. More than is aboard is not laid.
func (l Line) Laid(metres float64) Line {
	chain := math.Max(0, math.Min(metres, l.ChainM))
	return Line{ChainM: chain, ChainKgPerM: l.ChainKgPerM, RopeM: math.Max(0, math.Min(metres-chain, l.RopeM))}
}

// weight is that of a metre of chain in sea water, N/m.
func (l Line) weight() float64 {
	return math.Max(0, l.ChainKgPerM) * gravity * (1 - waterDensity/float64(steelDensity))
}

// rise is how far up the line leads with a pull of loadN along the ground and of upN
// upward at the shank, all of it off the ground: a catenary of the chain, and the rope
// straight on from it.
func (l Line) rise(loadN, upN float64) float64 {
	atShank := math.Hypot(loadN, upN)
	weight := l.weight() * l.ChainM
	atRope := math.Hypot(loadN, upN+weight)
	if atRope == 0 {
		return 0
	}
	return l.ChainM*(2*upN+weight)/(atShank+atRope) + l.RopeM*(upN+weight)/atRope
}

// chordDeg is the angle of a taut line: the shank's never passes it.
func (l Line) chordDeg(heightM float64) float64 {
	if l.LengthM() <= heightM {
		return 90
	}
	return math.Asin(math.Max(0, heightM)/l.LengthM()) * 180 / math.Pi
}

// ShankDeg is the angle of the pull at the anchor's shank, degrees above the ground: 0
// where some of the chain lies on it, 90 where the line does not reach the ground.
func (l Line) ShankDeg(heightM, loadN float64) float64 {
	high := l.chordDeg(heightM)
	if high >= 90 || l.weight()*l.ChainM == 0 {
		return high
	}
	if loadN <= 0 || l.rise(loadN, 0) >= heightM {
		return 0
	}
	low := 0.0
	for range 60 {
		mid := (low + high) / 2
		if l.rise(loadN, loadN*tan(mid)) < heightM {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

// LeastM is the least length to lay of a rode such that the pull at the shank is at most
// so many degrees. What is wanted beyond the chain aboard is rope where there is rope,
// else more of the same chain. +Inf: no length does, as with rope alone and 0 degrees.
func (l Line) LeastM(heightM, loadN, maxDeg float64) float64 {
	if heightM <= 0 {
		return 0
	}
	loadN = math.Max(0, loadN)
	upN := loadN * tan(maxDeg)
	if all := l.chainM(heightM, loadN, upN); all <= l.ChainM || l.RopeM <= 0 {
		return all
	}
	chain := Line{ChainM: l.ChainM, ChainKgPerM: l.ChainKgPerM}
	up := upN + l.weight()*l.ChainM
	if up == 0 && loadN > 0 {
		return math.Inf(1)
	}
	if up == 0 { // no load at all: rope hangs straight down
		return math.Max(heightM, l.ChainM)
	}
	return l.ChainM + math.Max(0, heightM-chain.rise(loadN, upN))*math.Hypot(loadN, up)/up
}

// chainM is the length of a line of nothing but this chain that leads up so far.
func (l Line) chainM(heightM, loadN, upN float64) float64 {
	w := l.weight()
	if w == 0 {
		if upN == 0 && loadN > 0 {
			return math.Inf(1)
		}
		if upN == 0 {
			return heightM
		}
		return heightM * math.Hypot(loadN, upN) / upN
	}
	atShank := math.Hypot(loadN, upN)
	// The pull at the roller is that at the shank and the weight of a length of chain
	// as high as the roller: T = T0 + w·h.
	top := math.Sqrt((atShank+w*heightM)*(atShank+w*heightM) - loadN*loadN)
	return (top - upN) / w
}

// LiftN is the load at which the pull at the shank passes so many degrees. +Inf: no load
// does, as the line is long enough taut. 0: any load does.
func (l Line) LiftN(heightM, deg float64) float64 {
	if heightM <= 0 || l.chordDeg(heightM) <= deg {
		return math.Inf(1)
	}
	if l.LengthM() <= heightM || l.weight()*l.ChainM == 0 {
		return 0
	}
	short := func(loadN float64) bool { return l.rise(loadN, loadN*tan(deg)) < heightM }
	high := l.weight() * l.LengthM()
	for range 200 {
		if short(high) {
			break
		}
		high *= 2
	}
	low := 0.0
	for range 200 {
		if mid := (low + high) / 2; short(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return low
}

// SpanM is how far from the anchor, along the ground, the bow lies at a load: what lies
// on the ground, the catenary and the rope. NaN where the line does not reach the ground,
// or has no load to lead it out.
func (l Line) SpanM(heightM, loadN float64) float64 {
	if l.LengthM() <= heightM || loadN <= 0 {
		return math.NaN()
	}
	upN := loadN * tan(l.ShankDeg(heightM, loadN))
	hung := l.hung(heightM, loadN, upN)
	top := upN + hung.weight()*hung.ChainM
	out := l.ChainM - hung.ChainM + l.RopeM*loadN/math.Hypot(loadN, top)
	if w := l.weight(); w*hung.ChainM > 0 {
		out += loadN / w * (math.Asinh(top/loadN) - math.Asinh(upN/loadN))
	}
	return out
}

// hung is the line without the chain that lies on the ground.
func (l Line) hung(heightM, loadN, upN float64) Line {
	if upN > 0 {
		return l
	}
	out, low, high := l, 0.0, l.ChainM
	for range 60 {
		out.ChainM = (low + high) / 2
		if out.rise(loadN, 0) < heightM {
			low = out.ChainM
		} else {
			high = out.ChainM
		}
	}
	return out
}

func tan(deg float64) float64 { return math.Tan(deg * math.Pi / 180) }
