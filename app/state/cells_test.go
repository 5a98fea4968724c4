package state

import (
	"archive/zip"
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"

	"keelroom/app/engine"

	"keelroom/testdata/beside"
)

// realCell is a file of the real cells of NOAA (shared/charts/README.md).
func realCell(t *testing.T, cell, name string) File {
	t.Helper()
	b, err := os.ReadFile(beside.File(t, "charts", cell, name))
	if err != nil {
		t.Fatal(err)
	}
	return File{Name: name, Data: Bytes(b)}
}

func (g *harness) open(files ...File) {
	g.room.Files.Open(files)
	g.settle()
}

// cellsOpen are the names, editions and updates of all open cells.
func (g *harness) cellsOpen() (of []string) {
	for _, s := range g.room.Cells.charted() {
		of = append(of, s.Info.Cell.Name+" "+s.Info.Cell.Edition+"."+s.Info.Cell.Update)
	}
	return of
}

func (g *harness) wantCells(want ...string) {
	g.t.Helper()
	if got := g.cellsOpen(); strings.Join(got, ", ") != strings.Join(want, ", ") {
		g.t.Errorf("open are %q, want %q", got, want)
	}
}

// altered is a file of a cell with other letters in place of some, as many.
func altered(t *testing.T, f File, old, now string) File {
	t.Helper()
	b := f.Data.Bytes()
	if len(old) != len(now) || bytes.Count(b[:2000], []byte(old)) != 1 {
		t.Fatalf("%q is not once in the head of %s", old, f.Name)
	}
	return File{Name: f.Name, Data: Bytes(append(bytes.Replace(bytes.Clone(b[:2000]), []byte(old), []byte(now), 1), b[2000:]...))}
}

// edition is a file of the harbour cell as of another edition than 31.
func edition(t *testing.T, name, number string) File {
	t.Helper()
	return altered(t, realCell(t, "US5MA11M", name), "\x1f31\x1f", "\x1f"+number+"\x1f")
}

// tornNext is a base of edition 99 that is not whole.
func tornNext(t *testing.T) File {
	t.Helper()
	f := edition(t, "US5MA11M.000", "99")
	return File{Name: f.Name, Data: f.Data.(Bytes)[:100_000]}
}

// A cell is opened, kept and told; its updates join it when they come later, in
// their order only; what does not fit leaves it as it was.
func TestCellAndItsUpdates(t *testing.T) {
	g := newHarness(t).start()
	base := realCell(t, "US5MA11M", "US5MA11M.000")
	g.open(base)
	edition := g.room.Charts.Sets[1].Info.Cell.Edition
	g.wantCells("US5MA11M " + edition + ".0")
	g.wants("US5MA11M, edition "+edition, "issued 2015-07-27 (10 years old)", "1:10000", "A copy, not the official chart")
	g.open(realCell(t, "US5MA11M", "US5MA11M.002"))
	g.wantCells("US5MA11M " + edition + ".0")
	g.wants("W-UPDATE", "Not applied: US5MA11M.002.", "US5MA11M stays edition "+edition+": US5MA11M.002 was not applied.")
	g.open(realCell(t, "US5MA11M", "US5MA11M.001"), realCell(t, "US5MA11M", "US5MA11M.003"))
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
	// A damaged base of the next edition, and a damaged copy of the one that is open.
	g.open(tornNext(t))
	g.wantCells("US5MA11M " + edition + ".3")
	g.wants("US5MA11M stays as it was.", "E-CELL", "a base of edition 99 that was refused: what is older is out of date")
	g.open(File{Name: base.Name, Data: base.Data.(Bytes)[:100_000]})
	g.wantCells("US5MA11M " + edition + ".3")
	g.wants("US5MA11M.000 is another copy than the one that is there, with other bytes, and was left out.")
	// The base once more, under the name that a browser gives a second copy.
	g.room.Notices.list = nil
	g.open(File{Name: "US5MA11M (1).000", Data: base.Data})
	g.wantCells("US5MA11M " + edition + ".3")
	g.wants("US5MA11M, edition " + edition + " with updates to 3, was open already.")
	for _, s := range g.store.sets {
		if len(s.Files) != 4 {
			t.Errorf("%d files are kept after what was refused, want 4", len(s.Files))
		}
	}
}

