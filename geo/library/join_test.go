package library

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"keelroom/geo/chart"
)

// stored is a file as it is stored: its name, and a word that is in it.
func stored(spec string) File {
	name, content, _ := strings.Cut(spec, " ")
	return File{Name: name, Data: Bytes(content)}
}

// message is one about a file, such as "E-CELL 001", or about a state, such as
// "W-UPDATE 001 3.1".
func message(spec string) Message {
	w := strings.Fields(spec)
	m := Message{Message: chart.Message{Level: chart.FileError, Code: w[0], File: "XX5INVNT." + w[1]}}
	if len(w) > 2 {
		edition, update, _ := strings.Cut(w[2], ".")
		m.Level, m.Edition, m.Update = chart.Warning, edition, Number(update)
	}
	return m
}

// What people drop on a cell, and what it comes to: what is in use stays, only what is
// later or was not applied comes in its place.
func TestJoin(t *testing.T) {
	edition2 := []string{"XX5INVNT.000 a", "XX5INVNT.001 b"}
	for _, c := range []struct {
		name    string
		files   []string // that are stored
		open    string   // edition, update and how many of them are files; "" was not read
		left    []string // what is known to be left out
		given   []string
		missing []string // messages that came with what was given
		whole   bool     // what was given is all that there is
		want    string   // names and contents of the files
		kept    string   // codes and files of the messages
		notes   string
		same    bool // nothing is new
	}{
		{name: "a base where nothing is", given: []string{"2.0 a"}, want: "000=a"},
		{name: "with updates in disorder", given: []string{"2.2u c", "2.0 a", "2.1u b"}, want: "000=a 002=c 001=b"},
		{name: "the next update", files: edition2, open: "2.1.1", given: []string{"2.2u c"}, want: "000=a 001=b 002=c"},
		{name: "an update after a gap", files: edition2, open: "2.1.1", given: []string{"2.4u d"}, want: "000=a 001=b 004=d"},
		{name: "the same once more", files: edition2, open: "2.1.1", given: []string{"2.0 a", "2.1u b"}, want: "000=a 001=b", same: true},
		{name: "another copy of the base", files: edition2, open: "2.1.1", given: []string{"2.0 x"}, want: "000=a 001=b", notes: "other-copy 000", same: true},
		{name: "another copy of an update", files: edition2, open: "2.1.1", given: []string{"2.1u x"}, want: "000=a 001=b", notes: "other-copy 001", same: true},
		{name: "a good copy of the update that did not fit", files: edition2, open: "2.0.0", given: []string{"2.1u x"}, want: "000=a 001=x"},
		{name: "another copy of one behind a gap", files: append(edition2, "XX5INVNT.003 d"), open: "2.1.1", given: []string{"2.3u x"}, want: "000=a 001=b 003=d", notes: "other-copy 003", same: true},
		{name: "an older edition", files: edition2, open: "2.1.1", given: []string{"1.0 x"}, want: "000=a 001=b", notes: "older-edition 000", same: true},
		{name: "an update of an older edition", files: edition2, open: "2.1.1", given: []string{"1.2u x"}, want: "000=a 001=b", notes: "older-update 002", same: true},
		{name: "the next edition", files: edition2, open: "2.1.1", given: []string{"3.0 x"}, want: "000=x"},
		{name: "texts of the edition before go with it", files: append(edition2, "TERMS.TXT t"), open: "2.1.1", given: []string{"3.0 x"}, want: "000=x"},
		{name: "texts of a reissue stay", files: append(edition2, "TERMS.TXT t"), open: "2.1.1", given: []string{"2.1 x"}, want: "000=x TERMS.TXT=t"},
		{name: "a reissue has updates in it", files: append(edition2, "XX5INVNT.002 c", "XX5INVNT.003 d"), open: "2.3.3", given: []string{"2.2 x"}, want: "000=x 003=d"},
		{name: "an older base than a reissue", files: []string{"XX5INVNT.000 x"}, open: "2.2.0", given: []string{"2.0 a", "2.1u b", "2.3u d"}, want: "000=x 003=d"},
		{name: "an update of the next edition waits", files: edition2, open: "2.1.1", given: []string{"3.1u x"}, want: "000=a 001=b 3/001=x", kept: "W-UPDATE 001"},
		{name: "and is used when its base comes", files: append(edition2, "3/XX5INVNT.001 x", "3/XX5INVNT.002 y"), open: "2.1.1", left: []string{"W-UPDATE 001 3.1"}, given: []string{"3.0 z"}, want: "000=z 001=x 002=y"},
		{name: "but for what is in that base", files: append(edition2, "3/XX5INVNT.001 x", "3/XX5INVNT.002 y"), open: "2.1.1", given: []string{"3.1 z"}, want: "000=z 002=y"},
		{name: "one of an edition between does not end the waiting", files: append(edition2, "4/XX5INVNT.001 x"), open: "2.1.1", left: []string{"W-UPDATE 001 4.1"}, given: []string{"3.0 z"}, want: "000=z 4/001=x", kept: "W-UPDATE 001"},
		{name: "a cancellation", files: edition2, open: "2.1.1", given: []string{"0.2u q"}, want: "000=a 001=b cancelled/002=q"},
		{name: "and an update of that number", files: append(edition2, "cancelled/XX5INVNT.002 q"), open: "2.1.1", given: []string{"2.2u c"}, want: "000=a 001=b cancelled/002=q 002=c"},
		{name: "it outlives a base, as its date decides", files: append(edition2, "cancelled/XX5INVNT.002 q"), open: "2.1.1", given: []string{"3.0 x"}, want: "000=x cancelled/002=q"},
		{name: "a damaged update", files: edition2, open: "2.1.1", missing: []string{"E-CELL 002"}, want: "000=a 001=b", kept: "E-CELL 002"},
		{name: "and then a whole one", files: edition2, open: "2.1.1", left: []string{"E-CELL 002"}, given: []string{"2.2u c"}, want: "000=a 001=b 002=c"},
		{name: "or a base that has it", files: edition2, open: "2.1.1", left: []string{"E-CELL 002"}, given: []string{"2.2 x"}, want: "000=x"},
		{name: "a damaged copy beside a whole file", files: edition2, open: "2.1.1", given: []string{"2.2u c"}, missing: []string{"E-CELL 002"}, want: "000=a 001=b 002=c", notes: "damaged-copy 002"},
		{name: "two copies of an update", given: []string{"2.0 a", "2.1u b"}, missing: []string{"E-COPY 001"}, want: "000=a 001=b", kept: "E-COPY 001"},
		{name: "are nothing to the next edition", files: edition2, open: "2.1.1", left: []string{"E-COPY 001", "W-CATALOG 002"}, given: []string{"3.0 x"}, want: "000=x"},
		{name: "a listed update that is not there", files: edition2, open: "2.1.1", missing: []string{"W-CATALOG 002"}, want: "000=a 001=b", kept: "W-CATALOG 002"},
		{name: "one that is there", files: edition2, open: "2.1.1", missing: []string{"W-CATALOG 001"}, want: "000=a 001=b", same: true},
		{name: "a listed base that is not there", files: edition2, open: "2.1.1", missing: []string{"W-CATALOG 000"}, want: "000=a 001=b", notes: "listed-base 000", same: true},
		{name: "a listed cancellation that is there", files: append(edition2, "cancelled/XX5INVNT.002 q"), open: "2.1.1", missing: []string{"W-CATALOG 002"}, want: "000=a 001=b cancelled/002=q", same: true},
		{name: "a listed base beside another that came", files: edition2, open: "2.1.1", given: []string{"2.0 a"}, missing: []string{"W-CATALOG 000"}, want: "000=a 001=b", same: true},
		{name: "a damaged update, and one of that number of an older edition", files: edition2, open: "2.1.1", given: []string{"1.2u x"}, missing: []string{"E-CELL 002"}, want: "000=a 001=b", kept: "E-CELL 002", notes: "older-update 002"},
		{name: "a later edition is known", files: edition2, open: "2.1.1", left: []string{"W-UPDATE 000 3.0"}, given: []string{"2.2u c"}, want: "000=a 001=b 002=c", kept: "W-UPDATE 000"},
		{name: "until the cell has reached it", files: edition2, open: "2.1.1", left: []string{"W-UPDATE 000 2.3"}, given: []string{"2.2u c", "2.3u d"}, want: "000=a 001=b 002=c 003=d"},
		{name: "all that there is, sorted once more", files: edition2, left: []string{"E-CELL 000", "E-CELL 003"}, given: []string{"2.0 x", "2.1u b"}, whole: true, want: "000=x 001=b"},
	} {
		t.Run(c.name, func(t *testing.T) {
			h, g := Holding{}, &Given{Cell: "XX5INVNT", Complete: c.whole}
			for _, f := range c.files {
				h.Files = append(h.Files, stored(f))
			}
			for _, m := range c.left {
				h.LeftOut = append(h.LeftOut, message(m))
			}
			for _, f := range c.given {
				g.Files = append(g.Files, cellFile(t, f).CellFile)
			}
			for _, m := range c.missing {
				g.LeftOut = append(g.LeftOut, message(m))
			}
			var open *Open
			if n := strings.Split(c.open, "."); len(n) == 3 {
				open = OpenAs(n[0], n[1], Number(n[2]))
			}
			before := h.String()
			got := Join(h, open, g)
			if s := got.String(); s != strings.TrimSpace(c.want+" | "+c.kept) || got.notes() != c.notes || got.Any == c.same {
				t.Errorf("%q, notes %q, new %v\nwant %q, %q", s, got.notes(), got.Any, c.want+" | "+c.kept, c.notes)
			}
			if h.String() != before {
				t.Errorf("what is stored was changed: %s", h)
			}
		})
	}
}

