package chart_test

import (
	"math/rand"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
)

// Every iteration asks something else, so that no cache of the processor
// flatters the numbers.

func BenchmarkNew(b *testing.B) {
	sets := make([]*chart.Set, 8)
	for i := range sets {
		sets[i] = fullCell(b)
	}
	b.ReportAllocs()
	b.ResetTimer()
	for i := range b.N {
		chart.New(sets[i%len(sets)])
	}
}

// legs are random pieces of 0 to 3 km over a chart.
func legs(c *chart.Chart, n int) []chart.Piece {
	rng := rand.New(rand.NewSource(20260719))
	bounds, _ := c.Bounds()
	out := make([]chart.Piece, n)
	for i := range out {
		from := within(rng, bounds)
		out[i] = chart.NewPiece(from, geo.Direct(from, 360*rng.Float64(), 3000*rng.Float64()))
	}
	return out
}

func BenchmarkAlong(b *testing.B) {
	c := chart.New(fullCell(b))
	q, pieces := c.NewQuery(), legs(c, 4096)
	b.ReportAllocs()
	b.ResetTimer()
	for i := range b.N {
		q.Along(pieces[i%len(pieces)], chart.Reach{HalfM: 25, HazardM: 10, WideM: 20})
	}
}

func BenchmarkCast(b *testing.B) {
	c := chart.New(fullCell(b))
	q, rng := c.NewQuery(), rand.New(rand.NewSource(20260719))
	bounds, _ := c.Bounds()
	var origins []*chart.Origin // afloat
	for len(origins) < 512 {
		o := q.Origin(within(rng, bounds))
		if q.Cast(o, 0, 1, func(float64) bool { return true }).LengthM > 0 {
			origins = append(origins, o)
		}
	}
	b.ReportAllocs()
	b.ResetTimer()
	for i := range b.N {
		q.Cast(origins[i%len(origins)], float64(i*7%360), 20000, func(d float64) bool { return d < -1 })
	}
}

// BenchmarkFortyLegs is what a recheck of a day asks of the chart: 40 legs of up
// to 3 km.
func BenchmarkFortyLegs(b *testing.B) {
	c := chart.New(fullCell(b))
	q, pieces := c.NewQuery(), legs(c, 4000)
	b.ReportAllocs()
	b.ResetTimer()
	for i := range b.N {
		for k := range 40 {
			q.Along(pieces[(i*40+k)%len(pieces)], chart.Reach{HalfM: 25, HazardM: 10, WideM: 20})
		}
	}
}

// BenchmarkOrigin looks at a place before rays are cast from it.
func BenchmarkOrigin(b *testing.B) {
	c := chart.New(fullCell(b))
	q, rng := c.NewQuery(), rand.New(rand.NewSource(20260719))
	bounds, _ := c.Bounds()
	b.ReportAllocs()
	b.ResetTimer()
	for range b.N {
		q.Origin(within(rng, bounds))
	}
}

func BenchmarkAreasAt(b *testing.B) {
	c := chart.New(fullCell(b))
	q, rng := c.NewQuery(), rand.New(rand.NewSource(20260719))
	bounds, _ := c.Bounds()
	places := make([]orb.Point, 4096)
	for i := range places {
		places[i] = within(rng, bounds)
	}
	b.ReportAllocs()
	b.ResetTimer()
	for i := range b.N {
		q.AreasAt(places[i%len(places)])
	}
}

func BenchmarkWith(b *testing.B) {
	c := chart.New(fullCell(b))
	own := &chart.Set{Authority: chart.Private, Features: []chart.Feature{square(chart.OBSTRN, -70.9, 42.31, 0.001)}}
	b.ReportAllocs()
	b.ResetTimer()
	for range b.N {
		c.With(own)
	}
}

// square is an area with its south-west corner and its side in degrees.
func square(class chart.Class, lon, lat, side float64) chart.Feature {
	f := chart.Feature{Class: class, DepthMinM: chart.Unknown, DepthMaxM: chart.Unknown}
	f.Prim = chart.Area
	for _, k := range [][2]float64{{0, 0}, {1, 0}, {1, 1}, {0, 1}, {0, 0}} {
		f.Coords = append(f.Coords, chart.CoordOf(orb.Point{lon + k[0]*side, lat + k[1]*side}))
	}
	f.Ends = []int32{5}
	return f
}
