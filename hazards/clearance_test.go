package hazards

import (
	"testing"
	"time"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/plan"
	"keelroom/testdata/beside"
)

// A quiet day over deep, well surveyed water is clear, with nothing to say.
func TestQuietDayIsClear(t *testing.T) {
	r := mustCheck(t, set(), day())
	expect(t, r)
	if r.Verdict != plan.Clear {
		t.Errorf("verdict %s", r.Verdict)
	}
	leg := r.Legs[0]
	near(t, "course", *leg.CourseDeg, 90, 0.01)
	near(t, "distance", *leg.DistanceNm, geo.DistanceM(at(10, 50), at(90, 50))/1852, 1e-4)
	near(t, "speed", *leg.Kn, 20, 0.01)
	// 10 charted + 2 tide − 0.3 margin − 1 draught − 0.35 hump.
	near(t, "clearance", *leg.LeastClearanceM, 10.35, 1e-9)
	for _, c := range []string{plan.CautionAid, plan.CautionCharts, plan.CautionLookout, plan.CautionRules, plan.CautionPractice, plan.CautionOverGround,
		plan.CautionNotBuilt(plan.CheckLines), plan.CautionNotBuilt(plan.CheckAboard)} {
		if !contains(r.Cautions, c) {
			t.Errorf("caution %q is missing", c)
		}
	}
}

func contains(list []string, s string) bool {
	for _, v := range list {
		if v == s {
			return true
		}
	}
	return false
}

// bank is a shoal across the way, x 40 to 60.
func bank(drval1, drval2 float64) chart.Feature {
	return depth(drval1, drval2, rectangle(40, 0, 60, 100))
}

// The severities of the clearance row. At 20 kn the boat takes 1 m draught,
// 0.35 m hump and 0.3 m margin from 2 m of tide: depth + 0.35 m is left, 1 m is
// wanted, 3 m of water are comfortable, and A1's accuracy is 0.5 m + 1 %.
func TestClearanceSeverities(t *testing.T) {
	for _, c := range []struct {
		name   string
		drval1 float64
		want   []string
	}{
		{"far too little", -1, []string{"not-clear clearance"}},
		{"a centimetre too little", 0.64, []string{"not-clear clearance"}},
		{"enough only if exact", 0.66, []string{"care clearance"}},
		{"enough, not comfortable", 1.2, []string{"care clearance"}},
		{"comfortable", 1.31, nil},
		{"unknown", chart.Unknown, []string{"no-data clearance"}},
	} {
		t.Run(c.name, func(t *testing.T) { expect(t, mustCheck(t, set(bank(c.drval1, 9)), day()), c.want...) })
	}
}

// At or below 8 kn half a metre is wanted and comfort does not matter. At 4 kn
// the squat is 0.4·16/100 = 0.064 m (the depth Froude number is below 0.7).
func TestClearanceSlow(t *testing.T) {
	p := day()
	p.Boat.CruiseKn = 4
	p.Boat.Fuel.Burn[0].Kn = 4
	for _, c := range []struct {
		drval1 float64
		want   []string
	}{{-0.14, []string{"not-clear clearance"}}, {-0.13, []string{"care clearance"}}, {0.36, []string{"care clearance"}}, {0.37, nil}} {
		// −0.3 + 2 − 1 − 0.064 = 0.636 over the charted depth.
		expect(t, mustCheck(t, set(bank(c.drval1, 9)), p), c.want...)
	}
}

// What lowers the bound: contours, soundings and dangers with a depth within
// the corridor (25 m here, 10 m more for dangers), nothing outside but what the
// survey's position accuracy (A1: 5 m + 5 %) may put there.
func TestWhatLowersTheBound(t *testing.T) {
	off := func(m float64) float64 { return 50 + m/111.1 } // y of a place so many metres north
	for _, c := range []struct {
		name string
		f    chart.Feature
		want []string
	}{
		{"sounding in the corridor", sounding(0.5, 50, off(24)), []string{"not-clear clearance"}},
		{"sounding within the position accuracy", sounding(0.5, 50, off(29)), []string{"care clearance"}},
		{"sounding beyond it", sounding(0.5, 50, off(31)), nil},
		{"rock with a depth, beyond the corridor", danger(chart.UWTROC, chart.Danger{WatLev: 3}, 0.5, 50, off(34)), []string{"not-clear clearance"}},
		{"rock with a depth, within the position accuracy", danger(chart.UWTROC, chart.Danger{WatLev: 3}, 0.5, 50, off(39)), []string{"care clearance"}},
		{"rock with a depth, beyond that", danger(chart.UWTROC, chart.Danger{WatLev: 3}, 0.5, 50, off(42)), nil},
		{"rock with a depth, deep", danger(chart.UWTROC, chart.Danger{WatLev: 3}, 6, 50, 50), nil},
	} {
		t.Run(c.name, func(t *testing.T) { expect(t, mustCheck(t, set(c.f), day()), c.want...) })
	}
	contour := through(chart.DEPCNT, at(50, 0), at(50, 100))
	contour.DepthMinM = 0.5
	expect(t, mustCheck(t, set(contour), day()), "not-clear clearance")
}

