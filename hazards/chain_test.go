package hazards

import (
	"math/rand"
	"strings"
	"testing"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// Stays on INVENTED waters (pool): charted 3 to 4 m, 2 m of tide, 0.3 m of margin, the
// roller 0.7 m over the water. By hand: 6 m from the ground to the roller where it is
// shoalest, 7 m where it is deepest; in a calm 18 and 21 m of rode are wanted, 3 for each.

// foundOf are the findings of a check, "severity code".
func foundOf(r *plan.Report, check string) string {
	var out []string
	for _, f := range r.Findings {
		if f.Check == check {
			out = append(out, f.Severity.String()+" "+f.Code)
		}
	}
	return strings.Join(out, "; ")
}

// atAnchor is a day with a stay in the pool, and 30 m of chain and so much rope aboard.
func atAnchor(ropeM float64) (*plan.Plan, *plan.Stay) {
	p := day()
	stay := lunch(p)
	rodeAboard(p, ropeM)
	return p, stay
}

func TestChain(t *testing.T) {
	const unknown = -1
	at2 := ptr(leaving.Add(2 * time.Hour))
	for _, c := range []struct {
		name   string
		drval2 float64
		change func(*plan.Plan, *plan.Stay)
		want   string
	}{
		{"too short where it is shoalest", 4, func(p *plan.Plan, s *plan.Stay) { s.RodeM = ptr(17.99) }, "not-clear rode-too-short"},
		{"just enough where it is shoalest", 4, func(p *plan.Plan, s *plan.Stay) { s.RodeM = ptr(18.0) }, "care rode-short-if-deep"},
		{"too short where it is deepest", 4, func(p *plan.Plan, s *plan.Stay) { s.RodeM = ptr(20.99) }, "care rode-short-if-deep"},
		{"just enough where it is deepest", 4, func(p *plan.Plan, s *plan.Stay) { s.RodeM = ptr(21.0) }, ""},
		{"to lay", 4, func(p *plan.Plan, s *plan.Stay) {}, ""},
		{"less is aboard than is to lay", 4, func(p *plan.Plan, s *plan.Stay) { p.Boat.Rode.ChainM = ptr(20.0) }, "care rode-short-if-deep"},
		{"how deep is not charted", unknown, func(p *plan.Plan, s *plan.Stay) { s.RodeM = ptr(30.0) }, "no-data greatest-depth-not-known"},
		{"nor is it, and too short", unknown, func(p *plan.Plan, s *plan.Stay) { s.RodeM = ptr(17.9) }, "not-clear rode-too-short"},
		// 5.5 − 2 + 0.3 = 3.8 m below the datum at the most: 6.8 m to the roller, 20.4 m.
		{"sounded, enough", 4, func(p *plan.Plan, s *plan.Stay) { s.RodeM, s.SoundedM, s.SoundedAt = ptr(20.4), ptr(5.5), at2 }, ""},
		{"sounded, too short", 4, func(p *plan.Plan, s *plan.Stay) { s.RodeM, s.SoundedM, s.SoundedAt = ptr(20.39), ptr(5.5), at2 }, "not-clear rode-too-short"},
		{"sounded where how deep is not charted", unknown, func(p *plan.Plan, s *plan.Stay) { s.RodeM, s.SoundedM, s.SoundedAt = ptr(20.4), ptr(5.5), at2 }, ""},
		// 6.9 m were read: 5.2 m below the datum at the most, 8.2 m to the roller, 24.6 m.
		{"sounded deeper than charted", 4, func(p *plan.Plan, s *plan.Stay) { s.RodeM, s.SoundedM, s.SoundedAt = ptr(24.5), ptr(6.9), at2 }, "not-clear rode-too-short"},
		{"sounded when the tide is not known", 4, func(p *plan.Plan, s *plan.Stay) {
			s.SoundedM, s.SoundedAt = ptr(5.5), ptr(leaving.Add(-200*time.Hour))
			p.Tide = &plan.TideSource{Datum: lat, Events: []plan.TideEvent{{Time: leaving.Add(-9 * time.Hour), HeightM: 2.1}, {Time: leaving.Add(-3 * time.Hour), HeightM: 1.9},
				{Time: leaving.Add(3 * time.Hour), HeightM: 2.1}, {Time: leaving.Add(9 * time.Hour), HeightM: 1.9}}}
		}, "no-data greatest-depth-not-known"},
		{"no tide", 4, func(p *plan.Plan, s *plan.Stay) { p.Tide = nil }, "no-data greatest-depth-not-known"},
		{"more than is aboard", 4, func(p *plan.Plan, s *plan.Stay) { s.RodeM = ptr(30.01) }, "not-clear rode-not-aboard"},
		{"all that is aboard", 4, func(p *plan.Plan, s *plan.Stay) { s.RodeM = ptr(30.0) }, ""},
		{"does not reach the ground at its deepest", 4, func(p *plan.Plan, s *plan.Stay) { s.RodeM, p.Margins.Scope = ptr(7.0), ptr(1.0) }, "not-clear rode-does-not-reach; care pull-lifts-anchor"},
		{"reaches it", 4, func(p *plan.Plan, s *plan.Stay) { s.RodeM, p.Margins.Scope = ptr(7.01), ptr(1.0) }, ""},
		{"gusts over 12 kn: 5 for each of 6 m", 4, func(p *plan.Plan, s *plan.Stay) { blow(p, 0, 10); s.RodeM = ptr(29.9) }, "not-clear rode-too-short"},
		{"rope is laid: 7 for each of 6 m", 4, func(p *plan.Plan, s *plan.Stay) { blow(p, 0, 10); p.Boat.Rode.RopeM = 50; s.RodeM = ptr(48.9) }, "care rode-short-if-deep"},
		{"rope is laid: 7 for each of 7 m", 4, func(p *plan.Plan, s *plan.Stay) { blow(p, 0, 10); p.Boat.Rode.RopeM = 50; s.RodeM = ptr(49.0) }, ""},
		// 42 kn on 2.5 × 1.84 m²: 3946 N; 45.4 m keep the pull below 5 degrees (catenary by hand).
		{"the pull comes up", 4, func(p *plan.Plan, s *plan.Stay) { blow(p, 0, 30); p.Boat.Rode.ChainM, s.RodeM = ptr(60.0), ptr(45.2) }, "care pull-lifts-anchor"},
		{"the pull stays low", 4, func(p *plan.Plan, s *plan.Stay) { blow(p, 0, 30); p.Boat.Rode.ChainM, s.RodeM = ptr(60.0), ptr(45.6) }, ""},
		{"no length and beam", 4, func(p *plan.Plan, s *plan.Stay) { p.Boat.LengthM = nil }, "no-data load-not-known"},
		{"their area is given", 4, func(p *plan.Plan, s *plan.Stay) { p.Boat.LengthM, p.Boat.WindageM2 = nil, ptr(4.0) }, ""},
		{"no beam in a stream", 4, func(p *plan.Plan, s *plan.Stay) {
			p.Boat.BeamM, p.Boat.WindageM2 = nil, ptr(4.0)
			p.Stream = []plan.Stream{{Time: leaving.Add(-time.Hour), Kn: 1}, {Time: leaving.Add(9 * time.Hour), Kn: 1}}
		}, "no-data load-not-known"},
		{"the stream ends", 4, func(p *plan.Plan, s *plan.Stay) { p.Stream = []plan.Stream{{Time: leaving.Add(-3 * time.Hour), Kn: 1}} }, "no-data load-not-known"},
		{"no rode in the boat", 4, func(p *plan.Plan, s *plan.Stay) { p.Boat.Rode = nil }, ""},
		{"mooring", 4, func(p *plan.Plan, s *plan.Stay) { s.Kind = plan.AtMooring }, ""},
		{"berth", 4, func(p *plan.Plan, s *plan.Stay) { s.Kind = plan.AtBerth }, ""},
	} {
		p, stay := atAnchor(0)
		c.change(p, stay)
		drval2 := c.drval2
		if drval2 == unknown {
			drval2 = chart.Unknown
		}
		if got := foundOf(mustCheck(t, pool(3, drval2), p), plan.CheckChain); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// What became of the checks, and what the report says where something is not given.
func TestStateOfAnchorChecks(t *testing.T) {
	for _, c := range []struct {
		name           string
		change         func(*plan.Plan, *plan.Stay)
		chain, holding string
		cautions       []string
	}{
		{"all given", func(p *plan.Plan, s *plan.Stay) {}, plan.Done, plan.Done, nil},
		{"no rode", func(p *plan.Plan, s *plan.Stay) { p.Boat.Rode = nil }, plan.NoInput, plan.Done, []string{plan.CautionNoRode}},
		{"no holding", func(p *plan.Plan, s *plan.Stay) { p.Boat.HoldingN = nil }, plan.Done, plan.NoInput, []string{plan.CautionNoHolding}},
		{"mooring", func(p *plan.Plan, s *plan.Stay) { s.Kind, p.Boat.Rode, p.Boat.HoldingN = plan.AtMooring, nil, nil }, plan.NotApplicable, plan.NotApplicable, nil},
		{"berth", func(p *plan.Plan, s *plan.Stay) { s.Kind = plan.AtBerth }, plan.NotApplicable, plan.NotApplicable, nil},
		{"no tide", func(p *plan.Plan, s *plan.Stay) { p.Tide = nil }, plan.NoInput, plan.Done, nil},
	} {
		p, stay := atAnchor(0)
		c.change(p, stay)
		r := mustCheck(t, pool(3, 4), p)
		if r.Checks[plan.CheckChain] != c.chain || r.Checks[plan.CheckHolding] != c.holding {
			t.Errorf("%s: chain %s, holding %s", c.name, r.Checks[plan.CheckChain], r.Checks[plan.CheckHolding])
		}
		for _, caution := range []string{plan.CautionNoRode, plan.CautionNoHolding} {
			if contains(r.Cautions, caution) != contains(c.cautions, caution) || contains(p.NotGiven(), caution) != contains(c.cautions, caution) {
				t.Errorf("%s: %q", c.name, r.Cautions)
			}
		}
	}
	r := mustCheck(t, pool(3, 4), day())
	if r.Checks[plan.CheckChain] != plan.NotApplicable || r.Checks[plan.CheckHolding] != plan.NotApplicable {
		t.Error("without a stay they apply")
	}
	for _, name := range NotBuilt() {
		if name == plan.CheckChain || name == plan.CheckHolding {
			t.Errorf("%s is made", name)
		}
	}
}

// Waves at the stay of 0.3 m or more, or ones that are not known, are spoken of.
func TestWaveSurge(t *testing.T) {
	for kn, want := range map[float64]bool{0: false, 35: true} {
		p := day(at(60, 50), at(30, 50))
		lunch(p)
		blow(p, 270, kn)
		r := mustCheck(t, coast(), p)
		if got := strings.Contains(strings.Join(r.Cautions, "\n"), "jerk at the anchor"); got != want || (*r.Stays[0].SeaGreatestM >= 0.3) != want {
			t.Errorf("%v kn, %.2f m: %v", kn, *r.Stays[0].SeaGreatestM, got)
		}
	}
}

// Every term is in the words, and they add up: 4 + 2 + 0.3 + 0.7 = 7.
func TestWordsOfTheRode(t *testing.T) {
	p, stay := atAnchor(0)
	stay.RodeM = ptr(20.0)
	f := finding(t, mustCheck(t, pool(3, 4), p), plan.CheckChain)
	for _, want := range []string{"20.00 m of rode", "21.00 m are wanted, 3.0 for each of 7.00 m", "Charted at the deepest 4.00 + tide 2.00", "+ margin 0.30 + bow roller 0.70 = 7.00 m",
		"reads no more than 5.36 m on arrival"} { // 20 / 3 = 6.66 − 0.7 − 2.3 + 1.7 m
		if !strings.Contains(f.Detail, want) {
			t.Errorf("%q is not in %q", want, f.Detail)
		}
	}
	near(t, "laid", *f.Measured, 20, 0)
	near(t, "wanted", *f.Required, 21, 1e-9)
}

// A random stay: more wind or a deeper draught never improves the verdict, nor does a
// higher tide the rode's with what is laid given; more rode laid never makes the rode's
// worse, unless it is more than is aboard.
func TestAnchorVerdictsOnlyWorsen(t *testing.T) {
	rnd := rand.New(rand.NewSource(4))
	judge := func(p *plan.Plan, s *chart.Set, check string) plan.Severity {
		r := mustCheck(t, s, p)
		if check == "" {
			return r.Verdict
		}
		return worst(r, check)
	}
	for range 150 {
		p, stay := atAnchor(float64(rnd.Intn(2)) * 40)
		drval1 := 0.5 + 4*rnd.Float64()
		s := pool(drval1, drval1+2*rnd.Float64(), bedOf([]int{1, 4, 6, 9}[rnd.Intn(4)], 40))
		blow(p, 0, 40*rnd.Float64())
		stay.RodeM, p.Boat.HoldingN = ptr(5+40*rnd.Float64()), ptr(500+4000*rnd.Float64())
		verdict, chain, holding := judge(p, s, ""), judge(p, s, plan.CheckChain), judge(p, s, plan.CheckHolding)
		for name, change := range map[string]func(*plan.Plan, *plan.Stay){
			"wind":    func(q *plan.Plan, _ *plan.Stay) { blow(q, 0, q.Wind[0].Kn*(1+rnd.Float64())) },
			"draught": func(q *plan.Plan, _ *plan.Stay) { q.Boat.DraughtM += 2 * rnd.Float64() },
		} {
			q := p.Clone()
			change(q, q.Stays()[0])
			if a, b, c := judge(q, s, ""), judge(q, s, plan.CheckChain), judge(q, s, plan.CheckHolding); a < verdict || b < chain || c < holding {
				t.Errorf("more %s: %s, rode %s, holding %s after %s, %s, %s", name, a, b, c, verdict, chain, holding)
			}
		}
		q := p.Clone()
		*q.Tide.LevelM += 3 * rnd.Float64()
		if got := judge(q, s, plan.CheckChain); got < chain {
			t.Errorf("a higher tide: %s after %s", got, chain)
		}
		q = p.Clone()
		*q.Stays()[0].RodeM = min(*stay.RodeM*1.3, 30+p.Boat.Rode.RopeM)
		if got := judge(q, s, plan.CheckChain); *stay.RodeM <= 30+p.Boat.Rode.RopeM && got > chain {
			t.Errorf("more rode: %s after %s", got, chain)
		}
	}
}

// bedOf is a sea bed of a nature about the end of the day's route, so many metres across.
func bedOf(natsur int, metres float64) chart.Feature {
	f := area(chart.SBDARE, rectangle(90-metres/162, off(-metres/2), 90+metres/162, off(metres/2)))
	f.NatSur = chart.CodesOf(natsur)
	return f
}
