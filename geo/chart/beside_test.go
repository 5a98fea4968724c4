package chart

import (
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo"
)

// A segment that a window's straight line leaves aside lies farther from the piece than
// its reach: by the plane itself, wherever the segment lies and however long an edge is.
func TestWhatIsLeftAsideIsOutOfReach(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 5))
	left := 0
	for range 20_000 {
		from := orb.Point{360*rnd.Float64() - 180, 150*rnd.Float64() - 75}
		to := geo.RhumbDirect(from, 360*rnd.Float64(), MaxPieceM*rnd.Float64())
		p, reach := NewPiece(from, to), 500*rnd.Float64()*rnd.Float64()
		lo, hi := p.box(reach)
		windows, n := windowsOf(p.strip(reach), lo, hi)
		start := CoordOf(geo.RhumbDirect(p.At(p.LengthM*rnd.Float64()), 360*rnd.Float64(), 4*reach*rnd.Float64()))
		end := Coord{start.Lon + int32(rnd.IntN(2*longEdge)) - longEdge, start.Lat + int32(rnd.IntN(2*longEdge)) - longEdge}.wrapped()
		if abs(int64(start.Lon)-int64(end.Lon)) > longEdge {
			continue // over the antimeridian no edge goes
		}
		aside := true
		for i := range windows[:n] {
			w := &windows[i]
			b := corners{}
			b.lo, b.hi = box([]Coord{start, end})
			aside = aside && (!w.overlaps(&b) || w.beside(start)&w.beside(end) != 0)
		}
		if !aside {
			continue
		}
		left++
		if _, _, meets := within(p.frame(start), p.frame(end), reach, p.LengthM); meets {
			t.Fatalf("a segment from %v to %v is left aside, within %g m of the piece from %v to %v", start, end, reach, from, to)
		}
	}
	if left < 2000 {
		t.Errorf("only %d segments are left aside", left)
	}
}
