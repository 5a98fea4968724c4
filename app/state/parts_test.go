package state

import (
	"errors"
	"fmt"
	"slices"
	"testing"

	"keelroom/app/edit"
	"keelroom/app/engine"
	"keelroom/hazards/plan"
)

// alone are the ports of a part that is tested by itself.
func alone() (*Ports, *Notices) {
	p := &Ports{store: newMemoryStore(), Device: &harness{}, chart: blindChart{}, strip: blindStrip{}}
	return p, &Notices{ports: p, offers: func(*Notice) bool { return true }}
}

// texts are the messages that are shown.
func (ns *Notices) texts() (list []string) {
	for _, n := range ns.Current() {
		list = append(list, n.Text)
	}
	return list
}

func titled(title string) func(p *plan.Plan) error {
	return func(p *plan.Plan) error { p.Title = title; return nil }
}

// An edit is one step back and forward; the oldest of many states are given up; an edit
// after a step back leaves nothing to go forward to; what fails changes nothing.
func TestHistory(t *testing.T) {
	ports, notices := alone()
	day, err := edit.NewDay("0", "UTC", plan.New().Boat)
	if err != nil {
		t.Fatal(err)
	}
	text, err := plan.Encode(day)
	if err != nil {
		t.Fatal(err)
	}
	changes := 0
	h := &History{ports: ports, notices: notices, changed: func(before *plan.Plan) { changes++ }, Open: SavedPlan{Text: string(text)}}
	if err := h.read(); err != nil {
		t.Fatal(err)
	}
	const edits = mostStates + 10
	for i := range edits {
		if err := h.change(titled(fmt.Sprint(i + 1))); err != nil {
			t.Fatal(err)
		}
	}
	if changes != edits || len(h.Open.Past) != mostStates || h.Plan.Title != fmt.Sprint(edits) {
		t.Fatalf("%d changes, %d earlier states, title %q", changes, len(h.Open.Past), h.Plan.Title)
	}
	h.undo()
	h.undo()
	h.redo()
	if h.Plan.Title != fmt.Sprint(edits-1) || h.Open.Title != h.Plan.Title || len(h.Open.Future) != 1 {
		t.Errorf("two back and one forward is %q, with %d to go forward to", h.Plan.Title, len(h.Open.Future))
	}
	before := h.Open.Text
	if err := h.change(func(p *plan.Plan) error { p.Title = "half done"; return errors.New("refused") }); err == nil || h.Open.Text != before || h.Plan.Title == "half done" {
		t.Errorf("a refused edit: %v, title %q", err, h.Plan.Title)
	}
	if err := h.change(titled(h.Plan.Title)); err != nil || h.Open.Text != before || len(h.Open.Future) != 1 {
		t.Error("an edit that changes nothing is a step")
	}
	if err := h.change(titled("another")); err != nil || len(h.Open.Future) != 0 {
		t.Errorf("after another edit there are %d states to go forward to; %v", len(h.Open.Future), err)
	}
	for range mostStates + 1 {
		h.undo()
	}
	if !slices.Contains(notices.texts(), "There is nothing to undo.") {
		t.Errorf("at the oldest state: %q", notices.texts())
	}
}

// A message is shown once; of too many the oldest that is no trouble goes; one whose
// offer was done otherwise is not shown any more.
func TestNotices(t *testing.T) {
	_, n := alone()
	for _, m := range []struct {
		grave bool
		text  string
	}{{true, "a"}, {false, "b"}, {true, "c"}, {false, "b"}, {false, "d"}, {true, "e"}} {
		n.notify(m.grave, m.text)
	}
	if got := n.texts(); !slices.Equal(got, []string{"a", "c", "d", "e"}) {
		t.Errorf("shown: %q", got)
	}
	n.dismiss(n.list[1].ID)
	n.add(Notice{Text: "f", Do: "plan-back", arg: "x"})
	if got := n.texts(); !slices.Equal(got, []string{"a", "d", "e", "f"}) {
		t.Errorf("after one was dismissed and one came: %q", got)
	}
	n.offers = func(o *Notice) bool { return o.arg != "x" }
	if got := n.texts(); !slices.Equal(got, []string{"a", "d", "e"}) {
		t.Errorf("when the offer was done: %q", got)
	}
}

