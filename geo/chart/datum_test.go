package chart_test

import (
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
)

// VERDAT codes (IHO S-57 App. A): 12 mean lower low water, 23 lowest
// astronomical tide. Layer profile, section 4: feature, else M_SDAT, else the
// set; a feature that lies only partly in an M_SDAT area has no datum.
func TestDatumOfAFeature(t *testing.T) {
	at := func(x, y float64) orb.Point { return orb.Point{-36 + x*0.001, 43 + y*0.001} }
	box := func(x0, y0, x1, y1 float64) []orb.Point {
		return []orb.Point{at(x0, y0), at(x1, y0), at(x1, y1), at(x0, y1)}
	}
	sdat := func(verdat int, ring ...orb.Point) chart.Feature {
		f := polygon(chart.MSDAT, 0, ring...)
		f.Meta = &chart.Meta{VerDat: verdat}
		return f
	}
	own := polygon(chart.DEPARE, 2, box(1, 1, 2, 2)...)
	own.Datum = 16
	u := polygon(chart.DEPARE, 2, at(0, 12), at(1, 12), at(1, 18), at(9, 18), at(9, 12), at(10, 12), at(10, 20), at(0, 20))
	features := []chart.Feature{
		sdat(12, box(0, 0, 10, 10)...),
		sdat(23, box(0, 10, 10, 20)...),
		sdat(12, box(4, 13, 6, 16)...),
	}
	for _, c := range []struct {
		what string
		f    chart.Feature
		want int
	}{
		{"in the area", polygon(chart.DEPARE, 2, box(1, 1, 3, 3)...), 12},
		{"the area itself", polygon(chart.DEPARE, 2, box(0, 0, 10, 10)...), 12},
		{"along its border, within", polygon(chart.DEPARE, 2, box(8, 2, 10, 5)...), 12},
		{"along its border, outside", polygon(chart.DEPARE, 2, box(10, 2, 12, 5)...), 23},
		{"outside", polygon(chart.DEPARE, 2, box(12, 2, 14, 5)...), 23},
		{"half in it", polygon(chart.DEPARE, 2, box(8, 2, 12, 5)...), 0},
		{"all around it", polygon(chart.DEPARE, 2, box(-1, -1, 11, 11)...), 0},
		{"across it without a vertex in it", polygon(chart.DEPARE, 2, box(-1, 2, 11, 5)...), 0},
		{"around an area of another datum", polygon(chart.DEPARE, 2, box(1, 12, 9, 18)...), 0},
		{"in a bay about an area of another datum", u, 23},
		{"with a datum of its own", own, 16},
		{"a rock in it", rock(-36+0.005, 43.005), 12},
		{"a rock outside", rock(-36+0.015, 43.005), 23},
		{"a rock on its border", rock(-36+0.010, 43.005), 0},
	} {
		set := chartOf(12000, append(features, c.f)...)
		for i, f := range chart.New(set).Features() {
			if i == 3 && f.Datum != c.want {
				t.Errorf("%s: datum %d, want %d", c.what, f.Datum, c.want)
			}
		}
	}
}
