package sea

import (
	"fmt"
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

// WindSeries is the wind over time. A nil or empty series knows no wind.
type WindSeries struct {
	times timeline
	rows  []Wind
	clock []float64 // seconds from the first row to each row
	runKn []float64 // knots × seconds blown from the first row to each row
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
	n := len(rows)
	s := &WindSeries{times: times, rows: append([]Wind(nil), rows...), clock: make([]float64, n), runKn: make([]float64, n)}
	for i := 1; i < n; i++ {
		s.clock[i] = seconds(times[0], times[i])
		s.runKn[i] = s.runKn[i-1] + (rows[i-1].Kn+rows[i].Kn)/2*(s.clock[i]-s.clock[i-1])
	}
	return s, nil
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
	if !fromOK || !toOK || to.Before(from) {
		return 0, false
	}
	if to.Equal(from) {
		return last.Kn, true
	}
	first := s.times[0]
	return (s.run(seconds(first, to)) - s.run(seconds(first, from))) / seconds(from, to), true
}

// run is the knots × seconds blown from the first row to x seconds after it,
// negative before it. The end rows are held without limit.
func (s *WindSeries) run(x float64) float64 {
	j := sort.SearchFloat64s(s.clock, x)
	switch {
	case j == 0:
		return s.rows[0].Kn * x
	case j == len(s.rows):
		return s.runKn[j-1] + s.rows[j-1].Kn*(x-s.clock[j-1])
	}
	kn, since := s.rows[j-1].Kn, x-s.clock[j-1]
	slope := (s.rows[j].Kn - kn) / (s.clock[j] - s.clock[j-1])
	return s.runKn[j-1] + (kn+slope*since/2)*since
}

// rowTimes are the times of the rows from one time to another, both included.
func (s *WindSeries) rowTimes(from, to time.Time) []time.Time {
	i, j := s.times.next(from), s.times.next(to)
	if i > 0 && s.times[i-1].Equal(from) {
		i--
	}
	return s.times[i:max(i, j)]
}
