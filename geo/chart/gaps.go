package chart

import (
	"math"

	"github.com/paulmach/orb"
)

// Where charts end, and where one has a hole, matters as much as what they
// say. Areas that tile a surface share their edges, vertex for vertex (S-57
// App. B.1, 3.8); an edge with an area of its set on one side only is the
// border of the data, the rim of a hole, or the border of an area that lies
// over others. Such edges are rare, so each is looked at once, when the chart
// is built: a place just beside it that no area holds makes it a gap edge, and
// a corridor that comes near a gap edge touches the unknown.

// maxGapLooks bounds the work, in runs of boundary looked at: beyond it (areas
// drawn by hand that share no edges, by the ten thousand) the rest of the
// unmatched edges count as gaps unseen, which is the safe side. US5MA12M takes
// 240 000.
var maxGapLooks = 2_000_000

// sideStep is how far beside an edge its sides are looked at, in 1e-7 degrees:
// a few times the resolution of positions.
const sideStep = 4

// familyCover reports whether the feature says where data exist: M_COVR 1, or
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

// familyTiles reports whether the feature describes the surface: depth or land.
func (c *Chart) familyTiles(f *Feature) bool {
	return f.Set != nil && f.Prim == Area && f.Class.group1() && (c.onlyOwn || f.Set.Authority != Private)
}

// familyBare reports whether the feature says where its set has no data, of a set
// whose coverage counts.
func (c *Chart) familyBare(f *Feature) bool {
	return f.Set != nil && f.Prim == Area && f.uncovers() && (c.onlyOwn || f.Set.Authority != Private)
}

// covered reports whether some set has data at a place.
func (q *Query) covered(p Coord) bool {
	cover, _ := q.ranksAt(p)
	return min(cover[derived], cover[official]) < math.MaxInt
}

// tiled reports whether a place that has data is described: by an area of the
// largest scale that has coverage there, or of a larger one. Smaller scales do
// not fill its holes.
func (q *Query) tiled(p Coord) bool {
	cover, tile := q.ranksAt(p)
	return described(cover, tile) && min(tile[derived], tile[official]) < math.MaxInt
}

// noHole reports whether a place is described, or has no data to be described.
func (q *Query) noHole(p Coord) bool { return described(q.ranksAt(p)) }

// described reports whether all that have data at a place describe it. What an
// official chart leaves open no derived one fills. A derived chart counts where no
// official one of as large a scale has data.
func described(cover, tile ranks) bool {
	if cover[official] < math.MaxInt && tile[official] > cover[official] {
		return false
	}
	return cover[derived] == math.MaxInt || cover[official] <= cover[derived] || min(tile[derived], tile[official]) <= cover[derived]
}

// ranks are the ranks of the largest scale by standing, MaxInt for none. Private
// layers that stand alone are among the derived.
type ranks [official + 1]int

func noRanks() ranks { return ranks{math.MaxInt, math.MaxInt, math.MaxInt} }

func (r *ranks) note(c *Chart, s *Set) {
	level := max(derived, c.standing(s))
	r[level] = min(r[level], rank(s))
}

// asked is the place last asked about, and the answer.
type asked struct {
	is          bool
	at          Coord
	cover, tile ranks
}

// ranksAt gives the ranks of the sets that have coverage and of those that have
// an area of the tiling at a place.
func (q *Query) ranksAt(p Coord) (cover, tile ranks) {
	if q.asked.is && q.asked.at == p { // as whether there are data, and then whether they are whole
		return q.asked.cover, q.asked.tile
	}
	defer func() { q.asked = asked{true, p, cover, tile} }()
	q.reset()
	q.markInside(p)
	cover, tile = q.coverHere(), noRanks()
	for i := range q.work {
		w := &q.work[i]
		if f := q.chart.features[w.feature]; w.odd && q.chart.familyTiles(f) {
			tile.note(q.chart, f.Set)
		}
	}
	return cover, tile
}

// coverHere are the ranks of the sets that have coverage at the place last marked.
// A set has none where it says so, whatever else it says.
func (q *Query) coverHere() (cover ranks) {
	cover = noRanks()
	for i := range q.work {
		w := &q.work[i]
		if f := q.chart.features[w.feature]; w.odd && q.chart.familyCover(f) && !q.bareHere(f.Set) {
			cover.note(q.chart, f.Set)
		}
	}
	return cover
}

// bareHere reports whether a set says that it has no data at the place last marked.
func (q *Query) bareHere(s *Set) bool {
	for i := range q.work {
		w := &q.work[i]
		if f := q.chart.features[w.feature]; w.odd && f.Set == s && q.chart.familyBare(f) {
			return true
		}
	}
	return false
}

// Holds reports whether any set has data at a place.
func (q *Query) Holds(p orb.Point) bool { return q.covered(CoordOf(p)) }

// addGaps finds the gap edges of both families and indexes them. Holes may
// begin at the border of a coverage as well as at that of an area.
func (c *Chart) addGaps() {
	q := c.NewQuery()
	cover := append(c.freeEdges(q, c.familyCover), c.freeEdges(q, c.familyBare)...)
	tiles := append(c.freeEdges(q, c.familyTiles), cover...)
	outside := c.gapEdges(q, cover, q.covered)
	holes := c.gapEdges(q, tiles, q.noHole)
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
	start := 0 // of the part at hand
	for _, e := range edges {
		if start = joinEdge(f, start, e); start == len(f.Coords) {
			f.Coords = append(f.Coords, e.a, e.b)
			f.Ends = append(f.Ends, int32(len(f.Coords)))
		}
	}
	c.add(f)
}

// joinEdge adds an edge to the part of a line that starts at a vertex, if it goes on
// from an end of it: edges come in the order of their ring, each in its canonical
// direction. It gives where the part starts to which the next edge may be joined.
func joinEdge(f *Feature, start int, e edge) int {
	n := len(f.Coords)
	if n == start {
		return n
	}
	if n == start+2 && (f.Coords[start] == e.a || f.Coords[start] == e.b) {
		f.Coords[start], f.Coords[start+1] = f.Coords[start+1], f.Coords[start]
	}
	switch f.Coords[n-1] {
	case e.a:
		f.Coords = append(f.Coords, e.b)
	case e.b:
		f.Coords = append(f.Coords, e.a)
	default:
		return n
	}
	f.Ends[len(f.Ends)-1]++
	return start
}

// gapEdges keeps the parts of edges beside which a place is not fine, as q is
// asked.
func (c *Chart) gapEdges(q *Query, free []edge, fine func(Coord) bool) []edge {
	var out []edge
	seen := q.looks
	for i, e := range free {
		c.did(1 + q.looks - seen)
		seen = q.looks
		if q.looks > maxGapLooks {
			return append(out, free[i:]...)
		}
		for _, part := range c.split(q, e) {
			left, right := part.sides()
			if q.looks > maxGapLooks || !fine(left) || !fine(right) {
				out = append(out, part)
			}
		}
	}
	return out
}