// zipped is an exchange set of files, in the folders that such sets have.
func zipped(t *testing.T, files ...File) File {
	t.Helper()
	return File{Name: "set.zip", Data: Bytes(packed(t, zip.Deflate, files...))}
}

func packed(t *testing.T, method uint16, files ...File) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, f := range files {
		w, err := z.CreateHeader(&zip.FileHeader{Name: "ENC_ROOT/US/" + f.Name, Method: method})
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
	return b.Bytes()
}

// Each cell of an exchange set is a chart of its own, the larger scale above; what
// is newer in it joins a cell that was open by itself, and all go at once.
func TestZipOfCells(t *testing.T) {
	g := newHarness(t).start()
	g.open(realCell(t, "US5MA11M", "US5MA11M.000"))
	edition := g.room.Cells.charted()[0].Info.Cell.Edition
	g.open(zipped(t, realCell(t, "US5MA11M", "US5MA11M.000"), realCell(t, "US5MA11M", "US5MA11M.001"), realCell(t, "US5MA12M", "US5MA12M.000")))
	g.wants("US5MA11M is now edition "+edition+" with updates to 1", "US5MA12M, edition 32")
	g.wantCells("US5MA11M "+edition+".1", "US5MA12M 32.0")
	if len(g.store.sets) != 2 || len(g.view.sets) != 3 {
		t.Errorf("%d sets are kept, %d drawn; want two cells, and the demo drawn too", len(g.store.sets), len(g.view.sets))
	}
	for _, s := range g.room.Cells.charted() {
		if !strings.Contains(g.view.sets[s.ID], `"edge":[`) {
			t.Error("no limit of the data is told to the chart view")
		}
	}
	g.room.Do("cells-remove", "")
	g.settle()
	g.wants("Two charts are removed: they are no longer checked.")
	if len(g.view.sets) != 1 || len(g.cellsOpen()) != 0 || len(g.store.sets) != 0 {
		t.Errorf("%d charts are drawn, %q open; the demo is left", len(g.view.sets), g.cellsOpen())
	}
	g.room.Do("notice-do", fmt.Sprint(g.room.Notices.list[len(g.room.Notices.list)-1].ID))
	g.settle()
	g.wantCells("US5MA11M "+edition+".1", "US5MA12M 32.0")
	if len(g.store.sets) != 2 {
		t.Errorf("%d sets are kept after they came back, want 2", len(g.store.sets))
	}
	// Both in one: the harbour cell, 1:10000, is drawn over that of 1:25000.
	other := newHarness(t).start()
	other.open(zipped(t, realCell(t, "US5MA11M", "US5MA11M.000"), realCell(t, "US5MA12M", "US5MA12M.000")))
	other.wantCells("US5MA12M 32.0", "US5MA11M "+edition+".0")
}

// The texts that come with a cell can be read beside it, and are kept.
func TestTextsOfACell(t *testing.T) {
	g := newHarness(t).start()
	paper := realCell(t, "US5MA11M", "US000705.TXT")
	g.open(zipped(t, realCell(t, "US5MA11M", "US5MA11M.000"), paper))
	g.wants("Read US000705.TXT")
	words := strings.Join(strings.Fields(string(paper.Data.Bytes())), " ")
	g.room.Do("set-text", g.room.Cells.charted()[0].ID+" US000705.TXT")
	g.wants("Close US000705.TXT", words)
	again := g.reloaded()
	again.wants("Read US000705.TXT")
	g.open(paper)
	g.wants("US000705.TXT is not read")
}

