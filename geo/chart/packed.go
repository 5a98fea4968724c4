package chart

import (
	"math"
	"slices"

	"keelroom/geo"
)

// packed is an R-tree whose nodes are full and lie one behind the other, level by
// level: no node holds pointers, and which boxes it has follows from its number. Chunks
// are put in order by sort-tile-recursive (Leutenegger, Edgington, Lopez, "STR: A
// Simple and Efficient Algorithm for R-Tree Packing", ICDE 1997): into slices from
// west to east, each of them from south to north.
type packed struct {
	chunks []chunk
	boxes  []corners   // of the chunks, then of the nodes of each level
	levels []treeLevel // the chunks' first
}

// nodeBoxes is how many boxes a node holds.
const nodeBoxes = 16

// newPacked packs a list; did is called with the work as it goes on.
func newPacked(list []boxed, did func(n int)) packed {
	tile(list, did)
	p := packed{chunks: make([]chunk, len(list)), boxes: make([]corners, len(list), len(list)+len(list)/(nodeBoxes-1)+nodeBoxes)}
	for i := range list {
		p.chunks[i], p.boxes[i] = list[i].chunk, list[i].box
	}
	for l := (treeLevel{0, int32(len(list))}); ; {
		p.levels = append(p.levels, l)
		if l.count == 1 {
			return p
		}
		next := treeLevel{first: int32(len(p.boxes))}
		for i := int32(0); i < l.count; i += nodeBoxes {
			c := p.boxes[l.first+i]
			for k := i + 1; k < min(i+nodeBoxes, l.count); k++ {
				c = c.join(p.boxes[l.first+k])
			}
			p.boxes = append(p.boxes, c)
		}
		next.count = int32(len(p.boxes)) - next.first
		l = next
	}
}

// tile puts boxes in order. A slice is as many nodes wide as it is high.
func tile(list []boxed, did func(n int)) {
	nodes := math.Ceil(float64(len(list)) / nodeBoxes)
	size := int(math.Ceil(math.Sqrt(nodes))) * nodeBoxes
	mergeSort(list, did, func(a, b *boxed) bool {
		return int64(a.box.lo.Lon)+int64(a.box.hi.Lon) < int64(b.box.lo.Lon)+int64(b.box.hi.Lon)
	})
	for from := 0; from < len(list); from += size {
		mergeSort(list[from:min(from+size, len(list))], did, func(a, b *boxed) bool {
			return int64(a.box.lo.Lat)+int64(a.box.hi.Lat) < int64(b.box.lo.Lat)+int64(b.box.hi.Lat)
		})
	}
}

// mergeSort sorts in steps that did hears of: the library's sorting of a large chart
// would let nobody speak for a second.
func mergeSort(list []boxed, did func(n int), before func(a, b *boxed) bool) {
	const run = 1024
	for from := 0; from < len(list); from += run {
		part := list[from:min(from+run, len(list))]
		slices.SortFunc(part, func(a, b boxed) int {
			switch {
			case before(&a, &b):
				return -1
			case before(&b, &a):
				return 1
			}
			return 0
		})
		did(len(part))
	}
	if len(list) <= run {
		return
	}
	from, to := list, make([]boxed, len(list))
	for width := run; width < len(list); width *= 2 {
		for at := 0; at < len(list); at += 2 * width {
			middle, end := min(at+width, len(list)), min(at+2*width, len(list))
			merge(to[at:at], from[at:middle], from[middle:end], did, before)
		}
		from, to = to, from
	}
	copy(list, from)
}

// merge appends two sorted lists as one.
func merge(out, a, b []boxed, did func(n int), before func(a, b *boxed) bool) {
	for len(a) > 0 && len(b) > 0 {
		if before(&b[0], &a[0]) {
			out, b = append(out, b[0]), b[1:]
		} else {
			out, a = append(out, a[0]), a[1:]
		}
		if len(out)%1024 == 0 {
			did(1024)
		}
	}
	_ = append(append(out, a...), b...)
}

// search calls fn for the chunks under a box of a level that meet the window, which
// the box does.
func (p *packed) search(w *window, depth int, i int32, fn func(chunk)) {
	if depth == 0 {
		fn(p.chunks[i])
		return
	}
	below := p.levels[depth-1]
	from, to := i*nodeBoxes, min((i+1)*nodeBoxes, below.count)
	boxes := p.boxes[below.first+from : below.first+to]
	for k := range boxes {
		if b := &boxes[k]; w.overlaps(b) && (w.half == 0 || w.reaches(b)) {
			if depth == 1 {
				fn(p.chunks[from+int32(k)])
			} else {
				p.search(w, depth-1, from+int32(k), fn)
			}
		}
	}
}

// window is what is looked for in a tree: a box, and if there is one the strip along a
// straight line in it.
type window struct {
	box corners
	// Twice the distance in metres of the middle of a box from the line is
	// lon·(lo.Lon+hi.Lon) + lat·(lo.Lat+hi.Lat) + c; half of it is the strip's own
	// half-width, with room for how far the plane is from straight. 0: there is no strip.
	lon, lat, c, half float64
}

// newWindow is the window of a box in degrees. Over the antimeridian the box lies a
// turn of so many degrees from the line's own longitudes.
func newWindow(s *strip, lo, hi [2]float64, turnDeg float64) window {
	w := window{box: corners{Coord{units(math.Floor(lo[0] / e7)), units(math.Floor(lo[1] / e7))},
		Coord{units(math.Ceil(hi[0] / e7)), units(math.Ceil(hi[1] / e7))}}}
	if s == nil {
		return w
	}
	at := s.plane.Origin
	perLon, perLat, off := s.plane.Straight(max(math.Abs(hi[1]-at[1]), math.Abs(lo[1]-at[1])) + 2*e7)
	w.lon, w.lat = -s.dir.Y*perLon*e7, s.dir.X*perLat*e7
	w.c = 2 * ((at[0]+turnDeg)*s.dir.Y*perLon - at[1]*s.dir.X*perLat - s.dir.Cross(s.from))
	w.half = 2 * (s.halfM + off + resolutionM)
	return w
}

// units brings a number of 1e-7 degrees into the range of a Coord.
func units(v float64) int32 { return int32(max(math.MinInt32, min(math.MaxInt32, v))) }

// overlaps reports whether a box meets the window's.
func (w *window) overlaps(b *corners) bool {
	return b.lo.Lon <= w.box.hi.Lon && b.hi.Lon >= w.box.lo.Lon && b.lo.Lat <= w.box.hi.Lat && b.hi.Lat >= w.box.lo.Lat
}

// reaches reports whether of a box that meets the window's something may lie in the
// strip. Of a large box only what lies in the window counts.
func (w *window) reaches(b *corners) bool {
	west, east := float64(max(b.lo.Lon, w.box.lo.Lon)), float64(min(b.hi.Lon, w.box.hi.Lon))
	south, north := float64(max(b.lo.Lat, w.box.lo.Lat)), float64(min(b.hi.Lat, w.box.hi.Lat))
	off := math.Abs(w.lon*(west+east) + w.lat*(south+north) + w.c)
	return off <= w.half+math.Abs(w.lon)*(east-west)+math.Abs(w.lat)*(north-south)
}

// strip is what lies within a half-width of a straight line of a plane.
type strip struct {
	plane *geo.Plane
	from  geo.XY // of the line
	dir   geo.XY // unit vector
	halfM float64
}

// strip is the corridor of a half-width along the piece and on beyond its ends.
func (p *Piece) strip(halfM float64) *strip {
	return &strip{plane: &p.plane, from: p.origin, dir: p.dir, halfM: halfM}
}
