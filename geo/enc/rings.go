package enc

import (
	"keelroom/geo/chart"
)

// rings joins the edges of an area. The order of the pointers closes every ring
// of well made cells; where it does not, equal end points are looked for. Rings
// of USAG 2 are holes, those of 1 and 3 exteriors: the direction of a ring says
// nothing.
func (s *shaper) rings() error {
	if !s.inOrder() && !s.byEnds() {
		s.restore()
		return &geometryFault{found: "rings that do not close", wanted: "edges that lead back to their start", whole: true}
	}
	if len(s.polygons) == 0 {
		return &geometryFault{found: "holes and no outer ring", wanted: "an outer ring", whole: true}
	}
	return nil
}

// inOrder follows the pointers as they are; false where a ring does not close.
func (s *shaper) inOrder() bool {
	s.restart()
	for i := 0; i < len(s.edges); {
		first := i
		for {
			e := &s.edges[i]
			if i > first && (e.hole != s.edges[first].hole || s.vertices[e.from] != s.here()) {
				return false
			}
			s.extend(e)
			if i++; s.closed() {
				break
			}
			if i == len(s.edges) {
				return false
			}
		}
		s.endRing(s.edges[first].hole)
	}
	return true
}

// byEnds joins edges by their end points, whatever the order and orientation
// of the pointers; false where a ring does not close.
func (s *shaper) byEnds() bool {
	s.restart()
	ends := map[chart.Coord][]int{}
	for i, e := range s.edges {
		ends[s.vertices[e.from]] = append(ends[s.vertices[e.from]], i)
		ends[s.vertices[e.to-1]] = append(ends[s.vertices[e.to-1]], i)
	}
	for first := range s.edges {
		if s.edges[first].used {
			continue
		}
		hole := s.edges[first].hole
		s.extend(&s.edges[first])
		for !s.closed() {
			next := s.follow(ends, hole)
			if next == nil {
				return false
			}
			s.extend(next)
		}
		s.endRing(hole)
	}
	return true
}

// follow is an unused edge that begins or ends where the ring stands, turned
// to begin there.
func (s *shaper) follow(ends map[chart.Coord][]int, hole bool) *edgeUse {
	here := s.here()
	list := ends[here]
	for len(list) > 0 {
		i := list[len(list)-1]
		list = list[:len(list)-1]
		e := &s.edges[i]
		if e.used || e.hole != hole {
			continue
		}
		ends[here] = list
		if s.vertices[e.from] != here {
			turn(s.vertices[e.from:e.to])
		}
		return e
	}
	return nil
}

func turn(v []chart.Coord) {
	for i, j := 0, len(v)-1; i < j; i, j = i+1, j-1 {
		v[i], v[j] = v[j], v[i]
	}
}

func (s *shaper) restart() {
	g := &s.geometry
	g.Coords, g.Ends, g.Border, s.polygons = g.Coords[:0], g.Ends[:0], g.Border[:0], s.polygons[:0]
	for i := range s.edges {
		s.edges[i].used = false
	}
}

// restore puts all vertices into the geometry as they are, so that its box
// holds them.
func (s *shaper) restore() {
	s.restart()
	s.geometry.Coords = append(s.geometry.Coords, s.vertices...)
	s.endPart()
}

// here is where the ring stands.
func (s *shaper) here() chart.Coord { return s.geometry.Coords[len(s.geometry.Coords)-1] }

// closed reports whether the ring has come back to its start.
func (s *shaper) closed() bool {
	start := s.partStart()
	return len(s.geometry.Coords) > start+1 && s.here() == s.geometry.Coords[start]
}

// endRing ends a ring: an exterior begins a polygon, a hole belongs to the
// polygon before it.
func (s *shaper) endRing(hole bool) {
	s.endPart()
	n := int32(len(s.geometry.Ends))
	switch {
	case !hole:
		s.polygons = append(s.polygons, n)
	case len(s.polygons) > 0:
		s.polygons[len(s.polygons)-1] = n
	}
}
