package hazards

import (
	"fmt"
	"math"
	"time"

	"keelroom/hazards/plan"
	"keelroom/hazards/tide"
)

// underWayPad widens the time meant, both ways, for heights of tide under way:
// nobody passes on the second.
const underWayPad = 15 * time.Minute

// NewTide makes the tide of a plan. The error names the member and what is
// wrong with it.
func NewTide(s *plan.TideSource) (tide.Tide, error) {
	if s == nil {
		return nil, fmt.Errorf("plan.tide: no tide is given")
	}
	t, err := bareTide(s)
	if err != nil {
		return nil, fmt.Errorf("plan.tide.%w", err)
	}
	if s.AdjustM != 0 {
		t = tide.Adjusted(t, s.AdjustM)
	}
	return t, nil
}

func bareTide(s *plan.TideSource) (tide.Tide, error) {
	switch s.Form() {
	case plan.Harmonic:
		z0 := 0.0
		if s.Z0M != nil {
			z0 = *s.Z0M
		}
		cs := make([]tide.Constituent, len(s.Constituents))
		for i, c := range s.Constituents {
			cs[i] = tide.Constituent{Name: c.Name, AmplitudeM: c.AmplitudeM, PhaseDeg: c.PhaseDeg}
		}
		return asTide(tide.NewHarmonicOf(z0, cs, tide.Record{Years: int(s.RecordYears), LeftOut: s.LeftOut, LeftOutM: s.LeftOutM}))
	case plan.Table:
		return asTide(tide.NewTable(s.Waters(time.UTC)))
	case plan.SecondaryPort:
		return secondaryTide(s.Secondary)
	case plan.Tideless:
		return tide.NewTideless(*s.LevelM), nil
	}
	return nil, fmt.Errorf("form: none, or several, of constituents, events, reference and level_m are given; one is wanted")
}

// asTide keeps a nil pointer from becoming a tide that is not nil.
func asTide[T tide.Tide](t T, err error) (tide.Tide, error) {
	if err != nil {
		return nil, err
	}
	return t, nil
}

func secondaryTide(s *plan.Secondary) (tide.Tide, error) {
	if s.Reference == nil {
		return nil, fmt.Errorf("reference: the reference port is missing")
	}
	ref, err := bareTide(s.Reference)
	if err != nil {
		return nil, fmt.Errorf("reference.%w", err)
	}
	if s.Reference.AdjustM != 0 {
		ref = tide.Adjusted(ref, s.Reference.AdjustM)
	}
	return asTide(tide.NewSecondary(ref, difference(s.High), difference(s.Low)))
}

func difference(c *plan.Correction) tide.Difference {
	var d tide.Difference
	if c == nil {
		return d
	}
	d.Minutes = c.Minutes
	if c.Metres != nil {
		d.Metres = *c.Metres
	}
	if c.Factor != nil {
		d.Factor = *c.Factor
	}
	return d
}

// curveSlackM is more than two curves of the same tide differ by: what is asked over a
// long time may come from another than what is asked at an hour of it.
const curveSlackM = 0.001

// heights asks the tide for the bounds the checks want. A nil tide knows none.
type heights struct {
	tide    tide.Tide
	marginM float64 // the plan's tide_m
	// within: she is there at the times asked for, or up to so much later.
	within time.Duration
}

// least is the least height over [from, to] and the margin to take off it; ok
// is false where any of it is unknown.
func (h heights) least(from, to time.Time) (heightM, marginM float64, ok bool) {
	return h.bound(from, to, func(to time.Time) (float64, bool) { return h.tide.Least(from, to) })
}

// greatest is the greatest height over [from, to] and the margin to add to it.
func (h heights) greatest(from, to time.Time) (heightM, marginM float64, ok bool) {
	return h.bound(from, to, func(to time.Time) (float64, bool) { return h.tide.Greatest(from, to) })
}

func (h heights) bound(from, to time.Time, ask func(to time.Time) (float64, bool)) (heightM, marginM float64, ok bool) {
	if h.tide == nil {
		return 0, 0, false
	}
	to = to.Add(h.within)
	heightM, ok = ask(to)
	if !ok {
		return 0, 0, false
	}
	marginM, ok = h.margin(from, to)
	if h.within > 0 {
		marginM += curveSlackM
	}
	return heightM, marginM, ok
}

