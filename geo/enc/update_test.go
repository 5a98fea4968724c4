package enc

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
)

// named says what the islet of the square cell is called after an update.
func rename(version int, name string) func(w *writer) {
	return func(w *writer) {
		w.data(featureID(4, 1, 71, version, 3), objectID(4), fieldOf("ATTF", attribute(116, name)))
	}
}

// Updates come in strict sequence, each whole or not at all; what does not fit
// leaves the state before and says so.
func TestUpdates(t *testing.T) {
	h := baseHeading()
	control := func(tag string, instruction, index, count int) part {
		return fieldOf(tag, le("1 2 2", instruction, index, count))
	}
	otherEdition := updateHeading(2)
	otherEdition.edition = "3"
	written := updateHeading(1)
	written.edition = "02"
	spatial := func(control part, pointers ...[]byte) func(w *writer) {
		return func(w *writer) {
			parts := []part{featureID(1, 3, 42, 2, 3), objectID(1), control}
			if len(pointers) > 0 {
				parts = append(parts, fieldOf("FSPT", pointers...))
			}
			w.data(parts...)
		}
	}
	one := updateFile(1, rename(2, "First"))
	two := updateFile(2, rename(3, "Second"))
	tests := []struct {
		name    string
		files   []layer.File
		islet   string // its name at the end
		update  string // of the cell at the end
		message string // part of the first message
	}{
		{"none", nil, "Testholm", "0", ""},
		{"one", []layer.File{one}, "First", "1", ""},
		{"two, given in disorder", []layer.File{two, one}, "Second", "2", ""},
		{"a gap", []layer.File{two}, "Testholm", "0", "W-UPDATE XX5INVNT.002 record 1 DSID UPDN: E-CELL, update 2; update 1 first"},
		{"a gap after one", []layer.File{one, updateFile(3, rename(3, "Third"))}, "First", "1", "update 3; update 2 first"},
		{"the same twice", []layer.File{one, one}, "First", "1", ""},
		{"an edition written otherwise", []layer.File{updateAs(written, rename(2, "First"))}, "First", "1", ""},
		{"another edition", []layer.File{one, updateAs(otherEdition, rename(3, "X"))}, "First", "1", "an update of edition 3"},
		{"left over from an edition before", []layer.File{updateAs(otherEdition, rename(2, "X")), one, two}, "Second", "2", "XX5INVNT.002 record 1 DSID EDTN: an update of edition 3"},
		{"a wrong version", []layer.File{one, updateFile(2, rename(7, "X")), updateFile(3, rename(8, "X"))}, "First", "1", "version 7 of feature 4 after 2; 3"},
		{"insert what is there", []layer.File{updateFile(1, func(w *writer) {
			rename(2, "X")(w)
			w.data(vectorID(110, 2, 1, 1), fieldOf("SG2D", h.place(1, 1)))
		})}, "Testholm", "0", "isolated node 2 a second time"},
		{"delete what is not there", []layer.File{updateFile(1, func(w *writer) { w.data(featureID(77, 1, 71, 1, 2), objectID(77)) })}, "Testholm", "0", "feature 77, which the cell does not have"},
		{"another class", []layer.File{updateFile(1, func(w *writer) { w.data(featureID(4, 1, 42, 2, 3), objectID(4)) })}, "Testholm", "0", "another class"},
		{"another identifier", []layer.File{updateFile(1, func(w *writer) { w.data(featureID(4, 1, 71, 2, 3), objectID(5)) })}, "Testholm", "0", "another identifier"},
		{"doubled control", []layer.File{updateFile(1, func(w *writer) {
			w.data(featureID(1, 3, 42, 2, 3), objectID(1), control("FSPC", 2, 1, 1), control("FSPC", 2, 1, 1))
		})}, "Testholm", "0", "FSPC: E-CELL, the field twice"},
		{"doubled vector control", []layer.File{updateFile(1, func(w *writer) {
			w.data(vectorID(130, 1, 2, 3), control("SGCC", 2, 1, 1), control("SGCC", 2, 1, 1))
		})}, "Testholm", "0", "SGCC: E-CELL, the field twice"},
		{"index 65535", []layer.File{updateFile(1, spatial(control("FSPC", 2, 65535, 1)))}, "Testholm", "0", "items 65535 to 65535 of 4"},
		{"index 0", []layer.File{updateFile(1, spatial(control("FSPC", 1, 0, 1), pointer(130, 1, 1, 1, 255)))}, "Testholm", "0", "items 0 to 0 of 4"},
		{"a count that is not so", []layer.File{updateFile(1, spatial(control("FSPC", 1, 1, 2), pointer(130, 1, 1, 1, 255)))}, "Testholm", "0", "1 items for a count of 2"},
		{"pointers without a control", []layer.File{updateFile(1, func(w *writer) {
			w.data(featureID(1, 3, 42, 2, 3), objectID(1), fieldOf("FSPT", pointer(130, 1, 1, 1, 255)))
		})}, "Testholm", "0", "items without FSPC"},
		{"parameters", []layer.File{updateFile(1, func(w *writer) {
			w.data(fieldOf("DSPM", le("1 4 1 1 1 4 1 1 1 1 4 4", 20, 1, 2, 16, 12, 10_000, 1, 1, 1, 1, 1, 1), []byte{0x1f}))
		})}, "Testholm", "0", "DSPM: E-CELL, parameters"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			cell, messages := decodeAll(t, append([]layer.File{squareCell(h, nil)}, test.files...)...)
			if cell.Set == nil {
				t.Fatal(messages)
			}
			if name := find(cell, chart.LNDARE)[0].Name; name != test.islet || cell.Update != test.update {
				t.Errorf("islet %q at update %s, want %q at %s", name, cell.Update, test.islet, test.update)
			}
			first := ""
			if len(messages) > 0 {
				first = messages[0].String()
			}
			if (first == "") != (test.message == "") || !strings.Contains(first, test.message) {
				t.Errorf("said %q, want %q", first, test.message)
			}
			if len(cell.Set.Messages) != len(messages) {
				t.Errorf("the set has %d messages of %d", len(cell.Set.Messages), len(messages))
			}
		})
	}
}

