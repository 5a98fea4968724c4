package hazards

import (
	"math/rand"
	"reflect"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/geo/chart/demobed"
	"keelroom/hazards/plan"
)

// anchorages are the demo's day with its first stay at anchor at random places of its
// waters, the day's wind from a random direction.
func anchorages(t *testing.T, n int, try func(i int, s *Session, p *plan.Plan, stay *plan.Stay)) {
	t.Helper()
	session := NewSession(chart.New(demoChart(t)))
	rnd := rand.New(rand.NewSource(20261202))
	base := readPlan(t, "web", "demo", "plan.geojson")
	box := demobed.Bounds()
	for i := 0; i < n; {
		at := orb.Point{box.Min[0] + rnd.Float64()*(box.Max[0]-box.Min[0]), box.Min[1] + rnd.Float64()*(box.Max[1]-box.Min[1])}
		if d := demobed.DepthM(at); d < 1 || d > 12 {
			continue
		}
		p := base.Clone()
		p.Parts = p.Parts[:2]
		p.Parts[0].Route.Points = []orb.Point{geo.Direct(at, 90, 300), at}
		p.Parts[0].Route.SpeedsKn = nil
		stay := p.Parts[1].Stay
		stay.At, stay.Until = at, p.Parts[0].Route.Depart.Add(time.Duration(1+rnd.Intn(9))*time.Hour)
		stay.RodeM, stay.SoundedM, stay.SoundedAt = ptr(20+rnd.Float64()*30), nil, nil
		turn := rnd.Float64() * 360
		for k := range p.Wind {
			p.Wind[k].FromDeg, p.Wind[k].Kn = geo.Bearing(p.Wind[k].FromDeg+turn), max(4, p.Wind[k].Kn)
		}
		try(i, session, p, stay)
		i++
	}
}

// lying is the worst that one check finds at the stay.
func worstLying(t *testing.T, s *Session, p *plan.Plan, check string) plan.Severity {
	t.Helper()
	r, err := s.Check(p)
	if err != nil {
		t.Fatal(err)
	}
	return worst(r, check)
}

// A lower tide never makes the circle better, nor does a deeper draught, a rougher
// sea, more rode, or more room for the wind.
func TestLessWaterNeverImprovesTheCircle(t *testing.T) {
	changed := 0
	anchorages(t, 120, func(i int, s *Session, p *plan.Plan, stay *plan.Stay) {
		for _, c := range []struct {
			name   string
			change func(p *plan.Plan, stay *plan.Stay, step float64)
		}{
			{"a lower tide", func(p *plan.Plan, _ *plan.Stay, x float64) { p.Tide.AdjustM -= x / 2 }},
			{"a deeper draught", func(p *plan.Plan, _ *plan.Stay, x float64) { p.Boat.DraughtM += x / 2 }},
			{"more room for the wind", func(p *plan.Plan, _ *plan.Stay, x float64) { p.Margins.WindRoomDeg += 25 * x }},
			{"a longer boat", func(p *plan.Plan, _ *plan.Stay, x float64) { *p.Boat.LengthM += 10 * x }},
			{"more rode", func(p *plan.Plan, stay *plan.Stay, x float64) { *stay.RodeM += 10 * x }},
		} {
			before, radius := plan.Clear, 0.0
			for x := 0.0; x <= 4; x++ {
				q := p.Clone()
				lies := q.Stays()[0]
				if c.name == "more rode" { // long enough to reach to begin with
					*lies.RodeM += 20
				}
				c.change(q, lies, x)
				r, err := s.Check(q)
				if err != nil {
					t.Fatal(err)
				}
				now := worst(r, plan.CheckSwing)
				if now < before {
					t.Errorf("place %d, %s, step %v: %s, was %s", i, c.name, x, now, before)
				}
				if r.Stays[0].RadiusM != nil {
					if c.name == "more rode" && *r.Stays[0].RadiusM < radius {
						t.Errorf("place %d: %.2f m with more rode, was %.2f m", i, *r.Stays[0].RadiusM, radius)
					}
					radius = *r.Stays[0].RadiusM
				}
				if now != before {
					changed++
				}
				before = now
			}
		}
	})
	if changed < 60 {
		t.Errorf("only %d changes", changed)
	}
}

// The findings are the same however many corners the polygon of the circle has.
func TestTheCirclesPolygonDecidesNothing(t *testing.T) {
	defer func(n int) { circlePoints = n }(circlePoints)
	anchorages(t, 60, func(i int, s *Session, p *plan.Plan, _ *plan.Stay) {
		var first *plan.Report
		for _, n := range []int{3, 72, 1000} {
			circlePoints = n
			r, err := s.Check(p)
			if err != nil {
				t.Fatal(err)
			}
			if r.Circles[0].Area[0][0] != r.Circles[0].Area[0][n] {
				t.Fatalf("the polygon has %d corners, want %d", len(r.Circles[0].Area[0])-1, n)
			}
			if first != nil && (!reflect.DeepEqual(first.Findings, r.Findings) || !reflect.DeepEqual(first.Stays, r.Stays)) {
				t.Errorf("place %d: other findings with %d corners", i, n)
			}
			first = r
		}
	})
}

// Wherever the report calls the circle clear there is enough water by the bed's own
// formula at the lowest water of the stay, wherever she may lie. Things that stand on
// the bed are not in the formula.
func TestClearCircleHasWaterByTheBed(t *testing.T) {
	rnd := rand.New(rand.NewSource(20261203))
	clear := 0
	anchorages(t, 400, func(i int, s *Session, p *plan.Plan, stay *plan.Stay) {
		p.Margins.TideM, p.Margins.WaveFraction = 0, 0
		r, err := s.Check(p)
		if err != nil {
			t.Fatal(err)
		}
		if worst(r, plan.CheckSwing) >= plan.NoData || r.Stays[0].RadiusM == nil {
			return
		}
		clear++
		tide, err := NewTide(p.Tide)
		if err != nil {
			t.Fatal(err)
		}
		least, ok := tide.Least(*r.Stays[0].Arrive, *r.Stays[0].Until)
		if !ok {
			t.Fatal("no tide")
		}
		for range 100 {
			arc := r.Circles[0].SectorDeg[rnd.Intn(len(r.Circles[0].SectorDeg))]
			deg, m := arc[0]+rnd.Float64()*(arc[1]-arc[0]), rnd.Float64()**r.Stays[0].RadiusM
			if under := demobed.DepthM(geo.Direct(stay.At, deg, m)) + least - p.Boat.DraughtM; under < p.Margins.AnchoredUnderKeelM-0.005 {
				t.Fatalf("place %d: %.2f m under the keel %.1f m off on %.0f°, %.2f m wanted, and the report says the circle is clear", i, under, m, deg, p.Margins.AnchoredUnderKeelM)
			}
		}
	})
	if clear < 100 {
		t.Errorf("only %d circles", clear)
	}
}
