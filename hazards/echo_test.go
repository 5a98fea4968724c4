package hazards

import (
	"math"
	"math/rand"
	"strings"
	"testing"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// What the sounder must read on arrival, by hand, at a level of 2 m with 0.3 m of margin:
// 1 m to keep + 1 m of draught − 2 + 0.3 + 2 + 0.3 = 2.6 m for the keel; 21 m of rode, 3
// for each metre, are enough for 7 m: 7 − 0.7 − 2 − 0.3 + 2 − 0.3 = 5.7 m.
func TestWhatTheSounderMustRead(t *testing.T) {
	p, stay := atAnchor(0)
	stay.RodeM = ptr(21.0)
	r := mustCheck(t, pool(0.2, 9), p)
	near(t, "from", *r.Stays[0].SoundFromM, 2.6, 1e-9)
	near(t, "to", *r.Stays[0].SoundToM, 5.7, 1e-9)
	for figure, want := range map[string]float64{"sound_from_m": 2.6, "sound_to_m": 5.7} {
		sum := 0.0
		for _, m := range explained(t, r, figure) {
			sum += m.Value
			if m.Name == "" || m.Why == "" || m.Unit != "m" {
				t.Errorf("%s: %+v", figure, m)
			}
		}
		near(t, figure, sum, want, 1e-9)
	}
	stay.RodeM = nil // all that is aboard: 30 m are enough for 10 m
	near(t, "to, all aboard", *mustCheck(t, pool(0.2, 9), p).Stays[0].SoundToM, 8.7, 1e-9)
	p.Tide = nil
	if s := mustCheck(t, pool(0.2, 9), p).Stays[0]; s.SoundFromM != nil || s.SoundToM != nil || s.ToLayM != nil || s.LiftKn != nil || s.ScopeHigh != nil || s.ScopeLow != nil {
		t.Errorf("without a tide: %+v", s)
	}
}

// A reading is enough, typed in as it was read on arrival, exactly between the two figures,
// whatever the tide does.
func TestReadingsBetweenAreEnough(t *testing.T) {
	rnd := rand.New(rand.NewSource(6))
	for range 60 {
		p, stay := atAnchor(float64(rnd.Intn(2)) * 30)
		stay.RodeM = ptr(20 + 10*rnd.Float64())
		stay.Until = leaving.Add(time.Duration(2+rnd.Intn(8)) * time.Hour)
		p.Tide = &plan.TideSource{Datum: lat}
		for i := range 8 {
			p.Tide.Events = append(p.Tide.Events, plan.TideEvent{Time: leaving.Add(time.Duration(i*373-900) * time.Minute), HeightM: 1.5 + float64(i%2)*(0.5+2*rnd.Float64()), Kind: []string{plan.LowWater, plan.HighWater}[i%2]})
		}
		p.Margins.TideM, p.Boat.DraughtM, p.Boat.Rode.BowRollerM = rnd.Float64(), 0.5+rnd.Float64(), rnd.Float64()
		blow(p, 0, 3*rnd.Float64())
		waters := pool(-3, chart.Unknown)
		asked := mustCheck(t, waters, p).Stays[0]
		if asked.SoundFromM == nil || asked.SoundToM == nil {
			t.Fatalf("no figures: %+v", asked)
		}
		arrive := *asked.Arrive
		read := func(m float64) (water, rodes bool) {
			q := p.Clone()
			s := q.Stays()[0]
			s.SoundedM, s.SoundedAt = ptr(math.Max(0, m)), &arrive
			// The chart's own least depth is far too little: only the reading is tried.
			deep := pool(9, chart.Unknown)
			r := mustCheck(t, deep, q)
			short := strings.Contains(foundOf(mustCheck(t, waters, q), plan.CheckChain), "rode-too-short")
			return !strings.Contains(foundOf(r, plan.CheckClearance), "not-clear"), !short
		}
		from, to := math.Ceil(*asked.SoundFromM*100-1e-6)/100, math.Floor(*asked.SoundToM*100+1e-6)/100
		if ok, _ := read(from); !ok {
			t.Errorf("from %.2f m: too little water", from)
		}
		if ok, _ := read(from - 0.02); ok {
			t.Errorf("%.2f m is enough, and %.2f m are asked for", from-0.02, from)
		}
		if _, ok := read(to); !ok {
			t.Errorf("to %.2f m: too little rode", to)
		}
		if _, ok := read(to + 0.02); ok {
			t.Errorf("rode for %.2f m, and %.2f m is the most", to+0.02, to)
		}
	}
}

// Charted 3 to 4 m, at 2 m of tide and 0.3 m of margin: 4.7 to 6.3 m may be read, and half
// a metre beyond either.
func TestSoundingDisagrees(t *testing.T) {
	for _, c := range []struct {
		read   float64
		drval2 float64
		want   bool
		words  string
	}{
		{4.2, 4, false, ""}, {4.19, 4, true, "4.70 to 6.30 m"}, {6.8, 4, false, ""}, {6.81, 4, true, "surface"},
		{17, 4, true, "In feet it would agree"}, {40, 4, true, "4.70 to 6.30 m. The tide"}, {40, chart.Unknown, false, ""}, {4.19, chart.Unknown, true, "4.70 m or more"},
	} {
		p, stay := atAnchor(0)
		stay.SoundedM, stay.SoundedAt = ptr(c.read), ptr(leaving.Add(2*time.Hour))
		r := mustCheck(t, pool(3, c.drval2), p)
		found := ""
		for _, f := range r.Findings {
			if f.Code == "sounding-disagrees" {
				found = f.Detail
				if f.Severity != plan.Care {
					t.Errorf("%.2f m: %s", c.read, f.Severity)
				}
			}
		}
		if (found != "") != c.want || !strings.Contains(found, c.words) {
			t.Errorf("%.2f m: %q, want %v", c.read, found, c.want)
		}
	}
}