// What an update may do, each with its outcome as S-57 Part 3, 8.4 has it.
func TestChanges(t *testing.T) {
	h := baseHeading()
	deleted := string(rune(0x7F))
	update := updateFile(1, func(w *writer) {
		// Attributes: DRVAL1 replaced, DRVAL2 deleted, QUASOU added; the others stay.
		w.data(featureID(1, 3, 42, 2, 3), objectID(1), fieldOf("ATTF", attribute(87, "1.5"), attribute(88, deleted), attribute(125, "9")))
		// A node moves; a sounding is inserted before the second, then the first goes.
		w.data(vectorID(110, 2, 2, 3), fieldOf("SGCC", le("1 2 2", 3, 1, 1)), fieldOf("SG2D", h.place(10.0025, 50.0025)))
		w.data(vectorID(110, 1, 2, 3), fieldOf("SGCC", le("1 2 2", 1, 2, 1)), fieldOf("SG3D", h.depth(10.005, 50.005, 7)))
		w.data(vectorID(110, 1, 3, 3), fieldOf("SGCC", le("1 2 2", 2, 1, 1)))
		// An edge gets another end, which takes the square's corner in.
		w.data(vectorID(120, 9, 1, 1), fieldOf("SG2D", h.place(10.008, 50.008)))
		w.data(vectorID(130, 2, 2, 3), fieldOf("VRPC", le("1 2 2", 3, 2, 1)), fieldOf("VRPT", le("1 4 1 1 1 1", 120, 9, 255, 255, 2, 255)))
		w.data(vectorID(130, 3, 2, 3), fieldOf("VRPC", le("1 2 2", 3, 1, 1)), fieldOf("VRPT", le("1 4 1 1 1 1", 120, 9, 255, 255, 1, 255)))
		w.data(featureID(4, 1, 71, 2, 2), objectID(4))
		w.data(featureID(9, 1, 71, 1, 1), objectID(9), fieldOf("FSPT", pointer(110, 2, 255, 255, 255)))
	})
	cell, messages := decodeAll(t, squareCell(h, nil), update)
	if len(messages) > 0 {
		t.Fatal(messages)
	}
	area := find(cell, chart.DEPARE)[0]
	if area.DepthMinM != 1.5 || chart.Known(area.DepthMaxM) || !area.Doubtful {
		t.Errorf("depth area %+v", area)
	}
	if area.Coords[4] != (chart.Coord{Lon: 100080000, Lat: 500080000}) || len(area.Coords) != 9 {
		t.Errorf("ring %v", area.Coords)
	}
	var depths []float64
	for _, f := range find(cell, chart.SOUNDG) {
		depths = append(depths, f.DepthMinM)
	}
	if fmt.Sprint(depths) != "[7 -0.5]" {
		t.Errorf("soundings %v, want 7 and -0.5", depths)
	}
	if islets := find(cell, chart.LNDARE); len(islets) != 1 || islets[0].Name != "" || islets[0].Coords[0] != (chart.Coord{Lon: 100025000, Lat: 500025000}) {
		t.Errorf("islets %+v", islets)
	}
	m := readModel(t, []layer.File{squareCell(h, nil), update})
	if _, s := valueOf(m.features.get(1).attributes, 88); s != absent {
		t.Errorf("DRVAL2 is %v after it was deleted", s)
	}
}

