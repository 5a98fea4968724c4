package main

import (
	"math"

	"github.com/paulmach/orb"

	"keelroom/geo/chart/demobed"
)

// spot is a position as it is written: degrees times 10^7.
type spot struct{ lon, lat int32 }

const perDegree = 1e7

func spotOf(p orb.Point) spot {
	return spot{int32(math.Round(p[0] * perDegree)), int32(math.Round(p[1] * perDegree))}
}

// local is the spot xM metres east and yM metres north of the bed's origin.
func local(xM, yM float64) spot { return spotOf(demobed.At(xM, yM)) }

func (s spot) point() orb.Point {
	return orb.Point{float64(s.lon) / perDegree, float64(s.lat) / perDegree}
}

func (s spot) metres() (x, y float64) { return demobed.Local(s.point()) }

func (s spot) less(t spot) bool {
	return s.lon < t.lon || s.lon == t.lon && s.lat < t.lat
}

// along returns the spot a fraction f of the way from s to t. Callers pass
// s < t, so that both triangles on an edge find the same spot.
func (s spot) along(t spot, f float64) spot {
	mid := func(a, b int32) int32 {
		return a + int32(math.Round(f*float64(b-a)))
	}
	return spot{mid(s.lon, t.lon), mid(s.lat, t.lat)}
}

func metresBetween(s, t spot) float64 {
	x0, y0 := s.metres()
	x1, y1 := t.metres()
	return length(x1-x0, y1-y0)
}

func length(x, y float64) float64 {
	return math.Sqrt(float64(x*x) + float64(y*y))
}

// metresFromLine is the distance of p from the segment a-b.
func metresFromLine(p, a, b spot) float64 {
	px, py := p.metres()
	ax, ay := a.metres()
	bx, by := b.metres()
	dx, dy := bx-ax, by-ay
	square := float64(dx*dx) + float64(dy*dy)
	if square == 0 {
		return length(px-ax, py-ay)
	}
	t := (float64((px-ax)*dx) + float64((py-ay)*dy)) / square
	t = math.Max(0, math.Min(1, t))
	return length(px-ax-float64(t*dx), py-ay-float64(t*dy))
}
