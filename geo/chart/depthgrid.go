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
// it. Cells that no depth area touches are deep, cells of land alone count as
// nothing.
type depthGrid struct {
	origin     orb.Point
	dLon, dLat float64
	nx, ny     int
	cells      []float32 // metres; +Inf deep or unknown
}

const maxGridCells = 1 << 18

// untouched marks a cell that no depth area touches.
const untouched = -math.MaxFloat32

// newDepthGrid makes the grid over the charts' bounds, cells about 100 m or
// larger where the charts are wide.
func newDepthGrid(c *Chart) *depthGrid {
	b, ok := c.Bounds()
	if !ok {
		return &depthGrid{}
	}
	lat := b.Center().Lat() * math.Pi / 180
	g := &depthGrid{origin: b.Min, dLat: 100 / 111000.0}
	g.dLon = g.dLat / math.Max(0.05, math.Cos(lat))
	w, h := b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]
	if k := math.Sqrt(w / g.dLon * h / g.dLat / maxGridCells); k > 1 {
		g.dLon, g.dLat = g.dLon*k, g.dLat*k
	}
	g.nx, g.ny = int(w/g.dLon)+1, int(h/g.dLat)+1
	g.cells = make([]float32, g.nx*g.ny)
	for i := range g.cells {
		g.cells[i] = untouched
	}
	for _, f := range c.features {
		if f.Class.WaterArea() && f.Prim == Area && f.Set != nil && f.Set.Authority != Private {
			g.paint(f)
		}
	}
	return g
}

// paint raises every cell that the area touches to its greatest depth.
func (g *depthGrid) paint(f *Feature) {
	depth := float32(math.Inf(1))
	if Known(f.DepthMaxM) && Known(f.DepthMinM) {
		depth = float32(f.DepthMaxM)
	}
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
	n := int(math.Min(4096, math.Ceil(2*math.Max(math.Abs(v.X), math.Abs(v.Y))))) + 1
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

// mean is the mean of the grid along a line of the plane, sampled at every
// half cell; +Inf if any of it is deep or outside.
func (g *depthGrid) mean(plane *geo.Plane, dir geo.XY, length float64) float64 {
	if len(g.cells) == 0 {
		return math.Inf(1)
	}
	n := int(length/(g.dLat*111000/2)) + 1
	from, to := plane.Position(geo.XY{}), plane.Position(dir.Scale(length))
	sum, count := 0.0, 0
	for i := 0; i < n; i++ {
		t := (float64(i) + 0.5) / float64(n)
		x := int((from[0] + t*(to[0]-from[0]) - g.origin[0]) / g.dLon)
		y := int((from[1] + t*(to[1]-from[1]) - g.origin[1]) / g.dLat)
		if x < 0 || y < 0 || x >= g.nx || y >= g.ny {
			return math.Inf(1)
		}
		d := float64(g.cells[y*g.nx+x])
		switch {
		case math.IsInf(d, 1):
			return d
		case d == untouched:
			continue
		}
		sum, count = sum+d, count+1
	}
	if count == 0 {
		return math.Inf(1)
	}
	return sum / float64(count)
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
