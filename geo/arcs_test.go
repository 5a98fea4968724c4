package geo_test

import (
	"math"
	"math/rand"
	"testing"

	"keelroom/geo"
)

// Arcs are compared with bearings that are looked at one by one.
func TestArcsAgainstSingleBearings(t *testing.T) {
	rnd := rand.New(rand.NewSource(20261128))
	for range 3000 {
		var a, b []geo.Arc
		for range rnd.Intn(5) {
			a = append(a, randomArc(rnd))
		}
		for range 1 + rnd.Intn(4) {
			b = append(b, randomArc(rnd))
		}
		merged, others, wide := geo.MergeArcs(a...), geo.MergeArcs(b...), rnd.Float64()*40
		widened := merged.Widened(wide)
		least := math.Inf(1)
		for tenth := range 3600 {
			deg := float64(tenth)/10 + 0.05
			off := apart(a, deg)
			if in := merged.Holds(deg); in != (off == 0) {
				t.Fatalf("%v of %v: held %v, %g° off", deg, a, in, off)
			}
			if in := widened.Holds(deg); in != (off <= wide) && math.Abs(off-wide) > 1e-9 {
				t.Fatalf("%v of %v widened by %g: held %v, %g° off", deg, a, wide, in, off)
			}
			if apart(b, deg) == 0 {
				least = math.Min(least, off)
			}
		}
		turn, at, ok := merged.TurnTo(others)
		if ok != (len(a) > 0) {
			t.Fatalf("%v to %v: ok %v", a, b, ok)
		}
		if ok && (turn > least+1e-9 || turn < least-0.11 || apart(b, at) > 1e-9) {
			t.Fatalf("%v to %v: turned %g to %g, by single bearings %g", a, b, turn, at, least)
		}
		for i := 1; i < len(merged); i++ {
			if merged[i].FromDeg <= merged[i-1].ToDeg {
				t.Fatalf("%v touch", merged)
			}
		}
	}
}

func randomArc(rnd *rand.Rand) geo.Arc {
	width := rnd.Float64() * 120
	if rnd.Intn(20) == 0 {
		width = 350 + rnd.Float64()*20
	}
	return geo.ArcAbout(rnd.Float64()*360, 0, width)
}

// apart is how many degrees a bearing lies off the nearest arc.
func apart(list []geo.Arc, deg float64) float64 {
	least := math.Inf(1)
	for _, a := range list {
		half := a.WidthDeg() / 2
		least = math.Min(least, math.Max(0, math.Abs(geo.Turn(a.FromDeg+half, deg))-half))
	}
	return least
}

func TestArcBetween(t *testing.T) {
	for _, c := range []struct{ from, to, wantFrom, wantTo float64 }{
		{10, 50, 10, 50}, {50, 10, 10, 50}, {350, 20, 350, 380}, {20, 350, 350, 380}, {90, 270, 90, 270}, {270, 90, 270, 450}, {5, 5, 5, 5},
	} {
		if a := geo.ArcBetween(c.from, c.to); math.Abs(a.FromDeg-c.wantFrom) > 1e-9 || math.Abs(a.ToDeg-c.wantTo) > 1e-9 {
			t.Errorf("between %g and %g: %v", c.from, c.to, a)
		}
	}
}
