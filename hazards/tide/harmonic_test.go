package tide

import (
	"math"
	"math/rand"
	"strings"
	"sync"
	"testing"
	"time"
)

// tidesUnderTest are one tide of each regime, from the reference files.
func tidesUnderTest(t testing.TB) map[string]*Harmonic {
	out := map[string]*Harmonic{}
	for _, file := range references {
		var ref refStation
		readJSON(t, file, &ref)
		out[ref.Name] = mustHarmonic(t, ref.Z0, ref.constituents())
	}
	return out
}

// TestEventsAlternate: high and low waters alternate, the height only rises or falls between two,
// and each is level (derivative 0) to what 4 ms allow.
func TestEventsAlternate(t *testing.T) {
	for name, h := range tidesUnderTest(t) {
		from := time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC)
		events := h.Events(from, from.AddDate(0, 2, 0))
		for i := 1; i < len(events); i++ {
			a, b := events[i-1], events[i]
			if a.High == b.High || !b.Time.After(a.Time) || (b.HeightM > a.HeightM) != b.High {
				t.Fatalf("%s: %v is followed by %v", name, a, b)
			}
			checkMonotonic(t, name, h, a, b)
		}
		if len(events) < 60 {
			t.Errorf("%s: %d waters in two months", name, len(events))
		}
	}
}

func checkMonotonic(t *testing.T, name string, h *Harmonic, a, b Event) {
	t.Helper()
	const steps = 60
	last := a.HeightM
	for k := 1; k <= steps; k++ {
		v, _ := h.HeightM(a.Time.Add(b.Time.Sub(a.Time) * time.Duration(k) / steps))
		if b.High && v < last-1e-9 || !b.High && v > last+1e-9 {
			t.Fatalf("%s: turns between %v and %v", name, a, b)
		}
		last = v
	}
	if math.Abs(last-b.HeightM) > 1e-9 {
		t.Fatalf("%s: %v, but the height then is %.9f", name, b, last)
	}
}

// TestLeastGreatest: over any interval they are what dense sampling finds, to 1 mm, and never on
// its wrong side; a window says the same.
func TestLeastGreatest(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	for name, h := range tidesUnderTest(t) {
		w := NewWindow(h, day, day.AddDate(0, 0, 10))
		for range 60 {
			from := day.Add(time.Duration(r.Int63n(int64(9 * 24 * time.Hour))))
			to := from.Add(time.Duration(r.Int63n(int64(24 * time.Hour))))
			least, greatest := sampled(h, from, to)
			for _, tide := range []Tide{h, w} {
				lo, okLo := tide.Least(from, to)
				hi, okHi := tide.Greatest(from, to)
				if !okLo || !okHi || lo > least+1e-9 || lo < least-1e-3 || hi < greatest-1e-9 || hi > greatest+1e-3 {
					t.Fatalf("%s %T, %v to %v: %.4f to %.4f, sampled %.4f to %.4f", name, tide, from, to, lo, hi, least, greatest)
				}
			}
		}
	}
}

func sampled(h Tide, from, to time.Time) (least, greatest float64) {
	least, greatest = math.Inf(1), math.Inf(-1)
	for k := 0; k <= 1500; k++ {
		v, _ := h.HeightM(from.Add(to.Sub(from) * time.Duration(k) / 1500))
		least, greatest = min(least, v), max(greatest, v)
	}
	return least, greatest
}

// TestContinuous: the default has no step at New Year, nor anywhere two of its stretches meet. (NOAA's
// practice has one, of centimetres.)
func TestContinuous(t *testing.T) {
	for name, h := range tidesUnderTest(t) {
		for index := 5000; index < 5200; index++ { // the four years from 2009
			seam := float64(index) * segmentHours
			a, b := h.segmentAt(seam-1).height(seam), h.segmentAt(seam).height(seam)
			if math.Abs(a-b) > 1e-9 {
				t.Fatalf("%s: a step of %g m at %v", name, a-b, atHour(seam))
			}
		}
		newYear := time.Date(2027, 1, 1, 0, 0, 0, 0, time.UTC)
		before, _ := h.HeightM(newYear.Add(-time.Second))
		after, _ := h.HeightM(newYear.Add(time.Second))
		if math.Abs(after-before) > 0.003 {
			t.Errorf("%s: %.4f m in two seconds at New Year", name, after-before)
		}
	}
}

// TestStraightEnough: between the ends of a stretch heights are those of arguments and factors at
// the time itself, to 0.1 mm.
func TestStraightEnough(t *testing.T) {
	for name, h := range tidesUnderTest(t) {
		for k := range 4000 {
			x := 1.1e6 + float64(k)*17.3
			l := longitudesAt(x)
			nodes := nodesAt(orbitAt(l))
			want := h.z0M
			for _, c := range h.terms {
				m := c.modulation(&nodes)
				want += c.amplitudeM * m.f * math.Cos(c.argument(l)*deg+m.u-c.phaseRad)
			}
			if got := h.segmentAt(x).height(x); math.Abs(got-want) > 1e-4 {
				t.Fatalf("%s at %v: %.6f m, want %.6f", name, atHour(x), got, want)
			}
		}
	}
}

