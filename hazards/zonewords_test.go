package hazards

import (
	"strings"
	"testing"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// What a zone's finding says of its limit: none in the layer, one for other vessels
// only, and that its season begins or ends while she is inside.
func TestZoneWords(t *testing.T) {
	slow := chart.Rules{Restrn: chart.CodesOf(27), SpeedZone: true}
	others := slow
	others.Limits = []chart.SpeedLimit{{Kn: 5, VesselClass: "barges"}, {Kn: 7.5, VesselClass: "seagoing ships"}}
	season := slow
	season.Limits, season.Season = []chart.SpeedLimit{{Kn: 12}}, chart.Season{From: 719, To: 731}
	late := time.Date(2026, 7, 18, 23, 54, 0, 0, time.UTC) // at 20 kn she is in it from 23:55 to 00:03
	for _, c := range []struct {
		name   string
		rules  chart.Rules
		depart time.Time
		want   string
		not    string
	}{
		{"no figure", slow, leaving, "the layer gives no figure", "other vessels"},
		{"a figure for others", others, leaving, "the layer gives a figure for other vessels only (5.0 kn for barges, 7.5 kn for seagoing ships)", "no figure"},
		{"the season begins while she is inside", season, late, "Its season begins or ends while she is inside: planned at the limit throughout.", ""},
		{"the season holds", season, late.Add(24 * time.Hour), "From", "Its season"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := day()
			p.Boat.Night = true
			p.Parts[0].Route.Depart = &c.depart
			p.Choices.VesselClasses = []string{"pleasure craft"}
			calmAbout(p, c.depart)
			f := finding(t, mustCheck(t, set(ruled(rectangle(20, 40, 80, 60), c.rules)), p), plan.CheckSpeed)
			if !strings.Contains(f.Detail, c.want) || c.not != "" && strings.Contains(f.Detail, c.not) {
				t.Errorf("%q; want %q", f.Detail, c.want)
			}
		})
	}
}

// calmAbout gives a plan a calm for two days about a time.
func calmAbout(p *plan.Plan, t time.Time) {
	p.Wind = nil
	for h := -24; h <= 24; h += 6 {
		p.Wind = append(p.Wind, plan.Wind{Time: t.Add(time.Duration(h) * time.Hour)})
	}
}