// A zip of updates alone joins the cell that is open; before its base is there they
// wait for it, whatever came first.
func TestUpdatesAlone(t *testing.T) {
	base := realCell(t, "US5MA11M", "US5MA11M.000")
	updates := zipped(t, realCell(t, "US5MA11M", "US5MA11M.001"), realCell(t, "US5MA11M", "US5MA11M.002"), realCell(t, "US5MA11M", "US5MA11M.003"))
	for name, order := range map[string][]File{"after": {base, updates}, "before": {updates, base}, "one by one": {
		realCell(t, "US5MA11M", "US5MA11M.003"), realCell(t, "US5MA11M", "US5MA11M.001"), base, realCell(t, "US5MA11M", "US5MA11M.002")}} {
		t.Run(name, func(t *testing.T) {
			g := newHarness(t).start()
			for i, f := range order {
				g.open(f)
				if i == 0 && f.Name != base.Name {
					g.wants("of a cell that is not open, and kept until its base is: US5MA11M.000 of edition 31.")
				}
			}
			if got := g.cellsOpen(); len(got) != 1 || !strings.HasSuffix(got[0], ".3") || g.room.Cells.unclaimed.HasUpdates("US5MA11M") {
				t.Errorf("open are %q", got)
			}
			again := g.reloaded()
			again.wantCells(g.cellsOpen()...)
		})
	}
}

// An update of edition 0 cancels the cell (ENC Product Specification, 5.7): it is
// said beside it and in every report, also after the page was loaded again, and the
// demo day is not clear by it.
func TestCancelledCell(t *testing.T) {
	g := newHarness(t).start()
	g.open(realCell(t, "US5MA11M", "US5MA11M.000"), realCell(t, "US5MA11M", "US5MA11M.001"))
	edition := g.room.Cells.charted()[0].Info.Cell.Edition
	const end = "\x1f"
	cancel := altered(t, realCell(t, "US5MA11M", "US5MA11M.002"), end+edition+end, end+strings.Repeat("0", len(edition))+end)
	g.open(cancel)
	g.wantCells("US5MA11M " + edition + ".1")
	g.room.Notices.list = nil
	again := g.reloaded()
	for name, g := range map[string]*harness{"at once": g, "loaded again": again} {
		g.room.View.Tab = TabCharts
		g.wants("Its producer cancelled this cell (US5MA11M.002): it is no chart in force.")
		rep := g.room.Checks.Day.Report
		if !strings.Contains(strings.Join(rep.Messages, "\n"), "W-CANCEL US5MA11M.002") || !strings.Contains(strings.Join(rep.Cautions, "\n"), `"US5MA11M.000 (cancelled)" was cancelled by its producer (US5MA11M.002)`) {
			t.Errorf("%s: the report says %q, %q", name, rep.Messages, rep.Cautions)
		}
	}
	// The next edition is in force.
	next := strings.Repeat("9", len(edition))
	g.open(later(t, altered(t, realCell(t, "US5MA11M", "US5MA11M.000"), end+edition+end, end+next+end)))
	g.wantCells("US5MA11M " + next + ".0")
	if c := g.room.Cells.charted()[0].Info; c.Cell.Cancelled != "" || c.Authority != "derived" || c.Title != "US5MA11M.000" {
		t.Errorf("%s is cancelled with %q, %s", c.Title, c.Cell.Cancelled, c.Authority)
	}
}

// An update of a later edition says that what is open is out of date, lastingly, and
// waits for its base.
func TestUpdateOfALaterEdition(t *testing.T) {
	g := newHarness(t).start()
	base, first := realCell(t, "US5MA11M", "US5MA11M.000"), realCell(t, "US5MA11M", "US5MA11M.001")
	g.open(base, first)
	edition := g.room.Cells.charted()[0].Info.Cell.Edition
	const end = "\x1f"
	next := strings.Repeat("9", len(edition))
	g.open(altered(t, realCell(t, "US5MA11M", "US5MA11M.001"), end+edition+end, end+next+end))
	g.wantCells("US5MA11M " + edition + ".1")
	g.wants("Not applied: US5MA11M.001.", "an update of edition "+next+": this edition is out of date")
	if !strings.Contains(strings.Join(g.room.Checks.Day.Report.Messages, "\n"), "this edition is out of date") {
		t.Error("no report says that the cell is out of date")
	}
	again := g.reloaded()
	again.wants("this edition is out of date")
	g.open(altered(t, base, end+edition+end, end+next+end))
	g.wantCells("US5MA11M " + next + ".1")
	if n := len(g.room.Cells.charted()[0].Info.Messages); n != 0 {
		t.Errorf("%d messages are left: %+v", n, g.room.Cells.charted()[0].Info.Messages)
	}
}

