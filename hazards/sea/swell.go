package sea

import "time"

// Swell is the swell at a time: where it comes from in degrees true, its
// significant height in open water in metres, and its period in seconds, 0 where
// it is not given.
type Swell struct {
	Time             time.Time
	FromDeg          float64
	HeightM, PeriodS float64
}

// SwellSeries is the swell over time. A nil or empty series knows no swell.
type SwellSeries struct {
	times timeline
	rows  []Swell
}

// NewSwellSeries checks and keeps the rows, which must be in the order of time.
// Errors name the row and member as in the plan file, "swell[2].height_m".
func NewSwellSeries(rows []Swell) (*SwellSeries, error) {
	times, err := newTimeline("swell", len(rows), func(i int) time.Time { return rows[i].Time })
	if err != nil {
		return nil, err
	}
	for i, r := range rows {
		if err := firstError(
			inRange("swell", i, "from_deg", r.FromDeg, 0, 360),
			inRange("swell", i, "height_m", r.HeightM, 0, 40),
			inRange("swell", i, "period_s", r.PeriodS, 0, 60)); err != nil {
			return nil, err
		}
	}
	return &SwellSeries{times: times, rows: append([]Swell(nil), rows...)}, nil
}

// At is the swell at t, by the same rules as WindSeries.At.
func (s *SwellSeries) At(t time.Time) (sw Swell, ok bool) {
	if s == nil {
		return Swell{}, false
	}
	i, j, share, ok := s.times.place(t)
	if !ok {
		return Swell{}, false
	}
	a, b := s.rows[i], s.rows[j]
	return Swell{
		Time:    t,
		FromDeg: betweenDeg(a.FromDeg, b.FromDeg, share),
		HeightM: between(a.HeightM, b.HeightM, share),
		PeriodS: between(a.PeriodS, b.PeriodS, share),
	}, true
}
