package hazards

import (
	"math"
	"math/rand"
	"testing"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// Where the report calls water not clear, the chart's water is never "enough"
// all of that time: neither at a slow leg nor at a fast one, nor at a stay, with
// waves or without. Random boats, margins and days over the demo waters.
func TestWaterLevelsNeverSafer(t *testing.T) {
	set := demoChart(t)
	c := chart.New(set)
	session := NewSession(c)
	rnd := rand.New(rand.NewSource(20260719))
	demo := readPlan(t, "web", "demo", "plan.geojson")
	found := 0
	for i, p := range append(wanderings(t, set, 60), demo, readPlan(t, "testdata", "plans", "demo-late.geojson")) {
		for range 6 {
			q := shifted(p, p.Parts[0].Route.Depart.Add(time.Duration(rnd.Intn(720)-360)*time.Minute))
			q.Wind = demo.Wind
			q.Boat.DraughtM, q.Boat.CruiseKn, q.Boat.HumpM = 0.3+2*rnd.Float64(), 4+20*rnd.Float64(), rnd.Float64()
			q.Boat.HarbourKn = 3 + 9*rnd.Float64()
			q.Margins.UnderKeelM, q.Margins.UnderKeelFastM = 2*rnd.Float64(), 2*rnd.Float64()
			q.Margins.AnchoredUnderKeelM, q.Margins.TideM = 2*rnd.Float64(), rnd.Float64()
			r := check(t, session, q)
			w, err := NewWaterLevels(c, q, r, q.Parts[0].Route.Depart.Add(-24*time.Hour), r.Back.Add(24*time.Hour))
			if err != nil || len(w.Sets()) != 1 {
				t.Fatalf("%v, %d sets", err, len(w.Sets()))
			}
			for _, f := range r.Findings {
				if f.Check == plan.CheckClearance && f.Severity == plan.NotClear {
					found++
					refuteEnough(t, i, w, &f)
				}
			}
		}
	}
	if found < 200 {
		t.Errorf("only %d findings looked at", found)
	}
}

// refuteEnough looks whether the water of a finding is called enough through all
// of its time. Its terms name the charted depth.
func refuteEnough(t *testing.T, day int, w *WaterLevels, f *plan.Finding) {
	t.Helper()
	depth := f.Made[0].Value
	for at := *f.Time; ; at = at.Add(time.Minute) {
		if at.After(*f.Until) {
			at = *f.Until
		}
		levels, ok := w.At(at)
		if !ok || depth < levels.EnoughM {
			return
		}
		if at.Equal(*f.Until) {
			break
		}
	}
	t.Errorf("day %d: %s, %s, yet the chart says enough of %.2f m from %v to %v", day, f.Title, f.Detail, depth, f.Time, f.Until)
}

// The arithmetic of the contract's section 3, by hand, over a level without
// tide: draught 0.9, hump 0.35, 1.0 under the keel, margin 0.3, level 0.5 and 0.2
// on top: h = 0.4.
func TestWaterLevelsByHand(t *testing.T) {
	p := readPlan(t, "web", "demo", "plan.geojson")
	p.Tide = &plan.TideSource{Datum: 23, LevelM: ptr(0.5), AdjustM: 0.2}
	p.Boat.HarbourKn = 3 // 3 kn in 1 m: Froude number 0.49, squat 2·0.4·9/100 = 0.072
	at := *p.Parts[0].Route.Depart
	c := chart.New(demoChart(t))
	w, err := NewWaterLevels(c, p, &plan.Report{WaveAllowanceM: 0.25}, at, at)
	if err != nil {
		t.Fatal(err)
	}
	got, ok := w.At(at)
	want := Water{DriesM: -0.4, AfloatM: 0.9 + 0.072 - 0.4, EnoughM: 0.9 + 0.35 + 1 + 0.25 - 0.4}
	if !ok || math.Abs(got.DriesM-want.DriesM)+math.Abs(got.AfloatM-want.AfloatM)+math.Abs(got.EnoughM-want.EnoughM) > 1e-9 {
		t.Errorf("%+v %v, want %+v", got, ok, want)
	}
	p.Tide.Datum = 12
	if w, err := NewWaterLevels(c, p, &plan.Report{}, at, at); err != nil || len(w.Sets()) != 0 {
		t.Errorf("a tide above another datum: %d sets, %v", len(w.Sets()), err)
	} else if _, ok := w.At(at); ok {
		t.Error("a tide above another datum gives levels")
	}
	p.Choices.TideAboveChartM = ptr(-0.1)
	if w, _ := NewWaterLevels(c, p, &plan.Report{}, at, at); len(w.Sets()) != 1 {
		t.Error("an answer does not compare the datums")
	} else if got, _ := w.At(at); math.Abs(got.DriesM+0.3) > 1e-9 {
		t.Errorf("dries to %.3f m with the tide's datum 0.1 m lower, want -0.3", got.DriesM)
	}
	p.Tide = nil
	if w, err := NewWaterLevels(c, p, &plan.Report{}, at, at); err != nil {
		t.Error(err)
	} else if _, ok := w.At(at); ok {
		t.Error("levels without a tide")
	}
}

// Leaving the wind out, or giving it for a part of the day only, makes no water
// of the picture look deeper.
func TestWaterWithoutWindIsNotDeeper(t *testing.T) {
	set := demoChart(t)
	c := chart.New(set)
	session := NewSession(c)
	demo := readPlan(t, "web", "demo", "plan.geojson")
	enough := func(wind []plan.Wind) float64 {
		q := *demo
		q.Wind = wind
		from := *q.Parts[0].Route.Depart
		w, err := NewWaterLevels(c, &q, check(t, session, &q), from.Add(-time.Hour), from.Add(12*time.Hour))
		if err != nil {
			t.Fatal(err)
		}
		water, ok := w.At(from)
		if !ok {
			t.Fatal("the water is not known")
		}
		return water.EnoughM
	}
	whole := enough(demo.Wind)
	for name, wind := range map[string][]plan.Wind{"none": nil, "early hours": demo.Wind[:2], "late hours": demo.Wind[len(demo.Wind)-2:]} {
		if got := enough(wind); got < whole {
			t.Errorf("wind of %s: %.2f m is enough, %.2f m with all of it", name, got, whole)
		}
	}
}
