package state

import (
	"testing"
)

// What is removed twice comes back as it was last; a removal is undone also for a cell
// that cannot be read, and a cancellation that is known outlives it.
func TestRemovedCells(t *testing.T) {
	g := newHarness(t).start()
	g.open(harbour(t, 0))
	id := cellID("US5MA11M")
	g.room.Charts.removeSet(id)
	g.settle()
	g.open(harbour(t, 0), harbour(t, 1), harbour(t, 2), as(t, 3, "00"))
	g.room.Charts.removeSet(id)
	g.settle()
	g.room.Charts.bringBack(id)
	g.settle()
	for when, g := range map[string]*harness{"brought back": g, "loaded again": g.reloaded()} {
		g.wantCells("US5MA11M 31.2")
		if c := g.room.Cells.charted()[0].Info.Cell.Cancelled; c != "US5MA11M.003" {
			t.Errorf("%s: it is cancelled with %q", when, c)
		}
	}
	g.room.Charts.removeSet(id)
	g.settle()
	g.open(harbour(t, 0))
	if c := g.room.Cells.charted()[0].Info.Cell.Cancelled; c != "US5MA11M.003" {
		t.Errorf("opened anew it is cancelled with %q", c)
	}
	// A row that waits for its base.
	waits := newHarness(t).start()
	waits.open(harbour(t, 1), as(t, 2, "00"))
	waits.room.Charts.removeSet(id)
	waits.settle()
	waits.open(harbour(t, 0))
	if c := waits.room.Cells.charted()[0].Info.Cell.Cancelled; c != "US5MA11M.002" {
		t.Errorf("after its row was removed it is cancelled with %q", c)
	}
	// What another tab kept is not removed.
	tab := newHarness(t).start()
	tab.open(harbour(t, 0))
	second := tab.reloaded()
	second.open(as(t, 1, "00"))
	tab.room.Charts.removeSet(id)
	tab.wants("Another tab has changed US5MA11M meanwhile: it will be back")
	tab.room.Charts.bringBack(id)
	tab.settle()
	if c := tab.reloaded().room.Cells.charted()[0].Info.Cell.Cancelled; c != "US5MA11M.001" {
		t.Errorf("after a removal in another tab it is cancelled with %q", c)
	}
	// One that cannot be read.
	bad := newHarness(t)
	bad.store.sets[id] = SavedSet{ID: id, Name: "US5MA11M", Files: []File{cut(harbour(t, 0)), harbour(t, 1)}}
	bad.start()
	bad.room.Charts.removeSet(id)
	bad.room.Charts.bringBack(id)
	bad.settle()
	bad.open(harbour(t, 2), as(t, 3, "00"))
	bad = bad.reloaded()
	bad.open(harbour(t, 0))
	bad.wantCells("US5MA11M 31.2")
	if c := bad.room.Cells.charted()[0].Info.Cell.Cancelled; c != "US5MA11M.003" {
		t.Errorf("after it could not be read it is cancelled with %q", c)
	}
	// Removed while its base is read, and opened anew instead.
	gone := newHarness(t).start()
	gone.open(harbour(t, 1), as(t, 2, "00"))
	gone.room.Files.Open([]File{harbour(t, 0)})
	for s := gone.room.Cells.cellSet("US5MA11M"); s == nil || !s.Reading; s = gone.room.Cells.cellSet("US5MA11M") {
		gone.room.Turn(<-gone.turns)
	}
	gone.room.Charts.removeSet(id)
	gone.settle()
	gone.open(harbour(t, 0))
	gone.wantCells("US5MA11M 31.1")
	if c := gone.room.Cells.charted()[0].Info.Cell.Cancelled; c != "US5MA11M.002" {
		t.Errorf("removed while it was read it is cancelled with %q", c)
	}
}

// The engine is started again, or the row removed and brought back, while the base
// of updates that waited is read.
func TestBaseOfWaitingUpdates(t *testing.T) {
	trying := func() *harness {
		g := newHarness(t).start()
		g.open(harbour(t, 1))
		g.room.Files.Open([]File{harbour(t, 0)})
		for g.room.Cells.cellSet("US5MA11M").joining == nil {
			g.room.Turn(<-g.turns)
		}
		return g
	}
	g := trying()
	g.service.Stop()
	clear(g.answers)
	g.startEngine()
	g.room.EngineLost("test")
	g.settle()
	g.wantCells("US5MA11M 31.1")
	undone := trying()
	undone.room.Charts.removeSet(cellID("US5MA11M"))
	undone.room.Charts.bringBack(cellID("US5MA11M"))
	undone.settle()
	undone.wantCells("US5MA11M 31.1")
	undone.reloaded().wantCells("US5MA11M 31.1")
	// Removed while the files are told apart: it stays removed.
	gone := newHarness(t).start()
	gone.open(harbour(t, 1))
	gone.room.Files.Open([]File{harbour(t, 0)})
	for s := gone.room.Cells.cellSet("US5MA11M"); !s.sorting; {
		gone.room.Turn(<-gone.turns)
	}
	gone.room.Charts.removeSet(cellID("US5MA11M"))
	gone.settle()
	gone.wantCells()
}

// A removal that is undone brings back what waited, and what came meanwhile.
func TestUndoOfARemovedCell(t *testing.T) {
	g := newHarness(t).start()
	g.open(harbour(t, 0))
	id := g.room.Cells.charted()[0].ID
	g.room.Charts.removeSet(id)
	g.settle()
	g.open(harbour(t, 1))
	g.wants("US5MA11M.001 is an update of a cell that is not open, and kept until its base is: US5MA11M.000 of edition 31.")
	g.room.Charts.bringBack(id)
	g.settle()
	g.wantCells("US5MA11M 31.1")
	g.room.Files.Open([]File{harbour(t, 2)})
	for len(g.room.Cells.Opening) > 0 {
		g.room.Turn(<-g.turns)
	}
	g.room.Charts.removeSet(id)
	g.room.Charts.bringBack(id)
	g.settle()
	g.wantCells("US5MA11M 31.2")
	// Opened anew meanwhile.
	g.room.Charts.removeSet(id)
	g.settle()
	g.open(harbour(t, 0), harbour(t, 1))
	g.room.Charts.bringBack(id)
	g.settle()
	g.wantCells("US5MA11M 31.2")
	g.reloaded().wantCells("US5MA11M 31.2")
}

// The engine is started again while files wait, and a cell that it then cannot read
// is not lost to what is opened next.
func TestEngineLostWithCells(t *testing.T) {
	g := newHarness(t).start()
	g.open(harbour(t, 0), harbour(t, 1), harbour(t, 2))
	g.room.Files.Open([]File{harbour(t, 3)})
	g.room.Files.Open([]File{tornNext(t)})
	for g.room.Cells.charted()[0].joining == nil {
		g.room.Turn(<-g.turns)
	}
	g.service.Stop()
	clear(g.answers)
	g.startEngine()
	g.room.EngineLost("test")
	g.settle()
	g.wantCells("US5MA11M 31.3")
	g.room.Cells.charted()[0].Failed = "A mistake within the program ended this." // as after another start
	g.open(harbour(t, 0))
	g.wantCells("US5MA11M 31.3")
	if s := g.room.Cells.charted()[0]; s.Failed != "" {
		t.Errorf("it is still refused: %s", s.Failed)
	}
	g.reloaded().wantCells("US5MA11M 31.3")
}
