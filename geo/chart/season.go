package chart

import (
	"strings"
	"time"
)

// MonthDay is a day of the year as month·100 + day; 0 is none.
type MonthDay int

// Season is when a rule holds: every year between two days (the end day
// included, over New Year if it wraps), between two dates, or always. Its zero
// value is always. Source: S-57 PERSTA/PEREND and DATSTA/DATEND.
type Season struct {
	From, To       MonthDay  // both or none
	FirstDay, Last time.Time // calendar dates at 00:00 UTC; zero is open
}

// Always reports whether the rule has no season.
func (s Season) Always() bool { return s == Season{} }

// Holds reports whether the rule is in force on the calendar day of t, read in
// t's own location.
func (s Season) Holds(t time.Time) bool { return s.holdsOn(dayOf(t)) }

// Touches reports whether the rule is in force on any calendar day from one time to a
// later one, read in the location of the first.
func (s Season) Touches(from, to time.Time) bool {
	first, last := dayOf(from), dayOf(to.In(from.Location()))
	if s.FirstDay.After(first) {
		first = s.FirstDay
	}
	if !s.Last.IsZero() && s.Last.Before(last) {
		last = s.Last
	}
	if !s.yearly() || last.Sub(first) > everyDayOfAYear {
		return !last.Before(first)
	}
	for day := first; !day.After(last); day = day.AddDate(0, 0, 1) {
		if s.holdsOn(day) {
			return true
		}
	}
	return false
}

// HoldsFrom reports whether the rule is in force on every calendar day from one time to
// a later one, read in the location of the first.
func (s Season) HoldsFrom(from, to time.Time) bool {
	if s.Always() {
		return true
	}
	last := dayOf(to.In(from.Location()))
	for day := dayOf(from); !day.After(last); day = day.AddDate(0, 0, 1) {
		if !s.holdsOn(day) {
			return false
		}
	}
	return true
}

// everyDayOfAYear is so long that every day of the year is in it, 29 February too:
// eight years may pass without one, as from 1896 to 1904.
const everyDayOfAYear = 8 * 366 * 24 * time.Hour

// dayOf is the calendar day of a time in its own location, as 00:00 UTC.
func dayOf(t time.Time) time.Time {
	y, m, d := t.Date()
	return time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
}

// yearly reports whether the rule comes and goes with the time of year.
func (s Season) yearly() bool { return s.From != 0 && s.To != 0 }

func (s Season) holdsOn(day time.Time) bool {
	if !s.FirstDay.IsZero() && day.Before(s.FirstDay) || !s.Last.IsZero() && day.After(s.Last) {
		return false
	}
	md := MonthDay(int(day.Month())*100 + day.Day())
	switch {
	case !s.yearly():
		return true
	case s.From <= s.To:
		return s.From <= md && md <= s.To
	}
	return md >= s.From || md <= s.To
}

// Limit is the speed limit in knots for a boat of the given vessel classes:
// the lowest of those that hold for every vessel or for one of hers. ok is
// false where the zone states none.
func (r *Rules) Limit(vesselClasses []string) (kn float64, ok bool) {
	for _, l := range r.Limits {
		if !l.holdsFor(vesselClasses) {
			continue
		}
		if !ok || l.Kn < kn {
			kn, ok = l.Kn, true
		}
	}
	return kn, ok
}

// holdsFor: a limit for a class of vessels holds unless the skipper named her
// classes and it is not among them; not knowing, it holds.
func (l SpeedLimit) holdsFor(classes []string) bool {
	if l.VesselClass == "" || len(classes) == 0 {
		return true
	}
	for _, c := range classes {
		if strings.EqualFold(c, l.VesselClass) {
			return true
		}
	}
	return false
}
