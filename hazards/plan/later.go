package plan

import (
	"slices"
	"time"
)

// Later returns the plan with the departure and the end of every stay moved by the same
// time, and all else, the time to be back too, as it is. The plan given is not changed;
// the two share what did not move.
func (p *Plan) Later(by time.Duration) *Plan {
	q := *p
	q.Parts = slices.Clone(p.Parts)
	for i, part := range q.Parts {
		switch {
		case part.Route != nil && part.Route.Depart != nil:
			route := *part.Route
			depart := route.Depart.Add(by)
			route.Depart = &depart
			q.Parts[i].Route = &route
		case part.Stay != nil:
			stay := *part.Stay
			stay.Until = stay.Until.Add(by)
			q.Parts[i].Stay = &stay
		}
	}
	return &q
}
