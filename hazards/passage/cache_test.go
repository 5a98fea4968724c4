package passage

import (
	"reflect"
	"testing"

	"keelroom/hazards/plan"
)

// A track laid out with a memory of many others is the one laid out without: for
// each thing that a route's ground is made of, changed in place.
func TestMemoryChangesNothing(t *testing.T) {
	w := waters(band(2, 3, limit(6)), band(4, 4.5, limit(9)))
	kept := w
	kept.Cache = &Cache{}
	p := day(start, east(3), east(6))
	p.Parts[0].Route.SpeedsKn = []float64{18, 20}
	for i, change := range []func(){
		func() {},
		func() { p.Parts[0].Route.Points[1] = east(2.5) },
		func() { p.Parts[0].Route.SpeedsKn[0] = 12 },
		func() { p.Margins.BerthM = 300 },
		func() { p.Berths = []plan.Berth{{At: east(5)}} },
		func() { p.Berths[0].At = east(1) },
		func() { p.Boat.HarbourKn = 4 },
		func() {
			p.Parts = append(p.Parts, plan.Part{Stay: &plan.Stay{At: east(6), Until: depart.Add(5 * 3600e9)}})
		},
		func() { p.Parts[1].Stay.Kind = plan.AtBerth },
		func() { p.Parts[0].Route.Name = "INVENTED" },
		func() { p.Boat.CruiseKn = 11 },
		func() { *p.Parts[0].Route.Depart = depart.Add(3600e9) },
	} {
		change()
		for range 2 {
			if got, want := lay(t, p, kept), lay(t, p, w); !reflect.DeepEqual(got, want) {
				t.Errorf("after change %d: %+v\nwithout a memory %+v", i, got, want)
			}
		}
	}
}
