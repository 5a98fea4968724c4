package layer

import (
	"time"

	"keelroom/geo/chart"
)

// dateRange is the two ends of a range as written; both empty is no range.
type dateRange struct{ from, to string }

// season reads when rules hold: PERSTA and PEREND or periodicDateRange each
// year, DATSTA and DATEND or fixedDateRange once. Dates that cannot be read
// make the rule hold always, with W-DATE.
func (u ruleReader) season() (s chart.Season) {
	yearly, ok1 := u.dates(PERSTA, PEREND, PeriodicDateRange)
	once, ok2 := u.dates(DATSTA, DATEND, FixedDateRange)
	var ok3, ok4 bool
	s.From, s.To, ok3 = yearDays(yearly)
	s.FirstDay, s.Last, ok4 = calendarDays(once)
	if ok1 && ok2 && ok3 && ok4 {
		return s
	}
	name, found := u.r.name(FixedDateRange, u.r.name(DATEND, u.r.name(DATSTA, "DATSTA"))), once
	if !ok1 || !ok3 {
		name, found = u.r.name(PeriodicDateRange, u.r.name(PEREND, u.r.name(PERSTA, "PERSTA"))), yearly
	}
	u.r.warn("W-DATE", name, quote(found.from)+" to "+quote(found.to)+", so it holds always",
		"one range: PERSTA and PEREND as --MMDD, or DATSTA and DATEND as YYYYMMDD")
	return chart.Season{}
}

// dates reads a range from two attributes or one complex attribute. ok is false
// where there are two ranges that differ: only one can be kept.
func (u ruleReader) dates(start, end, both Attr) (s dateRange, ok bool) {
	ok = true
	seen := false
	date := func(v Value) string { // what is stated and no single text is unreadable
		ok = ok && (v.unknown() || v.text() != "")
		return v.text()
	}
	u.r.known(start, func(at *Attribute) { s.from, seen = date(at.Value), true })
	u.r.known(end, func(at *Attribute) { s.to, seen = date(at.Value), true })
	u.r.known(both, func(at *Attribute) {
		at.Value.each(func(v Value) {
			c := dateRange{date(v.member("dateStart")), date(v.member("dateEnd"))}
			if v.Kind != ComplexValue || seen && s != c {
				ok = false
			}
			s, seen = c, true
		})
	})
	return s, ok
}

// yearDays reads two days of the year; one alone, or one that the calendar does
// not have, is not ok.
func yearDays(s dateRange) (from, to chart.MonthDay, ok bool) {
	if s == (dateRange{}) {
		return 0, 0, true
	}
	from, ok1 := yearDay(s.from)
	to, ok2 := yearDay(s.to)
	if !ok1 || !ok2 {
		return 0, 0, false
	}
	return from, to, true
}

// yearDay reads --MMDD. 29 February is a day of the year.
func yearDay(s string) (chart.MonthDay, bool) {
	if len(s) != len("--MMDD") || s[:2] != "--" {
		return 0, false
	}
	t, err := time.Parse("20060102", "2000"+s[2:]) // 2000 is a leap year
	if err != nil {
		return 0, false
	}
	return chart.MonthDay(int(t.Month())*100 + t.Day()), true
}

// calendarDays reads a first and a last day, either of which may be open.
func calendarDays(s dateRange) (first, last time.Time, ok bool) {
	first, ok1 := calendarDay(s.from)
	last, ok2 := calendarDay(s.to)
	if !ok1 || !ok2 || !first.IsZero() && !last.IsZero() && last.Before(first) {
		return time.Time{}, time.Time{}, false
	}
	return first, last, true
}

// calendarDay reads YYYYMMDD; "" is open.
func calendarDay(s string) (time.Time, bool) {
	if s == "" {
		return time.Time{}, true
	}
	t, err := time.Parse("20060102", s)
	return t, err == nil
}