// A need of two metres that falls between two contours: only the area counts,
// the shoal one as soon as the corridor touches it.
func TestNeedBetweenTwoContours(t *testing.T) {
	p := day(at(10, 50), at(39, 50))
	shoal := bank(0.5, 1.5)
	expect(t, mustCheck(t, set(shoal), p))
	p = day(at(10, 50), at(39.8, 50)) // 16 m short of it
	expect(t, mustCheck(t, set(shoal), p), "not-clear clearance")
}

// DRVAL2 never makes water safe.
func TestOnlyTheShoalBoundDecides(t *testing.T) {
	expect(t, mustCheck(t, set(bank(0, 7.3)), day()), "not-clear clearance")
}

func TestHeightOfTideMatters(t *testing.T) {
	p := day()
	p.Tide.LevelM = ptr(2.5)
	expect(t, mustCheck(t, set(bank(0.5, 9)), p), "care clearance")
	p.Tide.AdjustM = -0.5
	f := finding(t, mustCheck(t, set(bank(0.5, 9)), p), plan.CheckClearance)
	near(t, "measured", *f.Measured, 0.5+2-0.3-1-0.35, 1e-9)
	near(t, "required", *f.Required, 1, 1e-9)
	total := 0.0
	for _, m := range f.Made {
		total += m.Value
	}
	near(t, "the terms add up", total, *f.Measured, 1e-9)
}

// swinging is a harmonic tide of one constituent, M2: ±1 m about 1.5 m.
func swinging(p *plan.Plan) {
	p.Tide = &plan.TideSource{Datum: lat, Z0M: ptr(1.5), HeightDatumM: ptr(4.0), Constituents: []plan.Constituent{{Name: "M2", AmplitudeM: 1, PhaseDeg: 200}}}
}

// Windows say when the same place would be clear; leaving then, it is.
func TestWindowsAreTrue(t *testing.T) {
	p := day()
	swinging(p)
	chartOf := set(bank(0.5, 9))
	tried := 0
	for h := range 24 {
		depart := time.Date(2026, 7, 18, h, 30, 0, 0, time.UTC)
		p.Parts[0].Route.Depart = &depart
		r := mustCheck(t, chartOf, p)
		for _, f := range r.Findings {
			if f.Check != plan.CheckClearance || f.Severity != plan.NotClear {
				continue
			}
			if f.Windows == nil {
				t.Fatal("no windows though the tide is known")
			}
			for _, w := range f.Windows {
				tried++
				for _, into := range []time.Duration{time.Minute, w[1].Sub(w[0]) / 2} {
					then := depart.Add(w[0].Add(into).Sub(*f.Time))
					if then.Day() != depart.Day() {
						continue
					}
					q := *p
					q.Parts = []plan.Part{{Route: &plan.Route{Depart: &then, Points: p.Parts[0].Route.Points}}}
					for _, g := range mustCheck(t, chartOf, &q).Findings {
						if g.Check == plan.CheckClearance && g.Severity == plan.NotClear && g.Until.Before(w[1]) {
							t.Errorf("leaving %v to be there within %v: %s %s", then, w, g.Title, g.Detail)
						}
					}
				}
			}
		}
	}
	if tried == 0 {
		t.Error("no window was tried")
	}
}

// tide-window: enough now, not at low water; care when the window closes
// within 45 minutes of passing, else a note.
func TestTideWindow(t *testing.T) {
	p := day()
	swinging(p)
	counts := map[string]int{}
	for m := range 144 {
		depart := time.Date(2026, 7, 18, 0, 10*m, 0, 0, time.UTC)
		p.Parts[0].Route.Depart = &depart
		r := mustCheck(t, set(bank(0.5, 9)), p)
		for _, f := range r.Findings {
			if f.Check != plan.CheckTideWindow {
				continue
			}
			counts[f.Severity.String()]++
			if *f.Measured < *f.Required-1e-9 {
				t.Errorf("a window is reported where the water fails: %v < %v", *f.Measured, *f.Required)
			}
			closing, ok := closingAfter(f)
			if !ok {
				continue
			}
			left := closing.Sub(*f.Until)
			if (f.Severity == plan.Care) != (left <= 45*time.Minute) {
				t.Errorf("%s with %v left", f.Severity, left)
			}
		}
	}
	if counts["care"] == 0 || counts["note"] == 0 {
		t.Errorf("severities %v, want care and note to occur", counts)
	}
	p = day()
	swinging(p)
	expect(t, mustCheck(t, set(bank(3, 9)), p))
}

