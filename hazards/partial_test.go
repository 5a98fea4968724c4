package hazards

import (
	"testing"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// A least, a greatest or a total of which a part is not known is no figure: in
// legs, stays and the headline (plan-file contract, section 4). Each row takes
// something away from a day that has all its figures.
func TestAPartIsNoFigure(t *testing.T) {
	table := func(hours ...float64) *plan.TideSource {
		s := &plan.TideSource{Datum: lat}
		for i, h := range hours {
			s.Events = append(s.Events, plan.TideEvent{Time: after(60 * h), HeightM: []float64{1, 3}[i%2]})
		}
		return s
	}
	otherLevel := func() chart.Feature {
		f := bank(5, 9)
		f.Datum = 12
		return f
	}
	for _, c := range []struct {
		name             string
		change           func(*plan.Plan)
		more             []chart.Feature
		leg, depths, sea bool // whether the leg's figure, the stay's depths and the stay's sea are known
	}{
		{"all is known", func(*plan.Plan) {}, nil, true, true, true},
		{"the table ends in the stay", func(p *plan.Plan) { p.Tide = table(-4, 2) }, nil, true, false, true},
		{"the table ends before it", func(p *plan.Plan) { p.Tide = table(-6, -1) }, nil, false, false, true},
		{"no wind", func(p *plan.Plan) { p.Wind = nil }, nil, false, true, false},
		{"wind for the way only", func(p *plan.Plan) { p.Wind = calmFor(after(-360), after(-120)) }, nil, true, true, false},
		{"swell for another day", func(p *plan.Plan) { p.Swell = []plan.Swell{{Time: after(2000), PeriodS: 6}} }, nil, false, true, false},
		{"a stretch of unknown depth", func(*plan.Plan) {}, []chart.Feature{bank(chart.Unknown, 9)}, false, true, true},
		{"unknown depth where she lies", func(*plan.Plan) {}, []chart.Feature{depth(chart.Unknown, 9, rectangle(89.95, 49, 90.05, 51))}, false, false, true},
		{"a stretch below another level", func(*plan.Plan) {}, []chart.Feature{otherLevel()}, false, true, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := day()
			lunch(p)
			c.change(p)
			r := mustCheck(t, set(c.more...), p)
			stay := r.Stays[0]
			known := func(what string, v *float64, want bool) {
				if (v != nil) != want {
					t.Errorf("%s is %v; known: %v", what, v, want)
				}
			}
			known("the leg's least clearance", r.Legs[0].LeastClearanceM, c.leg)
			known("the stay's least depth", stay.DepthLeastM, c.depths)
			known("the stay's least clearance", stay.ClearanceLeastM, c.depths && c.sea)
			known("the stay's sea", stay.SeaGreatestM, c.sea)
			known("the stay's fetch", stay.FetchNm, c.sea)
			known("the stay's wind", stay.WindFromDeg, c.sea)
			if got, want := r.LeastClearance != nil, c.leg && c.depths && c.sea; got != want {
				t.Errorf("the day's least clearance is %+v; known: %v", r.LeastClearance, want)
			}
			if got := len(r.Clearances) > 0; got != c.leg {
				t.Errorf("a place of the leg's least clearance: %v; known: %v", got, c.leg)
			}
		})
	}
}

// Fuel beside a stream that is known for a part of the way is a part.
func TestFuelOfAPartOfTheStream(t *testing.T) {
	p := day()
	p.Stream = []plan.Stream{{Time: after(-178)}} // held 3 h: for her first two minutes
	r := mustCheck(t, set(), p)
	if r.FuelL != nil {
		t.Errorf("%.1f l, though the stream is not known all the way", *r.FuelL)
	}
	expect(t, r, "no-data sea")
}

// The least clearance is the least of all that any finding counts: of stays, of
// gaps, and of what the survey's position accuracy may put in her way.
func TestLeastClearanceIsOfEverything(t *testing.T) {
	// She lies in 0.6 + 2 − 0.3 − 1 = 1.3 m and comes in at 5 kn, 0.4·25/100 = 0.1 m
	// deeper; under way 10 + 2 − 0.3 − 1 − 0.35 m are least.
	for _, c := range []struct{ stayX, want float64 }{{80, 1.3}, {80.5, 1.2}} {
		p := day(at(10, 50), at(80, 50))
		lunch(p).At = at(c.stayX, 50)
		bank := depth(0.6, 9, rectangle(80.38, 49, 81, 51)) // 31 m beyond the end of the route
		if c.stayX == 80 {
			bank = depth(0.6, 9, rectangle(80, 49, 81, 51))
			p.Boat.CruiseKn, p.Boat.Fuel.Burn[0].Kn = 1, 1 // she comes in with next to no squat
			p.Parts[1].Stay.Until = leaving.Add(8 * time.Hour)
		}
		least := mustCheck(t, set(bank), p).LeastClearance
		if least == nil {
			t.Fatal("no least clearance")
		}
		if near(t, "least clearance", *least.ClearanceM, c.want, 0.005); least.Leg != 1 {
			t.Errorf("on leg %d", least.Leg)
		}
	}
	// A sounding of 0.5 m within the position accuracy, 5 m + 5 %, of the corridor:
	// 0.5 + 0.35 = 0.85 m.
	r := mustCheck(t, set(sounding(0.5, 50, 50+29/111.1)), day())
	f := finding(t, r, plan.CheckClearance)
	near(t, "finding", *f.Measured, 0.85, 1e-9)
	near(t, "headline", *r.LeastClearance.ClearanceM, 0.85, 1e-9)
	near(t, "leg", *r.Legs[0].LeastClearanceM, 0.85, 1e-9)
}

// No figure of the headline stands beside a finding with less, over days of every
// kind; and what is taken away never raises a figure.
func TestHeadlineIsNoBetterThanFindings(t *testing.T) {
	session := NewSession(chart.New(demoChart(t)))
	base := readPlan(t, "web", "demo", "plan.geojson")
	figures := 0
	for h := range 24 {
		p := shifted(base, base.Parts[0].Route.Depart.Add(time.Duration(h)*time.Hour))
		r := check(t, session, p)
		if l := r.LeastClearance; l != nil {
			figures++
			for _, f := range r.Findings {
				if f.Check == plan.CheckClearance && f.Measured != nil && f.Title != "Shallow for this speed" && *f.Measured < *l.ClearanceM-0.001 {
					t.Errorf("departure %d: the headline is %.3f m, a finding %.3f m: %s", h, *l.ClearanceM, *f.Measured, f.Title)
				}
			}
		}
		noWind := *p
		noWind.Wind = nil
		for i, leg := range check(t, session, &noWind).Legs {
			if leg.LeastClearanceM != nil && (r.Legs[i].LeastClearanceM == nil || *leg.LeastClearanceM > *r.Legs[i].LeastClearanceM) {
				t.Errorf("departure %d leg %d: %v with the wind, %v without", h, i+1, r.Legs[i].LeastClearanceM, *leg.LeastClearanceM)
			}
		}
	}
	if figures == 0 {
		t.Error("no headline was looked at")
	}
}
