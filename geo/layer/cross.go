package layer

import "keelroom/geo/chart"

// crossing looks for two segments of an area's boundary that cross. It keeps
// its memory from one area to the next.
//
// Method: a binary tree of boxes over runs of segments in the order of the
// boundary; the tree is compared with itself, and only where two boxes meet are
// their halves compared (the bounding-box-tree self-join after Gottschalk, Lin,
// Manocha, OBBTree, SIGGRAPH 1996, with boxes along the axes). A coastline of n
// vertices takes about n steps, since far runs of it do not meet. What would
// take many more is given up.
type crossing struct {
	segs  []segment
	boxes [][]bounds // level 0 holds the runs, the last one box
	steps int
	times int // how often it crosses itself, as far as was looked
	most  int // that are counted
}

type segment struct{ a, b chart.Coord }

type bounds struct{ lo, hi chart.Coord }

func (b bounds) meets(c bounds) bool {
	return b.lo.Lon <= c.hi.Lon && c.lo.Lon <= b.hi.Lon && b.lo.Lat <= c.hi.Lat && c.lo.Lat <= b.hi.Lat
}

func (b bounds) join(c bounds) bounds {
	return bounds{
		chart.Coord{Lon: min(b.lo.Lon, c.lo.Lon), Lat: min(b.lo.Lat, c.lo.Lat)},
		chart.Coord{Lon: max(b.hi.Lon, c.hi.Lon), Lat: max(b.hi.Lat, c.hi.Lat)},
	}
}

func (s segment) bounds() bounds {
	return bounds{
		chart.Coord{Lon: min(s.a.Lon, s.b.Lon), Lat: min(s.a.Lat, s.b.Lat)},
		chart.Coord{Lon: max(s.a.Lon, s.b.Lon), Lat: max(s.a.Lat, s.b.Lat)},
	}
}

const (
	run = 8 // segments in a lowest box
	// Steps allowed: a multiple of the segments, and some for small areas. Real
	// boundaries take 2 to 10 a segment.
	stepsPerSegment = 64
	stepsAnyway     = 4096
)

// mostCrossings is how often an area's boundary may cross itself. More is a tangle
// that nobody drew, in which inside means nothing, and every look at it is long.
const mostCrossings = 1000

// count counts how often two segments cross properly, which is where even-odd and a
// reader's eye may differ, up to one more than most. Touching at a vertex is no crossing.
// A boundary so tangled that the answer would take long counts as crossing itself.
func (x *crossing) count(g *chart.Geometry, most int) int {
	x.times, x.most = 0, most
	if x.search(g) && x.times == 0 {
		return 1 // given up
	}
	return x.times
}

// search counts until there are more crossings than are counted, or it gives up; it
// tells whether it did either.
func (x *crossing) search(g *chart.Geometry) bool {
	x.segs = x.segs[:0]
	g.Parts(func(ring []chart.Coord) {
		for i := 1; i < len(ring); i++ {
			x.segs = append(x.segs, segment{ring[i-1], ring[i]})
		}
	})
	if len(x.segs) < 4 {
		return false
	}
	x.build()
	x.steps = stepsAnyway + stepsPerSegment*len(x.segs)
	return x.within(len(x.boxes)-1, 0)
}

// build makes the tree.
func (x *crossing) build() {
	level := x.level(0)
	for i := 0; i < len(x.segs); i += run {
		b := x.segs[i].bounds()
		for _, s := range x.segs[i+1 : min(i+run, len(x.segs))] {
			b = b.join(s.bounds())
		}
		level = append(level, b)
	}
	x.boxes = append(x.boxes[:0], level)
	for n := 1; len(level) > 1; n++ {
		next := x.level(n)
		for i := 0; i < len(level); i += 2 {
			b := level[i]
			if i+1 < len(level) {
				b = b.join(level[i+1])
			}
			next = append(next, b)
		}
		level = next
		x.boxes = append(x.boxes, level)
	}
}

// level is the memory of a level from the last time, emptied.
func (x *crossing) level(n int) []bounds {
	if all := x.boxes[:cap(x.boxes)]; n < len(all) {
		return all[n][:0]
	}
	return nil
}

// within looks for a crossing among the segments of one box.
func (x *crossing) within(level, i int) bool {
	if level == 0 {
		return x.pairs(i, i)
	}
	left, right := 2*i, 2*i+1
	if x.within(level-1, left) {
		return true
	}
	if right >= len(x.boxes[level-1]) {
		return false
	}
	return x.within(level-1, right) || x.between(level-1, left, right)
}

// between looks for a crossing of a segment of one box with one of another.
func (x *crossing) between(level, i, j int) bool {
	boxes := x.boxes[level]
	if i >= len(boxes) || j >= len(boxes) {
		return false
	}
	if x.steps--; x.steps < 0 {
		return true
	}
	if !boxes[i].meets(boxes[j]) {
		return false
	}
	if level == 0 {
		return x.pairs(i, j)
	}
	return x.between(level-1, 2*i, 2*j) || x.between(level-1, 2*i, 2*j+1) ||
		x.between(level-1, 2*i+1, 2*j) || x.between(level-1, 2*i+1, 2*j+1)
}

// pairs compares the segments of two runs, or of one with itself.
func (x *crossing) pairs(i, j int) bool {
	x.steps -= run // as dear as so many boxes
	first, second := x.run(i), x.run(j)
	var boxes [run]bounds // of the second, worked out once for all of the first
	for n := range second {
		boxes[n] = second[n].bounds()
	}
	for k, s := range first {
		from, b := 0, s.bounds()
		if i == j {
			from = k + 1
		} else if !b.meets(x.boxes[0][j]) {
			continue
		}
		for n := from; n < len(second); n++ {
			if !b.meets(boxes[n]) || !s.crosses(second[n]) {
				continue
			}
			if x.times++; x.times > x.most {
				return true
			}
		}
	}
	return false
}

func (x *crossing) run(i int) []segment { return x.segs[i*run : min((i+1)*run, len(x.segs))] }

// crosses reports whether the segments cross at a point inside both.
func (s segment) crosses(t segment) bool {
	return s.side(t.a)*s.side(t.b) < 0 && t.side(s.a)*t.side(s.b) < 0
}

// side is 1 where p lies to the left of the segment, -1 to the right, 0 on its
// line. It is exact within a ring: that is at most 180 degrees wide, so each
// product stays below 3.3e18 and their difference within int64. Between rings
// of one area it is exact up to 340 degrees.
func (s segment) side(p chart.Coord) int {
	cross := (int64(s.b.Lon)-int64(s.a.Lon))*(int64(p.Lat)-int64(s.a.Lat)) -
		(int64(s.b.Lat)-int64(s.a.Lat))*(int64(p.Lon)-int64(s.a.Lon))
	switch {
	case cross > 0:
		return 1
	case cross < 0:
		return -1
	}
	return 0
}
