package chart_test

import (
	"bytes"
	"fmt"
	"math"
	"math/rand"
	"runtime"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
)

// touchM is how far the ends of spans may move when a piece is seen from another
// plane: 0.1 % of the reach, and 2 cm · tan(latitude) for edges of a kilometre,
// both along a boundary met at a narrow angle.
const touchM = 0.05

// same compares spans but for their ends: places a little inside one have to be
// in the other. A touch shorter than a metre may come and go.
func same(a, b []chart.Span) bool { return holdsSpans(a, b) && holdsSpans(b, a) }

func holdsSpans(a, b []chart.Span) bool {
	for _, v := range b {
		if v.To-v.From < 1 {
			continue
		}
		for k := range 11 {
			s := v.From + 0.5 + (v.To-v.From-1)*float64(k)/10
			if !inSpans(a, s) {
				return false
			}
		}
	}
	return true
}

func mirrored(s []chart.Span, length float64) []chart.Span {
	out := slices.Clone(s)
	slices.Reverse(out)
	for i, v := range out {
		out[i] = chart.Span{From: length - v.To, To: length - v.From, DistM: v.DistM}
	}
	return out
}

func byFeature(m chart.Met) map[*chart.Feature]chart.Hit {
	out := map[*chart.Feature]chart.Hit{}
	for _, h := range m.Hits {
		out[h.Feature] = h
	}
	out[outsideOnly] = chart.Hit{Feature: outsideOnly, Near: m.Outside}
	out[untiledOnly] = chart.Hit{Feature: untiledOnly, Near: append(slices.Clone(m.Untiled), m.Outside...)}
	return out
}

// pieces are random ones over a chart.
func pieces(c *chart.Chart, n int, fn func(p chart.Piece, r chart.Reach)) {
	rng := rand.New(rand.NewSource(20260719))
	b, _ := c.Bounds()
	for range n {
		from := within(rng, b)
		p := chart.NewPiece(from, geo.Direct(from, 360*rng.Float64(), 10+3000*rng.Float64()))
		fn(p, chart.Reach{HalfM: 50 * rng.Float64(), HazardM: 10, WideM: 20 * rng.Float64()})
	}
}

func TestReversingMirrors(t *testing.T) {
	c := chart.New(hull(t))
	q := c.NewQuery()
	pieces(c, fewer(1000), func(p chart.Piece, r chart.Reach) {
		there, back := q.Along(p, r), q.Along(chart.NewPiece(p.To, p.From), r)
		fwd, rev := byFeature(there), byFeature(back)
		for f, h := range fwd {
			g := rev[f]
			if !same(h.Near, mirrored(g.Near, p.LengthM)) || !same(h.Wide, mirrored(g.Wide, p.LengthM)) || !same(h.Inside, mirrored(g.Inside, p.LengthM)) {
				t.Errorf("%v-%v: %s %d near %v, back %v", p.From, p.To, f.Class, f.Index, h.Near, g.Near)
			}
			if math.Abs(h.LeastDistanceM()-g.LeastDistanceM()) > touchM && g.Feature != nil {
				t.Errorf("%s %d: %.3f m off, back %.3f m", f.Class, f.Index, h.LeastDistanceM(), g.LeastDistanceM())
			}
		}
		if !same(there.Outside, mirrored(back.Outside, p.LengthM)) || !same(there.Untiled, mirrored(back.Untiled, p.LengthM)) {
			t.Errorf("%v-%v: outside %v, back %v; untiled %v, back %v", p.From, p.To, there.Outside, back.Outside, there.Untiled, back.Untiled)
		}
	})
}

// The spans of two halves put together are those of the whole, but that each is
// seen from a plane of its own: a reach of 10 cm more holds the other's.
func TestSplittingChangesNothing(t *testing.T) {
	const more = 0.1
	c := chart.New(hull(t))
	q := c.NewQuery()
	pieces(c, fewer(500), func(p chart.Piece, r chart.Reach) {
		larger := r
		larger.HalfM += more
		at := p.LengthM * 0.37
		whole, wider := byFeature(q.Along(p, r)), byFeature(q.Along(p, larger))
		first, second := halves(q, p, at, r)
		firstWider, secondWider := halves(q, p, at, larger)
		for f, h := range wider {
			halves, halvesWider := joined(first[f].Near, second[f].Near, at), joined(firstWider[f].Near, secondWider[f].Near, at)
			if !holdsSpans(h.Near, halves) || !holdsSpans(halvesWider, whole[f].Near) {
				t.Errorf("%v-%v: %s %d near %v, in halves %v", p.From, p.To, f.Class, f.Index, whole[f].Near, halves)
			}
			if !same(whole[f].Inside, joined(first[f].Inside, second[f].Inside, at)) {
				t.Errorf("%v-%v: %s %d inside %v, not so in halves", p.From, p.To, f.Class, f.Index, whole[f].Inside)
			}
			if n := len(first[f].Cross) + len(second[f].Cross); len(whole[f].Cross) > n {
				t.Errorf("%s %d: crossed at %v, in halves %d times", f.Class, f.Index, whole[f].Cross, n)
			}
		}
	})
}

