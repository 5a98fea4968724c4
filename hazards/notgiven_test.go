package hazards

import (
	"strings"
	"testing"
	"time"

	"keelroom/hazards/plan"
)

// Two rows of wind 36 h apart are no known wind between them: the sea is not
// known (the check table's row of the sea).
func TestWindRowsTooFarApart(t *testing.T) {
	p := day()
	lunch(p)
	p.Wind = []plan.Wind{{Time: leaving.Add(-12 * time.Hour)}, {Time: leaving.Add(24 * time.Hour)}}
	r := mustCheck(t, set(), p)
	expect(t, r, "no-data chain", "no-data holding", "no-data sea", "no-data shelter", "no-data wind-shift")
	if f := finding(t, r, plan.CheckSea); !strings.Contains(f.Detail, "12 h") {
		t.Errorf("it does not say why: %s", f.Detail)
	}
	p.Wind = calmFor(leaving.Add(-12*time.Hour), leaving.Add(24*time.Hour))
	expect(t, mustCheck(t, set(), p))
}

// No swell given is no swell counted, and the report says so; it is no finding.
func TestNoSwellGiven(t *testing.T) {
	p := day()
	r := mustCheck(t, set(), p)
	expect(t, r)
	if !contains(r.Cautions, plan.CautionNoSwell) {
		t.Errorf("nothing is said of swell: %q", r.Cautions)
	}
	p.Swell = []plan.Swell{{Time: leaving, PeriodS: 6}}
	if r := mustCheck(t, set(), p); contains(r.Cautions, plan.CautionNoSwell) {
		t.Error("swell is given, and the report says that it is not")
	}
}

// Gusts over 34 kn at a stay want care at least (at-anchor contract, section 1):
// the greatest of the whole stay, at a row between the half hours as well.
func TestGustsAtAStay(t *testing.T) {
	for _, c := range []struct {
		kind string
		gust float64
		want string
	}{{plan.AtAnchor, 34, ""}, {plan.AtAnchor, 34.1, "care"}, {plan.AtAnchor, 60, "care"}, {plan.AtMooring, 60, "care"}, {plan.AtBerth, 60, "care"}} {
		p := day()
		lunch(p).Kind = c.kind
		p.Wind = calmFor(leaving.Add(-12*time.Hour), leaving)
		for _, row := range []struct {
			min  int
			gust float64
		}{{95, 0}, {100, c.gust}, {105, 0}, {720, 0}} {
			p.Wind = append(p.Wind, plan.Wind{Time: leaving.Add(time.Duration(row.min) * time.Minute), GustKn: ptr(row.gust)})
		}
		found := ""
		for _, f := range mustCheck(t, set(), p).Findings {
			if f.Check == plan.CheckSea && f.Title == "Strong gusts where she lies" {
				found = f.Severity.String()
				near(t, "gust", *f.Measured, c.gust, 1e-9)
			}
		}
		if found != c.want {
			t.Errorf("%s, gusts of %v kn: %q, want %q", c.kind, c.gust, found, c.want)
		}
	}
}
