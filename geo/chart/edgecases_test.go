package chart_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
)

// A mark just within reach of the end of a long piece is found: there, a mile
// poleward of the middle, the plane draws lengths longest (0.08 % at 69.9°, where
// tan(latitude)/R gives 1852 m · 2.733 / 6 390 000 m). INVENTED waters.
func TestReachHoldsAtTheEndOfAPiece(t *testing.T) {
	for _, lat := range []float64{69.9, -69.9, 45, -0.01} {
		end := orb.Point{-36, lat}
		far := 0.0 // towards the equator
		if lat > 0 {
			far = 180
		}
		piece := chart.NewPiece(geo.Direct(end, far, 3700), end)
		for _, off := range []float64{50, 100, 1000} {
			buoy := chart.Feature{Class: chart.BOYSPP, Mark: &chart.Mark{}}
			buoy.Prim, buoy.Coords = chart.Point, []chart.Coord{chart.CoordOf(geo.Direct(end, 90, off))}
			reach := geo.DistanceM(end, buoy.Coords[0].Position()) + 0.001 // where it is kept to be
			c := chart.New(chartOf(12_000, buoy))
			if got := c.NewQuery().MarksNear(piece, reach); len(got) != 1 {
				t.Errorf("at %g°, %g m off: %d marks, want it", lat, reach, len(got))
			}
		}
	}
}

// The length of a ray is the distance to the shore, to the centimetre that positions
// are kept to. On the equator the plane is true to micrometres, so the geodesic is the
// yardstick.
func TestRayEndsAtTheShore(t *testing.T) {
	box := func(west, east float64) []orb.Point {
		return []orb.Point{{west, -0.1}, {east, -0.1}, {east, 0.1}, {west, 0.1}}
	}
	const shore = 0.0089831
	c := chart.New(chartOf(12_000, covering(box(-0.1, 0.1)...), polygon(chart.DEPARE, 5, box(-0.1, shore)...), polygon(chart.LNDARE, chart.Unknown, box(shore, 0.1)...)))
	q := c.NewQuery()
	never := func(float64) bool { return false }
	for _, from := range []float64{0, 0.004, shore - 0.00001, -0.05} {
		at := orb.Point{from, 0}
		want := geo.DistanceM(at, orb.Point{shore, 0})
		if r := q.Cast(q.Origin(at), 90, 20_000, never); math.Abs(r.LengthM-want) > 0.012 || r.Open {
			t.Errorf("from %g: %.4f m, open %v; the shore is %.4f m off", from, r.LengthM, r.Open, want)
		}
	}
}

// Which chart has the word is told on the far side of what a ray crosses, where the
// ray would be in it: land of a smaller scale counts if the larger chart ends there,
// and not if it begins there.
func TestWhoHasTheWordAtTheShore(t *testing.T) {
	box := func(west, east float64) []orb.Point {
		return []orb.Point{{west, -0.1}, {east, -0.1}, {east, 0.1}, {west, 0.1}}
	}
	never := func(float64) bool { return false }
	const shore = 0.01
	small := func() *chart.Set {
		return chartOf(50_000, covering(box(-0.1, 0.1)...), polygon(chart.DEPARE, 5, box(-0.1, shore)...), polygon(chart.LNDARE, chart.Unknown, box(shore, 0.1)...))
	}
	for name, test := range map[string]struct {
		from, to float64 // of the larger scale, which shows water
		stops    bool
	}{
		"the larger ends there":   {-0.1, shore, true},
		"the larger begins there": {shore, 0.1, false},
	} {
		large := chartOf(10_000, covering(box(test.from, test.to)...), polygon(chart.DEPARE, 5, box(test.from, test.to)...))
		q := chart.New(small(), large).NewQuery()
		r := q.Cast(q.Origin(orb.Point{0, 0}), 90, 5000, never)
		if got := fmt.Sprintf("%.0f", r.LengthM); (got == "1113") != test.stops { // 0.01° of the equator: 1113.2 m
			t.Errorf("%s: %s m, want the shore to stop it: %v", name, got, test.stops)
		}
	}
}
