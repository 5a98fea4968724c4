package state

import (
	"strings"
	"testing"
	"time"

	"keelroom/app/engine"
	"keelroom/hazards/plan"
)

// exchange puts longitude and latitude of a waypoint the wrong way round, as a
// skipper types it.
func (g *harness) exchange(vertex int) {
	g.t.Helper()
	at := g.room.History.Plan.Parts[0].Route.Points[vertex]
	g.says("move", map[string]any{"feature": g.feature("route", 0), "vertex": vertex, "lon": at.Lat(), "lat": at.Lon()})
}

// A waypoint in another ocean is a question, at once and in place of any verdict;
// undo answers it at once.
func TestMistypedWaypointIsAQuestion(t *testing.T) {
	g := newHarness(t).start()
	g.wants("Care is needed")
	g.exchange(2)
	g.wants("is this what you mean?", "waypoint 3 at 36.", "is a sign or a digit wrong?", "exchanged", "Nothing is known of this day", "Show it")
	if shown := g.text(); strings.Contains(shown, "nothing found forbids") || strings.Contains(shown, "Clear") {
		t.Error("a verdict stands beside the question")
	}
	if g.room.Checks.Day.Report != nil || g.room.Checks.dayRaw != nil {
		t.Error("what was worked out before is still there")
	}
	g.room.Do("undo", "")
	g.settle()
	g.wants("Care is needed")
}

// counting counts the requests of a kind.
func (g *harness) counting(kind string) *int {
	n := new(int)
	g.onAsk = func(r engine.Request) {
		if r.Kind == kind {
			*n++
		}
	}
	return n
}

// stops is the engine stopping at a request, and being started again.
func (g *harness) stops(a Asked) {
	g.t.Helper()
	g.service.Stop()
	g.answers = map[int]func(engine.Reply, map[string]Doc){}
	g.startEngine()
	g.room.EngineStoppedOn("test", a)
	g.settle()
}

// A plan that the engine stopped at twice is set aside by name, with no verdict, also
// after a reload; another state of it is checked, and so is it itself when asked for.
func TestPlanThatStopsTheEngineIsSetAside(t *testing.T) {
	g := newHarness(t).start()
	day := Asked{Kind: engine.CheckPlan, Plan: g.room.History.Open.Text}
	checks := g.counting(engine.CheckPlan)
	g.stops(day)
	if *checks == 0 {
		t.Error("after one stop it is not tried again")
	}
	g.wants("Care is needed") // it went well this time, which makes up for it
	if len(g.room.aside.stops) != 0 {
		t.Error("a plan that was checked after all is still held against")
	}

	g.room.aside.count(day.key())
	*checks = 0
	g.stops(day)
	if *checks != 0 {
		t.Errorf("after two stops it is given to the engine %d times more", *checks)
	}
	g.wants("INVENTED day", "set aside", "Nothing is known of this day", "Try once more")
	if strings.Contains(g.text(), "nothing found forbids") {
		t.Error("a verdict is shown")
	}

	g.room = NewRoom(g, g.store, g, "test") // a reload
	g.room.Attach(g.view, blindStrip{})
	*checks = 0
	g.start()
	if *checks != 0 {
		t.Error("after a reload it is given to the engine again")
	}
	g.wants("set aside")

	g.says("move", map[string]any{"feature": g.feature("route", 0), "vertex": 6, "lon": -36.02, "lat": 43.02})
	g.wants("Not clear: do not go as planned.")
	g.room.Do("undo", "")
	g.settle()
	g.wants("set aside")
	g.room.Do("try-again", "")
	g.settle()
	g.wants("Care is needed")
}

// A chart that the engine stopped at twice is set aside by name. One that the day was
// checked on before leaves no verdict behind; once it is removed there is one.
func TestChartThatStopsTheEngineIsSetAside(t *testing.T) {
	g := newHarness(t).start()
	g.room.Files.Open([]File{{Name: "bank.geojson", Data: Bytes(`{"type":"FeatureCollection","layer":{"title":"INVENTED bank"},"features":[
		{"type":"Feature","properties":{"OBJL":86,"VALSOU":0.5},"geometry":{"type":"Point","coordinates":[-36.5,43.5]}}]}`)}})
	g.settle()
	g.wants("Care is needed")
	set := g.room.Charts.Sets[len(g.room.Charts.Sets)-1]
	chart := Asked{Kind: engine.PutSet, Set: set.ID, Files: []string{"bank.geojson 178"}}
	var given Asked
	g.onAsk = func(r engine.Request) {
		if r.Kind == engine.PutSet && r.Set == set.ID {
			given = AskedOf(r)
		}
	}
	g.stops(chart)
	chart = given
	g.room.aside.count(chart.key())
	puts := g.counting(engine.PutSet)
	g.stops(chart)
	if *puts != 1 { // the demo's
		t.Errorf("%d charts are given to the engine; the other one alone is wanted", *puts)
	}
	g.wants("The chart bank is set aside", "Nothing is known of this day", "Try once more")
	if g.room.Checks.Day.Report != nil {
		t.Error("there is a verdict without the chart")
	}
	g.room.Do("set-remove", set.ID)
	g.settle()
	g.wants("Care is needed")
}

