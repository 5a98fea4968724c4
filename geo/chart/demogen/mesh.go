package main

import (
	"math"
	"sort"

	"keelroom/geo/chart/demobed"
)

// The mesh is a right-triangulated irregular network (Evans, Kirkpatrick
// and Townsend 2001, Algorithmica 30, "Right-triangulated irregular
// networks"; from memory): two triangles over the whole area, each halved
// at the middle of its longest side as often as needed, without hanging
// vertices.
const gridSteps = 1 << 12 // finest grid: 2.8 by 2.2 metres

type gridPoint struct{ i, j int32 }

func (g gridPoint) spot() spot {
	b := demobed.Bounds()
	west, south := math.Round(b.Min[0]*perDegree), math.Round(b.Min[1]*perDegree)
	east, north := math.Round(b.Max[0]*perDegree), math.Round(b.Max[1]*perDegree)
	at := func(lo, hi float64, n int32) int32 {
		return int32(math.Round(lo + float64((hi-lo)*float64(n)/gridSteps)))
	}
	return spot{at(west, east, g.i), at(south, north, g.j)}
}

// triangle has its longest side between a and b.
type triangle struct{ a, b, c gridPoint }

func (t triangle) middle() (m gridPoint, ok bool) {
	i, j := t.a.i+t.b.i, t.a.j+t.b.j
	return gridPoint{i / 2, j / 2}, i%2 == 0 && j%2 == 0
}

func middleOf(a, b gridPoint) gridPoint { return gridPoint{(a.i + b.i) / 2, (a.j + b.j) / 2} }

// mesher refines the mesh; split holds the middles at which sides are cut.
type mesher struct {
	split  map[gridPoint]bool
	wanted map[triangle]bool // memo of wants
	depth  map[gridPoint]float64
}

// buildMesh returns the triangles in a fixed order.
func buildMesh() []triangle {
	m := &mesher{map[gridPoint]bool{}, map[triangle]bool{}, map[gridPoint]float64{}}
	n := int32(gridSteps)
	sw, se, nw, ne := gridPoint{0, 0}, gridPoint{n, 0}, gridPoint{0, n}, gridPoint{n, n}
	for {
		before := len(m.split)
		leaves := m.leaves(triangle{se, nw, sw}, nil)
		leaves = m.leaves(triangle{nw, se, ne}, leaves)
		if len(m.split) == before {
			return leaves
		}
	}
}

// leaves appends the triangles below t that need no further cut. It may mark
// new cuts; the caller repeats until none is marked, so that a side is cut
// for both of its triangles.
func (m *mesher) leaves(t triangle, out []triangle) []triangle {
	mid, ok := t.middle()
	if !ok || !(m.split[mid] || m.legCut(t) || m.wants(t)) {
		return append(out, t)
	}
	m.split[mid] = true
	out = m.leaves(triangle{t.c, t.a, mid}, out)
	return m.leaves(triangle{t.b, t.c, mid}, out)
}

func (m *mesher) legCut(t triangle) bool {
	return m.split[middleOf(t.a, t.c)] && even(t.a, t.c) || m.split[middleOf(t.b, t.c)] && even(t.b, t.c)
}

func even(a, b gridPoint) bool { return (a.i+b.i)%2 == 0 && (a.j+b.j)%2 == 0 }

func (m *mesher) wants(t triangle) bool {
	w, known := m.wanted[t]
	if !known {
		w = m.tooCoarse(t)
		m.wanted[t] = w
	}
	return w
}

// tooCoarse reports whether the straight surface over t could be wrong by more
// than interpolationM where that matters: where a contour may pass.
//
// Bound: let f be the bed less its linear interpolant on t, so f is 0 at the
// corners, let M bound its second derivative and let all corners lie within
// r of a point c. f + M/2 |x-c|^2 is convex, so over the triangle it is at
// most its greatest corner value, M r^2/2; the same holds for -f. Hence
// |f| <= M r^2/2 (compare Waldron 1998, SIAM J. Numer. Anal. 35).
func (m *mesher) tooCoarse(t triangle) bool {
	centre := middleOf(t.a, t.b).spot()
	r := 0.0
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, g := range []gridPoint{t.a, t.b, t.c} {
		r = math.Max(r, metresBetween(centre, g.spot()))
		z := m.depthAt(g)
		lo, hi = math.Min(lo, z), math.Max(hi, z)
	}
	if r > coarsestM || zoneEdgeNeeds(centre, r) {
		return true
	}
	e := demobed.Within(centre.point(), r*1.001).CurvePerM * r * r / 2
	return e > interpolationM && contourBetween(lo-e-2*marginM, hi+e+2*marginM)
}

func (m *mesher) depthAt(g gridPoint) float64 {
	z, known := m.depth[g]
	if !known {
		z = demobed.DepthM(g.spot().point())
		m.depth[g] = z
	}
	return z
}

// zoneEdgeNeeds asks for small triangles on the outline of a zone, and
// smaller ones at its corners, which the mesh cuts off.
func zoneEdgeNeeds(centre spot, r float64) bool {
	x, y := centre.metres()
	for _, z := range zones {
		d := z.outside(x, y)
		if math.Abs(d) < r && (r > 40 || r > 4 && z.nearCorner(x, y, 2*r)) {
			return true
		}
	}
	return false
}

// contourBetween reports whether a contour value lies between lo and hi.
func contourBetween(lo, hi float64) bool {
	i := sort.SearchFloat64s(contoursM, lo)
	return i < len(contoursM) && contoursM[i] <= hi
}
