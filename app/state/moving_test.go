package state

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/app/engine"
	"keelroom/hazards/plan"
)

// drags has a point dragged to a place, as the chart view does: it asks the engine,
// and says what the answer is.
func (g *harness) drags(feature, vertex int, to orb.Point) (state string) {
	g.t.Helper()
	g.seq++
	g.service.HandleMove(engine.Move{Seq: g.seq, PlanRev: g.view.planRev, ChartRev: g.view.chartRev, Feature: feature, Vertex: vertex, At: to})
	var answer struct {
		Items struct {
			Head json.RawMessage `json:"head"`
		}
		Words string
	}
	a := <-g.moves
	if err := json.Unmarshal(a.View, &answer); err != nil {
		g.t.Fatal(err)
	}
	switch a.State {
	case engine.Done:
		g.says("moving", map[string]any{"head": answer.Items.Head})
	case engine.Failed:
		g.says("moving", map[string]any{"words": answer.Words})
	case engine.Stale:
		g.says("resend", map[string]any{})
	}
	return a.State
}

var onTheBank = orb.Point{-36.02, 43.02} // the demo's mainland

// While a waypoint is dragged the verdict is that of the place where it is, and what
// was checked before says so; given up, all is as it was.
func TestVerdictFollowsADrag(t *testing.T) {
	g := newHarness(t).start()
	g.wants("Care is needed")
	feature := g.feature("route", 0)
	g.drags(feature, 6, onTheBank)
	g.wants("Not clear: do not go as planned.", "with the point here", "As checked before the point was moved.",
		"Not checked by this version: mooring lines", "All times are in the zone Etc/GMT+2, UTC-02:00.")
	if strings.Contains(g.text(), plan.CautionNoSwell) {
		t.Error("the demo gives a swell")
	}
	if len(g.room.History.Open.Past) != 0 {
		t.Error("a drag that goes on has changed the plan")
	}
	g.drags(feature, 6, g.room.History.Plan.Routes()[0].Points[6])
	g.wants("Care is needed")
	g.drags(feature, 6, onTheBank)
	g.says("given-up", map[string]any{})
	g.wants("Care is needed")
	if shown := g.text(); strings.Contains(shown, "with the point here") || strings.Contains(shown, "before the point was moved") {
		t.Error("the drag that was given up is still on the screen")
	}
}

// What is dropped is checked as the plan it is, and can be undone.
func TestDropIsChecked(t *testing.T) {
	g := newHarness(t).start()
	feature := g.feature("route", 0)
	g.drags(feature, 6, onTheBank)
	g.says("move", map[string]any{"feature": feature, "vertex": 6, "lon": onTheBank[0], "lat": onTheBank[1]})
	g.wants("Not clear: do not go as planned.")
	if g.room.Checks.Moving != nil || len(g.room.History.Open.Past) != 1 {
		t.Errorf("moving %v, %d steps of undo", g.room.Checks.Moving, len(g.room.History.Open.Past))
	}
	if state := g.drags(feature, 6, onTheBank); state != engine.Done {
		t.Errorf("the engine follows the plan as it was dropped: %s", state)
	}
	g.says("given-up", map[string]any{})
	g.room.Do("undo", "")
	g.settle()
	g.wants("Care is needed")
}

// A drag that ends where it began leaves the report of the plan as it is.
func TestDragBackAgain(t *testing.T) {
	g := newHarness(t).start()
	feature := g.feature("route", 0)
	at := g.room.History.Plan.Routes()[0].Points[6]
	g.drags(feature, 6, onTheBank)
	g.wants("Not clear: do not go as planned.")
	g.says("move", map[string]any{"feature": feature, "vertex": 6, "lon": at[0], "lat": at[1]})
	g.wants("Care is needed")
	if len(g.room.History.Open.Past) != 0 {
		t.Error("nothing was changed, and there is something to undo")
	}
}

// Beside the verdict of a place that the point is dragged through stands what was not
// given, as it does beside every other.
func TestDragWithoutSwell(t *testing.T) {
	g := newHarness(t).start()
	g.taken("swell", "")
	g.drags(g.feature("route", 0), 6, onTheBank)
	g.wants("Not clear: do not go as planned.", "with the point here")
	// Beside the verdict and among the cautions; there is no sheet to print meanwhile.
	if n := strings.Count(g.text(), plan.CautionNoSwell); n != 2 {
		t.Errorf("that no swell is given stands %d times on the screen while a point is dragged; 2 are wanted", n)
	}
}

// What is not known of a place is said, and no verdict of another place stands.
func TestDragWithoutAnAnswer(t *testing.T) {
	g := newHarness(t).start()
	feature := g.feature("route", 0)
	for _, c := range []struct {
		name string
		do   func()
		want string
	}{
		{"the answer is late", func() { g.says("moving", map[string]any{"late": true}) }, "Being checked with the point here"},
		{"too far away", func() { g.drags(feature, 6, orb.Point{-26, 43}) }, "Nothing is known of this day."},
		{"not to be read", func() { g.says("moving", map[string]any{"head": 7}) }, "Being checked with the point here"},
		{"a verdict that is none", func() {
			g.says("moving", map[string]any{"head": map[string]any{"verdict": "fine", "counts": []int{1, 0, 0}}})
		}, "Being checked with the point here"},
	} {
		g.drags(feature, 6, onTheBank)
		c.do()
		g.wants(c.want)
		for _, verdict := range []string{"do not go as planned", "Care is needed:", "nothing found against", "Watch 1"} {
			if strings.Contains(strings.ReplaceAll(g.text(), "\u00a0", " "), verdict) {
				t.Errorf("%s: the screen says %q", c.name, verdict)
			}
		}
	}
}

