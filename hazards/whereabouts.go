package hazards

import (
	"math"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// The tide of another water and the clock of another zone give figures that look
// like any others: hours and metres out. So both are compared with where she goes
// (plan-file contract, section 4; figures are judgement).
const (
	stationFarM   = 30_000 // a tide station further off than this
	stationNearM  = 3_000  // one nearer than this lies on the same water
	landBetween   = 0.5    // of the line to the station: more than this is land
	zoneFar       = 2 * time.Hour
	solarBehind   = 90 * time.Minute  // civil time lags the sun's by no more anywhere
	solarAhead    = 216 * time.Minute // nor is it further ahead
	degreesAnHour = 15
)

// whereabouts compares a plan with the places that she goes to.
type whereabouts struct{ *checker }

// checkWhereabouts compares the tide's station and the plan's clock with the
// places that she goes to.
func (w whereabouts) checkWhereabouts() {
	w.checkStation()
	w.checkZone()
}

// checkStation warns of a tide station that is far off, or behind land.
func (w whereabouts) checkStation() {
	t := w.plan.Tide
	if t == nil || t.Position == nil {
		return
	}
	near, far := w.stationEnds(*t.Position)
	farM, nearM := geo.DistanceM(far.at, *t.Position), geo.DistanceM(near.at, *t.Position)
	f := plan.Finding{Check: plan.CheckTideWindow, Severity: plan.Care, Unit: "km"}
	place, wrong := far, facts.WrongTide{What: facts.CodeFarTide, Station: t.Station, Km: farM / 1000}
	switch {
	case farM > stationFarM:
		f.Measured, f.Required = ptr(farM/1000), ptr(stationFarM/1000.0)
	case nearM > stationNearM && w.landOnLineM(near.at, *t.Position) > landBetween*nearM:
		place, wrong.What, wrong.Km = near, facts.CodeOtherTide, nearM/1000
		f.Measured = ptr(nearM / 1000)
	default:
		return
	}
	wrong.At = place.at
	f.Facts = wrong
	f.Leg, f.Time, f.Geometry = place.leg, ptr(place.when), place.at
	w.findAbout(f, about{ofDay: true})
}

// dayPlace is a waypoint of the day and when she is there.
type dayPlace struct {
	at   orb.Point
	when time.Time
	leg  int
}

// stationEnds are the waypoints nearest to a place and furthest from it.
func (w whereabouts) stationEnds(from orb.Point) (near, far dayPlace) {
	nearM, farM := math.Inf(1), math.Inf(-1)
	for i := range w.track.Legs {
		leg := &w.track.Legs[i]
		for _, p := range []dayPlace{{leg.Rhumb.From, leg.Start, leg.Number}, {leg.Rhumb.To, leg.End, leg.Number}} {
			m := geo.DistanceM(p.at, from)
			if m < nearM {
				near, nearM = p, m
			}
			if m > farM {
				far, farM = p, m
			}
		}
	}
	return near, far
}

// landOnLineM is how much of the line between two places is charted as land.
func (w whereabouts) landOnLineM(a, b orb.Point) float64 {
	g := w.leg(geo.NewRhumb(a, b))
	var land []chart.Span
	for k := range g.pieces {
		met := w.along(g, k, chart.Reach{})
		for i := range met.Hits {
			if h := &met.Hits[i]; h.Class == chart.LNDARE {
				for _, s := range h.Inside {
					land = append(land, chart.Span{From: g.base(k) + s.From, To: g.base(k) + s.To})
				}
			}
		}
	}
	m := 0.0
	for _, s := range joinSpans(land) {
		m += s.To - s.From
	}
	return m
}

// checkZone warns of a clock that is not the place's. Where the tide's station is
// near and its own zone is known, that is the place's, and two hours is the most.
// Else the sun tells: civil time lies between an hour and a half behind the sun's
// mean time and a little over three and a half hours ahead of it, at every tide
// station of the built-in list, summer and winter (furthest behind
// Minamitorishima on Japan's time, by 1 h 16 min; furthest ahead St. Matthew
// Island on Alaska's, by 3 h 31 min; Galicia on Spain's 2 h 35 min, western Iceland
// 1 h 28 min), so that nothing within that is a false alarm. A day's difference is
// none to the sun: Samoa is a day ahead of it.
func (w whereabouts) checkZone() {
	if w.plan.Zone == nil {
		return
	}
	start := &w.track.Legs[0]
	at := start.Rhumb.From
	zone, offset := clockZone(w.plan.Zone, w.track.Depart)
	f := plan.Finding{Check: plan.CheckSchedule, Severity: plan.Care, Leg: start.Number,
		Time: ptr(w.track.Depart), Geometry: at, Unit: "min"}
	if own := w.stationZone(at); own != nil {
		ownZone, ownOffset := clockZone(own, w.track.Depart)
		apart := (offset - ownOffset).Abs()
		if apart <= zoneFar {
			return
		}
		f.Measured, f.Required = ptr(apart.Minutes()), ptr(zoneFar.Minutes())
		f.Facts = facts.OtherClock{Plan: zone, Station: w.plan.Tide.Station, Own: ownZone, ApartMin: int(apart.Minutes())}
		w.findAbout(f, about{ofDay: true})
		return
	}
	ahead := aheadOfSun(offset, at.Lon())
	if -solarBehind <= ahead && ahead <= solarAhead {
		return
	}
	f.Measured = ptr(ahead.Abs().Minutes())
	f.Facts = facts.OtherClock{Plan: zone, At: at, ApartMin: int(ahead.Abs().Minutes())}
	w.findAbout(f, about{ofDay: true})
}

// aheadOfSun is how far a clock is ahead of the sun's mean time at a longitude,
// whatever the date: between −12 and 12 h.
func aheadOfSun(offset time.Duration, lonDeg float64) time.Duration {
	return time.Duration(math.Remainder(offset.Hours()-lonDeg/degreesAnHour, 24) * float64(time.Hour))
}

// stationZone is the zone of the tide's station if it is near a place, else nil.
func (w whereabouts) stationZone(at orb.Point) *time.Location {
	t := w.plan.Tide
	if t == nil || t.ZoneName == "" || t.Position == nil || geo.DistanceM(at, *t.Position) > stationFarM {
		return nil
	}
	zone, err := time.LoadLocation(t.ZoneName)
	if err != nil {
		return nil // the plan's decoder refuses such a name
	}
	return zone
}

// clockZone is a zone and its offset then.
func clockZone(zone *time.Location, at time.Time) (facts.Zone, time.Duration) {
	_, seconds := at.In(zone).Zone()
	return facts.Zone{Name: zone.String(), OffsetMin: seconds / 60}, time.Duration(seconds) * time.Second
}
