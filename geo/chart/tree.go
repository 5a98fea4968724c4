package chart

import "math"

// chunkSegments is how many segments share a box of a tree. Few enough to be
// tested quickly, many enough that building the tree stays cheap: over 16 the
// look-ups slow down, under 8 the build does (measured on US5MA12M).
const chunkSegments = 16

// chunk is a run of a feature's boundary: the vertices first..first+segments,
// or a single vertex where segments is 0.
type chunk struct {
	feature  int32
	first    int32
	segments int32
}

// tree is an R-tree over chunks, over another one that it leaves as it is. What is
// added is found once it is packed.
type tree struct {
	added []boxed // not packed yet
	parts []packed
	under *tree
}

// boxed is a chunk with its box.
type boxed struct {
	box corners
	chunk
}

// add puts a feature's boundary into the tree.
func (t *tree) add(index int, g *Geometry) {
	if g.Prim == Point {
		for i := range g.Coords {
			t.insert(chunk{int32(index), int32(i), 0}, g)
		}
		return
	}
	start := int32(0)
	for _, end := range g.Ends {
		for i := start; i < end-1; i += chunkSegments {
			t.insert(chunk{int32(index), i, min(chunkSegments, end-1-i)}, g)
		}
		if end-start == 1 {
			t.insert(chunk{int32(index), start, 0}, g)
		}
		start = end
	}
}

func (t *tree) insert(c chunk, g *Geometry) {
	lo, hi := box(g.Coords[c.first : c.first+c.segments+1])
	t.added = append(t.added, boxed{corners{lo, hi}, c})
}

// addWhole puts a feature into the tree by the box of all of it.
func (t *tree) addWhole(index int, g *Geometry) {
	lo, hi := box(g.Coords)
	t.added = append(t.added, boxed{corners{lo, hi}, chunk{feature: int32(index)}})
}

// pack makes what was added ready to be found.
func (t *tree) pack(did func(n int)) {
	if len(t.added) > 0 {
		t.parts = append(t.parts, newPacked(t.added, did))
		t.added = nil
	}
}

func degreesOf(c Coord) [2]float64 { return [2]float64{float64(c.Lon) * e7, float64(c.Lat) * e7} }

// box is the bounding box of vertices.
func box(cs []Coord) (lo, hi Coord) {
	lo, hi = Coord{math.MaxInt32, math.MaxInt32}, Coord{math.MinInt32, math.MinInt32}
	for _, c := range cs {
		lo = Coord{min(lo.Lon, c.Lon), min(lo.Lat, c.Lat)}
		hi = Coord{max(hi.Lon, c.Lon), max(hi.Lat, c.Lat)}
	}
	return lo, hi
}

// search calls fn for the chunks whose boxes meet a box in degrees. The box may
// run over the antimeridian, beyond ±180°: what lies there is looked up on the
// other side.
func (t *tree) search(lo, hi [2]float64, fn func(chunk)) { t.searchAlong(nil, lo, hi, fn) }

// searchAlong is search for what comes near a straight line: with a strip, chunks
// whose boxes lie wholly beside it may be left out.
func (t *tree) searchAlong(s *strip, lo, hi [2]float64, fn func(chunk)) {
	windows, n := windowsOf(s, lo, hi)
	for i := range windows[:n] {
		t.searchWindow(windows[i], fn)
	}
}

// windowsOf are the windows of a box, of which one may run over the antimeridian.
func windowsOf(s *strip, lo, hi [2]float64) (windows [3]window, n int) {
	if hi[0]-lo[0] >= 360 {
		lo[0], hi[0] = -180, 180
	}
	windows[0], n = newWindow(s, lo, hi, 0), 1
	if lo[0] < -180 {
		windows[n] = newWindow(s, [2]float64{lo[0] + 360, lo[1]}, [2]float64{180, hi[1]}, 360)
		n++
	}
	if hi[0] > 180 {
		windows[n] = newWindow(s, [2]float64{-180, lo[1]}, [2]float64{hi[0] - 360, hi[1]}, -360)
		n++
	}
	return windows, n
}

// gather appends the chunks that are found in a window.
func (t *tree) gather(out []chunk, w *window) []chunk {
	for ; t != nil; t = t.under {
		for i := range t.parts {
			p := &t.parts[i]
			if root := &p.boxes[len(p.boxes)-1]; w.overlaps(root) {
				out = p.gather(out, w, len(p.levels)-1, 0)
			}
		}
	}
	return out
}

func (t *tree) searchWindow(w window, fn func(chunk)) {
	for ; t != nil; t = t.under {
		for i := range t.parts {
			p := &t.parts[i]
			if root := &p.boxes[len(p.boxes)-1]; w.overlaps(root) {
				p.search(&w, len(p.levels)-1, 0, fn)
			}
		}
	}
}

// at calls fn for the features whose boxes hold a place, of a tree of whole ones.
func (t *tree) at(c Coord, fn func(feature int32)) {
	t.searchWindow(window{box: corners{c, c}}, func(k chunk) { fn(k.feature) })
}

// crossesEast reports whether a segment crosses the ray from c due east. Exact
// in integers; a vertex on the ray belongs to the segment that goes up from it.
func crossesEast(c, a, b Coord) bool {
	if (a.Lat > c.Lat) == (b.Lat > c.Lat) {
		return false
	}
	if b.Lat < a.Lat {
		a, b = b, a
	}
	// c lies to the left of the upward segment a-b.
	cross := (int64(b.Lon)-int64(a.Lon))*(int64(c.Lat)-int64(a.Lat)) -
		(int64(b.Lat)-int64(a.Lat))*(int64(c.Lon)-int64(a.Lon))
	return cross > 0
}
