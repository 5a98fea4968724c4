package hazards

import (
	"math"

	"keelroom/geo/chart"
)

// twinM is how far apart the extents of one thing may lie on two charts: 0.5 mm at
// 1:50 000, the plotting accuracy of the smaller scales a small boat would use
// (common practice, no source), rounded up.
const twinM = 30

// twinsAmong gives, for each feature that findings come from, the one that stands
// for it: of things that two charts show, the first met.
func (g *ground) twinsAmong(items []item) map[*chart.Feature]*chart.Feature {
	t := twins{ground: g, of: map[*chart.Feature]*chart.Feature{}, near: map[twinCell][]*twin{}, keys: map[twinKey]*chart.Feature{}}
	for i := range items {
		for _, f := range items[i].all() {
			if _, seen := t.of[f]; !seen {
				t.of[f] = t.first(f)
			}
		}
	}
	return t.of
}

type twins struct {
	ground *ground
	of     map[*chart.Feature]*chart.Feature
	near   map[twinCell][]*twin
	keys   map[twinKey]*chart.Feature
}

// twinKey is the producer's own name of a feature, which its charts of other
// scales may share (LNAM, IHO S-57).
type twinKey struct {
	class chart.Class
	key   string
}

// twinCell is where a feature of a class begins.
type twinCell struct {
	class       chart.Class
	prim        chart.Prim
	row, column int
}

type twin struct {
	f   *chart.Feature
	box box
}

// box is the extent of a feature, metres on a plane that is true enough over
// twinM.
type box struct{ w, s, e, n float64 }

// boxOf is the extent of a feature, worked out once: areas have thousands of points.
func (g *ground) boxOf(f *chart.Feature) box {
	if b, ok := g.boxes[f]; ok {
		return b
	}
	b := box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, c := range f.Coords {
		p := c.Position()
		y := p.Lat() * metresA
		x := p.Lon() * metresA * math.Cos(math.Round(p.Lat())*math.Pi/180)
		b.w, b.s, b.e, b.n = math.Min(b.w, x), math.Min(b.s, y), math.Max(b.e, x), math.Max(b.n, y)
	}
	g.boxes[f] = b
	return b
}

func (b box) like(o box) bool {
	return math.Abs(b.w-o.w) <= twinM && math.Abs(b.s-o.s) <= twinM && math.Abs(b.e-o.e) <= twinM && math.Abs(b.n-o.n) <= twinM
}

// first is the feature of another chart that shows the same thing and was met
// before, else the feature itself.
func (t *twins) first(f *chart.Feature) *chart.Feature {
	if f.Class == chart.SOUNDG || len(f.Coords) == 0 {
		return f
	}
	key := twinKey{f.Class, f.Key}
	if g := t.keys[key]; f.Key != "" && g != nil && g.Set != f.Set {
		return t.of[g]
	}
	me := &twin{f, t.ground.boxOf(f)}
	cell := twinCell{f.Class, f.Prim, int(math.Floor(me.box.s / twinM)), int(math.Floor(me.box.w / twinM))}
	for r := -1; r <= 1; r++ {
		for c := -1; c <= 1; c++ {
			for _, g := range t.near[twinCell{cell.class, cell.prim, cell.row + r, cell.column + c}] {
				if g.f.Set != f.Set && g.box.like(me.box) && (g.f.Name == f.Name || g.f.Name == "" || f.Name == "") {
					return t.of[g.f]
				}
			}
		}
	}
	t.near[cell] = append(t.near[cell], me)
	if t.keys[key] == nil {
		t.keys[key] = f
	}
	return f
}