// halves looks along both parts of a piece. Gaps come as features of no class.
func halves(q *chart.Query, p chart.Piece, at float64, r chart.Reach) (first, second map[*chart.Feature]chart.Hit) {
	mid := p.At(at)
	return byFeature(q.Along(chart.NewPiece(p.From, mid), r)), byFeature(q.Along(chart.NewPiece(mid, p.To), r))
}

// outsideOnly and untiledOnly stand for the gaps of an answer.
var outsideOnly, untiledOnly = new(chart.Feature), new(chart.Feature)

func joined(a, b []chart.Span, at float64) []chart.Span {
	out := slices.Clone(a)
	for _, v := range b {
		v.From, v.To = v.From+at, v.To+at
		if n := len(out); n > 0 && v.From-out[n-1].To < 0.5 && out[n-1].To > at-0.5 && v.From < at+0.5 {
			out[n-1].To = v.To
			continue
		}
		out = append(out, v)
	}
	return out
}

// private is a layer of random areas, lines and points of all kinds.
func private(rng *rand.Rand, b orb.Bound, n int) *chart.Set {
	s := &chart.Set{Authority: chart.Private}
	classes := []chart.Class{chart.LNDARE, chart.DEPARE, chart.MCOVR, chart.OBSTRN, chart.UNSARE, chart.RESARE}
	for range n {
		at := within(rng, b)
		f := square(classes[rng.Intn(len(classes))], at[0], at[1], 0.003*rng.Float64())
		switch f.Class {
		case chart.MCOVR:
			f.Meta = &chart.Meta{CatCov: 1}
		case chart.DEPARE:
			f.DepthMinM, f.DepthMaxM = 20, 50
		case chart.OBSTRN:
			f.Danger = &chart.Danger{}
		case chart.RESARE:
			f.Rules = &chart.Rules{SpeedZone: true}
		}
		s.Features = append(s.Features, f)
	}
	s.Refused = []chart.Refused{{Class: chart.DEPARE, Code: "E-NUM", Min: chart.CoordOf(b.Min), Max: chart.CoordOf(b.Center())}}
	return s
}

// describe writes all of an answer down.
func describe(m chart.Met) string {
	var out bytes.Buffer
	for _, h := range m.Hits {
		fmt.Fprintln(&out, h.Class, h.File, h.Index, h.Near, h.Wide, h.Inside, h.Cross, h.Soundings)
	}
	fmt.Fprintln(&out, m.Outside, m.Untiled)
	return out.String()
}

// A private layer takes nothing away: no hit, no gap, no length of a ray. And
// the chart under it answers as before, after a thousand such layers.
func TestPrivateLayersTakeNothingAway(t *testing.T) {
	c := chart.New(hull(t))
	b, _ := c.Bounds()
	rng := rand.New(rand.NewSource(20260719))
	over := c.With(private(rng, b, 200))
	q, p := c.NewQuery(), over.NewQuery()
	var before []string
	pieces(c, fewer(300), func(piece chart.Piece, r chart.Reach) {
		base, with := q.Along(piece, r), p.Along(piece, r)
		before = append(before, describe(base))
		all := byFeature(with)
		for f, h := range byFeature(base) {
			if g := all[f]; !slices.Equal(h.Near, g.Near) || !slices.Equal(h.Wide, g.Wide) || !slices.Equal(h.Inside, g.Inside) || len(h.Soundings) != len(g.Soundings) {
				t.Errorf("%s %d: near %v, under a private layer %v", f.Class, f.Index, h.Near, g.Near)
			}
		}
		if !same(with.Outside, base.Outside) || !same(with.Untiled, base.Untiled) {
			t.Errorf("outside %v, under a private layer %v; untiled %v, %v", base.Outside, with.Outside, base.Untiled, with.Untiled)
		}
		dry := func(d float64) bool { return d < -0.5 }
		if x, y := q.Cast(q.Origin(piece.From), 77, 5000, dry), p.Cast(p.Origin(piece.From), 77, 5000, dry); x != y {
			t.Errorf("a ray is %+v, under a private layer %+v", x, y)
		}
	})
	own := private(rng, b, 3)
	features := len(c.Features())
	for range 1000 {
		over = c.With(own)
	}
	if len(over.Features()) != features+4 || len(c.Features()) != features {
		t.Errorf("%d features under a layer of 3 and a refused one over %d", len(over.Features()), features)
	}
	i := 0
	pieces(c, fewer(300), func(piece chart.Piece, r chart.Reach) {
		if got := describe(q.Along(piece, r)); got != before[i] {
			t.Errorf("after other layers were laid over it, a chart says %s, before %s", got, before[i])
		}
		i++
	})
}

