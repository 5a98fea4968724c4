package hazards

import (
	"cmp"
	"fmt"
	"math/rand"
	"slices"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/plan"
	"keelroom/hazards/words"
	"keelroom/testdata/beside"
)

// The properties every check keeps (house style, "Invariants"), over the demo
// waters and random days: with the timed track and the sea held fixed a deeper
// draught never lowers a severity, a lower tide never clears a clearance, a
// higher one never clears an overhead finding, reversing keeps geometric
// findings, splitting a leg changes nothing but leg numbers, and a private
// layer never lowers a severity.

func demoChart(t testing.TB) *chart.Set {
	return loadFolder(t, beside.Root(t)+"/web/demo/chart")
}

// wanderings are random days in a calm over the demo waters.
func wanderings(t testing.TB, s *chart.Set, n int) []*plan.Plan {
	t.Helper()
	b, _ := chart.New(s).Bounds()
	rnd := rand.New(rand.NewSource(20260718))
	base := readPlan(t, "web", "demo", "plan.geojson")
	var out []*plan.Plan
	for range n {
		p := *base
		p.Wind = calmFor(base.Parts[0].Route.Depart.Add(-24*time.Hour), base.Parts[0].Route.Depart.Add(48*time.Hour))
		p.Swell, p.Berths = nil, nil
		p.Margins.BerthM = 0
		p.Boat.WarmUpMin = 0
		route := *base.Parts[0].Route
		route.SpeedsKn, route.Points = nil, nil
		for range 2 + rnd.Intn(4) {
			route.Points = append(route.Points, orb.Point{b.Min[0] + (0.05+0.9*rnd.Float64())*(b.Max[0]-b.Min[0]), b.Min[1] + (0.05+0.9*rnd.Float64())*(b.Max[1]-b.Min[1])})
		}
		p.Parts = []plan.Part{{Route: &route}}
		out = append(out, &p)
	}
	return out
}

// worst is the worst severity of a check on a report, Clear for none.
func worst(r *plan.Report, check string) plan.Severity {
	w := plan.Clear
	for _, f := range r.Findings {
		if check == "" || f.Check == check {
			w = w.Worse(f.Severity)
		}
	}
	return w
}

func TestDeeperDraughtNeverLowersASeverity(t *testing.T) {
	s := demoChart(t)
	session := NewSession(chart.New(s))
	for i, p := range wanderings(t, s, 60) {
		before := plan.Clear
		for _, draught := range []float64{0.3, 0.9, 1.4, 2.2, 4} {
			q := *p
			q.Boat.DraughtM = draught
			now := worst(check(t, session, &q), plan.CheckClearance)
			if now < before {
				t.Errorf("day %d: %s at a draught of %v m, %s with less", i, now, draught, before)
			}
			before = now
		}
	}
}

func check(t testing.TB, s *Session, p *plan.Plan) *plan.Report {
	t.Helper()
	r, err := s.Check(p)
	if err != nil {
		t.Fatal(err)
	}
	words.English.Fill(r, p.Zone)
	return r
}

func TestTideNeverClearsTheWrongWay(t *testing.T) {
	s := demoChart(t)
	session := NewSession(chart.New(s))
	for i, p := range wanderings(t, s, 60) {
		keel, overhead := plan.Clear, plan.NotClear
		for _, adjust := range []float64{1.5, 0.5, 0, -0.7, -1.5} {
			q := *p
			source := *p.Tide
			source.AdjustM = adjust
			q.Tide = &source
			r := check(t, session, &q)
			if now := worst(r, plan.CheckClearance); now < keel {
				t.Errorf("day %d: clearance %s with the tide at %+.1f m, %s with more", i, now, adjust, keel)
			} else {
				keel = now
			}
			if now := worst(r, plan.CheckBridge); now > overhead {
				t.Errorf("day %d: bridge %s with the tide at %+.1f m, %s with more", i, now, adjust, overhead)
			} else {
				overhead = now
			}
		}
	}
}

