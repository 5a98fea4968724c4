package hazards

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"keelroom/hazards/plan"
)

// Sums are compared in whole millimetres and equal is enough: each depth leaves
// exactly what is wanted by hand, though not in float64. At 20 kn 1 m is wanted
// and depth + 0.35 m are left; 3 m of water are comfortable, and depth + 1.7 m are
// there; at a stay depth + 0.7 m are left and 1 m is wanted.
func TestEqualIsEnough(t *testing.T) {
	for _, c := range []struct {
		name           string
		tide, draught  float64
		drval1, margin float64
		want           []string
	}{
		{"a hair more than comfortable", 2, 1, 1.3, 0.3, nil},
		{"in tenths", 1.1, 0.7, 2.2, 0.3, nil}, // 2.2 + 1.1 − 0.3 = 3.0 m of water
		{"in thirds", 0.3, 0.1, 3.0, 0.3, nil},
		{"a millimetre short", 2, 1, 1.299, 0.3, []string{"care clearance"}},
	} {
		p := day()
		p.Tide.LevelM, p.Boat.DraughtM, p.Margins.TideM = ptr(c.tide), c.draught, c.margin
		p.Margins.UnderKeelFastM = 0
		expect(t, mustCheck(t, set(bank(c.drval1, 9)), p), c.want...)
	}
	for _, wanted := range []float64{0.3, 0.6, 0.7, 1.1, 1.7, 2.3} {
		p := day()
		p.Margins.ComfortDepthM, p.Margins.UnderKeelFastM = 0, wanted
		for _, c := range []struct {
			depth float64
			want  plan.Severity
		}{{wanted - 0.35, plan.Care}, {wanted - 0.35 - 0.001, plan.NotClear}} {
			if got := worst(mustCheck(t, set(bank(c.depth, 9)), p), plan.CheckClearance); got != c.want {
				t.Errorf("%.3f m wanted of %.4f m charted: %s, want %s", wanted, c.depth, got, c.want)
			}
		}
	}
}

// With exactly enough, at a level that never falls, no window closes.
func TestExactlyEnoughHasNoWindow(t *testing.T) {
	for _, wanted := range []float64{0.3, 0.6, 0.7, 1.1} {
		p := day()
		p.Margins.ComfortDepthM, p.Margins.UnderKeelFastM = 0, wanted
		if got := worst(mustCheck(t, set(bank(wanted-0.35, 9)), p), plan.CheckTideWindow); got > plan.Clear {
			t.Errorf("%.1f m: a window that closes: %s", wanted, got)
		}
	}
}

var sumWords = regexp.MustCompile(`Charted (.*) = (−?-?[0-9.]+) m\.`)

// figuresOf reads a sum as it is written: its terms with their signs, and what
// stands behind the sign of equality.
func figuresOf(t *testing.T, detail string) (terms []float64, total float64, ok bool) {
	t.Helper()
	m := sumWords.FindStringSubmatch(detail)
	if m == nil {
		return nil, 0, false
	}
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(strings.ReplaceAll(s, "−", "-"), 64)
		if err != nil {
			t.Fatalf("%q in %q: %v", s, detail, err)
		}
		return v
	}
	sign := 1.0
	words := regexp.MustCompile(`\([^)]*\)`).ReplaceAllString(m[1], "")
	for _, word := range strings.Fields(words) {
		switch {
		case word == "+":
			sign = 1
		case word == "−":
			sign = -1
		case regexp.MustCompile(`^[−-]?[0-9]`).MatchString(word):
			terms = append(terms, sign*number(word))
		}
	}
	return terms, number(m[2]), true
}

