package sun

import (
	"time"

	"github.com/paulmach/orb"
)

// Altitudes of the sun's centre, in degrees, at which things happen.
const (
	horizonDeg  = -50.0 / 60
	CivilDeg    = -6.0
	nauticalDeg = -12.0
)

// Pass is what the sun does with an altitude through a day.
type Pass int

const (
	Crosses    Pass = iota // passes it, twice as a rule
	AlwaysUp               // stays above it
	AlwaysDown             // stays below it, or the place is none and nothing is known
)

// Day is the events of one day. An event that does not occur has the zero time.
type Day struct {
	Sunrise, Sunset            time.Time
	CivilDawn, CivilDusk       time.Time
	NauticalDawn, NauticalDusk time.Time

	Sun, Civil, Nautical Pass // why an event does not occur
}

// On is the events of a calendar day, the date that `date` has in its own
// location; its clock time does not matter, and the events come back in the same
// location. The day meant is the sun's own: from the sun's lowest point before the
// solar noon nearest to 12 o'clock of the date, to the next lowest. So a dusk
// after midnight, in a light summer night or with the clock put forward, belongs
// to the evening it ends, and a date has its events whatever zone it is named in.
// On the day a season of light nights (or, near the poles, of midnight sun or
// polar night) begins or ends, the sun may cross an altitude once only: one of two
// events is zero although Pass is Crosses. LightAt has no such days.
func On(date time.Time, p orb.Point) Day {
	if !valid(p) {
		return Day{Sun: AlwaysDown, Civil: AlwaysDown, Nautical: AlwaysDown}
	}
	y, m, d := date.Date()
	noon := meridian(time.Date(y, m, d, 12, 0, 0, 0, date.Location()), p.Lon(), 0)
	const half = 12 * time.Hour
	s := dayArc{p, [3]time.Time{meridian(noon.Add(-half), p.Lon(), 180), noon, meridian(noon.Add(half), p.Lon(), 180)}}
	var day Day
	day.Sunrise, day.Sunset, day.Sun = s.crossings(horizonDeg)
	day.CivilDawn, day.CivilDusk, day.Civil = s.crossings(CivilDeg)
	day.NauticalDawn, day.NauticalDusk, day.Nautical = s.crossings(nauticalDeg)
	return day
}

// meridian is the time nearest to t at which the sun has an hour angle, 0 at the
// highest and 180 at the lowest point.
func meridian(t time.Time, lonDeg, hourDeg float64) time.Time {
	const rounds = 3 // the equation of time changes by at most 30 s a day: the second leaves milliseconds
	for range rounds {
		ahead := hourAngleDeg(t, lonDeg) - hourDeg
		if ahead < -180 {
			ahead += 360
		}
		t = t.Add(-time.Duration(ahead / 360 * secondsADay * float64(time.Second)))
	}
	return t
}

// dayArc is the sun's day at a place: lowest, highest, lowest point. The altitude
// rises through the first half and falls through the second.
type dayArc struct {
	place orb.Point
	turns [3]time.Time
}

// crossings are the first time at which the sun comes over an altitude, and the
// first at which it goes below.
func (s dayArc) crossings(altitudeDeg float64) (up, down time.Time, pass Pass) {
	var above [3]bool
	for i, t := range s.turns {
		above[i] = AltitudeDeg(t, s.place) > altitudeDeg
	}
	for i := range 2 {
		switch from, to := above[i], above[i+1]; {
		case !from && to && up.IsZero():
			up = s.cross(i, altitudeDeg)
		case from && !to && down.IsZero():
			down = s.cross(i, altitudeDeg)
		}
	}
	switch {
	case !up.IsZero() || !down.IsZero():
		return up, down, Crosses
	case above[0]:
		return up, down, AlwaysUp
	}
	return up, down, AlwaysDown
}

// cross halves the half day from turn i to the next until it knows the time of
// the crossing to 0.1 s.
func (s dayArc) cross(i int, altitudeDeg float64) time.Time {
	a, b := s.turns[i], s.turns[i+1]
	rising := AltitudeDeg(b, s.place) > altitudeDeg
	for b.Sub(a) > 100*time.Millisecond {
		mid := a.Add(b.Sub(a) / 2)
		if (AltitudeDeg(mid, s.place) > altitudeDeg) == rising {
			b = mid
		} else {
			a = mid
		}
	}
	return b
}
