package anchorages

import (
	"math"

	"keelroom/geo/chart"
	"keelroom/hazards"
	"keelroom/hazards/sea"
)

// Most water is open to the wind. Where it surely is, no ray need be cast: for each
// of the directions of a fan the way to the nearest shore upwind is counted along
// parallel lines of nodes, which share their work. All is taken so that the sea
// comes out too low: land and all that may dry is wider by two nodes, beyond the area
// there is no water at all, depths are the least charted, and a part is taken off for
// the depth between. So a node is passed over only where the sea is surely too high.
const (
	widerBy    = 2    // nodes, about 140 m
	fetchShare = 0.95 // lines of nodes are straight to half a node
	depthShare = 0.7  // of the mean of the least depths
)

// passOpen rules out the nodes where the sea at the strongest wind is surely more than
// she may lie in.
func (s *Search) passOpen(l *hazards.Lying, c *chart.Chart, pause func() error) error {
	fromDeg, height, ok := l.Strongest()
	if !ok {
		return nil
	}
	g := s.lattice
	stop, depth := g.shores(c)
	length, section := make([]float64, len(g.nodes)), make([]float64, len(g.nodes))
	for k := range sea.Fan {
		deg := fromDeg + float64(k-sea.Fan/2)*sea.FanStepDeg
		g.along(deg, stop, depth, length, section)
		if err := pause(); err != nil {
			return err
		}
	}
	limit := s.question.Plan.Margins.AnchoredSeaM
	for i, n := range g.nodes {
		if n != water || length[i] == 0 {
			continue
		}
		fetch, mean := fetchShare*length[i]/sea.Fan, depthShare*section[i]/length[i]
		if height(fetch, mean) > limit {
			g.nodes[i] = ruledOut
		}
		if i%4096 == 0 {
			if err := pause(); err != nil {
				return err
			}
		}
	}
	return nil
}

// shores are the nodes that stop waves, widened, and the least charted depth at each
// node, +Inf where none is charted.
func (l *lattice) shores(c *chart.Chart) (stop []bool, depthM []float64) {
	stop, depthM = make([]bool, len(l.nodes)), make([]float64, len(l.nodes))
	for i := range depthM {
		depthM[i] = math.Inf(1)
	}
	for _, f := range c.Features() {
		switch {
		case f.Prim != chart.Area:
		case f.Class == chart.LNDARE || f.Class == chart.DEPARE && f.DepthMaxM < 0:
			l.fill(f, func(i int) { stop[i] = true })
			l.outline(f, func(i int) { stop[i] = true })
		case f.Class.WaterArea():
			l.fill(f, func(i int) { depthM[i] = math.Min(depthM[i], math.Max(0, f.DepthMinM)) })
		}
	}
	return l.widened(stop), depthM
}

// outline calls fn for the nodes at the corners of every cell that the outline of an
// area, a line or points run through: no way from node to node slips through.
func (l *lattice) outline(f *chart.Feature, fn func(node int)) {
	f.Parts(func(part []chart.Coord) {
		for i := range part {
			next := i + 1
			if next == len(part) {
				if next = 0; f.Prim != chart.Area {
					next = i
				}
			}
			l.edge(l.place(part[i]), l.place(part[next]), fn)
		}
	})
}

// edge calls fn for the corners of the cells of one edge, given in steps.
func (l *lattice) edge(a, b [2]float64, fn func(node int)) {
	const perStep = 3
	n := int(math.Ceil(perStep * math.Max(math.Abs(b[0]-a[0]), math.Abs(b[1]-a[1]))))
	n = min(n, perStep*(l.cols+l.rows)) // one that long is mostly beyond the area
	for k := 0; k <= n; k++ {
		t := float64(k) / float64(max(n, 1))
		x, y := int(math.Floor(a[0]+t*(b[0]-a[0]))), int(math.Floor(a[1]+t*(b[1]-a[1])))
		for _, c := range [4][2]int{{x, y}, {x + 1, y}, {x, y + 1}, {x + 1, y + 1}} {
			if c[0] >= 0 && c[0] < l.cols && c[1] >= 0 && c[1] < l.rows {
				fn(c[1]*l.cols + c[0])
			}
		}
	}
}

// widened is a set of nodes with those beside it, row by row and then column by column.
func (l *lattice) widened(set []bool) []bool {
	return l.spread(l.spread(set, 1, l.cols, l.cols, l.rows), l.cols, l.rows, 1, l.cols)
}

// spread widens a set along lines of n nodes, each next to the last by one stride, of
// which there are lines many, begun by the other stride.
func (l *lattice) spread(set []bool, stride, n, other, lines int) []bool {
	out := make([]bool, len(set))
	for line := range lines {
		for k := range n {
			if !set[line*other+k*stride] {
				continue
			}
			for m := max(0, k-widerBy); m <= min(n-1, k+widerBy); m++ {
				out[line*other+m*stride] = true
			}
		}
	}
	return out
}

// along adds, for each node, the way to the first stop toward a bearing, metres, and
// the sum of the depths over it times their length. Nodes are taken along lines: on
// each step the line goes one node along the axis nearer to the bearing, and to the
// nearest node across it.
func (l *lattice) along(towardDeg float64, stop []bool, depthM, length, section []float64) {
	sin, cos := math.Sincos(towardDeg * math.Pi / 180)
	steep := math.Abs(cos) >= math.Abs(sin) // rows are the steps
	n, across, stride, other := l.cols, l.rows, 1, l.cols
	slope, forward := cos/sin, sin > 0
	if steep {
		n, across, stride, other = l.rows, l.cols, l.cols, 1
		slope, forward = sin/cos, cos > 0
	}
	step := stepM * math.Hypot(1, slope)
	shift := make([]int, n)
	for k := range shift {
		shift[k] = int(math.Round(float64(k) * slope))
	}
	low, high := min(0, -shift[n-1]), max(0, -shift[n-1])
	for line := low; line < across+high; line++ {
		run, depth := 0.0, 0.0
		for j := range n {
			k := j
			if forward { // begin at the end that the wind comes from
				k = n - 1 - j
			}
			at := line + shift[k]
			if at < 0 || at >= across {
				run, depth = 0, 0
				continue
			}
			i := k*stride + at*other
			if stop[i] {
				run, depth = 0, 0
				continue
			}
			length[i] += run
			section[i] += depth
			d := depthM[i]
			if math.IsInf(d, 1) {
				d = deepM
			}
			run, depth = run+step, depth+step*d
		}
	}
}

// deepM stands for a depth that is not known, which limits no wave.
const deepM = 100
