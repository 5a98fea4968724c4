package state

import (
	"errors"
	"strings"
	"testing"
)

// Updates without their base are a row of their own, kept until it comes.
func TestUpdatesAreKept(t *testing.T) {
	g := newHarness(t).start()
	g.open(harbour(t, 1), as(t, 3, "00"), as(t, 1, "99"))
	g.room.View.Tab = TabCharts
	g.wants("US5MA11M", "Waits for its base", "US5MA11M.003 says that its producer cancelled the cell")
	g.room.Charts.removeSet(cellID("US5MA11M"))
	g.room.Charts.bringBack(cellID("US5MA11M"))
	g.settle()
	again := g.reloaded()
	again.wants("Waits for its base")
	again.open(harbour(t, 0))
	again.wantCells("US5MA11M 31.1")
	again.wants("an update of edition 99: this edition is out of date", "Its producer cancelled this cell (US5MA11M.003)")
	again.reloaded().wantCells("US5MA11M 31.1")
}

// Two tabs: what the other kept of a cell is not undone, not even where both are of
// the same state.
func TestTwoTabsKeepWhatIsSaid(t *testing.T) {
	g := newHarness(t).start()
	g.open(harbour(t, 0), harbour(t, 1))
	other := g.reloaded()
	g.open(as(t, 2, "00"))
	other.open(torn(harbour(t, 3)))
	other.wants("Another tab has changed US5MA11M meanwhile")
	again := g.reloaded()
	if c := again.room.Cells.charted()[0].Info.Cell.Cancelled; c != "US5MA11M.002" {
		t.Errorf("it is cancelled with %q", c)
	}
}

// An archive that is made while a cell is read can be read; what could not be kept is
// kept when it is opened again.
func TestArchiveWhileACellIsRead(t *testing.T) {
	g := newHarness(t).start()
	g.room.Files.Open([]File{harbour(t, 0)})
	for g.room.Cells.cellSet("US5MA11M") == nil {
		g.room.Turn(<-g.turns)
	}
	g.room.Do("export-all", "")
	g.settle()
	other := newHarness(t).start()
	other.open(File{Name: "Keelroom archive.json", Data: Bytes(g.saved["Keelroom archive.json"])})
	other.wantCells("US5MA11M 31.0")
	full := newHarness(t).start()
	full.store.full = errors.New("there is no room left")
	full.open(harbour(t, 0))
	full.store.full = nil
	full.open(harbour(t, 0))
	full.reloaded().wantCells("US5MA11M 31.0")
}

// A cell of which nothing can be kept is not kept, and can be opened after a reload.
func TestNothingToKeep(t *testing.T) {
	g := newHarness(t).start()
	g.open(cut(harbour(t, 0)), torn(harbour(t, 1)))
	if n := len(g.store.sets); n != 0 {
		t.Errorf("%d sets are kept", n)
	}
	g.store.sets[cellID("US5MA11M")] = SavedSet{ID: cellID("US5MA11M"), Name: "US5MA11M"} // as an earlier version might have
	again := g.reloaded()
	again.open(harbour(t, 0))
	again.wantCells("US5MA11M 31.0")
}

// Saves that fail for a while leave no trace once there is room.
func TestSavesOfACell(t *testing.T) {
	g := newHarness(t).start()
	slow := &slowStore{memoryStore: g.store}
	g.room.Ports.store = slow
	g.open(harbour(t, 0))
	slow.let()
	g.open(harbour(t, 1))
	g.open(harbour(t, 2))
	g.store.full = errors.New("there is no room left")
	slow.next()
	g.store.full = nil
	slow.let()
	g.reloaded().wantCells("US5MA11M 31.2")
	g.room.Notices.list = nil
	g.store.full = errors.New("there is no room left")
	g.open(harbour(t, 3))
	slow.let()
	g.store.full = nil
	g.open(harbour(t, 3))
	slow.let()
	g.reloaded().wantCells("US5MA11M 31.3")
	if strings.Contains(g.text(), "Another tab") {
		t.Error("there is no other tab")
	}
}

// A cell that was removed and opened anew is another than the one a second tab knows.
func TestRevisionsNeverComeTwice(t *testing.T) {
	g := newHarness(t).start()
	g.open(harbour(t, 0))
	other := g.reloaded()
	g.room.Charts.removeSet(cellID("US5MA11M"))
	again := g.reloaded()
	again.ids = 300
	again.open(harbour(t, 0), harbour(t, 1), harbour(t, 2))
	other.open(harbour(t, 1))
	other.wants("Another tab has changed US5MA11M meanwhile")
	g.reloaded().wantCells("US5MA11M 31.2")
}

