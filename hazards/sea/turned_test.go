package sea

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
)

// The greatest sea with the wind turned is that of winds that blow from there: here
// each is worked out by itself, by At.
func TestGreatestTurnedAgainstAt(t *testing.T) {
	cast := &bearings{ray: func(deg float64) Ray {
		return Ray{LengthM: 200 + 4000*math.Pow(math.Sin(deg*math.Pi/360), 8), MeanDepthM: 4 + deg/60}
	}}
	for _, from := range []float64{0, 45, 90, 200, 310} {
		for _, by := range []float64{0, 15, 30, 90} {
			want := 0.0
			for turn := -by; turn <= by; turn += raySpacing {
				s, ok := (&Model{Wind: steady(t, fullCircle(from+turn), 15), Cast: cast}).At(origin, hours(2))
				if !ok {
					t.Fatal("the sea is not known")
				}
				want = math.Max(want, s.HsM)
			}
			m := &Model{Wind: steady(t, from, 15), Cast: cast}
			got, ok := m.GreatestTurned(origin, hours(2), hours(2), hours(2), by)
			if !ok || math.Abs(got-want) > 1e-9 {
				t.Errorf("from %v, turned by %v: %v %v, want %v", from, by, got, ok, want)
			}
		}
	}
}

// More freedom of the wind is never a lower sea, and an unknown wind is no calm.
func TestGreatestTurnedGrows(t *testing.T) {
	b := basin{min: orb.Point{-3000, -1000}, max: orb.Point{3000, 3000}, depthM: 8}
	m := &Model{Wind: steady(t, 0, 20), Cast: b}
	last := 0.0
	for by := 0.0; by <= 200; by += 7 {
		hs, ok := m.GreatestTurned(orb.Point{100, 200}, noon, hours(3), noon, by)
		if !ok || hs < last {
			t.Errorf("turned by %v: %v %v, after %v", by, hs, ok, last)
		}
		last = hs
	}
	if _, ok := m.GreatestTurned(orb.Point{100, 200}, noon, hours(1000), noon, 30); ok {
		t.Error("a wind that is not given for the whole stay gives a sea")
	}
}
