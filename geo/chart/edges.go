package chart

import (
	"cmp"
	"math"
	"slices"
)

// edge is a straight part of a boundary.
type edge struct{ a, b Coord }

func (e edge) canonical() edge {
	if compareCoords(e.b, e.a) < 0 {
		return edge{e.b, e.a}
	}
	return e
}

func compareCoords(a, b Coord) int {
	if a.Lon != b.Lon {
		return cmp.Compare(a.Lon, b.Lon)
	}
	return cmp.Compare(a.Lat, b.Lat)
}

// The sides of an edge on which areas lie, seen along its canonical direction.
const (
	leftSide  uint8 = 1
	rightSide uint8 = 2
)

// freeEdges gives the edges of a family that have areas of their set on one
// side only.
func (c *Chart) freeEdges(q *Query, family func(*Feature) bool) []edge {
	var free []edge
	t := edgeTable{}
	for i, f := range c.features {
		if family(f) {
			f.eachRing(func(ring []Coord, whole bool) {
				c.did(len(ring))
				if q.looks > maxGapLooks && !whole {
					t.addUnseen(ring)
					return
				}
				t.addRing(ring, c.interiorLeft(q, int32(i), ring, whole))
			})
		}
		if i+1 == len(c.features) || c.features[i+1].Set != f.Set {
			free = t.takeFree(free)
		}
	}
	return free
}

// eachRing calls fn for each ring of an area; whole tells that it is the only
// one.
func (f *Feature) eachRing(fn func(ring []Coord, whole bool)) {
	f.Parts(func(ring []Coord) { fn(ring, len(f.Ends) == 1) })
}

// interiorLeft tells on which side of a ring its area lies. The direction of
// rings says nothing: of a lone ring the signed area tells, of one among many
// whether the feature holds the place left of its longest edge.
func (c *Chart) interiorLeft(q *Query, feature int32, ring []Coord, whole bool) bool {
	if whole {
		return signedArea(ring) > 0
	}
	var longest edge
	for i := 1; i < len(ring); i++ {
		if e := (edge{ring[i-1], ring[i]}); edgeLength(e.a, e.b) > edgeLength(longest.a, longest.b) || i == 1 {
			longest = e
		}
	}
	left, _ := longest.sides()
	q.reset()
	q.markInside(left)
	return q.of(feature).odd
}

// signedArea is twice the area in square units of 1e-7 degrees, positive for a
// ring that runs counter-clockwise.
func signedArea(ring []Coord) float64 {
	sum := 0.0
	for i := 2; i < len(ring); i++ {
		ux, uy := float64(ring[i-1].Lon)-float64(ring[0].Lon), float64(ring[i-1].Lat)-float64(ring[0].Lat)
		vx, vy := float64(ring[i].Lon)-float64(ring[0].Lon), float64(ring[i].Lat)-float64(ring[0].Lat)
		sum += ux*vy - uy*vx
	}
	return sum
}

// edgeTable is a hash table of canonical edges with the sides on which areas
// lie. It keeps the order in which they came. Edges lie in pages, as a large chart has
// more of them than fit into memory twice, while they move from one slice to the next.
type edgeTable struct {
	pages []*edgePage
	count int
	slots []int32 // 1 + the number of an edge, 0 empty; a power of two of them
}

const pageEdges = 1 << 12

type edgePage struct {
	edges [pageEdges]edge
	sides [pageEdges]uint8
}

// at is the page of an edge and its place in it.
func (t *edgeTable) at(i int32) (*edgePage, int32) { return t.pages[i/pageEdges], i % pageEdges }

func (t *edgeTable) addRing(ring []Coord, interiorLeft bool) {
	for i := 1; i < len(ring); i++ {
		e := edge{ring[i-1], ring[i]}
		if e.a == e.b {
			continue
		}
		side := rightSide
		if k := e.canonical(); (k == e) == interiorLeft {
			side = leftSide
		}
		t.add(e.canonical(), side)
	}
}

// addUnseen adds a ring whose sides are not known: its edges stay free unless
// neighbours have both of their sides.
func (t *edgeTable) addUnseen(ring []Coord) {
	for i := 1; i < len(ring); i++ {
		if e := (edge{ring[i-1], ring[i]}); e.a != e.b {
			t.add(e.canonical(), 0)
		}
	}
}

func (t *edgeTable) add(e edge, side uint8) {
	if 4*t.count >= 3*len(t.slots) {
		t.grow()
	}
	i := t.slot(e)
	if t.slots[i] == 0 {
		t.slots[i] = t.append(e)
	}
	page, k := t.at(t.slots[i] - 1)
	page.sides[k] |= side
}

// append adds an edge without sides and returns what its slot holds.
func (t *edgeTable) append(e edge) int32 {
	if t.count == len(t.pages)*pageEdges {
		t.pages = append(t.pages, new(edgePage))
	}
	page, k := t.at(int32(t.count))
	page.edges[k], page.sides[k] = e, 0
	t.count++
	return int32(t.count)
}

// slot is where an edge is or would be.
func (t *edgeTable) slot(e edge) uint64 {
	mask := uint64(len(t.slots) - 1)
	for i := e.hash() & mask; ; i = (i + 1) & mask {
		if t.slots[i] == 0 {
			return i
		}
		if page, k := t.at(t.slots[i] - 1); page.edges[k] == e {
			return i
		}
	}
}

func (t *edgeTable) grow() {
	t.slots = make([]int32, max(1024, 2*len(t.slots)))
	for i := range int32(t.count) {
		page, k := t.at(i)
		t.slots[t.slot(page.edges[k])] = i + 1
	}
}

