package hazards

import (
	"slices"
	"sort"
	"time"
)

// turnsOf are the times of all rows of wind, swell and stream of the plan, in
// order: between two of them all that is given runs straight, at them it turns.
// Whoever looks at a series over time looks at them besides its own steps.
func (pr preparing) turnsOf() []time.Time {
	var out []time.Time
	for i := range pr.plan.Wind {
		out = append(out, pr.plan.Wind[i].Time)
	}
	for i := range pr.plan.Swell {
		out = append(out, pr.plan.Swell[i].Time)
	}
	for i := range pr.plan.Stream {
		out = append(out, pr.plan.Stream[i].Time)
	}
	slices.SortFunc(out, time.Time.Compare)
	return slices.CompactFunc(out, time.Time.Equal)
}

// turnsIn are the turns after one time and before another.
func (c *checker) turnsIn(from, to time.Time) []time.Time {
	i := sort.Search(len(c.turns), func(k int) bool { return c.turns[k].After(from) })
	j := i + sort.Search(len(c.turns)-i, func(k int) bool { return !c.turns[i+k].Before(to) })
	return c.turns[i:j]
}

// straight is how many times longer than a look all that is given must run
// straight about it, for one look in its middle to do: what changes in half of it
// is then under a fortieth of what changes from row to row.
const straight = 20

// looks adds the times at which what is given is looked at from one time to another:
// in the middle where nothing turns about then, else at both ends and at each turn
// between.
func (c *checker) looks(out []time.Time, from, to time.Time) []time.Time {
	lasts := to.Sub(from)
	if len(c.turnsIn(from.Add(-straight/2*lasts), to.Add(straight/2*lasts))) == 0 {
		return append(out, from.Add(lasts/2))
	}
	return append(append(append(out, from), c.turnsIn(from, to)...), to)
}

// times are those at which a stay is looked at: its ends, each half hour, each
// turn of what is given, and each turn of the tide, which opens and shuts banks.
func (s *stayCheck) times() []time.Time {
	if s.looked != nil {
		return s.looked
	}
	from, to := s.stop.Arrive, s.stop.Leave
	turns := s.turnsIn(from, to)
	out := make([]time.Time, 0, max(0, int(to.Sub(from)/stayStep))+len(turns)+16)
	out = append(out, from, to)
	for t := from.Add(stayStep); t.Before(to); t = t.Add(stayStep) {
		out = append(out, t)
	}
	out = append(out, turns...)
	if s.heights.tide != nil {
		for _, e := range s.heights.tide.Events(from, to) {
			out = append(out, e.Time)
		}
	}
	slices.SortFunc(out, time.Time.Compare)
	s.looked = slices.CompactFunc(out, time.Time.Equal)
	return s.looked
}
