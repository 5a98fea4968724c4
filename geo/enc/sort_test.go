package enc

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"keelroom/geo/layer"
	"keelroom/geo/library"
)

// fileLine is what a file says of itself.
func fileLine(s library.CellFile) string {
	text := fmt.Sprintf("%s %s %s.%d", s.Cell, s.Name, s.Edition, s.Update)
	if s.Role != library.Update {
		text += " " + string(s.Role)
	}
	if s.Scale > 0 {
		text += fmt.Sprintf(" 1:%d", s.Scale)
	}
	return text
}

// flippedCopy is a file with one bit of its last record otherwise.
func flippedCopy(f layer.File) layer.File {
	f.Data = bytes.Clone(f.Data)
	f.Data[len(f.Data)-5] ^= 1
	return f
}

// Two exchange sets in one drop: each catalogue speaks of its own files, whichever
// comes first.
func TestTwoCatalogues(t *testing.T) {
	old := baseHeading()
	old.edition = "1"
	week := func(h heading, damage bool) []layer.File {
		f := squareCell(h, nil)
		c := catalogueFile("ENC_ROOT/CATALOG.031", entry{`XX\XX5INVNT.000`, crcOf(f)})
		if damage {
			f = flippedCopy(f)
		}
		f.Name = "ENC_ROOT/XX/XX5INVNT.000"
		return []layer.File{c, f}
	}
	within := func(folder string, files []layer.File) (moved []layer.File) {
		for _, f := range files {
			moved = append(moved, layer.File{Name: folder + f.Name, Data: f.Data})
		}
		return moved
	}
	for _, c := range []struct {
		name          string
		first, second []layer.File
		edition, code string
	}{
		{"newer first", week(baseHeading(), false), week(old, false), "2", "E-CELL"},
		{"older first", week(old, false), week(baseHeading(), false), "2", "E-CELL"},
		{"the newer is damaged", week(old, false), week(baseHeading(), true), "1", "E-CRC"},
		{"the older is damaged", week(baseHeading(), false), week(old, true), "2", "E-CRC"},
	} {
		for how, files := range map[string][]layer.File{
			"zips":    {zipOf(t, c.first...), zipOf(t, c.second...)},
			"folders": append(within("week1/", c.first), within("week2/", c.second)...),
		} {
			cell, messages := decodeAll(t, files...)
			if cell.Set == nil || cell.Edition != c.edition || len(messages) != 1 || messages[0].Code != c.code {
				t.Errorf("%s, %s: edition %s, %v", c.name, how, cell.Edition, messages)
			}
		}
	}
}

// Of two files that may be the one that is listed, the one with other bytes is never
// used, in whatever order they come.
func TestListedAndStale(t *testing.T) {
	old := baseHeading()
	old.edition = "1"
	listed, stale := squareCell(baseHeading(), nil), squareCell(old, nil)
	catalogue := catalogueFile("ENC_ROOT/CATALOG.031", entry{`XX\XX5INVNT.000`, crcOf(listed)})
	deep, flat := flippedCopy(listed), stale
	deep.Name, flat.Name = "ENC_ROOT/XX/XX5INVNT.000", "ENC_ROOT/XX5INVNT.000"
	loose := catalogueFile("CATALOG.031", entry{`XX\XX5INVNT.000`, crcOf(listed)})
	copied := flippedCopy(listed)
	copied.Name = "XX5INVNT (1).000"
	for _, files := range [][]layer.File{{catalogue, deep, flat}, {flat, deep, catalogue}, {stale, copied, loose}, {copied, loose, stale}} {
		if cell, messages := decodeAll(t, files...); cell.Set != nil || len(messages) != 2 || messages[0].Code != "E-CRC" || messages[1].Code != "E-CRC" {
			t.Errorf("%s: edition %s, %v", files[0].Name, cell.Edition, messages)
		}
	}
}

