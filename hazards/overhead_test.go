package hazards

import (
	"math"
	"math/rand"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

func lowBridge(clearanceM float64) *chart.Set {
	return set(overheadLine(chart.BRIDGE, span(clearanceM, chart.Unknown, chart.Unknown, 10), 50))
}

// Where the plan does not say how far the datum of charted heights lies above the
// tide's own, the station's levels do, for each thing's own datum; else nothing is
// added, and said, where the one surely lies above the other, and nothing is known
// where it may not. Sums as in TestBridges: clearance + datum − 2.3 − 3 is left.
func TestHeightDatumOfTheStation(t *testing.T) {
	levels := []plan.Level{{Datum: 17, HeightM: 4.2}, {Datum: 16, HeightM: 3.6}}
	for name, c := range map[string]struct {
		given      *float64
		levels     []plan.Level
		tide, over int // VERDAT; 17 is the chart's datum of heights
		want       string
		roomM      float64
	}{
		"the plan says":                        {ptr(4.0), levels, lat, 17, "not-clear", -0.3},
		"the station says":                     {nil, levels, lat, 17, "not-clear", -0.1},
		"another datum, the station says":      {ptr(4.0), levels, lat, 16, "not-clear", -0.7},
		"another datum, the station does not":  {ptr(4.0), levels, lat, 30, "not-clear", -4.3},
		"nobody says, a high water above LAT":  {nil, nil, lat, 17, "not-clear", -4.3},
		"nobody says, a high above a mean one": {nil, nil, 3, 17, "not-clear", -4.3},
		"nobody says, mean levels":             {nil, nil, 3, 19, "no-data", 0},
		"nobody says, the tide's datum higher": {nil, nil, 16, 3, "no-data", 0},
		"nobody says, a local datum":           {nil, nil, 24, 17, "no-data", 0},
		"nobody says, the tide's not known":    {nil, nil, 0, 17, "no-data", 0},
		"the tide's own":                       {nil, nil, 30, 30, "not-clear", -4.3},
	} {
		p := day()
		p.Tide.HeightDatumM, p.Tide.Levels, p.Tide.Datum = c.given, c.levels, c.tide
		s := lowBridge(1)
		s.Features[len(s.Features)-1].Overhead.HeightDatum = c.over
		f := finding(t, mustCheck(t, s, p), plan.CheckBridge)
		if f.Severity.String() != c.want {
			t.Errorf("%s: %s, want %s: %s", name, f.Severity, c.want, f.Detail)
			continue
		}
		if c.want == "not-clear" {
			near(t, name, *f.Measured, c.roomM, 1e-9)
		}
		said := strings.Contains(f.Detail, "is not known: taken as nothing")
		if nothing := c.want == "not-clear" && c.given == nil && c.levels == nil && c.over != c.tide || c.over == 30 && c.tide == lat; said != nothing {
			t.Errorf("%s: said that nothing is taken: %v", name, said)
		}
	}
}

// Every term of an overhead sum is in the words, and they add up to the figure
// that is shown, to the last digit; and that is what is compared.
func TestOverheadSumsAddUp(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	p := day()
	swinging(p)
	blow(p, 90, 18)
	for range 200 {
		p.Tide.HeightDatumM = ptr(3 + r.Float64())
		p.Tide.AdjustM = r.Float64() / 3
		p.Boat.AirDraughtM = ptr(4 + r.Float64())
		f := finding(t, mustCheck(t, lowBridge(1+r.Float64()), p), plan.CheckBridge)
		_, sum, _ := strings.Cut(f.Detail, "wanted. ")
		left, right, _ := strings.Cut(sum, " = ")
		total := 0.0
		for i, m := range regexp.MustCompile(`([−+]?) ?[A-Za-z ]*?(-?\d+\.\d+) m`).FindAllStringSubmatch(left, -1) {
			v, err := strconv.ParseFloat(m[2], 64)
			if err != nil {
				t.Fatal(err)
			}
			if i > 0 && m[1] == "−" {
				v = -v
			}
			total += v
		}
		shown, err := strconv.ParseFloat(strings.SplitN(right, " ", 2)[0], 64)
		if err != nil || math.Abs(total-shown) > 1e-9 {
			t.Fatalf("%q: the terms make %.4f", f.Detail, total)
		}
		made := 0.0
		for _, term := range f.Made {
			made += term.Value
		}
		if math.Abs(made-shown) > 1e-9 || math.Abs(*f.Measured-shown) > 1e-9 {
			t.Fatalf("%q: made of %.4f, measured %.4f", f.Detail, made, *f.Measured)
		}
		for _, word := range []string{"Clearance ", "above mean high water springs + ", "tide ", "within 15 min", "margin ", "waves ", "air draught "} {
			if !strings.Contains(sum, word) {
				t.Fatalf("no %q in %q", word, sum)
			}
		}
	}
}

// Sums are compared to the millimetre: equal is enough, and what a float makes of
// it is not less (plan-file contract, "Comparing").
func TestOverheadEqualIsEnough(t *testing.T) {
	p := day()
	p.Boat.AirDraughtM = ptr(3.1)
	p.Tide.LevelM = ptr(2.0 + 1e-7)
	expect(t, mustCheck(t, lowBridge(1.9), p)) // 1.9 + 4.0 − 2.0 − 0.3 − 3.1 = 0.5
	expect(t, mustCheck(t, lowBridge(1.899), p), "not-clear bridge")
}

// The tide over a bridge is the greatest from 15 min before she passes to 15 min
// after: on a rising tide that of 15 min later, on a falling one that of 15 min
// before (plan-file contract, section 3). Heights by the half cosine, by hand:
// h = 3 + 2·cos(π·x) from 5 m to 1 m.
func TestOverheadTakesAQuarterOfAnHour(t *testing.T) {
	for _, rising := range []bool{true, false} {
		p := day()
		kinds := []string{plan.HighWater, plan.LowWater, plan.HighWater}
		heights := []float64{5, 1, 5}
		if rising {
			kinds, heights = []string{plan.LowWater, plan.HighWater, plan.LowWater}, []float64{1, 5, 1}
		}
		first := leaving.Add(-3 * time.Hour)
		p.Tide = &plan.TideSource{Datum: lat, HeightDatumM: ptr(4.0)}
		for i := range kinds {
			p.Tide.Events = append(p.Tide.Events, plan.TideEvent{Time: first.Add(time.Duration(i) * 6 * time.Hour), HeightM: heights[i], Kind: kinds[i]})
		}
		f := finding(t, mustCheck(t, lowBridge(1), p), plan.CheckBridge)
		pass := *f.Time // entering what is within the corridor
		quarter := -15 * time.Minute
		if rising {
			quarter, pass = -quarter, *f.Until
		}
		x := pass.Add(quarter).Sub(first).Hours() / 6
		want := 3 + 2*math.Cos(math.Pi*x)
		if rising {
			want = 3 - 2*math.Cos(math.Pi*x)
		}
		for _, term := range f.Made {
			if term.Name == "tide" {
				near(t, "tide", -term.Value, want, 0.0006)
			}
			if term.Name == "margin" {
				near(t, "margin", -term.Value, 0.4, 1e-9) // a tenth of 5 − 1
			}
		}
	}
}

// The level that a window needs takes the greatest margin of the days about: a
// tenth of 8 m two days on, not the 0.3 m of this tide's 2 m. Fast over a bank of
// 1.4 m: 1.0 draught + 1.0 wanted + 0.35 hump + 0.8 − 1.4 = 1.75 m.
func TestWindowTakesTheMarginAhead(t *testing.T) {
	p := day()
	p.Tide = &plan.TideSource{Datum: lat}
	for i, h := range []float64{1, 3, 1, 3, 1, 3, 1, 9, 1} {
		kind := []string{plan.LowWater, plan.HighWater}[i%2]
		p.Tide.Events = append(p.Tide.Events, plan.TideEvent{Time: leaving.Add(time.Duration(i-1) * 6 * time.Hour), HeightM: h, Kind: kind})
	}
	f := finding(t, mustCheck(t, set(bank(1.4, 9)), p), plan.CheckTideWindow)
	near(t, "level", *f.Required, 1.75, 0.001) // sums are compared to the millimetre
}

// What the echo sounder read may lie deeper than the chart allows. The bottom is
// then below the sounding datum by the reading, less the least height of tide at
// the time, and the margin more: 30 − (2.0 − 0.3) = 28.3 m; and the greatest depth
// of water is that and 2.0 + 0.3 m.
func TestGreatestDepthByEcho(t *testing.T) {
	p := day()
	stay := lunch(p)
	stay.SoundedM, stay.SoundedAt = ptr(30.0), ptr(stay.Until.Add(-30*time.Minute))
	near(t, "greatest depth", *mustCheck(t, set(), p).Stays[0].DepthGreatestM, 30.6, 1e-9)
}
