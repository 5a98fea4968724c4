package edit

import (
	"slices"

	"keelroom/hazards/plan"
)

// RemovePart takes a route or a stay out of the day, which stays a day of routes
// and stays in turn:
//   - a stay between two routes: they become one, which passes there;
//   - a route between two stays: the stay it leads to goes as well, and the next
//     route begins where this one began;
//   - the first route: the stay it leads to goes as well, and the day begins
//     there, at the time that the stay would have ended;
//   - the last part: only it goes.
func RemovePart(p *plan.Plan, part int) error {
	return change(p, func(w *plan.Plan) error {
		switch {
		case part < 0 || part >= len(w.Parts):
			return errGone
		case part == len(w.Parts)-1:
			w.Parts = w.Parts[:part]
		case w.Parts[part].Stay != nil:
			return removeStay(w, part)
		default:
			return removeRoute(w, part)
		}
		return nil
	})
}

func removeStay(p *plan.Plan, part int) error {
	after := p.Parts[part+1].Route
	if after == nil || part == 0 || p.Parts[part-1].Route == nil {
		p.Parts = slices.Delete(p.Parts, part, part+1) // a draft whose order was wrong before
		return nil
	}
	before := p.Parts[part-1].Route
	p.Parts = slices.Delete(p.Parts, part, part+2)
	return join(p, before, after)
}

// join makes one route of two that follow each other. Ends that meet become one
// waypoint, that of the first.
func join(p *plan.Plan, before, after *plan.Route) error {
	kn, more, legs := speeds(before), after.Points, speeds(after)
	if n := len(before.Points); n > 0 && len(more) > 0 {
		if joined(before.Points[n-1], more[0]) {
			more = more[1:]
		} else {
			kn = append(kn, 0)
		}
	}
	before.Points = append(before.Points, more...)
	return setSpeeds(p, before, append(kn, legs...))
}

func removeRoute(p *plan.Plan, part int) error {
	gone, to := p.Parts[part].Route, p.Parts[part+1].Stay
	if to == nil {
		p.Parts = slices.Delete(p.Parts, part, part+1) // a draft whose order was wrong before
		return nil
	}
	p.Parts = slices.Delete(p.Parts, part, part+2)
	if part >= len(p.Parts) || p.Parts[part].Route == nil {
		return nil
	}
	next := p.Parts[part].Route
	if part == 0 {
		if leaves := to.Until; !leaves.IsZero() {
			next.Depart = &leaves
		} else {
			next.Depart = gone.Depart
		}
		return nil
	}
	return beginAt(p, next, p.Parts[part-1])
}

// beginAt makes a route begin where the part before it ends. Its old beginning
// goes, as it led from the stay that is gone.
func beginAt(p *plan.Plan, r *plan.Route, before plan.Part) error {
	line := points(before)
	if len(line) == 0 || len(r.Points) == 0 {
		return nil
	}
	r.Points[0] = line[len(line)-1]
	kept, kn, legs := r.Points[:1:1], []float64{}, speeds(r)
	for i, at := range r.Points[1:] {
		if at != kept[len(kept)-1] || i == len(legs)-1 && len(kept) == 1 {
			kept, kn = append(kept, at), append(kn, legs[i])
		}
	}
	r.Points = kept
	return setSpeeds(p, r, kn)
}
