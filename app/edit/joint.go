package edit

import (
	"slices"

	"github.com/paulmach/orb"

	"keelroom/hazards/plan"
)

// spot is a waypoint of a route, or a stay with the vertex 0.
type spot struct{ part, vertex int }

// points is the positions of a part.
func points(part plan.Part) []orb.Point {
	switch {
	case part.Route != nil:
		return part.Route.Points
	case part.Stay != nil:
		return []orb.Point{part.Stay.At}
	}
	return nil
}

func at(p *plan.Plan, s spot) orb.Point { return points(p.Parts[s.part])[s.vertex] }

// beside returns the spots of the parts before and after that meet s.
func beside(p *plan.Plan, s spot) []spot {
	var met []spot
	meets := func(other spot) {
		if joined(at(p, s), at(p, other)) {
			met = append(met, other)
		}
	}
	if s.vertex == 0 && s.part > 0 {
		if n := len(points(p.Parts[s.part-1])); n > 0 {
			meets(spot{s.part - 1, n - 1})
		}
	}
	if s.vertex == len(points(p.Parts[s.part]))-1 && s.part+1 < len(p.Parts) && len(points(p.Parts[s.part+1])) > 0 {
		meets(spot{s.part + 1, 0})
	}
	return met
}

// free says whether no other part meets that spot.
func free(p *plan.Plan, s spot) bool { return len(beside(p, s)) == 0 }

// joint returns s and all that meets it, directly or by way of a stay.
func joint(p *plan.Plan, s spot) []spot {
	all := []spot{s}
	for i := 0; i < len(all); i++ {
		for _, other := range beside(p, all[i]) {
			if !slices.Contains(all, other) {
				all = append(all, other)
			}
		}
	}
	return all
}

// move puts a joint at a place.
func move(p *plan.Plan, s spot, to orb.Point) error {
	to, err := position(to)
	if err != nil {
		return err
	}
	for _, s := range joint(p, s) {
		put(p.Parts[s.part], s.vertex, to)
	}
	return nil
}

func put(part plan.Part, vertex int, to orb.Point) {
	if part.Route != nil {
		part.Route.Points[vertex] = to
		return
	}
	if s := part.Stay; s.At != to {
		s.At, s.SoundedM, s.SoundedAt = to, nil, nil
	}
}
