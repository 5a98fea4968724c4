package hazards

import (
	"math"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/geo/chart/demobed"
	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
)

// The demo day as a newcomer sees it: something to watch, nothing in the way;
// the same day hours later runs out of water over the bar.
func TestDemoDays(t *testing.T) {
	session := NewSession(chart.New(demoChart(t)))
	good := check(t, session, readPlan(t, "web", "demo", "plan.geojson"))
	if good.Verdict != plan.Care {
		t.Errorf("the demo day is %s, want care", good.Verdict)
	}
	for _, c := range []string{plan.CheckSpeed, plan.CheckTideWindow} {
		finding(t, good, c)
	}
	if len(good.Stays) != 2 || good.LeaveBy[1].Time == nil {
		t.Errorf("%d stays, leave by %+v", len(good.Stays), good.LeaveBy)
	}
	late := check(t, session, readPlan(t, "testdata", "plans", "demo-late.geojson"))
	f := finding(t, late, plan.CheckClearance)
	if late.Verdict != plan.NotClear || worst(late, plan.CheckClearance) != plan.NotClear {
		t.Errorf("the late day is %s, clearance %s", late.Verdict, worst(late, plan.CheckClearance))
	}
	if len(f.Made) == 0 {
		t.Error("the clearance is not explained")
	}
}

// The promise of the tool, end to end: wherever the sea bed is by its formula,
// there is never less water under the keel than the report says, anywhere in
// the corridor, at the hour she passes. Things that stand on the bed (rocks,
// wrecks) are not in the formula; they can only make the report say less.
func TestNeverLessWaterThanSaid(t *testing.T) {
	s := demoChart(t)
	session := NewSession(chart.New(s))
	plans := append(wanderings(t, s, 40), readPlan(t, "web", "demo", "plan.geojson"), readPlan(t, "testdata", "plans", "demo-late.geojson"))
	places := 0
	for i, whole := range plans {
		// Without what is kept in hand: it must hold to the centimetre.
		bare := *whole
		bare.Margins.TideM, bare.Margins.WaveFraction, bare.Boat.HumpM = 0, 0, 0
		p := &bare
		r := check(t, session, p)
		track := trackOf(t, session, p)
		tide, err := NewTide(p.Tide)
		if err != nil {
			t.Fatal(err)
		}
		for k := range track.Legs {
			leg := &track.Legs[k]
			said := r.Legs[k].LeastClearanceM
			if said == nil {
				continue
			}
			for x := 0.0; x <= leg.Rhumb.LengthM; x += 20 {
				pos, at := track.At(leg, x)
				h, _ := tide.HeightM(at)
				for _, off := range []float64{0, -1, 1, 0.5, -0.5} {
					place := geo.RhumbDirect(pos, leg.Rhumb.CourseDeg+90, off*corridorAt(track, leg, x, p)*0.99)
					if !within(place) || demobed.DepthM(place) <= -demobed.LandHeightM {
						continue // outside the demo, or land: the land check has it
					}
					places++
					if under := demobed.DepthM(place) + h - p.Boat.DraughtM; under < *said-0.005 {
						t.Fatalf("day %d leg %d, %.0f m along, %+.1f of the corridor: %.2f m under the keel, the report says %.2f m", i, leg.Number, x, off, under, *said)
					}
				}
			}
		}
	}
	if places < 20000 {
		t.Errorf("only %d places looked at", places)
	}
}

func within(p orb.Point) bool { b := demobed.Bounds(); return b.Contains(p) }

// corridorAt is the half-width at a place by the contract: the slow one at or
// below 8 kn.
func corridorAt(track *passage.Track, leg *passage.Leg, x float64, p *plan.Plan) float64 {
	kn := 0.0
	for _, s := range track.StepsOf(leg) {
		if s.FromM <= x && x <= s.ToM {
			kn = math.Max(kn, s.KnAt(x))
		}
	}
	if kn > 8 {
		return p.Margins.CorridorM
	}
	return p.Margins.CorridorSlowM
}

// trackOf lays the plan out as the check does.
func trackOf(t *testing.T, s *Session, p *plan.Plan) *passage.Track {
	t.Helper()
	g, err := s.groundFor(p)
	if err != nil {
		t.Fatal(err)
	}
	c := newChecker(g, newMemory(), p)
	if err := (preparing{c}).prepare(); err != nil {
		t.Fatal(err)
	}
	return c.track
}
