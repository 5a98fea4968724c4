package hazards

import (
	"math"

	"github.com/paulmach/orb"

	"keelroom/geo"
)

// grid finds which of many stretches come within togetherM of each other, by
// points along them, in work that grows with their length and not with how many
// lie over each other: a small cell keeps one point, the first that came into it.
// Small cells are kept by blocks as wide as the reach, so that a point looks into
// few blocks and not into each small cell about it.
type grid struct {
	taken  map[[2]int]bool // small cells
	blocks map[[2]int]int  // the last point kept in each, by its number from 1
	points []gridPoint
}

type gridPoint struct {
	item   int
	at     orb.Point
	before int // the one kept before it in the same block
}

const (
	cellM   = 25
	blockM  = togetherM + 10 // more than the reach, by what a sphere is from the ellipsoid
	sampleM = 40             // between points along a stretch
	metresA = 111_320.0
)

func newGrid() *grid { return &grid{taken: map[[2]int]bool{}, blocks: map[[2]int]int{}} }

// add takes a stretch in and joins it to all that it is near to. joined tells of two
// whether they are already, so that how far they lie apart need not be known.
func (g *grid) add(item int, shape orb.Geometry, joined func(i, j int) bool, join func(i, j int)) {
	for _, p := range alongside(shape) {
		row := rowOf(p, blockM)
		for r := row - 1; r <= row+1; r++ {
			column := columnOf(p, r, blockM)
			for k := column - 1; k <= column+1; k++ {
				for n := g.blocks[[2]int{r, k}]; n > 0; n = g.points[n-1].before {
					q := &g.points[n-1]
					if !joined(item, q.item) && maybeTogether(p, q.at) && geo.DistanceM(p, q.at) <= togetherM {
						join(item, q.item)
					}
				}
			}
		}
		g.keep(item, p)
	}
}

// keep keeps a point if it is the first in its small cell.
func (g *grid) keep(item int, p orb.Point) {
	row := rowOf(p, cellM)
	if own := [2]int{row, columnOf(p, row, cellM)}; !g.taken[own] {
		g.taken[own] = true
		row = rowOf(p, blockM)
		block := [2]int{row, columnOf(p, row, blockM)}
		g.points = append(g.points, gridPoint{item, p, g.blocks[block]})
		g.blocks[block] = len(g.points)
	}
}

// maybeTogether is false of points whose latitudes alone are too far apart: a degree
// is 110.57 km at the least (WGS 84, at the equator).
func maybeTogether(p, q orb.Point) bool {
	return math.Abs(p.Lat()-q.Lat())*110_570 <= togetherM
}

func rowOf(p orb.Point, sizeM float64) int { return int(math.Floor(p.Lat() * metresA / sizeM)) }

// columnOf is the column of a place in a row of cells of a size, which are as wide as
// high at the latitude of the row.
func columnOf(p orb.Point, row int, sizeM float64) int {
	lat := (float64(row) + 0.5) * sizeM / metresA
	return int(math.Floor(p.Lon() * metresA * math.Cos(lat*math.Pi/180) / sizeM))
}

// alongside are points along a shape, no more than sampleM apart.
func alongside(shape orb.Geometry) []orb.Point {
	line, ok := shape.(orb.LineString)
	if !ok {
		p := firstOf(shape)
		return []orb.Point{p}
	}
	var out []orb.Point
	for k := 1; k < len(line); k++ {
		a, b := line[k-1], line[k]
		n := math.Max(1, math.Ceil(geo.DistanceM(a, b)/sampleM))
		for i := 0.0; i < n; i++ {
			f := i / n
			out = append(out, orb.Point{a[0] + f*(b[0]-a[0]), a[1] + f*(b[1]-a[1])})
		}
	}
	return append(out, line[len(line)-1])
}

// firstOf and lastOf are where a shape begins and ends.
func firstOf(shape orb.Geometry) orb.Point {
	switch g := shape.(type) {
	case orb.Point:
		return g
	case orb.LineString:
		if len(g) > 0 {
			return g[0]
		}
	case orb.Polygon:
		if len(g) > 0 && len(g[0]) > 0 {
			return g[0][0]
		}
	}
	return orb.Point{}
}

func lastOf(shape orb.Geometry) orb.Point {
	if g, ok := shape.(orb.LineString); ok && len(g) > 0 {
		return g[len(g)-1]
	}
	return firstOf(shape)
}
