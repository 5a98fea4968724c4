package chart_test

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
)

// INVENTED waters: tilings of triangles at places where a sign or a scale could
// go wrong. None of them is a real coast.
var corners = map[string]orb.Point{
	"north-west":        {-36, 43},
	"south-east":        {100.3, -33.2},
	"75 north":          {3.1, 75},
	"the equator":       {-0.004, -0.004},
	"the antimeridian":  {179.99, -17},
	"antimeridian 65 N": {179.985, 65},
}

// tiles are triangles over a jittered grid of cells of about 200 m, with the
// coverage around it. At a jitter of up to half a cell no triangle turns over.
// Where the grid runs over the antimeridian it is two charts.
type tiles struct {
	sets    []*chart.Set
	missing [3]orb.Point
	bounds  orb.Bound // may run beyond 180°
}

const gridSide = 9

func newTiles(rng *rand.Rand, corner orb.Point, jitter float64, without int) tiles {
	east, north := local(corner[1])
	dLon, dLat := 200/east, 200/north
	if corner[0] > 170 { // a column of vertices on the antimeridian
		dLon = (180 - corner[0]) / 4
	}
	t := tiles{bounds: orb.Bound{Min: corner, Max: orb.Point{corner[0] + gridSide*dLon, corner[1] + gridSide*dLat}}}
	var v [gridSide + 1][gridSide + 1]orb.Point
	for i := range v {
		for j := range v[i] {
			v[i][j] = orb.Point{corner[0] + float64(i)*dLon, corner[1] + float64(j)*dLat}
			if i > 0 && j > 0 && i < gridSide && j < gridSide && math.Abs(v[i][j][0]-180) > 1e-9 {
				v[i][j] = orb.Point{v[i][j][0] + jitter*(rng.Float64()-0.5)*dLon, v[i][j][1] + jitter*(rng.Float64()-0.5)*dLat}
			}
		}
	}
	var parts [2][]chart.Feature
	n := 0
	for i := range gridSide {
		for j := range gridSide {
			for _, tri := range [][3]orb.Point{{v[i][j], v[i+1][j], v[i+1][j+1]}, {v[i][j], v[i+1][j+1], v[i][j+1]}} {
				if n++; n == without {
					t.missing = tri
					continue
				}
				k := 0
				if v[i][j][0] > 180-1e-9 {
					k = 1
				}
				parts[k] = append(parts[k], polygon(chart.DEPARE, 5, tri[:]...))
			}
		}
	}
	for k, features := range parts {
		if len(features) > 0 {
			t.sets = append(t.sets, chartOf(12000, append(features, t.cover(k))...))
		}
	}
	return t
}

func (t *tiles) cover(k int) chart.Feature {
	west, east := t.bounds.Min[0], t.bounds.Max[0]
	if k == 0 {
		east = math.Min(east, 180)
	} else {
		west = 180
	}
	s, n := t.bounds.Min[1], t.bounds.Max[1]
	return covering(orb.Point{west, s}, orb.Point{east, s}, orb.Point{east, n}, orb.Point{west, n})
}

// polygon is an area of one ring; longitudes from 180° on lie in the east half
// if all do.
func polygon(class chart.Class, depth float64, ring ...orb.Point) chart.Feature {
	f := chart.Feature{Class: class, DepthMinM: depth, DepthMaxM: depth + 5}
	f.Prim = chart.Area
	west := math.Inf(1)
	for _, p := range ring {
		west = math.Min(west, p[0])
	}
	for _, p := range append(ring, ring[0]) {
		if west > 180-1e-9 {
			p[0] -= 360
		}
		f.Coords = append(f.Coords, chart.CoordOf(p))
	}
	f.Ends = []int32{int32(len(f.Coords))}
	return f
}

func covering(ring ...orb.Point) chart.Feature {
	f := polygon(chart.MCOVR, chart.Unknown, ring...)
	f.Meta = &chart.Meta{CatCov: 1}
	return f
}

func chartOf(scale int, features ...chart.Feature) *chart.Set {
	for i := range features {
		features[i].Index = i
	}
	return &chart.Set{Authority: chart.Official, Scale: scale, SoundingDatum: 23, Features: features}
}

