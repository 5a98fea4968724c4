package hazards

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

func vector(t *testing.T, name string, into any) {
	t.Helper()
	b, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(b, into); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
}

// testdata/ukc.json: the simple squat rule as tabulated in a reprint
// (Cb·V²/100), depth Froude numbers, and sums of clearance; its own `source`
// and `status` members say more.
func TestSquatAndClearanceSums(t *testing.T) {
	var f struct {
		Squat struct {
			Published struct {
				Cb   float64
				Rows [][2]float64
			}
		}
		DepthFroude []struct {
			V_kn, H_m, Fnh float64
		} `json:"depth_froude"`
		Examples []struct{ Charted, Tide, Zoc, Draught, Squat, Wave, Clear float64 }
	}
	vector(t, "ukc.json", &f)
	// A ship: never planing, no hump, in water too deep for its Froude number.
	b := plan.DefaultBoat()
	b.BlockCoeff, b.PlaningKn, b.HumpM = f.Squat.Published.Cb, 100, 100
	for _, r := range f.Squat.Published.Rows {
		near(t, "squat", Squat(&b, r[0], 1000, false), r[1], 5e-4)
		near(t, "squat, confined", Squat(&b, r[0], 1000, true), 2*r[1], 1e-3)
	}
	for _, r := range f.DepthFroude {
		near(t, "Froude", DepthFroude(r.V_kn, r.H_m), r.Fnh, 5e-4)
	}
	if len(f.Examples) != 2 || len(f.DepthFroude) != 4 || len(f.Squat.Published.Rows) != 5 {
		t.Fatal("the vectors are not whole")
	}
	for _, e := range f.Examples {
		s := sum{claim: claim{depthM: e.Charted}, tideM: e.Tide, marginM: e.Zoc, draughtM: e.Draught, squatM: e.Squat, waveM: e.Wave}
		near(t, "clearance", s.clearanceM(), e.Clear, 1e-9)
	}
}

// plan-file contract, section 3: the hump from planing speed, from a depth
// Froude number of 0.7, and in water of no depth.
func TestSquatHump(t *testing.T) {
	b := plan.DefaultBoat()
	for _, c := range []struct{ kn, depthM, want float64 }{
		{6, 10, 0.4 * 36 / 100}, {13.9, 50, 0.35}, {14, 50, 0.35}, {6, 1.98, 0.35}, {6, 2.05, 0.144}, {3, 0, 0.35}, {3, -1, 0.35}, {0, 5, 0},
	} {
		near(t, "squat", Squat(&b, c.kn, c.depthM, false), c.want, 1e-9)
	}
	if !math.IsNaN(math.NaN()) || Squat(&b, 3, math.NaN(), false) != b.HumpM {
		t.Error("an unknown depth gives less than the hump")
	}
}

// testdata/catzoc.json: IHO S-57 App. A attribute CATZOC and S-67; A1 and the
// codes verified, B and C from memory (its `status`).
func TestSurveyQuality(t *testing.T) {
	var f struct {
		Published map[string][][2]float64 `json:"published_rows"`
		Rows      []struct {
			Zoc                             string
			Depth_m, Depth_acc_m, Pos_acc_m float64
		}
	}
	vector(t, "catzoc.json", &f)
	codes := map[string]int{"A1": 1, "A2": 2, "B": 3, "C": 4}
	for zoc, rows := range f.Published {
		for _, r := range rows {
			near(t, zoc, DepthAccuracyM(codes[zoc], r[0]), r[1], 1e-9)
		}
	}
	for _, r := range f.Rows {
		near(t, r.Zoc, DepthAccuracyM(codes[r.Zoc], r.Depth_m), r.Depth_acc_m, 1e-9)
		if m, ok := PositionAccuracyM(codes[r.Zoc], r.Depth_m); ok {
			near(t, r.Zoc+" position", m, r.Pos_acc_m, 1e-9)
		} else if r.Zoc != "C" {
			t.Errorf("%s has no position accuracy", r.Zoc)
		}
	}
	for _, zoc := range []int{0, 5, 6, 7, -1} {
		for d := -3.0; d < 40; d++ {
			if DepthAccuracyM(zoc, d) < DepthAccuracyM(zocC, d) {
				t.Errorf("zone %d at %v m is better than C", zoc, d)
			}
		}
		if _, ok := PositionAccuracyM(zoc, 5); ok {
			t.Errorf("zone %d has a position accuracy", zoc)
		}
	}
}