// Layers over a chart are thrown away whole: they hold no memory after.
func TestLayersDoNotPileUp(t *testing.T) {
	c := chart.New(hull(t))
	b, _ := c.Bounds()
	own := private(rand.New(rand.NewSource(1)), b, 20)
	held := func() uint64 {
		var m runtime.MemStats
		runtime.GC()
		runtime.GC()
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	c.With(own)
	before := held()
	for range 2000 {
		c.With(own)
	}
	if after := held(); after > before+1<<20 {
		t.Errorf("2000 layers hold %d bytes", after-before)
	}
	runtime.KeepAlive(c)
}

// A chart of smaller scale under another takes no depth claim away, and lays
// none over it where the corridor is all in the larger one.
func TestSmallerScaleTakesNothingAway(t *testing.T) {
	large := hull(t)
	c := chart.New(large)
	b, _ := c.Bounds()
	wide := b.Pad(0.06)
	ring := []orb.Point{wide.Min, {wide.Max[0], wide.Min[1]}, wide.Max, {wide.Min[0], wide.Max[1]}}
	small := chartOf(1<<20, polygon(chart.DEPARE, 50, ring...), covering(ring...))
	small.Authority = large.Authority // of two of one authority the larger scale counts
	both := chart.New(hull(t), small)
	q, p := c.NewQuery(), both.NewQuery()
	type key struct {
		class chart.Class
		file  string
		index int
	}
	pieces(c, fewer(300), func(piece chart.Piece, r chart.Reach) {
		base, with := q.Along(piece, r), p.Along(piece, r)
		all := map[key]chart.Hit{}
		deepIn := len(q.Along(piece, chart.Reach{HalfM: r.HalfM + r.HazardM + r.WideM + 1}).Outside) == 0
		for _, h := range with.Hits {
			all[key{h.Class, h.File, h.Index}] = h
			if h.Set == small && h.Class == chart.DEPARE && deepIn {
				t.Errorf("the small chart speaks at %v within the large one", h.Near)
			}
		}
		for _, h := range base.Hits {
			if g := all[key{h.Class, h.File, h.Index}]; !slices.Equal(h.Near, g.Near) || !slices.Equal(h.Inside, g.Inside) {
				t.Errorf("%s %d: near %v, over a smaller scale %v", h.Class, h.Index, h.Near, g.Near)
			}
		}
		if len(with.Outside) > 0 {
			t.Errorf("outside %v though the small chart goes on", with.Outside)
		}
	})
}

func TestMarksNearAndAreasAtAgreeWithWalking(t *testing.T) {
	c := chart.New(fullCell(t))
	q, n := c.NewQuery(), 0
	marks := shapes(c, chart.BOYLAT, chart.BCNLAT, chart.BOYSPP, chart.BCNSPP)
	areas := shapes(c, classesMet...)
	pieces(c, fewer(400), func(p chart.Piece, r chart.Reach) {
		reach := 20 * r.HalfM
		got := q.MarksNear(p, reach)
		line := samples(p.From, p.To, 500)
		for i := range marks {
			d, s := math.Inf(1), stretch{segments: [][2]orb.Point{{marks[i].parts[0][0], marks[i].parts[0][0]}}}
			for _, at := range line {
				d = math.Min(d, s.distance(at))
			}
			// Half a step of the walk, at the distance d, and the frame's scale.
			tol := math.Hypot(d, p.LengthM/1000) - d + 0.002*d
			if in := slices.Contains(got, marks[i].Feature); d < reach-tol && !in || d > reach+tol && in {
				t.Errorf("%s %d, %.2f m from %v-%v, within %.2f m: %v", marks[i].Class, marks[i].Index, d, p.From, p.To, reach, in)
			}
		}
		at := q.AreasAt(p.From)
		for i := range areas {
			s := &areas[i]
			near := s.inBox(orb.Bound{Min: p.From, Max: p.From}.Pad(1e-5))
			if in := slices.Contains(at, s.Feature); near.distance(p.From) > 0.02 && in != s.holds(p.From) {
				t.Errorf("%s %d holds %v: %v", s.Class, s.Index, p.From, in)
			}
			n++
		}
	})
	t.Logf("%d areas compared", n)
}

// The traps of the real charts that look-ups can fall into (shared/charts).
func TestTraps(t *testing.T) {
	c := chart.New(fullCell(t))
	q := c.NewQuery()
	islets, rocks := 0, 0
	for _, f := range c.Features() {
		if f.Prim != chart.Point || f.Class != chart.LNDARE && f.Class != chart.UWTROC {
			continue
		}
		here := f.Coords[0].Position()
		p := chart.NewPiece(geo.Direct(here, 30, 40), geo.Direct(here, 210, 50))
		h, met := byFeature(q.Along(p, chart.Reach{HalfM: 8}))[f]
		if !met || len(h.Near) != 1 || h.LeastDistanceM() > 0.05 || math.Abs(h.Near[0].From-32) > 0.1 || math.Abs(h.Near[0].To-48) > 0.1 {
			t.Errorf("%s %d on the track is met at %v, %v", f.Class, f.Index, h.Near, met)
		}
		switch {
		case f.Class == chart.LNDARE:
			islets++
		case f.Danger == nil:
			t.Errorf("rock %d is no danger", f.Index)
		case !chart.Known(f.DepthMinM) && f.Danger.WatLev == 4:
			rocks++
		}
	}
	// The counts that shared/charts/README.md states of the cell.
	if islets != 258 || rocks != 474 {
		t.Errorf("%d islets and %d rocks without a depth, want 258 and 474", islets, rocks)
	}
}
