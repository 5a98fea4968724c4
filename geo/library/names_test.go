package library

import "testing"

// The names that an exchange set has (ENC Product Specification, 5.6.3), and what
// browsers and people make of them.
func TestNames(t *testing.T) {
	for _, c := range []struct {
		name   string
		cell   string // that it belongs to
		number int
		is     string // what it is named as
	}{
		{"XX5INVNT.000", "XX5INVNT", 0, "cell"},
		{"ENC_ROOT/XX/XX5INVNT.012", "XX5INVNT", 12, "cell"},
		{`ENC_ROOT\XX\XX5INVNT.001`, "XX5INVNT", 1, "cell"},
		{"xx5invnt.003", "XX5INVNT", 3, "cell"},
		{"XX5INVNT (1).002", "XX5INVNT", 2, "numbered"},
		{"XX5INV.000", "XX5INV", 0, "numbered"},
		{"notes.0001", "NOTES", 1, ""},
		{"ENC_ROOT/CATALOG.031", "", 31, "catalogue"},
		{"week 10.zip", "", 0, "archive"},
		{"WEEK.ZIP", "", 0, "archive"},
		{"XX5INVNT.TXT", "", 0, "text"},
		{"coast.geojson", "", 0, "layer"},
		{"coast.JSON", "", 0, "layer"},
		{"102XX.H5", "", 0, "other"},
		{"122.gml", "", 0, "other"},
		{"", "", 0, ""},
		{"XX5INVNT", "", 0, ""},
		{"XX5INV+T.000", "XX5INV+T", 0, "numbered"},
	} {
		got := ""
		for what, is := range map[string]bool{"cell": NamesCellFile(c.name), "catalogue": NamesCatalogue(c.name), "archive": NamesArchive(c.name), "text": NamesText(c.name),
			"layer": NamesLayer(c.name), "other": NamesOtherProduct(c.name), "numbered": NamesNumbered(c.name) && !NamesCell(c.name)} {
			if is {
				got += what
			}
		}
		if got != c.is || CellOf(c.name) != c.cell || NumberOf(c.name) != c.number {
			t.Errorf("%q: %q of cell %q, number %d; want %q of %q, %d", c.name, got, CellOf(c.name), NumberOf(c.name), c.is, c.cell, c.number)
		}
		if want := c.is == "cell" || c.is == "catalogue" || c.is == "archive"; NamesCell(c.name) != want {
			t.Errorf("%q: NamesCell is %v", c.name, !want)
		}
	}
}

// What is stored together is one cell, or must be looked into.
func TestOneCell(t *testing.T) {
	for _, c := range []struct {
		names []string
		cell  string
		mixed bool
		base  bool
	}{
		{nil, "", false, false},
		{[]string{"XX5INVNT.000", "XX5INVNT.001", "TERMS.TXT"}, "XX5INVNT", false, true},
		{[]string{"2/XX5INVNT.001", "cancelled/XX5INVNT.003"}, "XX5INVNT", false, false},
		{[]string{"XX5INVNT.000", "XX5OTHER.000"}, "XX5OTHER", true, true},
		{[]string{"set.zip"}, "", true, false},
		{[]string{"CATALOG.031", "XX5INVNT.000"}, "XX5INVNT", true, true},
		{[]string{"coast.geojson"}, "", false, false},
	} {
		var files []File
		for _, n := range c.names {
			files = append(files, File{Name: n})
		}
		if cell, mixed := OneCell(files); cell != c.cell || mixed != c.mixed || HasBase(files) != c.base {
			t.Errorf("%q: %q, mixed %v, base %v", c.names, cell, mixed, HasBase(files))
		}
	}
}

// A file that waits is told from one in use by its name alone, as that is all that is
// stored.
func TestWaitingNames(t *testing.T) {
	update := CellFile{Name: "XX5INVNT.001", Role: Update, Edition: " 31"}
	cancellation := CellFile{Name: "cancelled/XX5INVNT.001", Role: Cancellation, Edition: "0"}
	if n := waitingName(update); n != "31/XX5INVNT.001" || !Waits(n) || editionOf(n) != 31 || NumberOf(n) != 1 {
		t.Errorf("an update waits as %q", n)
	}
	if n := waitingName(cancellation); n != cancellation.Name || Waits(n) {
		t.Errorf("a cancellation waits as %q", n)
	}
	if Waits("XX5INVNT.001") || Waits("TERMS.TXT") {
		t.Error("what is in use waits")
	}
}