// toTriangle is the distance in metres from a place to a triangle.
func toTriangle(p orb.Point, tri [3]orb.Point) float64 {
	var s stretch
	inside := true
	for k := range tri {
		a, b := tri[k], tri[(k+1)%3]
		if p[0] < 0 && a[0] > 170 { // west of the antimeridian and east of it
			a[0], b[0] = a[0]-360, b[0]-360
		}
		s.segments = append(s.segments, [2]orb.Point{a, b})
		inside = inside && side(a, b, p) > 0
	}
	if inside {
		return 0
	}
	return s.distance(p)
}

// One tile is missing: the corridor is untiled just where it touches that tile,
// and nowhere without data.
func TestAMissingTileIsUnknownJustThere(t *testing.T) {
	for name, corner := range corners {
		t.Run(name, func(t *testing.T) {
			rng := rand.New(rand.NewSource(20260719))
			seen := 0
			for range fewer(48) {
				tiling := newTiles(rng, corner, 0.5, 1+rng.Intn(2*gridSide*gridSide))
				q := chart.New(tiling.sets...).NewQuery()
				for range 40 {
					seen += compareHole(t, rng, q, &tiling)
				}
			}
			if seen == 0 {
				t.Error("no piece came near the hole")
			}
		})
	}
}

// compareHole sends a piece near the hole; it gives how many samples were in it.
func compareHole(t *testing.T, rng *rand.Rand, q *chart.Query, tiling *tiles) (seen int) {
	t.Helper()
	half := 40 * rng.Float64()
	from := wrap(within(rng, tiling.bounds.Pad(-0.0005)))
	if rng.Intn(2) == 0 {
		from = geo.Direct(wrap(tiling.missing[rng.Intn(3)]), 360*rng.Float64(), 120*rng.Float64())
	}
	p := chart.NewPiece(from, geo.Direct(from, 360*rng.Float64(), 500*rng.Float64()))
	met := q.Along(p, chart.Reach{HalfM: half})
	line := samples(p.From, p.To, 100)
	for i, at := range line {
		d, along := toTriangle(at, tiling.missing), p.LengthM*(float64(i)/100)
		in, out := inSpans(met.Untiled, along), inSpans(met.Outside, along)
		edge := tiling.toEdge(at)
		switch {
		case d < half-lessM && !in && !out:
			t.Errorf("%v is %.2f m from the hole, half-width %.2f: untiled %v", at, d, half, met.Untiled)
		case d > half*1.001+moreM && in:
			t.Errorf("%v is %.2f m from the hole, half-width %.2f, but untiled: %v", at, d, half, met.Untiled)
		case edge > half*1.001+moreM && out, edge < half-moreM && !out:
			t.Errorf("%v is %.2f m from the border, half-width %.2f: outside %v", at, edge, half, met.Outside)
		}
		if in {
			seen++
		}
	}
	return seen
}

// toEdge is the distance to the border of the data, negative beyond it.
func (t *tiles) toEdge(p orb.Point) float64 {
	if p[0] < t.bounds.Min[0]-180 {
		p[0] += 360
	}
	east, north := local(p[1])
	return min((p[0]-t.bounds.Min[0])*east, (t.bounds.Max[0]-p[0])*east, (p[1]-t.bounds.Min[1])*north, (t.bounds.Max[1]-p[1])*north)
}

func wrap(p orb.Point) orb.Point { return orb.Point{math.Remainder(p[0], 360), p[1]} }

// A track along the edges of a tiling, from vertex to vertex, is in some tile
// all the way, and in none that it has left.
func TestTracksAlongSharedEdges(t *testing.T) {
	for name, corner := range corners {
		t.Run(name, func(t *testing.T) {
			rng := rand.New(rand.NewSource(20260719))
			for round := range fewer(64) {
				tiling := newTiles(rng, corner, 0.5*float64(round%2), 0)
				c := chart.New(tiling.sets...)
				q := c.NewQuery()
				all := shapes(c, chart.DEPARE)
				for range 20 {
					a := all[rng.Intn(len(all))].parts[0]
					k := 1 + rng.Intn(3)
					from, to := a[k-1], a[k]
					switch rng.Intn(3) {
					case 0: // twice as far as the edge goes
						to = orb.Point{2*to[0] - from[0], 2*to[1] - from[1]}
					case 1:
						to = from
					}
					compareAlongEdges(t, q, all, chart.NewPiece(wrap(from), wrap(to)))
				}
			}
		})
	}
}

