package edit

import (
	"errors"
	"fmt"
	"time"

	"keelroom/hazards/plan"
)

// SetDepart sets when the first route leaves, and nothing else: stays keep their
// ends. [DepartAt] moves the whole day.
func SetDepart(p *plan.Plan, t time.Time) error {
	return change(p, func(w *plan.Plan) error {
		if err := usable(t); err != nil {
			return err
		}
		r, err := first(w)
		if err != nil {
			return err
		}
		t = t.UTC()
		r.Depart = &t
		return forward(w)
	})
}

// ShiftDay moves the departure and the end of every stay by the same time. What
// the skipper set as the time to be back stays.
func ShiftDay(p *plan.Plan, by time.Duration) error { return ShiftFrom(p, 0, by) }

// ShiftFrom moves a part of the day in time, and all that follows: for a route
// when it leaves, for a stay when she gets there, which is when the route to it
// leaves. The parts before keep their times; the stay before lasts longer or
// shorter. From the first route or stay on, the whole day moves.
func ShiftFrom(p *plan.Plan, part int, by time.Duration) error {
	return change(p, func(w *plan.Plan) error {
		if part < 0 || part >= len(w.Parts) {
			return errGone
		}
		if w.Parts[part].Stay != nil {
			part-- // the route to it
		}
		if part <= 0 {
			if err := shiftDepart(w, by); err != nil {
				return err
			}
		}
		for i := max(part-1, 0); i < len(w.Parts); i++ {
			s := w.Parts[i].Stay
			if s == nil || s.Until.IsZero() {
				continue
			}
			s.Until = s.Until.Add(by)
			if err := usable(s.Until); err != nil {
				return err
			}
		}
		return forward(w)
	})
}

func shiftDepart(p *plan.Plan, by time.Duration) error {
	r, err := first(p)
	if err != nil {
		return err
	}
	if r.Depart == nil {
		return errors.New("say first when she leaves")
	}
	t := r.Depart.Add(by)
	r.Depart = &t
	return usable(t)
}

// DepartAt moves the whole day so that she leaves at t; see [ShiftDay]. A day
// without a departure gets it.
func DepartAt(p *plan.Plan, t time.Time) error {
	r, err := first(p)
	if err != nil {
		return err
	}
	if r.Depart == nil {
		return SetDepart(p, t)
	}
	return ShiftDay(p, t.Sub(*r.Depart))
}

// SetUntil sets when a stay ends, which is when the route after it leaves.
func SetUntil(p *plan.Plan, part int, t time.Time) error {
	return change(p, func(w *plan.Plan) error { return setUntil(w, part, t) })
}

func setUntil(p *plan.Plan, part int, t time.Time) error {
	s, err := stay(p, part)
	if err != nil {
		return err
	}
	if err := usable(t); err != nil {
		return err
	}
	s.Until = t.UTC()
	return forward(p)
}

func first(p *plan.Plan) (*plan.Route, error) {
	if len(p.Parts) == 0 || p.Parts[0].Route == nil {
		return nil, errors.New("the day begins with a route: draw the way out first")
	}
	return p.Parts[0].Route, nil
}

// usable refuses times that a plan file does not hold.
func usable(t time.Time) error {
	if t.IsZero() {
		return errors.New("a time is missing: give one such as 14:05")
	}
	if y := t.UTC().Year(); y < 1975 || y > 2199 {
		return fmt.Errorf("the year %d is out of reach: give a date from 1975 to 2199", y)
	}
	return nil
}

// forward checks that the times of the day follow each other.
func forward(p *plan.Plan) error {
	var last time.Time
	what := ""
	for i := range p.Parts {
		t, name := end(p, i)
		if t.IsZero() {
			continue
		}
		if !last.IsZero() && !t.After(last) {
			return fmt.Errorf("%s (%s) would come before %s (%s): choose a later time, or move what is before it", name, clock(p, t), what, clock(p, last))
		}
		last, what = t, name
	}
	if p.BackBy != nil && !last.IsZero() && !p.BackBy.After(last) {
		return fmt.Errorf("%s (%s) would come after the time to be back (%s): choose an earlier time, or change when to be back", what, clock(p, last), clock(p, *p.BackBy))
	}
	return nil
}

// end is the time that a part sets, and what to call it; zero where it sets none.
func end(p *plan.Plan, part int) (time.Time, string) {
	if s := p.Parts[part].Stay; s != nil {
		if s.Name != "" {
			return s.Until, "the end of the stay at " + s.Name
		}
		return s.Until, "the end of the stay"
	}
	if r := p.Parts[part].Route; r != nil && r.Depart != nil && part == 0 {
		return *r.Depart, "the departure"
	}
	return time.Time{}, ""
}

// clock tells a time in the plan's zone, and UTC while there is none.
func clock(p *plan.Plan, t time.Time) string {
	zone := p.Zone
	if zone == nil {
		zone = time.UTC
	}
	return t.In(zone).Format("15:04 on 2 January")
}
