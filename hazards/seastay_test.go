package hazards

import (
	"math"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// coast is land along the west side, x 0 to 10, with deep water (DRVAL2 open)
// before it: a wind from the west has a known fetch.
func coast(more ...chart.Feature) *chart.Set {
	whole := rectangle(0, 0, 100, 100)
	cover := area(chart.MCOVR, whole)
	cover.Meta = &chart.Meta{CatCov: 1}
	return bareSet(append([]chart.Feature{cover, area(chart.LNDARE, rectangle(0, 0, 10, 100)),
		depth(10, chart.Unknown, rectangle(10, 0, 100, 100)), survey(1, whole)}, more...)...)
}

// spmDeep is the significant height of SPM 1984 eq 3-39 in deep water, typed
// from the formula in the shared wave vectors: gH/UA² = 0.283·tanh(0.00565·
// (gF/UA²)^½), UA = 0.71·U^1.23.
func spmDeep(kn, fetchM float64) float64 {
	ua := 0.71 * math.Pow(kn*1852/3600, 1.23)
	return ua * ua / 9.81 * 0.283 * math.Tanh(0.00565*math.Sqrt(9.81*fetchM/(ua*ua)))
}

// fanFetch is the mean of nine rays at 3° about west from so many metres off a
// straight shore to the west.
func fanFetch(off float64) float64 {
	sum := 0.0
	for i := -4; i <= 4; i++ {
		sum += off / math.Cos(float64(i)*3*math.Pi/180)
	}
	return sum / 9
}

// The sea row of the contract's table, along y = 50 from x = 30 to 40.
func TestSeaUnderWay(t *testing.T) {
	p := day(at(30, 50), at(40, 50))
	blow(p, 270, 25)
	// The last quarter-mile cell's middle has the longest fetch.
	leg := geo.NewRhumb(at(30, 50), at(40, 50))
	n := math.Ceil(leg.LengthM / (geo.NauticalMileM / 4))
	middle := leg.At(leg.LengthM * (n - 0.5) / n)
	hs := spmDeep(25, fanFetch(geo.DistanceM(at(10, 50), middle)))
	if hs < 0.3 || hs > 0.6 {
		t.Fatalf("Hs %.3f m: the example is out of range", hs)
	}
	for _, c := range []struct {
		name        string
		limit, stop float64
		want        []string
	}{
		{"below both", hs + 0.01, hs*1.25 + 0.01, nil},
		{"over the limit", hs - 0.01, hs*1.25 + 0.01, []string{"care sea"}},
		{"over the stop with 25 %", hs + 0.01, hs*1.25 - 0.01, []string{"care sea"}},
		{"over the stop, after a stretch near it", hs - 0.02, hs - 0.01, []string{"care sea", "not-clear sea"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p.Boat.SeaLimitM, p.Boat.SeaStopM = c.limit, c.stop
			r := mustCheck(t, coast(), p)
			expect(t, r, c.want...)
			for _, f := range r.Findings {
				if f.Severity == plan.NotClear {
					near(t, "significant height", *f.Measured, hs, 0.01*hs)
				}
			}
		})
	}
}

// A wind from where the data end: only open water beyond them makes it rough.
func TestOpenWaterBeyondTheData(t *testing.T) {
	p := day(at(60, 50), at(70, 50))
	blow(p, 90, 20)
	within := spmDeep(20, fanFetch(geo.DistanceM(at(60, 50), at(100, 50))))
	beyond := spmDeep(20, 20000)
	p.Boat.SeaLimitM, p.Boat.SeaStopM = (within+beyond)/2, 2
	r := mustCheck(t, coast(), p)
	expect(t, r, "care sea")
	near(t, "with open water", *finding(t, r, plan.CheckSea).Measured, beyond, 0.01*beyond)
	p.Margins.OpenFetchKm = 0.5
	expect(t, mustCheck(t, coast(), p))
}

func TestWindNotKnown(t *testing.T) {
	p := day()
	p.Wind = nil
	lunch(p)
	r := mustCheck(t, set(), p)
	expect(t, r, "no-data chain", "no-data holding", "no-data sea", "no-data shelter", "no-data wind-shift")
	if r.Checks[plan.CheckChain] != plan.NoInput || r.Checks[plan.CheckHolding] != plan.NoInput || r.Checks[plan.CheckSea] != plan.NoInput || r.Checks[plan.CheckShelter] != plan.NoInput {
		t.Errorf("checks %v", r.Checks)
	}
	p.Wind = []plan.Wind{{Time: leaving.Add(-2 * time.Hour)}} // held 3 h: until 11:00
	expect(t, mustCheck(t, set(), p), "no-data chain", "no-data holding", "no-data shelter", "no-data wind-shift")
}

func TestStreams(t *testing.T) {
	p := day(at(30, 50), at(40, 50))
	p.Boat.SeaLimitM, p.Boat.SeaStopM = 5, 6
	blow(p, 270, 13)
	p.Stream = []plan.Stream{{Time: leaving.Add(-time.Hour), TowardDeg: 270, Kn: 1.6}}
	// The cruising burn has a point for the speed through the water.
	r := mustCheck(t, coast(), p)
	expect(t, r, "care sea")
	near(t, "over the ground", *r.Legs[0].Kn, 18.4, 0.05)
	if contains(r.Cautions, plan.CautionOverGround) {
		t.Error("says speeds are over the ground though a stream is given")
	}
	p.Stream[0].TowardDeg = 90 // with the wind
	expect(t, mustCheck(t, coast(), p))
	p.Stream[0].TowardDeg, p.Stream[0].Kn = 270, 1.4
	expect(t, mustCheck(t, coast(), p))
}

// Breaking: a significant height of 0.6 of the depth is not clear, 0.4 care.
func TestBreaking(t *testing.T) {
	p := day(at(30, 50), at(40, 50))
	p.Boat.SeaLimitM, p.Boat.SeaStopM, p.Margins.WaveFraction = 5, 6, 0
	p.Boat.DraughtM, p.Margins.UnderKeelFastM, p.Margins.ComfortDepthM = 0.1, 0.01, 0.1
	blow(p, 270, 40)
	p.Tide.LevelM = ptr(0.3) // just the margin
	leg := geo.NewRhumb(at(30, 50), at(40, 50))
	n := math.Ceil(leg.LengthM / (geo.NauticalMileM / 4))
	hs := spmDeep(40, fanFetch(geo.DistanceM(at(10, 50), leg.At(leg.LengthM*(n-0.5)/n))))
	bar := func(d float64) chart.Feature { return depth(d, chart.Unknown, rectangle(39, 0, 41, 100)) }
	for _, c := range []struct {
		depth float64
		want  string
	}{{hs / 0.61, "not-clear sea"}, {hs / 0.59, "care sea"}, {hs / 0.41, "care sea"}} {
		r := mustCheck(t, coast(bar(c.depth)), p)
		if got := finding(t, r, plan.CheckSea); got.Severity.String()+" sea" != c.want {
			t.Errorf("Hs %.2f m in %.2f m: %s, want %s", hs, c.depth, got.Severity, c.want)
		}
	}
}

// The shelter row: 0.3 m at anchor.
func TestShelter(t *testing.T) {
	p := day(at(60, 50), at(30, 50))
	blow(p, 270, 18)
	lunch(p)
	hs := spmDeep(18, fanFetch(geo.DistanceM(at(10, 50), at(30, 50))))
	for _, c := range []struct {
		name  string
		limit float64
		want  []string
	}{
		{"sheltered", hs*1.25 + 0.01, []string{"care wind-shift", "no-data chain"}}, // how deep it may be is not charted; it may back or veer along the shore
		{"sheltered but for 25 %", hs + 0.01, []string{"care shelter", "care wind-shift", "no-data chain"}},
		{"not sheltered", hs - 0.01, []string{"care wind-shift", "no-data chain", "not-clear shelter"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p.Margins.AnchoredSeaM = c.limit
			p.Margins.WindRoomDeg = 120
			r := mustCheck(t, coast(), p)
			expect(t, r, c.want...)
			near(t, "sea at the stay", *r.Stays[0].SeaGreatestM, hs, 0.01*hs)
			near(t, "fetch", *r.Stays[0].FetchNm, fanFetch(geo.DistanceM(at(10, 50), at(30, 50)))/1852, 0.01)
		})
	}
}

// What forbids an anchor, in its season (codes: IHO S-57 App. A).
func TestAnchoringRules(t *testing.T) {
	here := rectangle(80, 40, 100, 60)
	rule := func(r chart.Rules) chart.Feature { return ruled(here, r) }
	winter := chart.Season{From: 1001, To: 430}
	for _, c := range []struct {
		name string
		f    chart.Feature
		kind string
		want []string
	}{
		{"prohibited", rule(chart.Rules{Restrn: chart.CodesOf(1)}), plan.AtAnchor, []string{"not-clear anchoring-rule", "note no-entry"}},
		{"dragging prohibited", rule(chart.Rules{Restrn: chart.CodesOf(24)}), plan.AtAnchor, []string{"not-clear anchoring-rule", "note no-entry"}},
		{"stopping prohibited", rule(chart.Rules{Restrn: chart.CodesOf(25)}), plan.AtAnchor, []string{"not-clear anchoring-rule", "note no-entry"}},
		{"restricted", rule(chart.Rules{Restrn: chart.CodesOf(2)}), plan.AtAnchor, []string{"care anchoring-rule", "note no-entry"}},
		{"minefield", rule(chart.Rules{CatRea: chart.CodesOf(14)}), plan.AtAnchor, []string{"not-clear anchoring-rule", "not-clear no-entry"}},
		{"prohibited in winter", rule(chart.Rules{Restrn: chart.CodesOf(1), Season: winter}), plan.AtAnchor, nil},
		{"prohibited, on a mooring", rule(chart.Rules{Restrn: chart.CodesOf(1)}), plan.AtMooring, []string{"note no-entry"}},
		{"cable area", area(chart.CBLARE, here), plan.AtAnchor, []string{"not-clear anchoring-rule"}},
		{"cable", through(chart.CBLSUB, at(90, 40), at(90, 60)), plan.AtAnchor, []string{"not-clear anchoring-rule"}},
		{"pipeline", through(chart.PIPSOL, at(90, 40), at(90, 60)), plan.AtAnchor, []string{"not-clear anchoring-rule"}},
		{"foul ground", danger(chart.OBSTRN, chart.Danger{CatObs: 7}, chart.Unknown, 90, 50), plan.AtAnchor, []string{"care hazard", "not-clear anchoring-rule"}},
		{"rock without a depth", danger(chart.UWTROC, chart.Danger{WatLev: 3}, chart.Unknown, 90, 50), plan.AtAnchor, []string{"not-clear hazard", "not-clear swing"}},
		{"nothing", area(chart.ACHARE, here), plan.AtAnchor, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := day()
			lunch(p).Kind = c.kind
			expect(t, mustCheck(t, set(c.f), p), c.want...)
		})
	}
}

