package hazards

import (
	"slices"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// What differs between passing a thing on a leg and lying beside it.

// when gives the time meant: of passing, or of the whole stay.
func (o *obstacles) when(from, to float64) (start, end time.Time) {
	if o.stay != nil {
		return o.stay.stop.Arrive, o.stay.stop.Leave
	}
	return o.track.TimeAt(o.leg, from), o.track.TimeAt(o.leg, to)
}

// padded is when, widened under way by what a plan's times are worth.
func (o *obstacles) padded(from, to float64) (start, end time.Time) {
	start, end = o.when(from, to)
	if o.stay == nil {
		start, end = start.Add(-underWayPad), end.Add(underWayPad)
	}
	return start, end
}

// where is the geometry of a finding.
func (o *obstacles) where(from, to float64) orb.Geometry {
	if o.stay != nil {
		return o.stay.stop.Stay.At
	}
	return line(o.leg, from, to)
}

// inForce tells whether a season holds at any of the time meant.
func (o *obstacles) inForce(s chart.Season, from, to float64) bool {
	start, end := o.when(from, to)
	return s.Touches(start.In(o.zone()), end)
}

// eyeSpans are the stretches on which land is passed by eye: within berth_m of a
// berth or a harbour end of the route; at a stay all or nothing.
func (o *obstacles) eyeSpans() []chart.Span {
	if o.stay == nil {
		return o.harbours[o.index]
	}
	at := o.stay.stop.Stay
	near := at.Kind == plan.AtBerth || slices.ContainsFunc(o.plan.Berths, func(b plan.Berth) bool {
		return geo.DistanceM(b.At, at.At) < o.plan.Margins.BerthM
	})
	if near {
		return []chart.Span{{}}
	}
	return nil
}

// waveAllowance is the share of the significant height to keep, metres.
func (o *obstacles) waveAllowance(from, to float64) float64 {
	hs := 0.0
	if o.stay != nil {
		hs = o.stay.hsM
	} else {
		hs, _, _ = o.waves(o.index, from, to)
	}
	return o.plan.Margins.WaveFraction * hs
}

// nextRoute is the route that a change of time for the thing would move.
func (o *obstacles) nextRoute() int {
	if o.stay != nil {
		return o.leg.Route + 1
	}
	return o.leg.Route
}
