package passage

import (
	"math"
	"slices"
	"sort"
	"time"

	"keelroom/geo"
	"keelroom/hazards/plan"
)

// timed is a profile with the time at which each line begins.
type timed struct {
	lines  []line
	starts []time.Time // one more than lines: the last is the end
}

// time at x metres along the route.
func (p timed) time(x float64) time.Time {
	if len(p.lines) == 0 {
		return p.starts[0]
	}
	i := sort.Search(len(p.lines)-1, func(i int) bool { return p.lines[i].to >= x })
	l := p.lines[i]
	x = math.Max(l.from, math.Min(l.to, x))
	return p.starts[i].Add(runTime(x-l.from, math.Sqrt(l.a), math.Sqrt(l.at(x))))
}

// equal reports whether two profiles are the same, to the last bit.
func (p timed) equal(q timed) bool {
	return slices.Equal(p.lines, q.lines) && slices.EqualFunc(p.starts, q.starts, time.Time.Equal)
}

// runTime is how long a way takes whose speed changes at a constant rate.
func runTime(metres, fromKn, toKn float64) time.Duration {
	if metres <= 0 {
		return 0
	}
	return seconds(2 * metres / ((fromKn + toKn) * geo.KnotMPS))
}

// profile makes the speeds of the route, deciding what depends on the time
// (season, warm-up, sea, stream) with the times given.
func (r *run) profile(when func(float64) time.Time) timed {
	base := make([]line, 0, len(r.cells)+1)
	warmEnd := r.warmEnd(when)
	cuts := r.turnsAlong(when)
	zones := sweep{zones: r.zones}
	add := func(from, to float64) {
		here := zones.at((from + to) / 2)
		r.did(1 + len(here))
		base = append(base, r.baseLine(from, to, when(from), from < warmEnd-1e-3, here))
	}
	for i := 1; i < len(r.cells); i++ {
		for _, c := range split(r.cells[i-1], r.cells[i], warmEnd) {
			from := c[0]
			for len(cuts) > 0 && cuts[0] < c[1]-1e-3 {
				if cuts[0] > from+1e-3 {
					add(from, cuts[0])
					from = cuts[0]
				}
				cuts = cuts[1:]
			}
			add(from, c[1])
		}
	}
	return timeLines(lowest(base, slowDowns(base, r.plan.Boat.SlowDownM)), r.depart)
}

// sweep goes along a route from zone to zone, which are in the order they begin.
type sweep struct {
	zones []ZonePassage
	next  int
	here  []int
}

// at lists the zones, by index, that the route is in x metres from its start, no
// nearer to it than the last time.
func (s *sweep) at(x float64) []int {
	for ; s.next < len(s.zones) && s.zones[s.next].from <= x; s.next++ {
		s.here = append(s.here, s.next)
	}
	s.here = slices.DeleteFunc(s.here, func(i int) bool { return s.zones[i].to < x })
	return s.here
}

func timeLines(lines []line, start time.Time) timed {
	p := timed{lines: lines, starts: append(make([]time.Time, 0, len(lines)+1), start)}
	for _, l := range lines {
		start = start.Add(runTime(l.to-l.from, math.Sqrt(l.a), math.Sqrt(l.b)))
		p.starts = append(p.starts, start)
	}
	return p
}

// split cuts [from, to] at a place inside it.
func split(from, to, at float64) [][2]float64 {
	if at > from+1e-3 && at < to-1e-3 {
		return [][2]float64{{from, at}, {at, to}}
	}
	return [][2]float64{{from, to}}
}

// warmEnd is how far she has come when the engine is warm.
func (r *run) warmEnd(when func(float64) time.Time) float64 {
	if !r.warm.After(r.depart) {
		return 0
	}
	return r.placeAt(r.warm, when)
}

