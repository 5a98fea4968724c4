package chart

import (
	"math"

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
	p := packed{chunks: make([]chunk, len(list)), boxes: make([]corners, len(list), len(list)+len(list)/(nodeBoxes-1)+nodeBoxes)}
	for i, k := range tiled(list, did) {
		p.chunks[i], p.boxes[i] = list[k.at].chunk, list[k.at].box
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

// gather appends the chunks that search finds.
func (p *packed) gather(out []chunk, w *window, depth int, i int32) []chunk {
	if depth == 0 {
		return append(out, p.chunks[i])
	}
	below := p.levels[depth-1]
	from, to := i*nodeBoxes, min((i+1)*nodeBoxes, below.count)
	boxes := p.boxes[below.first+from : below.first+to]
	for k := range boxes {
		b := &boxes[k]
		switch {
		case !w.overlaps(b) || w.half != 0 && !w.reaches(b):
		case depth == 1:
			out = append(out, p.chunks[from+int32(k)])
		default:
			out = p.gather(out, w, depth-1, from+int32(k))
		}
	}
	return out
}

// window is what is looked for in a tree: a box, and if there is one the strip along a
// straight line in it.
type window struct {
	box corners
	// Twice the distance in metres of the middle of a box from the line is
	// lon·(lo.Lon+hi.Lon) + lat·(lo.Lat+hi.Lat) + c; half of it is the strip's own
	// half-width, with room for how far the plane is from straight. 0: there is no strip.
	lon, lat, c, half float64
	// Half of the sum above, for a vertex, is its distance from the line; away is how far
	// it must be for a segment beside the line to be surely out of the strip.
	away float64
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
	// An end of a segment lies in the window, or both lie beyond its edge, or no farther
	// from it than a segment is long.
	_, _, off = s.plane.Straight(max(math.Abs(hi[1]-at[1]), math.Abs(lo[1]-at[1])) + (longEdge+2)*e7)
	w.away = s.halfM + off + resolutionM
	return w
}

// The sides of a strip.
const (
	portOfStrip      = 1
	starboardOfStrip = 2
)

// beside tells on which side of the strip a vertex surely lies, 0 for neither. A segment
// whose ends lie on one side does not meet the strip within the window.
func (w *window) beside(c Coord) uint8 {
	switch off := w.lon*float64(c.Lon) + w.lat*float64(c.Lat) + w.c/2; {
	case off > w.away:
		return portOfStrip
	case off < -w.away:
		return starboardOfStrip
	}
	return 0
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
