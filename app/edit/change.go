package edit

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/hazards/plan"
)

var errGone = errors.New("this is no longer in the plan: choose it again")

// change makes an edit on a copy, and puts the copy in the plan's place if it
// went well.
func change(p *plan.Plan, edit func(w *plan.Plan) error) error {
	w := *p
	w.Parts = make([]plan.Part, len(p.Parts))
	for i, part := range p.Parts {
		w.Parts[i] = part.Clone()
	}
	w.Private = slices.Clone(p.Private)
	if err := edit(&w); err != nil {
		return err
	}
	keepDay(&w, p)
	*p = w
	return nil
}

// keepDay has a plan that loses its departure keep that day, and one that gets a
// departure take its day from there alone.
func keepDay(p, before *plan.Plan) {
	if routes := p.Routes(); len(routes) > 0 && routes[0].Depart != nil {
		p.Day = ""
		return
	}
	if date, ok := before.Date(); ok {
		p.Day = date.Format(time.DateOnly)
	}
}

// route returns the route that is that part of the day.
func route(p *plan.Plan, part int) (*plan.Route, error) {
	if part < 0 || part >= len(p.Parts) || p.Parts[part].Route == nil {
		return nil, errGone
	}
	return p.Parts[part].Route, nil
}

// stay returns the stay that is that part of the day.
func stay(p *plan.Plan, part int) (*plan.Stay, error) {
	if part < 0 || part >= len(p.Parts) || p.Parts[part].Stay == nil {
		return nil, errGone
	}
	return p.Parts[part].Stay, nil
}

// position returns a position as the plan file holds it, or says what is wrong.
func position(at orb.Point) (orb.Point, error) {
	if !geo.ValidPosition(at) {
		return at, fmt.Errorf("there is no place at latitude %.5g, longitude %.5g: choose one with a latitude within 90 and a longitude within 180 degrees", at.Lat(), at.Lon())
	}
	const scale = 1e7 // the plan file has 7 decimals
	return orb.Point{math.Round(at[0]*scale) / scale, math.Round(at[1]*scale) / scale}, nil
}

// positions is position for several.
func positions(points []orb.Point) ([]orb.Point, error) {
	out := make([]orb.Point, len(points))
	for i, at := range points {
		var err error
		if out[i], err = position(at); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// joined says whether two ends are one place.
func joined(a, b orb.Point) bool { return geo.DistanceM(a, b) <= plan.JoinM }
