package enc

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
)

// What is no plain, geographic, metric ENC is refused with words that say so,
// the file and the record.
func TestRefusals(t *testing.T) {
	with := func(change func(h *heading)) layer.File {
		h := baseHeading()
		change(&h)
		f := squareCell(h, nil)
		f.Name = "XX5INVNT.000"
		return f
	}
	raw := func(data string) layer.File { return layer.File{Name: "XX5INVNT.000", Data: []byte(data)} }
	described := func(change func(tag, labels, formats string) (string, string)) layer.File {
		w := &writer{}
		w.describe(change)
		w.identify(baseHeading())
		w.square(baseHeading())
		return raw(w.buf.String())
	}
	record := func(parts ...part) layer.File {
		return squareCell(baseHeading(), func(w *writer) { w.data(parts...) })
	}
	whole := string(squareCell(baseHeading(), nil).Data)
	tests := []struct {
		name string
		file layer.File
		want string
	}{
		{"encrypted", raw(strings.Repeat("\xA7\x13\x88", 999)), "E-LOCKED XX5INVNT.000 : a file that is no ISO/IEC 8211 container: an encrypted cell (S-63), or a damaged one; a plain S-57 cell"},
		{"projected", with(func(h *heading) { h.coordUnit = 2 }), "E-CRS XX5INVNT.000 record 2 DSPM COUN: 2, positions on a projection; 1, longitude and latitude"},
		{"feet", with(func(h *heading) { h.depthUnit = 3 }), "E-UNIT XX5INVNT.000 record 2 DSPM DUNI: 3; depths in metres"},
		{"another product", with(func(h *heading) { h.product = 2 }), "E-PRODUCT XX5INVNT.000 record 1 DSID PRSP: 2, another product"},
		{"a dictionary", with(func(h *heading) { h.profile = 3 }), "E-PRODUCT XX5INVNT.000 record 1 DSID PROF: 3, such as a data dictionary"},
		{"COMF 0", with(func(h *heading) { h.factor = 0 }), "E-CELL XX5INVNT.000 record 2 DSPM: COMF 0"},
		{"S-101", described(func(tag, labels, formats string) (string, string) {
			if tag == "DSID" {
				return "RCNM!RCID!ENSP!ENED!PRSP!PRED!PROF!DSNM!DSTL!DSRD!DSLG!DSAB!DSED", "(b11,b14,7A,A(8),3A)"
			}
			return labels, formats
		}), "E-PRODUCT XX5INVNT.000 record 0 DSID: a data set of the S-100 family, such as an S-101 chart"},
		{"labels that lie", described(func(tag, labels, formats string) (string, string) {
			return strings.Replace(labels, "YCOO!XCOO", "XCOO!YCOO", 1), formats
		}), `E-CELL XX5INVNT.000 record 0 SG2D: the labels "XCOO!YCOO"; YCOO!XCOO`},
		{"formats that lie", described(func(tag, labels, formats string) (string, string) {
			return labels, strings.Replace(formats, "2b24", "2b22", 1)
		}), "E-CELL XX5INVNT.000 record 0 SG2D: the formats"},
		{"stray asterisks", described(func(tag, labels, formats string) (string, string) {
			if tag == "DSPM" {
				return "*" + labels, formats
			}
			return labels, formats
		}), ""},
		{"an undescribed field", record(fieldOf("VRID", le("1 4 2 1", 130, 9, 1, 1)), fieldOf("ARCC", le("1 1", 1, 1))), "record 17 ARCC: a field that the descriptive record does not describe"},
		{"a projection record", record(fieldOf("DSPR", le("1", 1))), "E-CRS XX5INVNT.000 record 17 DSPR: a map projection"},
		{"a face", record(vectorID(140, 9, 1, 1)), "record 17 VRID RCNM: 140"},
		{"a deletion in a base", record(featureID(1, 3, 42, 2, 2), objectID(1)), "record 17 FRID RUIN: 2; 1, insert, in a base file"},
		{"a feature twice", record(featureID(1, 3, 42, 1, 1), objectID(1)), "record 17 FRID: feature 1 a second time"},
		{"a feature without a name", record(featureID(9, 3, 42, 1, 1)), "record 17 FOID: nothing"},
		{"a control in a base", record(featureID(9, 3, 42, 1, 1), objectID(9), fieldOf("FSPC", le("1 2 2", 1, 1, 1))), "record 17 FSPC: an update control"},
		{"half a position", record(vectorID(110, 9, 1, 1), fieldOf("SG2D", le("4", 1))), "record 17 SG2D: 4 bytes; items of 8 bytes"},
		{"attributes cut short", record(featureID(9, 3, 42, 1, 1), objectID(9), fieldOf("ATTF", []byte{1})), "record 17 ATTF: attributes that do not fit"},
		{"truncated", raw(whole[:len(whole)-9]), "record 16: a record of"},
		{"a leader-reusing record", raw(whole + "00030 R     00026   2204\x1e00000"), "record 17: a record without a leader of its own (R)"},
		{"bytes after the end", raw(whole + "      "), "record 17: 6 bytes at the end of the file"},
		{"a wrong terminator", raw(strings.Replace(whole, "Testholm\x1f\x1e", "Testholm\x1f\x1f", 1)), "record 16 ATTF: no field terminator"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			cell, messages := decodeAll(t, test.file)
			said := ""
			if len(messages) > 0 {
				said = messages[0].String()
			}
			if !strings.Contains(said, test.want) || (said == "") != (test.want == "") || (cell.Set != nil) != (test.want == "") {
				t.Errorf("said %q, want %q; a set: %v", said, test.want, cell.Set != nil)
			}
			if test.want != "" && (len(messages) != 1 || messages[0].Level != chart.FileError || messages[0].File != "XX5INVNT.000") {
				t.Errorf("messages %+v", messages)
			}
		})
	}
}

