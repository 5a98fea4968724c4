package chart_test

import (
	"math"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
)

// strip is an area from x0 to x1 in INVENTED waters, one unit 0.001 degrees
// east, 20 units north; lon0 is where x is 0.
func strip(lon0 float64, class chart.Class, x0, x1, drval1, drval2 float64) chart.Feature {
	at := func(x, y float64) orb.Point { return orb.Point{lon0 + x*0.001, 43 + y*0.001} }
	f := polygon(class, drval1, at(x0, 0), at(x1, 0), at(x1, 20), at(x0, 20))
	f.DepthMinM, f.DepthMaxM = drval1, drval2
	if class == chart.MCOVR {
		f.Meta = &chart.Meta{CatCov: 1}
	}
	return f
}

func castEast(lon0 float64, sets ...*chart.Set) chart.Ray {
	q := chart.New(sets...).NewQuery()
	return q.Cast(q.Origin(orb.Point{lon0 + 0.001, 43.01}), 90, 20000, func(d float64) bool { return d <= -0.5 })
}

// Plan file, section 3 (fetch), and layer profile, section 8 (priority): what
// stops a ray.
func TestWhatStopsARay(t *testing.T) {
	const lon0 = -36
	metres := func(x float64) float64 {
		return geo.DistanceM(orb.Point{lon0 + 0.001, 43.01}, orb.Point{lon0 + x*0.001, 43.01})
	}
	nan := math.NaN()
	water := func() []chart.Feature {
		return []chart.Feature{strip(lon0, chart.MCOVR, 0, 40, nan, nan), strip(lon0, chart.DEPARE, 0, 40, 5, 10)}
	}
	own := func(features ...chart.Feature) *chart.Set {
		s := chartOf(0, features...)
		s.Authority = chart.Private
		return s
	}
	unknown := chartOf(10000, append(water(), strip(lon0, chart.DEPARE, 10, 12, -2, -1))...)
	unknown.SoundingDatum = 0
	for _, c := range []struct {
		what string
		sets []*chart.Set
		x    float64
		open bool
	}{
		{"nothing: the end of the data", []*chart.Set{chartOf(10000, water()...)}, 40, true},
		{"land", []*chart.Set{chartOf(10000, append(water(), strip(lon0, chart.LNDARE, 10, 12, nan, nan))...)}, 10, false},
		{"a bank that dries", []*chart.Set{chartOf(10000, append(water(), strip(lon0, chart.DEPARE, 10, 12, -2, -1))...)}, 10, false},
		{"not one that dries in part", []*chart.Set{chartOf(10000, append(water(), strip(lon0, chart.DEPARE, 10, 12, -2, 0.5))...)}, 40, true},
		{"not one that is still wet", []*chart.Set{chartOf(10000, append(water(), strip(lon0, chart.DEPARE, 10, 12, -2, -0.3))...)}, 40, true},
		{"not one above an unknown datum", []*chart.Set{unknown}, 40, true},
		{"not private land", []*chart.Set{chartOf(10000, water()...), own(strip(lon0, chart.LNDARE, 10, 12, nan, nan))}, 40, true},
		{"not land of a smaller scale where a larger shows water",
			[]*chart.Set{chartOf(10000, water()...), chartOf(50000, strip(lon0, chart.MCOVR, 0, 60, nan, nan), strip(lon0, chart.LNDARE, 10, 12, nan, nan), strip(lon0, chart.LNDARE, 50, 60, nan, nan))}, 50, false},
	} {
		r := castEast(lon0, c.sets...)
		if math.Abs(r.LengthM-metres(c.x)) > 1 || r.Open != c.open {
			t.Errorf("%s: %.1f m, open %v; want %.1f m, %v", c.what, r.LengthM, r.Open, metres(c.x), c.open)
		}
	}
}

// Unknown depth along a ray is deep (design, section 5): not stated, unsurveyed,
// or in a hole of the chart.
func TestUnknownDepthAlongARayIsDeep(t *testing.T) {
	const lon0 = -36
	nan := math.NaN()
	for what, middle := range map[string][]chart.Feature{
		"known":          {strip(lon0, chart.DEPARE, 10, 14, 2, 5)},
		"not stated":     {strip(lon0, chart.DEPARE, 10, 14, 2, nan)},
		"unsurveyed":     {strip(lon0, chart.UNSARE, 10, 14, nan, nan)},
		"a hole":         {},
		"a narrow hole":  {strip(lon0, chart.DEPARE, 10, 11.9, 2, 5), strip(lon0, chart.DEPARE, 12, 14, 2, 5)},
		"only DRVAL2":    {strip(lon0, chart.DEPARE, 10, 14, nan, 5)},
		"known, dredged": {strip(lon0, chart.DRGARE, 10, 14, 2, 5)},
	} {
		features := append([]chart.Feature{strip(lon0, chart.MCOVR, 0, 40, nan, nan), strip(lon0, chart.DEPARE, 0, 10, 5, 10), strip(lon0, chart.DEPARE, 14, 40, 5, 10)}, middle...)
		r := castEast(lon0, chartOf(10000, features...))
		known := what == "known" || what == "known, dredged"
		if math.IsInf(r.MeanDepthM, 1) == known {
			t.Errorf("%s: mean depth %v", what, r.MeanDepthM)
		}
		// Three parts in forty of 5 m, the rest 10 m; the grid may only be deeper.
		if known && (r.MeanDepthM > 10 || r.MeanDepthM < (10*35+5*4)/39.0) {
			t.Errorf("%s: mean depth %.3f m", what, r.MeanDepthM)
		}
	}
}