// The burn curve is read as the contract's fuel rows are meant (arithmetic;
// testdata/motor.json has the sums of a 300 l tank at 45 l/h and 20 kn).
func TestBurnCurve(t *testing.T) {
	curve := []plan.Burn{{Kn: 5, Lph: 6}, {Kn: 8, Lph: 15}, {Kn: 20, Lph: 45}}
	for _, c := range []struct{ kn, want float64 }{{0, 6}, {5, 6}, {6.5, 10.5}, {8, 15}, {14, 30}, {20, 45}} {
		near(t, "litres an hour", litresAnHour(curve, c.kn), c.want, 1e-9)
	}
	if v := litresAnHour(curve, 20.1); !math.IsNaN(v) {
		t.Errorf("beyond the curve: %v, want not a number", v)
	}
}

func TestFuelOfADay(t *testing.T) {
	p := day()
	r := mustCheck(t, set(), p)
	hours := r.Back.Sub(*r.Depart).Hours()
	// 45 l/h all the way, then 5 min of cool-down at the slowest burn.
	near(t, "litres", *r.FuelL, 45*hours+6*5/60.0, 0.01)
	for _, c := range []struct {
		inTank, reserve float64
		want            string
	}{{100, 1.0 / 3, ""}, {*r.FuelL * 1.4, 1.0 / 3, "care fuel"}, {*r.FuelL - 0.5, 0, "not-clear fuel"}, {*r.FuelL + 0.5, 0, ""}} {
		p.Boat.Fuel.InTankL, p.Boat.Fuel.Reserve = ptr(c.inTank), ptr(c.reserve)
		r := mustCheck(t, set(), p)
		if c.want == "" {
			expect(t, r)
		} else {
			expect(t, r, c.want)
		}
	}
	p.Boat.CruiseKn = 21
	expect(t, mustCheck(t, set(), p), "no-data fuel")
	p.Boat.Fuel = nil
	r = mustCheck(t, set(), p)
	expect(t, r, "no-data fuel")
	if r.Checks[plan.CheckFuel] != plan.NoInput || r.FuelL != nil {
		t.Errorf("without a curve the check is %q, %v l", r.Checks[plan.CheckFuel], r.FuelL)
	}
}

// Cool-down minutes run slowly before the end count.
func TestCoolDownCountsSlowMinutes(t *testing.T) {
	p := day()
	p.Margins.BerthM = 5 * 60 * 5 * 1852 / 3600.0 // five minutes at 5 kn
	expectLitres := func(b float64) float64 { return b }
	r := mustCheck(t, set(), p)
	slow := 10 * 60.0 // seconds at 5 kn at both ends
	fast := r.Back.Sub(*r.Depart).Seconds() - slow
	// The slow-down itself burns between the two rates; it lasts 150 m.
	if want := expectLitres(45*fast/3600 + 6*slow/3600); math.Abs(*r.FuelL-want) > 0.25 {
		t.Errorf("%.2f l, want about %.2f l without any cool-down", *r.FuelL, want)
	}
}

func TestPassable(t *testing.T) {
	unknown := chart.Unknown
	for _, c := range []struct {
		name   string
		f      chart.Feature
		accept bool
		want   passability
	}{
		{"rock that covers and uncovers", danger(chart.UWTROC, chart.Danger{WatLev: 4}, unknown, 0, 0), true, impassable},
		{"rock under water", danger(chart.UWTROC, chart.Danger{WatLev: 3, ExpSou: 1}, unknown, 0, 0), false, impassable},
		{"the same, accepted", danger(chart.UWTROC, chart.Danger{WatLev: 3, ExpSou: 1}, unknown, 0, 0), true, asAround},
		{"shoaler than around, accepted", danger(chart.UWTROC, chart.Danger{WatLev: 3, ExpSou: 2}, unknown, 0, 0), true, impassable},
		{"nothing stated", danger(chart.OBSTRN, chart.Danger{}, unknown, 0, 0), true, impassable},
		{"floating", danger(chart.OBSTRN, chart.Danger{WatLev: 7}, unknown, 0, 0), true, impassable},
		{"foul ground", danger(chart.OBSTRN, chart.Danger{CatObs: 7}, unknown, 0, 0), false, anchorNot},
		{"ground tackle", danger(chart.OBSTRN, chart.Danger{CatObs: 9}, unknown, 0, 0), false, anchorNot},
		{"non-dangerous wreck", danger(chart.WRECKS, chart.Danger{CatWrk: 1}, unknown, 0, 0), false, anchorNot},
		{"remains of a wreck", danger(chart.WRECKS, chart.Danger{CatWrk: 3}, unknown, 0, 0), false, anchorNot},
		{"dangerous wreck", danger(chart.WRECKS, chart.Danger{CatWrk: 2}, unknown, 0, 0), false, impassable},
		{"with a depth", danger(chart.WRECKS, chart.Danger{CatWrk: 2}, 6, 0, 0), false, hasDepth},
	} {
		if got := passable(&c.f, c.accept); got != c.want {
			t.Errorf("%s: %d, want %d", c.name, got, c.want)
		}
	}
}
