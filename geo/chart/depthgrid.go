package chart

import (
	"cmp"
	"math"
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
	for _, f := range c.features {
		switch {
		case f.Class == gapTiles:
			g.paintHoles(f)
		case f.Prim == Area && f.Class.group1() && f.Set.Authority != Private:
			g.paint(f)
		}
	}
	return g
}

// paint raises every cell that the area touches to its greatest depth.
func (g *depthGrid) paint(f *Feature) {
	depth := greatestDepth(f)
	var rows []rowCrossing
	f.Parts(func(ring []Coord) {
		for i := 1; i < len(ring); i++ {
			a, b := g.place(ring[i-1]), g.place(ring[i])
			g.paintEdge(a, b, depth)
			rows = appendRows(rows, a, b, g.ny)
		}
	})
	g.fill(rows, depth)
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
func (g *depthGrid) paintHoles(f *Feature) {
	f.Parts(func(part []Coord) {
		g.paintEdge(g.place(part[0]), g.place(part[len(part)-1]), float32(math.Inf(1)))
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
func (g *depthGrid) paintEdge(a, b geo.XY, depth float32) {
	v := b.Sub(a)
	n := int(min(4096, math.Ceil(2*max(math.Abs(v.X), math.Abs(v.Y))))) + 1
	for i := 0; i <= n; i++ {
		p := a.Add(v.Scale(float64(i) / float64(n)))
		x, y := int(math.Floor(p.X)), int(math.Floor(p.Y))
		g.raise(x, y, depth)
		fx, fy := p.X-float64(x), p.Y-float64(y)
		g.raise(x+side(fx), y, depth)
		g.raise(x, y+side(fy), depth)
	}
}

func side(f float64) int {
	if f < 0.5 {
		return -1
	}
	return 1
}

type rowCrossing struct {
	row int
	x   float64
}

// appendRows adds where an edge crosses the middles of rows of cells.
func appendRows(rows []rowCrossing, a, b geo.XY, ny int) []rowCrossing {
	if b.Y < a.Y {
		a, b = b, a
	}
	first := max(0, int(math.Ceil(a.Y-0.5)))
	for r := first; r < ny && float64(r)+0.5 < b.Y; r++ {
		t := (float64(r) + 0.5 - a.Y) / (b.Y - a.Y)
		rows = append(rows, rowCrossing{r, a.X + t*(b.X-a.X)})
	}
	return rows
}

// fill raises the cells between pairs of crossings of a row.
func (g *depthGrid) fill(rows []rowCrossing, depth float32) {
	sortRows(rows)
	for i := 0; i+1 < len(rows); i += 2 {
		a, b := rows[i], rows[i+1]
		if a.row != b.row {
			i-- // cannot happen for closed rings; stay in step if it does
			continue
		}
		for x := max(0, int(a.x)); x <= int(b.x) && x < g.nx; x++ {
			g.raise(x, a.row, depth)
		}
	}
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

// sortRows orders crossings by row, then from west to east.
func sortRows(rows []rowCrossing) {
	slices.SortFunc(rows, func(a, b rowCrossing) int {
		if a.row != b.row {
			return a.row - b.row
		}
		return cmp.Compare(a.x, b.x)
	})
}
