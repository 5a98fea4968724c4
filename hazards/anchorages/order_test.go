package anchorages

import (
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/geo/chart/demobed"
	"keelroom/hazards"
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
	"keelroom/testdata/waters"
)

// Better ground is never ranked after worse, all else alike; what is not charted lies
// between fair and poor.
func TestGroundIsRanked(t *testing.T) {
	m := plan.DefaultMargins()
	last := -1.0
	for _, holds := range []facts.Holds{facts.HoldsWell, facts.HoldsFairly, facts.HoldsNotCharted, facts.HoldsPoorly} {
		p := Place{Stay: plan.StayResult{Ground: &facts.Ground{Holds: holds}}}
		if got := PointsOf(&p, &m).Sum(); got <= last {
			t.Errorf("ground %d has %.1f points, the better one %.1f", holds, got, last)
		} else {
			last = got
		}
	}
	p := Place{}
	if a, b := PointsOf(&p, &m), PointsOf(&Place{Stay: plan.StayResult{Ground: &facts.Ground{Holds: facts.HoldsNotCharted}}}, &m); a != b {
		t.Errorf("without a ground %+v, with one not charted %+v", a, b)
	}
}

// Every place that a search of the demo finds says what ground it has, before all its
// figures are worked out too.
func TestFoundPlacesHaveTheirGround(t *testing.T) {
	s := search(t, hazards.NewSession(chart.New(waters.Demo(t))), lunch(t, invented, demobed.Bounds(), 0, 1))
	charted := 0
	for i := range s.found {
		g := s.found[i].Stay.Ground
		if g == nil {
			t.Fatalf("%v has no ground", s.found[i].At)
		}
		if g.Holds != facts.HoldsNotCharted {
			charted++
		}
	}
	if charted == 0 {
		t.Errorf("none of %d places has a charted ground", len(s.found))
	}
}

// An area of thirty miles each way is looked at, however it was made degrees.
func TestLargestArea(t *testing.T) {
	for _, lat := range []float64{0, 43, 65} {
		q := lunch(t, invented, Around(orb.Point{-30, lat}, MostAreaNM/2), 0, 1)
		if _, err := New(q); err != nil {
			t.Errorf("at %.0f°: %v", lat, err)
		}
	}
}