func (h Holding) String() string {
	short := func(s string) string { return strings.ReplaceAll(s, "XX5INVNT.", "") }
	var files, left []string
	for _, f := range h.Files {
		files = append(files, short(f.Name)+"="+string(f.Data.Bytes()))
	}
	for _, m := range h.LeftOut {
		left = append(left, m.Code+" "+short(m.File))
	}
	return strings.TrimSpace(strings.Join(files, " ") + " | " + strings.Join(left, ", "))
}

func (c *Change) notes() string {
	var notes []string
	for _, n := range c.Notes {
		notes = append(notes, [...]string{"older-edition", "other-copy", "older-update", "listed-base", "damaged-copy"}[n.Kind]+" "+strings.TrimPrefix(n.File, "XX5INVNT."))
	}
	return strings.Join(notes, ", ")
}

// Updates without a base are kept in folders called after their editions, once.
func TestKeep(t *testing.T) {
	given := func(specs ...string) *Given {
		g := &Given{Cell: "XX5INVNT"}
		for _, s := range specs {
			g.Files = append(g.Files, cellFile(t, s).CellFile)
		}
		return g
	}
	h, more := Holding{}.Keep(given("2.1u b", "3.1u c", "0.4u q", "2.0 a"))
	if h.String() != "2/001=b 3/001=c cancelled/004=q |" || !more {
		t.Errorf("%s, more %v", h, more)
	}
	if again, more := h.Keep(given("2.1u b")); more || again.String() != h.String() {
		t.Errorf("the same again: %s, more %v", again, more)
	}
	g := given()
	g.LeftOut = []Message{message("E-CELL 002")}
	again, more := h.Keep(g)
	if !more || len(again.LeftOut) != 1 || len(h.LeftOut) != 0 {
		t.Errorf("a message: %s, more %v; before %s", again, more, h)
	}
	if twice, more := again.Keep(g); more || len(twice.LeftOut) != 1 {
		t.Errorf("the same message again: %s, more %v", twice, more)
	}
	if parts := h.Parts(); len(parts) != 1 || parts[0].Name != "cancelled/XX5INVNT.004" {
		t.Errorf("parts of the chart: %v", parts)
	}
}