// placeAt is how far she has come at a time.
func (r *run) placeAt(t time.Time, when func(float64) time.Time) float64 {
	lo, hi := 0.0, r.length()
	if when(hi).Before(t) {
		return hi
	}
	for range 60 {
		mid := (lo + hi) / 2
		if when(mid).Before(t) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi
}

// turnsAlong is how far she has come at each turn of the stream on the way: it
// is looked at there besides where each cell begins.
func (r *run) turnsAlong(when func(float64) time.Time) []float64 {
	if r.waters.Stream == nil {
		return nil
	}
	var out []float64
	end := when(r.length())
	for _, t := range r.waters.Turns {
		if t.After(r.depart) && t.Before(end) {
			r.did(1)
			out = append(out, r.placeAt(t, when))
		}
	}
	return out
}

// baseLine is the speed over one cell before any slowing for the next. zones are
// those that the middle of it is in.
func (r *run) baseLine(from, to float64, t time.Time, warming bool, zones []int) line {
	mid := (from + to) / 2
	leg := &r.legs[r.legAt(mid)]
	kn, why := r.plan.Boat.CruiseKn, Cruising
	if leg.AskedKn > 0 {
		kn, why = leg.AskedKn, Asked
	}
	lower := func(v float64, w Why) {
		if v < kn {
			kn, why = v, w
		}
	}
	if warming {
		lower(r.plan.Boat.WarmUpKn, WarmUp)
	}
	if r.roughAt(mid) {
		lower(r.plan.Boat.RoughKn, RoughSea)
	}
	kn = r.overGround(kn, mid, t)
	if r.nearBerth(mid) {
		lower(r.plan.Boat.HarbourKn, NearBerth)
	}
	for _, i := range zones {
		if r.force[i] {
			lower(r.zones[i].LimitKn, InZone)
		}
	}
	return line{from, to, kn * kn, kn * kn, why}
}

// nearBerth reports whether x metres along the route she is near a berth.
func (r *run) nearBerth(x float64) bool {
	i := sort.Search(len(r.berths), func(i int) bool { return r.berths[i].To >= x })
	return i < len(r.berths) && r.berths[i].From <= x
}

func (r *run) zone() *time.Location {
	if r.plan.Zone != nil {
		return r.plan.Zone
	}
	return time.UTC
}

// lookAtSea asks for the sea in each cell while she is in it, unless it was asked
// for about the same times before.
func (r *run) lookAtSea(when func(float64) time.Time) {
	for i := range r.sea {
		c := &r.sea[i]
		from, to := when(c.from), when(c.to)
		if r.waters.SeaM == nil || c.looked && from.Sub(c.enter).Abs() <= seaTolerance && to.Sub(c.leave).Abs() <= seaTolerance {
			continue
		}
		c.looked, c.enter, c.leave = true, from, to
		hs, ok := r.waters.SeaM(c.At, from, to)
		c.Rough = ok && plan.Exceeds(hs, r.plan.Boat.SeaLimitM)
	}
}

// roughAt reports whether the sea x metres along the route is over her limit.
func (r *run) roughAt(x float64) bool {
	i := sort.Search(len(r.sea)-1, func(i int) bool { return r.sea[i].to >= x })
	return len(r.sea) > 0 && r.sea[i].Rough
}

// overGround is the speed over the ground of a boat that runs so fast through
// the water and keeps to the leg: the triangle of velocities.
func (r *run) overGround(kn, x float64, t time.Time) float64 {
	if r.waters.Stream == nil {
		return kn
	}
	toward, drift, ok := r.waters.Stream(t)
	if !ok {
		return kn
	}
	leg := r.legAt(x)
	v, ok := MadeGood(kn, r.legs[leg].Rhumb.CourseDeg, toward, drift)
	if !ok {
		r.unstemmed = append(r.unstemmed, Unstemmed{Leg: leg, AtM: x - r.starts[leg], Time: t, Kn: kn, TowardDeg: toward, StreamKn: drift})
		return leastKn
	}
	return v
}

// MadeGood is the speed over the ground, in knots, of a boat that makes waterKn
// through the water and steers so as to keep to a course (degrees true) in a
// stream of driftKn running toward setDeg. ok is false where she makes less
// than half a knot good along it.
func MadeGood(waterKn, courseDeg, setDeg, driftKn float64) (kn float64, ok bool) {
	sin, cos := math.Sincos((setDeg - courseDeg) * math.Pi / 180)
	across := driftKn * sin
	if math.Abs(across) > waterKn {
		return 0, false
	}
	kn = math.Sqrt(waterKn*waterKn-across*across) + driftKn*cos
	return kn, kn >= leastKn
}

// ThroughWater is the speed through the water, in knots, of a boat that makes
// groundKn good along a course in a stream.
func ThroughWater(groundKn, courseDeg, setDeg, driftKn float64) float64 {
	sin, cos := math.Sincos((setDeg - courseDeg) * math.Pi / 180)
	return math.Hypot(groundKn-driftKn*cos, driftKn*sin)
}