// Every sum that is shown adds up, in the words of a finding, in what it is made
// of, and in the figures of a leg; the words never give one figure twice
// differently; and the tide in it says that it is the least within 15 minutes.
func TestSumsShownAddUp(t *testing.T) {
	sums := 0
	addsUp := func(where string, terms []float64, total float64) {
		t.Helper()
		cents := 0.0
		for _, v := range terms {
			if math.Abs(v*100-math.Round(v*100)) > 1e-6 {
				t.Errorf("%s: %v is no whole number of hundredths", where, v)
			}
			cents += math.Round(v * 100)
		}
		if sums++; cents != math.Round(total*100) {
			t.Errorf("%s: %v make %.2f, not %.2f", where, terms, cents/100, total)
		}
	}
	for m := range 48 {
		p := day()
		swinging(p)
		lunch(p)
		blow(p, 250, 11)
		p.Boat.DraughtM, p.Boat.CruiseKn = 0.93, 5+float64(m%4)*5
		p.Boat.Fuel.Burn[0].Kn = 1
		p = shifted(p, time.Date(2026, 7, 18, 8, 7*m, 0, 0, time.UTC))
		r, err := plan.DecodeReport(mustCheck(t, set(bank(0.4, 9), depth(0.6, 9, rectangle(89, 0, 100, 100))), p).Encode(time.UTC))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range r.Findings {
			if f.Check != plan.CheckClearance {
				continue
			}
			terms, total, ok := figuresOf(t, f.Detail)
			if !ok {
				t.Errorf("no sum in %q", f.Detail)
				continue
			}
			addsUp(f.Detail, terms, total)
			var made []float64
			for _, v := range f.Made {
				made = append(made, v.Value)
			}
			addsUp("made of: "+f.Title, made, *f.Measured)
			if total != *f.Measured {
				t.Errorf("measured %v: %s", *f.Measured, f.Detail)
			}
			if strings.Contains(f.Detail, "under the keel") && !strings.Contains(f.Detail, plan.Down(total)+" m under the keel") {
				t.Errorf("%.2f m is told otherwise: %s", total, f.Detail)
			}
			if want := "least within 15 min of passing"; f.Geometry.GeoJSONType() != "Point" && !strings.Contains(f.Detail, want) {
				t.Errorf("the tide does not say which it is: %s", f.Detail)
			}
			if *f.Measured >= *f.Required && f.Severity == plan.NotClear {
				t.Errorf("%v of %v is %s: %s", *f.Measured, *f.Required, f.Severity, f.Detail)
			}
		}
		for _, c := range r.Clearances {
			addsUp("leg", []float64{*c.ChartedDepthM, *c.TideM, -*c.MarginM, -*c.DraughtM, -*c.SquatM, -*c.WaveM}, *c.ClearanceM)
		}
	}
	if sums < 100 {
		t.Errorf("only %d sums were looked at", sums)
	}
}

// A sea over a limit is never shown as no more than it, in words or figures.
func TestSeaOverALimitIsShownOver(t *testing.T) {
	for _, c := range []struct {
		height float64
		want   plan.Severity
	}{{0.8, plan.Clear}, {0.8004, plan.Clear}, {0.8006, plan.Care}, {0.804, plan.Care}, {1.2, plan.Care}, {1.2006, plan.NotClear}} {
		p := day()
		p.Swell = []plan.Swell{{Time: leaving, FromDeg: 90, HeightM: c.height, PeriodS: 8}}
		r := mustCheck(t, set(), p)
		if got := worst(r, plan.CheckSea); got != c.want && !(c.want == plan.Clear && got < plan.Care) {
			t.Errorf("%v m of sea: %s, want %s", c.height, got, c.want)
			continue
		}
		if c.want == plan.Clear {
			continue
		}
		encoded, err := plan.DecodeReport(r.Encode(time.UTC))
		if err != nil {
			t.Fatal(err)
		}
		f := finding(t, encoded, plan.CheckSea)
		if !(*f.Measured > *f.Required) {
			t.Errorf("%v m of sea: %v over %v", c.height, *f.Measured, *f.Required)
		}
		if !strings.Contains(f.Detail, plan.Up(c.height)+" m") {
			t.Errorf("%v m of sea: %s", c.height, f.Detail)
		}
	}
}

// What the survey's depth accuracy leaves in doubt is never passed over as deep:
// two banks far apart, the second a little deeper, both enough only if the survey
// is exact (A1 at 0.7 m: 0.5 m + 1 %, IHO S-57 App. A, CATZOC), are two findings.
func TestDepthAccuracyIsNotPassedOver(t *testing.T) {
	for _, deeper := range []float64{0, 0.04, 0.3} {
		p := day()
		p.Margins.ComfortDepthM = 0
		a, b := depth(0.66, 9, rectangle(20, 0, 25, 100)), depth(0.66+deeper, 9, rectangle(70, 0, 75, 100))
		banks := 0
		for _, f := range mustCheck(t, set(a, b), p).Findings {
			if f.Title == "Enough only if the survey is exact" {
				banks++
			}
		}
		if banks != 2 {
			t.Errorf("%.2f m deeper: %d banks are doubtful, want 2", deeper, banks)
		}
	}
}