// closingAfter is the end of the window that holds the finding's time.
func closingAfter(f plan.Finding) (time.Time, bool) {
	for _, w := range f.Windows {
		if !w[0].After(*f.Time) && !w[1].Before(*f.Until) && w[1].Hour() != 0 {
			return w[1], true
		}
	}
	return time.Time{}, false
}

func TestTideNotKnown(t *testing.T) {
	p := day()
	p.Tide = nil
	r := mustCheck(t, set(), p)
	expect(t, r, "no-data clearance")
	if r.Checks[plan.CheckClearance] != plan.NoInput {
		t.Errorf("the check is %q", r.Checks[plan.CheckClearance])
	}
	p.Tide = &plan.TideSource{Datum: lat, Events: []plan.TideEvent{{Time: leaving.Add(-2 * time.Hour), HeightM: 1}, {Time: leaving.Add(-time.Hour), HeightM: 3}}}
	expect(t, mustCheck(t, set(), p), "no-data clearance") // the table ends before she leaves
}

// A table's margin is a tenth of its range where that is more.
func TestMarginOfATable(t *testing.T) {
	p := day()
	p.Tide = &plan.TideSource{Datum: lat, Events: []plan.TideEvent{{Time: leaving.Add(-6 * time.Hour), HeightM: 0, Kind: plan.LowWater}, {Time: leaving.Add(6 * time.Hour), HeightM: 8, Kind: plan.HighWater}}}
	c := mustCheck(t, set(), p).Clearances[0]
	near(t, "margin", *c.MarginM, 0.8, 1e-9)
}

func TestDatums(t *testing.T) {
	other := set(bank(0.5, 9))
	other.SoundingDatum = 12
	p := day()
	expect(t, mustCheck(t, other, p), "no-data datum", "not-clear clearance")
	deep := set()
	deep.SoundingDatum = 0
	expect(t, mustCheck(t, deep, p), "no-data datum")
	p.Choices.SoundingDatum = lat
	expect(t, mustCheck(t, deep, p))
	p.Choices.SoundingDatum = 12
	expect(t, mustCheck(t, deep, p), "no-data datum")
	p.Choices.TideAboveChartM = ptr(-0.4)
	r := mustCheck(t, other, p)
	expect(t, r, "not-clear clearance")
	near(t, "clearance", *finding(t, r, plan.CheckClearance).Measured, 0.5+2-0.4-0.3-1-0.35, 1e-9)
}

func TestOutsideTheData(t *testing.T) {
	expect(t, mustCheck(t, set(), day(at(50, 50), at(110, 50))), "no-data coverage")
	expect(t, mustCheckOn(t, chart.New(), day()), "no-data coverage")
	own := set()
	own.Authority = chart.Private
	expect(t, mustCheck(t, own, day()), "care coverage")
	off := set()
	off.OffDatum = true
	expect(t, mustCheck(t, off, day()), "no-data datum")
	boxless := set()
	boxless.Refused = []chart.Refused{{Class: chart.UWTROC, Boxless: true, Code: "E-GEOM"}}
	expect(t, mustCheck(t, boxless, day()), "no-data coverage")
	refused := set()
	refused.Refused = []chart.Refused{{Class: chart.UWTROC, Min: chart.CoordOf(at(49, 49)), Max: chart.CoordOf(at(51, 51)), Code: "E-NUM"}}
	expect(t, mustCheck(t, refused, day()), "no-data clearance")
}

// The shortcut past deep water changes nothing.
func TestPassingOverDeepWaterChangesNothing(t *testing.T) {
	s := loadFolder(t, beside.File(t, "charts", "hull"))
	p := readPlan(t, "testdata", "plans", "roads-day.geojson")
	c := chart.New(s)
	for h := range 12 {
		q := shifted(p, p.Parts[0].Route.Depart.Add(time.Duration(h)*2*time.Hour))
		quick := string(mustCheckOn(t, c, q).Encode(q.Zone))
		everyClaim = true
		slow := string(mustCheckOn(t, c, q).Encode(q.Zone))
		everyClaim = false
		if quick != slow {
			t.Errorf("departure %d: the reports differ", h)
		}
	}
}
