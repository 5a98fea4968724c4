package hazards

import (
	"testing"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// stayOn is the first stay of a plan, laid out and not checked.
func stayOn(t *testing.T, p *plan.Plan, s *chart.Set) *stayCheck {
	t.Helper()
	c, err := NewSession(chart.New(s)).begin(p, false)
	if err != nil {
		t.Fatal(err)
	}
	return c.newStay(0)
}

// pool is the chart with another depth about the end of the day's route, and with more
// features on it.
func pool(drval1, drval2 float64, more ...chart.Feature) *chart.Set {
	s := set(more...)
	s.Features[1] = depth(drval1, drval2, rectangle(89, 49, 91, 51))
	s.Features = append(s.Features, depth(10, 20, rectangle(0, 0, 89, 100)), depth(10, 20, rectangle(91, 0, 100, 100)),
		depth(10, 20, rectangle(89, 0, 91, 49)), depth(10, 20, rectangle(89, 51, 91, 100)))
	for i := range s.Features {
		s.Features[i].Index = i
	}
	return s
}

// rodeAboard gives the day's boat 30 m of 8 mm chain and so much rope, 8 m of length,
// and a bow roller 0.7 m over the water.
func rodeAboard(p *plan.Plan, ropeM float64) {
	p.Boat.LengthM = ptr(8.0)
	p.Boat.Rode = &plan.Rode{ChainM: ptr(30.0), ChainKgPerM: ptr(1.4), RopeM: ropeM, BowRollerM: 0.7}
}

// The chart has 3 to 4 m here and the tide stands at 2 m all day, 0.3 m of margin. By
// hand: the roller is 3 + 2 − 0.3 + 0.7 = 5.4 m over the ground at the least, and
// 4 + 2 + 0.3 + 0.7 = 7 m at the most; a roller of 1 m, the default, 0.3 m more.
func TestRodeOfAStay(t *testing.T) {
	for _, c := range []struct {
		name      string
		change    func(*plan.Plan, *plan.Stay)
		length    float64 // 0: not known
		low, high float64
	}{
		{"as laid", func(p *plan.Plan, s *plan.Stay) { s.RodeM = ptr(25.0) }, 25, 5.4, 7},
		{"as laid, of rope too", func(p *plan.Plan, s *plan.Stay) { s.RodeM = ptr(40.0); rodeAboard(p, 20) }, 30 + 11, 5.4, 7},
		{"more than is aboard stretches", func(p *plan.Plan, s *plan.Stay) { s.RodeM = ptr(40.0) }, 30 + 11, 5.4, 7},
		{"as laid, of what is not known", func(p *plan.Plan, s *plan.Stay) { s.RodeM, p.Boat.Rode = ptr(40.0), nil }, 44, 5.7, 7.3},
		{"to lay: 3 × 7 in a calm", func(p *plan.Plan, s *plan.Stay) {}, 21, 5.4, 7},
		{"to lay: 5 × 7 is more than aboard", func(p *plan.Plan, s *plan.Stay) { blow(p, 0, 10) }, 30, 5.4, 7},
		{"to lay: 7 × 7 as rope is laid, 30 m of it chain", func(p *plan.Plan, s *plan.Stay) { blow(p, 0, 10); rodeAboard(p, 50) }, 30 + 1.1*19, 5.4, 7},
		{"no rode aboard: 7 × 7.3 of rope", func(p *plan.Plan, s *plan.Stay) { p.Boat.Rode = nil }, 1.1 * 7 * 7.3, 5.7, 7.3},
		{"a scope of its own", func(p *plan.Plan, s *plan.Stay) { p.Margins.Scope = ptr(4.0) }, 28, 5.4, 7},
		{"sounded 4.5 m in 2 m of tide, 0.3 m of margin", func(p *plan.Plan, s *plan.Stay) {
			s.SoundedM, s.SoundedAt = ptr(5.5), ptr(leaving.Add(2*time.Hour)) // 3.8 m at the most, 3.2 m at the least
		}, 21, 5.4, 6.8},
		{"sounded shoaler than charted", func(p *plan.Plan, s *plan.Stay) {
			s.SoundedM, s.SoundedAt = ptr(4.0), ptr(leaving.Add(2*time.Hour)) // 2.3 m at the most, 1.7 m at the least
		}, 18, 4.1, 6},
		{"no tide: all aboard", func(p *plan.Plan, s *plan.Stay) { p.Tide = nil }, 30, 0, 0},
		{"no tide and no rode", func(p *plan.Plan, s *plan.Stay) { p.Tide, p.Boat.Rode = nil, nil }, 0, 0, 0},
		{"mooring", func(p *plan.Plan, s *plan.Stay) { s.Kind = plan.AtMooring }, 5, 0, 0},
		{"mooring of 9 m", func(p *plan.Plan, s *plan.Stay) { s.Kind, s.RodeM = plan.AtMooring, ptr(9.0) }, 9, 0, 0},
		{"berth", func(p *plan.Plan, s *plan.Stay) { s.Kind = plan.AtBerth }, 0, 0, 0},
	} {
		p := day()
		stay := lunch(p)
		rodeAboard(p, 0)
		c.change(p, stay)
		got := stayOn(t, p, pool(3, 4)).rodeOf()
		if got.known != (c.length > 0) || got.highKnown != (c.high > 0) {
			t.Errorf("%s: %+v", c.name, got)
			continue
		}
		near(t, c.name+": length", got.lengthM, c.length, 1e-9)
		near(t, c.name+": least height", got.lowM, c.low, 1e-9)
		near(t, c.name+": greatest height", got.highM, c.high, 1e-9)
	}
}
