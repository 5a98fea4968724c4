package chart

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
)

// The nearest place of a mark that was left out is that of the box, by brute
// force over points of it. INVENTED waters.
func TestNearestOfAnUnreadMark(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		from := orb.Point{-36 + r.Float64()*0.02, 43 + r.Float64()*0.02}
		to := orb.Point{from[0] + (r.Float64()-0.5)*0.02, from[1] + (r.Float64()-0.5)*0.02}
		lo := CoordOf(orb.Point{-36 + r.Float64()*0.02, 43 + r.Float64()*0.02})
		hi := Coord{lo.Lon + int32(r.IntN(100_000)), lo.Lat + int32(r.IntN(100_000))}
		f := refusedFeature(&Set{}, Refused{Class: BOYLAT, Min: lo, Max: hi})
		p := NewPiece(from, to)
		at, along, distM := p.Nearest(f)
		least := math.Inf(1)
		const n = 60
		for i := range n + 1 {
			for j := range n + 1 {
				c := Coord{lo.Lon + int32(int(hi.Lon-lo.Lon)*i/n), lo.Lat + int32(int(hi.Lat-lo.Lat)*j/n)}
				least = min(least, p.DistanceM(c.Position()))
			}
		}
		step := 0.01 * 111e3 / n
		if distM > least+0.05 || distM < least-step || math.Abs(p.DistanceM(at.Position())-distM) > 0.05 || along < 0 || along > p.LengthM {
			t.Fatalf("%v to %v, box %v %v: %g m at %v, %g m along; %g m by hand", from, to, lo, hi, distM, at, along, least)
		}
		if math.Abs(math.Hypot(distance2(&p, at, along))-distM) > 0.1 {
			t.Fatalf("the place %g m along is not %g m off", along, distM)
		}
	}
}

// distance2 is how far a position lies from a place of the piece, along and across.
func distance2(p *Piece, at Coord, along float64) (dx, dy float64) {
	v := p.frame(at)
	return v.X - along, v.Y
}
