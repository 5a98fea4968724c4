package hazards

import (
	"math/rand"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// waterNeeded is the least water from which on the clearance is enough, found
// here by trying every millimetre with Squat itself.
func TestWaterNeeded(t *testing.T) {
	rnd := rand.New(rand.NewSource(4))
	for range 300 {
		b := plan.DefaultBoat()
		b.HumpM, b.BlockCoeff = rnd.Float64(), 0.2+rnd.Float64()*0.6
		kn, besides, confined := rnd.Float64()*16, 0.5+rnd.Float64()*2, rnd.Intn(2) == 0
		enough := func(water float64) bool { return water-Squat(&b, kn, water, confined) >= besides }
		least := 6.0
		for water := 6.0; water > 0 && enough(water); water -= 0.001 {
			least = water
		}
		got := waterNeeded(besides, deepWaterSquat(&b, kn, confined), b.HumpM, kn)
		if got < 6 {
			near(t, "water needed", got, least, 0.0011)
		}
		if !enough(got + 1e-9) {
			t.Errorf("%.3f m are said to do at %.1f kn, and do not", got, kn)
		}
	}
}

// Whatever time leave_by gives, leaving then is not stopped by the water, a
// bridge, the dark or the schedule. The wind is calm: the words say that the sea
// is not looked at again.
func TestLeaveByIsTrue(t *testing.T) {
	session := NewSession(chart.New(demoChart(t)))
	base := readPlan(t, "web", "demo", "plan.geojson")
	rnd := rand.New(rand.NewSource(5))
	tried := 0
	for range 150 {
		p := calm(base)
		depart := base.Parts[0].Route.Depart.Add(time.Duration(rnd.Intn(24*60)-9*60) * time.Minute)
		p = shifted(p, depart)
		p.Boat.Night = rnd.Intn(2) == 0
		for i, by := range check(t, session, p).LeaveBy {
			if by.Time == nil {
				continue
			}
			tried++
			q := withUntil(p, i, by.Time.Truncate(time.Second))
			r := check(t, session, q)
			for _, f := range r.Findings {
				if f.Severity == plan.NotClear && onRoute1(session, t, q, f.Leg) == i+1 {
					t.Errorf("leaving stay %d at %v, as told (%s): %s %s", i, by.Time, by.Why, f.Title, f.Detail)
				}
			}
		}
	}
	if tried < 60 {
		t.Errorf("only %d times tried", tried)
	}
}

// calm is the plan without wind or swell, for two days.
func calm(p *plan.Plan) *plan.Plan {
	q := *p
	at := *p.Parts[0].Route.Depart
	q.Wind = calmFor(at.Add(-48*time.Hour), at.Add(96*time.Hour))
	q.Swell, q.BackBy = nil, nil
	return &q
}

// withUntil is the plan with another end of one stay.
func withUntil(p *plan.Plan, stay int, until time.Time) *plan.Plan {
	q := *p
	q.Parts = append([]plan.Part(nil), p.Parts...)
	n := 0
	for i, part := range q.Parts {
		if part.Stay == nil {
			continue
		}
		if n == stay {
			s := *part.Stay
			s.Until = until
			q.Parts[i].Stay = &s
		}
		n++
	}
	return &q
}

// onRoute1 is the route, from 0, of a leg number.
func onRoute1(s *Session, t *testing.T, p *plan.Plan, leg int) int {
	if leg == 0 {
		return -1
	}
	return trackOf(t, s, p).Legs[leg-1].Route
}

// No time to leave by where the stay itself fails; dusk counts for every route.
func TestLeaveByOfAStayThatFails(t *testing.T) {
	p := day()
	swinging(p)
	lunch(p).Until = leaving.Add(10 * time.Hour)
	windUntil(p, 40*time.Hour)
	p.Boat.Night = true
	p.Parts = append(p.Parts, plan.Part{Route: &plan.Route{Name: "home", Points: []orb.Point{at(90, 50), at(70, 50)}}})
	r := mustCheck(t, set(depth(0.3, 5, rectangle(89.9, 0, 100, 100))), p)
	if by := r.LeaveBy[0]; by.Time != nil {
		t.Errorf("she takes the ground, and is told to leave by %v: %s", by.Time, by.Why)
	}
	p = day()
	a := lunch(p)
	a.Until = leaving.Add(4 * time.Hour)
	b := &plan.Stay{Name: "night", At: at(70, 50), Kind: plan.AtAnchor, Until: leaving.Add(22 * time.Hour)}
	windUntil(p, 40*time.Hour)
	p.Parts = append(p.Parts, plan.Part{Route: &plan.Route{Points: []orb.Point{at(90, 50), at(70, 50)}}}, plan.Part{Stay: b},
		plan.Part{Route: &plan.Route{Points: []orb.Point{at(70, 50), at(60, 50)}}})
	by := mustCheck(t, set(), p).LeaveBy[0]
	if dusk := time.Date(2026, 7, 18, 22, 40, 0, 0, time.UTC); by.Time == nil || by.Time.After(dusk) {
		t.Errorf("told to leave by %v, after civil dusk: %s", by.Time, by.Why)
	}
}

// Only what lies near a berth is passed by eye: not the middle of a long leg.
func TestLandAlongAWholeLeg(t *testing.T) {
	land := area(chart.LNDARE, rectangle(45, off(5), 95, 90))
	for _, berthM := range []float64{0, 150} {
		p := day(at(50, 50), at(90, 50))
		p.Margins.BerthM = berthM
		if r := mustCheck(t, set(land), p); worst(r, plan.CheckLand) != plan.NotClear {
			t.Errorf("berth_m %v: land 5 m off for 3 km is %s", berthM, worst(r, plan.CheckLand))
		}
	}
}

// No windows, and no least clearance, from levels that cannot be compared.
func TestNoFiguresFromDifferentLevels(t *testing.T) {
	s := set(bank(-0.5, 9))
	s.SoundingDatum = 3
	p := day()
	swinging(p)
	r := mustCheck(t, s, p)
	f := finding(t, r, plan.CheckClearance)
	if f.Windows != nil || r.LeastClearance != nil {
		t.Errorf("windows %v, least clearance %+v", f.Windows, r.LeastClearance)
	}
}

// An area of good survey beside the track says nothing of the water on it.
func TestSurveyBesideTheTrack(t *testing.T) {
	s := set(bank(1.4, 9))
	s.Features[2] = survey(1, rectangle(0, off(15), 100, 100))
	expect(t, mustCheck(t, s, day()), "care clearance", "care hazard")
}

// height_datum_m is above the tide's own datum; how far that lies above the
// sounding datum, known or not, does not enter (plan-file contract, section 3).
func TestHeightDatumWithAnswer(t *testing.T) {
	p := day()
	p.Tide.Datum = 12
	low := set(overheadLine(chart.BRIDGE, span(1.1, chart.Unknown, chart.Unknown, 10), 50))
	for _, answer := range []*float64{ptr(1.5), ptr(-1.5), nil} {
		p.Choices.TideAboveChartM = answer
		// 1.1 + 4.0 − 2.0 − 0.3 − 3.0 = −0.2 m.
		near(t, "room", *finding(t, mustCheck(t, low, p), plan.CheckBridge).Measured, -0.2, 1e-9)
	}
}

// What is said of a stay is said of its low water.
func TestStayTellsTheHourOfLowWater(t *testing.T) {
	p := day()
	swinging(p)
	lunch(p).Until = leaving.Add(10 * time.Hour)
	windUntil(p, 40*time.Hour)
	tide, err := NewTide(p.Tide)
	if err != nil {
		t.Fatal(err)
	}
	r := mustCheck(t, set(depth(0.3, 5, rectangle(89.9, 0, 100, 100))), p)
	for _, f := range r.Findings {
		if f.Check != plan.CheckClearance || f.Geometry.GeoJSONType() != "Point" {
			continue
		}
		at, _ := tide.HeightM(*f.Time)
		least, _ := tide.Least(*r.Stays[0].Arrive, *r.Stays[0].Until)
		near(t, "height at the hour told", at, least, 0.001)
		return
	}
	t.Error("no finding at the stay")
}
