package plan

import "time"

// Date returns the local day that the plan is for: that of the departure, else the
// one set before there is any. ok is false where neither is given. The time is the
// midnight of that date in UTC.
func (p *Plan) Date() (date time.Time, ok bool) {
	if routes := p.Routes(); len(routes) > 0 && routes[0].Depart != nil {
		y, m, d := routes[0].Depart.In(p.zone()).Date()
		return time.Date(y, m, d, 0, 0, 0, 0, time.UTC), true
	}
	date, err := time.Parse(time.DateOnly, p.Day)
	return date, err == nil
}

// dayField is the day of a plan that has no departure yet.
func (p *Plan) dayField() field {
	return checked(text("day", &p.Day), func() string {
		if p.Day == "" {
			return ""
		}
		date, err := time.Parse(time.DateOnly, p.Day)
		if err != nil {
			return quoted(p.Day) + "; a date such as 2026-07-18 is wanted"
		}
		return timeWrong(date)
	})
}
