package state

import (
	"strings"
	"testing"

	"keelroom/hazards/plan"
)

const recalledWords = "as it was when last open"

// leftOpen is a store as a room leaves it whose day was checked and stood a while.
func leftOpen(t *testing.T) *memoryStore {
	t.Helper()
	g := newHarness(t)
	device := &clockwork{harness: g}
	g.room.Ports.Device = device
	g.start()
	device.pass()
	g.settle()
	if g.store.dayOf == "" {
		t.Fatal("the checked day is not stored")
	}
	return g.store
}

// opened is a room that has begun on a store and has no answer of the engine yet.
func opened(t *testing.T, s *memoryStore) *harness {
	t.Helper()
	g := newHarness(t)
	g.store = s
	g.room.Ports.store = s
	g.room.Start()
	return g
}

// The day of the last time is shown at once, marked as that; the check that follows
// gives the same and takes the mark away.
func TestLastDayIsShownUntilItIsChecked(t *testing.T) {
	g := opened(t, leftOpen(t))
	if !g.room.Checks.VerdictKnown() || !g.room.Checks.Stale() {
		t.Fatal("the last day is not shown, or shown as checked")
	}
	if text := Draw(g.room); !strings.Contains(text, recalledWords) || !strings.Contains(text, "Care is needed") {
		t.Error("the day is not marked as that of the last time")
	}
	g.room.Do("export-report", "")
	if len(g.saved) > 0 {
		t.Error("a report that is not checked can be exported")
	}
	shown := g.room.Checks.Shown
	g.settle()
	if text := Draw(g.room); g.room.Checks.Stale() || strings.Contains(text, recalledWords) || !strings.Contains(text, "Care is needed") {
		t.Error("the checked day is not shown as that")
	}
	if g.room.Checks.Shown != shown {
		t.Error("what the check confirms is drawn again")
	}
}

// What the check finds takes the place of what was stored, whatever that says.
func TestLastDayGivesWayToTheCheck(t *testing.T) {
	s := leftOpen(t)
	s.day = map[string]Doc{"report": document(strings.ReplaceAll(s.day["report"].String(), `"care"`, `"clear"`)), "day": s.day["day"], "private": s.day["private"]}
	g := opened(t, s)
	if g.room.Checks.Day.Report == nil || g.room.Checks.Day.Report.Verdict != plan.Clear || !g.room.Checks.Recalled() {
		t.Fatal("the stored day is not shown")
	}
	g.settle()
	if got := g.room.Checks.Day.Report.Verdict; got != plan.Care || g.room.Checks.Stale() {
		t.Errorf("verdict %v after the check", got)
	}
}

// A day of another version, plan or chart is not shown, and one that cannot be read is
// passed over.
func TestLastDayOfSomethingElseIsNotShown(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(s *memoryStore)
	}{
		{"another version", func(s *memoryStore) { s.dayOf = strings.Replace(s.dayOf, "test", "earlier", 1) }},
		{"another plan", func(s *memoryStore) {
			for id, p := range s.plans {
				p.Text = strings.Replace(p.Text, "two bays", "three bays", 1)
				s.plans[id] = p
			}
		}},
		{"no demo chart", func(s *memoryStore) { s.settings[settingDemo] = "removed" }},
		{"another chart too", func(s *memoryStore) {
			s.sets["layer-x"] = SavedSet{ID: "layer-x", Name: "x", Rev: "r1", Files: []File{{Name: "x.geojson", Data: Bytes(`{"type":"FeatureCollection","features":[]}`)}}}
		}},
		{"an input that is set aside", func(s *memoryStore) { s.settings[settingStops] = `[{"key":"x","times":2}]` }},
		{"not a report", func(s *memoryStore) { s.day = map[string]Doc{"report": document(`{"type":"FeatureColl`)} }},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := leftOpen(t)
			c.change(s)
			g := opened(t, s)
			if g.room.Checks.VerdictKnown() || strings.Contains(Draw(g.room), "Care is needed") {
				t.Error("the day is shown")
			}
			g.settle()
		})
	}
}

// An edit before the check takes the day of the last time off the screen at once.
func TestLastDayGoesWithAnEdit(t *testing.T) {
	g := opened(t, leftOpen(t))
	g.room.Enter("draught", "1.37")
	if g.room.Checks.Recalled() || g.room.Checks.VerdictKnown() {
		t.Error("the day is shown, though the plan is another")
	}
	g.settle()
	if g.room.Checks.Day.Report == nil || g.room.Checks.Stale() {
		t.Error("the edited plan is not checked")
	}
}

// The text of a plan that was deleted does not stay behind in the day that was checked last.
func TestLastDayGoesWithItsPlan(t *testing.T) {
	g := opened(t, leftOpen(t))
	if g.store.dayOf == "" {
		t.Fatal("no day is stored")
	}
	g.room.Do("plan-delete", g.room.History.Open.ID)
	if g.store.dayOf != "" || g.store.day != nil {
		t.Errorf("what is left is of %.80q", g.store.dayOf)
	}
}
