package sea

import (
	"math"
	"time"
)

// View is what lies about a place, by whole degrees from 0 to 359, at the highest
// water of the time meant.
type View interface {
	Ray(deg int) Ray
	Exposure(deg int) Exposure
	// Reach is FanReach of the view. It is asked for again and again.
	Reach(deg int) Reach
}

// Reach is how far the wind may come over water: a bound of the mean fetch of any fan
// of rays about a direction from one whole degree to the next.
type Reach struct{ WithinM, OpenM float64 }

// FanReach works out the reach of a view between a whole degree and the next. Rays run
// in whole degrees, so that each of a fan's nine is one of two.
func (m *Model) FanReach(v View, deg int) (r Reach) {
	open := m.openFetchM()
	for k := range fanRays {
		toward := deg + (k-fanRays/2)*int(raySpacing)
		a, b := v.Ray(wrapped(toward)).sane(), v.Ray(wrapped(toward+1)).sane()
		r.WithinM += math.Max(a.LengthM, b.LengthM) / fanRays
		r.OpenM += math.Max(a.extended(open).LengthM, b.extended(open).LengthM) / fanRays
	}
	return r
}

func wrapped(deg int) int { return (deg%360 + 360) % 360 }

// Known is for how much of a time something is known.
type Known int

// How much.
const (
	Nothing Known = iota
	Part
	Whole
)

// Most bounds the sea that At gives at any time from one to another: all heights of
// the state are at least as great. Growth is that of the strongest wind about then, in
// deep water, over the longest fetch of all directions that it turns through. known is
// that of the wind; a swell not known for all of the time is SwellUnknown.
func (m *Model) Most(from, to time.Time, v View) (s State, known Known) {
	known = m.Wind.knownFrom(from, to)
	if known == Nothing || m.Cast == nil {
		return State{}, Nothing
	}
	reach := m.longest(m.Wind.swept(from, to), v)
	const rounding = 1 + 1e-9
	within := Growth{HsM: rounding * m.Wind.mostGrowth(from, to, reach.WithinM)}
	withOpen := Growth{HsM: rounding * m.Wind.mostGrowth(from, to, reach.OpenM)}
	return newState(Wind{Kn: m.Wind.mostKn(from, to)}, 0, within, withOpen, m.mostSwell(from, to, v)), known
}

// longest is the longest reach of all directions of a sweep.
func (m *Model) longest(s sweep, v View) (r Reach) {
	first, last := s.degrees()
	for deg := first; deg <= last; deg++ {
		here := v.Reach(wrapped(deg))
		r.WithinM, r.OpenM = math.Max(r.WithinM, here.WithinM), math.Max(r.OpenM, here.OpenM)
	}
	return r
}

// boundLengths are lengths of past wind: the last of each stretch of stretches that is
// bounded as one.
var boundLengths = [...]time.Duration{30 * time.Minute, time.Hour, 2 * time.Hour, 4 * time.Hour, 8 * time.Hour, 12 * time.Hour}

// mostGrowth bounds history.grow at all times from one to another. Growth rises with
// wind, fetch and depth: SPM 1984, eqs 3-39 and 3-35.
func (s *WindSeries) mostGrowth(from, to time.Time, fetchM float64) (hsM float64) {
	for _, length := range boundLengths {
		ua := AdjustedWind(s.mostKn(from.Add(-length), to) * knotInMps)
		hsM = math.Max(hsM, growHeight(ua, math.Min(fetchM, DurationFetch(ua, length.Seconds())), math.Inf(1)))
	}
	return hsM
}

// mostKn bounds the wind, and what is taken for it where it is not known, at all times
// from one to another.
func (s *WindSeries) mostKn(from, to time.Time) (kn float64) {
	first, last := s.times.about(from, to)
	for i := first; i <= last; i++ {
		kn = math.Max(kn, s.rows[i].Kn)
	}
	return kn
}

// about are the rows, by their places, from the last before a time to the first after
// another.
func (tl timeline) about(from, to time.Time) (first, last int) {
	return max(0, tl.next(from)-1), min(len(tl)-1, tl.next(to))
}

// knownFrom tells for how much of a time the wind is known.
func (s *WindSeries) knownFrom(from, to time.Time) Known {
	_, first := s.At(from)
	_, last := s.At(to)
	switch {
	case s == nil || len(s.rows) == 0:
		return Nothing
	case first && last && !s.gapIn(from, to):
		return Whole
	case first || last || len(s.times.within(from, to)) > 0:
		return Part
	}
	return Nothing
}

// sweep is the directions that something turns through: degrees from one to a greater,
// which may lie beyond a full circle.
type sweep struct{ from, to float64 }

// degrees are whole degrees such that each direction of the sweep lies between one of
// them and the next.
func (s sweep) degrees() (first, last int) {
	const rounding = 1e-6
	first, last = int(math.Floor(s.from-rounding)), int(math.Floor(s.to+rounding))
	return first, min(last, first+359)
}

// sweeping follows directions one after the other, the short way.
type sweeping struct {
	sweep
	at    float64
	begun bool
}

func (s *sweeping) add(deg float64) {
	if !s.begun {
		s.begun, s.at, s.from, s.to = true, deg, deg, deg
		return
	}
	s.at += turnDeg(fullCircle(s.at), deg)
	s.from, s.to = math.Min(s.from, s.at), math.Max(s.to, s.at)
}

// swept are the directions of the wind from one time to another.
func (s *WindSeries) swept(from, to time.Time) sweep {
	var out sweeping
	if w, ok := s.At(from); ok {
		out.add(w.FromDeg)
	}
	for i, last := s.times.next(from), s.times.next(to); i < last; i++ {
		out.add(s.rows[i].FromDeg)
	}
	if w, ok := s.At(to); ok {
		out.add(w.FromDeg)
	}
	return out.sweep
}

// mostSwell bounds the swell at all times from one to another.
func (m *Model) mostSwell(from, to time.Time, v View) (out swellHere) {
	if m.Swell == nil {
		return out
	}
	var turns sweeping
	first, firstKnown := m.Swell.At(from)
	last, lastKnown := m.Swell.At(to)
	out.unknown = !firstKnown || !lastKnown
	heightM := math.Max(first.HeightM, last.HeightM)
	if firstKnown {
		turns.add(first.FromDeg)
	}
	for i, end := m.Swell.times.next(from), m.Swell.times.next(to); i < end; i++ {
		heightM = math.Max(heightM, m.Swell.rows[i].HeightM)
		turns.add(m.Swell.rows[i].FromDeg)
	}
	if lastKnown {
		turns.add(last.FromDeg)
	}
	if heightM <= 0 || !turns.begun {
		return out
	}
	share := 0.0
	lowest, highest := turns.degrees()
	for deg := lowest; deg <= highest+1 && share < 1; deg++ {
		share = math.Max(share, v.Exposure(wrapped(deg)).share())
	}
	out.hsM = heightM * share
	return out
}
