package hazards

import (
	"math"
	"slices"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// gapDay is a day out to x = 80, a stay 41 m beyond the route's end, and a way
// home that begins 41 m beyond the stay: in neither gap does the corridor of what
// comes before or after reach the middle.
func gapDay() *plan.Plan {
	p := day(at(10, 50), at(80, 50))
	lunch(p).At = at(80.5, 50)
	p.Parts = append(p.Parts, plan.Part{Route: &plan.Route{Name: "home", Points: []orb.Point{at(81, 50), at(95, 50)}}})
	return p
}

// What lies in the gap between two parts of the day is checked as on a leg:
// x = 80.33 to 80.38 is 27 to 31 m from the end of the route, whose corridor
// reaches 25 m, and 10 m from the stay's 8.
func TestGapsBetweenParts(t *testing.T) {
	p := gapDay()
	if m := geo.DistanceM(at(80, 50), at(80.5, 50)); m > plan.JoinM || m < 40 {
		t.Fatalf("the gap is %.1f m", m)
	}
	expect(t, mustCheck(t, set(), p))
	for _, x := range []float64{80.33, 80.62} { // on the way to the stay, and from it
		strip := rectangle(x, 49, x+0.05, 51)
		for _, c := range []struct {
			name string
			f    chart.Feature
			want string
			near bool // where she lies it is found too
		}{
			{"a bank that dries", depth(-1, 3, strip), "not-clear clearance", false},
			{"unknown depth", depth(chart.Unknown, 3, strip), "no-data clearance", false},
			{"land", area(chart.LNDARE, strip), "not-clear land", false},
			{"a rock without a depth", danger(chart.UWTROC, chart.Danger{WatLev: 3}, chart.Unknown, x+0.025, 50), "not-clear hazard", true},
			{"no entry", ruled(strip, chart.Rules{Restrn: chart.CodesOf(7)}), "not-clear no-entry", false},
		} {
			r := mustCheck(t, set(c.f), p)
			i := slices.IndexFunc(r.Findings, func(f plan.Finding) bool { return f.Severity.String()+" "+f.Check == c.want })
			if i < 0 {
				t.Errorf("%s at x = %v: %q, want %q", c.name, x, said(r), c.want)
				continue
			}
			leg, there := 1, *r.Stays[0].Arrive
			if x > 80.5 {
				leg, there = 2, *r.Stays[0].Until
			}
			if f := r.Findings[i]; !c.near && (f.Leg != leg || math.Abs(f.Time.Sub(there).Minutes()) > 1) {
				t.Errorf("%s at x = %v is told of leg %d at %v", c.name, x, f.Leg, f.Time)
			}
			look, err := NewSession(chart.New(set(c.f))).Outlook(p)
			if err != nil || look.Verdict != r.Verdict {
				t.Errorf("%s at x = %v: the outlook is %s, the verdict %s, %v", c.name, x, look.Verdict, r.Verdict, err)
			}
		}
	}
}

// A gap moves no clock, adds no leg and no distance, and what is sound stays so.
func TestGapsAddNothing(t *testing.T) {
	with := mustCheck(t, set(), gapDay())
	p := gapDay()
	p.Stays()[0].At, p.Routes()[1].Points[0] = at(80, 50), at(80, 50)
	without := mustCheck(t, set(), p)
	if len(with.Legs) != 2 || !with.Stays[0].Arrive.Equal(*without.Stays[0].Arrive) {
		t.Errorf("%d legs, at the stay at %v, without gaps at %v", len(with.Legs), with.Stays[0].Arrive, without.Stays[0].Arrive)
	}
	if d := geo.DistanceM(at(10, 50), at(80, 50)) + geo.DistanceM(at(81, 50), at(95, 50)); math.Abs(*with.DistanceNm-nm(d)) > 1e-3 {
		t.Errorf("%.4f nm, want %.4f nm", *with.DistanceNm, nm(d))
	}
	if with.Back.Before(leaving.Add(3 * time.Hour)) {
		t.Errorf("back at %v", with.Back)
	}
}

// Land beside a berth is passed by eye in a gap as it is on the leg.
func TestGapAtABerth(t *testing.T) {
	p := gapDay()
	p.Stays()[0].Kind = plan.AtBerth
	p.Margins.BerthM = 150
	quay := area(chart.LNDARE, rectangle(80.2, off(3), 80.45, off(60)))
	for _, f := range mustCheck(t, set(quay), p).Findings {
		if f.Severity > plan.Note && f.Check == plan.CheckLand {
			t.Errorf("%s: %s", describe(f), f.Detail)
		}
	}
}
