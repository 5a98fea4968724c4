package hazards

import (
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
)

// What the charts say: the demo's harbour entrance, land, and outside.
func TestPlace(t *testing.T) {
	s := NewSession(chart.New(demoChart(t)))
	p := readPlan(t, "web", "demo", "plan.geojson")
	depart := *p.Parts[0].Route.Depart
	in, err := s.Place(p, p.Parts[0].Route.Points[6], depart)
	if err != nil || in.DepthMinM == nil || in.TideM == nil || in.WaterM == nil {
		t.Fatalf("%+v %v", in, err)
	}
	if *in.WaterM > *in.DepthMinM+*in.TideM {
		t.Errorf("%.2f m of water over a charted %.2f m with %.2f m of tide", *in.WaterM, *in.DepthMinM, *in.TideM)
	}
	none, err := s.Place(nil, orb.Point{0, 0}, depart)
	if err != nil || none.DepthMinM != nil || none.WaterM != nil || !strings.Contains(strings.Join(none.Lines, " "), "No chart reaches here") {
		t.Errorf("outside: %+v %v", none, err)
	}
	land := 0
	for _, f := range s.base.Features() {
		if f.Class == chart.LNDARE && f.Prim == chart.Area {
			at, _ := s.Place(p, f.Coords[0].Position(), depart)
			if strings.Contains(strings.ToLower(strings.Join(at.Lines, " ")), "land") {
				land++
			}
		}
	}
	if land == 0 {
		t.Error("no land where land is charted")
	}
	for _, f := range s.base.Features() {
		if f.UnknownWater() && f.Prim == chart.Area && f.Class == chart.UNSARE {
			at, _ := s.Place(p, middle(f), depart)
			if at.WaterM != nil || !strings.Contains(strings.Join(at.Lines, " "), "not known") {
				t.Errorf("unsurveyed water is given as %.1f m: %v", *at.WaterM, at.Lines)
			}
		}
	}
	t.Log(strings.Join(in.Lines, "\n"))
}

// middle is the middle of a feature's box.
func middle(f *chart.Feature) orb.Point {
	b := orb.Bound{Min: f.Coords[0].Position(), Max: f.Coords[0].Position()}
	for _, c := range f.Coords {
		b = b.Extend(c.Position())
	}
	return b.Center()
}
