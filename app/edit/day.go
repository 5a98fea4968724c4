package edit

import (
	"fmt"

	"keelroom/hazards/plan"
)

// NewDay gives an empty day for a boat, with times in that IANA zone. It becomes a
// plan that can be checked with a route, and with what the boat still lacks.
func NewDay(title, zone string, boat plan.Boat) (*plan.Plan, error) {
	p := plan.New()
	p.Title, p.Boat = title, boat
	if err := p.SetZone(zone); err != nil {
		return nil, fmt.Errorf("%q is not a time zone that is known here: choose one such as Atlantic/Azores", zone)
	}
	if _, err := plan.Encode(p); err != nil {
		return nil, err
	}
	return p, nil
}

// RenamePart sets the name of a route or a stay.
func RenamePart(p *plan.Plan, part int, name string) error {
	return change(p, func(w *plan.Plan) error {
		if r, err := route(w, part); err == nil {
			r.Name = name
			return nil
		}
		s, err := stay(w, part)
		if err != nil {
			return err
		}
		s.Name = name
		return nil
	})
}
