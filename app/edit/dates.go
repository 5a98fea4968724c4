package edit

import (
	"fmt"
	"time"

	"keelroom/hazards/plan"
)

// SetDay gives a plan its day. With a departure, that leaves at the same clock time
// on it and every stay moves along; at is that departure, and not looked at without
// one. The time to be back moves by as many days. Wind, swell, streams and tide
// tables keep their times: they were given for a day, and [MoveSeries] moves them.
func SetDay(p *plan.Plan, day, at time.Time) error {
	before, had := p.Date()
	if had && p.BackBy != nil {
		back := inZone(p, *p.BackBy).AddDate(0, 0, daysBetween(before, day)).UTC()
		p.BackBy = &back
	}
	if routes := p.Routes(); len(routes) > 0 && routes[0].Depart != nil {
		return DepartAt(p, at)
	}
	if err := usable(day); err != nil {
		return err
	}
	p.Day = day.Format(time.DateOnly)
	return nil
}

func inZone(p *plan.Plan, t time.Time) time.Time {
	if p.Zone == nil {
		return t.UTC()
	}
	return t.In(p.Zone)
}

// daysBetween is how many days the date b lies after the date a, both midnights in
// UTC.
func daysBetween(a, b time.Time) int { return int(b.Sub(a).Hours() / 24) }

// The series of a plan that were typed for a day.
const (
	Wind   = "wind"
	Swell  = "swell"
	Stream = "stream"
)

// timesOf are the times of a series.
func timesOf(p *plan.Plan, series string) (times []*time.Time) {
	switch series {
	case Wind:
		for i := range p.Wind {
			times = append(times, &p.Wind[i].Time)
		}
	case Swell:
		for i := range p.Swell {
			times = append(times, &p.Swell[i].Time)
		}
	case Stream:
		for i := range p.Stream {
			times = append(times, &p.Stream[i].Time)
		}
	}
	return times
}

// SeriesOff tells how many days a series would have to move to begin on the plan's
// day, and the date that it begins on: 0 where a row of it is of the plan's day, or
// nothing is known.
func SeriesOff(p *plan.Plan, series string) (days int, from time.Time) {
	day, ok := p.Date()
	times := timesOf(p, series)
	if !ok || len(times) == 0 {
		return 0, from
	}
	for i, t := range times {
		y, m, d := inZone(p, *t).Date()
		date := time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
		if date.Equal(day) {
			return 0, from
		}
		if i == 0 {
			from = date
		}
	}
	return daysBetween(from, day), from
}

// MoveSeries moves a series to the plan's day, with the same clock times.
func MoveSeries(p *plan.Plan, series string) error {
	days, _ := SeriesOff(p, series)
	if days == 0 {
		return fmt.Errorf("the %s is of the plan's day already, or there is none", series)
	}
	w := *p
	w.Wind, w.Swell, w.Stream = append([]plan.Wind(nil), p.Wind...), append([]plan.Swell(nil), p.Swell...), append([]plan.Stream(nil), p.Stream...)
	var last time.Time
	for _, t := range timesOf(&w, series) {
		was := inZone(p, *t)
		now := was.AddDate(0, 0, days)
		*t = now.UTC()
		if now.Format("15:04") != was.Format("15:04") || !t.After(last) { // the clocks go forward
			return fmt.Errorf("the %s has a line for %s, which does not occur on %s: type it anew", series, was.Format("15:04"), now.Format(time.DateOnly))
		}
		if err := usable(*t); err != nil {
			return err
		}
		last = *t
	}
	*p = w
	return nil
}
