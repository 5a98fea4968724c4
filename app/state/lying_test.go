package state

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/app/engine"
	"keelroom/geo"
	"keelroom/hazards/anchorages"
	"keelroom/hazards/plan"
)

// lookingFor is a room that has looked for places for the demo day's first stay.
func lookingFor(t *testing.T) (g *harness, part int) {
	t.Helper()
	g = newHarness(t).start()
	part = slices.IndexFunc(g.room.History.Plan.Parts, func(p plan.Part) bool { return p.Stay != nil })
	g.room.View.Tab = TabStays
	at := g.room.History.Plan.Parts[part].Stay.At
	b := anchorages.Around(at, 1)
	g.says("view", map[string]any{"lon": at[0], "lat": at[1], "bounds": []float64{b.Min[0], b.Min[1], b.Max[0], b.Max[1]}})
	g.room.Do("lie-find", strconv.Itoa(part))
	g.settle()
	return g, part
}

// A place that was found is taken: the stay lies there, and the ways to it and from
// it end there. One step back brings all of it back.
func TestPlaceToLieIsTaken(t *testing.T) {
	g, part := lookingFor(t)
	l := g.room.Lying
	if l.Busy || l.Failed != "" || len(l.Found.Places) < 2 {
		t.Fatalf("busy %v, %q, %d places", l.Busy, l.Failed, len(l.Found.Places))
	}
	chart := g.view
	if len(chart.lying) != len(l.Found.Places) || chart.lying[0] != orb.Point(l.Found.Places[0].At) {
		t.Errorf("%d places are marked, %d found", len(chart.lying), len(l.Found.Places))
	}
	g.wants("Place 1: ", "Lie here", "nothing that is checked forbids to lie")
	before := g.room.History.Open.Text
	g.room.Do("lie-at", "2")
	g.settle()
	p := g.room.History.Plan
	want := orb.Point(l.Found.Places[1].At)
	way, back := p.Parts[part-1].Route.Points, p.Parts[part+1].Route.Points
	for name, at := range map[string]orb.Point{"the stay": p.Parts[part].Stay.At, "the way there": way[len(way)-1], "the way on": back[0]} {
		if geo.DistanceM(at, want) > 0.1 {
			t.Errorf("%s ends at %v, not at %v", name, at, want)
		}
	}
	g.wants("Place 2, where the stay is now")
	g.room.Do("lie-at", "1")
	g.settle()
	if at := g.room.History.Plan.Parts[part].Stay.At; geo.DistanceM(at, l.Found.Places[0].At) > 0.1 {
		t.Errorf("after the other place the stay lies at %v", at)
	}
	g.room.Do("undo", "")
	g.room.Do("undo", "")
	g.settle()
	if g.room.History.Open.Text != before {
		t.Error("two steps back do not bring the plan back")
	}
	if l.Asked || len(chart.lying) != 0 {
		t.Error("the places of another plan still stand")
	}
}

// What is found holds for one plan and one set of charts: any other change takes it away.
func TestPlacesToLieGoWithThePlan(t *testing.T) {
	for name, change := range map[string]func(g *harness){
		"another draught": func(g *harness) { g.room.Enter("draught", "1.4") },
		"a chart less":    func(g *harness) { g.room.Do("set-remove", g.room.Charts.Sets[0].ID) },
		"another plan":    func(g *harness) { g.room.Do("plan-new", "") },
		"taken away":      func(g *harness) { g.room.Do("lie-gone", "") },
	} {
		g, _ := lookingFor(t)
		change(g)
		g.settle()
		if l := g.room.Lying; l.Asked || l.Busy || len(l.Found.Places) > 0 || len(g.view.lying) > 0 {
			t.Errorf("%s: the places still stand", name)
		}
	}
}

// The card of a place says whether she could lie there, and why not.
func TestCouldSheLieHere(t *testing.T) {
	g, part := lookingFor(t)
	at := g.room.Lying.Found.Places[0].At
	g.says("place", map[string]any{"lon": at[0], "lat": at[1]})
	g.settle()
	g.wants("Lie here?")
	g.room.Do("lie-ask", strconv.Itoa(part))
	g.settle()
	lie := g.room.Places.Place.Lie
	if lie == nil || lie.Asking || lie.Failed != "" || lie.Body.Verdict != g.room.Lying.Found.Places[0].Verdict {
		t.Fatalf("%+v, found was %s", lie, g.room.Lying.Found.Places[0].Verdict)
	}
	g.wants("Lying here instead of")
	g.room.Do("lie-here", strconv.Itoa(part))
	g.settle()
	if now := g.room.History.Plan.Parts[part].Stay.At; math.Abs(now[0]-at[0]) > 1e-6 || math.Abs(now[1]-at[1]) > 1e-6 {
		t.Errorf("the stay lies at %v, not at %v", now, at)
	}
}