// Depths at a stay: the least with the least tide less the margin, the
// greatest with the greatest plus it.
func TestDepthsAtAStay(t *testing.T) {
	p := day()
	lunch(p)
	swinging(p)
	r := mustCheck(t, set(), p)
	s := r.Stays[0]
	tide, err := NewTide(p.Tide)
	if err != nil {
		t.Fatal(err)
	}
	least, greatest := math.Inf(1), math.Inf(-1)
	for u := *s.Arrive; !u.After(*s.Until); u = u.Add(10 * time.Second) { // sampled, independent of the turning points
		h, _ := tide.HeightM(u)
		least, greatest = math.Min(least, h), math.Max(greatest, h)
	}
	arrive, _ := tide.HeightM(*s.Arrive)
	near(t, "on arrival", *s.DepthArrivalM, 10+arrive, 1e-6)
	near(t, "least", *s.DepthLeastM, 10+least-0.3, 1e-3)
	near(t, "greatest", *s.DepthGreatestM, 20+greatest+0.3, 1e-3)
	near(t, "clearance", *s.ClearanceLeastM, 10+least-0.3-1, 1e-3)
}

// sounded_m may shoal the charted bound, never deepen it. 2 m of tide: a
// reading of 4.5 m is a depth of 2.5 m less the margin of 0.3 m.
func TestEchoSounder(t *testing.T) {
	p := day()
	stay := lunch(p)
	stay.SoundedAt = ptr(leaving.Add(time.Hour))
	for _, c := range []struct{ sounded, least float64 }{{4.5, 2.2 + 2 - 0.3}, {40, 10 + 2 - 0.3}} {
		stay.SoundedM = ptr(c.sounded)
		near(t, "least depth", *mustCheck(t, set(), p).Stays[0].DepthLeastM, c.least, 1e-9)
	}
}