// TestSpeeds checks the rate of each constituent's argument against the IHO's "Standard List of
// Tidal Constituents" (TWCWG, 2017), in degrees an hour.
func TestSpeeds(t *testing.T) {
	for name, want := range map[string]float64{
		"Sa": 0.0410686, "SA_KV": 0.041067, "Ssa": 0.0821373, "Mm": 0.5443747, "MSf": 1.0158958,
		"Mf": 1.0980330, "MTM": 1.6424078, "MSqm": 2.1139287, "2Q1": 12.8542862, "sigma1": 12.9271398,
		"Q1": 13.3986609, "rho1": 13.4715145, "O1": 13.9430356, "tau1": 14.0251729, "MP1": 14.0251729,
		"NO1": 14.4966939, "M1": 14.4966939, "chi1": 14.5695476, "pi1": 14.9178647, "TK1": 14.9178647,
		"P1": 14.9589314, "S1": 15, "S1_KV": 15.000002, "K1": 15.0410686, "RP1": 15.0821353,
		"psi1": 15.0821353, "phi1": 15.123206, "KP1": 15.1232059, "theta1": 15.5125897, "J1": 15.5854433,
		"2PO1": 15.9748271, "SO1": 16.0569644, "OO1": 16.1391017, "2NS2": 26.8794591, "OQ2": 27.3416965,
		"MNS2": 27.4238338, "eps2": 27.4238338, "2ML2S2": 27.4966874, "2MS2K2": 27.8039339,
		"2N2": 27.8953548, "mu2": 27.9682085, "N2": 28.4397295, "nu2": 28.5125832, "OP2": 28.9019670,
		"gamma2": 28.9112506, "MA2": 28.943036, "alpha2": 28.9430376, "M2": 28.9841042,
		"M(KS)2": 29.0251709 /* by the list's own Doodson number; its speed, 29.0251788, is another */, "MB2": 29.025173, "MKS2": 29.0662415, "M2(KS)2": 29.1483780,
		"2SN(MK)2": 29.3734880, "2SNMK2": 29.3734880, "lambda2": 29.4556253, "L2": 29.5284789,
		"T2": 29.9589333, "S2": 30, "R2": 30.0410667, "K2": 30.0821373, "MSN2": 30.5443747,
		"eta2": 30.6265120, "KJ2": 30.6265120, "2KM(SN)2": 30.7086493, "2SM2": 31.0158958,
		"SKM2": 31.0980330, "NO3": 42.3827651, "MO3": 42.9271398, "2MK3": 42.9271398, "M3": 43.4761564,
		"SO3": 43.9430356, "MK3": 44.0251729, "S3": 45, "SK3": 45.0410686, "2MLS4": 57.4966874,
		"N4": 56.8794591, "3MS4": 56.9523127, "MN4": 57.4238338, "M4": 57.9682085, "SN4": 58.4397295,
		"ML4": 58.5125832, "MS4": 58.9841042, "MK4": 59.0662415, "SL4": 59.5284790, "S4": 60,
		"SK4": 60.0821373, "MNO5": 71.3668694, "2MO5": 71.911244, "3MP5": 71.9933814, "MNK5": 72.4649024,
		"2MP5": 72.927140, "2MK5": 73.009277, "MSK5": 74.0251729, "3KM5": 74.1073102, "2SK5": 75.0410686,
		"2(MN)S6": 84.8476676, "2NM6": 85.8635633, "2MN6": 86.4079380, "M6": 86.9523127, "MSN6": 87.4238338,
		"2ML6": 87.496687, "2MS6": 87.9682085, "2MK6": 88.0503458, "MSL6": 88.512583, "2SM6": 88.9841042,
		"MSK6": 89.0662415, "S6": 90, "2MNO7": 100.3509736, "2NMK7": 100.9046320, "2MSO7": 101.9112441,
		"3MK7": 101.9933814, "MSKO7": 103.0092771, "2(MN)8": 114.8476676, "2MN8": 114.8476676,
		"3MN8": 115.3920423, "M8": 115.9364170, "2MSN8": 116.4079380, "3ML8": 116.4807917,
		"3MS8": 116.9523127, "3MK8": 117.0344500, "2MSL8": 117.4966874, "2(MS)8": 117.9682085,
		"2MS8": 117.9682085, "2MSK8": 118.0503458, "2M2NK9": 129.8887362, "3MNK9": 130.4331109,
		"4MK9": 130.9774856, "3MSK9": 131.9933814, "4MN10": 144.3761465, "M10": 144.9205212,
		"3MNS10": 145.3920423, "4MS10": 145.9364170, "3MSL10": 146.4807917, "3M2S10": 146.9523127,
		"4MSK11": 160.9774856, "4MNS12": 174.3761465, "5MS12": 174.9205212, "4MSL12": 175.4648959,
		"4M2S12": 175.9364170,
	} {
		d, err := define(name)
		if err != nil {
			t.Error(err)
			continue
		}
		got := (d.argument(longitudesAt(1.1e6+1000)) - d.argument(longitudesAt(1.1e6))) / 1000
		if math.Abs(got-want) > 2e-6 {
			t.Errorf("%s: %.7f°/h, want %.7f", name, got, want)
		}
	}
}

