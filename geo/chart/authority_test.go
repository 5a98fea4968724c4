package chart_test

import (
	"math"
	"math/rand"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
)

// overlay is an INVENTED derived chart of a large scale over part of some bounds:
// deep water, land of its own, a hole, and places where it says that it has no data.
func overlay(rng *rand.Rand, b orb.Bound) *chart.Set {
	box := func(size float64) []orb.Point {
		p := within(rng, b)
		w, h := size*(b.Max[0]-b.Min[0])*rng.Float64(), size*(b.Max[1]-b.Min[1])*rng.Float64()
		hi := orb.Point{math.Min(p[0]+w, b.Max[0]), math.Min(p[1]+h, b.Max[1])}
		return []orb.Point{p, {hi[0], p[1]}, hi, {p[0], hi[1]}}
	}
	var features []chart.Feature
	for range 1 + rng.Intn(3) {
		cover := box(0.9)
		features = append(features, covering(cover...))
		if rng.Intn(3) > 0 {
			features = append(features, polygon(chart.DEPARE, 90, cover...))
		}
	}
	for range rng.Intn(4) {
		features = append(features, polygon(chart.LNDARE, chart.Unknown, box(0.2)...))
	}
	if rng.Intn(2) == 0 {
		bare := covering(box(0.3)...)
		bare.Meta = &chart.Meta{CatCov: 2}
		features = append(features, bare)
	}
	s := chartOf(5000, features...)
	s.Authority = chart.Derived
	return s
}

// A derived chart of larger scale takes nothing from an official one: what a leg
// meets it meets still, what is unknown stays so, and no ray is shorter.
func TestADerivedChartTakesNothingFromAnOfficial(t *testing.T) {
	official := func() *chart.Set {
		s := hull(t)
		s.Authority, s.Scale = chart.Official, 25_000
		return s
	}
	base := chart.New(official())
	q := base.NewQuery()
	b, _ := base.Bounds()
	rng := rand.New(rand.NewSource(7))
	type key struct {
		class chart.Class
		file  string
		index int
	}
	for range fewer(12) {
		c := chart.New(official(), overlay(rng, b))
		p := c.NewQuery()
		pieces(base, 40, func(piece chart.Piece, r chart.Reach) {
			alone, both := q.Along(piece, r), p.Along(piece, r)
			all := map[key]chart.Hit{}
			for _, h := range both.Hits {
				all[key{h.Class, h.File, h.Index}] = h
			}
			for _, h := range alone.Hits {
				if g := all[key{h.Class, h.File, h.Index}]; !slices.Equal(h.Near, g.Near) || !slices.Equal(h.Inside, g.Inside) || len(h.Soundings) != len(g.Soundings) {
					t.Errorf("%s %d: near %v, under a derived chart %v", h.Class, h.Index, h.Near, g.Near)
				}
			}
			if !holdsSpans(append(slices.Clone(both.Untiled), both.Outside...), alone.Untiled) {
				t.Errorf("untiled %v, under a derived chart %v", alone.Untiled, both.Untiled)
			}
		})
		for range 60 {
			from, deg := within(rng, b), 360*rng.Float64()
			dry := func(d float64) bool { return d <= -0.5 }
			alone, both := q.Cast(q.Origin(from), deg, 4000, dry), p.Cast(p.Origin(from), deg, 4000, dry)
			if both.LengthM < alone.LengthM-0.05 || alone.Open && !both.Open || alone.LengthM > 0 && alone.LengthM == both.LengthM && alone.MeanDepthM > both.MeanDepthM+0.01 {
				t.Errorf("from %v toward %.1f: %+v, under a derived chart %+v", from, deg, alone, both)
			}
		}
	}
}

// Trust takes the derived chart for as good as an official one, and giving it up
// restores what was.
func TestTrusting(t *testing.T) {
	b := orb.Bound{Min: orb.Point{-36, 43}, Max: orb.Point{-35.9, 43.1}}
	ring := []orb.Point{b.Min, {b.Max[0], b.Min[1]}, b.Max, {b.Min[0], b.Max[1]}}
	o, d := chartOf(50_000, polygon(chart.DEPARE, 1, ring...), covering(ring...)), chartOf(10_000, polygon(chart.DEPARE, 9, ring...), covering(ring...))
	d.Authority, d.Title = chart.Derived, "D"
	c := chart.New(o, d)
	depths := func(c *chart.Chart) (out []float64) {
		piece := chart.NewPiece(b.Center(), geo.Direct(b.Center(), 90, 500))
		for _, h := range c.NewQuery().Along(piece, chart.Reach{HalfM: 25}).Hits {
			if h.Class == chart.DEPARE {
				out = append(out, h.DepthMinM)
			}
		}
		return out
	}
	for _, step := range []struct {
		names []string
		want  []float64
	}{{nil, []float64{9, 1}}, {[]string{"D"}, []float64{9}}, {[]string{""}, []float64{9, 1}}, {[]string{"x", "D"}, []float64{9}}, {[]string{"x"}, []float64{9, 1}}} {
		c = c.Trusting(step.names)
		if got := depths(c); !slices.Equal(got, step.want) || c.Trusting(step.names) != c {
			t.Errorf("trusting %q: depths %v, want %v", step.names, got, step.want)
		}
		if got := depths(c.With(&chart.Set{Authority: chart.Private})); !slices.Equal(got, step.want) {
			t.Errorf("trusting %q under a private layer: depths %v, want %v", step.names, got, step.want)
		}
	}
}
