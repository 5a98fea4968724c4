package state

import (
	"archive/zip"
	"bytes"
	"fmt"
	"strings"
	"testing"
)

// reloaded is the page loaded again, on what is kept.
func (g *harness) reloaded() *harness {
	g.t.Helper()
	again := newHarness(g.t)
	again.ids = 100 + g.ids
	again.store = g.store
	again.room.Ports.store = g.store
	again.start()
	again.room.View.Tab = TabCharts
	return again
}

// harbour is a file of the harbour cell: its base, 0, or an update.
func harbour(t *testing.T, n int) File {
	t.Helper()
	return realCell(t, "US5MA11M", fmt.Sprintf("US5MA11M.%03d", n))
}

// as is that file as of another edition.
func as(t *testing.T, n int, number string) File {
	t.Helper()
	return edition(t, fmt.Sprintf("US5MA11M.%03d", n), number)
}

// reissued is the base with so many updates in it, as it says.
func reissued(t *testing.T, updates string) File {
	t.Helper()
	return altered(t, harbour(t, 0), "\x1f31\x1f0\x1f", "\x1f31\x1f"+updates+"\x1f")
}

// later is a base as issued at the end of the century.
func later(t *testing.T, f File) File {
	t.Helper()
	b := f.Data.Bytes()
	if n := bytes.Count(b[:2500], []byte("20150727")); n == 0 {
		t.Fatal("the base has no date of issue")
	}
	return File{Name: f.Name, Data: Bytes(append(bytes.ReplaceAll(b[:2500:2500], []byte("20150727"), []byte("20991231")), b[2500:]...))}
}

func torn(f File) File {
	return File{Name: f.Name, Data: f.Data.(Bytes)[:min(len(f.Data.(Bytes)), 300)]}
}

// cut is a base that ends in the midst of its records.
func cut(f File) File { return File{Name: f.Name, Data: f.Data.(Bytes)[:100_000]} }

// flipped is a file with one bit otherwise.
func flipped(f File) File {
	b := append(Bytes(nil), f.Data.Bytes()...)
	b[len(b)-40] ^= 4
	return File{Name: f.Name, Data: b}
}

func within(folder string, f File) File { return File{Name: folder + "/" + f.Name, Data: f.Data} }

