package anchorages

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
)

// discM is the radius of the smallest clear water that is found for certain.
const discM = 50

// stepM is how far apart places are, both ways: a little less than the square that
// a disc holds about any of its points, discM x sqrt 2.
const stepM = 69

// node is what is known of a place of the lattice.
type node uint8

const (
	noWater  node = iota // no chart has water there of a depth to anchor in
	water                // not looked at
	ruledOut             // not a place to lie at
	fit                  // a place to lie at
)

// lattice is the places that are looked at, row by row from the south.
type lattice struct {
	area       orb.Bound
	dLon, dLat float64
	cols, rows int
	nodes      []node
	labels     []uint64 // see bar
	barred     []bool
}

func newLattice(b orb.Bound) *lattice {
	w, h := sides(b)
	cols, rows := int(math.Ceil(w/stepM))+1, int(math.Ceil(h/stepM))+1
	return &lattice{area: b, cols: cols, rows: rows, nodes: make([]node, cols*rows),
		dLon: widthDeg(b) / float64(max(1, cols-1)), dLat: (b.Max[1] - b.Min[1]) / float64(max(1, rows-1))}
}

// at is the position of a node.
func (l *lattice) at(i int) orb.Point {
	return orb.Point{l.area.Min[0] + float64(i%l.cols)*l.dLon, l.area.Min[1] + float64(i/l.cols)*l.dLat}
}

// nearest is the node next to a position inside the area.
func (l *lattice) nearest(p orb.Point) int {
	x := int(math.Round((p[0] - l.area.Min[0]) / l.dLon))
	y := int(math.Round((p[1] - l.area.Min[1]) / l.dLat))
	return min(max(y, 0), l.rows-1)*l.cols + min(max(x, 0), l.cols-1)
}

// gapM is how far apart two nodes are, metres, near enough.
func (l *lattice) gapM(a, b int) float64 {
	return stepM * math.Hypot(float64(a%l.cols-b%l.cols), float64(a/l.cols-b/l.cols))
}

// joined reports whether the water along the straight line between two nodes is one:
// not ruled out, not barred, and in the same areas.
func (l *lattice) joined(a, b int) bool {
	ax, ay, bx, by := a%l.cols, a/l.cols, b%l.cols, b/l.cols
	n := max(abs(ax-bx), abs(ay-by))
	for k := 0; k <= n; k++ {
		x := ax + int(math.Round(float64((bx-ax)*k)/float64(max(n, 1))))
		y := ay + int(math.Round(float64((by-ay)*k)/float64(max(n, 1))))
		i := y*l.cols + x
		if l.barred[i] || l.labels[i] != l.labels[a] || l.nodes[i] == noWater || l.nodes[i] == ruledOut {
			return false
		}
	}
	return true
}

func abs(v int) int { return max(v, -v) }

// flood marks the nodes that lie in charted water not deeper throughout than mostM.
// Depths of every chart count, also where another chart has the word: the checks
// decide which. pause is asked between areas.
func (l *lattice) flood(c *chart.Chart, mostM float64, pause func() error) error {
	for _, f := range c.Features() {
		if !f.Class.WaterArea() || f.DepthMinM > mostM {
			continue
		}
		l.fill(f, func(i int) {
			if l.nodes[i] == noWater {
				l.nodes[i] = water
			}
		})
		if err := pause(); err != nil {
			return err
		}
	}
	return nil
}

// fill calls fn for the nodes inside an area, row by row: between each two crossings
// of its outline, counted from the west.
func (l *lattice) fill(f *chart.Feature, fn func(node int)) {
	crossings := make([][]float64, l.rows)
	any := false
	f.Parts(func(ring []chart.Coord) {
		for i := range ring {
			a, b := ring[i].Position(), ring[(i+1)%len(ring)].Position()
			if a[1] > b[1] {
				a, b = b, a
			}
			from := max(0, int(math.Ceil((a[1]-l.area.Min[1])/l.dLat)))
			for y := from; y < l.rows; y++ {
				lat := l.area.Min[1] + float64(y)*l.dLat
				if lat >= b[1] {
					break
				}
				if lat < a[1] {
					continue
				}
				x := a[0] + (b[0]-a[0])*(lat-a[1])/(b[1]-a[1])
				crossings[y] = append(crossings[y], x)
				any = true
			}
		}
	})
	if !any {
		return
	}
	for y, xs := range crossings {
		slices.Sort(xs)
		for k := 0; k+1 < len(xs); k += 2 {
			l.span(y, xs[k], xs[k+1], fn)
		}
	}
}

// span calls fn for a row's nodes from one longitude to another, both included.
func (l *lattice) span(y int, west, east float64, fn func(node int)) {
	from := max(0, int(math.Ceil((west-l.area.Min[0])/l.dLon)))
	to := min(l.cols-1, int(math.Floor((east-l.area.Min[0])/l.dLon)))
	for x := from; x <= to; x++ {
		fn(y*l.cols + x)
	}
}
