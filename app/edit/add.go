package edit

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"github.com/paulmach/orb"

	"keelroom/hazards/plan"
)

// AddRoute continues the day with a sketched route. It begins where the day ends
// so far: a first point within [plan.JoinM] of that place is put there, and
// from one further off the leg to it is drawn as well. After a route the
// sketch lengthens that route. depart is for the first route of a day, and is
// not looked at otherwise.
func AddRoute(p *plan.Plan, sketch []orb.Point, depart time.Time) error {
	return change(p, func(w *plan.Plan) error {
		line, err := positions(sketch)
		if err != nil {
			return err
		}
		n := len(w.Parts)
		if n == 0 {
			return firstRoute(w, slices.Compact(line), depart)
		}
		if r := w.Parts[n-1].Route; r != nil {
			return lengthen(w, r, line)
		}
		line = from(w.Parts[n-1].Stay.At, line)
		if len(line) < 2 {
			return errShort
		}
		w.Parts = append(w.Parts, plan.Part{Route: &plan.Route{Points: line}})
		return nil
	})
}

var errShort = errors.New("a route needs two different places: set another waypoint")

// from is a line that begins at a place, without repeated points.
func from(start orb.Point, line []orb.Point) []orb.Point {
	if len(line) > 0 && joined(start, line[0]) {
		line = line[1:]
	}
	return slices.Compact(append([]orb.Point{start}, line...))
}

func firstRoute(p *plan.Plan, line []orb.Point, depart time.Time) error {
	if len(line) < 2 {
		return errShort
	}
	if depart.IsZero() {
		return errors.New("say first when she leaves: the day's first route needs a time")
	}
	depart = depart.UTC()
	p.Parts = []plan.Part{{Route: &plan.Route{Points: line, Depart: &depart}}}
	return nil
}

func lengthen(p *plan.Plan, r *plan.Route, line []orb.Point) error {
	if len(r.Points) == 0 {
		r.Points = slices.Compact(line)
	} else if more := from(r.Points[len(r.Points)-1], line)[1:]; len(more) == 0 {
		return errShort
	} else {
		r.Points = append(r.Points, more...)
	}
	return setSpeeds(p, r, speeds(r))
}

// AddStay adds a stay where the last route ends. kind is one of
// [plan.AtAnchor], [plan.AtMooring], [plan.AtBerth]; "" is at anchor.
func AddStay(p *plan.Plan, name, kind string, until time.Time) error {
	return change(p, func(w *plan.Plan) error {
		n := len(w.Parts)
		if n == 0 || w.Parts[n-1].Route == nil || len(w.Parts[n-1].Route.Points) == 0 {
			return errors.New("a stay comes at the end of a route: draw the way there first")
		}
		switch kind {
		case "":
			kind = plan.AtAnchor
		case plan.AtAnchor, plan.AtMooring, plan.AtBerth:
		default:
			return fmt.Errorf("%q is no way to stay: choose anchor, mooring or berth", kind)
		}
		line := w.Parts[n-1].Route.Points
		w.Parts = append(w.Parts, plan.Part{Stay: &plan.Stay{Name: name, Kind: kind, At: line[len(line)-1]}})
		return setUntil(w, n, until)
	})
}

// ReturnRoute adds the way back from the last stay to where the day began: all
// routes so far, backwards, with their speeds. Where that would pass the same
// waypoint twice, as after an earlier way back, the loop between is left out.
func ReturnRoute(p *plan.Plan) error {
	return change(p, func(w *plan.Plan) error {
		n := len(w.Parts)
		if n == 0 || w.Parts[n-1].Stay == nil {
			return errors.New("the way back begins at a stay: add the stay first")
		}
		line, kn := backwards(w)
		if len(line) < 2 || joined(line[0], line[len(line)-1]) {
			return errors.New("she is back where the day began: there is no way left to draw")
		}
		r := &plan.Route{Name: "Back", Points: line}
		w.Parts = append(w.Parts, plan.Part{Route: r})
		return setSpeeds(w, r, kn)
	})
}

// backwards is the way from the last stay to the start, and the speed of each leg,
// 0 for cruising speed.
func backwards(p *plan.Plan) (line []orb.Point, kn []float64) {
	line = []orb.Point{p.Parts[len(p.Parts)-1].Stay.At}
	add := func(at orb.Point, speed float64) {
		if i := slices.Index(line, at); i >= 0 {
			line, kn = line[:i+1], kn[:i]
			return
		}
		line, kn = append(line, at), append(kn, speed)
	}
	routes := p.Routes()
	for i := len(routes) - 1; i >= 0; i-- {
		legs := speeds(routes[i])
		for j := len(routes[i].Points) - 1; j >= 0; j-- {
			speed := 0.0
			if j < len(legs) {
				speed = legs[j]
			}
			add(routes[i].Points[j], speed)
		}
	}
	return line, kn
}
