package chart

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"
)

// Where charts end, and where one has a hole, matters as much as what they
// say. Areas that tile a surface share their edges, vertex for vertex (S-57
// App. B.1, 3.8); an edge that only one area has is either the border of the
// data or the rim of a hole. Such edges are rare, so each is looked at once,
// when the chart is built: a place just beside it that no area holds makes it
// a gap edge, and a corridor that comes near a gap edge touches the unknown.

// maxFreeEdges bounds the work: beyond so many unmatched edges (two charts
// drawn by hand over each other, say) the rest count as gaps unseen.
const maxFreeEdges = 50000

// sideStep is how far beside an edge its sides are looked at, in 1e-7 degrees:
// a few times the resolution of positions.
const sideStep = 4

// familyCover tells whether the feature says where data exist: M_COVR 1, or
// any charted area of a private layer where no chart is loaded.
func (c *Chart) familyCover(f *Feature) bool {
	if f.Set == nil || f.Prim != Area {
		return false
	}
	if c.onlyOwn {
		return f.covers() || f.Class.group1()
	}
	return f.Set.Authority != Private && f.covers()
}

// familyTiles tells whether the feature describes the surface: depth or land.
func (c *Chart) familyTiles(f *Feature) bool {
	return f.Set != nil && f.Prim == Area && f.Class.group1() && (c.onlyOwn || f.Set.Authority != Private)
}

type edge struct{ a, b Coord }

// addGaps finds the gap edges of both families and indexes them.
func (c *Chart) addGaps() {
	q := c.NewQuery()
	cover := c.freeEdges(c.familyCover)
	tiles := c.freeEdges(c.familyTiles)
	outside := c.gapEdges(q, cover, func(p Coord) bool { return q.anyHolds(p, c.familyCover) })
	holes := c.gapEdges(q, tiles, func(p Coord) bool {
		return q.anyHolds(p, c.familyTiles) || !q.anyHolds(p, c.familyCover)
	})
	c.addGapFeature(gapCover, outside)
	c.addGapFeature(gapTiles, holes)
}

// addGapFeature adds gap edges as one feature of a class of our own. Its set is
// a nameless one: gaps belong to the chart as a whole.
func (c *Chart) addGapFeature(class Class, edges []edge) {
	if len(edges) == 0 {
		return
	}
	f := &Feature{Class: class, Set: &Set{Authority: Derived}, DepthMinM: Unknown, DepthMaxM: Unknown}
	f.Prim = Line
	for _, e := range edges {
		f.Coords = append(f.Coords, e.a, e.b)
		f.Ends = append(f.Ends, int32(len(f.Coords)))
	}
	c.add(f)
}

// freeEdges gives the edges that an odd number of areas of the family have.
func (c *Chart) freeEdges(family func(*Feature) bool) []edge {
	var all []edge
	for _, f := range c.features {
		if family(f) {
			f.Parts(func(ring []Coord) {
				for i := 1; i < len(ring); i++ {
					all = append(all, canonical(ring[i-1], ring[i]))
				}
			})
		}
	}
	slices.SortFunc(all, compareEdges)
	var free []edge
	for i := 0; i < len(all); {
		j := i + 1
		for j < len(all) && all[j] == all[i] {
			j++
		}
		if (j-i)%2 == 1 && all[i].a != all[i].b {
			free = append(free, all[i])
		}
		i = j
	}
	return free
}

func canonical(a, b Coord) edge {
	if compareCoords(b, a) < 0 {
		return edge{b, a}
	}
	return edge{a, b}
}

func compareCoords(a, b Coord) int {
	if a.Lon != b.Lon {
		return cmp.Compare(a.Lon, b.Lon)
	}
	return cmp.Compare(a.Lat, b.Lat)
}

func compareEdges(e, f edge) int {
	if d := compareCoords(e.a, f.a); d != 0 {
		return d
	}
	return compareCoords(e.b, f.b)
}

// gapEdges keeps the parts of edges beside which a place is not fine.
func (c *Chart) gapEdges(q *Query, free []edge, fine func(Coord) bool) []edge {
	var out []edge
	for i, e := range free {
		if i >= maxFreeEdges {
			return append(out, free[i:]...)
		}
		for _, part := range c.splitAtVertices(e) {
			left, right := part.sides()
			if !fine(left) || !fine(right) {
				out = append(out, part)
			}
		}
	}
	return out
}

// sides are places just beside the middle of the edge.
func (e edge) sides() (left, right Coord) {
	dx, dy := float64(e.b.Lon-e.a.Lon), float64(e.b.Lat-e.a.Lat)
	l := max(1, maxAbs(dx, dy))
	nx, ny := int32(-dy/l*sideStep), int32(dx/l*sideStep)
	mid := Coord{e.a.Lon + (e.b.Lon-e.a.Lon)/2, e.a.Lat + (e.b.Lat-e.a.Lat)/2}
	return Coord{mid.Lon + nx, mid.Lat + ny}, Coord{mid.Lon - nx, mid.Lat - ny}
}

func maxAbs(a, b float64) float64 { return max(a, -a, b, -b) }

// splitAtVertices cuts an edge where vertices of other areas lie on it: there
// its neighbour may change (clipped data have such T-junctions).
func (c *Chart) splitAtVertices(e edge) []edge {
	lo, hi := box([]Coord{e.a, e.b})
	lo, hi = Coord{lo.Lon - 2, lo.Lat - 2}, Coord{hi.Lon + 2, hi.Lat + 2}
	var on []Coord
	c.edges.Search(degreesOf(lo), degreesOf(hi), func(_, _ [2]float64, k chunk) bool {
		f := c.features[k.feature]
		if f.Prim == Area {
			for _, v := range f.Coords[k.first : k.first+k.segments+1] {
				if e.passes(v) {
					on = append(on, v)
				}
			}
		}
		return true
	})
	slices.SortFunc(on, compareCoords)
	on = slices.Compact(on)
	var out []edge
	at := e.a
	for _, v := range append(on, e.b) {
		if edgeLength(at, v) > 3*sideStep || v == e.b {
			out = append(out, edge{at, v})
			at = v
		}
	}
	return out
}

// passes tells whether v lies on the edge, within rounding, between its ends.
func (e edge) passes(v Coord) bool {
	if v == e.a || v == e.b {
		return false
	}
	dx, dy := int64(e.b.Lon)-int64(e.a.Lon), int64(e.b.Lat)-int64(e.a.Lat)
	vx, vy := int64(v.Lon)-int64(e.a.Lon), int64(v.Lat)-int64(e.a.Lat)
	along, length2 := vx*dx+vy*dy, dx*dx+dy*dy
	if along <= 0 || along >= length2 {
		return false
	}
	return abs(vx*dy-vy*dx) <= 2*max(abs(dx), abs(dy))
}

// anyHolds tells whether an area of the family holds the place.
func (q *Query) anyHolds(p Coord, family func(*Feature) bool) bool {
	q.reset()
	q.markInside(p)
	return slices.ContainsFunc(q.work, func(w found) bool {
		return w.odd && family(q.chart.features[w.feature])
	})
}

// Holds tells whether any set has data at a place.
func (q *Query) Holds(p orb.Point) bool { return q.anyHolds(CoordOf(p), q.chart.familyCover) }