// The clearance at a stay: 1 m under the keel.
func TestClearanceAtAStay(t *testing.T) {
	for _, c := range []struct {
		drval1 float64
		want   string
	}{{0.29, "not-clear clearance"}, {0.31, "care clearance"}, {0.9, ""}} {
		// 2 − 0.3 − 1 = 0.7 m over the charted depth; she comes in slowly.
		p := day()
		p.Boat.CruiseKn = 4
		p.Boat.Fuel.Burn[0].Kn = 4
		stay := lunch(p)
		stay.Until = leaving.Add(4 * time.Hour)
		r := mustCheck(t, set(depth(c.drval1, 5, rectangle(89.5, 0, 100, 100))), p)
		found := ""
		for _, f := range r.Findings {
			if f.Check == plan.CheckClearance && f.Geometry.GeoJSONType() == "Point" {
				found = f.Severity.String() + " clearance"
			}
		}
		if found != c.want {
			t.Errorf("%.2f m: %q, want %q: %q", c.drval1, found, c.want, said(r))
		}
	}
}

// leave_by: leaving then, the way home is still clear; two minutes later
// something fails.
func TestLeaveBy(t *testing.T) {
	p := day(at(10, 50), at(35, 50))
	swinging(p)
	stay := lunch(p)
	home := plan.Route{Name: "home", Points: []orb.Point{at(35, 50), at(70, 50)}}
	p.Parts = append(p.Parts, plan.Part{Route: &home})
	bar := set(bank(0.5, 9))
	tried := 0
	for m := range 24 {
		stay.Until = leaving.Add(time.Hour + time.Duration(m)*20*time.Minute)
		windUntil(p, 30*time.Hour)
		by := mustCheck(t, bar, p).LeaveBy[0]
		if by.Time == nil || by.Time.Sub(stay.Until) > 10*time.Hour {
			continue
		}
		tried++
		was := stay.Until
		stay.Until = by.Time.Add(-time.Second)
		for _, f := range mustCheck(t, bar, p).Findings {
			if f.Severity == plan.NotClear {
				t.Errorf("leaving at the last minute %v: %s %s", stay.Until, f.Title, f.Detail)
			}
		}
		stay.Until = was
	}
	if tried == 0 {
		t.Error("no leave_by was tried")
	}
}
