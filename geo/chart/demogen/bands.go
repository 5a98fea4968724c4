package main

import (
	"fmt"
	"math"

	"keelroom/geo/chart/demobed"
)

// contoursM are the depths of the contours, metres below the sounding datum.
// The first is the coastline.
var contoursM = []float64{-demobed.LandHeightM, 0, 1, 2, 3, 5, 10, 20, 30}

// The charted surface lies marginM above the bed at every vertex of the
// mesh. That covers, see doc.go,
//
//	interpolationM  straight triangles instead of the curved bed
//	thinningM       lines with vertices left out
//	2 nudgeM        keeping the surface off a contour value at a vertex
//	roundingM       coordinates rounded by up to 7 mm, slope up to 0.7
//
// so the bed on a charted contour L is between L and L + 2 marginM, and an
// area's DRVAL2 is its deeper contour plus twice the margin: 0.2 m.
const (
	marginM        = 0.10
	interpolationM = 0.045
	thinningM      = 0.045
	nudgeM         = 0.002
	roundingM      = 0.005
	coarsestM      = 400
)

// class numbers the kinds of area: 0 land, then a band for each contour and
// what is deeper up to the next one, then the zones in order.
type class int

const (
	land    class = 0
	outside class = -1 // beyond the coverage
	noZone  class = -2
)

func zoneClass(i int) class { return class(len(contoursM) + 1 + i) }

func bandOf(surfaceM float64) class {
	n := class(0)
	for _, l := range contoursM {
		if surfaceM >= l {
			n++
		}
	}
	return n
}

// corner is a vertex of the charted surface.
type corner struct {
	at spot
	m  float64 // charted depth
}

// surface gives the charted depth at a spot: the bed less the margin, kept
// nudgeM away from every contour value so that no contour runs exactly
// through a vertex.
func surface(at spot) corner {
	m := demobed.DepthM(at.point()) - marginM
	for _, l := range contoursM {
		if math.Abs(m-l) < nudgeM {
			m = l - nudgeM
		}
	}
	return corner{at, m}
}

// side is a directed edge of a piece of one class, which lies to its left.
type side struct{ from, to spot }

// pieces collects the sides of all pieces; sides between equal classes go.
type pieces struct {
	left  map[side]class
	order []side
}

func (p *pieces) add(c class, ring []spot) error {
	ring = distinct(ring)
	if len(ring) < 3 {
		return nil // rounding left no more than a line of it
	}
	for i, from := range ring {
		s := side{from, ring[(i+1)%len(ring)]}
		if _, twice := p.left[s]; twice {
			return fmt.Errorf("demogen: the edge from %v to %v bounds two pieces on one side", s.from, s.to)
		}
		p.left[s] = c
		p.order = append(p.order, s)
	}
	return nil
}

// distinct leaves out vertices that were rounded onto their predecessor.
func distinct(ring []spot) []spot {
	var out []spot
	for i, s := range ring {
		if s != ring[(i+1)%len(ring)] {
			out = append(out, s)
		}
	}
	return out
}

// cutMesh cuts all triangles along the zones' outlines and the contours.
func cutMesh(mesh []triangle) (*pieces, error) {
	p := &pieces{left: map[side]class{}}
	for _, t := range mesh {
		ring := []spot{t.a.spot(), t.b.spot(), t.c.spot()}
		if turn(ring[0], ring[1], ring[2]) < 0 {
			ring[1], ring[2] = ring[2], ring[1]
		}
		if err := p.cutZones([3]spot(ring), 0, noZone); err != nil {
			return nil, err
		}
	}
	return p, nil
}

// turn is twice the signed area of a, b, c in units of the spots.
func turn(a, b, c spot) int64 {
	ux, uy := int64(b.lon)-int64(a.lon), int64(b.lat)-int64(a.lat)
	vx, vy := int64(c.lon)-int64(a.lon), int64(c.lat)-int64(a.lat)
	return ux*vy - uy*vx
}

