package state

import (
	"errors"
	"strings"
	"testing"

	"keelroom/hazards/plan"
)

// What is kept comes back, with its history.
func TestReload(t *testing.T) {
	g := newHarness(t).start()
	g.room.Enter("title", "INVENTED other day")
	g.settle()
	again := newHarness(t)
	again.store.plans, again.store.settings = g.store.plans, g.store.settings
	again.start().wants("INVENTED other day", "Care is needed")
	again.room.Do("undo", "")
	again.settle()
	again.wants("INVENTED day: two bays in the lee")
}

// A state that another tab has overtaken is kept as a plan of its own.
func TestStaleTab(t *testing.T) {
	g := newHarness(t).start()
	id := g.room.History.Open.ID
	other := g.store.plans[id]
	other.Rev, other.Title = other.Rev+1, "INVENTED by another tab"
	g.store.plans[id] = other
	g.room.Enter("title", "INVENTED here")
	g.settle()
	if g.store.plans[id].Title != "INVENTED by another tab" {
		t.Error("the other tab's state is lost")
	}
	g.wants("INVENTED here (copy from another tab)", "kept as a plan of its own")
	if len(g.store.plans) != 2 {
		t.Errorf("%d plans, want 2", len(g.store.plans))
	}
}

// A full device loses nothing that was saved, and the screen says so.
func TestNoRoomLeft(t *testing.T) {
	g := newHarness(t).start()
	before := g.store.plans[g.room.History.Open.ID]
	g.store.full = errors.New("there is no room left on this device.")
	g.room.Enter("title", "INVENTED unsaved")
	g.settle()
	g.wants("Not saved: there is no room left on this device.")
	if g.store.plans[before.ID].Text != before.Text {
		t.Error("the saved state is no longer whole")
	}
	g.store.full = nil
	g.room.Enter("title", "INVENTED saved again")
	g.settle()
	if g.store.plans[before.ID].Title != "INVENTED saved again" {
		t.Error("with room again it is still not saved")
	}
}

// A plan exported and opened elsewhere is the same plan.
func TestExportImport(t *testing.T) {
	g := newHarness(t).start()
	g.room.Do("export-plan", "")
	if len(g.saved) != 1 {
		t.Fatalf("%d files are saved", len(g.saved))
	}
	for name, text := range g.saved {
		other := newHarness(t).start()
		other.room.Files.Open([]File{{Name: name, Data: Bytes(text)}})
		other.settle()
		other.room.Do("export-plan", "")
		if other.saved[name] != text {
			t.Error("the plan is another one")
		}
		if !strings.Contains(text, plan.CautionAid) {
			t.Error("the file carries no caution")
		}
		other.wants("opened as a plan of its own", "Care is needed")
	}
	g.room.Files.Open([]File{{Name: "bad.geojson", Data: Bytes(`{"type":"FeatureCollection","plan":{"version":9},"features":[]}`)}})
	g.settle()
	g.wants("bad.geojson is a plan file that cannot be read", "version")
}

// A new day, from nothing: sketched, stayed at, and back again.
func TestNewDay(t *testing.T) {
	g := newHarness(t).start()
	g.room.Do("plan-new", "")
	g.settle()
	g.wants("This day has no route yet.")
	g.says("sketch", map[string]any{"mode": "route", "coordinates": [][2]float64{{-36.0473380, 43.0086414}, {-36.0419420, 43.0010802}, {-36.0202352, 42.9824471}}})
	g.wants("Not known to be clear") // no tide and no wind were given
	g.room.Do("place-stay", "")
	g.settle()
	g.room.Do("way-back", "")
	g.settle()
	if n := len(g.room.History.Plan.Parts); n != 3 {
		t.Fatalf("%d parts, want a route, a stay and a route", n)
	}
	for range 3 {
		g.room.Do("undo", "")
		g.settle()
	}
	g.wants("There is no route yet")
}

// Another tab's newer state is shown.
func TestOtherTabChanged(t *testing.T) {
	g := newHarness(t).start()
	kept := g.store.plans[g.room.History.Open.ID]
	p, _ := plan.DecodeDraft([]byte(kept.Text))
	p.Title = "INVENTED elsewhere"
	b, err := plan.Encode(p)
	if err != nil {
		t.Fatal(err)
	}
	kept.Text, kept.Title, kept.Rev = string(b), p.Title, kept.Rev+1
	g.store.plans[kept.ID] = kept
	g.room.Keeper.OtherTab(kept.ID, kept.Rev)
	g.settle()
	g.wants("INVENTED elsewhere", "Another tab changed this plan")
}

