package hazards

import (
	"testing"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// What holds on one day only is in force for a stay that has that day inside, also
// where the day has 23 hours: in Oslo the clocks went forward on 29 March 2026 (EU
// directive 2000/84/EC: the last Sunday of March).
func TestRuleOfAShortDay(t *testing.T) {
	oslo, err := time.LoadLocation("Europe/Oslo")
	if err != nil {
		t.Fatal(err)
	}
	p := day()
	p.Zone, p.ZoneName, p.Boat.Night = oslo, "Europe/Oslo", true
	depart := time.Date(2026, 3, 28, 23, 20, 0, 0, oslo)
	p.Parts[0].Route.Depart = &depart
	calmAbout(p, depart)
	lunch(p).Until = time.Date(2026, 3, 30, 0, 55, 0, 0, oslo) // she arrives at about 23:40
	rule := func(day chart.MonthDay) chart.Feature {
		return ruled(rectangle(80, 40, 100, 60), chart.Rules{Restrn: chart.CodesOf(1), Season: chart.Season{From: day, To: day}})
	}
	for day, want := range map[chart.MonthDay]plan.Severity{327: plan.Clear, 328: plan.NotClear, 329: plan.NotClear, 330: plan.NotClear, 331: plan.Clear} {
		if got := worst(mustCheck(t, set(rule(day)), p), plan.CheckAnchoringRule); got != want {
			t.Errorf("anchoring prohibited on %v: %s, want %s", day, got, want)
		}
	}
}

// An area that is closed from midnight on is not clear for who is in it at midnight,
// and one that she leaves before is.
func TestAreaClosesAtMidnight(t *testing.T) {
	p := day()
	p.Boat.Night = true
	depart := time.Date(2026, 7, 18, 23, 55, 0, 0, time.UTC) // at x = 10; at 20 kn she is at x = 48 at midnight
	p.Parts[0].Route.Depart = &depart
	calmAbout(p, depart)
	closed := chart.Rules{Restrn: chart.CodesOf(7), Season: chart.Season{From: 719, To: 731}}
	expect(t, mustCheck(t, set(ruled(rectangle(20, 40, 45, 60), closed)), p))
	expect(t, mustCheck(t, set(ruled(rectangle(20, 40, 60, 60), closed)), p), "not-clear no-entry")
}
