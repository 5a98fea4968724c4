package sea

import (
	"fmt"
	"math"
	"sort"
	"time"
)

// maxWindKn is more than any wind measured at the surface; a larger number is a
// mistake of unit.
const maxWindKn = 250

// Wind is the wind at a time: where it comes from in degrees true, its
// 10-minute mean at 10 m and its gusts in knots.
type Wind struct {
	Time       time.Time
	FromDeg    float64
	Kn, GustKn float64
}

// joinedFor is how far apart in time two rows of the wind may be for the wind
// between them to be known (plan-file contract, section 4; judgement). Rows
// farther apart stand for hold each, as the ends do.
const joinedFor = 12 * time.Hour

// WindSeries is the wind over time. A nil or empty series knows no wind.
type WindSeries struct {
	times timeline
	rows  []Wind
	past  run
}

// run is the wind as a line through points, for means over time.
type run struct {
	clock []float64 // seconds from the first row to each point; never fall
	kn    []float64
	sum   []float64 // knots × seconds blown from the first row to each point
}

// NewWindSeries checks and keeps the rows, which must be in the order of time.
// Errors name the row and member as in the plan file, "wind[2].kn". A gust below
// the mean is refused; an absent one must have got its default before.
func NewWindSeries(rows []Wind) (*WindSeries, error) {
	times, err := newTimeline("wind", len(rows), func(i int) time.Time { return rows[i].Time })
	if err != nil {
		return nil, err
	}
	for i, w := range rows {
		if err := w.check(i); err != nil {
			return nil, err
		}
	}
	s := &WindSeries{times: times, rows: append([]Wind(nil), rows...)}
	for i := range rows {
		s.addRow(i)
	}
	return s, nil
}

// addRow adds a row to what has blown. What blew where two rows do not join is
// taken as the stronger of the two, so that no sea is the smaller for it.
func (s *WindSeries) addRow(i int) {
	at := seconds(s.times[0], s.times[i])
	if i > 0 && !s.joined(i-1) {
		a, b := s.rows[i-1].Kn, s.rows[i].Kn
		end := s.past.clock[len(s.past.clock)-1] + hold.Seconds()
		s.past.add(end, a)
		s.past.add(end, max(a, b))
		s.past.add(at-hold.Seconds(), max(a, b))
		s.past.add(at-hold.Seconds(), b)
	}
	s.past.add(at, s.rows[i].Kn)
}

// joined reports whether the wind is known from row i to the next.
func (s *WindSeries) joined(i int) bool {
	return seconds(s.times[i], s.times[i+1]) <= joinedFor.Seconds()
}

func (w Wind) check(i int) error {
	err := firstError(
		inRange("wind", i, "from_deg", w.FromDeg, 0, 360),
		inRange("wind", i, "kn", w.Kn, 0, maxWindKn),
		inRange("wind", i, "gust_kn", w.GustKn, 0, 2*maxWindKn))
	if err == nil && w.GustKn < w.Kn {
		err = fmt.Errorf("wind[%d].gust_kn: %g is below the mean of %g kn, gusts of at least the mean are wanted", i, w.GustKn, w.Kn)
	}
	return err
}

// At is the wind at t: speed and gusts linear between rows, direction the short
// way, exact opposites clockwise. The end rows stand for 3 h beyond them (both
// limits included), then ok is false.
func (s *WindSeries) At(t time.Time) (w Wind, ok bool) {
	if s == nil {
		return Wind{}, false
	}
	i, j, share, ok := s.times.place(t)
	if ok && i != j && !s.joined(i) {
		i, j, ok = s.times.beside(t, i)
		share = 0
	}
	if !ok {
		return Wind{}, false
	}
	a, b := s.rows[i], s.rows[j]
	return Wind{
		Time:    t,
		FromDeg: betweenDeg(a.FromDeg, b.FromDeg, share),
		Kn:      between(a.Kn, b.Kn, share),
		GustKn:  between(a.GustKn, b.GustKn, share),
	}, true
}

// MeanKn is the mean speed from one time to a later one: the exact integral of
// the piecewise linear speed over its length; the speed itself where the two
// times are one. ok is false where the series does not cover both times, as for
// At, or they are in the wrong order.
func (s *WindSeries) MeanKn(from, to time.Time) (kn float64, ok bool) {
	_, fromOK := s.At(from)
	last, toOK := s.At(to)
	if !fromOK || !toOK || to.Before(from) || s.gapIn(from, to) {
		return 0, false
	}
	if to.Equal(from) {
		return last.Kn, true
	}
	first := s.times[0]
	return (s.past.upTo(seconds(first, to)) - s.past.upTo(seconds(first, from))) / seconds(from, to), true
}

// TurnDeg is the greatest angle, 0 to 180, between two rows of which something lies
// between two times. The closer to 180 it is, the less is known of which way round the
// wind goes from one to the other.
func (s *WindSeries) TurnDeg(from, to time.Time) float64 {
	greatest := 0.0
	if s == nil {
		return greatest
	}
	for i := max(0, s.times.next(from)-1); i+1 < len(s.rows) && s.times[i].Before(to); i++ {
		if s.joined(i) && from.Before(s.times[i+1]) {
			greatest = max(greatest, math.Abs(turnDeg(s.rows[i].FromDeg, s.rows[i+1].FromDeg)))
		}
	}
	return greatest
}

// gapIn reports whether between two times at which the wind is known there is one
// at which it is not.
func (s *WindSeries) gapIn(from, to time.Time) bool {
	for i := max(0, s.times.next(from)-1); i+1 < len(s.rows) && s.times[i].Before(to); i++ {
		if !s.joined(i) && from.Before(s.times[i+1].Add(-hold)) && to.After(s.times[i].Add(hold)) {
			return true
		}
	}
	return false
}

func (r *run) add(x, kn float64) {
	sum := 0.0
	if n := len(r.clock); n > 0 {
		sum = r.sum[n-1] + (r.kn[n-1]+kn)/2*(x-r.clock[n-1])
	}
	r.clock, r.kn, r.sum = append(r.clock, x), append(r.kn, kn), append(r.sum, sum)
}

// upTo is the knots × seconds blown from the first row to x seconds after it,
// negative before it. The end rows are held without limit.
func (r *run) upTo(x float64) float64 {
	j := sort.SearchFloat64s(r.clock, x)
	switch {
	case j == 0:
		return r.kn[0] * x
	case j == len(r.clock):
		return r.sum[j-1] + r.kn[j-1]*(x-r.clock[j-1])
	}
	kn, since := r.kn[j-1], x-r.clock[j-1]
	slope := (r.kn[j] - kn) / (r.clock[j] - r.clock[j-1])
	return r.sum[j-1] + (kn+slope*since/2)*since
}
