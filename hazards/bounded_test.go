package hazards

import (
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// pile is many areas that must not be entered, over each other, all of them across
// the whole of a route of many legs, and one that only asks for care.
func pile(areas, legs int) (*chart.Set, *plan.Plan) {
	var features []chart.Feature
	for i := range areas {
		shrink := float64(i) * 0.001
		features = append(features, ruled(rectangle(5+shrink, 20, 95-shrink, 80), chart.Rules{Restrn: chart.CodesOf(7)}))
	}
	features = append(features, ruled(rectangle(5, 20, 95, 80), chart.Rules{Restrn: chart.CodesOf(8)}))
	points := []orb.Point{at(10, 50)}
	for i := 1; i <= legs; i++ {
		points = append(points, at(10+80*float64(i)/float64(legs), 50))
	}
	return set(features...), day(points...)
}

// 2 000 areas over each other on 29 legs would be 58 000 findings and 27 MB. A leg
// tells the 20 worst of a check and counts the rest; the verdict is that of all.
func TestFindingsAreBounded(t *testing.T) {
	s, p := pile(2000, 29)
	r := mustCheck(t, s, p)
	found := findingsOf(r, plan.CheckNoEntry)
	if len(found) != toldPerCheck || r.Verdict != plan.NotClear {
		t.Errorf("%d findings told, %s; want %d, not-clear", len(found), r.Verdict, toldPerCheck)
	}
	for _, f := range found {
		if f.Severity != plan.NotClear || len(f.Also) != 28 {
			t.Errorf("told: %s, also on %d legs; want what is not clear, on 28 more", describe(f), len(f.Also))
		}
	}
	left := map[plan.Severity]int{}
	for _, m := range r.More {
		if m.Check != plan.CheckNoEntry || m.Leg != 1 {
			t.Errorf("counted: %+v", m)
		}
		left[m.Severity] += m.Count
	}
	if left[plan.NotClear] != 2000-toldPerCheck || left[plan.Care] != 1 {
		t.Errorf("counted: %v; want %d not clear and 1 care", left, 2000-toldPerCheck)
	}
	if size := len(r.Encode(nil)); size > 300_000 {
		t.Errorf("the report has %d bytes", size)
	}
}

// What is left untold is never worse than what is told, of the same check and leg,
// and nothing is lost.
func TestTheWorstAreTold(t *testing.T) {
	var all []plan.Finding
	for i := range 300 {
		all = append(all, plan.Finding{Check: []string{plan.CheckLand, plan.CheckSea}[i%2], Leg: 1 + i/100, Severity: []plan.Severity{plan.Note, plan.Care, plan.NoData, plan.NotClear}[i*7%4],
			Measured: ptr(float64(i * 13 % 50)), Unit: "m"})
	}
	told, more := bounded(all)
	least, counts, n := map[checkOnLeg]plan.Severity{}, map[checkOnLeg]int{}, len(told)
	for _, f := range told {
		p := checkOnLeg{f.Check, f.Leg}
		counts[p]++
		if old, seen := least[p]; !seen || f.Severity < old {
			least[p] = f.Severity
		}
	}
	for _, m := range more {
		if p := (checkOnLeg{m.Check, m.Leg}); m.Severity > least[p] || counts[p] != toldPerCheck {
			t.Errorf("%+v is left out, %s is the least of %d told", m, least[p], counts[p])
		}
		n += m.Count
	}
	if n != len(all) {
		t.Errorf("%d of %d are told or counted", n, len(all))
	}
	if told, more := bounded(all[:20]); len(told) != 20 || more != nil {
		t.Errorf("few findings: %d told, %v counted", len(told), more)
	}
}

// What is left out on one leg but is the worst on another is told.
func TestNoLegSeemsBetterThanItIs(t *testing.T) {
	var all []plan.Finding
	for range 2 * toldPerCheck {
		all = append(all, plan.Finding{Check: plan.CheckLand, Severity: plan.NotClear, Leg: 1, Measured: ptr(1.0), Unit: "m"})
	}
	all = append(all, plan.Finding{Check: plan.CheckLand, Severity: plan.Care, Leg: 1, Also: []plan.Passing{{Leg: 9}}})
	told, more := bounded(all)
	if len(told) != toldPerCheck+1 || told[toldPerCheck].Severity != plan.Care || len(more) != 1 || more[0].Count != toldPerCheck {
		t.Errorf("%d told, the last %s; %+v counted", len(told), told[len(told)-1].Severity, more)
	}
}

// Areas that a leg only passes through are named up to a number, and counted.
func TestPassesAreBounded(t *testing.T) {
	var features []chart.Feature
	for range passesPerLeg + 30 {
		features = append(features, area(chart.CTNARE, rectangle(40, 40, 60, 60)))
	}
	passes := mustCheck(t, set(features...), day()).Legs[0].Passes
	if len(passes) != passesPerLeg+1 || passes[passesPerLeg].Name != "30 more" {
		t.Errorf("%d named, the last %+v", len(passes), passes[len(passes)-1])
	}
}

func BenchmarkManyAreas(b *testing.B) {
	s, p := pile(2000, 29)
	session := NewSession(chart.New(s))
	check(b, session, p)
	b.ReportAllocs()
	for b.Loop() {
		check(b, session, p)
	}
}