func TestHarmonicErrors(t *testing.T) {
	m2 := Constituent{"M2", 1, 0}
	for _, c := range []struct {
		z0   float64
		cs   []Constituent
		want string
	}{
		{0, nil, "constituents: 0 given"},
		{math.NaN(), []Constituent{m2}, "z0_m: NaN"},
		{0, []Constituent{m2, {"X9", 1, 0}}, `constituents[1]: constituent "X9" is not known; known are `},
		{0, []Constituent{m2, {"m2", 1, 0}}, "constituents[1]: m2 is given twice, first as constituents[0]"},
		{0, []Constituent{{"RHO", 1, 0}, {"rho1", 1, 0}}, "is given twice"},
		{0, []Constituent{{"M2", -1, 0}}, "amplitude_m of M2: -1"},
		{0, []Constituent{{"M2", math.Inf(1), 0}}, "amplitude_m of M2: +Inf"},
		{0, []Constituent{{"M2", 1, math.NaN()}}, "phase_deg of M2: NaN"},
		{0, []Constituent{{"", 1, 0}}, `constituent "" is not known`},
	} {
		if _, err := NewHarmonic(c.z0, c.cs); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("error %v, want %q in it", err, c.want)
		}
	}
}

// TestSpellings: the names that lists write differently are one constituent.
func TestSpellings(t *testing.T) {
	for _, same := range [][]string{
		{"LAM2", "LAMBDA2", "lambda2", "λ2"}, {"RHO", "RHO1", "ρ1"}, {"NU2", "nu2", "ν2"},
		{"EP2", "eps2", "ε2"}, {"SGM", "sigma1", "SIGMA1", "σ1"}, {"MU2", "μ2", "µ2"},
		{"Mm", "MM"}, {"alpha2", "α2"}, {"MTM", "Mfm"}, {"M2(KS)2", "M2KS2"},
	} {
		want, err := define(same[0])
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range same[1:] {
			got, err := define(n)
			if err != nil || got.args != want.args || got.quarter != want.quarter {
				t.Errorf("%s is %v, %v; %s is %v", n, got, err, same[0], want)
			}
		}
	}
}

// TestDegenerate: tides that hardly move must not take for ever, nor invent waters.
func TestDegenerate(t *testing.T) {
	for name, cs := range map[string][]Constituent{
		"nothing":        {{"M2", 0, 0}},
		"cancelling":     {{"MU2", 1, 0}, {"2MS2", 1, 180}},
		"a year's alone": {{"SA", 0.1, 0}},
	} {
		h := mustHarmonic(t, 1, cs)
		if e := h.Events(day, day.AddDate(0, 0, 20)); len(e) > 400 {
			t.Errorf("%s: %d waters in 20 days", name, len(e))
		}
		if v, ok := h.Least(day, day.AddDate(0, 0, 20)); !ok || math.Abs(v-1) > 0.3 {
			t.Errorf("%s: least %g, %v", name, v, ok)
		}
	}
}

// TestTimesFarOff: outside the years of the astronomy nothing is known.
func TestTimesFarOff(t *testing.T) {
	h := boston(t)
	for _, x := range []time.Time{{}, time.Date(1899, 12, 31, 23, 59, 59, 0, time.UTC), time.Date(2100, 1, 1, 0, 0, 0, 0, time.UTC), time.Date(99999, 1, 1, 0, 0, 0, 0, time.UTC)} {
		if _, ok := h.HeightM(x); ok {
			t.Errorf("height known at %v", x)
		}
		if _, ok := h.Least(x, x.Add(time.Hour)); ok {
			t.Errorf("least known at %v", x)
		}
		h.Events(x, x.Add(time.Hour))
		h.RangeM(x)
	}
	if e := h.Events(firstTime.AddDate(-9, 0, 0), firstTime.AddDate(0, 0, 1)); len(e) < 3 {
		t.Errorf("%d waters on the first day", len(e))
	}
}

// TestConcurrent: one tide used by several goroutines at once gives what it gives alone.
func TestConcurrent(t *testing.T) {
	shared, alone := boston(t), boston(t)
	var wait sync.WaitGroup
	for g := range 8 {
		wait.Add(1)
		go func() {
			defer wait.Done()
			r := rand.New(rand.NewSource(int64(g)))
			for range 3000 {
				x := day.Add(time.Duration(r.Int63n(int64(3 * 365 * 24 * time.Hour))))
				if got, _ := shared.HeightM(x); got != alone.exact(x) {
					t.Errorf("at %v: %g", x, got)
					return
				}
			}
		}()
	}
	wait.Wait()
}

// exact is HeightM without the cache.
func (h *Harmonic) exact(t time.Time) float64 {
	x := hours(t)
	return h.newSegment(h.segmentIndex(x)).height(x)
}