// geometric findings of a route as text: what was found where, without times
// and leg numbers.
func geometric(r *plan.Report) []string {
	var out []string
	for _, f := range r.Findings {
		switch f.Check {
		case plan.CheckLand, plan.CheckHazard, plan.CheckCoverage, plan.CheckNoEntry:
			if f.Source != nil {
				out = append(out, fmt.Sprint(f.Severity, f.Check, f.Title, *f.Source))
			} else {
				out = append(out, fmt.Sprint(f.Severity, f.Check, f.Title))
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

func TestReversingARouteKeepsGeometricFindings(t *testing.T) {
	s := demoChart(t)
	s.Features = slices.DeleteFunc(s.Features, func(f chart.Feature) bool { return f.Rules != nil && f.Rules.SpeedZone })
	session := NewSession(chart.New(s))
	for i, p := range wanderings(t, s, 60) {
		p.Boat.SlowDownM = 0
		there := geometric(check(t, session, p))
		route := *p.Parts[0].Route
		route.Points = slices.Clone(route.Points)
		slices.Reverse(route.Points)
		p.Parts = []plan.Part{{Route: &route}}
		if back := geometric(check(t, session, p)); !slices.Equal(there, back) {
			t.Errorf("day %d:\nthere %q\nback  %q", i, there, back)
		}
	}
}

// Splitting a leg changes no severity of any check, nor the least clearance.
func TestSplittingALegChangesNothing(t *testing.T) {
	s := demoChart(t)
	session := NewSession(chart.New(s))
	for i, p := range wanderings(t, s, 60) {
		whole := check(t, session, p)
		points := p.Parts[0].Route.Points
		// A place on the leg itself: the track has it to the nanometre.
		mid := whole.Legs[0].Line
		half := rhumbOf(mid).At(rhumbOf(mid).LengthM * 0.37)
		route := *p.Parts[0].Route
		route.Points = slices.Insert(slices.Clone(points), 1, half)
		p.Parts = []plan.Part{{Route: &route}}
		split := check(t, session, p)
		for _, name := range plan.CheckNames() {
			if a, b := worst(whole, name), worst(split, name); a != b {
				t.Errorf("day %d: %s %s whole, %s split", i, name, a, b)
			}
		}
		if a, b := whole.LeastClearance, split.LeastClearance; a != nil && (b == nil || cmp.Compare(*a.ClearanceM-*b.ClearanceM, 0.02) > 0) {
			t.Errorf("day %d: least clearance %v whole, %v split", i, a, b)
		}
	}
}

func rhumbOf(l orb.LineString) geo.Rhumb { return geo.NewRhumb(l[0], l[1]) }

func TestAPrivateLayerNeverLowersASeverity(t *testing.T) {
	s := demoChart(t)
	session := NewSession(chart.New(s))
	for i, p := range wanderings(t, s, 40) {
		before := check(t, session, p)
		q := *p
		q.Private = privateAlong(p)
		after := check(t, NewSession(chart.New(s)), &q)
		for _, name := range plan.CheckNames() {
			// The limit of a private zone slows her: that may be a mercy to the
			// water under the keel, so speeds are left alone here.
			if a, b := worst(before, name), worst(after, name); b < a {
				t.Errorf("day %d: %s %s without, %s with a private layer", i, name, a, b)
			}
		}
	}
}

// privateAlong draws a deep area, an islet and a danger over a plan's first
// leg.
func privateAlong(p *plan.Plan) []plan.PrivateFeature {
	a := p.Parts[0].Route.Points[0]
	ring := fmt.Sprintf("[[%f,%f],[%f,%f],[%f,%f],[%f,%f],[%f,%f]]", a[0]-.01, a[1]-.01, a[0]+.01, a[1]-.01, a[0]+.01, a[1]+.01, a[0]-.01, a[1]+.01, a[0]-.01, a[1]-.01)
	texts := []string{
		`{"type":"Feature","properties":{"role":"hazard","objectClass":"DEPARE","DRVAL1":50,"DRVAL2":60},"geometry":{"type":"Polygon","coordinates":[` + ring + `]}}`,
		`{"type":"Feature","properties":{"role":"hazard","objectClass":"LNDARE"},"geometry":{"type":"Polygon","coordinates":[` + ring + `]}}`,
		fmt.Sprintf(`{"type":"Feature","properties":{"role":"hazard","objectClass":"UWTROC","WATLEV":3,"VALSOU":30},"geometry":{"type":"Point","coordinates":[%f,%f]}}`, a[0], a[1]),
	}
	var out []plan.PrivateFeature
	for i, text := range texts {
		out = append(out, plan.PrivateFeature{Role: "hazard", Feature: []byte(text), Index: i + 1})
	}
	return out
}

// No panic and a stable answer, whatever the chart and the plan lack.
func TestPoorInputs(t *testing.T) {
	empty := chart.New()
	for name, change := range map[string]func(*plan.Plan){
		"no tide":   func(p *plan.Plan) { p.Tide = nil },
		"no wind":   func(p *plan.Plan) { p.Wind = nil },
		"no fuel":   func(p *plan.Plan) { p.Boat.Fuel = nil },
		"no zone":   func(p *plan.Plan) { p.Zone = nil },
		"no length": func(p *plan.Plan) { p.Parts[0].Route.Points = []orb.Point{at(50, 50), at(50, 50)} },
		"a leg of none": func(p *plan.Plan) {
			p.Parts[0].Route.Points = []orb.Point{at(40, 50), at(50, 50), at(50, 50), at(60, 50)}
		},
		"no cruise": func(p *plan.Plan) { p.Boat.WarmUpMin = 240 },
	} {
		for _, c := range []*chart.Chart{empty, chart.New(set())} {
			p := day()
			lunch(p)
			change(p)
			p.Parts[1].Stay.At = p.Parts[0].Route.Points[len(p.Parts[0].Route.Points)-1]
			r, err := Check(c, p)
			if err != nil {
				t.Errorf("%s: %v", name, err)
				continue
			}
			zone := p.Zone
			if zone == nil {
				zone = time.UTC
			}
			again, _ := Check(c, p)
			if string(r.Encode(zone)) != string(again.Encode(zone)) {
				t.Errorf("%s: two checks differ", name)
			}
		}
	}
}

// Errors name the member of the plan.
func TestBadTide(t *testing.T) {
	p := day()
	p.Tide = &plan.TideSource{Datum: lat, Events: []plan.TideEvent{{Time: leaving, HeightM: 1}, {Time: leaving.Add(6 * time.Hour), HeightM: 3}, {Time: leaving.Add(12 * time.Hour), HeightM: 3.5}, {Time: leaving.Add(18 * time.Hour), HeightM: 0.5}}}
	_, err := Check(chart.New(set()), p)
	if err == nil || len(err.Error()) < 20 || err.Error()[:10] != "plan.tide." {
		t.Errorf("two high waters running: %v", err)
	}
}
