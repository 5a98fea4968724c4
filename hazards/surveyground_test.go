package hazards

import (
	"testing"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// A worse survey never makes a ground hold better: what lies farther off than position_m
// is no ground charted at the anchor, though the survey may have it out of place. Zones of
// confidence from the best to the worst, the last for none.
func TestAWorseSurveyNeverImprovesTheHolding(t *testing.T) {
	changed := 0
	for _, natsur := range []int{4, 6, 9, 40} {
		for _, metres := range []float64{5, 9.5, 12, 25, 35, 55, 62} {
			for _, holding := range []float64{0.9 * pullN, 1.5 * pullN, 3 * pullN} {
				for _, under := range []int{0, 4, 6} { // at the anchor itself
					before := plan.Clear
					for _, zoc := range []int{1, 2, 3, 4, 5, 6} {
						var bed []chart.Feature
						if under != 0 {
							bed = append(bed, bedOf(under, 4))
						}
						b := point(chart.SBDARE, 90, off(metres))
						b.NatSur = chart.CodesOf(natsur)
						s := pool(3, 4, append(bed, b)...)
						s.Features[2] = survey(zoc, rectangle(0, 0, 100, 100))
						p, _ := atAnchor(0)
						blow(p, 0, 10)
						p.Boat.HoldingN = &holding
						now := worst(mustCheck(t, s, p), plan.CheckHolding)
						if now < before {
							t.Errorf("nature %d %.1f m off, %d at the anchor, %.0f N, zone %d: %s, was %s", natsur, metres, under, holding, zoc, now, before)
						}
						if now != before && zoc > 1 {
							changed++
						}
						before = now
					}
				}
			}
		}
	}
	if changed == 0 {
		t.Error("no survey made a difference")
	}
}

// Sand is charted ground within position_m, 10 m, whatever the survey.
func TestGroundChartedBesideTheAnchor(t *testing.T) {
	for metres, want := range map[float64]string{9.5: "", 10.5: "care holding-doubtful", 55: "care holding-doubtful"} {
		for _, zoc := range []int{1, 6} {
			b := point(chart.SBDARE, 90, off(metres))
			b.NatSur = chart.CodesOf(4)
			s := pool(3, 4, b)
			s.Features[2] = survey(zoc, rectangle(0, 0, 100, 100))
			p, _ := atAnchor(0)
			blow(p, 0, 10)
			p.Boat.HoldingN = ptr(1.5 * pullN)
			if got := foundOf(mustCheck(t, s, p), plan.CheckHolding); got != want {
				t.Errorf("%.1f m off, zone %d: %q, want %q", metres, zoc, got, want)
			}
		}
	}
}

// A rode that is planned is checked though none is given in the boat: as rope, 7 for each
// of 6 m to the roller where it is shoalest and of 7 m where it is deepest, 0.3 m more for
// a roller that is not given either.
func TestPlannedRodeWithNoneAboard(t *testing.T) {
	for _, c := range []struct {
		rodeM float64
		want  string
	}{{7, "not-clear rode-does-not-reach; not-clear rode-too-short"}, {44.0, "not-clear rode-too-short"}, {44.2, "care rode-short-if-deep; care pull-lifts-anchor"}, {51.2, "care pull-lifts-anchor"},
		{84, ""}} { // asin(7.3 / 84) is under 5 degrees
		p, stay := atAnchor(0)
		blow(p, 0, 10)
		p.Boat.Rode, stay.RodeM = nil, ptr(c.rodeM)
		r := mustCheck(t, pool(3, 4), p)
		if got := foundOf(r, plan.CheckChain); got != c.want {
			t.Errorf("%.1f m: %q, want %q", c.rodeM, got, c.want)
		}
		if r.Checks[plan.CheckChain] != plan.NoInput || r.Stays[0].ToLayM != nil || r.Stays[0].LiftKn != nil {
			t.Errorf("%.1f m: the check is %s, %+v", c.rodeM, r.Checks[plan.CheckChain], r.Stays[0])
		}
	}
}