// Drops in any order: a cell that is open never becomes older, is never open twice,
// and what is known to be wrong with it stays told beside it and in the reports, also
// when the page is loaded again.
func TestDrops(t *testing.T) {
	f := func(n int) File { return harbour(t, n) }
	type drop []File
	for _, c := range []struct {
		name  string
		drops []drop
		open  string   // edition and update at the end
		told  []string // in the row and in every report, also after a reload
		said  []string // once, in a message
		not   string   // is told nowhere
	}{
		{name: "a damaged update alone", drops: []drop{{f(0)}, {torn(f(1))}}, open: "31.0", told: []string{"E-CELL US5MA11M.001"}},
		{name: "and then a whole one", drops: []drop{{f(0)}, {torn(f(1))}, {f(1)}}, open: "31.1", not: "E-CELL"},
		{name: "out of date", drops: []drop{{f(0), f(1)}, {as(t, 1, "99")}, {f(1)}}, open: "31.1", told: []string{"an update of edition 99: this edition is out of date"}},
		{name: "out of date, in one drop", drops: []drop{{f(0), within("week10", as(t, 1, "99")), within("week9", f(1))}}, open: "31.1", told: []string{"an update of edition 99: this edition is out of date"}},
		{name: "out of date, then an edition between", drops: []drop{{f(0)}, {as(t, 1, "99")}, {as(t, 0, "50")}}, open: "50.0", told: []string{"an update of edition 99: this edition is out of date"}},
		{name: "a damaged base of the next edition", drops: []drop{{f(0), f(1)}, {cut(as(t, 0, "99")), as(t, 1, "99")}}, open: "31.1",
			told: []string{"a base of edition 99 that was refused", "an update of edition 99"}, said: []string{"US5MA11M stays as it was."}},
		{name: "and then a whole one, with the update that waited", drops: []drop{{f(0), f(1)}, {cut(as(t, 0, "99")), as(t, 1, "99")}, {as(t, 0, "99")}}, open: "99.1", not: "out of date"},
		{name: "a damaged base beside a good update", drops: []drop{{f(0), f(1)}, {cut(f(0)), f(2)}}, open: "31.2", said: []string{"US5MA11M.000 is another copy"}},
		{name: "a fresh damaged base with updates, then a whole one", drops: []drop{{cut(f(0)), f(1), f(2)}, {f(0)}}, open: "31.2", not: "E-CELL"},
		{name: "another copy of the base", drops: []drop{{f(0)}, {flipped(f(0))}}, open: "31.0", said: []string{"US5MA11M.000 is another copy than the one that is there, with other bytes, and was left out."}},
		{name: "another copy of an update", drops: []drop{{f(0), f(1)}, {flipped(f(1))}}, open: "31.1", said: []string{"US5MA11M.001 is another copy than the one that is there, with other bytes, and was left out."}},
		{name: "two copies of an update", drops: []drop{{f(0), within("a", f(1)), within("b", flipped(f(1)))}}, open: "31.1", told: []string{"E-COPY US5MA11M.001"}},
		{name: "two copies of a base, then the next edition", drops: []drop{{within("a", f(0)), within("b", flipped(f(0)))}, {as(t, 0, "99")}}, open: "99.0", not: "E-COPY"},
		{name: "a text that is called as an update is", drops: []drop{{f(0), {Name: "US5MA11M.001", Data: Bytes(`{"error":"not found"}`)}}}, open: "31.0", told: []string{"E-CELL US5MA11M.001"}},
		{name: "a torn copy beside a whole one", drops: []drop{{f(0), f(1)}, {f(2), within("b", torn(f(2)))}}, open: "31.2", said: []string{"Another copy of US5MA11M.002 was refused"}},
		{name: "updates that are in the base", drops: []drop{{reissued(t, "2"), f(1), f(2)}}, open: "31.2", not: "Not applied"},
		{name: "an old base with an update that fits the new one", drops: []drop{{reissued(t, "2")}, {f(0), f(3)}}, open: "31.3"},
		{name: "the base again, with updates in it", drops: []drop{{f(0), f(1), f(2), f(3)}, {reissued(t, "2")}}, open: "31.3"},
		{name: "an edition written otherwise", drops: []drop{{as(t, 0, "01"), as(t, 1, " 1")}}, open: "01.1"},
		{name: "an older edition", drops: []drop{{f(0), f(1)}, {as(t, 0, "30")}}, open: "31.1", said: []string{"US5MA11M stays as it was: it is edition 31, and what was given is edition 30."}},
		{name: "an update of an older edition", drops: []drop{{f(0), f(1)}, {as(t, 2, "30")}}, open: "31.1", said: []string{"US5MA11M.002 is an update of edition 30 and was left out: edition 31 is open."}},
		{name: "cancelled, then the update of that number", drops: []drop{{f(0), f(1)}, {as(t, 2, "00")}, {f(2)}}, open: "31.2", told: []string{"W-CANCEL US5MA11M.002"}},
		{name: "cancelled, then the base again", drops: []drop{{f(0), f(1)}, {as(t, 2, "00")}, {f(0)}}, open: "31.1", told: []string{"W-CANCEL US5MA11M.002"}},
		{name: "cancelled before it is opened", drops: []drop{{as(t, 3, "00")}, {f(0)}}, open: "31.0", told: []string{"W-CANCEL US5MA11M.003"}, said: []string{"US5MA11M.003 says that its producer cancelled the cell US5MA11M, which is not open."}},
		{name: "the next edition after a cancellation", drops: []drop{{f(0), f(1)}, {as(t, 2, "00")}, {later(t, as(t, 0, "99"))}}, open: "99.0", not: "W-CANCEL"},
		{name: "a next edition issued before the cancellation", drops: []drop{{f(0), f(1)}, {as(t, 2, "00")}, {as(t, 0, "99")}}, open: "99.0", told: []string{"W-CANCEL US5MA11M.002"}},
		{name: "and in the other order", drops: []drop{{as(t, 0, "99")}, {as(t, 2, "00")}}, open: "99.0", told: []string{"W-CANCEL US5MA11M.002"}},
		{name: "updates and a cancellation before a damaged base", drops: []drop{{as(t, 2, "00"), f(1)}, {cut(f(0))}, {f(0)}}, open: "31.1", told: []string{"W-CANCEL US5MA11M.002"}},
		{name: "a damaged update before the base", drops: []drop{{f(1), torn(f(2))}, {f(0)}}, open: "31.1", told: []string{"E-CELL US5MA11M.002"}},
		{name: "a damaged base before a whole one", drops: []drop{{torn(f(0)), f(1)}, {f(0)}}, open: "31.1", not: "E-CELL"},
		{name: "a damaged base of a later edition, then a good one of this", drops: []drop{{cut(as(t, 0, "99"))}, {f(0)}}, open: "31.0", told: []string{"a base of edition 99 that was refused"}},
		{name: "an update that fails the zip's checksum", drops: []drop{{f(0)}, {brokenZip(t, f(1), f(2))}}, open: "31.1", told: []string{"E-ZIP US5MA11M.002"}},
		{name: "a torn second copy by its name", drops: []drop{{f(0), f(1)}, {{Name: "US5MA11M (1).002", Data: torn(f(2)).Data}}}, open: "31.1", told: []string{"E-CELL US5MA11M (1).002"}},
		{name: "a damaged reissue", drops: []drop{{f(0)}, {cut(reissued(t, "3"))}}, open: "31.0", told: []string{"a base of edition 31 with updates to 3 in it that was refused"}},
		{name: "and the updates after all", drops: []drop{{f(0)}, {cut(reissued(t, "3"))}, {f(1), f(2), f(3)}}, open: "31.3", not: "out of date"},
		{name: "a damaged base of an edition that nobody knows", drops: []drop{{f(0)}, {torn(as(t, 0, "99"))}}, open: "31.0", told: []string{"E-CELL US5MA11M.000"}},
		{name: "another copy of an update that waits for others", drops: []drop{{f(0), f(3)}, {flipped(f(3))}, {f(1), f(2)}}, open: "31.3", said: []string{"US5MA11M.003 is another copy than the one that is there"}},
		{name: "a good copy in place of one that could not be applied", drops: []drop{{f(0), within("a", damagedUpdate(t))}, {f(1)}}, open: "31.1", not: "Not applied"},
		{name: "a damaged second copy, then a whole one", drops: []drop{{f(0), f(1)}, {{Name: "US5MA11M (1).002", Data: torn(f(2)).Data}}, {f(2)}}, open: "31.2", not: "E-CELL"},
		{name: "a damaged update that is in the base that comes", drops: []drop{{f(0), f(1)}, {torn(f(2))}, {reissued(t, "3")}}, open: "31.3", not: "E-CELL"},
		{name: "a damaged update that waits, then a whole one with its base", drops: []drop{{damagedUpdate(t)}, {f(0), f(1)}}, open: "31.1", not: "Not applied"},
		{name: "a damaged update alone, then the base", drops: []drop{{torn(f(1))}, {f(0)}}, open: "31.0", told: []string{"E-CELL US5MA11M.001"}},
		{name: "a base and an update that are both damaged, then the base", drops: []drop{{cut(f(0)), torn(f(1))}, {f(0)}}, open: "31.0", told: []string{"E-CELL US5MA11M.001"}},
		{name: "an update of a later edition alone, then this one", drops: []drop{{as(t, 1, "99")}, {f(0)}}, open: "31.0", told: []string{"an update of edition 99"}},
		{name: "everything twice", drops: []drop{{f(0), f(1), f(2)}, {f(0), f(1), f(2)}}, open: "31.2", said: []string{"was open already"}},
		{name: "a damaged base beside an update that is applied", drops: []drop{{f(0), f(1)}, {cut(as(t, 0, "99")), f(2)}}, open: "31.2", told: []string{"a base of edition 99 that was refused"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			g := newHarness(t).start()
			g.room.View.Tab = TabCharts
			for _, d := range c.drops {
				g.open(d...)
			}
			g.wants(c.said...)
			for when, g := range map[string]*harness{"at once": g, "loaded again": g.reloaded()} {
				g.room.Notices.list = nil
				if got := strings.Join(g.cellsOpen(), ", "); got != "US5MA11M "+c.open {
					t.Fatalf("%s: open is %q, want %s", when, got, c.open)
				}
				if n := len(g.store.sets); n != 1 {
					t.Errorf("%s: %d sets are kept", when, n)
				}
				messages, row := strings.Join(g.room.Checks.Day.Report.Messages, "\n"), ""
				for _, m := range g.room.Cells.charted()[0].Info.Messages {
					row += m.Code + " " + m.File + " " + m.Found + "\n"
				}
				for _, want := range c.told {
					if !strings.Contains(messages, want) || !strings.Contains(row, want) {
						t.Errorf("%s: %q is not told; the reports say %q, the row %q", when, want, messages, row)
					}
				}
				if c.not != "" && strings.Contains(messages+row+g.text(), c.not) {
					t.Errorf("%s: %q is told: %q, %q", when, c.not, messages, row)
				}
			}
		})
	}
}

