package chart

import (
	"math/rand"
	"runtime"
	"testing"
)

// comb is an area of so many vertices with teeth from south to north, which do not
// touch each other: valid, and as long a boundary as there is in as little room.
func comb(vertices int) Feature {
	ring := []Coord{CoordOf(at(0, 0))}
	teeth := vertices / 4
	for i := range teeth {
		x, w := 100*float64(i)/float64(teeth), 100/float64(teeth)
		ring = append(ring, CoordOf(at(x, 99)), CoordOf(at(x+w/2, 99)), CoordOf(at(x+w/2, 1)), CoordOf(at(x+w, 1)))
	}
	ring = append(ring, CoordOf(at(100, 0)), ring[0])
	return area(DEPARE, 5, 10, ring)
}

// pile is so many areas that lie over each other and share no edge.
func pile(n int) []Feature {
	rnd := rand.New(rand.NewSource(20260718))
	out := []Feature{cover(rectangle(-1, -1, 101, 101))}
	for range n {
		x, y := 30*rnd.Float64(), 30*rnd.Float64()
		out = append(out, area(DEPARE, 5+5*rnd.Float64(), 10+5*rnd.Float64(), rectangle(x, y, 100-30*rnd.Float64(), 100-30*rnd.Float64())))
	}
	return out
}

// looksAt is how many runs of boundary it takes to tell what holds places.
func looksAt(c *Chart, places int) int {
	q, rnd := c.NewQuery(), rand.New(rand.NewSource(7))
	for range places {
		q.AreasAt(at(100*rnd.Float64(), 100*rnd.Float64()))
	}
	return q.looks / places
}

// What holds a place takes a few looks, however long the boundaries east of it.
func TestAPlaceTakesFewLooks(t *testing.T) {
	whole := cover(rectangle(-1, -1, 101, 101))
	few, many := looksAt(New(set(whole, comb(2_000))), 50), looksAt(New(set(whole, comb(32_000))), 50)
	if many > 200 || many > few+100 {
		t.Errorf("%d looks at a comb of 2 000 vertices, %d at one of 32 000; a few dozen are wanted", few, many)
	}
	// Areas side by side: only those that may hold the place are looked at.
	var strips []Feature
	for i := range 1000 {
		x := float64(i) / 10
		strips = append(strips, area(DEPARE, 5, 10, rectangle(x, 0, x+0.1, 100)))
	}
	if n := looksAt(New(set(append(strips, whole)...)), 50); n > 50 {
		t.Errorf("%d looks among 1 000 strips; a few are wanted", n)
	}
}

// Areas over each other by the thousand do not keep the index busy beyond its
// patience, also within one edge that is cut ever so often.
func TestGapsAreLookedForWithinPatience(t *testing.T) {
	was := maxGapLooks
	maxGapLooks = 100_000
	defer func() { maxGapLooks = was }()
	c := New(set(pile(1500)...))
	q := c.NewQuery()
	free := c.freeEdges(q, c.familyTiles)
	c.gapEdges(q, free, q.noHole)
	if q.looks > 2*maxGapLooks {
		t.Errorf("%d looks; the patience is %d", q.looks, maxGapLooks)
	}
}

// The grid of depths is worked out in the room that it takes, not in that of all
// crossings of its rows.
func TestGridOfACombTakesLittleRoom(t *testing.T) {
	c := New(set(cover(rectangle(-1, -1, 101, 101)), comb(40_000)))
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	newDepthGrid(c)
	runtime.ReadMemStats(&after)
	if mb := (after.TotalAlloc - before.TotalAlloc) >> 20; mb > 8 {
		t.Errorf("%d MB are taken for a grid of 1 MB", mb)
	}
}

// The gap edges of a long boundary are kept as one line, not edge by edge.
func TestGapEdgesAreChained(t *testing.T) {
	c := New(set(cover(rectangle(-1, -1, 101, 101)), comb(4_000)))
	for _, f := range c.Features() {
		if f.Class == gapTiles && len(f.Ends) > len(f.Coords)/100 {
			t.Errorf("%d parts for %d vertices", len(f.Ends), len(f.Coords))
		}
	}
}

// Whoever waits for the index of a large chart gets a turn ever so often.
func TestIndexingGivesWay(t *testing.T) {
	turns := func(s *Set) (n int) {
		NewBetween(func() { n++ }, s)
		return n
	}
	if n := turns(set(cover(rectangle(-1, -1, 101, 101)), comb(40_000))); n < 50 {
		t.Errorf("%d turns over a comb of 40 000 vertices", n)
	}
	if n := turns(set(pile(1500)...)); n < 50 {
		t.Errorf("%d turns over 1 500 areas", n)
	}
}
