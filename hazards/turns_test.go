package hazards

import (
	"testing"
	"time"

	"keelroom/hazards/plan"
)

// after is a time so many minutes after leaving.
func after(minutes float64) time.Time {
	return leaving.Add(time.Duration(minutes * float64(time.Minute)))
}

// surge is a swell from the east that rises from nothing and is gone again, its
// top at so many minutes after leaving and as many before and after.
func surge(p *plan.Plan, top, lasts, heightM float64) {
	p.Swell = []plan.Swell{{Time: after(-120), FromDeg: 90, PeriodS: 8}, {Time: after(top - lasts), FromDeg: 90, PeriodS: 8},
		{Time: after(top), FromDeg: 90, HeightM: heightM, PeriodS: 8}, {Time: after(top + lasts), FromDeg: 90, PeriodS: 8}, {Time: after(24 * 60), FromDeg: 90, PeriodS: 8}}
}

// A swell that stands for ten minutes of a stay is seen, whether or not that is
// on a half hour: its row is looked at. 0.9 m is over the 0.3 m of the margins.
func TestSwellBetweenHalfHoursOfAStay(t *testing.T) {
	for top := 60.0; top < 90; top += 3.7 {
		p := day()
		lunch(p)
		surge(p, top, 5, 0.9)
		r := mustCheck(t, set(), p)
		f := finding(t, r, plan.CheckShelter)
		if f.Severity != plan.NotClear || f.Measured == nil || *f.Measured < 0.9-1e-9 || !f.Time.Equal(after(top)) {
			t.Errorf("a swell of 0.9 m at %v: %s %v at %v", after(top), f.Severity, f.Measured, f.Time)
		}
		near(t, "sea at the stay", *r.Stays[0].SeaGreatestM, 0.9, 1e-9)
		if w := r.Stays[0].WindRoom; w == nil || *w.BackingDeg != 0 || *w.VeeringDeg != 0 {
			t.Errorf("the sea is over the limit at %v, and the wind has room: %+v", after(top), w)
		}
	}
}

// Under way the sea of the minute she is there counts: not that of some minutes
// before, when she passed the same place on the way out.
func TestSwellOfTheMinute(t *testing.T) {
	for top := 0.5; top < 4.6; top += 0.4 {
		p := day(at(50, 50), at(65, 50), at(50, 50))
		surge(p, top, 1, 3)
		if r := mustCheck(t, set(), p); worst(r, plan.CheckSea) != plan.NotClear {
			t.Errorf("a swell of 3 m at %v: %q", after(top), said(r))
		}
	}
}

// The least clearance takes the waves of the minute off: 10 + 2 − 0.3 − 1 − 0.35
// = 10.35 m, less the 3 m of the swell's top, which she meets on the way.
func TestWavesOfTheMinuteComeOff(t *testing.T) {
	p := day(at(50, 50), at(65, 50), at(50, 50))
	p.Boat.SeaLimitM, p.Boat.SeaStopM = 9, 9
	surge(p, 3.1, 1, 3)
	least := mustCheck(t, set(), p).LeastClearance
	if least == nil {
		t.Fatal("no least clearance")
	}
	near(t, "least clearance", *least.ClearanceM, 7.35, 1e-6)
}

// A stream that turns within a stretch is met there: at 2 kn a quarter of a mile
// takes seven and a half minutes, and the 3 kn against her stand for three.
func TestStreamWithinAStretch(t *testing.T) {
	for top := 30.0; top < 38; top += 1.3 {
		p := day()
		p.Boat.CruiseKn = 2
		p.Boat.Fuel.Burn[0].Kn = 1
		calm := plan.Stream{Time: after(-600), TowardDeg: 270}
		foul := plan.Stream{Time: after(top), TowardDeg: 270, Kn: 3}
		p.Stream = []plan.Stream{calm, {Time: after(top - 1.5), TowardDeg: 270}, foul, {Time: after(top + 1.5), TowardDeg: 270}, {Time: after(24 * 60), TowardDeg: 270}}
		r := mustCheck(t, set(), p)
		f := finding(t, r, plan.CheckSea)
		if f.Title != "A stream she cannot stem" {
			t.Errorf("3 kn against her 2 kn at %v: %q", foul.Time, said(r))
		}
	}
}

// Wind against a stream is seen at the row of the stream, however short it runs:
// 15 kn from the west over 2 kn toward it.
func TestSteepSeaWithinAStretch(t *testing.T) {
	for top := 2.0; top < 4; top += 0.3 {
		p := day()
		blow(p, 270, 15)
		p.Boat.SeaLimitM, p.Boat.SeaStopM = 9, 9
		p.Margins.AnchoredSeaM = 9
		p.Stream = []plan.Stream{{Time: after(-600), TowardDeg: 270}, {Time: after(top - 0.2), TowardDeg: 270}, {Time: after(top), TowardDeg: 270, Kn: 2},
			{Time: after(top + 0.2), TowardDeg: 270}, {Time: after(24 * 60), TowardDeg: 270}}
		found := false
		for _, f := range mustCheck(t, set(), p).Findings {
			found = found || f.Title == "Wind against the stream"
		}
		if !found {
			t.Errorf("2 kn against 15 kn of wind at %v is not told", after(top))
		}
	}
}
