package chart

// Whether an area holds a place follows from how often a ray from the place due east
// crosses its boundary. A run of boundary that lies wholly east of the place crosses
// the ray an odd number of times if its ends are on different sides of the ray's
// parallel, whatever it does between. So a binary tree of boxes over the runs, in the
// order of the boundary, is gone down only where a box holds the place's meridian or
// begins at it: a few dozen looks, however long the boundary (ray crossing after
// Shimrat 1962, CACM 5(8) 434; the tree as in package layer's crossing).

// runSegments is how many segments a lowest box holds.
const runSegments = 16

// boundary is the tree of an area, nil for a feature that is none.
type boundary struct {
	rings []ringTree
	boxes []corners
}

type corners struct{ lo, hi Coord }

// ringTree is the tree of one ring: levels of boxes, the lowest first, each in the
// area's boxes from first on.
type ringTree struct {
	start, segments int32   // in the area's vertices
	box             corners // of all of it
	levels          []treeLevel
}

type treeLevel struct{ first, count int32 }

func newBoundary(g *Geometry) *boundary {
	b := &boundary{rings: make([]ringTree, 0, len(g.Ends))}
	start := int32(0)
	for _, end := range g.Ends {
		if end-start > 1 {
			b.addRing(g.Coords, start, end-start-1)
		}
		start = end
	}
	return b
}

func (b *boundary) addRing(coords []Coord, start, segments int32) {
	r := ringTree{start: start, segments: segments}
	first := int32(len(b.boxes))
	for i := int32(0); i < segments; i += runSegments {
		lo, hi := box(coords[start+i : start+min(i+runSegments, segments)+1])
		b.boxes = append(b.boxes, corners{lo, hi})
	}
	for count := int32(len(b.boxes)) - first; ; {
		r.levels = append(r.levels, treeLevel{first, count})
		if count == 1 {
			r.box = b.boxes[first]
			break
		}
		next := int32(len(b.boxes))
		for i := int32(0); i < count; i += 2 {
			c := b.boxes[first+i]
			if i+1 < count {
				c = c.join(b.boxes[first+i+1])
			}
			b.boxes = append(b.boxes, c)
		}
		first, count = next, int32(len(b.boxes))-next
	}
	b.rings = append(b.rings, r)
}

func (c corners) join(d corners) corners {
	return corners{
		Coord{min(c.lo.Lon, d.lo.Lon), min(c.lo.Lat, d.lo.Lat)},
		Coord{max(c.hi.Lon, d.hi.Lon), max(c.hi.Lat, d.hi.Lat)},
	}
}

// holds reports whether the area with these vertices holds a place, even-odd over all
// its rings. looks counts the boxes that were looked at.
func (b *boundary) holds(coords []Coord, p Coord, looks *int) bool {
	odd := false
	for i := range b.rings {
		r := &b.rings[i]
		if c := &r.box; c.hi.Lat <= p.Lat || c.lo.Lat > p.Lat || c.hi.Lon < p.Lon {
			*looks++ // most rings lie elsewhere
			continue
		}
		if b.crossed(coords, r, len(r.levels)-1, 0, p, looks) {
			odd = !odd
		}
	}
	return odd
}

// crossed reports whether the ray crosses the run under a box an odd number of times.
func (b *boundary) crossed(coords []Coord, r *ringTree, depth int, i int32, p Coord, looks *int) bool {
	*looks++
	c := &b.boxes[r.levels[depth].first+i]
	if c.hi.Lat <= p.Lat || c.lo.Lat > p.Lat || c.hi.Lon < p.Lon {
		return false
	}
	from := min(i*runSegments<<depth, r.segments)
	to := min((i+1)*runSegments<<depth, r.segments)
	run := coords[r.start+from : r.start+to+1]
	if c.lo.Lon > p.Lon {
		return (run[0].Lat > p.Lat) != (run[len(run)-1].Lat > p.Lat)
	}
	if depth > 0 {
		odd := b.crossed(coords, r, depth-1, 2*i, p, looks)
		if 2*i+1 < r.levels[depth-1].count {
			odd = odd != b.crossed(coords, r, depth-1, 2*i+1, p, looks)
		}
		return odd
	}
	odd, north := false, run[0].Lat > p.Lat
	for k := 1; k < len(run); k++ {
		now := run[k].Lat > p.Lat
		if now != north && crossesEast(p, run[k-1], run[k]) {
			odd = !odd
		}
		north = now
	}
	return odd
}