func compareAlongEdges(t *testing.T, q *chart.Query, all []shape, p chart.Piece) {
	t.Helper()
	met := q.Along(p, chart.Reach{HalfM: 0.5})
	if len(met.Untiled) > 0 {
		t.Errorf("%v-%v: untiled %v", p.From, p.To, met.Untiled)
	}
	for _, h := range met.Hits {
		if h.Class != chart.DEPARE {
			continue
		}
		for _, s := range h.Inside {
			for _, along := range []float64{s.From, (s.From + s.To) / 2, s.To} {
				if d := distanceTo(all, h.Feature, p.At(along)); d > 0.05 {
					t.Errorf("%v-%v: inside tile %d at %.3f m, which is %.3f m away (%v)", p.From, p.To, h.Index, along, d, h.Inside)
				}
			}
		}
	}
}

func distanceTo(all []shape, f *chart.Feature, at orb.Point) float64 {
	for i := range all {
		if s := &all[i]; s.Feature == f {
			for k, alt := range []orb.Point{at, {at[0] - 360, at[1]}, {at[0] + 360, at[1]}} {
				if d := (&stretch{}); s.holds(alt) {
					return 0
				} else if *d = s.inBox(orb.Bound{Min: alt, Max: alt}.Pad(0.01)); len(d.segments) > 0 || k == 2 {
					return d.distance(alt)
				}
			}
		}
	}
	return math.Inf(1)
}

// A larger chart with a hole in its depths, over a smaller one without: nothing
// fills the hole, beside the hole as well as in it, and at the large chart's
// border.
func TestSmallerScaleDoesNotFillAHole(t *testing.T) {
	at := func(x, y float64) orb.Point { return orb.Point{-36 + x*0.001, 43 + y*0.001} }
	box := func(x0, y0, x1, y1 float64) []orb.Point {
		return []orb.Point{at(x0, y0), at(x1, y0), at(x1, y1), at(x0, y1)}
	}
	small := chartOf(50000, polygon(chart.DEPARE, 9, box(0, 0, 40, 20)...), covering(box(0, 0, 40, 20)...))
	for i, depths := range [][][]orb.Point{
		{box(10, 0, 18, 20), box(22, 0, 30, 20)},                       // a strip between 18 and 22
		{box(10, 0, 18, 20), box(10, 0, 18, 20), box(22, 0, 30, 20)},   // with one area twice
		{box(14, 0, 18, 20), box(22, 0, 30, 20), box(10, 0, 13.9, 20)}, // and a narrow one at 13.9
		{box(10, 0, 30, 5)},
	} {
		features := []chart.Feature{covering(box(10, 0, 30, 20)...)}
		for _, d := range depths {
			features = append(features, polygon(chart.DEPARE, 5, d...))
		}
		q := chart.New(small, chartOf(10000, features...)).NewQuery()
		for _, c := range []struct {
			what       string
			x0, x1, y  float64
			wantHole   bool
			onlyRounds []int
		}{
			{"through the hole", 12, 28, 10, true, nil},
			{"in the hole", 19, 21, 10, true, nil},
			{"beside the hole", 18 - 0.2, 18 - 0.21, 10, i != 3, []int{0, 1, 2}},
			{"away from it", 14.5, 16, 10, false, []int{0, 1, 2}},
			{"in the smaller chart", 32, 38, 10, false, nil},
			{"outside the border of a coverage without depths", 30.2, 30.21, 10, true, []int{3}},
		} {
			if c.onlyRounds != nil && !contains(c.onlyRounds, i) {
				continue
			}
			m := q.Along(chart.NewPiece(at(c.x0, c.y), at(c.x1, c.y)), chart.Reach{HalfM: 25})
			if got := len(m.Untiled) > 0; got != c.wantHole || len(m.Outside) > 0 {
				t.Errorf("large chart %d, %s: untiled %v, outside %v", i, c.what, m.Untiled, m.Outside)
			}
		}
	}
}

