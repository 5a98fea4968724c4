package hazards

import (
	"math/rand"
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// anyDay is a day with one or two stays, by chance with a cold engine, a turning
// stream, a bar that has water at some hours only, a wind that rises, and a time to
// be back by.
func anyDay(rnd *rand.Rand) *plan.Plan {
	p := day(at(10, 50), at(35, 50+rnd.Float64()*10))
	swinging(p)
	p.Tide.Constituents[0].PhaseDeg = float64(rnd.Intn(360))
	p.Boat.WarmUpMin, p.Boat.WarmUpKn = float64(rnd.Intn(3)*15), 6
	p.Boat.CruiseKn, p.Boat.Night = 9+float64(rnd.Intn(12)), rnd.Intn(3) == 0
	p.Boat.Fuel = &plan.Fuel{InTankL: ptr(5000.0), Burn: []plan.Burn{{Kn: 1, Lph: 3}, {Kn: 40, Lph: 50}}}
	depart := leaving.Add(time.Duration(rnd.Intn(10*60)) * time.Minute)
	p.Parts[0].Route.Depart = &depart
	stay := lunch(p)
	stay.Until = depart.Add(time.Duration(40+rnd.Intn(200)) * time.Minute)
	end := stay.Until.Add(time.Hour)
	home := []orb.Point{stay.At, at(70, 50)}
	if rnd.Intn(2) == 0 {
		second := &plan.Stay{Name: "tea", At: at(70, 50), Kind: plan.AtAnchor, Until: stay.Until.Add(time.Duration(90+rnd.Intn(150)) * time.Minute)}
		p.Parts = append(p.Parts, plan.Part{Route: &plan.Route{Points: home}}, plan.Part{Stay: second})
		end, home = second.Until.Add(time.Hour), []orb.Point{second.At, at(15, 45)}
	}
	p.Parts = append(p.Parts, plan.Part{Route: &plan.Route{Name: "home", Points: home}})
	if rnd.Intn(2) == 0 {
		by := end.Add(time.Duration(rnd.Intn(180)) * time.Minute)
		p.BackBy = &by
	}
	if rnd.Intn(2) == 0 {
		for h := -12; h <= 48; h++ {
			p.Stream = append(p.Stream, plan.Stream{Time: leaving.Add(time.Duration(h) * time.Hour), TowardDeg: float64(90 + 180*((h+12)/3%2)), Kn: rnd.Float64() * 4})
		}
	}
	p.Wind = calmFor(leaving.Add(-24*time.Hour), leaving.Add(72*time.Hour))
	for i := range p.Wind {
		p.Wind[i].FromDeg, p.Wind[i].Kn = float64(rnd.Intn(360)), float64(rnd.Intn(9))
	}
	p.Margins.AnchoredSeaM = 0.6
	return p
}

// wrongAbout lists what stops her about a stay and the way on from it, and whether
// anything does elsewhere.
func wrongAbout(t *testing.T, s *Session, p *plan.Plan, stop int) (here []string, elsewhere int) {
	t.Helper()
	track := trackOf(t, s, p)
	everyFinding = true
	defer func() { everyFinding = false }()
	r := check(t, s, p)
	for _, f := range r.Findings {
		if f.Severity != plan.NotClear && f.Severity != plan.NoData {
			continue
		}
		lying := f.Geometry == orb.Geometry(track.Stops[stop].Stay.At) && f.Check != plan.CheckSchedule
		if lying || f.Leg > 0 && track.Legs[f.Leg-1].Route == track.Stops[stop].Route+1 {
			here = append(here, f.Title)
		} else {
			elsewhere++
		}
	}
	return here, elsewhere
}

// leave_by is obeyed on days of every kind: left then, laid anew, nothing stops
// her about the stay or on the way on, and nothing more than as planned does
// elsewhere; left a minute later, something does. Without a time, the report says
// why.
func TestLeaveByObeyed(t *testing.T) {
	session := NewSession(chart.New(set(bank(0.6, 9))))
	rnd := rand.New(rand.NewSource(13))
	tried, kinds := 0, map[string]int{}
	for n := range 260 {
		p := anyDay(rnd)
		for i, by := range check(t, session, p).LeaveBy {
			if by.Why == "" {
				t.Errorf("day %d: nothing is said of when to leave stay %d", n, i)
			}
			if by.Time == nil {
				continue
			}
			tried++
			planned := p.Stays()[i].Until
			_, before := wrongAbout(t, session, p, i)
			if by.Time.Before(planned) && !by.Time.Equal(trackOf(t, session, p).Stops[i].Leave) {
				t.Errorf("day %d: told to leave stay %d at %v, planned at %v", n, i, by.Time, planned)
			}
			here, elsewhere := wrongAbout(t, session, withUntil(p, i, *by.Time), i)
			if len(here) > 0 || elsewhere > before {
				t.Errorf("day %d: leaving stay %d at %v, as told: %q, %d elsewhere, %d as planned", n, i, by.Time, here, elsewhere, before)
			}
			here, elsewhere = wrongAbout(t, session, withUntil(p, i, by.Time.Add(time.Minute)), i)
			if len(here) == 0 && elsewhere <= before {
				t.Errorf("day %d: leaving stay %d a minute after %v nothing is wrong, though it says %q", n, i, by.Time, by.Why)
			}
			if len(here) > 0 {
				kinds[here[0]]++
				if told := strings.ToLower(by.Why); !containsAny(told, here) {
					t.Errorf("day %d: a minute later %q, and it says %q", n, here, by.Why)
				}
			}
		}
	}
	if tried < 100 || kinds["Back too late"] == 0 || kinds["Under way in the dark"] == 0 || kinds["Too little water"] == 0 || kinds["Arriving too late"] == 0 {
		t.Errorf("%d times were tried: %v", tried, kinds)
	}
}

func containsAny(text string, any []string) bool {
	for _, s := range any {
		if strings.Contains(text, strings.ToLower(s)) {
			return true
		}
	}
	return false
}

// By hand: out and home are 35 units of 0.001° along 43.05°, 2 848 m: 4 min 37 s at
// 20 kn, 13 min 11 s at the 7 kn of a cold engine. She is there at 10:13:11, and
// after 12:13:11 the engine is cold again. To be back by 12:30 she leaves, cold, by
// 12:16 (not, as if warm, by 12:25); by 12:20, warm, at 12:13 at the latest, since
// a minute later she is cold and back at 12:27.
func TestLeaveByKnowsTheColdEngine(t *testing.T) {
	p := day(at(70, 50), at(35, 50))
	p.Boat.WarmUpMin, p.Boat.WarmUpKn = 15, 7
	lunch(p).Until = leaving.Add(time.Hour)
	p.Parts = append(p.Parts, plan.Part{Route: &plan.Route{Points: []orb.Point{at(35, 50), at(70, 50)}}})
	for _, c := range []struct{ backBy, want time.Duration }{{150 * time.Minute, 136 * time.Minute}, {140 * time.Minute, 133 * time.Minute}} {
		by := leaving.Add(c.backBy)
		p.BackBy = &by
		got := mustCheck(t, set(), p).LeaveBy[0]
		if want := leaving.Add(c.want); got.Time == nil || !got.Time.Equal(want) {
			t.Errorf("to be back by %v: %v %s, want %v", by, got.Time, got.Why, want)
		}
	}
}