// Edition 0 cancels the cell, whatever came of the updates before it (ENC Product
// Specification, 5.7): it is read, and is no chart in force.
func TestCancellation(t *testing.T) {
	cancel := updateHeading(2)
	cancel.edition = "0"
	for _, c := range []struct {
		name, update string
		files        []layer.File
	}{
		{"in sequence", "1", []layer.File{squareCell(baseHeading(), nil), updateFile(1, rename(2, "First")), updateAs(cancel, func(*writer) {})}},
		{"after a gap", "0", []layer.File{squareCell(baseHeading(), nil), updateAs(cancel, func(*writer) {})}},
	} {
		cell, messages := decodeAll(t, c.files...)
		if cell.Set == nil || cell.Edition != "2" || cell.Update != c.update || cell.Cancelled != "XX5INVNT.002" ||
			len(messages) != 1 || messages[0].Code != "W-CANCEL" || messages[0].Level != chart.Warning {
			t.Fatalf("%s: %+v, %v", c.name, cell, messages)
		}
		if s := cell.Set; s.Cancelled != "XX5INVNT.002" || s.Authority != chart.Private || len(s.Messages) != 1 {
			t.Errorf("%s: the set is %s, cancelled with %q, %v", c.name, s.Authority, s.Cancelled, s.Messages)
		}
	}
}

// A base that was issued after the cancellation is in force; one that has updates in
// it wants none of them.
func TestReissue(t *testing.T) {
	cancel := updateHeading(1)
	cancel.edition = "0"
	for _, c := range []struct {
		issued    string
		cancelled string
	}{{"20250101", "XX5INVNT.001"}, {"20250102", "XX5INVNT.001"}, {"20250103", ""}, {"unknown!", "XX5INVNT.001"}} {
		base := squareCell(baseHeading(), nil)
		base.Data = bytes.Replace(base.Data, []byte("20250102"), []byte(c.issued), 1)
		cell, _ := decodeAll(t, base, updateAs(cancel, func(*writer) {}))
		if cell.Set == nil || cell.Cancelled != c.cancelled {
			t.Errorf("issued %s, cancelled 20250102: cancelled is %q, want %q", c.issued, cell.Cancelled, c.cancelled)
		}
	}
	again := baseHeading()
	again.update = "2"
	cell, messages := decodeAll(t, squareCell(again, nil), updateFile(1, rename(2, "First")), updateFile(2, rename(3, "Second")), updateFile(3, rename(2, "Third")))
	if cell.Set == nil || cell.Update != "3" || len(messages) != 0 {
		t.Errorf("%+v, %v", cell, messages)
	}
}

func TestUpdateAlone(t *testing.T) {
	cell, messages := decodeAll(t, updateFile(1, rename(2, "X")))
	if cell.Set != nil || len(messages) != 1 || !strings.Contains(messages[0].String(), "an update without its base") {
		t.Error(messages)
	}
}

// An older edition beside a newer one is refused, the newer read.
func TestSecondBase(t *testing.T) {
	old := baseHeading()
	old.edition = "1"
	cell, messages := decodeAll(t, squareCell(old, nil), squareCell(baseHeading(), nil))
	if cell.Set == nil || cell.Edition != "2" || len(messages) != 1 || !strings.Contains(messages[0].String(), "a second base") {
		t.Errorf("%+v, %v", cell, messages)
	}
}

// Between is called often, and its error ends the decoding.
func TestBetween(t *testing.T) {
	files := cellFiles(t, "US5MA12M", 0)
	calls := 0
	d := Decoder{Between: func() error { calls++; return nil }}
	if _, err := d.Decode(files); err != nil || calls < 50 {
		t.Errorf("%d calls, %v", calls, err)
	}
	stop := errors.New("stop")
	for _, n := range []int{1, calls / 2, calls} {
		left := n
		d.Between = func() error {
			if left--; left <= 0 {
				return stop
			}
			return nil
		}
		if r, err := d.Decode(files); !errors.Is(err, stop) || len(r.Cells) != 0 {
			t.Errorf("call %d: %v, %d cells", n, err, len(r.Cells))
		}
	}
}