func contains(s []int, v int) bool {
	for _, x := range s {
		if x == v {
			return true
		}
	}
	return false
}

// A danger of the smaller scale just beyond the larger one's border counts,
// though only the hazards' own reach comes so far.
func TestDangerBeyondTheBorderOfALargerScale(t *testing.T) {
	small := chartOf(50000, square(chart.MCOVR, -36.01, 42.99, 0.03), square(chart.DEPARE, -36.01, 42.99, 0.03), rock(-36-35/81541.2, 43.005))
	large := chartOf(10000, square(chart.MCOVR, -36, 43, 0.01), square(chart.DEPARE, -36, 43, 0.01))
	for _, s := range []*chart.Set{small, large} {
		s.Features[0].Meta, s.Features[1].DepthMinM = &chart.Meta{CatCov: 1}, 5
	}
	q := chart.New(small, large).NewQuery()
	p := chart.NewPiece(orb.Point{-36 + 25/81541.2, 43.004}, orb.Point{-36 + 25/81541.2, 43.006})
	for hazard, want := range map[float64]bool{45: false, 55: true} {
		found := false
		for _, h := range q.Along(p, chart.Reach{HalfM: 10, HazardM: hazard}).Hits {
			found = found || h.Class == chart.UWTROC && len(h.Near) > 0
		}
		if found != want {
			t.Errorf("a rock 60 m off, reach %v m: met %v", 10+hazard, found)
		}
	}
}

func rock(lon, lat float64) chart.Feature {
	f := chart.Feature{Class: chart.UWTROC, DepthMinM: chart.Unknown, DepthMaxM: chart.Unknown, Danger: &chart.Danger{}}
	f.Prim, f.Coords = chart.Point, []chart.Coord{chart.CoordOf(orb.Point{lon, lat})}
	return f
}

// Borders of coverages that cross each other away from any vertex, a hole in
// M_COVR, and CATCOV 2 beside it: the corridor is outside just where a probe
// finds no coverage.
func TestOverlappingCoverages(t *testing.T) {
	at := func(x, y float64) orb.Point { return orb.Point{-36 + x*0.001, 43 + y*0.001} }
	none := covering(at(20, 0), at(30, 0), at(30, 20), at(20, 20))
	none.Meta.CatCov = 2
	holed := covering(at(0, 0), at(20, 1), at(19, 20), at(1, 20))
	hole := polygon(chart.MCOVR, 0, at(8, 8), at(12, 8.3), at(12, 11), at(8, 12))
	holed.Coords, holed.Ends = append(holed.Coords, hole.Coords...), append(holed.Ends, int32(len(holed.Coords)+len(hole.Coords)))
	cross := covering(at(-5, 9.1), at(26, 9.6), at(25, 10.2), at(-4, 10.4))
	c := chart.New(chartOf(10000, holed, none), chartOf(20000, cross))
	q, rng := c.NewQuery(), rand.New(rand.NewSource(20260719))
	w := newWalker(t, c)
	for i := range fewer(300) {
		from := within(rng, orb.Bound{Min: at(-6, -1), Max: at(31, 21)})
		p := chart.NewPiece(from, geo.Direct(from, 360*rng.Float64(), 300*rng.Float64()))
		half := 40 * rng.Float64()
		met := q.Along(p, chart.Reach{HalfM: half})
		for k, v := range samples(p.From, p.To, 20) {
			outside, _ := w.probe(v, half)
			if along := p.LengthM * (float64(k) / 20); outside && !inSpans(met.Outside, along) {
				t.Errorf("piece %d, %v: no data within %.1f m, outside %v", i, v, half, met.Outside)
			} else if !outside && inSpans(met.Outside, along) && !w.nearBorder(v, half) {
				t.Errorf("piece %d, %v: outside %v", i, v, met.Outside)
			}
		}
	}
}

func ExamplePieces() {
	leg := geo.NewRhumb(orb.Point{-36, 43}, orb.Point{-36, 43.1})
	fmt.Println(len(chart.Pieces(leg)), "pieces")
	// Six minutes of latitude there are a little less than six nautical miles.
	// Output: 3 pieces
}