// Files are told apart by what they say of themselves, whatever they are called and
// wherever they lie.
func TestSort(t *testing.T) {
	base, one, two := squareCell(baseHeading(), nil), updateFile(1, rename(2, "First")), updateFile(2, rename(3, "Second"))
	old := baseHeading()
	old.edition = "1"
	cancel := updateHeading(3)
	cancel.edition = "0"
	called := func(name string, f layer.File) layer.File { return layer.File{Name: name, Data: f.Data} }
	text := func(name string) layer.File { return layer.File{Name: name, Data: []byte("Invented terms")} }
	const itself = "XX5INVNT XX5INVNT.000 2.0 base 1:10000"
	for _, c := range []struct {
		name  string
		files []layer.File
		want  []string
		said  []string
	}{
		{"a copy", []layer.File{called("XX5INVNT (1).000", base)}, []string{itself}, nil},
		{"in disorder", []layer.File{two, one, base}, []string{itself, "XX5INVNT XX5INVNT.001 2.1", "XX5INVNT XX5INVNT.002 2.2"}, nil},
		{"updates alone, zipped", []layer.File{zipOf(t, two, one)}, []string{"XX5INVNT XX5INVNT.001 2.1", "XX5INVNT XX5INVNT.002 2.2"}, nil},
		{"there twice", []layer.File{one, called("again/XX5INVNT.001", one), base}, []string{itself, "XX5INVNT XX5INVNT.001 2.1"}, nil},
		{"an update twice, one of them damaged", []layer.File{called("a/XX5INVNT.001", one), called("b/XX5INVNT.001", flippedCopy(one)), base}, []string{itself, "XX5INVNT XX5INVNT.001 2.1"},
			[]string{"E-COPY XX5INVNT.001"}},
		{"a text that is called as an update is", []layer.File{base, {Name: "XX5INVNT.001", Data: []byte(`{"error":"not found"}`)}}, []string{itself}, []string{"E-CELL XX5INVNT.001"}},
		{"a base twice, one of them proved", []layer.File{called("a/XX5INVNT.000", flippedCopy(base)), called("b/XX5INVNT.000", base), catalogueFile("b/CATALOG.031", entry{"XX5INVNT.000", crcOf(base)})},
			[]string{itself}, []string{"W-COPY XX5INVNT.000"}},
		{"odd names and an archive in an archive", []layer.File{zipOf(t, base, called("XX5INVNT (1).001", one), called("more.zip", layer.File{Data: []byte("PK\x03\x04")}), called("split.002", layer.File{Data: []byte("no cell")}))},
			[]string{itself, "XX5INVNT XX5INVNT.001 2.1"}, []string{"W-ZIP set.zip"}},
		{"two bases", []layer.File{squareCell(old, nil), base}, []string{itself}, []string{"E-CELL XX5INVNT.000"}},
		{"a cancellation", []layer.File{updateAs(cancel, func(*writer) {})}, []string{"XX5INVNT cancelled/XX5INVNT.003 0.3 cancellation"}, nil},
		{"texts", []layer.File{zipOf(t, called("ENC_ROOT/XX5INVNT/XX5INVNT.000", base), text("ENC_ROOT/README.TXT"), text("ENC_ROOT/XX5INVNT/XX000001.TXT"), text("ENC_ROOT/OTHER/XX000002.TXT"),
			layer.File{Name: "ENC_ROOT/BINARY.TXT", Data: []byte("a\x00b")}, layer.File{Name: "ENC_ROOT/LONG.TXT", Data: bytes.Repeat([]byte("x"), MaxText+1)})},
			[]string{itself, "XX5INVNT README.TXT .0 text", "XX5INVNT XX000001.TXT .0 text"}, nil},
		{"damaged", []layer.File{called("XX5INVNT.000", layer.File{Data: base.Data[:300]}), one}, []string{"XX5INVNT XX5INVNT.001 2.1"}, []string{"E-CELL XX5INVNT.000"}},
		{"as the catalogue states, and not", []layer.File{base, one, catalogueFile("CATALOG.031", entry{"XX5INVNT.000", crcOf(base)}, entry{"XX5INVNT.001", "00000001"}, entry{"XX5INVNT.002", ""})},
			[]string{itself}, []string{"E-CRC XX5INVNT.001", "W-CATALOG XX5INVNT.002"}},
		{"none", []layer.File{{Name: "notes.dat", Data: []byte("x")}}, nil, []string{"E-CELL"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var d Decoder
			sorted, messages, err := d.Sort(c.files)
			if err != nil {
				t.Fatal(err)
			}
			var got, said []string
			for _, s := range sorted {
				got = append(got, fileLine(s))
			}
			for _, m := range messages {
				said = append(said, m.Code+" "+m.File)
			}
			want := strings.Join(c.want, ", ")
			if strings.Join(got, ", ") != want || len(said) != len(c.said) || !strings.HasPrefix(strings.Join(said, ", "), strings.Join(c.said, ", ")) {
				t.Errorf("%q, said %q\nwant %q, %q", got, said, c.want, c.said)
			}
		})
	}
	// Texts of a folder above many cells come with each, as far as there is room.
	var flat []layer.File
	for i := range 60 {
		h := baseHeading()
		h.name = fmt.Sprintf("XX5INV%02d.000", i)
		flat = append(flat, squareCell(h, nil), layer.File{Name: fmt.Sprintf("TEXT%d.TXT", i), Data: bytes.Repeat([]byte("x"), 20_000)})
	}
	var all Decoder
	many, messages, _ := all.Sort(flat)
	bytesOut := 0
	for _, s := range many {
		if s.Role == library.Text {
			bytesOut += s.Data.Size()
		}
	}
	if bytesOut > mostTexts || bytesOut < mostTexts*9/10 || len(messages) != 1 || messages[0].Code != "W-TEXT" {
		t.Errorf("%d bytes of texts, %v", bytesOut, messages)
	}
	// A text that is no UTF-8 is Latin-1.
	var d Decoder
	sorted, _, _ := d.Sort([]layer.File{base, {Name: "TERMS.TXT", Data: []byte("f\xfcr")}})
	if last := sorted[len(sorted)-1]; last.Role != library.Text || string(last.Data.Bytes()) != "f\u00fcr" {
		t.Errorf("%+v", last)
	}
}
