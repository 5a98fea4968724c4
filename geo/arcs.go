package geo

import (
	"cmp"
	"math"
	"slices"
)

// Arc is the bearings from one clockwise to another, both included, in degrees true.
// FromDeg is in [0, 360) and ToDeg from FromDeg to 360 more.
type Arc struct{ FromDeg, ToDeg float64 }

// ArcAbout is the arc from so many degrees before a bearing to so many after it.
func ArcAbout(deg, before, after float64) Arc {
	if before+after >= 360 {
		return Arc{0, 360}
	}
	from := Bearing(deg - before)
	return Arc{from, from + before + after}
}

// ArcBetween is the shorter arc between two bearings; of exact opposites the one
// clockwise from the first.
func ArcBetween(from, to float64) Arc {
	if turn := Turn(from, to); turn < 0 && turn > -180 {
		return ArcAbout(from, -turn, 0)
	}
	return ArcAbout(from, 0, math.Abs(Turn(from, to)))
}

// WidthDeg is how many degrees it takes up.
func (a Arc) WidthDeg() float64 { return a.ToDeg - a.FromDeg }

// Holds reports whether a bearing is in the arc.
func (a Arc) Holds(deg float64) bool {
	return Bearing(deg-a.FromDeg) <= a.WidthDeg() || Bearing(deg) == a.FromDeg
}

// Arcs are arcs that do not touch, in the order of FromDeg. The zero value is none.
type Arcs []Arc

// WholeCircle is every bearing.
func WholeCircle() Arcs { return Arcs{{0, 360}} }

// Whole reports whether every bearing is among them.
func (a Arcs) Whole() bool { return len(a) == 1 && a[0].WidthDeg() >= 360 }

// MergeArcs joins arcs that touch.
func MergeArcs(list ...Arc) Arcs {
	if len(list) == 0 {
		return nil
	}
	out := slices.Clone(list)
	slices.SortFunc(out, func(a, b Arc) int { return cmp.Compare(a.FromDeg, b.FromDeg) })
	n := 1
	for _, v := range out[1:] {
		if last := &out[n-1]; v.FromDeg <= last.ToDeg {
			last.ToDeg = math.Max(last.ToDeg, v.ToDeg)
			continue
		}
		out[n] = v
		n++
	}
	out = out[:n]
	// The last may run over north into the first ones.
	last := &out[len(out)-1]
	for len(out) > 1 && last.ToDeg >= out[0].FromDeg+360 {
		last.ToDeg = math.Max(last.ToDeg, out[0].ToDeg+360)
		out = out[1:]
	}
	if len(out) == 1 && last.WidthDeg() >= 360 {
		return WholeCircle()
	}
	return out
}

// Widened are the arcs with so many degrees more on either side.
func (a Arcs) Widened(deg float64) Arcs {
	out := make([]Arc, len(a))
	for i, v := range a {
		out[i] = ArcAbout(v.FromDeg, deg, v.WidthDeg()+deg)
	}
	return MergeArcs(out...)
}

// Holds reports whether a bearing is among them.
func (a Arcs) Holds(deg float64) bool {
	return slices.ContainsFunc(a, func(v Arc) bool { return v.Holds(deg) })
}

// TurnTo is how many degrees lie at least between a bearing of these and one of
// others, 0 where they share one, and the bearing of the others that is nearest. ok is
// false where there are none.
func (a Arcs) TurnTo(others Arcs) (turnDeg, atDeg float64, ok bool) {
	turnDeg = math.Inf(1)
	take := func(turn, at float64) {
		if turn < turnDeg {
			turnDeg, atDeg, ok = turn, Bearing(at), true
		}
	}
	for _, v := range a {
		for _, w := range others {
			switch {
			case v.Holds(w.FromDeg):
				take(0, w.FromDeg)
			case w.Holds(v.FromDeg):
				take(0, v.FromDeg)
			default:
				take(Bearing(w.FromDeg-v.ToDeg), w.FromDeg)
				take(Bearing(v.FromDeg-w.ToDeg), w.ToDeg)
			}
		}
	}
	return turnDeg, atDeg, ok
}