// Two tabs keep one cell once, and never put the kept one back.
func TestTwoTabsOfCells(t *testing.T) {
	g := newHarness(t).start()
	other := g.reloaded()
	g.open(harbour(t, 0))
	other.open(harbour(t, 0), harbour(t, 1), harbour(t, 2))
	other.wants("Another tab has changed US5MA11M meanwhile")
	g.room.Charts.show(g.room.Cells.charted()[0].ID)
	g.settle()
	third := g.reloaded()
	third.wantCells("US5MA11M 31.0")
	third.open(harbour(t, 1), harbour(t, 2))
	if !third.room.Cells.charted()[0].Hidden {
		t.Error("that it is hidden is not kept")
	}
	g.open(harbour(t, 1))
	g.wantCells("US5MA11M 31.1")
	g.wants("Another tab has changed US5MA11M meanwhile")
	g.reloaded().wantCells("US5MA11M 31.2")
}

// A cell that cannot be read at the start goes into the archive all the same, its
// removal can be undone, and a whole base takes the place of what was wrong.
func TestRefusedAtTheStart(t *testing.T) {
	g := newHarness(t)
	g.store.sets[cellID("US5MA11M")] = SavedSet{ID: cellID("US5MA11M"), Name: "US5MA11M", Files: []File{cut(harbour(t, 0)), harbour(t, 1)}}
	g.start()
	g.room.Do("export-all", "")
	g.settle()
	if !strings.Contains(g.saved["Keelroom archive.json"], "US5MA11M.001") {
		t.Error("it is not in the archive")
	}
	g.room.Charts.removeSet(cellID("US5MA11M"))
	g.room.Charts.bringBack(cellID("US5MA11M"))
	g.settle()
	g.open(harbour(t, 0))
	g.wantCells("US5MA11M 31.1")
	g.reloaded().wantCells("US5MA11M 31.1")
}

// What an earlier version kept stays until all of it is kept anew.
func TestKeptTogetherStays(t *testing.T) {
	old := SavedSet{ID: "old", Name: "set", Files: []File{zipped(t, cut(harbour(t, 0)), realCell(t, "US5MA12M", "US5MA12M.000"))}}
	g := newHarness(t)
	g.store.sets["old"] = old
	g.start()
	g.wantCells("US5MA12M 32.0")
	g.reloaded().wantCells("US5MA12M 32.0")
	if s, there := g.store.sets[cellID("US5MA11M")]; !there || len(s.Files) != 1 || len(g.store.sets) != 2 {
		t.Errorf("the files of the cell that was refused are gone: %d sets", len(g.store.sets))
	}
	if c := g.room.Cells.cellSet("US5MA11M"); c == nil || c.Failed == "" {
		t.Error("the cell that was refused has no row")
	}
	full := newHarness(t)
	old.Files = []File{zipped(t, harbour(t, 0))}
	full.store.sets["old"] = old
	full.store.full = errors.New("there is no room left")
	full.start()
	full.wantCells("US5MA11M 31.0")
	if _, there := full.store.sets["old"]; !there {
		t.Error("the only copy is gone")
	}
	// A name that browsers give a second copy.
	named := newHarness(t)
	named.store.sets["old"] = SavedSet{ID: "old", Name: "x", Files: []File{{Name: "US5MA11M (1).000", Data: harbour(t, 0).Data}}}
	named.start()
	named.open(harbour(t, 1))
	named.wantCells("US5MA11M 31.1")
	named.reloaded().wantCells("US5MA11M 31.1")
}

// A torn cell is not kept for being hidden while it was read.
func TestHiddenWhileItIsRefused(t *testing.T) {
	g := newHarness(t).start()
	g.room.Files.Open([]File{cut(harbour(t, 0))})
	for len(g.room.Charts.Sets) < 2 {
		g.room.Turn(<-g.turns)
	}
	g.room.Charts.show(g.room.Charts.Sets[1].ID)
	g.settle()
	if n := len(g.store.sets); n != 0 {
		t.Errorf("%d sets are kept", n)
	}
}

// An older archive leaves a newer cell as it is.
func TestOlderArchive(t *testing.T) {
	g := newHarness(t).start()
	g.open(harbour(t, 0), harbour(t, 1))
	g.room.Do("export-all", "")
	g.settle()
	newer := newHarness(t).start()
	newer.open(harbour(t, 0), harbour(t, 1), harbour(t, 2))
	newer.open(File{Name: "Keelroom archive.json", Data: Bytes(g.saved["Keelroom archive.json"])})
	newer.wantCells("US5MA11M 31.2")
	newer.reloaded().wantCells("US5MA11M 31.2")
}
