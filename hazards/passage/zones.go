package passage

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"keelroom/geo/chart"
)

// ZoneSpan is a stretch of a leg inside a speed zone, in metres from its start.
type ZoneSpan struct {
	Feature  *chart.Feature
	From, To float64
}

// ZonesAmong picks the speed zones from what a piece of track meets; base is
// the piece's start in metres along its leg.
func ZonesAmong(hits []chart.Hit, base float64) []ZoneSpan {
	var out []ZoneSpan
	for i := range hits {
		h := &hits[i]
		if h.Rules == nil || !h.Rules.SpeedZone {
			continue
		}
		for _, s := range h.Inside {
			out = append(out, ZoneSpan{h.Feature, base + s.From, base + s.To})
		}
	}
	return out
}

// findZones finds where the track runs through speed zones. A zone is met
// where the centre line is inside; a run that goes on over a waypoint is one.
func (r *run) findZones() {
	if r.waters.Zones == nil {
		return
	}
	open := map[*chart.Feature][]chart.Span{}
	var order []*chart.Feature
	for i := range r.legs {
		for _, z := range r.waters.Zones(r.legs[i].Rhumb) {
			if _, seen := open[z.Feature]; !seen {
				order = append(order, z.Feature)
			}
			open[z.Feature] = append(open[z.Feature], chart.Span{From: r.starts[i] + z.From, To: r.starts[i] + z.To})
		}
	}
	for _, f := range order {
		for _, s := range joined(open[f]) {
			r.zones = append(r.zones, r.zonePassage(f, s))
		}
	}
	slices.SortStableFunc(r.zones, func(a, b ZonePassage) int { return cmp.Compare(a.from, b.from) })
}

// joined joins spans, in order along the route, that follow each other within
// the resolution of positions.
func joined(spans []chart.Span) []chart.Span {
	var out []chart.Span
	for _, s := range spans {
		if n := len(out); n > 0 && s.From-out[n-1].To < 0.5 {
			out[n-1].To = math.Max(out[n-1].To, s.To)
			continue
		}
		out = append(out, s)
	}
	return out
}

func (r *run) zonePassage(f *chart.Feature, s chart.Span) ZonePassage {
	z := ZonePassage{Feature: f, from: s.From, to: s.To, StartsInside: s.From == 0}
	z.LimitKn, z.Stated = f.Rules.Limit(r.plan.Choices.VesselClasses)
	if !z.Stated {
		z.LimitKn = r.plan.Boat.HarbourKn
	}
	for i := r.legAt(s.From); i < len(r.legs) && r.starts[i] < s.To; i++ {
		if leg := &r.legs[i]; r.starts[i+1] > s.From && leg.AskedKn > z.LimitKn {
			z.AskedAboveKn = math.Max(z.AskedAboveKn, leg.AskedKn)
		}
	}
	return z
}

// emit turns the finished profile into legs, steps and zone passages.
func (r *run) emit(p timed) {
	base := len(r.track.Legs)
	r.track.Steps = slices.Grow(r.track.Steps, len(p.lines)+len(r.legs))
	r.track.Sea = slices.Grow(r.track.Sea, len(r.sea))
	for _, l := range p.lines {
		r.emitStep(base, l, p)
	}
	for _, u := range r.unstemmed {
		u.Leg += base
		r.track.Unstemmed = append(r.track.Unstemmed, u)
	}
	for _, c := range r.sea {
		c.Leg += base
		r.track.Sea = append(r.track.Sea, c)
	}
	for i := range r.legs {
		leg := &r.legs[i]
		leg.Start, leg.End = p.time(r.starts[i]), p.time(r.starts[i+1])
	}
	r.countSteps(base)
	for i, z := range r.zones {
		if !r.force[i] {
			continue
		}
		z.Enter, z.Leave = p.time(z.from), p.time(z.to)
		z.Leg = base + r.legAt(z.from)
		z.Entry, z.Exit = r.position(z.from), r.position(z.to)
		z.Slow = r.slowFor(z, p, base)
		r.track.Zones = append(r.track.Zones, z)
	}
	r.track.Legs = append(r.track.Legs, r.legs...)
}

// emitStep adds one line of the profile as a step. Lines never span a
// waypoint: the cells are cut there.
func (r *run) emitStep(base int, l line, p timed) {
	leg := r.legAt((l.from + l.to) / 2)
	x := r.starts[leg]
	s := Step{Leg: base + leg, FromM: math.Max(0, l.from-x), ToM: l.to - x,
		Start: p.time(l.from), End: p.time(l.to), FromKn: math.Sqrt(l.a), ToKn: math.Sqrt(l.b), Why: l.why}
	s.WaterKn = math.Max(s.FromKn, s.ToKn)
	if r.waters.Stream != nil {
		if toward, kn, ok := r.waters.Stream(s.Start); ok {
			s.WaterKn = ThroughWater(s.WaterKn, r.legs[leg].Rhumb.CourseDeg, toward, kn)
		}
	}
	r.track.Steps = append(r.track.Steps, s)
}

// countSteps notes which steps belong to which leg. A leg of no length has a
// step of no length, so that every leg has one.
func (r *run) countSteps(base int) {
	first := len(r.track.Steps)
	for first > 0 && r.track.Steps[first-1].Leg >= base {
		first--
	}
	steps := slices.Clone(r.track.Steps[first:])
	r.track.Steps = r.track.Steps[:first]
	for i := range r.legs {
		leg := &r.legs[i]
		leg.First = len(r.track.Steps)
		for len(steps) > 0 && steps[0].Leg == base+i {
			r.track.Steps = append(r.track.Steps, steps[0])
			steps = steps[1:]
		}
		leg.Count = len(r.track.Steps) - leg.First
		if leg.Count == 0 {
			kn := r.plan.Boat.HarbourKn
			r.track.Steps = append(r.track.Steps, Step{Leg: base + i, Start: leg.Start, End: leg.End, FromKn: kn, ToKn: kn, WaterKn: kn})
			leg.Count = 1
		}
	}
}

// slowFor finds where she begins to slow for a zone's line: the start of the
// unbroken run of slowing that ends there.
func (r *run) slowFor(z ZonePassage, p timed, base int) *SlowDown {
	if z.from == 0 {
		return nil
	}
	begin, found := z.from, false
	last := sort.Search(len(p.lines), func(i int) bool { return p.lines[i].to > begin+1e-3 })
	for i := last - 1; i >= 0; i-- {
		l := p.lines[i]
		if l.to < begin-1e-3 || l.why != Slowing {
			break
		}
		begin, found = l.from, true
	}
	if !found {
		return nil
	}
	// The speed just before the slowing, which may begin in the middle of a line.
	i := p.lineAt(begin)
	return &SlowDown{Leg: base + r.legAt(begin), At: r.position(begin), Time: p.time(begin),
		FromKn: math.Sqrt(p.lines[i].a), ToKn: z.LimitKn}
}

func (p timed) lineAt(x float64) int {
	i := sort.Search(len(p.lines), func(i int) bool { return p.lines[i].from > x-1e-3 })
	if i < len(p.lines) && p.lines[i].from < x+1e-3 {
		return i
	}
	return 0
}
