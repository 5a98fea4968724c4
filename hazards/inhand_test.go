package hazards

import (
	"math"
	"reflect"
	"testing"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// inHand is what is in hand of a check at a leg, on the way or at a stay.
func inHand(r *plan.Report, check string, leg, stay int) (plan.InHand, bool) {
	for _, m := range r.InHand {
		if m.Check == check && m.Leg == leg && m.Stay == stay {
			return m, true
		}
	}
	return plan.InHand{}, false
}

// What is in hand is kept where all is well too. A bank of 3 m below the datum, 2 m of
// tide of no margin, 1 m of draught and squat by the boat's own rule; a bridge of 17 m
// above a level 4 m above the tide's, which leaves 17 + 4 − 2 − 3 = 16 m over a mast of
// 3 m; 300 l in the tank.
func TestWhatIsInHand(t *testing.T) {
	bridge := overheadLine(chart.BRIDGE, chart.Overhead{VerClrM: 17, VerCclM: chart.Unknown, VerCsaM: chart.Unknown, HorClrM: 30, HeightDatum: 17}, 50)
	p := day()
	p.Margins.TideM = 0
	p.BackBy = ptr(leaving.Add(10 * time.Hour))
	stay := lunch(p)
	r := mustCheck(t, set(bridge, depth(3, 9, rectangle(60, 40, 70, 60))), p)
	for _, c := range []struct {
		check     string
		leg, stay int
		want      plan.InHand
	}{
		{plan.CheckBridge, 1, 0, plan.InHand{Measured: 16, Required: p.Margins.OverheadM, Unit: "m"}},
		{plan.CheckClearance, 1, 0, plan.InHand{Measured: 3 + 2 - 1 - Squat(&p.Boat, 20, 5, false), Required: p.Margins.UnderKeelFastM, Unit: "m"}},
		{plan.CheckSea, 1, 0, plan.InHand{Measured: 0, Required: p.Boat.SeaStopM, Unit: "m"}},
		{plan.CheckShelter, 1, 1, plan.InHand{Measured: 0, Required: p.Margins.AnchoredSeaM, Unit: "m"}},
		{plan.CheckSchedule, 1, 1, plan.InHand{Measured: stay.Until.Sub(*r.Legs[0].End).Minutes(), Unit: "min"}},
	} {
		got, ok := inHand(r, c.check, c.leg, c.stay)
		if !ok || math.Abs(got.Measured-c.want.Measured) > 0.002 || got.Required != c.want.Required || got.Unit != c.want.Unit {
			t.Errorf("%s: %+v (%v), want %+v", c.check, got, ok, c.want)
		}
	}
	if fuel, ok := inHand(r, plan.CheckFuel, 0, 0); !ok || math.Abs(fuel.Measured-(300-*r.FuelL)) > 1e-9 {
		t.Errorf("fuel: %+v, the day burns %v of 300 l", fuel, *r.FuelL)
	}
}

// No finding of a leg says that less is in hand than is kept of its check there, and the
// clearance that is kept is the leg's own. What a session remembers changes none of it.
func TestInHandIsTheLeast(t *testing.T) {
	demo := demoChart(t)
	session := NewSession(chart.New(demo))
	compared := 0
	for i, p := range wanderings(t, demo, 25) {
		r := apartReport(t, session, p)
		for k := range r.Findings {
			f := &r.Findings[k]
			if f.Measured == nil || f.Required == nil || f.Check == plan.CheckClearance {
				continue
			}
			at := 0
			if f.Check == plan.CheckShelter || f.Check == plan.CheckWindShift {
				at = 1
			}
			found := plan.InHand{Check: f.Check, Measured: *f.Measured, Required: *f.Required}
			if m, ok := inHand(r, f.Check, f.Leg, at); ok && m.Unit == f.Unit && m.Left() > found.Left()+1e-9 {
				t.Errorf("day %d, leg %d: %s has %+v in hand, a finding says %+v", i, f.Leg, f.Check, m, found)
			} else if ok && m.Unit == f.Unit {
				compared++
			}
		}
		for k := range r.Legs {
			m, ok := inHand(r, plan.CheckClearance, r.Legs[k].Leg, 0)
			if least := r.Legs[k].LeastClearanceM; least != nil && (!ok || m.Measured > *least) {
				t.Errorf("day %d, leg %d: %+v, the leg has %v", i, r.Legs[k].Leg, m, *least)
			}
		}
		if fresh := check(t, NewSession(chart.New(demo)), p); !reflect.DeepEqual(fresh.InHand, check(t, session, p).InHand) {
			t.Errorf("day %d: a session keeps %+v, a fresh one %+v", i, check(t, session, p).InHand, fresh.InHand)
		}
	}
	if compared < 20 {
		t.Errorf("only %d findings were compared", compared)
	}
}
