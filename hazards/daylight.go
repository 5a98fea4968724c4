package hazards

import (
	"math"
	"time"

	"github.com/paulmach/orb"

	"keelroom/hazards/facts"
	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
	"keelroom/hazards/sun"
)

// lightStep is how often the light is looked at under way. Each leg's ends are
// looked at besides.
const lightStep = 5 * time.Minute

// hours judges when she is where: by daylight, and in time.
type hours struct{ *checker }

// checkDaylight: under way in the dark, or in twilight.
func (h hours) checkDaylight() {
	for i := range h.track.Legs {
		h.legLight(i)
	}
	if h.plan.Boat.Night {
		return
	}
	for i := range h.track.Legs {
		leg := &h.track.Legs[i]
		if !h.routeEnds(i) {
			continue
		}
		if dusk, ok := h.memory.nextDusk(leg.End.In(h.zone()), leg.Rhumb.To); ok {
			h.slack = append(h.slack, slack{route: leg.Route, left: dusk.Sub(leg.End)})
			h.keep(plan.InHand{Check: plan.CheckDaylight, Leg: leg.Number, Measured: dusk.Sub(leg.End).Minutes(), Unit: "min"})
		}
	}
}

// nextDusk is the next civil dusk at a place, of whichever calendar day; in the
// dark it is now.
func (m *memory) nextDusk(t time.Time, p orb.Point) (time.Time, bool) {
	if sun.LightAt(t, p) == sun.Night {
		return t, true
	}
	for day := -1; day <= 1; day++ {
		if d := m.sunOn(t.AddDate(0, 0, day), p); d.CivilDusk.After(t) {
			return d.CivilDusk, true
		}
	}
	return time.Time{}, false
}

// legLight reports the darkest light of a leg and where it lasts.
func (h hours) legLight(index int) {
	leg := &h.track.Legs[index]
	if h.plan.Boat.Night || surelyDay(leg) {
		return
	}
	darkest := sun.Daylight
	var from, to time.Time
	look := func(t time.Time) {
		where, _ := h.track.At(leg, h.metresAt(index, t))
		switch l := sun.LightAt(t, where); {
		case l < darkest:
			darkest, from, to = l, t, t
		case l == darkest:
			to = t
		}
	}
	for t := leg.Start; t.Before(leg.End); t = t.Add(lightStep) {
		look(t)
	}
	look(leg.End)
	f := plan.Finding{Check: plan.CheckDaylight, Leg: leg.Number, Time: ptr(from), Until: ptr(to)}
	switch {
	case darkest == sun.Night && !h.plan.Boat.Night:
		f.Severity, f.Facts = plan.NotClear, facts.Light{What: facts.Dark, From: facts.At(from), To: facts.At(to)}
	case darkest == sun.Twilight && !h.plan.Boat.Night:
		f.Severity, f.Facts = plan.Care, facts.Light{What: facts.Twilight, From: facts.At(from), To: facts.At(to)}
	default:
		return
	}
	f.Geometry = line(leg, h.metresAt(index, from), h.metresAt(index, to))
	h.find(f)
}

// surelyDay tells whether the sun is up all along a leg by its altitude at the
// start: that differs between two places by no more than their distance as an
// angle, and changes by no more than the Earth turns, 360.99° a day and the
// sun's own declination 0.4° a day. Many legs are short and in broad day, and so
// need no second look.
func surelyDay(leg *passage.Leg) bool { return !everyLook && lowestSunDeg(leg, 0) > 0 }

// lowestSunDeg bounds the altitude of the sun along a leg, which may be run up to so much
// later.
func lowestSunDeg(leg *passage.Leg, within time.Duration) float64 {
	const degAMinute, degAMile, slack = 361.5 / 1440, 1.0 / 59, 0.1
	down := (leg.End.Sub(leg.Start)+within).Minutes()*degAMinute + nm(leg.Rhumb.LengthM)*degAMile + slack
	return sun.AltitudeDeg(leg.Start, leg.Rhumb.From) - down
}

// everyLook switches the shortcut off, so that a test can tell that it changes
// nothing.
var everyLook = false

const halvings = 40

// metresAt is how far along a leg she is at a time.
func (h hours) metresAt(index int, t time.Time) float64 {
	leg := &h.track.Legs[index]
	lo, hi := 0.0, leg.Rhumb.LengthM
	if !t.After(leg.Start) {
		return math.Ldexp(hi, -halvings) // every half is behind it
	}
	for range halvings {
		mid := (lo + hi) / 2
		if h.track.TimeAt(leg, mid).Before(t) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi
}
