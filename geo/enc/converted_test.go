package enc

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/testdata/beside"
)

// The cell and the folder of its GeoJSON files that lies beside it, made by GDAL
// one class a file, give the same features in the same order, and sets that
// say the same of themselves. Those files were written with 7 decimals, where
// the printer turns -70.9999994 to -71.0: positions may differ by 1e-6 degrees.
func TestCellAsItsLayers(t *testing.T) {
	dir := beside.File(t, "charts", "US5MA12M", "geojson")
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var files []layer.File
	for _, e := range entries {
		data, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, layer.File{Name: e.Name(), Data: data})
	}
	want, messages := layer.Decode(files)
	if want == nil {
		t.Fatal(messages)
	}
	got := readCell(t, cellFiles(t, "US5MA12M", 0)).Set
	if len(got.Features) != len(want.Features) {
		t.Fatalf("%d features, want %d", len(got.Features), len(want.Features))
	}
	differing, borders := 0, 0
	for i := range want.Features {
		g, w := &got.Features[i], &want.Features[i]
		if g.Class.Acronym()+".geojson" != w.File || g.Key != w.Key || len(g.Coords) != len(w.Coords) {
			t.Fatalf("feature %d is %s %s of %d vertices, want %s %s of %d", i, g.Class, g.Key, len(g.Coords), w.File, w.Key, len(w.Coords))
		}
		borders += len(g.Border) / 2
		if a, b := canonicalFeatures([]chart.Feature{*g})[0], canonicalFeatures([]chart.Feature{*w})[0]; a != b {
			differing++
			if !strings.Contains(b, "-710000000,") {
				t.Errorf("feature %d:\n%.300s\nwant\n%.300s", i, a, b)
			}
		}
	}
	if differing > 40 || borders < 100 {
		t.Errorf("%d features differ by a rounded position, %d runs of border", differing, borders)
	}
	sets := [2][]any{}
	for i, s := range []*chart.Set{got, want} {
		sets[i] = []any{s.Title, s.Edition, s.IssueDate, s.Authority, s.Scale, s.SoundingDatum, s.HeightDatum, s.OffDatum, len(s.Refused)}
	}
	for i := range sets[0] {
		if sets[0][i] != sets[1][i] {
			t.Errorf("the set says %v, want %v", sets[0], sets[1])
		}
	}
}

// The runs of border lie on the box of the cell's coverage, and stay there when
// package chart cuts long edges.
func TestBorderLiesOnTheLimit(t *testing.T) {
	cell := readCell(t, cellFiles(t, "US5MA12M", 0))
	before := onLimit(t, cell)
	vertices := 0
	for i := range cell.Set.Features {
		vertices += len(cell.Set.Features[i].Coords)
	}
	chart.New(cell.Set)
	after := 0
	for i := range cell.Set.Features {
		after += len(cell.Set.Features[i].Coords)
	}
	if n := onLimit(t, cell); n < before || before < 100 || after <= vertices {
		t.Errorf("%d border edges, then %d; %d vertices, then %d", before, n, vertices, after)
	}
}

// onLimit counts the edges of border runs of depth areas, each of which must
// also be an edge of the rim of the coverage.
func onLimit(t *testing.T, cell Cell) (n int) {
	t.Helper()
	rim := map[chart.Coord]bool{}
	for _, f := range find(cell, chart.MCOVR) {
		for _, c := range f.Coords {
			rim[c] = true
		}
	}
	for _, f := range find(cell, chart.DEPARE) {
		for i := 1; i < len(f.Border); i += 2 {
			for _, c := range f.Coords[f.Border[i-1] : f.Border[i]+1] {
				if n++; !rim[c] {
					t.Fatalf("%s: border at %v, which is not on the rim of the coverage", f.Key, c)
				}
			}
		}
	}
	return n
}
