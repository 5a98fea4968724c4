package enc

import (
	"strings"
	"testing"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/geo/library"
)

// Whatever bytes come as a base and an update: no panic, a set or a reason, and
// what is loaded is in range, well formed, and no more than the bytes could
// hold. The files of a cell that were told apart first give the same cell.
func FuzzDecode(f *testing.F) {
	h := baseHeading()
	square := squareCell(h, nil).Data
	f.Add(square, updateFile(1, rename(2, "First")).Data)
	f.Add(square, updateFile(1, func(w *writer) {
		w.data(featureID(1, 3, 42, 2, 3), objectID(1), fieldOf("FSPC", le("1 2 2", 3, 2, 1)), fieldOf("FSPT", pointer(130, 2, 2, 1, 255)))
		w.data(vectorID(110, 1, 2, 3), fieldOf("SGCC", le("1 2 2", 2, 1, 1)))
		w.data(vectorID(130, 2, 2, 2))
	}).Data)
	wide := h
	wide.national, wide.factor = 2, 500_000
	f.Add(squareCell(wide, func(w *writer) {
		w.longRecords, w.entryMap = true, "7804"
		w.data(featureID(9, 1, 71, 1, 1), objectID(9), part{"NATF", append(ucs2(301, "Проба"), 0x1E, 0)},
			fieldOf("FFPT", le("2 4 2 1", 1, 1, 1, 2), []byte("slave\x1f")), fieldOf("FSPT", pointer(120, 3, 255, 255, 255)))
	}).Data, square)
	f.Add(catalogueFile("CATALOG.031", entry{`XX\XX5INVNT.000`, "9244B508"}).Data, square)
	f.Add(zipOf(f, squareCell(h, nil)).Data, []byte("PK\x03\x04"))
	f.Add(overlapping(f, 3, squareCell(h, nil)).Data, s101Like("").Data)
	f.Add(squareCell(h, func(w *writer) { drawn(w, 17011, 2, 181, "4.2") }).Data, squareCell(h, func(w *writer) { drawn(w, 14, 1, 13, "north") }).Data)
	f.Fuzz(func(t *testing.T, base, update []byte) {
		files := []layer.File{{Name: "XX5INVNT.000", Data: base}, {Name: "XX5INVNT.001", Data: update}}
		j := fuzzJob()
		if err := j.run(files); err != nil {
			t.Fatal(err)
		}
		if len(j.result.Cells) == 0 && len(j.result.Messages) == 0 && KindOf(layer.File{Data: base}) != Other {
			t.Error("neither a cell nor a reason")
		}
		for _, m := range j.result.Messages {
			if m.Code == "" || m.Found == "" || m.Wanted == "" || strings.ContainsAny(m.File, `/\`) && m.Code != "E-ZIP" {
				t.Errorf("message %+v", m)
			}
		}
		for _, set := range j.result.Sets() {
			checkSet(t, set, 1<<20)
		}
		first := fuzzJob()
		sorted, err := first.sorted(files)
		if err != nil || len(sorted) == 0 && len(first.result.Messages) == 0 && KindOf(files[0]) != Other && KindOf(files[0]) != Catalogue {
			t.Fatal(err, "neither a file nor a reason")
		}
		checkSorted(t, j.result.Cells, sorted)
	})
}

func fuzzJob() *job { return &job{between: func() error { return nil }, room: 1 << 20} }

// checkSorted reads each cell from its files alone.
func checkSorted(t *testing.T, cells []Cell, sorted []library.CellFile) {
	t.Helper()
	for _, c := range cells {
		var own []layer.File
		for _, s := range sorted {
			if s.Name == "" || s.Cell == "" {
				t.Errorf("%+v", s)
			}
			if s.Cell == c.Name && s.Role != library.Text {
				own = append(own, layer.File{Name: s.Name, Data: s.Data.Bytes()})
			}
		}
		j := fuzzJob()
		if err := j.run(own); err != nil || len(j.result.Cells) != 1 {
			t.Fatalf("%v, %d cells of the files of %s", err, len(j.result.Cells), c.Name)
		}
		again := j.result.Cells[0]
		if (again.Set == nil) != (c.Set == nil) || again.Edition != c.Edition || again.Update != c.Update || again.Cancelled == "" != (c.Cancelled == "") ||
			c.Set != nil && (again.Set.SHA256 != c.Set.SHA256 || len(again.Set.Features) != len(c.Set.Features)) {
			t.Errorf("%s is %s.%s, by its files alone %s.%s", c.Name, c.Edition, c.Update, again.Edition, again.Update)
		}
	}
}

func checkSet(t *testing.T, set *chart.Set, most int) {
	t.Helper()
	n := 0
	for i := range set.Features {
		f := &set.Features[i]
		n += len(f.Coords)
		if f.Prim == chart.None || len(f.Coords) == 0 || f.Prim != chart.Point && (len(f.Ends) == 0 || int(f.Ends[len(f.Ends)-1]) != len(f.Coords)) {
			t.Errorf("geometry %+v", f.Geometry)
		}
		for _, c := range f.Coords {
			if max(c.Lon, -c.Lon) > 180*e7 || max(c.Lat, -c.Lat) > 90*e7 {
				t.Errorf("%v is off the globe", c)
			}
		}
		for i := 1; i < len(f.Border); i += 2 {
			if a, b := f.Border[i-1], f.Border[i]; a < 0 || a >= b || int(b) >= len(f.Coords) {
				t.Errorf("border %v of %d", f.Border, len(f.Coords))
			}
		}
		for _, d := range append([]float64{f.DepthMinM, f.DepthMaxM}, f.DepthsM...) {
			if chart.Known(d) && (d < -20 || d > 12000) {
				t.Errorf("depth %v", d)
			}
		}
	}
	if n > 2*most {
		t.Errorf("%d positions", n)
	}
}

// The container alone: records follow each other to the end of the file, and
// fields lie within them.
func FuzzContainer(f *testing.F) {
	f.Add(squareCell(baseHeading(), nil).Data)
	f.Add([]byte("000302R     00026   2204\x1e00000"))
	f.Add([]byte("00000 D     00040   9904FRID999999999999999999\x1e"))
	f.Fuzz(func(t *testing.T, data []byte) {
		c := container{data: data}
		for {
			from := c.at
			ok, err := c.next()
			if err != nil || !ok {
				return
			}
			if c.at <= from || c.at > len(data) {
				t.Fatalf("a record from %d to %d of %d bytes", from, c.at, len(data))
			}
			total := 0
			for _, field := range c.fields {
				total += len(field.data)
				if len(field.data) == 0 {
					t.Error("an empty field")
				}
			}
			if total > c.at-from {
				t.Errorf("%d bytes of fields in a record of %d", total, c.at-from)
			}
		}
	})
}
