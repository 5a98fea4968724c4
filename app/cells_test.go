package app

import (
	"archive/zip"
	"bytes"
	"os"
	"strings"
	"testing"

	"keelroom/testdata/beside"
)

// cellFile is a file of the real cells of NOAA (shared/charts/README.md).
func cellFile(t *testing.T, cell, name string) File {
	t.Helper()
	b, err := os.ReadFile(beside.File(t, "charts", cell, name))
	if err != nil {
		t.Fatal(err)
	}
	return File{Name: name, Data: Bytes(b)}
}

func (g *ground) open(files ...File) {
	g.room.OpenFiles(files)
	g.settle()
}

// cellsOpen are the names, editions and updates of all open cells.
func (g *ground) cellsOpen() (of []string) {
	for _, s := range g.room.sets {
		for _, c := range s.cells() {
			of = append(of, c.Name+" "+c.Edition+"."+c.Update)
		}
	}
	return of
}

func (g *ground) wantCells(want ...string) {
	g.t.Helper()
	if got := g.cellsOpen(); strings.Join(got, ", ") != strings.Join(want, ", ") {
		g.t.Errorf("open are %q, want %q", got, want)
	}
}

// A cell is opened, kept and told; its updates join it when they come later, in
// their order only; what does not fit leaves it as it was.
func TestCellAndItsUpdates(t *testing.T) {
	g := newGround(t).start()
	base := cellFile(t, "US5MA11M", "US5MA11M.000")
	g.open(base)
	edition := g.room.sets[1].cells()[0].Edition
	g.wantCells("US5MA11M " + edition + ".0")
	g.wants("US5MA11M, edition "+edition, "issued 2015-07-27 (10 years old)", "1:10000", "A copy, not the official chart")
	g.open(cellFile(t, "US5MA11M", "US5MA11M.002"))
	g.wantCells("US5MA11M " + edition + ".0")
	g.wants("W-UPDATE", "Not applied: US5MA11M.002.")
	g.open(cellFile(t, "US5MA11M", "US5MA11M.001"), cellFile(t, "US5MA11M", "US5MA11M.003"))
	g.wantCells("US5MA11M " + edition + ".3")
	g.wants("US5MA11M is now edition " + edition + " with updates to 3; it was edition " + edition + ".")
	if n := len(g.store.sets); n != 1 {
		t.Fatalf("%d sets are kept; one is open", n)
	}
	for _, s := range g.store.sets {
		if len(s.Files) != 4 {
			t.Errorf("%d files are kept, want the base and three updates", len(s.Files))
		}
	}
	// A damaged base, and one that is older than what is open.
	torn := File{Name: base.Name, Data: base.Data.(Bytes)[:100_000]}
	g.open(torn)
	g.wantCells("US5MA11M " + edition + ".3")
	g.wants("US5MA11M stays as it was.", "E-CELL")
	g.room.notices = nil
	g.open(base)
	g.wantCells("US5MA11M " + edition + ".3")
	g.wants("would make it edition " + edition + ", update 0")
	for _, s := range g.store.sets {
		if len(s.Files) != 4 {
			t.Errorf("%d files are kept after what was refused, want 4", len(s.Files))
		}
	}
}

