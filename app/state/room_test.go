package state

import (
	"encoding/json"
	unescape "html"
	"regexp"
	"strings"
	"testing"

	"keelroom/app/engine"
	"keelroom/hazards"
)

// Draw is the HTML of the whole screen. The package that draws it is above this one, so
// drawn_test.go, which is outside this package, gives it.
var Draw func(r *Room) string

// text is what the whole screen shows.
func (g *harness) text() string { return withoutTags(Draw(g.room)) }

// withoutTags is what is left of HTML.
func withoutTags(html string) string {
	return strings.Join(strings.Fields(unescape.UnescapeString(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(html, " "))), " ")
}

// element is the text of an element by an attribute of it.
func (g *harness) element(attribute string) string {
	_, after, _ := strings.Cut(Draw(g.room), attribute)
	_, after, _ = strings.Cut(after, ">")
	inner, _, _ := strings.Cut(after, "</")
	return withoutTags(inner)
}

// hourLine is the line on the chart that says which hour it shows.
func (g *harness) hourLine() string { return g.element(`class="hourline"`) }

// says gives a gesture to the room as the chart view would.
func (g *harness) says(kind string, detail any) {
	g.t.Helper()
	b, err := json.Marshal(detail)
	if err != nil {
		g.t.Fatal(err)
	}
	g.room.ChartSays(kind, b)
	g.settle()
}

func (g *harness) wants(texts ...string) {
	g.t.Helper()
	shown := g.text()
	for _, want := range texts {
		if !strings.Contains(shown, want) {
			g.t.Errorf("the screen does not show %q:\n%s", want, shown)
		}
	}
}

// feature finds a feature of the plan file by its role, from 0.
func (g *harness) feature(role string, n int) int {
	g.t.Helper()
	var file struct {
		Features []struct{ Properties struct{ Role string } }
	}
	if err := json.Unmarshal([]byte(g.room.History.Open.Text), &file); err != nil {
		g.t.Fatal(err)
	}
	for i, f := range file.Features {
		if f.Properties.Role == role {
			if n == 0 {
				return i
			}
			n--
		}
	}
	g.t.Fatalf("the plan has no such %s", role)
	return -1
}

// The first opening shows the demo day, checked.
func TestFirstOpening(t *testing.T) {
	g := newHarness(t).start()
	g.wants("INVENTED day: two bays in the lee", "Care is needed", "The demo waters are invented.", "A planning aid, not a chart.")
	if g.view.sets[DemoSet] == "" || g.view.plan == "" {
		t.Error("the chart view has neither the demo chart nor the plan")
	}
	if len(g.store.plans) != 1 {
		t.Errorf("%d plans are kept, want the demo's", len(g.store.plans))
	}
}

// A waypoint dragged ashore makes the day not clear; undo takes it back, and
// redo brings it again; all of it is kept.
func TestDragUndoRedo(t *testing.T) {
	g := newHarness(t).start()
	before := g.room.History.Open.Text
	g.says("move", map[string]any{"feature": g.feature("route", 0), "vertex": 6, "lon": -36.02, "lat": 43.02})
	g.wants("Not clear: do not go as planned.")
	after := g.room.History.Open.Text
	g.room.Do("undo", "")
	g.settle()
	g.wants("Care is needed")
	if g.room.History.Open.Text != before {
		t.Error("undo gives another plan than the one before")
	}
	g.room.Do("redo", "")
	g.settle()
	g.wants("Not clear: do not go as planned.")
	kept := g.store.plans[g.room.History.Open.ID]
	if kept.Text != after || len(kept.Past) != 1 || kept.Past[0] != before {
		t.Errorf("kept: %d earlier states, the newest is the plan on the screen: %v", len(kept.Past), kept.Text == after)
	}
}

// An engine that stopped gets its charts again.
func TestEngineStartsAgain(t *testing.T) {
	g := newHarness(t).start()
	g.room.EngineLost("of its own making")
	g.settle()
	g.wants("was started again", "Care is needed")
}

// water records what the depths are coloured by.
type waterView struct {
	recorder
	water *hazards.Water
}

func (v *waterView) SetWater(w *hazards.Water, _ []string) { v.water = w }

// What cannot be checked has no coloured water, no findings and no departures.
func TestNothingOldStaysOnTheViews(t *testing.T) {
	g := newHarness(t)
	view := &waterView{}
	g.room.Ports.chart = view
	g.start()
	if view.water == nil {
		t.Fatal("the demo's water is not coloured")
	}
	g.room.Do("plan-new", "")
	g.settle()
	if view.water != nil || g.room.Checks.Day.Report != nil || len(g.room.Departures.Ribbon.slots) > 0 {
		t.Error("a day that is not checked has the water of another")
	}
}

// holding lets a test hold the engine's requests of a kind back.
type holding struct {
	*harness
	kind string
	kept []func()
}

func (h *holding) Ask(r engine.Request, answer func(engine.Reply, map[string]Doc)) (cancel func()) {
	if r.Kind == h.kind {
		h.kept = append(h.kept, func() { h.harness.Ask(r, answer) })
		return func() {}
	}
	return h.harness.Ask(r, answer)
}

func (h *holding) let() {
	for len(h.kept) > 0 {
		next := h.kept[0]
		h.kept = h.kept[1:]
		next()
	}
	h.settle()
}

// Between a change of plan or charts and its check, nothing is shown, printed or
// exported as current.
func TestNothingIsCurrentUntilChecked(t *testing.T) {
	for name, change := range map[string]func(r *Room){
		"draught": func(r *Room) { r.Enter("draught", "2.9") },
		"chart":   func(r *Room) { r.Do("set-remove", DemoSet) },
	} {
		g := newHarness(t).start()
		h := &holding{harness: g, kind: engine.CheckPlan}
		g.room.Ports.engine = h
		change(g.room)
		g.settle()
		g.wants("being checked again", "not checked since the last change")
		g.room.Do("export-report", "")
		if len(g.saved) != 0 {
			t.Errorf("%s: the old report is exported", name)
		}
		h.let()
		if strings.Contains(g.text(), "being checked again") {
			t.Errorf("%s: still called unchecked", name)
		}
	}
}

// Files that were dropped with one at which the engine stopped are opened all the same.
func TestFilesAfterTheOneThatStopsTheEngine(t *testing.T) {
	g := newHarness(t).start()
	rock := `{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"objectClass":"UWTROC"},"geometry":{"type":"Point","coordinates":[-36.02,42.99]}}]}`
	bad := File{Name: "bad.geojson", Data: Bytes(rock + " ")}
	g.room.Files.Open([]File{bad, {Name: "rock.geojson", Data: Bytes(rock)}})
	g.stops(AskedOfFile(engine.Request{Kind: engine.OpenFile}, bad))
	g.wants("bad.geojson was not opened")
	if n := len(g.room.Charts.Sets); n != 2 || g.room.Charts.Sets[1].Name != "rock" {
		t.Errorf("%d charts; want the demo's and the rock", n)
	}
}