// brokenZip is an exchange set in which the last file is not what its checksum says.
func brokenZip(t *testing.T, files ...File) File {
	t.Helper()
	b := packed(t, zip.Store, files...)
	last := files[len(files)-1].Data.Bytes()
	b[bytes.Index(b, last)+len(last)-40] ^= 4
	return File{Name: "set.zip", Data: Bytes(b)}
}

// damagedUpdate is the first update with an instruction that is none.
func damagedUpdate(t *testing.T) File {
	t.Helper()
	f := harbour(t, 1)
	b := append(Bytes(nil), f.Data.Bytes()...)
	return File{Name: f.Name, Data: b[:len(b)-60]}
}

// Files that come one after the other without a pause.
func TestDropsOnEachOthersHeels(t *testing.T) {
	g := newHarness(t).start()
	for _, f := range []File{harbour(t, 1), harbour(t, 0), harbour(t, 2), as(t, 3, "00")} {
		g.room.Files.Open([]File{f})
	}
	g.settle()
	for when, g := range map[string]*harness{"at once": g, "loaded again": g.reloaded()} {
		g.wantCells("US5MA11M 31.2")
		if c := g.room.Cells.charted()[0].Info.Cell.Cancelled; c != "US5MA11M.003" {
			t.Errorf("%s: it is cancelled with %q", when, c)
		}
	}
}