// Everything goes into one file and comes out of it elsewhere; what is there
// stays, and a torn archive changes nothing.
func TestArchive(t *testing.T) {
	g := newHarness(t).start()
	g.room.Enter("title", "INVENTED kept")
	layer := `{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"objectClass":"UWTROC"},"geometry":{"type":"Point","coordinates":[-36.02,42.99]}}]}`
	g.room.Files.Open([]File{{Name: "rock.geojson", Data: Bytes(layer)}})
	g.settle()
	g.room.Do("export-all", "")
	text := g.saved["Keelroom archive.json"]
	other := newHarness(t).start()
	other.room.Files.Open([]File{{Name: "torn.json", Data: Bytes(text[:len(text)-9])}})
	other.settle()
	other.wants("is an archive that cannot be read, and nothing was changed")
	plans, sets := len(other.store.plans), len(other.store.sets)
	other.room.Files.Open([]File{{Name: "all.json", Data: Bytes(text)}})
	other.settle()
	if len(other.store.plans) != plans+1 || len(other.store.sets) != sets+1 {
		t.Fatalf("%d plans and %d sets are kept: %v", len(other.store.plans), len(other.store.sets), other.room.Notices.list)
	}
	for _, p := range other.store.plans {
		if p.Title == "INVENTED kept" && len(p.Past) == 1 && p.Text == g.room.History.Open.Text {
			return
		}
	}
	t.Error("the plan is not kept as it was, with its earlier state")
}

// An edit that waits for a save belongs to its plan, whatever is opened
// meanwhile.
func TestSaveWhileAnotherPlanIsOpened(t *testing.T) {
	g := newHarness(t).start()
	first := g.room.History.Open.ID
	g.room.Do("plan-copy", "")
	g.settle()
	second := g.room.History.Open.ID
	slow := &slowStore{memoryStore: g.store}
	g.room.Ports.store = slow
	g.room.Enter("title", "INVENTED one")
	g.room.Enter("title", "INVENTED two")
	g.room.Do("open-plan", first)
	g.settle()
	g.room.Enter("title", "INVENTED first plan")
	g.room.Do("open-plan", second)
	g.wants("INVENTED two") // not yet kept, and shown all the same
	slow.let()
	g.settle()
	if a, b := g.store.plans[first].Title, g.store.plans[second].Title; a != "INVENTED first plan" || b != "INVENTED two" {
		t.Errorf("kept: %q and %q", a, b)
	}
	g.room.Enter("title", "INVENTED three")
	slow.let()
	if got := g.store.plans[second]; got.Title != "INVENTED three" || len(g.store.plans) != 2 {
		t.Errorf("kept: %q among %d plans", got.Title, len(g.store.plans))
	}
}

// What could not be saved is kept in memory and saved once there is room,
// whatever was opened meanwhile.
func TestSavedOnceThereIsRoom(t *testing.T) {
	g := newHarness(t).start()
	first := g.room.History.Open.ID
	g.room.Do("plan-copy", "")
	g.settle()
	second := g.room.History.Open.ID
	g.store.full = errors.New("there is no room left on this device.")
	g.room.Enter("title", "INVENTED unsaved")
	g.room.Do("open-plan", first)
	g.settle()
	g.store.full = nil
	g.room.Do("open-plan", second)
	g.settle()
	g.wants("INVENTED unsaved")
	g.room.Enter("title", "INVENTED saved")
	g.settle()
	if got := g.store.plans[second].Title; got != "INVENTED saved" {
		t.Errorf("kept: %q", got)
	}
}

// Each deletion has its own way back.
func TestTwoDeletions(t *testing.T) {
	g := newHarness(t).start()
	for _, title := range []string{"INVENTED A", "INVENTED B"} {
		g.room.Do("plan-copy", "")
		g.room.Enter("title", title)
		g.settle()
	}
	b := g.room.History.Open.ID
	g.room.Do("plan-delete", b)
	g.settle()
	a := g.room.History.Open.ID
	g.room.Do("plan-delete", a)
	g.settle()
	g.room.Do("plan-back", a)
	g.settle()
	g.room.Do("plan-back", b)
	g.settle()
	titles := map[string]int{}
	for _, p := range g.store.plans {
		titles[p.Title]++
	}
	if titles["INVENTED A"] != 1 || titles["INVENTED B"] != 1 || len(g.store.plans) != 3 {
		t.Errorf("kept: %v", titles)
	}
}