// timed is a device whose timers are kept, to be run when the test says so.
type timed struct {
	*harness
	runs []func()
}

func (d *timed) After(_ time.Duration, run func()) { d.runs = append(d.runs, run) }

// A verdict that is long in being checked again is taken away: what it says is of
// another plan.
func TestNoOldVerdictStandsForLong(t *testing.T) {
	g := newHarness(t).start()
	d := &timed{harness: g}
	g.room.Ports.Device = d
	g.service.Stop() // no answer comes
	g.room.Do("tab", TabRoute)
	if err := g.room.History.change(func(p *plan.Plan) error { p.Boat.DraughtM = 1.3; return nil }); err != nil {
		t.Fatal(err)
	}
	g.wants("being checked again")
	for _, run := range d.runs {
		run()
	}
	if shown := g.text(); strings.Contains(shown, "Care is needed") {
		t.Error("the old verdict still stands:", shown)
	}
	g.wants("Not checked yet")
}

// What the checks said of legs and stays, and the count of what to watch, go with the
// verdict; as long as they stand they are said to be from before the change.
func TestNoOldFiguresStandForLong(t *testing.T) {
	g := newHarness(t).start()
	r := g.room
	d := &timed{harness: g}
	r.Ports.Device = d
	g.service.Stop() // no answer comes
	shows := map[string][]string{TabRoute: {"Under keel"}, TabStays: {"What the checks say", "Least under the keel"}, TabWatch: {"What to watch, in the order it comes"}}
	before := "As checked before the last change."
	for tab, words := range shows {
		r.Do("tab", tab)
		g.wants(words...)
		if strings.Contains(g.text(), before) {
			t.Errorf("%s: nothing has changed yet", tab)
		}
	}
	if g.element(`id="tab-watch"`) == "Watch" {
		t.Error("nothing is counted of a day with three things to watch")
	}
	if err := r.History.change(func(p *plan.Plan) error { p.Boat.DraughtM = 1.3; return nil }); err != nil {
		t.Fatal(err)
	}
	for tab, words := range shows {
		r.Do("tab", tab)
		g.wants(append(words, before)...)
	}
	for _, run := range d.runs {
		run()
	}
	for tab, words := range shows {
		r.Do("tab", tab)
		for _, word := range append(words, before) {
			if strings.Contains(g.text(), word) {
				t.Errorf("%s: %q still stands", tab, word)
			}
		}
	}
	if mark := g.element(`id="tab-watch"`); mark != "Watch" {
		t.Errorf("%q things to watch are still counted", mark)
	}
}

// A plan whose departures stop the engine is checked all the same, but they are asked
// for twice only: that the plan can be checked says nothing of them.
func TestDeparturesThatStopTheEngineAreSetAside(t *testing.T) {
	g := newHarness(t).start()
	d := &timed{harness: g}
	g.room.Ports.Device = d
	ribbons := g.counting(engine.Ribbon)
	for n := 1; n <= 2; n++ {
		g.stops(Asked{Kind: engine.Ribbon, Plan: g.room.History.Open.Text})
		*ribbons = 0
		for _, run := range d.runs {
			run()
		}
		d.runs = nil
		if again := *ribbons > 0; again != (n == 1) {
			t.Errorf("after %d stops the departures are asked for again: %v", n, again)
		}
		if n == 1 {
			g.service.Stop() // it stops at them again
			g.answers = map[int]func(engine.Reply, map[string]Doc){}
		}
	}
	g.wants("Care is needed", "other departures of this day are not worked out", "Try once more")
}

// A place that stops the engine is not asked about a third time, though the plan can
// be checked.
func TestPlaceThatStopsTheEngineIsSetAside(t *testing.T) {
	g := newHarness(t).start()
	for range 2 {
		g.stops(Asked{Kind: engine.AskPlace, Plan: g.room.History.Open.Text})
	}
	places := g.counting(engine.AskPlace)
	g.says("place", map[string]any{"lon": -36.02, "lat": 43.02})
	if *places != 0 {
		t.Error("it is asked about again")
	}
	g.wants("What the charts say here is not known", "set aside", "Care is needed")
}

// Only an answer makes up for a stop: a request that was overtaken has shown nothing.
func TestCancelledRequestsMakeUpForNothing(t *testing.T) {
	g := newHarness(t).start()
	asked := Asked{Kind: engine.Ribbon, Plan: g.room.History.Open.Text}
	g.room.aside.count(asked.key())
	g.room.aside.answered(asked, engine.Reply{State: engine.Progress})
	g.room.aside.answered(asked, engine.Reply{State: engine.Cancelled})
	if len(g.room.aside.stops) != 1 {
		t.Error("a request that was cancelled is forgiven")
	}
	g.room.aside.answered(Asked{Kind: engine.CheckPlan, Plan: g.room.History.Open.Text}, engine.Reply{State: engine.Done})
	if len(g.room.aside.stops) != 1 {
		t.Error("another kind of request is forgiven")
	}
	g.room.aside.answered(asked, engine.Reply{State: engine.Failed})
	if len(g.room.aside.stops) != 0 {
		t.Error("it was answered and is still held against")
	}
}