// margin is the plan's, or a tenth of the tide's range where heights between
// high and low water are only interpolated.
func (h heights) margin(from, to time.Time) (marginM float64, ok bool) {
	if !h.tide.Method().Interpolated() {
		return h.marginM, true
	}
	margin := h.marginM
	times := []time.Time{from, to}
	for _, e := range h.tide.Events(from, to) {
		times = append(times, e.Time)
	}
	for i, t := range times {
		r, ok := h.tide.RangeM(t)
		if !ok && i < 2 {
			return 0, false
		}
		margin = math.Max(margin, r/10)
	}
	return margin, true
}

// greatestMargin is the greatest margin over [from, to], as far as the tide is
// known.
func (h heights) greatestMargin(from, to time.Time) float64 {
	margin := h.marginM
	if h.tide == nil || !h.tide.Method().Interpolated() {
		return margin
	}
	for _, e := range h.tide.Events(from, to) {
		if r, ok := h.tide.RangeM(e.Time); ok {
			margin = math.Max(margin, r/10)
		}
	}
	return margin
}

// windows gives the times within [from, to] at which, for 15 minutes each way,
// the height is at least (or with above false, at most) a level. The tide is
// monotonous between its turning points, so each end is one root, found to a
// second. What is unknown is in no window.
func (h heights) windows(levelM float64, above bool, from, to time.Time) [][2]time.Time {
	if h.tide == nil {
		return nil
	}
	sign := 1.0
	if !above {
		sign = -1
	}
	over := func(t time.Time) bool {
		v, ok := h.tide.HeightM(t)
		return ok && sign*(v-levelM) >= 0
	}
	var out [][2]time.Time
	for _, w := range stretchesOver(over, h.knots(from.Add(-underWayPad), to.Add(underWayPad))) {
		a, b := later(w[0].Add(underWayPad), from), earlier(w[1].Add(-underWayPad), to)
		if a.Before(b) {
			out = append(out, [2]time.Time{a, b})
		}
	}
	return out
}

// windowsToTell are the windows as a report tells them: none at all, told as an empty
// list, only where the whole of [from, to] is known.
func (h heights) windowsToTell(levelM float64, above bool, from, to time.Time) [][2]time.Time {
	out := h.windows(levelM, above, from, to)
	if out == nil && h.knownAll(from, to) {
		return [][2]time.Time{}
	}
	return out
}

// knownAll tells whether the tide is known for the whole of [from, to].
func (h heights) knownAll(from, to time.Time) bool {
	if h.tide == nil {
		return false
	}
	begin, end, bounded := h.tide.Covers()
	return !bounded || !begin.After(from) && !end.Before(to)
}

// stretchesOver gives the stretches over which a condition holds that changes
// at most once between two knots.
func stretchesOver(over func(time.Time) bool, knots []time.Time) [][2]time.Time {
	var out [][2]time.Time
	was, open := false, knots[0]
	for i, t := range knots {
		now := over(t)
		switch {
		case now && !was && i > 0:
			_, open = rootBetween(over, knots[i-1], t)
		case !now && was:
			end, _ := rootBetween(func(u time.Time) bool { return !over(u) }, knots[i-1], t)
			out = append(out, [2]time.Time{open, end})
		}
		was = now
	}
	if was {
		out = append(out, [2]time.Time{open, knots[len(knots)-1]})
	}
	return out
}

// knots are the ends of [from, to], the turning points inside, and the ends of
// what is known.
func (h heights) knots(from, to time.Time) []time.Time {
	out := []time.Time{from}
	begin, end, bounded := h.tide.Covers()
	if bounded && begin.After(from) && begin.Before(to) {
		out = append(out, begin.Add(-time.Second), begin)
	}
	for _, e := range h.tide.Events(from, to) {
		if e.Time.After(out[len(out)-1]) {
			out = append(out, e.Time)
		}
	}
	if last := out[len(out)-1]; bounded && !end.Before(last) && end.Before(to) {
		if end.After(last) {
			out = append(out, end)
		}
		out = append(out, end.Add(time.Second))
	}
	return append(out, to)
}

// rootBetween finds, to a second, where a condition begins to hold, between a
// time at which it does not and one at which it does: the last time known to
// be without it, and the first with it.
func rootBetween(now func(time.Time) bool, no, yes time.Time) (last, first time.Time) {
	for yes.Sub(no) > time.Second {
		mid := no.Add(yes.Sub(no) / 2)
		if now(mid) {
			yes = mid
		} else {
			no = mid
		}
	}
	return no, yes
}

func later(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

func earlier(a, b time.Time) time.Time {
	if b.Before(a) {
		return b
	}
	return a
}
