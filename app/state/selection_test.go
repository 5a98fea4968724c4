package state

import (
	"testing"

	"github.com/paulmach/orb"

	"keelroom/app/edit"
	"keelroom/hazards/plan"
)

// What is highlighted on the chart, named on the bar and taken out by Delete is one
// waypoint, whichever gesture chose it.
func TestOneWaypointIsChosen(t *testing.T) {
	g := newHarness(t).start()
	r := g.room
	feature, _ := edit.FeatureOfPart(r.History.Plan, 0)
	agree := func(when string, vertex int) {
		t.Helper()
		want := pointRef{feature, vertex}
		if vertex < 0 {
			want = nothing
		}
		if r.Selection.point != want || g.view.selected != want {
			t.Errorf("%s: the bar is about %v and the chart highlights %v; %v is chosen", when, r.Selection.point, g.view.selected, want)
		}
	}
	point := func(vertex int) orb.Point { return r.History.Plan.Parts[0].Route.Points[vertex] }
	at := func(vertex int, p orb.Point) map[string]any {
		return map[string]any{"feature": feature, "vertex": vertex, "lon": p[0], "lat": p[1]}
	}

	g.says("press", at(2, point(2)))
	agree("held", 2)
	g.says("move", at(1, orb.Point{point(1)[0] + 0.0001, point(1)[1]}))
	agree("another one dragged", 1)
	g.says("move", at(3, orb.Point{point(3)[0], 91}))
	agree("a drag that is refused", 3)
	before := len(r.History.Plan.Parts[0].Route.Points)
	g.says("insert", at(2, orb.Point{(point(1)[0] + point(2)[0]) / 2, (point(1)[1] + point(2)[1]) / 2}))
	agree("one drawn out of a leg", 2)
	if n := len(r.History.Plan.Parts[0].Route.Points); n != before+1 {
		t.Errorf("%d waypoints, wanted %d", n, before+1)
	}
	r.History.undo()
	agree("the insertion undone", -1)

	// The skipper's own danger comes and goes: the waypoint stays the chosen one,
	// wherever it stands in the file.
	g.says("press", at(2, point(2)))
	r.History.try(func(p *plan.Plan) error { return edit.AddHazard(p, []orb.Point{{-36.03, 43}}, "INVENTED", nil, "") })
	agree("a danger added", 2)

	r.Do("plan-new", "")
	agree("another plan", -1)
}
