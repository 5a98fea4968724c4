package entry

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"
)

// Day is a date of the calendar.
type Day struct {
	Year  int
	Month time.Month
	Day   int
}

// DayOf is the date of an instant in a zone.
func DayOf(t time.Time, zone *time.Location) Day {
	y, m, d := t.In(zone).Date()
	return Day{y, m, d}
}

// String writes it as 2026-07-18.
func (d Day) String() string { return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day) }

func (d Day) weekday() time.Weekday {
	return time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC).Weekday()
}

// Ambiguous says that a clock time occurs twice that day, as the clocks go back.
type Ambiguous struct {
	Clock         string
	Day           Day
	First, Second time.Time
}

// Error asks which.
func (e *Ambiguous) Error() string {
	return fmt.Sprintf("%s occurs twice on %s, as the clocks go back: choose the first (%s) or the second (%s)",
		e.Clock, e.Day, offset(e.First), offset(e.Second))
}

// Skipped says that a clock time does not occur that day, as the clocks go forward.
// From is the first clock time that is left out, To the one that follows in its place.
type Skipped struct {
	Clock    string
	Day      Day
	From, To string
}

// Error says what to type.
func (e *Skipped) Error() string {
	return fmt.Sprintf("%s does not occur on %s: the clocks go forward from %s to %s; type another time", e.Clock, e.Day, e.From, e.To)
}

func offset(t time.Time) string { return "UTC" + t.Format("-07:00") }

// Clock reads a time of day on the 24-hour clock and gives the instant it is on that
// date in that zone. A time that a change of the clocks repeats is an *[Ambiguous]
// error, one it skips a *[Skipped].
func Clock(text string, day Day, zone *time.Location) (time.Time, error) {
	hour, minute, err := clock(tidy(text))
	if err != nil {
		return time.Time{}, err
	}
	return day.at(hour, minute, zone)
}

const clockExample = "type hours and minutes as 14:05"

// clock reads hours and minutes: 14:05, 14.05, 14h05, 1405, 9:30.
func clock(s string) (hour, minute int, err error) {
	if s == "" {
		return 0, 0, errors.New("nothing typed: " + clockExample)
	}
	h, m, apart := cutAny(s, ":.hH")
	if !apart && digits(s) && len(s) == 4 {
		h, m = s[:2], s[2:]
	} else if !apart || len(m) != 2 || len(h) > 2 || !digits(h) || !digits(m) {
		return 0, 0, clockHint(s)
	}
	hour, _ = strconv.Atoi(h)
	minute, _ = strconv.Atoi(m)
	switch {
	case hour == 24 && minute == 0:
		return 0, 0, errors.New("24:00 is 00:00 of the next day: type that, with its date")
	case hour > 23:
		return 0, 0, fmt.Errorf("%s: hours go from 00 to 23", shown(s))
	case minute > 59:
		return 0, 0, fmt.Errorf("%s: minutes go from 00 to 59", shown(s))
	}
	return hour, minute, nil
}

// cutAny is strings.Cut at the first of several signs.
func cutAny(s, signs string) (before, after string, found bool) {
	i := strings.IndexAny(s, signs)
	if i < 0 {
		return s, "", false
	}
	return s[:i], s[i+1:], true
}

// clockHint says what is wrong with a time that cannot be read.
func clockHint(s string) error {
	lower := strings.ToLower(strings.ReplaceAll(s, ".", ""))
	switch {
	case strings.HasSuffix(lower, "am") || strings.HasSuffix(lower, "pm"):
		return fmt.Errorf("%s: type the time on the 24-hour clock, as 14:05", shown(s))
	case strings.HasSuffix(lower, "z") || strings.HasSuffix(lower, "ut") || strings.HasSuffix(lower, "utc") || strings.HasSuffix(lower, "gmt"):
		return fmt.Errorf("%s: times here are in the plan's zone: type the time of its clocks, as 14:05", shown(s))
	case digits(s) && len(s) < 4:
		return fmt.Errorf("%s may be read in several ways: %s", shown(s), clockExample)
	}
	return fmt.Errorf("%s is no time: %s", shown(s), clockExample)
}

// at is the instant when the clocks of a zone show that time on that date.
func (d Day) at(hour, minute int, zone *time.Location) (time.Time, error) {
	shows := time.Date(d.Year, d.Month, d.Day, hour, minute, 0, 0, time.UTC)
	found, gap := instants(shows, zone)
	name := fmt.Sprintf("%02d:%02d", hour, minute)
	switch len(found) {
	case 0:
		return time.Time{}, &Skipped{name, d, gap[0].Format("15:04"), gap[1].Format("15:04")}
	case 1:
		return found[0], nil
	}
	return time.Time{}, &Ambiguous{name, d, found[0], found[1]}
}

// instants returns when a zone's clocks show what UTC's show at that instant, in
// order; where that is never, gap is the clock times around what is left out. It
// goes through the spans of constant offset about then, so it holds for any change.
func instants(shows time.Time, zone *time.Location) (found []time.Time, gap [2]time.Time) {
	const about = 26 * time.Hour // more than any offset
	for t := shows.Add(-about); !t.After(shows.Add(about)); {
		local := t.In(zone)
		_, seconds := local.Zone()
		ahead := time.Duration(seconds) * time.Second
		from, to := local.ZoneBounds()
		at := shows.Add(-ahead)
		if (from.IsZero() || !at.Before(from)) && (to.IsZero() || at.Before(to)) {
			found = append(found, at.In(zone))
		}
		if to.IsZero() {
			break
		}
		_, next := to.In(zone).Zone()
		before, after := to.UTC().Add(ahead), to.UTC().Add(time.Duration(next)*time.Second)
		if !shows.Before(before) && shows.Before(after) {
			gap = [2]time.Time{before, after}
		}
		t = to
	}
	return found, gap
}

// StandardTime is the zone of fixed offset that tables call standard time: the
// least offset of the zone in that year, as clocks go forward in summer.
func StandardTime(zone *time.Location, year int) *time.Location {
	t := time.Date(year, 1, 1, 0, 0, 0, 0, time.UTC)
	_, least := t.In(zone).Zone()
	for t.Year() == year {
		_, end := t.In(zone).ZoneBounds()
		if end.IsZero() {
			break
		}
		if t = end.UTC(); t.Year() != year {
			break
		}
		_, seconds := t.In(zone).Zone()
		least = min(least, seconds)
	}
	return time.FixedZone("standard time", least)
}
