package chart

import (
	"math"
	"math/rand"
	"slices"
	"testing"

	"github.com/paulmach/orb"
)

// A tree finds what looking at every box finds, however many there are: one, a node, a
// few levels.
func TestPackedTreeIsBruteForce(t *testing.T) {
	rnd := rand.New(rand.NewSource(20261130))
	at := func(span int32) Coord { return Coord{rnd.Int31n(span) - span/2, rnd.Int31n(span) - span/2} }
	for _, n := range []int{1, 2, 15, 16, 17, 255, 256, 257, 3000, 5000} {
		var all []boxed
		for i := range n {
			lo := at(2e8)
			all = append(all, boxed{corners{lo, Coord{lo.Lon + rnd.Int31n(3e6), lo.Lat + rnd.Int31n(3e6)}}, chunk{feature: int32(i)}})
		}
		worked := 0
		tr := &tree{parts: []packed{newPacked(slices.Clone(all), func(n int) { worked += n })}}
		if worked < n {
			t.Errorf("%d boxes are packed, %d are told of", n, worked)
		}
		for range 50 {
			lo := at(2e8)
			w := corners{lo, Coord{lo.Lon + rnd.Int31n(2e7), lo.Lat + rnd.Int31n(2e7)}}
			var got, want []int32
			tr.search(degreesOf(w.lo), degreesOf(w.hi), func(c chunk) { got = append(got, c.feature) })
			for _, b := range all {
				if b.box.lo.Lon <= w.hi.Lon && b.box.hi.Lon >= w.lo.Lon && b.box.lo.Lat <= w.hi.Lat && b.box.hi.Lat >= w.lo.Lat {
					want = append(want, b.feature)
				}
			}
			if slices.Sort(got); !slices.Equal(got, want) {
				t.Fatalf("of %d boxes %v are found, %v meet the window", n, got, want)
			}
		}
	}
}

// What lies beside a strip may be left out, what comes near the line never: points all
// about a piece, at high latitudes and over the antimeridian too.
func TestStripLosesNothing(t *testing.T) {
	rnd := rand.New(rand.NewSource(20261201))
	found, left := 0, 0
	for range 400 {
		from := orb.Point{[]float64{-70.9, 0, 179.99, -179.99}[rnd.Intn(4)] + 0.02*rnd.Float64(), []float64{42.3, -0.01, 69.5, -60}[rnd.Intn(4)]}
		to := orb.Point{from[0] + 0.04*(rnd.Float64()-0.5), from[1] + 0.02*(rnd.Float64()-0.5)}
		if math.Abs(to[0]) > 180 {
			to[0] -= math.Copysign(360, to[0])
		}
		p, reach := NewPiece(from, to), 60*rnd.Float64()
		tr, at := &tree{}, map[int32]Coord{}
		for i := range int32(200) {
			c := CoordOf(p.beside(p.LengthM*(1.2*rnd.Float64()-0.1), 600*(rnd.Float64()-0.5))).wrapped()
			at[i] = c
			tr.added = append(tr.added, boxed{corners{c, c}, chunk{feature: i}})
		}
		tr.pack(func(int) {})
		lo, hi := p.box(reach)
		seen := map[int32]bool{}
		tr.searchAlong(p.strip(reach), lo, hi, func(c chunk) { seen[c.feature] = true })
		for i, c := range at {
			near := pointDistance(p.frame(c), p.LengthM) <= reach
			if near && !seen[i] {
				t.Fatalf("%v is %.1f m from the piece from %v to %v, in reach of %.1f m, and not found", c, pointDistance(p.frame(c), p.LengthM), from, to, reach)
			}
			if near {
				found++
			} else if !seen[i] {
				left++
			}
		}
	}
	if found < 1000 || left < 1000 {
		t.Errorf("%d found, %d left out", found, left)
	}
}