// Cells go into the archive of everything, and come back from it.
func TestCellsInTheArchive(t *testing.T) {
	g := newHarness(t).start()
	g.open(realCell(t, "US5MA12M", "US5MA12M.000"))
	want := g.cellsOpen()
	g.room.Do("export-all", "")
	g.settle()
	text := g.saved["Keelroom archive.json"]
	if text == "" {
		t.Fatal("no archive is saved")
	}
	other := newHarness(t).start()
	other.open(File{Name: "Keelroom archive.json", Data: Bytes(text)})
	other.wantCells(want...)
}

// A good cell beside a damaged one is taken, and it is said that not all was. Of two
// drops on each other's heels, only what the engine took is kept.
func TestPartOfADrop(t *testing.T) {
	g := newHarness(t).start()
	base := realCell(t, "US5MA11M", "US5MA11M.000")
	g.open(base, File{Name: "US5MA12M.000", Data: Bytes(realCell(t, "US5MA12M", "US5MA12M.000").Data.Bytes()[:300_000])})
	g.wants("US5MA12M was refused as a whole", "One thing refused", "E-CELL")
	if got := g.cellsOpen(); len(got) != 1 {
		t.Fatalf("open are %q; one of the two files is whole", got)
	}
	edition := g.room.Cells.charted()[0].Info.Cell.Edition
	g.room.Files.Open([]File{{Name: base.Name, Data: base.Data.(Bytes)[:100_000]}})
	g.room.Files.Open([]File{realCell(t, "US5MA11M", "US5MA11M.001")})
	g.settle()
	kept := g.store.sets[g.room.Cells.charted()[0].ID]
	again := newHarness(t).start()
	again.open(kept.Files...)
	if a, b := g.cellsOpen(), again.cellsOpen(); len(a) != 1 || len(b) != 1 || a[0] != b[0] || !strings.HasPrefix(a[0], "US5MA11M "+edition) {
		t.Errorf("in use is %q, what is kept gives %q", a, b)
	}
}

// Whatever is done while files are being tried, what is kept stays what the engine
// has taken.
func TestWhileACellIsBeingJoined(t *testing.T) {
	base, first := realCell(t, "US5MA11M", "US5MA11M.000"), realCell(t, "US5MA11M", "US5MA11M.001")
	second := realCell(t, "US5MA11M", "US5MA11M.002")
	torn := tornNext(t)
	for _, c := range []struct {
		name string
		do   func(g *harness)
		want string // update of the cell in use and kept
	}{
		{"hidden", func(g *harness) { g.room.Files.Open([]File{torn}); g.room.Charts.show(g.room.Charts.Sets[1].ID) }, "1"},
		{"removed and brought back", func(g *harness) {
			id := g.room.Charts.Sets[1].ID
			g.room.Files.Open([]File{torn})
			g.room.Charts.removeSet(id)
			g.room.Charts.bringBack(id)
		}, "1"},
		{"damaged, then whole", func(g *harness) {
			g.room.Files.Open([]File{torn})
			g.room.Files.Open([]File{base, first, second})
		}, "2"},
		{"damaged, then an update", func(g *harness) {
			g.room.Files.Open([]File{torn})
			g.room.Files.Open([]File{second})
		}, "2"},
		{"another engine", func(g *harness) { g.anotherEngine(torn) }, "1"},
		{"another engine, and a good update", func(g *harness) { g.anotherEngine(second) }, "2"},
	} {
		t.Run(c.name, func(t *testing.T) {
			g := newHarness(t).start()
			g.open(base)
			g.open(first)
			now := g.room.Charts.Sets[1].Info.Cell.Edition
			c.do(g)
			g.settle()
			g.wantCells("US5MA11M " + now + "." + c.want)
			kept := newHarness(t).start()
			for _, s := range g.store.sets {
				kept.open(s.Files...)
			}
			kept.wantCells("US5MA11M " + now + "." + c.want)
			// The engine has it too: what would spoil it is refused.
			g.room.Notices.list = nil
			g.open(torn)
			g.wants("US5MA11M stays as it was.")
		})
	}
}

