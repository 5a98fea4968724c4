package chart

import (
	"cmp"
	"math"
	"math/bits"
	"slices"

	"github.com/paulmach/orb"

	"keelroom/geo"
)

// depthGrid holds, for each cell of a grid, the greatest depth (DRVAL2) of any
// chart area that touches the cell: a bound from above, as wave growth needs
// it. Cells that nothing touches are deep, and so are those on the rim of a
// hole in the charts; cells of land alone count as nothing.
type depthGrid struct {
	origin     orb.Point
	dLon, dLat float64
	nx, ny     int
	cells      []float32 // metres; +Inf deep or unknown
}

const maxGridCells = 1 << 18

// Cells that no depth area touches.
const (
	untouched = -math.MaxFloat32
	landOnly  = -math.MaxFloat32 / 2
)

// newDepthGrid makes the grid over the charts' bounds, cells about 100 m or
// larger where the charts are wide.
func newDepthGrid(c *Chart) *depthGrid {
	b, ok := c.Bounds()
	if !ok {
		return &depthGrid{}
	}
	lat := b.Center().Lat() * math.Pi / 180
	g := &depthGrid{origin: b.Min, dLat: 100 / 111000.0}
	g.dLon = g.dLat / max(0.05, math.Cos(lat))
	w, h := b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]
	if k := math.Sqrt(w / g.dLon * h / g.dLat / maxGridCells); k > 1 {
		g.dLon, g.dLat = g.dLon*k, g.dLat*k
	}
	g.nx, g.ny = int(w/g.dLon)+1, int(h/g.dLat)+1
	if g.nx > maxGridCells || g.ny > maxGridCells { // a strip without width
		return &depthGrid{}
	}
	g.cells = make([]float32, g.nx*g.ny)
	for i := range g.cells {
		g.cells[i] = untouched
	}
	g.paintAll(c.features, c.did)
	return g
}

// maxPainting bounds the work on a grid, in steps along edges and rows of an area:
// areas over each other by the ten thousand take more. All of the grid is deep then,
// which is the safe side, as a sea grows highest over deep water. Charts of ten million
// vertices take a third of it.
var maxPainting = 100_000_000

// paintAll raises every cell to the greatest depth of all that touches it. The deepest
// comes first, so that a cell is filled once, however many areas lie over it.
func (g *depthGrid) paintAll(features []*Feature, did func(int)) {
	p := painter{depthGrid: g, words: (g.nx + 63) / 64}
	p.filled = make([]uint64, p.words*g.ny)
	var areas []*Feature
	for _, f := range features {
		switch {
		case f.Class == gapTiles:
			p.paintHoles(f)
		case f.Prim == Area && f.Class.group1() && f.Set.Authority != Private:
			areas = append(areas, f)
		}
	}
	slices.SortStableFunc(areas, func(a, b *Feature) int { return cmp.Compare(greatestDepth(b), greatestDepth(a)) })
	for _, f := range areas {
		before := p.work
		p.paint(f)
		did(p.work - before)
	}
	if p.work > maxPainting {
		for i := range g.cells {
			g.cells[i] = float32(math.Inf(1))
		}
	}
}

// painter paints areas into a grid.
type painter struct {
	*depthGrid
	words  int      // of 64 cells, in a row
	filled []uint64 // cells that have got their depth, a bit each
	odd    []uint64 // cells at whose west side the area begins or ends
	work   int
}

// paint raises every cell that the area touches to its greatest depth.
func (p *painter) paint(f *Feature) {
	depth := greatestDepth(f)
	first, last := p.rowsOf(f)
	p.odd = append(p.odd[:0], make([]uint64, p.words*max(0, last-first))...)
	f.Parts(func(ring []Coord) {
		if p.work > maxPainting {
			return
		}
		for i := 1; i < len(ring); i++ {
			a, b := p.place(ring[i-1]), p.place(ring[i])
			p.paintEdge(a, b, depth)
			p.cross(a, b, first, last)
		}
	})
	if p.work += len(p.odd); p.work <= maxPainting {
		p.fill(first, last, depth)
	}
}

// rowsOf are the rows of cells that the area may touch, from one to before another.
func (p *painter) rowsOf(f *Feature) (first, last int) {
	if len(f.Coords) == 0 {
		return 0, 0
	}
	lo, hi := box(f.Coords)
	return max(0, int(math.Floor(p.place(lo).Y))), min(p.ny, int(math.Floor(p.place(hi).Y))+1)
}

// greatestDepth is DRVAL2 rounded up to the grid's precision.
func greatestDepth(f *Feature) float32 {
	switch {
	case !f.Class.WaterArea():
		return landOnly
	case !Known(f.DepthMaxM) || !Known(f.DepthMinM):
		return float32(math.Inf(1))
	}
	d := float32(f.DepthMaxM)
	if float64(d) < f.DepthMaxM {
		d = math.Nextafter32(d, float32(math.Inf(1)))
	}
	return d
}

// paintHoles makes the cells on the rim of holes deep.
func (p *painter) paintHoles(f *Feature) {
	f.Parts(func(part []Coord) {
		for i := 1; i < len(part); i++ {
			p.paintEdge(p.place(part[i-1]), p.place(part[i]), float32(math.Inf(1)))
		}
	})
}

// place is a vertex in units of cells.
func (g *depthGrid) place(c Coord) geo.XY {
	p := c.Position()
	return geo.XY{X: (p[0] - g.origin[0]) / g.dLon, Y: (p[1] - g.origin[1]) / g.dLat}
}

func (g *depthGrid) raise(x, y int, depth float32) {
	if x < 0 || y < 0 || x >= g.nx || y >= g.ny {
		return
	}
	if i := y*g.nx + x; g.cells[i] < depth {
		g.cells[i] = depth
	}
}

