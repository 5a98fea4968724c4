package hazards

import (
	"slices"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
)

// situation is how she meets what the charts show: in passing on a leg, or lying
// beside it. What lies about her is judged once, against a situation. [from, to] are
// metres along the leg; where she lies there is one place.
type situation interface {
	// when is the time meant: of passing, or of the whole stay.
	when(from, to float64) (start, end time.Time)
	// pad is what a plan's times are worth, either way.
	pad() time.Duration
	// where is the geometry of a finding.
	where(from, to float64) orb.Geometry
	// eyeSpans are the stretches on which land is passed by eye.
	eyeSpans() []chart.Span
	// hsM is the greatest significant height of the sea then.
	hsM(from, to float64) float64
	// nextRoute is the route that a change of time for the thing would move.
	nextRoute() int
	// atStay tells that she lies there. The leg that ends there has told already what
	// is told once a day.
	atStay() bool
}

// onLeg is passing things on a leg.
type onLeg struct {
	*checker
	index int
	leg   *passage.Leg
}

func (l onLeg) when(from, to float64) (start, end time.Time) {
	return l.track.TimeAt(l.leg, from), l.track.TimeAt(l.leg, to)
}

func (l onLeg) pad() time.Duration { return underWayPad }

func (l onLeg) where(from, to float64) orb.Geometry { return line(l.leg, from, to) }

// eyeSpans are within berth_m of a berth or a harbour end of the route.
func (l onLeg) eyeSpans() []chart.Span { return l.harbours[l.index] }

func (l onLeg) hsM(from, to float64) float64 {
	hs, _, _ := l.waves(l.index, from, to)
	return hs
}

func (l onLeg) nextRoute() int { return l.leg.Route }

func (l onLeg) atStay() bool { return false }

// atPlace is lying at a stay.
type atPlace struct{ stay *stayCheck }

func (p atPlace) when(_, _ float64) (start, end time.Time) {
	return p.stay.stop.Arrive, p.stay.stop.Leave
}

func (p atPlace) pad() time.Duration { return 0 }

func (p atPlace) where(_, _ float64) orb.Geometry { return p.stay.stop.Stay.At }

// eyeSpans are all or nothing: alongside, or within berth_m of a berth.
func (p atPlace) eyeSpans() []chart.Span {
	at := p.stay.stop.Stay
	near := at.Kind == plan.AtBerth || slices.ContainsFunc(p.stay.plan.Berths, func(b plan.Berth) bool {
		return geo.DistanceM(b.At, at.At) < p.stay.plan.Margins.BerthM
	})
	if near {
		return []chart.Span{{}}
	}
	return nil
}

func (p atPlace) hsM(_, _ float64) float64 { return p.stay.hsM }

func (p atPlace) nextRoute() int { return p.stay.stop.Route + 1 }

func (p atPlace) atStay() bool { return true }

// padded is when, widened by what a plan's times are worth.
func (o *obstacles) padded(from, to float64) (start, end time.Time) {
	start, end = o.when(from, to)
	return start.Add(-o.pad()), end.Add(o.pad())
}

// inForce tells whether a season holds at any of the time meant.
func (o *obstacles) inForce(s chart.Season, from, to float64) bool {
	start, end := o.when(from, to)
	return s.Touches(start.In(o.zone()), end.Add(o.heights.within))
}

// waveAllowance is the share of the significant height to keep, metres.
func (o *obstacles) waveAllowance(from, to float64) float64 {
	return o.plan.Margins.WaveFraction * o.hsM(from, to)
}
