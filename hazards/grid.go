package hazards

import (
	"math"

	"github.com/paulmach/orb"

	"keelroom/geo"
)

// grid finds which of many stretches come within togetherM of each other, by
// points along them, in work that grows with their length and not with how many
// lie over each other.
type grid struct{ cells map[[2]int]gridPoint }

type gridPoint struct {
	item int
	at   orb.Point
}

const (
	cellM   = 25
	sampleM = 40 // between points along a stretch
	metresA = 111_320.0
)

func newGrid() *grid { return &grid{map[[2]int]gridPoint{}} }

// add takes a stretch in and joins it to all that it is near to.
func (g *grid) add(item int, shape orb.Geometry, join func(i, j int)) {
	for _, p := range alongside(shape) {
		row := rowOf(p)
		const reach = togetherM/cellM + 1
		for r := row - reach; r <= row+reach; r++ {
			column := columnOf(p, r)
			for k := column - reach; k <= column+reach; k++ {
				if q, ok := g.cells[[2]int{r, k}]; ok && q.item != item && geo.DistanceM(p, q.at) <= togetherM {
					join(item, q.item)
				}
			}
		}
		if own := [2]int{row, columnOf(p, row)}; g.free(own) {
			g.cells[own] = gridPoint{item, p}
		}
	}
}

func (g *grid) free(cell [2]int) bool { _, taken := g.cells[cell]; return !taken }

func rowOf(p orb.Point) int { return int(math.Floor(p.Lat() * metresA / cellM)) }

// columnOf is the column of a place in a row of cells, which are as wide as high
// at the latitude of the row.
func columnOf(p orb.Point, row int) int {
	lat := (float64(row) + 0.5) * cellM / metresA
	return int(math.Floor(p.Lon() * metresA * math.Cos(lat*math.Pi/180) / cellM))
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