// anotherEngine takes the place of the one that is reading a file.
func (g *harness) anotherEngine(reading File) {
	g.room.Files.Open([]File{reading})
	g.service.Stop()
	clear(g.answers)
	g.startEngine()
	g.room.Charts.resend()
}

// An update that comes while its base is still being read waits for it.
func TestUpdateRightAfterItsBase(t *testing.T) {
	g := newHarness(t).start()
	g.room.Files.Open([]File{realCell(t, "US5MA11M", "US5MA11M.000")})
	g.room.Files.Open([]File{realCell(t, "US5MA11M", "US5MA11M.001")})
	g.settle()
	if got := g.cellsOpen(); len(got) != 1 || !strings.HasSuffix(got[0], ".1") || len(g.room.Charts.Sets) != 2 {
		t.Errorf("open are %q in %d sets", got, len(g.room.Charts.Sets))
	}
}

// A catalogue guards the files it came with, and is no chart of its own. What it
// says is missing stays said until it comes.
func TestCatalogueJoinsWithItsFiles(t *testing.T) {
	g := newHarness(t).start()
	g.open(realCell(t, "US5MA11M", "US5MA11M.000"))
	// The real cells come without a catalogue; one that cannot be read is told of.
	g.open(realCell(t, "US5MA11M", "US5MA11M.001"), File{Name: "ENC_ROOT/CATALOG.031", Data: Bytes("00024no catalogue")})
	if got := g.cellsOpen(); len(got) != 1 || !strings.HasSuffix(got[0], ".1") {
		t.Errorf("open are %q; want the cell with its first update", got)
	}
	g.wants("Not all of US5MA11M and 1 more was taken: one thing was refused or is missing.")
	g.open(realCell(t, "US5MA11M", "US5MA11M.002"))
	for _, s := range g.store.sets {
		if len(s.Files) != 3 {
			t.Errorf("%d files are kept, want the base and two updates without the catalogue", len(s.Files))
		}
	}
}

// What an earlier version kept, or put into an archive, as files that are not told
// apart yet, is opened as cells of their own and kept so.
func TestCellsKeptTogether(t *testing.T) {
	g := newHarness(t)
	g.store.sets["old"] = SavedSet{ID: "old", Name: "set", Files: []File{zipped(t, realCell(t, "US5MA11M", "US5MA11M.000"), realCell(t, "US5MA12M", "US5MA12M.000")),
		realCell(t, "US5MA11M", "US5MA11M.001")}}
	g.start()
	if got := g.cellsOpen(); len(got) != 2 || got[0] != "US5MA12M 32.0" || !strings.HasSuffix(got[1], ".1") {
		t.Fatalf("open are %q", got)
	}
	if _, there := g.store.sets["old"]; there || len(g.store.sets) != 2 {
		t.Errorf("%d sets are kept, the old one among them: %v", len(g.store.sets), there)
	}
}

func TestWhatIsNoCell(t *testing.T) {
	g := newHarness(t).start()
	g.open(File{Name: "XX5AB001.000", Data: Bytes(strings.Repeat("\x8f\x02\xd1", 4000))})
	g.wants("encrypted", "was refused as a whole")
	g.open(File{Name: "notes.txt", Data: Bytes("hello")})
	g.wants("notes.txt is not read")
	if len(g.store.sets) != 0 {
		t.Error("what was refused is kept")
	}
}

