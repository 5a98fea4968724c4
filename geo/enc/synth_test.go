package enc

import (
	"slices"
	"strings"
	"testing"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
)

// decodeAll decodes files and gives the only cell, with all messages.
func decodeAll(t *testing.T, files ...layer.File) (Cell, []chart.Message) {
	t.Helper()
	var d Decoder
	r, err := d.Decode(files)
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Cells) == 0 {
		return Cell{}, r.Messages
	}
	if len(r.Cells) > 1 {
		t.Fatalf("%d cells", len(r.Cells))
	}
	return r.Cells[0], r.Messages
}

// find gives the features of a class.
func find(c Cell, class chart.Class) (out []*chart.Feature) {
	if c.Set == nil {
		return nil
	}
	for i := range c.Set.Features {
		if f := &c.Set.Features[i]; f.Class == class {
			out = append(out, f)
		}
	}
	return out
}

// The square as it was written, whatever the factors, the entry maps and the
// lengths of records: expected values are those given to the writer.
func TestSquare(t *testing.T) {
	other := baseHeading()
	other.factor, other.depthFactor = 500_000, 100
	tests := map[string]layer.File{
		"usual factors":        squareCell(baseHeading(), nil),
		"COMF 500000 SOMF 100": squareCell(other, nil),
	}
	w := &writer{entryMap: "5504"}
	w.begin(baseHeading())
	w.longRecords, w.entryMap = true, "7804"
	w.square(baseHeading())
	tests["lengths not stated, entry maps that vary"] = layer.File{Name: "XX5INVNT.000", Data: w.buf.Bytes()}
	for name, file := range tests {
		t.Run(name, func(t *testing.T) {
			cell, messages := decodeAll(t, file)
			if len(messages) != 0 || cell.Set == nil {
				t.Fatal(messages)
			}
			checkSquare(t, cell)
		})
	}
}

func checkSquare(t *testing.T, cell Cell) {
	t.Helper()
	area := find(cell, chart.DEPARE)[0]
	var want []chart.Coord
	for _, c := range [][2]int32{{0, 0}, {50000, 0}, {100000, 0}, {100000, 50000}, {100000, 100000}, {50000, 100000}, {0, 100000}, {0, 50000}, {0, 0}} {
		want = append(want, chart.Coord{Lon: 100000000 + c[0], Lat: 500000000 + c[1]})
	}
	if !slices.Equal(area.Coords, want) || !slices.Equal(area.Ends, []int32{9}) || area.Polygons != nil {
		t.Errorf("ring %v %v %v", area.Coords, area.Ends, area.Polygons)
	}
	if !slices.Equal(area.Border, []int32{0, 2, 6, 8}) {
		t.Errorf("border %v, want the first and the last edge", area.Border)
	}
	if area.DepthMinM != 2.5 || chart.Known(area.DepthMaxM) {
		t.Errorf("depths %v to %v, want 2.5 to unknown", area.DepthMinM, area.DepthMaxM)
	}
	soundings := find(cell, chart.SOUNDG)
	if len(soundings) != 2 || soundings[0].DepthMinM != 3.4 || soundings[1].DepthMinM != -0.5 || soundings[1].Coords[0] != (chart.Coord{Lon: 100060000, Lat: 500060000}) {
		t.Errorf("soundings %+v", soundings)
	}
	if islets := find(cell, chart.LNDARE); len(islets) != 1 || islets[0].Name != "Testholm" || islets[0].Coords[0] != (chart.Coord{Lon: 100020000, Lat: 500020000}) {
		t.Errorf("islets %+v", islets)
	}
	if s := cell.Set; s.Scale != 10_000 || s.SoundingDatum != 12 || s.HeightDatum != 16 || s.IssueDate != "2025-01-02" || s.Edition != "2.0" || s.Authority != chart.Derived {
		t.Errorf("set %+v", *s)
	}
	if !cell.Boxed || cell.Min != corner(0) || cell.Max != corner(2) || cell.Use.String() != "harbour" || cell.Name != "XX5INVNT" {
		t.Errorf("cell %+v", cell)
	}
}

func corner(i int) chart.Coord { return chart.CoordOf(corners[i]) }

// A record over 99 999 bytes states no length (ISO/IEC 8211, 6.2.1).
func TestLongRecord(t *testing.T) {
	h := baseHeading()
	const n = 20_000
	w := &writer{entryMap: "7704"}
	w.begin(h)
	w.square(h)
	var wave [][]byte
	for i := range n {
		wave = append(wave, h.place(10+float64(i+1)*4e-7, 50+float64(i%2)*1e-6))
	}
	w.data(vectorID(130, 9, 1, 1), edgeEnds(1, 2), fieldOf("SG2D", wave...))
	w.data(featureID(9, 2, 43, 1, 1), objectID(9), fieldOf("ATTF", attribute(174, "5")), fieldOf("FSPT", pointer(130, 9, 2, 255, 255)))
	if !strings.Contains(w.buf.String(), "00000"+"3DE1") {
		t.Fatal("no record without a length was written")
	}
	cell, messages := decodeAll(t, layer.File{Name: h.name, Data: w.buf.Bytes()})
	lines := find(cell, chart.DEPCNT)
	if len(lines) != 1 || len(lines[0].Coords) != n+2 {
		t.Fatalf("%d contours, messages %v", len(lines), messages)
	}
	if c := lines[0].Coords; c[0] != corner(1) || c[n+1] != corner(0) || c[n] != (chart.Coord{Lon: 100000004, Lat: 500000000}) {
		t.Errorf("reversed line begins %v and ends %v, %v", c[0], c[n], c[n+1])
	}
}

