package plan

import (
	"math"
	"math/rand"
	"testing"
)

// Equal after rounding to whole millimetres is enough. The sums are those of
// arithmetic by hand: 0.1 + 0.2 is 0.3, though not in float64.
func TestComparing(t *testing.T) {
	for _, c := range []struct {
		have, wanted float64
		enough       bool
	}{
		{0.5, 0.5, true}, {0.3, 0.1 + 0.2, true}, {2.1 - 0.3 - 1 - 0.3, 0.5, true}, {0.4996, 0.5, true}, {0.4994, 0.5, false}, {0.499, 0.5, false},
		{-0.3, -0.1 - 0.2, true}, {math.NaN(), 0, false}, {1, math.NaN(), false}, {math.Inf(1), 1, true}, {math.Inf(-1), 1, false},
	} {
		if got := Enough(c.have, c.wanted); got != c.enough {
			t.Errorf("%v of %v is enough: %v", c.have, c.wanted, got)
		}
		if got := Exceeds(c.wanted, c.have); got != !c.enough {
			t.Errorf("%v exceeds %v: %v", c.wanted, c.have, got)
		}
	}
	for _, c := range []struct{ in, want float64 }{{0.2, 0.2}, {0.201, 0.21}, {0.1 + 0.2, 0.3}, {-0.291, -0.29}, {0.2004, 0.2}} {
		if got := CeilHundredths(c.in); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%v up: %v, want %v", c.in, got, c.want)
		}
	}
	for in, want := range map[float64]string{0.996: "0.99", 0.9996: "1.00", -0.0001: "0.00", -0.001: "-0.01", 0: "0.00", math.Copysign(0, -1): "0.00"} {
		if got := Down(in); got != want {
			t.Errorf("%v is written %s, want %s", in, got, want)
		}
	}
	if got := Up(1e-3); got != "0.01" {
		t.Errorf("a millimetre is written %s, want 0.01", got)
	}
}

// By hand: 2.35 + 0.876 − 0.3 − 0.9 − 0.256 = 1.770. The tide's 0.6 and the
// squat's 0.4 hundredths over the one below: the tide has the one that is left.
func TestShownSum(t *testing.T) {
	shown, total := Shown(2.35, 0.876, -0.3, -0.9, -0.256)
	want := []float64{2.35, 0.88, -0.3, -0.9, -0.26}
	for i := range want {
		if math.Abs(shown[i]-want[i]) > 1e-12 {
			t.Errorf("term %d: %v, want %v", i, shown[i], want[i])
		}
	}
	if math.Abs(total-1.77) > 1e-12 {
		t.Errorf("total %v, want 1.77", total)
	}
}

// Whatever the terms: what is shown adds up, is the figure compared rounded
// down, and no term is a whole hundredth or more from its value.
func TestShownSumsAddUp(t *testing.T) {
	rnd := rand.New(rand.NewSource(15))
	for range 20_000 {
		terms := make([]float64, 1+rnd.Intn(7))
		sum := 0.0
		for i := range terms {
			terms[i] = float64(rnd.Intn(4000)-2000) / []float64{10, 100, 1000, 12345.678}[rnd.Intn(4)]
			sum += terms[i]
		}
		shown, total := Shown(terms...)
		cents := 0.0
		for i, s := range shown {
			c := math.Round(s * 100)
			if math.Abs(s*100-c) > 1e-9 || math.Abs(s-terms[i]) > 0.01+1e-9 {
				t.Fatalf("%v is shown as %v", terms[i], s)
			}
			if whole := math.Round(terms[i] * 100); math.Abs(terms[i]*100-whole) < 1e-9 && c != whole {
				t.Fatalf("%v, a whole hundredth, is shown as %v", terms[i], s)
			}
			cents += c
		}
		if want := math.Floor(math.Round(sum*1000) / 10); cents != want || math.Round(total*100) != want {
			t.Fatalf("%v are shown as %v = %v, want %v hundredths", terms, shown, total, want)
		}
	}
}
