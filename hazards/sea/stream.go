package sea

import "time"

// Stream is the tidal stream or current at a time: where it runs toward in
// degrees true, and its rate in knots.
type Stream struct {
	Time          time.Time
	TowardDeg, Kn float64
}

// StreamSeries is the stream over time. A nil or empty series knows no stream.
type StreamSeries struct {
	times timeline
	rows  []Stream
}

// NewStreamSeries checks and keeps the rows, which must be in the order of time.
// Errors name the row and member as in the plan file, "stream[2].kn".
func NewStreamSeries(rows []Stream) (*StreamSeries, error) {
	times, err := newTimeline("stream", len(rows), func(i int) time.Time { return rows[i].Time })
	if err != nil {
		return nil, err
	}
	for i, r := range rows {
		if err := firstError(
			inRange("stream", i, "toward_deg", r.TowardDeg, 0, 360),
			inRange("stream", i, "kn", r.Kn, 0, 40)); err != nil {
			return nil, err
		}
	}
	return &StreamSeries{times: times, rows: append([]Stream(nil), rows...)}, nil
}

// At is the stream at t, by the same rules as WindSeries.At.
func (s *StreamSeries) At(t time.Time) (st Stream, ok bool) {
	if s == nil {
		return Stream{}, false
	}
	i, j, share, ok := s.times.place(t)
	if !ok {
		return Stream{}, false
	}
	a, b := s.rows[i], s.rows[j]
	return Stream{
		Time:      t,
		TowardDeg: betweenDeg(a.TowardDeg, b.TowardDeg, share),
		Kn:        between(a.Kn, b.Kn, share),
	}, true
}
