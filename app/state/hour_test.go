package state

import (
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"keelroom/app/edit"
	"keelroom/app/engine"
	"keelroom/hazards/plan"
)

// late is a device whose timers run when they are let.
type late struct {
	*harness
	timers []timer
}

type timer struct {
	after time.Duration
	run   func()
}

func (l *late) After(d time.Duration, run func()) { l.timers = append(l.timers, timer{d, run}) }

// ring runs the timers that are over by then.
func (l *late) ring(by time.Duration) {
	timers := l.timers
	l.timers = nil
	for _, t := range timers {
		if t.after <= by {
			t.run()
		} else {
			l.timers = append(l.timers, t)
		}
	}
}

// The chart shows the water of the hour that its line names: after another departure
// that is the hour of it.
func TestWaterFollowsTheDeparture(t *testing.T) {
	g := newHarness(t).start()
	r := g.room
	noon := time.Date(2026, 7, 18, 14, 0, 0, 0, time.UTC) // 12:00 in the plan's zone
	r.Hour.move(noon.Unix())
	g.wants("Water at 12:00")
	r.Departures.Ribbon.Why = &engine.Slot{T: noon.Add(-2 * time.Hour).Unix()}
	r.Do("ribbon-take", "")
	g.settle()
	g.wants("Water at 10:00")
	if want := r.Hour.WaterAt(noon.Add(-2 * time.Hour).Unix()); want == nil || g.view.water == nil || *g.view.water != *want {
		t.Errorf("the water is %v, wanted that of 10:00, %v", g.view.water, want)
	}
	r.History.undo()
	g.settle()
	g.wants("Water at 09:30")
}

// While an edit is being checked for long, the water of an hour stays where it comes
// from nothing that was edited, and the line on the chart never tells a tide beside
// depths that are not coloured.
func TestWaterWhileChecking(t *testing.T) {
	stay := func(r *Room) { r.Do("place-stay", "") }
	nudge := func(r *Room) {
		feature, _ := edit.FeatureOfPart(r.History.Plan, 0)
		at := r.History.Plan.Parts[0].Route.Points[3]
		b := `{"feature":` + strconv.Itoa(feature) + `,"vertex":3,"lon":` + spell(at[0]+0.0001) + `,"lat":` + spell(at[1]) + `}`
		r.ChartSays("move", []byte(b))
	}
	for name, c := range map[string]struct {
		edit  func(r *Room)
		stays bool
	}{
		"a stay is added":     {stay, true},
		"a waypoint is moved": {nudge, true},
		"another draught":     {func(r *Room) { r.Enter("draught", "1.4") }, false},
		"no tide":             {func(r *Room) { r.History.try(func(p *plan.Plan) error { p.Tide = nil; return nil }) }, false},
		"another day":         {func(r *Room) { r.Enter("depart-day", "2026-07-19") }, false},
	} {
		t.Run(name, func(t *testing.T) {
			g := newHarness(t).start()
			l := &late{harness: g}
			h := &holding{harness: g, kind: engine.CheckPlan}
			g.room.Ports.Device, g.room.Ports.engine = l, h
			c.edit(g.room)
			l.ring(fadeAfter)
			tide := strings.Contains(g.hourLine(), "tide 2.0")
			if coloured := g.view.water != nil; coloured != c.stays || tide != c.stays {
				t.Errorf("while it is checked: depths coloured %v, and the line says %q", coloured, g.hourLine())
			}
			l.ring(oldAfter)
			if g.view.water != nil || strings.Contains(g.hourLine(), "tide 2.0") {
				t.Errorf("when it takes too long: depths coloured %v, and the line says %q", g.view.water != nil, g.hourLine())
			}
			h.let()
			l.ring(time.Hour)
			if shown := strings.Contains(g.hourLine(), ", tide "); shown != (g.view.water != nil) {
				t.Errorf("once it is checked: depths coloured %v, and the line says %q", g.view.water != nil, g.hourLine())
			}
		})
	}
}

// A place that is asked about is marked on the chart as long as its card is shown.
func TestAskedPlaceIsMarked(t *testing.T) {
	g := newHarness(t).start()
	at := orb.Point{-36.0328, 43.0073}
	g.says("place", map[string]any{"lon": at[0], "lat": at[1]})
	if g.view.place == nil || *g.view.place != at {
		t.Errorf("the mark is at %v, and the card tells of %v", g.view.place, at)
	}
	for name, end := range map[string]func(){
		"the card is closed": func() { g.room.Do("place-gone", "") },
		"an edit":            func() { g.room.Enter("contact", name()) },
		"another plan":       func() { g.room.Do("plan-new", "") },
	} {
		g.says("place", map[string]any{"lon": at[0], "lat": at[1]})
		end()
		g.settle()
		if g.room.Places.Place != nil || g.view.place != nil {
			t.Errorf("%s: the card is %v, the mark at %v", name, g.room.Places.Place, g.view.place)
		}
	}
}

var names int

// name is another one each time.
func name() string { names++; return "INVENTED " + spell(float64(names)) }

// No route is led to land, and it is said why.
func TestNoRouteToLand(t *testing.T) {
	g := newHarness(t).start()
	before := g.room.History.Open.Text
	for _, do := range []string{"route-here", "stay-here"} {
		g.says("place", map[string]any{"lon": -36.0020, "lat": 43.0090}) // in the mainland (web/demo/chart/LNDARE.geojson)
		g.wants("No route can lead here: it is land.")
		g.room.Do(do, "")
		g.settle()
		if g.room.History.Open.Text != before {
			t.Fatalf("%s has led the route to land", do)
		}
	}
	g.says("place", map[string]any{"lon": -36.02, "lat": 42.99}) // open water
	g.room.Do("route-here", "")
	g.settle()
	if g.room.History.Open.Text == before {
		t.Error("no route to open water")
	}
}

// What a message offers is offered no longer once it was done in another way.
func TestNoOfferThatCanOnlyFail(t *testing.T) {
	g := newHarness(t).start()
	r := g.room
	r.Do("plan-copy", "")
	g.settle()
	offered := func() (n int) {
		for i := range r.Notices.list {
			if r.Notices.list[i].Do != "" && r.offers(&r.Notices.list[i]) {
				n++
			}
		}
		return n
	}
	want := func(when string, n int) {
		t.Helper()
		if got := offered(); got != n {
			t.Errorf("%s: %d offers, want %d: %+v", when, got, n, r.Notices.list)
		}
	}
	for range 2 { // the second time the plan has another id, and the message the same words
		r.Do("plan-delete", r.History.Open.ID)
		g.settle()
		want("a plan deleted", 1)
		r.Do("plan-back", r.Plans.Deleted[len(r.Plans.Deleted)-1].ID)
		g.settle()
		want("brought back from the list", 0)
	}
	r.Do("set-remove", DemoSet)
	g.settle()
	want("the demo's chart removed", 1)
	r.Do("demo-chart", "")
	g.settle()
	want("brought back from its panel", 0)

	// A state that cannot be read is no state to go to.
	r.History.Open.Past, r.History.Open.Future = []string{r.History.Open.Text, `{"type":"FeatureCollection","plan":{"version":99},"features":[]}`}, nil
	if r.History.CanStep(r.History.Open.Past) || r.History.CanStep(r.History.Open.Future) {
		t.Error("Undo is offered to a state of a later version")
	}
	r.History.Open.Past = r.History.Open.Past[:1]
	if !r.History.CanStep(r.History.Open.Past) {
		t.Error("Undo is not offered")
	}
}
