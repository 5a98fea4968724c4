package anchorages

import (
	"math"

	"keelroom/geo/chart"
)

// bar notes what may part fit water: land, areas with a rule, cables and pipelines,
// depths that are too little or too much, what is in the way, and dangers. Nodes in
// other such areas have other labels; lines, points and narrow areas bar the nodes
// about them. Water beyond is looked at by itself, so that noting too much costs time
// alone.
func (l *lattice) bar(c *chart.Chart, leastM, mostM float64) {
	l.labels, l.barred = make([]uint64, len(l.nodes)), make([]bool, len(l.nodes))
	for n, f := range c.Features() {
		if !parts(f, leastM, mostM) {
			continue
		}
		if f.Prim == chart.Area {
			label := scrambled(uint64(n) + 1)
			l.fill(f, func(i int) { l.labels[i] ^= label })
		}
		if f.Prim != chart.Area || l.narrow(f) {
			l.outline(f, func(i int) { l.barred[i] = true })
		}
	}
}

// scrambled spreads small numbers over all bits, so that sums of a few of them are
// told apart (the finalizer of MurmurHash3, public domain).
func scrambled(v uint64) uint64 {
	v = (v ^ v>>33) * 0xff51afd7ed558ccd
	v = (v ^ v>>33) * 0xc4ceb9fe1a85ec53
	return v ^ v>>33
}

// parts reports whether a feature may part water where she may lie.
func parts(f *chart.Feature, leastM, mostM float64) bool {
	switch k := f.Class; {
	case f.Rules != nil, k == chart.LNDARE, k.Shoreline(), k.NoGo(), k.Danger(), f.RefusedFeature(),
		k == chart.CBLARE, k == chart.CBLSUB, k == chart.PIPARE, k == chart.PIPSOL:
		return true
	case k.WaterArea():
		return !(f.DepthMinM >= leastM && f.DepthMinM <= mostM)
	}
	return false
}

// narrow reports whether an area may slip between the nodes: its mean width, twice
// its surface over the length of its outline, is below two steps.
func (l *lattice) narrow(f *chart.Feature) bool {
	surface, length := 0.0, 0.0
	f.Parts(func(ring []chart.Coord) {
		for i := range ring {
			a, b := l.place(ring[i]), l.place(ring[(i+1)%len(ring)])
			surface += a[0]*b[1] - b[0]*a[1]
			length += math.Hypot(b[0]-a[0], b[1]-a[1])
		}
	})
	return length == 0 || math.Abs(surface)/length < 2
}

// place is a position in steps from the south-west corner.
func (l *lattice) place(c chart.Coord) [2]float64 {
	p := c.Position()
	return [2]float64{(p[0] - l.area.Min[0]) / l.dLon, (p[1] - l.area.Min[1]) / l.dLat}
}
