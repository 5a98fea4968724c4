package geojson

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// Orb returns a copy of the geometry as an orb type, without third numbers, and
// nil for null and for a GeometryCollection.
func (g *Geometry) Orb() orb.Geometry {
	switch g.Type {
	case Point:
		if len(g.Positions) == 0 {
			return nil
		}
		return g.Positions[0]
	case MultiPoint:
		return orb.MultiPoint(slices.Clone(g.Positions))
	case LineString:
		return orb.LineString(slices.Clone(g.Positions))
	case MultiLineString:
		lines := make(orb.MultiLineString, len(g.Ends))
		for i := range g.Ends {
			lines[i] = slices.Clone(g.Line(i))
		}
		return lines
	case Polygon:
		return g.polygon(0, len(g.Ends))
	case MultiPolygon:
		areas := make(orb.MultiPolygon, len(g.Polygons))
		first := 0
		for i, end := range g.Polygons {
			areas[i] = g.polygon(first, end)
			first = end
		}
		return areas
	}
	return nil
}

func (g *Geometry) polygon(first, end int) orb.Polygon {
	area := make(orb.Polygon, 0, end-first)
	for i := first; i < end; i++ {
		area = append(area, slices.Clone(g.Line(i)))
	}
	return area
}

// ValueOf returns the geometry object of g, positions with that many decimals.
// Rings are closed and turned as RFC 7946 section 3.1.6 says, the outer one
// counter-clockwise and the inner ones clockwise; g itself is not changed. A
// geometry that is nil, empty, of another kind or not finite gives null.
func ValueOf(g orb.Geometry, decimals int) Value {
	w := positionWriter{decimals: decimals, right: true}
	var name string
	var v Value
	switch g := g.(type) {
	case orb.Point:
		name, v = Point, w.point(g)
	case orb.MultiPoint:
		name, v = MultiPoint, w.points(g)
	case orb.LineString:
		name, v = LineString, w.points(g)
	case orb.MultiLineString:
		name, v = MultiLineString, Value{Kind: Array}
		for _, line := range g {
			v.Items = append(v.Items, w.points(line))
		}
	case orb.Ring:
		name, v = Polygon, w.area(orb.Polygon{g})
	case orb.Polygon:
		name, v = Polygon, w.area(g)
	case orb.MultiPolygon:
		name, v = MultiPolygon, Value{Kind: Array}
		for _, area := range g {
			v.Items = append(v.Items, w.area(area))
		}
	}
	if len(v.Items) == 0 || !w.right {
		return Value{Kind: Null}
	}
	var out Value
	out.Append("type", TextOf(name))
	out.Append("coordinates", v)
	return out
}

type positionWriter struct {
	decimals int
	right    bool // finite, and no ring without positions
}

func (w *positionWriter) point(p orb.Point) Value {
	for _, n := range p {
		if math.IsNaN(n) || math.IsInf(n, 0) {
			w.right = false
		}
	}
	return Value{Kind: Array, Items: []Value{NumberSpelled(p[0], w.decimals), NumberSpelled(p[1], w.decimals)}}
}

func (w *positionWriter) points(line []orb.Point) Value {
	v := Value{Kind: Array, Items: make([]Value, 0, len(line))}
	for _, p := range line {
		v.Items = append(v.Items, w.point(p))
	}
	return v
}

func (w *positionWriter) area(area orb.Polygon) Value {
	v := Value{Kind: Array}
	for i, ring := range area {
		w.right = w.right && len(ring) > 0
		want := orb.CW
		if i == 0 {
			want = orb.CCW
		}
		v.Items = append(v.Items, w.points(turned(ring, want)))
	}
	return v
}

// turned returns the ring closed and in the direction wanted.
func turned(ring orb.Ring, want orb.Orientation) orb.Ring {
	ring = slices.Clone(ring)
	if len(ring) == 0 {
		return ring
	}
	if ring[0] != ring[len(ring)-1] {
		ring = append(ring, ring[0])
	}
	if o := ring.Orientation(); o != 0 && o != want {
		slices.Reverse(ring)
	}
	return ring
}
