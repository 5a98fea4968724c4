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

// Spell is what is given of wind and swell from one time to another, whatever the place.
type Spell struct {
	Known Known // the wind; a swell not known for all of the time is SwellUnknown

	model *Model
	kn    float64
	uaMps [len(boundLengths)]float64 // of the strongest wind of each length before then
	turns sweep
	swell spellOfSwell
}

// Spell is that from one time to another.
func (m *Model) Spell(from, to time.Time) *Spell {
	s := &Spell{model: m, Known: m.Wind.knownFrom(from, to)}
	if s.Known == Nothing || m.Cast == nil {
		s.Known = Nothing
		return s
	}
	s.kn, s.turns, s.swell = m.Wind.mostKn(from, to), m.Wind.swept(from, to), m.spellOfSwell(from, to)
	for i, length := range boundLengths {
		s.uaMps[i] = AdjustedWind(m.Wind.mostKn(from.Add(-length), to) * knotInMps)
	}
	return s
}

// Most bounds the sea that At gives at a place at any time of the spell: all heights of
// the state are at least as great. Growth is that of the strongest wind about then, in
// deep water, over the longest fetch of all directions that it turns through. Where
// nothing of the wind is known there is no bound.
func (s *Spell) Most(v View) State { return s.most(v, s.turns) }

// MostShifted bounds the sea with every direction of the wind turned by the same angle,
// of so many degrees at most.
func (s *Spell) MostShifted(v View, byDeg float64) State {
	return s.most(v, sweep{s.turns.from - byDeg, s.turns.to + byDeg})
}

func (s *Spell) most(v View, turns sweep) State {
	if s.Known == Nothing {
		return State{}
	}
	const rounding = 1 + 1e-9
	reach := s.model.longest(turns, v)
	within, withOpen := Growth{HsM: rounding * s.mostGrowth(reach.WithinM)}, Growth{}
	withOpen = within
	if reach.OpenM > reach.WithinM {
		withOpen.HsM = rounding * s.mostGrowth(reach.OpenM)
	}
	return newState(Wind{Kn: s.kn}, 0, within, withOpen, s.swell.at(v))
}

// mostGrowth bounds history.grow at all times of the spell. Growth rises with wind, fetch
// and depth: SPM 1984, eqs 3-39 and 3-35.
func (s *Spell) mostGrowth(fetchM float64) (hsM float64) {
	for i, length := range boundLengths {
		hsM = math.Max(hsM, growHeight(s.uaMps[i], math.Min(fetchM, DurationFetch(s.uaMps[i], length.Seconds())), math.Inf(1)))
	}
	return hsM
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

// spellOfSwell is what is given of the swell from one time to another.
type spellOfSwell struct {
	heightM float64 // the greatest
	turns   sweeping
	unknown bool // for some of the time
}

func (m *Model) spellOfSwell(from, to time.Time) (out spellOfSwell) {
	if m.Swell == nil {
		return out
	}
	add := func(sw Swell) {
		out.heightM = math.Max(out.heightM, sw.HeightM)
		out.turns.add(sw.FromDeg)
	}
	if first, ok := m.Swell.At(from); ok {
		add(first)
	} else {
		out.unknown = true
	}
	for i, end := m.Swell.times.next(from), m.Swell.times.next(to); i < end; i++ {
		add(m.Swell.rows[i])
	}
	if last, ok := m.Swell.At(to); ok {
		add(last)
	} else {
		out.unknown = true
	}
	return out
}

// at bounds the swell at a place.
func (s *spellOfSwell) at(v View) swellHere {
	out, share := swellHere{unknown: s.unknown}, 0.0
	if s.heightM <= 0 || !s.turns.begun {
		return out
	}
	lowest, highest := s.turns.degrees()
	for deg := lowest; deg <= highest+1 && share < 1; deg++ {
		share = math.Max(share, v.Exposure(wrapped(deg)).share())
	}
	out.hsM = s.heightM * share
	return out
}
