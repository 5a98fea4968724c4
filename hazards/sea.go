package hazards

import (
	"fmt"
	"math"
	"time"

	"github.com/paulmach/orb"

	"keelroom/hazards/plan"
	"keelroom/hazards/sea"
)

// shore casts rays for the sea model: over the chart, with the tide that makes
// banks dry or wet and the water deep.
type shore struct {
	ground  *ground
	heights heights
	offset  func() (offsetM float64, ok bool)
	last    *topMemo
}

// topMemo keeps the last height asked for: the rays of a fan share their time.
type topMemo struct {
	at    time.Time
	topM  float64
	known bool
}

// Cast implements sea.Caster. A bank stops waves only where all of it is
// surely dry; a depth from above takes the greatest height of tide. Without a
// known height no bank is dry and all water is deep. Rays run in whole degrees,
// the nearest to the direction asked: half a degree is nothing to a wind.
func (s shore) Cast(from orb.Point, towardDeg, maxM float64, at time.Time) sea.Ray {
	top, known := s.top(at)
	r := s.ground.cast(from, towardDeg, maxM, top, known)
	depth := math.Inf(1)
	if known {
		depth = math.Max(0.1, r.MeanDepthM+top)
	}
	return sea.Ray{LengthM: r.LengthM, Open: r.Open, MeanDepthM: depth}
}

// Exposure implements sea.Exposer, for the nearest whole degree, as rays run in
// those.
func (s shore) Exposure(from orb.Point, fromDeg float64, at time.Time) sea.Exposure {
	top, known := s.top(at)
	return s.ground.exposure(from, fromDeg, top, known)
}

// top is the greatest height of the water above the sounding datum.
func (s shore) top(at time.Time) (float64, bool) {
	if !s.last.at.Equal(at) || s.last.at.IsZero() {
		s.last.at = at
		s.last.topM, s.last.known = s.workOutTop(at)
	}
	return s.last.topM, s.last.known
}

func (s shore) workOutTop(at time.Time) (float64, bool) {
	h, margin, ok := s.heights.greatest(at.Add(-underWayPad), at.Add(underWayPad))
	if !ok {
		return 0, false
	}
	offset, ok := s.offset()
	return h + margin + offset, ok
}

// newSea makes the sea model of a plan. Errors name the member.
func (pr preparing) newSea() error {
	wind, err := windSeries(pr.plan.Wind)
	if err != nil {
		return err
	}
	swell, err := swellSeries(pr.plan.Swell)
	if err != nil {
		return err
	}
	pr.wind = wind
	pr.sea = &sea.Model{Wind: wind, Swell: swell, Cast: pr.shore(), OpenFetchM: pr.plan.Margins.OpenFetchKm * 1000}
	return nil
}

// shore casts rays over the chart with the tide of the plan.
func (pr preparing) shore() shore {
	return shore{ground: pr.ground, heights: pr.heights, offset: pr.levels().chartsOffset, last: &topMemo{}}
}

// WindOf is the wind of a plan over time. The error names the member.
func WindOf(p *plan.Plan) (*sea.WindSeries, error) {
	s, err := windSeries(p.Wind)
	if err != nil {
		return nil, fmt.Errorf("plan.%w", err)
	}
	return s, nil
}

func windSeries(given []plan.Wind) (*sea.WindSeries, error) {
	rows := make([]sea.Wind, len(given))
	for i, w := range given {
		rows[i] = sea.Wind{Time: w.Time, FromDeg: w.FromDeg, Kn: w.Kn, GustKn: w.Gust()}
	}
	return sea.NewWindSeries(rows)
}

func swellSeries(rows []plan.Swell) (*sea.SwellSeries, error) {
	if len(rows) == 0 {
		return nil, nil
	}
	out := make([]sea.Swell, len(rows))
	for i, s := range rows {
		out[i] = sea.Swell{Time: s.Time, FromDeg: s.FromDeg, HeightM: s.HeightM, PeriodS: s.PeriodS}
	}
	return sea.NewSwellSeries(out)
}

func (pr preparing) newStream() error {
	if len(pr.plan.Stream) == 0 {
		return nil
	}
	rows := make([]sea.Stream, len(pr.plan.Stream))
	for i, s := range pr.plan.Stream {
		rows[i] = sea.Stream{Time: s.Time, TowardDeg: s.TowardDeg, Kn: s.Kn}
	}
	var err error
	pr.stream, err = sea.NewStreamSeries(rows)
	return err
}
