package chart_test

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
)

// The oracle answers what the chart answers by plain walking: every sample of a
// piece against every segment, in metres about the sample itself, and even-odd
// over whole rings. It shares no arithmetic and no index with the chart.

// WGS 84 (NGA.STND.0036, 2014).
const (
	semiMajorM = 6378137.0
	ecc2       = (2 - 1/298.257223563) / 298.257223563
)

// local are the metres a degree east and north at a latitude: the radii of
// curvature N·cos φ and M (Snyder, USGS PP 1395, 1987, eqs 4-18 and 4-20).
func local(lat float64) (east, north float64) {
	sin, cos := math.Sincos(lat * math.Pi / 180)
	w2 := 1 - ecc2*sin*sin
	n := semiMajorM / math.Sqrt(w2)
	return n * cos * math.Pi / 180, n * (1 - ecc2) / w2 * math.Pi / 180
}

// isometric latitude (Snyder eq. 3-1 in terms of asinh).
func isometric(lat float64) float64 {
	sin := math.Sin(lat * math.Pi / 180)
	e := math.Sqrt(ecc2)
	return math.Atanh(sin) - e*math.Atanh(e*sin)
}

// samples are places along the rhumb line from a to b at equal steps of a
// Mercator chart, ends included.
func samples(a, b orb.Point, n int) []orb.Point {
	qa, qb := isometric(a[1]), isometric(b[1])
	dLon := math.Remainder(b[0]-a[0], 360)
	out := make([]orb.Point, n+1)
	for i := range out {
		t := float64(i) / float64(n)
		lat := a[1] + t*(b[1]-a[1])
		for range 3 {
			sin, cos := math.Sincos(lat * math.Pi / 180)
			slope := (1 - ecc2) / ((1 - ecc2*sin*sin) * cos) * math.Pi / 180
			lat -= (isometric(lat) - qa - t*(qb-qa)) / slope
		}
		out[i] = orb.Point{math.Remainder(a[0]+t*dLon, 360), lat}
	}
	return out
}

// shape is a feature as the oracle sees it.
type shape struct {
	*chart.Feature
	parts [][]orb.Point
	box   orb.Bound
}

func shapes(c *chart.Chart, classes ...chart.Class) []shape {
	var out []shape
	for _, f := range c.Features() {
		if !slices.Contains(classes, f.Class) || len(f.Coords) == 0 {
			continue
		}
		s := shape{Feature: f, box: orb.Bound{Min: f.Coords[0].Position(), Max: f.Coords[0].Position()}}
		add := func(part []chart.Coord) {
			var p []orb.Point
			for _, v := range part {
				p = append(p, v.Position())
				s.box = s.box.Extend(v.Position())
			}
			s.parts = append(s.parts, p)
		}
		if f.Prim == chart.Point {
			for i := range f.Coords {
				add(f.Coords[i : i+1])
			}
		} else {
			f.Parts(add)
		}
		out = append(out, s)
	}
	return out
}

// holds: even-odd by walking all rings.
func (s *shape) holds(p orb.Point) bool {
	if s.Prim != chart.Area || !s.box.Contains(p) {
		return false
	}
	odd := false
	for _, r := range s.parts {
		for i := 1; i < len(r); i++ {
			a, b := r[i-1], r[i]
			if (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0]+(b[0]-a[0])*(p[1]-a[1])/(b[1]-a[1]) {
				odd = !odd
			}
		}
	}
	return odd
}

// stretch is the part of a shape that lies in a box about a piece.
type stretch struct {
	segments [][2]orb.Point
}

func (s *shape) inBox(b orb.Bound) (out stretch) {
	if !s.box.Intersects(b) {
		return out
	}
	for _, p := range s.parts {
		if len(p) == 1 && b.Contains(p[0]) {
			out.segments = append(out.segments, [2]orb.Point{p[0], p[0]})
		}
		for i := 1; i < len(p); i++ {
			if b.Intersects(orb.Bound{Min: p[i-1], Max: p[i-1]}.Extend(p[i])) {
				out.segments = append(out.segments, [2]orb.Point{p[i-1], p[i]})
			}
		}
	}
	return out
}

// distance in metres from a place to the boundary, points or lines.
func (s *stretch) distance(p orb.Point) float64 {
	east, north := local(p[1])
	least := math.Inf(1)
	for _, g := range s.segments {
		ax, ay := (g[0][0]-p[0])*east, (g[0][1]-p[1])*north
		vx, vy := (g[1][0]-g[0][0])*east, (g[1][1]-g[0][1])*north
		if math.Abs(ax)-math.Abs(vx) > least || math.Abs(ay)-math.Abs(vy) > least {
			continue
		}
		t := 0.0
		if l2 := vx*vx + vy*vy; l2 > 0 {
			t = math.Max(0, math.Min(1, -(ax*vx+ay*vy)/l2))
		}
		least = math.Min(least, math.Hypot(ax+t*vx, ay+t*vy))
	}
	return least
}

// crossings of a polyline of samples with the segments, in fractions of the
// polyline's length, sorted.
func (s *stretch) crossings(line []orb.Point) []float64 {
	var out []float64
	for _, g := range s.segments {
		box := orb.Bound{Min: g[0], Max: g[0]}.Extend(g[1])
		for i := 1; i < len(line); i++ {
			a, b := line[i-1], line[i]
			if !box.Intersects(orb.Bound{Min: a, Max: a}.Extend(b)) {
				continue
			}
			da, db := side(g[0], g[1], a), side(g[0], g[1], b)
			if (da < 0) != (db < 0) && (side(a, b, g[0]) < 0) != (side(a, b, g[1]) < 0) {
				out = append(out, (float64(i-1)+da/(da-db))/float64(len(line)-1))
			}
		}
	}
	slices.Sort(out)
	return out
}

func side(a, b, p orb.Point) float64 {
	return (b[0]-a[0])*(p[1]-a[1]) - (b[1]-a[1])*(p[0]-a[0])
}

// within reports whether s lies in a span.
func inSpans(spans []chart.Span, s float64) bool {
	for _, v := range spans {
		if v.From <= s && s <= v.To {
			return true
		}
	}
	return false
}
