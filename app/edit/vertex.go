package edit

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"keelroom/hazards/plan"
)

// MoveVertex moves a waypoint; at a joint all that meets there moves with it.
func MoveVertex(p *plan.Plan, part, vertex int, at orb.Point) error {
	return change(p, func(w *plan.Plan) error {
		r, err := route(w, part)
		if err != nil || vertex < 0 || vertex >= len(r.Points) {
			return errGone
		}
		return move(w, spot{part, vertex}, at)
	})
}

// MoveStay moves a stay with the ends of the routes that meet there. A stay that
// moves loses its sounding, which was read elsewhere.
func MoveStay(p *plan.Plan, part int, at orb.Point) error {
	return change(p, func(w *plan.Plan) error {
		if _, err := stay(w, part); err != nil {
			return err
		}
		return move(w, spot{part, 0}, at)
	})
}

// InsertVertex puts a waypoint before the one with that index. Before the first
// or after the last it lengthens the route, which only an end of the day allows.
// The two legs made of one keep its speed.
func InsertVertex(p *plan.Plan, part, vertex int, at orb.Point) error {
	return change(p, func(w *plan.Plan) error {
		r, err := route(w, part)
		if err != nil || vertex < 0 || vertex > len(r.Points) {
			return errGone
		}
		if at, err = position(at); err != nil {
			return err
		}
		if len(r.Points) > 0 && (vertex == 0 && !free(w, spot{part, 0}) || vertex == len(r.Points) && !free(w, spot{part, vertex - 1})) {
			return errors.New("the way goes on from there: put the waypoint between two others")
		}
		if n := len(r.SpeedsKn); n > 0 {
			leg := min(max(vertex-1, 0), n-1)
			r.SpeedsKn = slices.Insert(r.SpeedsKn, leg, r.SpeedsKn[leg])
		}
		r.Points = slices.Insert(r.Points, vertex, at)
		return nil
	})
}

// RemoveVertex takes a waypoint out. The leg made of two has the lower of their
// speeds. The place of a stay, and one of the last two waypoints, stay.
func RemoveVertex(p *plan.Plan, part, vertex int) error {
	return change(p, func(w *plan.Plan) error {
		r, err := route(w, part)
		if err != nil || vertex < 0 || vertex >= len(r.Points) {
			return errGone
		}
		if len(r.Points) <= 2 {
			return errors.New("a route needs two waypoints: remove the whole route instead")
		}
		if !free(w, spot{part, vertex}) {
			return errors.New("the route meets the next part of the day here: move this waypoint, or remove the stay")
		}
		r.Points = slices.Delete(r.Points, vertex, vertex+1)
		r.SpeedsKn = withoutVertex(r.SpeedsKn, vertex)
		return nil
	})
}

// withoutVertex is the speeds of the legs once a waypoint is gone.
func withoutVertex(kn []float64, vertex int) []float64 {
	switch {
	case len(kn) == 0:
		return kn
	case vertex == 0:
		return kn[1:]
	case vertex >= len(kn):
		return kn[:len(kn)-1]
	}
	kn[vertex] = math.Min(kn[vertex-1], kn[vertex])
	return slices.Delete(kn, vertex-1, vertex)
}

// SetSpeed sets the speed asked for on a leg, counted from 0; nil is cruising
// speed. A route on which she cruises throughout has no speeds.
func SetSpeed(p *plan.Plan, part, leg int, kn *float64) error {
	return change(p, func(w *plan.Plan) error {
		r, err := route(w, part)
		if err != nil || leg < 0 || leg >= r.Legs() {
			return errGone
		}
		if kn != nil && !(*kn >= 0.5 && *kn <= 100) {
			return fmt.Errorf("%.4g knots is not a speed for a leg: give one from 0.5 to 100, or none for cruising speed", *kn)
		}
		legs := speeds(r)
		legs[leg] = 0
		if kn != nil {
			legs[leg] = *kn
		}
		return setSpeeds(w, r, legs)
	})
}

// speeds is the speed asked for on each leg; 0 is cruising speed.
func speeds(r *plan.Route) []float64 {
	kn := make([]float64, r.Legs())
	copy(kn, r.SpeedsKn)
	return kn
}

// setSpeeds gives a route its speeds, one a leg, 0 for cruising speed.
func setSpeeds(p *plan.Plan, r *plan.Route, kn []float64) error {
	r.SpeedsKn = nil
	cruise := func(v float64) bool { return v == 0 || v == p.Boat.CruiseKn }
	if !slices.ContainsFunc(kn, func(v float64) bool { return !cruise(v) }) {
		return nil
	}
	for _, v := range kn {
		if v == 0 {
			v = p.Boat.CruiseKn
		}
		if v == 0 {
			return errors.New("the boat has no cruising speed yet: give it first, then the speeds of single legs")
		}
		r.SpeedsKn = append(r.SpeedsKn, v)
	}
	return nil
}
