package chart_test

import (
	"math"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
)

func TestDegenerateFeatures(t *testing.T) {
	at := chart.CoordOf(orb.Point{-36, 43})
	far := chart.CoordOf(orb.Point{-35.9999, 43})
	shape := func(class chart.Class, prim chart.Prim, ends []int32, cs ...chart.Coord) chart.Feature {
		f := chart.Feature{Class: class, DepthMinM: 1, DepthMaxM: 2, Danger: &chart.Danger{}, Meta: &chart.Meta{CatCov: 1}}
		f.Prim, f.Ends, f.Coords = prim, ends, cs
		return f
	}
	set := chartOf(12000,
		shape(chart.OBSTRN, chart.Line, []int32{1}, at),
		shape(chart.OBSTRN, chart.Area, []int32{4}, at, at, at, at),
		shape(chart.DEPARE, chart.Area, []int32{4}, at, far, at, at),
		shape(chart.MCOVR, chart.Area, []int32{4}, at, far, far, at),
		shape(chart.OBSTRN, chart.Line, []int32{3}, at, at, far),
		shape(chart.OBSTRN, chart.Point, nil),
		shape(chart.OBSTRN, chart.Line, nil),
		shape(chart.OBSTRN, chart.Area, nil),
		shape(chart.OBSTRN, chart.None, nil),
		shape(chart.SOUNDG, chart.Point, nil, at),
		shape(chart.LNDARE, chart.Area, []int32{0, 0}),
	)
	q := chart.New(set).NewQuery()
	for _, to := range []orb.Point{at.Position(), far.Position(), {-36, 43.0001}} {
		m := q.Along(chart.NewPiece(at.Position(), to), chart.Reach{HalfM: 5})
		met := map[int]bool{}
		for _, h := range m.Hits {
			met[h.Index] = true
		}
		for _, i := range []int{0, 1, 2, 3, 4, 9} {
			if !met[i] {
				t.Errorf("feature %d on the track is not met", i)
			}
		}
		if len(m.Outside) != 1 || m.Outside[0].To < geo.DistanceM(at.Position(), to)-0.01 {
			t.Errorf("a coverage without area covers: outside %v", m.Outside)
		}
	}
	q.Cast(q.Origin(at.Position()), 90, 1000, func(float64) bool { return true })
	if m := chart.New().NewQuery().At(at.Position(), chart.Reach{HalfM: math.NaN()}); len(m.Outside) != 1 {
		t.Errorf("an empty chart has data: %+v", m)
	}
}

// An area of 40 by 40 degrees: its long edges run straight in degrees.
func TestHugeArea(t *testing.T) {
	ring := []orb.Point{{-50, 20}, {-10, 30}, {-12, 70}, {-48, 60}}
	c := chart.New(chartOf(10_000_000, polygon(chart.DEPARE, 5, ring...), covering(ring...)))
	q := c.NewQuery()
	for _, f := range []float64{0.1, 0.5, 0.77} {
		on := orb.Point{-50 + 40*f, 20 + 10*f}
		if m := q.At(on, chart.Reach{HalfM: 1}); len(m.Outside) != 1 || len(m.Hits) != 2 {
			t.Errorf("on the edge: outside %v, %d hits", m.Outside, len(m.Hits))
		}
		if m := q.At(geo.Direct(on, 0, 30), chart.Reach{HalfM: 20}); len(m.Outside) != 0 || len(m.Hits) != 2 {
			t.Errorf("within the edge: outside %v, %d hits", m.Outside, len(m.Hits))
		}
		if m := q.At(geo.Direct(on, 180, 30), chart.Reach{HalfM: 20}); len(m.Outside) != 1 || len(m.Hits) != 0 {
			t.Errorf("beyond the edge: outside %v, %d hits", m.Outside, len(m.Hits))
		}
	}
}

// More long edges than a chart cuts are unknown water, not wrong water.
func TestTooManyLongEdges(t *testing.T) {
	f := square(chart.DEPARE, -60, 0, 50)
	for i := range 2000 {
		f.Coords = append(f.Coords, chart.Coord{Lon: -600_000_000, Lat: int32(i)}, chart.Coord{Lon: -100_000_000, Lat: int32(i)})
	}
	f.DepthMinM, f.Ends = 5, []int32{5, int32(len(f.Coords))}
	met := chart.New(chartOf(1, f)).NewQuery().At(orb.Point{-40, 10}, chart.Reach{})
	if len(met.Hits) != 1 || !met.Hits[0].UnknownWater() || met.Hits[0].Info != "E-SIZE" {
		t.Errorf("met %+v", met.Hits)
	}
}

func TestAcronyms(t *testing.T) {
	for c, want := range map[chart.Class]string{1: "ADMARE", 75: "LIGHTS", 163: "NEWOBJ", 302: "M_COVR", 402: "C_STAC", 200: "200", chart.NoClass: ""} {
		if got := c.String(); got != want {
			t.Errorf("class %d is %q, want %q (IHO S-57 App. A)", int(c), got, want)
		}
	}
}