// How files are taken in, by what is stored of their cell.
func TestWayOf(t *testing.T) {
	base, update := []string{"2.0 a"}, []string{"2.1u b"}
	for _, c := range []struct {
		name     string
		open     bool
		stored   []string
		given    []string
		complete bool
		want     Way
	}{
		{"an update of an open cell", true, []string{"XX5INVNT.000"}, update, false, JoinThem},
		{"a base of none", false, nil, base, false, JoinThem},
		{"an update of none", false, nil, update, false, KeepThem},
		{"an update beside others that wait", false, []string{"2/XX5INVNT.002"}, update, false, KeepThem},
		{"a base beside updates that wait", false, []string{"2/XX5INVNT.001"}, base, false, SortAll},
		{"an update of a cell that was refused", false, []string{"XX5INVNT.000"}, update, false, SortAll},
		{"a base of a cell that was refused", false, []string{"XX5INVNT.000"}, base, false, SortAll},
		{"all of a cell that was refused", false, []string{"XX5INVNT.000"}, base, true, JoinThem},
		{"all of one without a base", false, []string{"XX5INVNT.000"}, update, true, KeepThem},
	} {
		h, g := Holding{}, &Given{Cell: "XX5INVNT", Complete: c.complete}
		for _, f := range c.stored {
			h.Files = append(h.Files, stored(f))
		}
		for _, f := range c.given {
			g.Files = append(g.Files, cellFile(t, f).CellFile)
		}
		if got := WayOf(c.open, h, g); got != c.want {
			t.Errorf("%s: %d, want %d", c.name, got, c.want)
		}
	}
}