// cutZones cuts a triangle along the outline of zone i and those after it.
// in is the zone that already holds it, or noZone: the first one keeps it,
// but it is cut on all the same, so that neighbours have the same vertices.
func (p *pieces) cutZones(t [3]spot, i int, in class) error {
	if i == len(zones) {
		return p.cutContours(t, in)
	}
	inner, outer := splitByZone(t, zones[i])
	here := in
	if in == noZone {
		here = zoneClass(i)
	}
	if err := p.cutFan(inner, i+1, here); err != nil {
		return err
	}
	return p.cutFan(outer, i+1, in)
}

// cutFan cuts on the triangles of a convex ring.
func (p *pieces) cutFan(ring []spot, i int, in class) error {
	ring = distinct(ring)
	for k := 2; k < len(ring); k++ {
		if err := p.cutZones([3]spot{ring[0], ring[k-1], ring[k]}, i, in); err != nil {
			return err
		}
	}
	return nil
}

// splitByZone returns the parts of t inside and outside the zone.
func splitByZone(t [3]spot, z zone) (in, out []spot) {
	for i, a := range t {
		b := t[(i+1)%3]
		da, db := z.from(a), z.from(b)
		if da <= 0 {
			in = append(in, a)
		} else {
			out = append(out, a)
		}
		if (da <= 0) != (db <= 0) {
			x := crossing(a, b, da, db)
			in, out = append(in, x), append(out, x)
		}
	}
	return in, out
}

// from is the distance of s from the outline, negative inside. A vertex of
// the mesh within snapM of the outline counts as lying on it.
func (z zone) from(s spot) float64 {
	const snapM = 0.2
	x, y := s.metres()
	if d := z.outside(x, y); math.Abs(d) > snapM {
		return d
	}
	return 0
}

// crossing is where the straight line from value va at a to vb at b is 0.
func crossing(a, b spot, va, vb float64) spot {
	if b.less(a) {
		a, b, va, vb = b, a, vb, va
	}
	return a.along(b, va/(va-vb))
}

// cutContours cuts a triangle of the charted surface into bands. One that a
// zone holds stays whole, but gets the vertices that its neighbours get.
func (p *pieces) cutContours(t [3]spot, in class) error {
	var ring []corner
	shoalest, deepest := bandOf(math.Inf(1)), land
	for i := range t {
		a, b := surface(t[i]), surface(t[(i+1)%3])
		ring = append(append(ring, a), contoursAlong(a, b)...)
		shoalest, deepest = min(shoalest, bandOf(a.m)), max(deepest, bandOf(a.m))
	}
	if in != noZone {
		return p.add(in, spotsOf(ring))
	}
	for c := shoalest; c <= deepest; c++ {
		if err := p.add(c, ringOfBand(ring, c)); err != nil {
			return err
		}
	}
	return nil
}

func spotsOf(ring []corner) []spot {
	var out []spot
	for _, v := range ring {
		out = append(out, v.at)
	}
	return out
}

// contoursAlong returns the contour crossings on the way from a to b.
func contoursAlong(a, b corner) []corner {
	var out []corner
	for _, l := range contoursM {
		if (a.m < l) != (b.m < l) {
			out = append(out, corner{crossing(a.at, b.at, a.m-l, b.m-l), l})
		}
	}
	if a.m > b.m {
		for i, j := 0, len(out)-1; i < j; i, j = i+1, j-1 {
			out[i], out[j] = out[j], out[i]
		}
	}
	return out
}

// ringOfBand picks the vertices of a triangle's outline that belong to the
// band: its contours included. They are in order, and the piece is convex.
func ringOfBand(ring []corner, c class) []spot {
	lo, hi := math.Inf(-1), math.Inf(1)
	if c > 0 {
		lo = contoursM[c-1]
	}
	if int(c) < len(contoursM) {
		hi = contoursM[c]
	}
	var out []spot
	for _, v := range ring {
		if v.m >= lo && v.m <= hi {
			out = append(out, v.at)
		}
	}
	return out
}