// ucs2 writes text as level 2 has it, with its terminator of two bytes.
func ucs2(code int, s string) []byte {
	out := le("2", code)
	for _, r := range s {
		out = append(out, byte(r), byte(r>>8))
	}
	return append(out, 0x1F, 0)
}

// National text at level 2 (UCS-2, terminators of two bytes) and Latin-1.
func TestNationalText(t *testing.T) {
	h := baseHeading()
	h.national = 2
	// A letter whose low byte is a terminator must not end the text: U+011F, U+011E.
	const name = "Прóба ğĞ 島"
	file := squareCell(h, func(w *writer) {
		w.data(featureID(9, 1, 71, 1, 1), objectID(9), fieldOf("ATTF", attribute(102, "017\xb0 R\xf6ssett")),
			part{"NATF", append(append(ucs2(301, name), ucs2(300, "二")...), 0x1E, 0)},
			fieldOf("FSPT", pointer(120, 3, 255, 255, 255)))
	})
	cell, messages := decodeAll(t, file)
	islets := find(cell, chart.LNDARE)
	if len(islets) != 2 || len(messages) != 0 {
		t.Fatal(messages)
	}
	if islets[1].Name != name || islets[1].Info != "017° Rössett" {
		t.Errorf("name %q, information %q", islets[1].Name, islets[1].Info)
	}
}

// Present without a value is not absent; neither is ever zero.
func TestUnknownAndAbsent(t *testing.T) {
	m := readModel(t, []layer.File{squareCell(baseHeading(), nil)})
	f := m.features.get(1)
	for code, want := range map[uint16]statement{87: stated, 88: unknown, 89: absent} {
		text, got := valueOf(f.attributes, code)
		if got != want || text != map[uint16]string{87: "2.5"}[code] {
			t.Errorf("attribute %d is %v %q, want %v", code, got, text, want)
		}
	}
}

// The real cell has 516 VALSOU in which the value is unknown (counted by hand
// in s57-note.md, section 3).
func TestUnknownValuesOfRealCell(t *testing.T) {
	m := readModel(t, cellFiles(t, "US5MA12M", 0))
	n, without := 0, map[string]bool{}
	m.features.each(func(r *featureRecord) uint32 { return r.id }, func(r *featureRecord) {
		if _, s := valueOf(r.attributes, 179); s == unknown {
			n++
			without[r.key()] = true
		}
	})
	if n != 516 {
		t.Errorf("%d unknown VALSOU, want 516", n)
	}
	cell := readCell(t, cellFiles(t, "US5MA12M", 0))
	for i := range cell.Set.Features {
		if f := &cell.Set.Features[i]; f.Danger != nil && without[f.Key] && chart.Known(f.DepthMinM) {
			t.Errorf("%s has the depth %v, which is unknown", f.Key, f.DepthMinM)
		}
	}
}

// Rings that the pointers' order does not close, holes, gaps in lines, and
// pointers that lead nowhere.
func TestTopology(t *testing.T) {
	h := baseHeading()
	ring := func(order ...int) (out [][]byte) {
		for _, i := range order {
			out = append(out, pointer(130, i, 1, 1, 255))
		}
		return out
	}
	area := func(id int, pointers ...[]byte) func(w *writer) {
		return func(w *writer) {
			w.data(featureID(id, 3, 46, 1, 1), objectID(id), fieldOf("ATTF", attribute(87, "4")), fieldOf("FSPT", pointers...))
		}
	}
	tests := []struct {
		name    string
		more    func(w *writer)
		parts   int
		refused string // code and whether its box is known
	}{
		{"in order", area(9, ring(1, 2, 3, 4)...), 1, ""},
		{"out of order", area(9, ring(3, 1, 4, 2)...), 1, ""},
		{"wrong orientation", area(9, pointer(130, 1, 2, 1, 255), pointer(130, 2, 1, 1, 255), pointer(130, 3, 2, 1, 255), pointer(130, 4, 1, 1, 255)), 1, ""},
		{"open", area(9, ring(1, 2, 3)...), 0, "E-GEOM boxed"},
		{"no edge", area(9, ring(1, 2, 3, 77)...), 0, "E-GEOM boxless"},
		{"no pointer", area(9), 0, "E-GEOM boxless"},
		{"a node for an edge", area(9, pointer(120, 1, 1, 1, 255)), 0, "E-GEOM boxless"},
		{"only a hole", area(9, pointer(130, 1, 1, 2, 255), pointer(130, 2, 1, 2, 255), pointer(130, 3, 1, 2, 255), pointer(130, 4, 1, 2, 255)), 0, "E-GEOM boxed"},
		{"an edge without its nodes", func(w *writer) {
			w.data(vectorID(130, 9, 1, 1), edgeEnds(1, 88), fieldOf("SG2D", h.place(10, 50)))
			area(9, ring(9)...)(w)
		}, 0, "E-GEOM boxless"},
		{"a point without its node", func(w *writer) {
			w.data(featureID(9, 1, 153, 1, 1), objectID(9), fieldOf("FSPT", pointer(110, 66, 255, 255, 255)))
		}, 0, "E-GEOM boxless"},
		{"a sounding without a depth", func(w *writer) {
			w.data(featureID(9, 1, 129, 1, 1), objectID(9), fieldOf("FSPT", pointer(110, 2, 255, 255, 255)))
		}, 0, "E-DEPTH boxed"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			cell, messages := decodeAll(t, squareCell(h, test.more))
			if cell.Set == nil {
				t.Fatal(messages)
			}
			refused := ""
			if r := cell.Set.Refused; len(r) > 0 {
				refused = r[0].Code + map[bool]string{true: " boxless", false: " boxed"}[r[0].Boxless]
			}
			parts := 0
			if f := find(cell, chart.DRGARE); len(f) > 0 {
				parts = len(f[0].Ends)
			}
			if parts != test.parts || refused != test.refused {
				t.Errorf("%d parts, refused %q; want %d, %q: %v", parts, refused, test.parts, test.refused, messages)
			}
		})
	}
}