// paintEdge raises the cells about an edge, in steps of half a cell and with a
// neighbour to each side, so that none it touches is missed.
func (p *painter) paintEdge(a, b geo.XY, depth float32) {
	v := b.Sub(a)
	n := int(min(4096, math.Ceil(2*max(math.Abs(v.X), math.Abs(v.Y))))) + 1
	if p.work += n; p.work > maxPainting {
		return
	}
	for i := 0; i <= n; i++ {
		at := a.Add(v.Scale(float64(i) / float64(n)))
		x, y := int(math.Floor(at.X)), int(math.Floor(at.Y))
		p.raise(x, y, depth)
		fx, fy := at.X-float64(x), at.Y-float64(y)
		p.raise(x+side(fx), y, depth)
		p.raise(x, y+side(fy), depth)
	}
}

func side(f float64) int {
	if f < 0.5 {
		return -1
	}
	return 1
}

// cross notes where an edge crosses the middles of rows of cells: from the cell after
// the crossing on, the row is on the other side of it. The cell that is crossed is the
// edge's own.
func (p *painter) cross(a, b geo.XY, first, last int) {
	if b.Y < a.Y {
		a, b = b, a
	}
	for r := max(first, int(math.Ceil(a.Y-0.5))); r < last && float64(r)+0.5 < b.Y; r++ {
		t := (float64(r) + 0.5 - a.Y) / (b.Y - a.Y)
		x := max(0, int(math.Floor(a.X+t*(b.X-a.X)))+1)
		p.work++
		if x < p.nx {
			p.odd[(r-first)*p.words+x/64] ^= 1 << (x % 64)
		}
	}
}

// fill raises the cells inside the area that have no depth of their own yet.
func (p *painter) fill(first, last int, depth float32) {
	for r := first; r < last; r++ {
		inside := uint64(0) // all ones while the row is inside at the end of a word
		for w := range p.words {
			at := r*p.words + w
			in := parity(p.odd[(r-first)*p.words+w]) ^ inside
			if in>>63 != 0 {
				inside = math.MaxUint64
			} else {
				inside = 0
			}
			fresh := in &^ p.filled[at]
			p.filled[at] |= fresh
			for ; fresh != 0; fresh &= fresh - 1 {
				p.raise(w*64+bits.TrailingZeros64(fresh), r, depth)
			}
		}
	}
}

// parity tells of each bit whether an odd number of bits up to and with it is set.
func parity(w uint64) uint64 {
	for shift := 1; shift < 64; shift *= 2 {
		w ^= w << shift
	}
	return w
}

// mean is the mean of the grid along a line of the plane, each cell by the
// length in it; +Inf if any of it is deep or outside.
func (g *depthGrid) mean(plane *geo.Plane, dir geo.XY, length float64) float64 {
	if len(g.cells) == 0 {
		return math.Inf(1)
	}
	const step = 1000 // metres, over which the line is straight in degrees too
	n := math.Ceil(length/step) + 1
	var m gridMean
	from := g.at(plane.Position(geo.XY{}), float64(g.nx)/2)
	for i := 1.0; i <= n; i++ {
		to := g.at(plane.Position(dir.Scale(length*i/n)), from.X)
		m.addLine(g, from, to)
		from = to
	}
	if m.weight == 0 || m.deep {
		return math.Inf(1)
	}
	return m.sum / m.weight
}

// at is a position in units of cells, on the side of the antimeridian where it
// is near another.
func (g *depthGrid) at(p orb.Point, near float64) geo.XY {
	around := 360 / g.dLon
	x := (p[0] - g.origin[0]) / g.dLon
	return geo.XY{X: x + around*math.Round((near-x)/around), Y: (p[1] - g.origin[1]) / g.dLat}
}

// gridMean sums depths up.
type gridMean struct {
	sum, weight float64
	deep        bool
}

// addLine adds the cells that a straight line passes, by their share of it,
// from one line of the grid to the next (after Amanatides and Woo, 1987, A Fast
// Voxel Traversal Algorithm, Eurographics).
func (m *gridMean) addLine(g *depthGrid, a, b geo.XY) {
	v := b.Sub(a)
	x, y := gridLines(a.X, v.X), gridLines(a.Y, v.Y)
	for t := 0.0; t < 1 && !m.deep; {
		next := min(1, x.next, y.next)
		if next > t {
			m.add(g.depth(a.Add(v.Scale((t+next)/2))), next-t)
		}
		if t = next; x.next <= y.next {
			x.next += x.step
		} else {
			y.next += y.step
		}
	}
}

// lines are the places, from 0 to 1, where a + t·v is a whole number.
type lines struct{ next, step float64 }

func gridLines(a, v float64) lines {
	switch {
	case v > 0:
		return lines{(math.Floor(a) + 1 - a) / v, 1 / v}
	case v < 0:
		return lines{(math.Ceil(a) - 1 - a) / v, -1 / v}
	}
	return lines{math.Inf(1), math.Inf(1)}
}

// depth is that of the cell a place lies in; outside the grid it is deep.
func (g *depthGrid) depth(p geo.XY) float64 {
	around := 360 / g.dLon
	switch {
	case p.X < 0:
		p.X += around
	case p.X >= around:
		p.X -= around
	}
	x, y := int(math.Floor(p.X)), int(math.Floor(p.Y))
	if x < 0 || y < 0 || x >= g.nx || y >= g.ny {
		return math.Inf(1)
	}
	return float64(g.cells[y*g.nx+x])
}

func (m *gridMean) add(depth, weight float64) {
	switch depth {
	case landOnly:
	case untouched, math.Inf(1):
		m.deep = true
	default:
		m.sum, m.weight = m.sum+depth*weight, m.weight+weight
	}
}
