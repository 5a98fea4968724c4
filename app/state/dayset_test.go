package state

import (
	"strconv"
	"strings"
	"testing"
	"time"

	"keelroom/app/entry"
)

// taken enters a text that must be taken.
func (g *harness) taken(id, text string) {
	g.t.Helper()
	g.room.Enter(id, text)
	g.settle()
	if wrong := g.room.Forms.Rejected[id].Wrong; wrong != "" {
		g.t.Fatalf("%s does not take %q: %s", id, text, wrong)
	}
}

// windIs fails the test unless the first line of the wind is at that time.
func (g *harness) windIs(want string) {
	g.t.Helper()
	if w := g.room.History.Plan.Wind; len(w) == 0 || w[0].Time.Format(time.RFC3339) != want {
		g.t.Errorf("the wind is %v, wanted at %s", w, want)
	}
}

// Day, zone, wind and tide of a plan are given before it has a route, are kept, and
// are those of the route that is drawn afterwards. The zone is the device's, two
// hours behind UT.
func TestDayBeforeAnyRoute(t *testing.T) {
	g := newHarness(t).start()
	r := g.room
	r.Do("plan-new", "")
	g.settle()
	if got := r.History.Plan.ZoneName; got != "Etc/GMT+2" {
		t.Errorf("the zone is %q, and the device's is Etc/GMT+2", got)
	}
	if got := DepartDayField.Get(r.History.Plan); got != "2026-07-18" { // 08:12 UT is 06:12 there
		t.Errorf("the day is %q, and today is 2026-07-18", got)
	}
	g.taken("depart-day", "2026-07-20")
	g.taken("wind", "09:00 SW 12\n15:00 SW 14")
	g.taken("back-by", "18:00")
	g.taken("draft-level", "0.4")
	g.taken("draft-level-datum", "23")
	r.Do("tide-level", "")
	g.windIs("2026-07-20T11:00:00Z")
	if back := r.History.Plan.BackBy; back == nil || back.Format(time.RFC3339) != "2026-07-20T20:00:00Z" {
		t.Errorf("back by %v; 18:00 of the plan's day is 20:00 UT", back)
	}
	if !strings.Contains(r.History.Open.Text, `"day":"2026-07-20"`) {
		t.Errorf("the plan file does not keep the day: %s", r.History.Open.Text)
	}
	r.History.undo()
	r.History.redo()
	r.Do("plan-copy", "")
	g.settle()
	g.windIs("2026-07-20T11:00:00Z")

	g.says("sketch", map[string]any{"mode": "route", "coordinates": [][2]float64{{-36.0475, 43.0192}, {-36.0475, 43.0133}}})
	depart := r.History.Plan.Parts[0].Route.Depart
	if depart == nil || depart.Format(time.RFC3339) != "2026-07-20T09:00:00Z" { // the next whole hour, 07:00, on the plan's day
		t.Errorf("she leaves at %v", depart)
	}
	g.windIs("2026-07-20T11:00:00Z")
	if tide := r.History.Plan.Tide; tide == nil || tide.LevelM == nil || *tide.LevelM != 0.4 {
		t.Errorf("the tide is %+v", tide)
	}
	r.Do("remove-part", "0")
	g.settle()
	if got := DepartDayField.Get(r.History.Plan); got != "2026-07-20" {
		t.Errorf("without its route the plan is for %q", got)
	}
}

// What was typed for a day stays there when the plan moves to another, and goes along
// when asked, as one step.
func TestWindMovesWhenAsked(t *testing.T) {
	g := newHarness(t).start()
	r := g.room
	r.View.Tab = TabDay
	g.taken("depart-day", "2026-07-21") // the demo's is 2026-07-18, its wind from 08:00 UT on
	g.windIs("2026-07-18T08:00:00Z")
	g.wants("Wind and swell stay on the day they were given for", "Move to Tuesday 21 July 2026",
		"This is for Saturday 18 July 2026. For the plan's day, Tuesday 21 July 2026, nothing is given.", "Move the wind to Tuesday 21 July 2026")
	steps := len(r.History.Open.Past)
	for _, n := range r.Notices.list {
		if n.Do == "series-move" {
			r.Do("notice-do", strconv.Itoa(n.ID))
		}
	}
	g.settle()
	g.windIs("2026-07-21T08:00:00Z")
	if got := r.History.Plan.Swell[0].Time.Format(time.RFC3339); got != "2026-07-21T08:00:00Z" {
		t.Errorf("the swell is at %s", got)
	}
	if len(r.History.Open.Past) != steps+1 {
		t.Errorf("%d steps to undo", len(r.History.Open.Past)-steps)
	}
	if strings.Contains(g.text(), "Move the wind") {
		t.Error("the wind is of the plan's day, and moving it is offered")
	}
	r.History.undo()
	g.windIs("2026-07-18T08:00:00Z")

	g.taken("depart-day", "2026-07-22")
	g.wants("stay on the day they were given for")
	r.Do("plan-new", "")
	g.settle()
	if strings.Contains(g.text(), "stay on the day they were given for") {
		t.Error("the wind of another plan is told of")
	}
}

// Where nothing says the day, it is asked for and not guessed.
func TestNoDayIsGuessed(t *testing.T) {
	g := newHarness(t).start()
	r := g.room
	r.Plans.adopt(`{"type":"FeatureCollection","plan":{"version":1,"time_zone":"Etc/GMT+2"},"features":[]}`)
	g.settle()
	for id, text := range map[string]string{"wind": "09:00 SW 12", "swell": "09:00 W 0.4 7", "stream": "09:00 NE 1", "back-by": "18:00"} {
		r.Enter(id, text)
		if wrong := r.Forms.Rejected[id].Wrong; !strings.Contains(wrong, "day is not known") {
			t.Errorf("%s takes %q for some day: %q", id, text, wrong)
		}
	}
	g.taken("wind", "2026-07-18 09:00 SW 12")
	g.windIs("2026-07-18T11:00:00Z")
	if _, err := entry.TideTable("03:12 0.4\n09:20 2.9", entry.TideForm{Table: time.UTC, Plan: time.UTC}); err == nil || !strings.Contains(err.Error(), "day is not known") {
		t.Errorf("a tide table without a day: %v", err)
	}
}