// A hole, and a coast whose masked piece along the border is no coast.
func TestHoleAndBorder(t *testing.T) {
	h := baseHeading()
	file := squareCell(h, func(w *writer) {
		inner := [4][2]float64{{10.003, 50.003}, {10.006, 50.003}, {10.006, 50.006}, {10.003, 50.006}}
		var ring [][]byte
		for i, c := range corners {
			_ = c
			ring = append(ring, pointer(130, i+1, 1, 1, 255))
		}
		for i, c := range inner {
			w.data(vectorID(120, 11+i, 1, 1), fieldOf("SG2D", h.place(c[0], c[1])))
			ring = append(ring, pointer(130, 14-i, 2, 2, 255))
		}
		for i := range inner {
			w.data(vectorID(130, 11+i, 1, 1), edgeEnds(11+i, 11+(i+1)%4))
		}
		w.data(featureID(9, 3, 46, 1, 1), objectID(9), fieldOf("ATTF", attribute(87, "4")), fieldOf("FSPT", ring...))
		w.data(featureID(10, 2, 30, 1, 1), objectID(10), fieldOf("FSPT", pointer(130, 1, 1, 255, 1), pointer(130, 2, 1, 255, 1), pointer(130, 3, 1, 255, 255)))
		w.data(featureID(11, 2, 30, 1, 1), objectID(11), fieldOf("FSPT", pointer(130, 4, 1, 255, 1)))
	})
	cell, messages := decodeAll(t, file)
	if len(messages) > 0 {
		t.Error(messages)
	}
	if a := find(cell, chart.DRGARE); len(a) != 1 || len(a[0].Ends) != 2 || len(a[0].Coords) != 9+5 {
		t.Errorf("areas %+v", a)
	}
	// Edge 1 is at the limit (USAG 3 of the depth area) and masked; edge 2 is
	// masked and no limit; edge 3 is neither. The coast along edge 4 is all limit.
	coasts := find(cell, chart.COALNE)
	if len(coasts) != 1 || len(coasts[0].Coords) != 5 || coasts[0].Coords[0] != corner(1) {
		t.Fatalf("coasts %+v", coasts)
	}
	if !slices.Equal(coasts[0].Border, []int32{0, 2}) {
		t.Errorf("border %v, want the masked edge", coasts[0].Border)
	}
}

// Equal neighbours go, and the runs of border stay where they were.
func TestBorderBesideDoubledVertices(t *testing.T) {
	h := baseHeading()
	file := squareCell(h, func(w *writer) {
		doubled := h.place(10.005, 50.001)
		w.data(vectorID(130, 9, 1, 1), edgeEnds(1, 2), fieldOf("SG2D", doubled, doubled, doubled))
		w.data(featureID(9, 3, 46, 1, 1), objectID(9), fieldOf("ATTF", attribute(87, "4")), fieldOf("FSPT",
			pointer(130, 9, 1, 1, 255), pointer(130, 2, 1, 3, 255), pointer(130, 3, 1, 1, 1), pointer(130, 4, 1, 1, 255)))
	})
	cell, messages := decodeAll(t, file)
	areas := find(cell, chart.DRGARE)
	if len(areas) != 1 || len(areas[0].Coords) != 9 {
		t.Fatal(areas, messages)
	}
	if b := areas[0].Border; !slices.Equal(b, []int32{2, 6}) || areas[0].Coords[b[0]] != corner(1) || areas[0].Coords[b[1]] != corner(3) {
		t.Errorf("border %v of %v, want the two edges from corner 1 to 3", b, areas[0].Coords)
	}
}
