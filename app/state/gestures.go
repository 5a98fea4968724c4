package state

import (
	"encoding/json"
	"fmt"
	"time"

	"github.com/paulmach/orb"

	"keelroom/app/edit"
	"keelroom/app/engine"
	"keelroom/hazards/plan"
)

// gesture is what the chart view says: which of the members count depends on
// its kind.
type gesture struct {
	Feature, Vertex int
	Lon, Lat        float64
	Finding         *int
	Mode            string
	Points          int
	Coordinates     []orb.Point
	Objects         []map[string]any
	Bounds          *[4]float64
	Text            string
}

func (g *gesture) at() orb.Point { return orb.Point{g.Lon, g.Lat} }

// ChartSays takes what was done on the chart. detail is the JSON of it.
// It reports whether the screen has to be drawn again.
func (r *Room) ChartSays(kind string, detail []byte) (changed bool) {
	if r.tooEarly(kind, detail) {
		return false
	}
	g := gesture{Feature: -1}
	if err := json.Unmarshal(detail, &g); err != nil {
		return false
	}
	switch kind {
	case "moving":
		r.Checks.moves(detail)
	case "given-up":
		r.Checks.Moving = nil
	case "resend":
		r.Checks.resend()
	case "view":
		at := g.at()
		r.View.viewAt, r.View.bounds = &at, g.Bounds
		return false
	case "move":
		r.move(&g)
	case "insert":
		done := r.onPart(&g, func(p *plan.Plan, part int) error { return edit.InsertVertex(p, part, g.Vertex, g.at()) })
		if done {
			r.Selection.choosePoint(pointRef{g.Feature, g.Vertex})
		}
		r.Checks.dropped(done)
	case "remove":
		r.onPart(&g, func(p *plan.Plan, part int) error { return edit.RemoveVertex(p, part, g.Vertex) })
	case "select":
		r.Selection.choose(&g)
	case "sketching":
		r.Sketch.Points = max(g.Points, 0)
	case "sketch":
		r.Sketch.finish(&g)
	case "place":
		r.placed(&g)
	case "press":
		r.pressed(&g)
	case "trouble":
		r.Notices.notify(true, "The chart view: "+g.Text)
	}
	return true
}

func (r *Room) onPart(g *gesture, change func(p *plan.Plan, part int) error) bool {
	return r.History.try(func(p *plan.Plan) error {
		part, ok := edit.PartOfFeature(p, g.Feature)
		if !ok {
			return fmt.Errorf("this is no longer part of the plan")
		}
		return change(p, part)
	})
}

func moved(g *gesture) func(p *plan.Plan) error {
	return func(p *plan.Plan) error {
		part, ok := edit.PartOfFeature(p, g.Feature)
		if !ok {
			return fmt.Errorf("this is no longer part of the plan")
		}
		if p.Parts[part].Stay != nil {
			return edit.MoveStay(p, part, g.at())
		}
		return edit.MoveVertex(p, part, g.Vertex, g.at())
	}
}

func (r *Room) move(g *gesture) {
	rev := r.History.rev
	r.Selection.choosePoint(pointRef{g.Feature, g.Vertex})
	r.History.try(moved(g))
	r.Checks.dropped(r.History.rev != rev)
}

func (r *Room) placed(g *gesture) { r.Places.ask(g) }

func (r *Room) pressed(g *gesture) {
	if g.Feature >= 0 {
		r.Selection.choosePoint(pointRef{g.Feature, g.Vertex})
		return
	}
	r.Places.ask(g)
}

// StripSays takes what was done on the day strip.
func (r *Room) StripSays(kind string, detail []byte) (changed bool) {
	var g struct {
		T, Seconds float64
		Part       int
		Slot       *engine.Slot
	}
	if err := json.Unmarshal(detail, &g); err != nil {
		return false
	}
	at := time.Unix(int64(g.T), 0)
	switch kind {
	case "cursor":
		r.Hour.move(int64(g.T)) // the line on the chart names the hour
	case "shift":
		by := time.Duration(g.Seconds) * time.Second
		r.tryOnStrip(func(p *plan.Plan) error { return edit.ShiftFrom(p, g.Part, by) })
	case "until":
		r.tryOnStrip(func(p *plan.Plan) error { return edit.SetUntil(p, g.Part, at) })
	case "depart":
		r.LeaveAt(at)
	case "why":
		r.Departures.Ribbon.Why = g.Slot
	}
	return true
}

// tryOnStrip is try for a gesture on the strip, which is put right when the
// gesture is refused.
func (r *Room) tryOnStrip(edit func(p *plan.Plan) error) {
	if !r.History.try(edit) {
		r.Ports.strip.SetDay(r.Checks.dayRaw)
	}
}

// LeaveAt moves the whole day to another departure.
func (r *Room) LeaveAt(at time.Time) {
	r.History.try(func(p *plan.Plan) error {
		return edit.DepartAt(p, at)
	})
	r.Departures.Ribbon.Why = nil
}