// An engine that was started again, or has another plan, is given the plan again.
func TestPlanIsSentAgain(t *testing.T) {
	g := newHarness(t).start()
	feature := g.feature("route", 0)
	before := g.view.followed
	g.view.planRev-- // as if the view were behind
	if state := g.drags(feature, 6, onTheBank); state != engine.Stale {
		t.Fatalf("another plan: %s", state)
	}
	if g.view.followed == before {
		t.Fatal("the plan was not sent again")
	}
	if state := g.drags(feature, 6, onTheBank); state != engine.Done {
		t.Errorf("after the plan was sent again: %s", state)
	}
	g.says("given-up", map[string]any{})
	g.service.Stop()
	g.startEngine()
	g.room.EngineLost("a test")
	g.settle()
	if state := g.drags(feature, 6, onTheBank); state != engine.Done {
		t.Errorf("after the engine was started again: %s", state)
	}
}

// While a check is under way a drag is of the plan that is on the screen, not of the
// one that the engine was given before.
func TestDragWhileTheNewestPlanWaits(t *testing.T) {
	g := newHarness(t).start()
	feature := g.feature("route", 0)
	drop := func(to orb.Point) {
		detail, _ := json.Marshal(map[string]any{"feature": feature, "vertex": 6, "lon": to[0], "lat": to[1]}) // plain data: does not fail
		g.room.ChartSays("move", detail)
	}
	drop(onTheBank)
	drop(orb.Point{-36.03, 43.03}) // waits for the check of the drop before
	if g.view.planRev != g.room.History.rev {
		t.Errorf("the chart view follows plan %d, on the screen is %d", g.view.planRev, g.room.History.rev)
	}
	g.seq++
	g.service.HandleMove(engine.Move{Seq: g.seq, PlanRev: g.view.planRev, ChartRev: g.view.chartRev, Feature: feature, Vertex: 5, At: onTheBank})
	if a := <-g.moves; a.State != engine.Stale {
		t.Errorf("of a plan that the engine does not have a move is %s: %s", a.State, a.View)
	}
	g.settle()
	if state := g.drags(feature, 5, onTheBank); state != engine.Done {
		t.Errorf("once it has the plan: %s", state)
	}
}

// The check of a plan that was dropped says nothing of a drag that has begun meanwhile.
func TestDragGoesOnThroughACheck(t *testing.T) {
	g := newHarness(t).start()
	feature := g.feature("route", 0)
	g.drags(feature, 6, onTheBank)
	g.says("moving", map[string]any{"late": true})
	g.room.Checks.recheck()
	g.settle()
	g.wants("Being checked with the point here")
	if strings.Contains(g.text(), "Care is needed:") {
		t.Error("the verdict without the point there is shown as if it were of the place")
	}
}

// A new waypoint that cannot be put in leaves no verdict of the place where it was tried.
func TestRefusedWaypointLeavesNothing(t *testing.T) {
	g := newHarness(t).start()
	feature := g.feature("route", 0)
	g.drags(feature, 6, onTheBank)
	g.says("insert", map[string]any{"feature": feature, "vertex": 1000, "lon": -36, "lat": 43})
	if g.room.Checks.Moving != nil || strings.Contains(g.text(), "with the point here") {
		t.Error("the verdict of the place is still on the screen")
	}
	g.wants("Care is needed")
}

// Without a chart that is set aside nothing is told of a place either.
func TestDragWithoutAChartThatIsSetAside(t *testing.T) {
	g := newHarness(t).start()
	feature := g.feature("route", 0)
	g.room.Charts.Sets[0].aside, g.room.Charts.Sets[0].kept = true, true
	g.room.Checks.recheck()
	g.settle()
	g.wants("is set aside")
	if state := g.drags(feature, 6, onTheBank); state == engine.Done {
		t.Error("the chart view may ask of a place")
	}
	g.says("moving", map[string]any{"head": map[string]any{"verdict": "clear", "counts": []int{0, 0, 0}}})
	g.wants("is set aside", "Nothing is known of this day.")
	if _, known := g.room.Checks.Moving.Severity(); known {
		t.Error("a verdict without the chart is shown")
	}
}

// Nor of a plan that is set aside, by what is known of the one before.
func TestDragOfAPlanThatIsSetAside(t *testing.T) {
	g := newHarness(t).start()
	feature := g.feature("route", 0)
	for range enoughStops {
		g.room.aside.count((&Asked{Kind: engine.CheckPlan, Plan: g.room.History.Open.Text}).key())
	}
	g.room.Checks.recheck()
	g.settle()
	if state := g.drags(feature, 6, onTheBank); state == engine.Done {
		t.Error("a place is answered by the plan before")
	}
}

// From when a chart is given until it is read, and from when one is removed, nothing is
// told of a place on the charts before.
func TestDragWhileChartsChange(t *testing.T) {
	g := newHarness(t).start()
	feature := g.feature("route", 0)
	mayAsk := func(when string, want bool) {
		t.Helper()
		if may := g.view.planRev == g.room.History.rev; may != want {
			t.Errorf("%s: the chart view follows plan %d on charts %d, want that it may ask: %v", when, g.view.planRev, g.view.chartRev, want)
		}
	}
	mayAsk("as checked", true)
	g.room.Charts.send(g.room.Charts.Sets[0], nil)
	mayAsk("a chart that is given", false)
	g.settle()
	mayAsk("a chart that was read", true)
	if state := g.drags(feature, 6, onTheBank); state != engine.Done {
		t.Errorf("on a chart that was read: %s", state)
	}
	g.room.Charts.removeSet(g.room.Charts.Sets[0].ID)
	mayAsk("a chart that is removed", false)
	g.settle()
	mayAsk("a chart that was removed", true)
}