// An exchange set with several cells is one row; what is newer in it takes the
// place of a cell that was open by itself.
func TestZipOfCells(t *testing.T) {
	g := newGround(t).start()
	g.open(cellFile(t, "US5MA11M", "US5MA11M.000"))
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, f := range []File{cellFile(t, "US5MA11M", "US5MA11M.000"), cellFile(t, "US5MA11M", "US5MA11M.001"), cellFile(t, "US5MA12M", "US5MA12M.000")} {
		w, err := z.Create("ENC_ROOT/US/" + f.Name)
		if err == nil {
			_, err = w.Write(f.Data.Bytes())
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	g.open(File{Name: "set.zip", Data: Bytes(b.Bytes())})
	g.wants("Two cells: US5MA11M and US5MA12M", "What was open of US5MA11M is replaced")
	if len(g.cellsOpen()) != 2 || len(g.store.sets) != 1 {
		t.Errorf("open are %q, %d sets are kept", g.cellsOpen(), len(g.store.sets))
	}
	set := g.room.sets[1]
	if len(set.views) != 2 || g.view.sets[set.views[0]] == "" || g.view.sets[set.views[1]] == "" {
		t.Errorf("the charts drawn are %q", set.views)
	}
	if !strings.Contains(g.view.sets[set.views[0]], `"edge":[`) {
		t.Error("no limit of the data is told to the chart view")
	}
	g.room.Do("set-remove", set.ID)
	g.settle()
	if len(g.view.sets) != 1 || len(g.cellsOpen()) != 0 {
		t.Errorf("%d charts are drawn, %q open; the demo is left", len(g.view.sets), g.cellsOpen())
	}
}

// Cells go into the archive of everything, and come back from it.
func TestCellsInTheArchive(t *testing.T) {
	g := newGround(t).start()
	g.open(cellFile(t, "US5MA12M", "US5MA12M.000"))
	want := g.cellsOpen()
	g.room.Do("export-all", "")
	g.settle()
	text := g.saved["Keelroom archive.json"]
	if text == "" {
		t.Fatal("no archive is saved")
	}
	other := newGround(t).start()
	other.open(File{Name: "Keelroom archive.json", Data: Bytes(text)})
	other.wantCells(want...)
}

// A good cell beside a damaged one is taken, and it is said that not all was. Of two
// drops on each other's heels, only what the engine took is kept.
func TestPartOfADrop(t *testing.T) {
	g := newGround(t).start()
	base := cellFile(t, "US5MA11M", "US5MA11M.000")
	g.open(base, File{Name: "US5MA12M.000", Data: Bytes(cellFile(t, "US5MA12M", "US5MA12M.000").Data.Bytes()[:300_000])})
	g.wants("Not all of", "one thing was refused", "E-CELL")
	if got := g.cellsOpen(); len(got) != 1 {
		t.Fatalf("open are %q; one of the two files is whole", got)
	}
	edition := g.room.sets[1].cells()[0].Edition
	g.room.OpenFiles([]File{{Name: base.Name, Data: base.Data.(Bytes)[:100_000]}})
	g.room.OpenFiles([]File{cellFile(t, "US5MA11M", "US5MA11M.001")})
	g.settle()
	kept := g.store.sets[g.room.sets[1].ID]
	again := newGround(t).start()
	again.open(kept.Files...)
	if a, b := g.cellsOpen(), again.cellsOpen(); len(a) != 1 || len(b) != 1 || a[0] != b[0] || !strings.HasPrefix(a[0], "US5MA11M "+edition) {
		t.Errorf("in use is %q, what is kept gives %q", a, b)
	}
}

// Whatever is done while files are being tried, what is kept stays what the engine
// has taken.
func TestWhileACellIsBeingJoined(t *testing.T) {
	base, first := cellFile(t, "US5MA11M", "US5MA11M.000"), cellFile(t, "US5MA11M", "US5MA11M.001")
	second := cellFile(t, "US5MA11M", "US5MA11M.002")
	torn := File{Name: base.Name, Data: base.Data.(Bytes)[:100_000]}
	for _, c := range []struct {
		name string
		do   func(g *ground)
		want string // update of the cell in use and kept
	}{
		{"hidden", func(g *ground) { g.room.OpenFiles([]File{torn}); g.room.ShowSet(g.room.sets[1].ID) }, "1"},
		{"removed and brought back", func(g *ground) {
			id := g.room.sets[1].ID
			g.room.OpenFiles([]File{torn})
			g.room.RemoveSet(id)
			g.room.BringSetBack(id)
		}, "1"},
		{"damaged, then whole", func(g *ground) {
			g.room.OpenFiles([]File{torn})
			g.room.OpenFiles([]File{base, first, second})
		}, "2"},
		{"damaged, then an update", func(g *ground) {
			g.room.OpenFiles([]File{torn})
			g.room.OpenFiles([]File{second})
		}, "2"},
		{"another engine", func(g *ground) { g.anotherEngine(torn) }, "1"},
		{"another engine, and a good update", func(g *ground) { g.anotherEngine(second) }, "2"},
	} {
		t.Run(c.name, func(t *testing.T) {
			g := newGround(t).start()
			g.open(base)
			g.open(first)
			edition := g.room.sets[1].cells()[0].Edition
			c.do(g)
			g.settle()
			g.wantCells("US5MA11M " + edition + "." + c.want)
			kept := newGround(t).start()
			for _, s := range g.store.sets {
				kept.open(s.Files...)
			}
			kept.wantCells("US5MA11M " + edition + "." + c.want)
			// The engine has it too: what would spoil it is refused.
			g.room.notices = nil
			g.open(torn)
			g.wants("US5MA11M stays as it was.")
		})
	}
}

// anotherEngine takes the place of the one that is reading a file.
func (g *ground) anotherEngine(reading File) {
	g.room.OpenFiles([]File{reading})
	g.service.Stop()
	clear(g.answers)
	g.startEngine()
	g.room.resend()
}

// An update that comes while its base is still being read waits for it.
func TestUpdateRightAfterItsBase(t *testing.T) {
	g := newGround(t).start()
	g.room.OpenFiles([]File{cellFile(t, "US5MA11M", "US5MA11M.000")})
	g.room.OpenFiles([]File{cellFile(t, "US5MA11M", "US5MA11M.001")})
	g.settle()
	if got := g.cellsOpen(); len(got) != 1 || !strings.HasSuffix(got[0], ".1") || len(g.room.sets) != 2 {
		t.Errorf("open are %q in %d sets", got, len(g.room.sets))
	}
}

// Files of a folder join the cells that are open; its catalogue guards them, and is
// no chart of its own.
func TestCatalogueJoinsWithItsFiles(t *testing.T) {
	g := newGround(t).start()
	g.open(cellFile(t, "US5MA11M", "US5MA11M.000"))
	// The real cells come without a catalogue; one that cannot be read is told of.
	g.open(cellFile(t, "US5MA11M", "US5MA11M.001"), File{Name: "ENC_ROOT/CATALOG.031", Data: Bytes("00024no catalogue")})
	if got := g.cellsOpen(); len(got) != 1 || !strings.HasSuffix(got[0], ".1") {
		t.Errorf("open are %q; want the cell with its first update", got)
	}
	if n := len(g.room.sets); n != 2 {
		t.Errorf("%d sets, the demo and the cell are wanted: %+v", n, g.room.notices)
	}
	g.open(cellFile(t, "US5MA11M", "US5MA11M.002"))
	for _, s := range g.store.sets {
		if len(s.Files) != 3 {
			t.Errorf("%d files are kept, want the base and two updates without the catalogue", len(s.Files))
		}
	}
}

func TestWhatIsNoCell(t *testing.T) {
	g := newGround(t).start()
	g.open(File{Name: "XX5AB001.000", Data: Bytes(strings.Repeat("\x8f\x02\xd1", 4000))})
	g.wants("encrypted", "was refused as a whole")
	g.open(File{Name: "notes.txt", Data: Bytes("hello")})
	g.wants("notes.txt is not read")
	if len(g.store.sets) != 0 {
		t.Error("what was refused is kept")
	}
}