// A base that was refused leaves the others to be tried, and the knowledge that there
// is a later one.
func TestWithoutBase(t *testing.T) {
	for _, c := range []struct {
		given []string
		want  string
	}{
		{[]string{"3.0"}, "W-UPDATE"},
		{[]string{"2.4", "2.2u"}, "2.2 W-UPDATE"},
		{[]string{"2.0", "2.2u"}, "2.2"},
		{[]string{"2.1"}, "nothing"},
	} {
		g := &Given{Cell: "XX5INVNT"}
		for _, s := range c.given {
			g.Files = append(g.Files, cellFile(t, s).CellFile)
		}
		got := "nothing"
		if rest := WithoutBase(g, g.Base(), State{2, 1}); rest != nil {
			var words []string
			for _, f := range rest.Files {
				words = append(words, fmt.Sprintf("%s.%d", f.Edition, f.Update))
			}
			for _, m := range rest.LeftOut {
				words = append(words, m.Code)
			}
			got = strings.Join(words, " ")
		}
		if got != c.want {
			t.Errorf("%q: %q, want %q", c.given, got, c.want)
		}
	}
}

// Files and messages go with their cell; smaller scales come first, to lie below.
func TestByCell(t *testing.T) {
	file := func(cell string, role Role, scale int) CellFile {
		return CellFile{Name: cell + ".000", Cell: cell, Role: role, Scale: scale}
	}
	about := func(level chart.Level, file string) Message {
		return Message{Message: chart.Message{Level: level, Code: "E-CELL", File: file}}
	}
	cells, rest := ByCell([]CellFile{file("LARGE", Base, 10_000), file("SMALL", Base, 90_000), file("SMALL", Update, 0), file("WAITS", Update, 0)},
		[]Message{about(chart.FileError, "SMALL.001"), about(chart.FileError, "KNOWN.000"), about(chart.FileError, "NEW.000"), about(chart.FileError, "NEW.001"), about(chart.Warning, "set.zip")},
		func(cell string) bool { return cell == "KNOWN" })
	var got []string
	for _, g := range cells {
		got = append(got, fmt.Sprintf("%s %d+%d", g.Cell, len(g.Files), len(g.LeftOut)))
	}
	if want := []string{"SMALL 2+1", "LARGE 1+0", "WAITS 1+0", "KNOWN 0+1", "NEW 0+1"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if len(rest) != 2 || rest[0].File != "NEW.000" || rest[1].File != "set.zip" {
		t.Errorf("of no cell: %v", rest)
	}
}

// A removed cell's updates and cancellation join it when it comes again.
func TestUnclaimed(t *testing.T) {
	var u Unclaimed
	for _, s := range []string{"2.1u b", "2.1u b", "2.0 a"} {
		u.Add(cellFile(t, s).CellFile)
	}
	u.AddCancellations("XX5INVNT", []File{stored("XX5INVNT.000 a"), stored("cancelled/XX5INVNT.003 q")})
	u.AddCancellations("OTHER", []File{stored("cancelled/OTHER.001 q")})
	if !u.HasUpdates("XX5INVNT") || u.HasUpdates("OTHER") {
		t.Error("a cancellation is no update to be tried, an update is")
	}
	g := &Given{Cell: "XX5INVNT", Files: []CellFile{cellFile(t, "2.1u new").CellFile}}
	u.Claim(g)
	if len(g.Files) != 2 || g.Files[1].Role != Cancellation || g.Files[1].Update != 3 {
		t.Errorf("claimed: %v", g.Files)
	}
	u.Claim(g)
	if len(g.Files) != 2 || u.HasUpdates("XX5INVNT") {
		t.Errorf("claimed twice: %v", g.Files)
	}
}
