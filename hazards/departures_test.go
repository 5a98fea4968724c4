package hazards

import (
	"reflect"
	"testing"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
	"keelroom/testdata/beside"
)

// The outlooks of departures are those of each by itself, over random days and the
// demo's, ten minutes and an hour and a minute apart, and in whatever order they are asked for.
func TestDeparturesAreOutlooks(t *testing.T) {
	demo := demoChart(t)
	days := append(wanderings(t, demo, 8), readPlan(t, "web", "demo", "plan.geojson"), readPlan(t, "testdata", "plans", "demo-late.geojson"))
	compareDepartures(t, demo, days)
	hull := loadFolder(t, beside.File(t, "charts", "hull"))
	roads := readPlan(t, "testdata", "plans", "roads-day.geojson")
	compareDepartures(t, hull, []*plan.Plan{roads, cutToForty(t, readPlan(t, "testdata", "plans", "roads-day.geojson"))})
}

func compareDepartures(t *testing.T, set *chart.Set, days []*plan.Plan) {
	t.Helper()
	c := chart.New(set)
	for i, p := range days {
		single, kept := NewSession(c), NewSession(c)
		for _, step := range []time.Duration{10 * time.Minute, 61 * time.Minute} {
			first := p.Parts[0].Route.Depart.Add(-70 * step)
			d := kept.Departures(p, first, step, 144)
			for k := range 144 {
				k = k * 77 % 144
				want, err := single.Outlook(shifted(p, first.Add(time.Duration(k)*step)))
				if err != nil {
					t.Fatal(err)
				}
				got, err := d.Outlook(k)
				if err != nil {
					t.Fatal(err)
				}
				if !reflect.DeepEqual(got, want) {
					t.Fatalf("day %d, departure %d: %v %+v, by itself %v %+v", i, k, got.Verdict, got.Worst, want.Verdict, want.Worst)
				}
			}
		}
	}
}
