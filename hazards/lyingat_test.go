package hazards

import (
	"fmt"
	"math/rand"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// daysWithAStay are random days of one stay each, at its middle a random place.
func daysWithAStay(t testing.TB, b orb.Bound, base *plan.Plan, n int) []*plan.Plan {
	t.Helper()
	rnd := rand.New(rand.NewSource(20261128))
	random := func() orb.Point {
		return orb.Point{b.Min[0] + rnd.Float64()*(b.Max[0]-b.Min[0]), b.Min[1] + rnd.Float64()*(b.Max[1]-b.Min[1])}
	}
	var out []*plan.Plan
	for range n {
		p := base.Clone()
		at := random()
		stay := *p.Stays()[0]
		stay.At = at
		route := plan.Route{Depart: p.Routes()[0].Depart, Points: []orb.Point{geo.RhumbDirect(at, 180, approachM), at}}
		p.Parts = []plan.Part{{Route: &route}, {Stay: &stay}}
		out = append(out, p)
	}
	return out
}

// ofStay are the findings of lying at the only stay of a plan, by check and
// severity, as a whole check has them; notes of the day are told on the leg.
func ofStay(t testing.TB, c *chart.Chart, p *plan.Plan) (list []string, stay plan.StayResult, arrive Lie) {
	t.Helper()
	k, err := NewSession(c).begin(p, false)
	if err != nil {
		t.Fatal(err)
	}
	k.checkStays()
	gathered{k}.reportQuality() // of the stay alone: no leg is checked
	for i, f := range k.report.Findings {
		if (k.abouts[i].lying == 1 || f.Code == facts.CodePoorSurvey) && f.Severity != plan.Note {
			list = append(list, fmt.Sprint(f.Severity, f.Check, f.Code))
		}
	}
	slices.Sort(list)
	return list, k.report.Stays[0], Lie{}
}

// A place that is tried is judged as the stay of a plan there is.
func TestLyingIsTheStay(t *testing.T) {
	set := demoChart(t)
	c := chart.New(set)
	b, _ := c.Bounds()
	verdicts := map[plan.Severity]int{}
	ruledOut := 0
	base := readPlan(t, "web", "demo", "plan.geojson")
	for i, p := range daysWithAStay(t, b, base, 300) {
		want, stay, _ := ofStay(t, c, p)
		l, err := NewSession(c).Lying(p, *p.Stays()[0], *stay.Arrive)
		if err != nil {
			t.Fatal(err)
		}
		why, out := l.RuledOut(stay.At)
		lie, err := l.At(stay.At)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, f := range lie.Findings {
			if f.Severity != plan.Note {
				got = append(got, fmt.Sprint(f.Severity, f.Check, f.Code))
			}
		}
		slices.Sort(got)
		if !slices.Equal(got, want) {
			t.Errorf("day %d at %v: %v; the plan's stay has %v", i, stay.At, got, want)
		}
		if a, b := lie.Stay.ClearanceLeastM, stay.ClearanceLeastM; (a == nil) != (b == nil) || a != nil && *a != *b {
			t.Errorf("day %d: least clearance %v, want %v", i, a, b)
		}
		quick, err := l.Judge(stay.At)
		stops := func(s plan.Severity) bool { return s == plan.NotClear || s == plan.NoData }
		if err != nil || stops(quick.Worst) != stops(lie.Worst) || stops(lie.Worst) && quick.Worst != lie.Worst {
			t.Errorf("day %d at %v: judged %v, and all checks say %v", i, stay.At, quick.Worst, lie.Worst)
		}
		if out {
			ruledOut++
			if !slices.Contains(got, fmt.Sprint(why.Severity, why.Check, why.Code)) {
				t.Errorf("day %d: ruled out by %v %s %s, which the whole check does not have: %v", i, why.Severity, why.Check, why.Code, got)
			}
		}
		verdicts[lie.Worst]++
	}
	if ruledOut == 0 || len(verdicts) < 3 || verdicts[plan.NotClear] < ruledOut/2 {
		t.Errorf("the places are not of every kind: %v, %d ruled out", verdicts, ruledOut)
	}
	t.Logf("%v, %d ruled out quickly", verdicts, ruledOut)
}

func BenchmarkLying(b *testing.B) {
	set := demoChart(b)
	c := chart.New(set)
	bounds, _ := c.Bounds()
	p := readPlan(b, "web", "demo", "plan.geojson")
	s := NewSession(c)
	stay := *p.Stays()[0]
	r, err := s.Check(p)
	if err != nil {
		b.Fatal(err)
	}
	rnd := rand.New(rand.NewSource(1))
	for _, look := range []string{"ruled out", "judge", "at"} {
		b.Run(look, func(b *testing.B) {
			l, err := s.Lying(p, stay, *r.Stays[0].Arrive)
			if err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				at := orb.Point{bounds.Min[0] + rnd.Float64()*(bounds.Max[0]-bounds.Min[0]), bounds.Min[1] + rnd.Float64()*(bounds.Max[1]-bounds.Min[1])}
				switch look {
				case "ruled out":
					l.RuledOut(at)
				case "judge":
					_, err = l.Judge(at)
				default:
					_, err = l.At(at)
				}
				if err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