// What stopped the engine twice is set aside, also after a reload, until it was worked out.
func TestAside(t *testing.T) {
	ports, notices := alone()
	s := &Settings{ports: ports, notices: notices, Values: map[string]string{}}
	a := &Aside{settings: s}
	day := Asked{Kind: engine.CheckPlan, Plan: "a day"}
	a.count(day.key())
	if a.has(day) {
		t.Error("set aside after one stop")
	}
	a.count(day.key())
	if a.has(Asked{Kind: engine.CheckPlan, Plan: "another day"}) {
		t.Error("another day is set aside")
	}
	again := &Aside{settings: s}
	again.read()
	if !a.has(day) || !again.has(day) {
		t.Error("not set aside after two stops, or not after a reload")
	}
	again.answered(day, engine.Reply{State: engine.Cancelled})
	if !again.has(day) {
		t.Error("a check that was ended counts as worked out")
	}
	again.answered(day, engine.Reply{State: engine.Done})
	if again.has(day) {
		t.Error("still set aside after it was worked out")
	}
	for i := range mostStops + 5 {
		key := fmt.Sprint(i)
		again.count(key)
		again.count(key)
	}
	if len(again.stops) != mostStops || again.stops[0].Key != "5" {
		t.Errorf("%d inputs are remembered, the oldest is %q", len(again.stops), again.stops[0].Key)
	}
}

// What is done before a plan is open is done then, in its order.
func TestStartup(t *testing.T) {
	var s Startup
	var did []string
	do := func(name string) func() { return func() { did = append(did, name) } }
	s.whenStarted(do("an edit"))
	s.whenReady(do("a choice"))
	s.whenStarted(do("another edit"))
	if len(did) != 0 {
		t.Fatalf("done at once: %q", did)
	}
	s.Ready = true
	s.chooseEarly()
	s.catchUp()
	s.whenStarted(do("later"))
	if !slices.Equal(did, []string{"a choice", "an edit", "another edit", "later"}) {
		t.Errorf("done: %q", did)
	}
}

// A palette that is not known is the first; a choice that cannot be kept is a message.
func TestSettings(t *testing.T) {
	ports, notices := alone()
	s := &Settings{ports: ports, notices: notices, Values: map[string]string{}}
	s.setPalette("ultraviolet")
	if s.Values[SettingPalette] != Palettes[0].ID {
		t.Errorf("the palette is %q", s.Values[SettingPalette])
	}
	ports.store = fullStore{newMemoryStore()}
	s.set(SettingHints, "gone")
	if got := notices.texts(); !slices.Equal(got, []string{"This choice cannot be kept: " + ErrNoRoom.Error()}) {
		t.Errorf("shown: %q", got)
	}
}

// fullStore has no room for settings.
type fullStore struct{ *memoryStore }

func (fullStore) SaveSetting(_, _ string, done func(error)) { done(ErrNoRoom) }

// A long list is shown from its beginning, a long route about the waypoint that is wanted.
func TestLongLists(t *testing.T) {
	var v View
	if n := v.RowsShown(ListPlans, 10*ListStep); n != ListStep {
		t.Errorf("%d rows at first", n)
	}
	v.showMore(ListPlans)
	if n := v.RowsShown(ListPlans, 10*ListStep); n != 2*ListStep {
		t.Errorf("%d rows when asked for more", n)
	}
	for _, c := range []struct{ vertex, points, from, to int }{
		{0, 20, 0, 20}, {0, 1000, 0, ListStep}, {500, 1000, 475, 525}, {999, 1000, 950, 1000},
	} {
		v.showWindow(2, c.vertex)
		if from, to := v.Window(2, c.points); from != c.from || to != c.to {
			t.Errorf("about waypoint %d of %d: %d to %d, want %d to %d", c.vertex, c.points, from, to, c.from, c.to)
		}
	}
}
