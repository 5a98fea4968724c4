package tide

import (
	"sort"
	"time"
)

// Tide gives the height of tide above its datum.
//
// Intervals are closed. An interval whose end lies before its beginning is read as its beginning
// alone.
type Tide interface {
	// HeightM is the height in metres above the datum at t. ok is false outside what is known.
	HeightM(t time.Time) (heightM float64, ok bool)
	// Events are the high and low waters from from to to, both included, in order of time; those
	// outside what is known are left out. High and low water alternate, but for a table's double waters.
	Events(from, to time.Time) []Event
	// Least is the least height in metres from from to to. ok is false if any part is unknown.
	Least(from, to time.Time) (heightM float64, ok bool)
	// Greatest is the greatest height in metres from from to to. ok is false if any part is unknown.
	Greatest(from, to time.Time) (heightM float64, ok bool)
	// RangeM is the range in metres of the tide about t: the difference between the two turning
	// points on either side of t (at a turning point: the larger of its two neighbouring ranges).
	// ok is false where they are not both known.
	RangeM(t time.Time) (rangeM float64, ok bool)
	// Method is how the heights are worked out.
	Method() Method
	// Describe is the method with its uncertainty, in one line for people.
	Describe() string
	// Covers is the time for which heights are known. bounded is false where that is any time at
	// which a skipper may plan, and from and to are then only the ends of the astronomy.
	Covers() (from, to time.Time, bounded bool)
}

// Event is a turning point of the tide.
type Event struct {
	Time    time.Time
	High    bool // high water, else low water
	HeightM float64
	Double  bool // one of two like waters of a table that run, see Water
}

// Kind is "HW" or "LW".
func (e Event) Kind() string {
	if e.High {
		return HighWater
	}
	return LowWater
}

// Method is how heights of tide are worked out.
type Method int

// The methods.
const (
	MethodHarmonic Method = iota
	MethodTable
	MethodSecondary
	MethodTideless
)

// String names the method as reports do. Describe says more.
func (m Method) String() string {
	switch m {
	case MethodHarmonic:
		return "harmonic"
	case MethodTable:
		return "tide table"
	case MethodSecondary:
		return "secondary port"
	case MethodTideless:
		return "tideless"
	}
	return "unknown"
}

// Interpolated says whether heights between high and low water are only interpolated, so that the
// margin is at least a tenth of the range.
func (m Method) Interpolated() bool { return m == MethodTable || m == MethodSecondary }

// ordered gives the interval that is meant when to lies before from.
func ordered(from, to time.Time) (time.Time, time.Time) {
	if to.Before(from) {
		return from, from
	}
	return from, to
}

// extreme is the least height (sign −1) or the greatest (sign +1) of t from from to to, which are
// at an end or at a turning point inside.
func extreme(t Tide, from, to time.Time, sign float64) (float64, bool) {
	from, to = ordered(from, to)
	best, ok := t.HeightM(from)
	end, ok2 := t.HeightM(to)
	if !ok || !ok2 {
		return 0, false
	}
	if sign*end > sign*best {
		best = end
	}
	for _, e := range t.Events(from, to) {
		if sign*e.HeightM > sign*best {
			best = e.HeightM
		}
	}
	return best, true
}

// inSpan gives the part of events, which are in order, from from to to.
func inSpan(events []Event, from, to time.Time) []Event {
	from, to = ordered(from, to)
	i := sort.Search(len(events), func(i int) bool { return !events[i].Time.Before(from) })
	j := sort.Search(len(events), func(i int) bool { return events[i].Time.After(to) })
	if i >= j {
		return nil
	}
	return events[i:j:j]
}

// rangeAbout is RangeM over a list of turning points in order.
func rangeAbout(events []Event, t time.Time) (float64, bool) {
	i := sort.Search(len(events), func(i int) bool { return !events[i].Time.Before(t) })
	if i == len(events) {
		return 0, false
	}
	if !events[i].Time.Equal(t) {
		return rangeBetween(events, i-1)
	}
	before, okBefore := rangeBetween(events, i-1)
	after, okAfter := rangeBetween(events, i)
	return max(before, after), okBefore || okAfter
}

// rangeBetween is the range between turning points i and i+1. Between the two of a double water it
// is that of the tide beside them: how far the water falls between the two is in no table.
func rangeBetween(events []Event, i int) (float64, bool) {
	if i < 0 || i+1 >= len(events) {
		return 0, false
	}
	if pair(events, i+1) {
		before, okBefore := rangeBetween(events, i-1)
		after, okAfter := rangeBetween(events, i+1)
		return max(before, after), okBefore || okAfter
	}
	d := events[i+1].HeightM - events[i].HeightM
	return max(d, -d), true
}
