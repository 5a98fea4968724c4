package sea

import (
	"math"
	"math/rand"
	"testing"
	"time"

	"github.com/paulmach/orb"
)

// sound is a fetch that no time here uses up.
var sound = basin{min: orb.Point{-1e6, -1e6}, max: orb.Point{1e6, 290_000}, depthM: math.Inf(1)}

// deepSea is eq 3-39 in deep water for knots that have blown for hours, the time
// and not the fetch limiting: eq 3-35 solved for the fetch, written out by hand.
func deepSea(kn, h float64) float64 {
	ua := 0.71 * math.Pow(kn*1852/3600, 1.23)
	x := math.Pow(9.81*h*3600/ua/68.8, 1.5)
	return ua * ua / 9.81 * 0.283 * math.Tanh(0.00565*math.Sqrt(x))
}

func TestDurationLimits(t *testing.T) {
	const eps = 1.0 / 3600 // a second: as near to a step as a linear series comes
	for _, c := range []struct {
		name          string
		wind          *WindSeries
		hs, hours, kn float64
	}{
		{"steady: 12 h count", steady(t, 0, 20), deepSea(20, 12), 12, 20},
		{"got up 2 h ago", wind(t, [4]float64{-20, 0, 0, 0}, [4]float64{-2 - eps, 0, 0, 0}, [4]float64{-2, 0, 20, 20}, [4]float64{3, 0, 20, 20}), deepSea(20, 2), 2, 20},
		{"older than the series: as its first row", wind(t, [4]float64{0, 0, 20, 20}), deepSea(20, 12), 12, 20},
		{"just dropped: the sea is still there", wind(t, [4]float64{-20, 0, 20, 20}, [4]float64{-eps, 0, 20, 20}, [4]float64{0, 0, 0, 0}), deepSea(20, 12), 12, 20},
	} {
		s := at(t, &Model{Wind: c.wind, Cast: sound})
		near(t, c.name, s.HsM, c.hs, 1e-3)
		if !s.Within.DurationLimited || s.Within.Hours != c.hours || math.Abs(s.Within.MeanKn-c.kn) > 0.01 {
			t.Errorf("%s: %+v", c.name, s.Within)
		}
	}
	lake := basin{min: orb.Point{-200, -200}, max: orb.Point{200, 200}, depthM: 3}
	if s := at(t, &Model{Wind: steady(t, 0, 20), Cast: lake}); s.Within.DurationLimited {
		t.Errorf("200 m of water are limited by time: %+v", s.Within)
	}
}

// The stretches kept give the same height as all of them tried one by one, and
// every minute in between would not add more than 3 %.
func TestHistoryAgainstBruteForce(t *testing.T) {
	random := rand.New(rand.NewSource(6))
	var minutes []time.Duration
	for d := 30 * time.Minute; d <= 12*time.Hour; d += time.Minute {
		minutes = append(minutes, d)
	}
	for range 300 {
		rows := make([][4]float64, 8)
		for i := range rows {
			kn := 35 * random.Float64() * random.Float64()
			rows[i] = [4]float64{float64(2*i-14) + random.Float64(), 0, kn, kn}
		}
		s := wind(t, rows...)
		f := fetch{meanM: 100 * math.Pow(3000, random.Float64()), depthM: 1 + 30*random.Float64()}
		h := s.history(noon)
		got := h.grow(f).HsM
		near(t, "all stretches", got, highest(s, f, stretches[:]), 1e-9)
		if fine := highest(s, f, minutes); fine > got*1.03 {
			t.Errorf("%g m by the minute, %g m by the stretches", fine, got)
		}
	}
}

// highest tries every length of past wind.
func highest(s *WindSeries, f fetch, lengths []time.Duration) float64 {
	best := 0.0
	for _, d := range lengths {
		ua := AdjustedWind(meanBefore(s, noon, d) * knotInMps)
		h, _ := Grow(ua, math.Min(f.meanM, DurationFetch(ua, d.Seconds())), f.depthM)
		best = math.Max(best, h)
	}
	return best
}

// meanBefore is the mean speed over a length of past wind, without the hold's limit.
func meanBefore(s *WindSeries, t time.Time, d time.Duration) float64 {
	x := seconds(s.times[0], t)
	return (s.past.upTo(x) - s.past.upTo(x-d.Seconds())) / d.Seconds()
}

func TestStretches(t *testing.T) {
	if stretches[0] != 30*time.Minute || stretches[stretchCount-1] != 12*time.Hour || stretches[18] != 2*time.Hour || stretches[26] != 4*time.Hour {
		t.Errorf("stretches %v", stretches)
	}
}