// A position that is not on the globe refuses the cell: its COMF may be wrong.
func TestOffTheGlobe(t *testing.T) {
	h := baseHeading()
	file := squareCell(h, func(w *writer) {
		w.data(vectorID(110, 9, 1, 1), fieldOf("SG2D", h.place(10, 90.5)))
		w.data(featureID(9, 1, 71, 1, 1), objectID(9), fieldOf("FSPT", pointer(110, 9, 255, 255, 255)))
	})
	cell, messages := decodeAll(t, file)
	if cell.Set != nil || len(messages) != 1 || !strings.HasPrefix(messages[0].String(), "E-COORD XX5INVNT.000 feature 9 LNDARE: XCOO 100000000, YCOO 905000000") {
		t.Error(messages)
	}
}

// Positions on another horizontal datum are loaded with a warning and the mark
// that no leg passes.
func TestOtherDatum(t *testing.T) {
	h := baseHeading()
	h.horizontal = 1
	cell, messages := decodeAll(t, squareCell(h, nil))
	if cell.Set == nil || !cell.Set.OffDatum || len(messages) != 1 || messages[0].Code != "W-DATUM" {
		t.Error(messages)
	}
}

// Many features that point to one long edge do not fill the memory.
func TestManyUsesOfOneEdge(t *testing.T) {
	h := baseHeading()
	file := squareCell(h, func(w *writer) {
		w.entryMap = "7704"
		var wave [][]byte
		for i := range 10_000 {
			wave = append(wave, h.place(10+float64(i)*1e-6, 50))
		}
		w.data(vectorID(130, 9, 1, 1), edgeEnds(1, 2), fieldOf("SG2D", wave...))
		for i := range 500 {
			w.data(featureID(100+i, 2, 43, 1, 1), objectID(100+i), fieldOf("ATTF", attribute(174, "5")), fieldOf("FSPT", pointer(130, 9, 1, 255, 255)))
		}
	})
	cell, messages := decodeAll(t, file)
	if cell.Set != nil || len(messages) != 1 || messages[0].Code != "E-SIZE" {
		t.Error(messages)
	}
}

func TestKinds(t *testing.T) {
	square := squareCell(baseHeading(), nil)
	tests := []struct {
		file layer.File
		want Kind
	}{
		{square, CellFile},
		{layer.File{Name: "anything", Data: square.Data}, CellFile},
		{layer.File{Name: "a/XX5INVNT.001", Data: []byte("\x00\x01garbage")}, Locked},
		{layer.File{Name: "XX5INVNT.000", Data: []byte(` {"type":"FeatureCollection"}`)}, Other},
		{layer.File{Name: "DEPARE.geojson", Data: []byte(`{}`)}, Other},
		{layer.File{Name: "README.TXT", Data: []byte("00000Lxx")}, Other},
		{catalogueFile("CATALOG.031"), Catalogue},
		{zipOf(t, square), Archive},
		{layer.File{}, Other},
	}
	for _, test := range tests {
		if got := KindOf(test.file); got != test.want || Is(test.file) != (test.want != Other) {
			t.Errorf("%s is %d, want %d", test.file.Name, got, test.want)
		}
	}
}

// Nothing to decode is said, not passed over.
func TestNothing(t *testing.T) {
	for _, files := range [][]layer.File{nil, {{Name: "x.geojson", Data: []byte("{}")}}} {
		sets, messages := Decode(files)
		if len(sets) != 0 || len(messages) != 1 || messages[0].Level != chart.FileError {
			t.Errorf("%v", messages)
		}
	}
}

// Latin-1 and UCS-2 as ISO/IEC 8859-1 and 10646 have them.
func TestTexts(t *testing.T) {
	for in, want := range map[string]string{"": "", "plain": "plain", "017\xb0": "017°", "\xc5\xff\x80": "Åÿ\u0080"} {
		if got := latin(in); got != want {
			t.Errorf("%q is %q, want %q", in, got, want)
		}
	}
	for in, want := range map[string]string{"": "", "A\x00": "A", "\xff\xfeA\x00": "A", "\x1f\x01": "ğ", "\x00\xd8": "\uFFFD", "A": ""} {
		if got := wide([]byte(in)); got != want {
			t.Errorf("%q is %q, want %q", in, got, want)
		}
	}
	if !bytes.Equal(ucs2(1, "ğ"), []byte{1, 0, 0x1f, 1, 0x1f, 0}) {
		t.Error(fmt.Sprint(ucs2(1, "ğ")))
	}
}