// An update of a later edition waits with the cell for its base, also over a reload.
func TestLaterUpdateWaits(t *testing.T) {
	g := newHarness(t).start()
	g.open(harbour(t, 0), harbour(t, 1))
	g.open(as(t, 1, "99"))
	again := g.reloaded()
	again.open(as(t, 0, "99"))
	again.wantCells("US5MA11M 99.1")
	if n := again.room.Cells.charted()[0].Info.Messages; len(n) != 0 {
		t.Errorf("it is told of: %+v", n)
	}
	again.reloaded().wantCells("US5MA11M 99.1")
}

// Updates of many cells that are not open are told in one message.
func TestManyUpdatesAlone(t *testing.T) {
	g := newHarness(t).start()
	var files []File
	for i := range 6 {
		f := harbour(t, 1)
		b := bytes.Replace(f.Data.Bytes(), []byte("US5MA11M"), []byte(fmt.Sprintf("US5MA2%dM", i)), 1)
		files = append(files, File{Name: fmt.Sprintf("US5MA2%dM.001", i), Data: Bytes(b)})
	}
	g.open(zipped(t, files...))
	if n := len(g.room.Notices.list); n != 1 {
		t.Errorf("%d messages: %+v", n, g.room.Notices.list)
	}
	g.wants("Updates of US5MA20M", "are kept until their bases are opened", "Remove all six cells")
	g.room.Do("cells-remove", "")
	g.settle()
	if len(g.store.sets) != 0 || len(g.room.Charts.Sets) != 1 {
		t.Errorf("%d sets are kept, %d rows", len(g.store.sets), len(g.room.Charts.Sets))
	}
}

// More is refused than is shown: the cell beside it is told what is wrong with it.
func TestManyRefused(t *testing.T) {
	g := newHarness(t).start()
	var files []File
	for i := range 205 {
		files = append(files, File{Name: fmt.Sprintf("AA%06d.000", i), Data: Bytes(strings.Repeat("\x8f\x02\xd1", 10))})
	}
	g.open(append(files, harbour(t, 0), torn(harbour(t, 1)))...)
	g.wantCells("US5MA11M 31.0")
	g.wants("205 things were refused or are missing")
	if !strings.Contains(strings.Join(g.room.Checks.Day.Report.Messages, "\n"), "E-CELL US5MA11M.001") {
		t.Errorf("the reports do not tell of the damaged update: %q", g.room.Checks.Day.Report.Messages)
	}
}
