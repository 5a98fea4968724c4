package sea

import (
	"fmt"
	"math"
	"sort"
	"time"
)

// hold is how long the first and the last row of a series stand for the time
// beyond them. Common practice, no source.
const hold = 3 * time.Hour

// timeline is the times of a series' rows, strictly increasing.
type timeline []time.Time

// newTimeline checks the times of n rows of the plan's member.
func newTimeline(member string, n int, at func(int) time.Time) (timeline, error) {
	tl := make(timeline, n)
	for i := range tl {
		tl[i] = at(i)
		if tl[i].IsZero() {
			return nil, fmt.Errorf("%s[%d].time: missing, a time with its offset is wanted", member, i)
		}
		if i > 0 && !tl[i].After(tl[i-1]) {
			return nil, fmt.Errorf("%s[%d].time: %s is not after the row before it, rows in the order of time are wanted",
				member, i, tl[i].Format(time.RFC3339))
		}
	}
	return tl, nil
}

// place finds the rows i and j about t and t's share of the way from i to j.
// ok is false beyond the hold at either end, or without rows.
func (tl timeline) place(t time.Time) (i, j int, share float64, ok bool) {
	n := len(tl)
	if n == 0 || t.Before(tl[0].Add(-hold)) || t.After(tl[n-1].Add(hold)) {
		return 0, 0, 0, false
	}
	j = tl.next(t)
	switch {
	case j == 0:
		return 0, 0, 0, true
	case j == n:
		return n - 1, n - 1, 0, true
	}
	i = j - 1
	return i, j, seconds(tl[i], t) / seconds(tl[i], tl[j]), true
}

// beside finds, of two rows that do not join, i and the one after it, that which
// stands for t; ok is false where neither does.
func (tl timeline) beside(t time.Time, i int) (row, same int, ok bool) {
	switch {
	case !t.After(tl[i].Add(hold)):
		return i, i, true
	case !t.Before(tl[i+1].Add(-hold)):
		return i + 1, i + 1, true
	}
	return 0, 0, false
}

// next is the first row after t, or the number of rows.
func (tl timeline) next(t time.Time) int {
	return sort.Search(len(tl), func(k int) bool { return tl[k].After(t) })
}

// within is the rows' times from one time to another, both included. They are
// not to be changed.
func (tl timeline) within(from, to time.Time) []time.Time {
	i, j := tl.next(from), tl.next(to)
	if i > 0 && tl[i-1].Equal(from) {
		i--
	}
	return tl[i:max(i, j)]
}

// seconds from a to b. It does not saturate after 292 years as Time.Sub does.
func seconds(a, b time.Time) float64 {
	return float64(b.Unix()-a.Unix()) + float64(b.Nanosecond()-a.Nanosecond())/1e9
}

// between is linear: a at share 0, b at share 1, both exactly.
func between(a, b, share float64) float64 {
	return a*(1-share) + b*share
}

// betweenDeg turns from a to b the short way. Exact opposites veer, which is
// clockwise. The result is in [0, 360).
func betweenDeg(a, b, share float64) float64 {
	return fullCircle(a + turnDeg(a, b)*share)
}

// turnDeg is the turn from bearing a to bearing b, clockwise positive. Opposites
// turn clockwise; they are recognised through the rounding of decimal input,
// which for bearings is far below a billionth of a degree.
func turnDeg(a, b float64) float64 {
	const rounding = 1e-9
	d := fullCircle(b - a)
	if d > 180+rounding {
		d -= 360
	}
	return d
}

// fullCircle brings a bearing in degrees into [0, 360).
func fullCircle(deg float64) float64 {
	d := math.Mod(deg, 360)
	if d < 0 {
		d += 360
	}
	if d >= 360 { // a tiny negative angle plus 360 rounds up to 360
		return 0
	}
	return d
}

// inRange refuses a value outside lo to hi, and one that is not a number.
func inRange(member string, i int, name string, v, lo, hi float64) error {
	if v >= lo && v <= hi {
		return nil
	}
	return fmt.Errorf("%s[%d].%s: %g, a number from %g to %g is wanted", member, i, name, v, lo, hi)
}

// firstError is the first of the errors that is not nil.
func firstError(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