func TestRayOverTheAntimeridian(t *testing.T) {
	const lon0 = 179.98
	nan := math.NaN()
	west := chartOf(10000, strip(lon0, chart.MCOVR, 0, 20, nan, nan), strip(lon0, chart.DEPARE, 0, 20, 5, 10))
	east := chartOf(10000, strip(lon0, chart.MCOVR, 20, 60, nan, nan), strip(lon0, chart.DEPARE, 20, 40, 5, 10), strip(lon0, chart.LNDARE, 40, 60, nan, nan))
	want := geo.DistanceM(orb.Point{lon0 + 0.001, 43.01}, orb.Point{lon0 + 0.04 - 360, 43.01})
	r := castEast(lon0, west, east)
	if math.Abs(r.LengthM-want) > 1 || r.Open || math.Abs(r.MeanDepthM-10) > 1e-5 {
		t.Errorf("%+v, want %.1f m to the land over a mean of 10 m", r, want)
	}
	q := chart.New(west, east).NewQuery()
	mark := chart.Feature{Class: chart.BOYLAT, Mark: &chart.Mark{}}
	mark.Prim, mark.Coords = chart.Point, []chart.Coord{chart.CoordOf(orb.Point{-179.9999, 43.01})}
	q = chart.New(west, chartOf(10000, mark)).NewQuery()
	at := orb.Point{179.9999, 43.01}
	if got := q.MarksNear(chart.NewPiece(at, at), 30); len(got) != 1 {
		t.Errorf("%d marks on the other side of the antimeridian, want 1", len(got))
	}
}

// A set that is no private one may change where data are missing.
func TestWithAChart(t *testing.T) {
	const lon0 = -36
	nan := math.NaN()
	first := chartOf(10000, strip(lon0, chart.MCOVR, 0, 20, nan, nan), strip(lon0, chart.DEPARE, 0, 20, 5, 10))
	second := chartOf(10000, strip(lon0, chart.MCOVR, 20, 40, nan, nan), strip(lon0, chart.DEPARE, 20, 40, 3, 10))
	piece := chart.NewPiece(orb.Point{lon0 + 0.015, 43.01}, orb.Point{lon0 + 0.025, 43.01})
	c := chart.New(first)
	if m := c.NewQuery().Along(piece, chart.Reach{HalfM: 20}); len(m.Outside) != 1 {
		t.Errorf("one chart: outside %v", m.Outside)
	}
	if m := c.With(second).NewQuery().Along(piece, chart.Reach{HalfM: 20}); len(m.Outside)+len(m.Untiled) != 0 || len(m.Hits) != 4 {
		t.Errorf("both: outside %v, untiled %v, %d hits", m.Outside, m.Untiled, len(m.Hits))
	}
}

// Neighbours that share a border but not its vertices leave cracks where the
// vertices are rounded to 1e-7 degrees. A track along one is not over the
// unknown, and one across it neither; a gap of half a metre is.
func TestCracks(t *testing.T) {
	a, b := orb.Point{-36, 43}, orb.Point{-35.9912345, 43.0076543}
	along := func(f, off float64) orb.Point { return orb.Point{a[0] + f*(b[0]-a[0]) + off, a[1] + f*(b[1]-a[1])} }
	for _, c := range []struct {
		gap  float64 // degrees
		want bool
	}{{0, false}, {1e-7, false}, {6e-6, true}} {
		north := polygon(chart.DEPARE, 5, a, b, orb.Point{-36, 43.02})
		south := polygon(chart.DEPARE, 5, a, along(0.21, c.gap), along(0.377, 0), along(0.63, c.gap), along(0.77777, c.gap), b, orb.Point{-35.98, 42.99})
		cover := covering(orb.Point{-36.1, 42.9}, orb.Point{-35.9, 42.9}, orb.Point{-35.9, 43.1}, orb.Point{-36.1, 43.1})
		q := chart.New(chartOf(10000, cover, north, south)).NewQuery()
		for _, p := range []chart.Piece{chart.NewPiece(along(0.01, 0), along(0.99, 0)), chart.NewPiece(along(0.7, -2e-4), along(0.7, 2e-4))} {
			if m := q.Along(p, chart.Reach{HalfM: 5}); len(m.Untiled) > 0 != c.want {
				t.Errorf("a gap of %v°: untiled %v", c.gap, m.Untiled)
			}
		}
	}
}
