package layer

import (
	"fmt"
	"slices"

	"keelroom/geo/chart"
)

// halfCircle is 180 degrees in the unit of chart.Coord.
const halfCircle = 1_800_000_000

// shaper checks and cleans the geometry of one object after another. Its result
// lies in its own memory and holds until the next call.
type shaper struct {
	coords   []chart.Coord
	ends     []int32
	polygons []int32
	borders  []int32
	moved    []int32 // where each vertex of a geometry with a border went, -1 nowhere
	cross    crossing
}

// shape closes rings, drops equal neighbours and says what is wrong with the
// geometry of r, which it replaces.
func (s *shaper) shape(r *reading) {
	s.coords, s.ends, s.polygons = s.coords[:0], s.ends[:0], s.polygons[:0]
	s.borders, s.moved = s.borders[:0], s.moved[:0]
	g := &r.Geometry
	switch {
	case len(g.Coords) == 0:
		r.fail("E-GEOM", "", "no coordinates", "at least one position")
		return
	case g.Prim == chart.Point:
		g.Ends, g.Border = nil, nil
		return
	case g.Prim == chart.Line:
		s.lines(r)
	case g.Prim == chart.Area:
		s.rings(r)
		if !r.failed && !wellNested(g, r.Polygons) {
			r.fail("E-GEOM", "", "a part or a hole that lies over another", "parts beside each other, each hole inside its own part")
		}
	}
	if r.failed {
		return
	}
	if len(s.ends) == 0 {
		r.fail("E-GEOM", "", "a "+g.Prim.String()+" without extent", "positions that differ")
		return
	}
	s.moveBorder(g.Border)
	g.Coords, g.Ends, g.DepthsM, g.Border = s.coords, s.ends, nil, s.borders
	if len(s.polygons) > 1 {
		g.Polygons = s.polygons
	}
	if g.Prim != chart.Area {
		return
	}
	switch n := s.cross.count(g, mostCrossings); {
	case n > mostCrossings:
		r.fail("E-GEOM", "", fmt.Sprintf("a boundary that crosses itself over %d times", mostCrossings), "rings that do not cross")
	case n > 0:
		r.warn("W-SELFX", "", "a boundary that crosses itself; inside is decided even-odd", "rings that do not cross")
	}
}

func (s *shaper) lines(r *reading) {
	n, start := 0, int32(0)
	for _, end := range r.Geometry.Ends {
		part := r.Geometry.Coords[start:end]
		n, start = n+1, end
		switch {
		case len(part) < 2:
			r.fail("E-GEOM", "", fmt.Sprintf("line %d of %d positions", n, len(part)), "2 or more positions")
			return
		case leaps(part):
			r.fail("E-ANTIMERIDIAN", "", fmt.Sprintf("line %d leaps over 180 degrees of longitude", n), wantedCut)
			return
		}
		s.part(part, 2, len(r.Geometry.Border) > 0)
	}
}

const wantedCut = "a geometry cut at the antimeridian"

func (s *shaper) rings(r *reading) {
	n, start, polygon := 0, int32(0), 0
	for _, end := range r.Geometry.Ends {
		ring := r.Geometry.Coords[start:end]
		n, start = n+1, end
		switch {
		case len(ring) < 4:
			r.fail("E-GEOM", "", fmt.Sprintf("ring %d of %d positions", n, len(ring)), "4 or more positions, the last like the first")
			return
		case width(ring) > halfCircle:
			r.fail("E-ANTIMERIDIAN", "", fmt.Sprintf("ring %d is over 180 degrees wide", n), wantedCut)
			return
		case ring[0] != ring[len(ring)-1]:
			r.warn("W-RING", "", fmt.Sprintf("ring %d does not end where it begins; it was closed", n), "a last position like the first")
		}
		s.part(ring, 4, len(r.Geometry.Border) > 0)
		for ; polygon < len(r.Polygons) && int(r.Polygons[polygon]) <= n; polygon++ {
			s.polygon()
		}
	}
}

// polygon ends a polygon, if anything was kept of it.
func (s *shaper) polygon() {
	n := int32(len(s.ends))
	if before := len(s.polygons); n > 0 && (before == 0 || s.polygons[before-1] < n) {
		s.polygons = append(s.polygons, n)
	}
}

// part keeps a line or ring of at least that many vertices once equal
// neighbours are dropped and a ring is closed. A shorter one has no extent.
// track notes where the vertices went.
func (s *shaper) part(vertices []chart.Coord, least int, track bool) {
	start := len(s.coords)
	for i, c := range vertices {
		if i == 0 || c != s.coords[len(s.coords)-1] {
			s.coords = append(s.coords, c)
		}
		if track {
			s.moved = append(s.moved, int32(len(s.coords)-1))
		}
	}
	if first := s.coords[start]; least == 4 && first != s.coords[len(s.coords)-1] {
		s.coords = append(s.coords, first)
	}
	if len(s.coords)-start < least {
		s.coords = s.coords[:start]
		for i := range s.moved[len(s.moved)-min(len(s.moved), len(vertices)):] {
			s.moved[len(s.moved)-1-i] = -1
		}
		return
	}
	s.ends = append(s.ends, int32(len(s.coords)))
}

// moveBorder keeps the runs along the border, by where their vertices went.
func (s *shaper) moveBorder(border []int32) {
	for i := 1; i < len(border); i += 2 {
		first, last := s.moved[border[i-1]], s.moved[border[i]]
		if first >= 0 && first < last {
			s.borders = append(s.borders, first, last)
		}
	}
}

func width(part []chart.Coord) int64 {
	west, east := part[0].Lon, part[0].Lon
	for _, c := range part {
		west, east = min(west, c.Lon), max(east, c.Lon)
	}
	return int64(east) - int64(west)
}

// leaps reports whether a step of the line is wider than half the globe.
func leaps(line []chart.Coord) bool {
	for i, c := range line[1:] {
		if d := int64(c.Lon) - int64(line[i].Lon); d > halfCircle || -d > halfCircle {
			return true
		}
	}
	return false
}

// box is the least box about the coordinates, of which there is at least one.
func box(coords []chart.Coord) (lo, hi chart.Coord) {
	lo, hi = coords[0], coords[0]
	for _, c := range coords[1:] {
		lo.Lon, hi.Lon = min(lo.Lon, c.Lon), max(hi.Lon, c.Lon)
		lo.Lat, hi.Lat = min(lo.Lat, c.Lat), max(hi.Lat, c.Lat)
	}
	return lo, hi
}

// slab gives out small slices of large blocks: a layer has features by the ten
// thousand that live and die together.
type slab[T any] struct{ free []T }

const slabBlock = 4096

// keep returns a copy of items with no room to grow.
func (s *slab[T]) keep(items []T) []T {
	if len(items) == 0 {
		return nil
	}
	if len(items) > slabBlock/4 {
		return slices.Clip(slices.Clone(items))
	}
	if len(items) > len(s.free) {
		s.free = make([]T, slabBlock)
	}
	out := s.free[:len(items):len(items)]
	s.free = s.free[len(items):]
	copy(out, items)
	return out
}
