package tide

import (
	"math"
	"math/rand"
	"testing"
	"time"
)

// largest is above any tide on Earth: 6 m of the semidiurnal moon, and shallow-water tides of a
// metre up to twelve a day, of which stations have decimetres.
func largest(t testing.TB) *Harmonic {
	return mustHarmonic(t, 7, []Constituent{{"M2", 6, 100}, {"S2", 1.5, 10}, {"N2", 1.2, 200}, {"K1", 1, 30}, {"O1", 1, 60},
		{"M4", 1, 80}, {"MS4", 0.5, 12}, {"M6", 1, 5}, {"M8", 1, 300}, {"M10", 0.2, 45}, {"M12", 0.1, 45}})
}

// The heights of a window are those of its tide, at both sides of every seam of pieces and segments
// too: the bound is Lagrange's remainder, see curveErrorM.
func TestWindowHeightsAreTheTides(t *testing.T) {
	rnd := rand.New(rand.NewSource(20261127))
	from := time.Date(2026, 7, 10, 0, 0, 0, 0, time.UTC)
	to := from.AddDate(0, 0, 12) // a seam of segments lies in it
	for name, h := range map[string]Tide{"boston": boston(t), "mayport": mayport37(t), "largest": largest(t), "adjusted": Adjusted(boston(t), -0.37)} {
		w := NewWindow(h, from, to)
		if w.curve == nil {
			t.Fatalf("%s has no curve", name)
		}
		look := func(at time.Time) {
			got, ok := w.HeightM(at)
			want, wantOK := h.HeightM(at)
			if ok != wantOK || math.Abs(got-want) > curveWithinM {
				t.Errorf("%s at %v: %v %v, the tide has %v", name, at, got, ok, want)
			}
		}
		for range 20_000 {
			look(from.Add(time.Duration(rnd.Int63n(int64(to.Sub(from))))))
		}
		for at := from.Add(-windowPad - time.Hour); at.Before(to.Add(windowPad + time.Hour)); at = at.Add(30 * time.Minute) {
			look(at.Add(-1))
			look(at)
			look(at.Add(1))
		}
	}
}

// A tide whose polynomials would miss by more than is allowed is asked itself: here one of 20 m
// that turns six times a day, of which there is none.
func TestWindowWithoutACurve(t *testing.T) {
	wild := mustHarmonic(t, 0, []Constituent{{"M12", 20, 0}})
	at := time.Date(2026, 7, 10, 7, 11, 0, 0, time.UTC)
	w := NewWindow(wild, at, at.Add(time.Hour))
	got, _ := w.HeightM(at)
	if want, _ := wild.HeightM(at); got != want {
		t.Errorf("%v, the tide has %v", got, want)
	}
	if s := wild.segmentAt(hours(at)); s.curveErrorM() <= curveWithinM {
		t.Errorf("the bound is %g m", s.curveErrorM())
	}
	if s := largest(t).segmentAt(hours(at)); s.curveErrorM() > curveWithinM {
		t.Errorf("the bound of the largest tide is %g m", s.curveErrorM())
	}
}