// hash mixes the four numbers of an edge: multiplications by odd constants and
// shifts, after the finaliser of MurmurHash3 (A. Appleby 2011, public domain).
func (e edge) hash() uint64 {
	h := (uint64(uint32(e.a.Lon))<<32 | uint64(uint32(e.a.Lat))) * 0xff51afd7ed558ccd
	h ^= h >> 32
	h = (h ^ (uint64(uint32(e.b.Lon))<<32 | uint64(uint32(e.b.Lat)))) * 0xc4ceb9fe1a85ec53
	return h ^ h>>33
}

// takeFree appends the edges with areas on one side only and empties the table.
func (t *edgeTable) takeFree(out []edge) []edge {
	for i := range int32(t.count) {
		if page, k := t.at(i); page.sides[k] != leftSide|rightSide {
			out = append(out, page.edges[k])
		}
	}
	t.count = 0
	clear(t.slots)
	return out
}

// sides are places just beside the middle of the edge.
func (e edge) sides() (left, right Coord) {
	dx, dy := float64(e.b.Lon)-float64(e.a.Lon), float64(e.b.Lat)-float64(e.a.Lat)
	l := max(1, math.Abs(dx), math.Abs(dy))
	nx, ny := int32(math.Round(-dy/l*sideStep)), int32(math.Round(dx/l*sideStep))
	lon, lat := (int64(e.a.Lon)+int64(e.b.Lon))/2, (int64(e.a.Lat)+int64(e.b.Lat))/2
	mid := Coord{int32(lon), int32(lat)}
	return Coord{mid.Lon + nx, mid.Lat + ny}, Coord{mid.Lon - nx, mid.Lat - ny}
}

// split cuts an edge where vertices of areas lie on it (clipped data have such
// T-junctions) and where edges of areas cross it (charts that overlap do): what
// lies beside it may change there.
func (c *Chart) split(q *Query, e edge) []edge {
	lo, hi := box([]Coord{e.a, e.b})
	lo, hi = Coord{lo.Lon - 2, lo.Lat - 2}, Coord{hi.Lon + 2, hi.Lat + 2}
	var cuts []float64
	c.rims.search(degreesOf(lo), degreesOf(hi), func(k chunk) {
		q.looks++
		if f := c.features[k.feature]; c.familyCover(f) || c.familyBare(f) || c.familyTiles(f) {
			cuts = e.appendCuts(cuts, f.Coords[k.first:k.first+k.segments+1])
		}
	})
	if len(cuts) == 0 {
		return []edge{e}
	}
	slices.Sort(cuts)
	return e.cutAt(cuts)
}

// appendCuts appends where, from 0 to 1, the edge is touched or crossed by a
// run of boundary.
func (e edge) appendCuts(cuts []float64, run []Coord) []float64 {
	for i, v := range run {
		if t, on := e.passes(v); on {
			cuts = append(cuts, t)
		}
		if i > 0 {
			if t, crosses := e.crossedBy(run[i-1], v); crosses {
				cuts = append(cuts, t)
			}
		}
	}
	return cuts
}

// cutAt cuts the edge at sorted places. Parts too short to look beside are left
// with their neighbour.
func (e edge) cutAt(cuts []float64) []edge {
	var out []edge
	from := e.a
	for _, t := range cuts {
		v := Coord{e.a.Lon + int32(math.Round(t*(float64(e.b.Lon)-float64(e.a.Lon)))),
			e.a.Lat + int32(math.Round(t*(float64(e.b.Lat)-float64(e.a.Lat))))}
		if edgeLength(from, v) > 3*sideStep && edgeLength(v, e.b) > 3*sideStep {
			out = append(out, edge{from, v})
			from = v
		}
	}
	return append(out, edge{from, e.b})
}

// passes reports whether v lies on the edge, within rounding, between its ends,
// and where from 0 to 1.
func (e edge) passes(v Coord) (t float64, ok bool) {
	if v == e.a || v == e.b {
		return 0, false
	}
	dx, dy := float64(e.b.Lon)-float64(e.a.Lon), float64(e.b.Lat)-float64(e.a.Lat)
	vx, vy := float64(v.Lon)-float64(e.a.Lon), float64(v.Lat)-float64(e.a.Lat)
	along, length2 := vx*dx+vy*dy, dx*dx+dy*dy
	if along <= 0 || along >= length2 || math.Abs(vx*dy-vy*dx) > 2*max(math.Abs(dx), math.Abs(dy)) {
		return 0, false
	}
	return along / length2, true
}

// crossedBy reports whether the edge from p to r crosses this one, and where from
// 0 to 1.
func (e edge) crossedBy(p, r Coord) (t float64, ok bool) {
	dx, dy := float64(e.b.Lon)-float64(e.a.Lon), float64(e.b.Lat)-float64(e.a.Lat)
	side := func(v Coord) float64 {
		return dx*(float64(v.Lat)-float64(e.a.Lat)) - dy*(float64(v.Lon)-float64(e.a.Lon))
	}
	sp, sr := side(p), side(r)
	if (sp < 0) == (sr < 0) {
		return 0, false
	}
	k := sp / (sp - sr)
	x := float64(p.Lon) + k*(float64(r.Lon)-float64(p.Lon)) - float64(e.a.Lon)
	y := float64(p.Lat) + k*(float64(r.Lat)-float64(p.Lat)) - float64(e.a.Lat)
	t = (x*dx + y*dy) / (dx*dx + dy*dy)
	return t, t > 0 && t < 1
}
