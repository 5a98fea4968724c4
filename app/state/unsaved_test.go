package state

import (
	"strconv"
	"strings"
	"testing"
)

// While a change is not saved the page is not loaded again: what to do first is said,
// and once it is done the page goes.
func TestLoadingAgainLosesNothing(t *testing.T) {
	g := newHarness(t).start()
	slow, device := &slowStore{memoryStore: g.store}, &clockwork{harness: g}
	g.room.Ports.store, g.room.Ports.Device = slow, device
	if why := g.room.Unsaved(); why != "" {
		t.Errorf("all is saved, and loading again is refused: %s", why)
	}
	g.room.Enter("title", "INVENTED one")
	g.room.Enter("title", "INVENTED two") // waits for the one before
	g.settle()
	g.room.Overtaken()
	reload := func() {
		for _, n := range g.room.Notices.list {
			if n.Do == "reload" {
				g.room.Do("notice-do", strconv.Itoa(n.ID))
				return
			}
		}
		t.Fatal("loading again is not offered")
	}
	reload()
	g.wants("Export this plan first: it is not saved.", "Load again")
	g.store.full = ErrOvertaken
	slow.let()
	g.settle()
	reload()
	if device.reloads != 0 {
		t.Fatal("the page is loaded again with a change that could not be saved")
	}
	g.room.Do("export-plan", "")
	reload()
	if device.reloads != 1 {
		t.Errorf("loaded again %d times after the export, want once: %s", device.reloads, g.room.Unsaved())
	}
}

// A plan that is not open and not saved is named.
func TestUnsavedPlanThatIsNotOpenIsNamed(t *testing.T) {
	g := newHarness(t).start()
	first := g.room.History.Open.ID
	g.room.Do("plan-copy", "")
	g.settle()
	g.store.full = ErrNoRoom
	g.room.Enter("title", "INVENTED unsaved")
	g.room.Do("open-plan", first)
	g.settle()
	if why := g.room.Unsaved(); !strings.Contains(why, "INVENTED unsaved") || !strings.Contains(why, "Export everything first") {
		t.Errorf("unsaved: %q", why)
	}
	g.room.Do("export-all", "")
	if why := g.room.Unsaved(); why != "" {
		t.Errorf("after everything was exported: %q", why)
	}
}

// A plan of an archive that is on its way to the store is not saved yet.
func TestArchiveBeingTakenInIsUnsaved(t *testing.T) {
	g := newHarness(t).start()
	slow := &slowStore{memoryStore: g.store}
	g.room.Ports.store = slow
	g.room.Files.Open([]File{manyPlans(g, 3)})
	g.settle()
	if why := g.room.Unsaved(); !strings.Contains(why, "archive") {
		t.Errorf("unsaved: %q", why)
	}
	for len(slow.held) > 0 {
		slow.next()
	}
	if why := g.room.Unsaved(); why != "" {
		t.Errorf("all of the archive is kept: %q", why)
	}
}

// Where the store could not be read nothing is saved; an untouched plan is no loss.
func TestChangedPlanWithoutAStoreIsUnsaved(t *testing.T) {
	g := newHarness(t).start()
	g.room.Keeper.Save.Broken = true
	if why := g.room.Unsaved(); why != "" {
		t.Errorf("nothing was changed: %q", why)
	}
	g.room.Enter("draught", "1.1")
	g.settle()
	if g.room.Unsaved() == "" {
		t.Error("the change is lost without a word")
	}
}