// Looking into an archive can be stopped from its row; nothing comes of it then.
func TestOpeningIsStopped(t *testing.T) {
	g := newHarness(t).start()
	before := len(g.room.Charts.Sets)
	g.room.Files.Open([]File{zipped(t, File{Name: "XX5INVNT.000", Data: Bytes(make([]byte, 60<<20))})})
	g.wants("Being looked into.", "Stop")
	g.room.Do("opening-stop", "")
	g.settle()
	g.wants("set was not opened: you stopped it.")
	if len(g.room.Charts.Sets) != before || len(g.room.Cells.Opening) != 0 {
		t.Errorf("%d charts, %d being opened; want it stopped", len(g.room.Charts.Sets), len(g.room.Cells.Opening))
	}
}

// What is kept is not given up by a stop that was meant for files just given, and
// where it cannot be told apart it stays, with no verdict until it is removed.
func TestKeptFilesAreNotStopped(t *testing.T) {
	g := newHarness(t)
	g.store.sets["old"] = SavedSet{ID: "old", Name: "set", Files: []File{zipped(t, realCell(t, "US5MA11M", "US5MA11M.000"), realCell(t, "US5MA12M", "US5MA12M.000"))}}
	g.room.Start()
	g.room.Do("opening-stop", "")
	g.settle()
	if got := g.cellsOpen(); len(got) != 2 {
		t.Errorf("open are %q; want both cells that are kept", got)
	}
}

func TestKeptFilesThatCannotBeToldApart(t *testing.T) {
	g := newHarness(t)
	g.store.sets["old"] = SavedSet{ID: "old", Name: "set", Files: []File{{Name: "set.zip", Data: Bytes("PK\x03\x04 torn")}}}
	g.start()
	g.room.View.Tab = TabCharts
	g.wants("The chart set is kept on this device and cannot be opened", "Nothing is known of this day", "Try once more")
	g.noVerdict("it cannot be told apart")
	g.room.Do("try-again", "")
	g.settle()
	g.noVerdict("it was tried again")
	if _, there := g.store.sets["old"]; !there {
		t.Error("it is no longer kept")
	}
	g.room.Do("set-remove", "old")
	g.settle()
	g.wants("Care is needed")
	g.room.Do("set-back", "old")
	g.settle()
	g.noVerdict("it was brought back")
	if _, there := g.store.sets["old"]; !there {
		t.Error("it was brought back and is not kept")
	}
}

// A kept set that the engine stopped at twice as it was told apart: no verdict either.
func TestKeptFilesThatAreSetAside(t *testing.T) {
	g := newHarness(t)
	kept := zipped(t, realCell(t, "US5MA11M", "US5MA11M.000"), realCell(t, "US5MA12M", "US5MA12M.000"))
	g.store.sets["old"] = SavedSet{ID: "old", Name: "set", Files: []File{kept}}
	asked := Asked{Kind: engine.SortFiles, Files: []string{fmt.Sprintf("%s %d", kept.Name, kept.Data.Size())}}
	g.store.settings[settingStops] = `[{"key":"` + asked.key() + `","times":2}]`
	g.start()
	g.wants("The chart set is kept on this device and cannot be opened", "set aside")
	g.noVerdict("it is set aside")
	g.room.Do("try-again", "")
	g.settle()
	if got := g.cellsOpen(); len(got) != 2 {
		t.Errorf("open are %q; want both cells", got)
	}
}

func (g *harness) noVerdict(when string) {
	g.t.Helper()
	if g.room.Checks.Day.Report != nil {
		g.t.Errorf("there is a verdict though %s", when)
	}
}

// charted are the charts that are cells.
func (cl *Cells) charted() (of []*ChartSet) {
	for _, s := range cl.charts.Sets {
		if s.Info.Cell != nil {
			of = append(of, s)
		}
	}
	return of
}