// A search that cannot be made says why.
func TestNoSearchWithoutAPlace(t *testing.T) {
	g := newHarness(t).start()
	part := slices.IndexFunc(g.room.History.Plan.Parts, func(p plan.Part) bool { return p.Stay != nil })
	g.room.View.bounds = nil
	g.room.Do("lie-find", strconv.Itoa(part))
	if !strings.Contains(g.room.Lying.Failed, "try again") {
		t.Errorf("without a chart: %q", g.room.Lying.Failed)
	}
	g.says("view", map[string]any{"lon": 0, "lat": 0, "bounds": []float64{-60, 0, -20, 60}})
	g.room.Do("lie-find", strconv.Itoa(part))
	g.settle()
	if g.room.Lying.Busy || !strings.Contains(g.room.Lying.Failed, "smaller part") {
		t.Errorf("an ocean: %q", g.room.Lying.Failed)
	}
	for _, arg := range []string{"-1", "99", "0", "x"} {
		g.room.Do("lie-find", arg)
		if g.room.Lying.Asked {
			t.Errorf("a search for part %q", arg)
		}
	}
}

// Answers of a search that was ended are not those of the next, whatever comes when.
func TestOldSearchSaysNothing(t *testing.T) {
	g := newHarness(t).start()
	part := slices.IndexFunc(g.room.History.Plan.Parts, func(p plan.Part) bool { return p.Stay != nil })
	g.says("view", map[string]any{"lon": 0, "lat": 0, "bounds": []float64{-36.01, 42.98, -35.97, 43.01}})
	held := &heldEngine{}
	g.room.Ports.engine = held
	l := g.room.Lying
	l.find(part)
	l.drop()
	l.find(part)
	old, now := held.answers[0], held.answers[1]
	found := []byte(`{"places":[{"rank":1,"at":[-36,43],"verdict":"clear"}]}`)
	old(engine.Reply{State: engine.Progress, Body: found}, nil)
	old(engine.Reply{State: engine.Cancelled}, nil)
	if !l.Busy || len(l.Found.Places) != 0 || l.Stopped {
		t.Errorf("after answers of the search before: busy %v, stopped %v, %d places", l.Busy, l.Stopped, len(l.Found.Places))
	}
	now(engine.Reply{State: engine.Done, Body: found}, nil)
	if l.Busy || len(l.Found.Places) != 1 {
		t.Errorf("after its own answer: busy %v, %d places", l.Busy, len(l.Found.Places))
	}
	old(engine.Reply{State: engine.Done, Body: []byte(`{"places":[]}`)}, nil)
	if len(l.Found.Places) != 1 {
		t.Error("a late answer of the search before took the places away")
	}
}

// A search that was stopped does not say that there is no place.
func TestStoppedSearchSaysSo(t *testing.T) {
	g := newHarness(t).start()
	part := slices.IndexFunc(g.room.History.Plan.Parts, func(p plan.Part) bool { return p.Stay != nil })
	g.room.View.Tab = TabStays
	g.says("view", map[string]any{"lon": 0, "lat": 0, "bounds": []float64{-36.01, 42.98, -35.97, 43.01}})
	g.room.Ports.engine = &heldEngine{}
	g.room.Do("lie-find", strconv.Itoa(part))
	g.room.Do("lie-stop", "")
	g.wants("The search was stopped: no places so far")
}

// Only for a stay at anchor are places looked for: of a berth the checks ask less.
func TestNoSearchForABerth(t *testing.T) {
	g := newHarness(t).start()
	part := slices.IndexFunc(g.room.History.Plan.Parts, func(p plan.Part) bool { return p.Stay != nil })
	g.room.View.Tab = TabStays
	g.wants("Find places to lie")
	for _, kind := range []string{plan.AtBerth, plan.AtMooring} {
		g.room.Enter(StayKind(part).ID, kind)
		g.settle()
		g.room.Do("lie-find", strconv.Itoa(part))
		if g.room.Lying.Asked {
			t.Errorf("places are looked for instead of a %s", kind)
		}
	}
}

// heldEngine answers when the test says so.
type heldEngine struct {
	answers []func(engine.Reply, map[string]Doc)
}

func (e *heldEngine) Ask(_ engine.Request, answer func(engine.Reply, map[string]Doc)) (cancel func()) {
	e.answers = append(e.answers, answer)
	return func() {}
}

func (e *heldEngine) AskFile(r engine.Request, _ File, answer func(engine.Reply, map[string]Doc)) (cancel func()) {
	return e.Ask(r, answer)
}
