package hazards

import (
	"cmp"
	"math"
	"slices"
	"time"

	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// burning is what she burns over the timed track.
type burning struct{ *checker }

// checkFuel adds up what she burns over the timed track.
func (b burning) checkFuel() {
	fuel := b.plan.Boat.Fuel
	if fuel == nil || len(fuel.Burn) == 0 {
		b.dayFinding(plan.Finding{Check: plan.CheckFuel, Severity: plan.NoData, Facts: facts.FuelNotKnown{}})
		return
	}
	litres, fastest := b.litres(fuel)
	if math.IsNaN(litres) {
		b.dayFinding(plan.Finding{Check: plan.CheckFuel, Severity: plan.NoData, Facts: facts.FuelNotKnown{FastestKn: fastest}, Measured: ptr(fastest), Unit: "kn"})
		return
	}
	if b.streamKnown() { // where it is not, the sea's finding says so
		b.report.FuelL = ptr(litres)
	}
	if fuel.InTankL == nil {
		b.dayFinding(plan.Finding{Check: plan.CheckFuel, Severity: plan.NoData, Facts: facts.Fuel{What: facts.CodeTankNotKnown, BurnsL: math.Ceil(litres)}})
		return
	}
	left := *fuel.InTankL - litres
	reserve, _ := fuel.ReserveL()
	b.keep(plan.InHand{Check: plan.CheckFuel, Measured: left, Required: reserve, Unit: "l"})
	f := plan.Finding{Check: plan.CheckFuel, Measured: ptr(left), Required: ptr(reserve), Unit: "l", Made: []plan.Term{
		{Value: *fuel.InTankL, Unit: "l", Of: facts.Term{Part: facts.InTank}}, {Value: -litres, Unit: "l", Of: facts.Term{Part: facts.Burnt}}}}
	switch {
	case !plan.Enough(left, 0):
		f.Severity, f.Facts = plan.NotClear, facts.Fuel{What: facts.CodeNotEnoughFuel, BurnsL: math.Ceil(litres), TankL: *fuel.InTankL}
	case !plan.Enough(left, reserve):
		f.Severity, f.Facts = plan.Care, facts.Fuel{What: facts.CodeIntoReserve, BurnsL: math.Ceil(litres), LeavesL: math.Floor(left), ReserveL: math.Ceil(reserve - 1e-9)}
	default:
		return
	}
	b.dayFinding(f)
}

// streamKnown tells whether the stream, if one is given, is known at the ends of
// every step, and so all the way.
func (b burning) streamKnown() bool {
	if b.stream == nil {
		return true
	}
	for i := range b.track.Steps {
		s := &b.track.Steps[i]
		_, from := b.stream.At(s.Start)
		_, to := b.stream.At(s.End)
		if !from || !to {
			return false
		}
	}
	return true
}

// dayFinding adds a finding about the day as a whole, where it ends.
func (c *checker) dayFinding(f plan.Finding) {
	last := c.track.Legs[len(c.track.Legs)-1]
	f.Time, f.Geometry = ptr(c.track.Back), last.Rhumb.To
	c.findAbout(f, about{ofDay: true})
}

// litres burnt over all steps and the cool-downs; NaN, with the greatest speed
// asked for, where the burn curve does not reach it.
func (b burning) litres(f *plan.Fuel) (litres, fastestKn float64) {
	curve := slices.Clone(f.Burn)
	slices.SortStableFunc(curve, func(a, b plan.Burn) int { return cmp.Compare(a.Kn, b.Kn) })
	for i := range b.track.Steps {
		s := &b.track.Steps[i]
		fastestKn = math.Max(fastestKn, s.FastestKn())
		// Over a change of speed: Simpson's rule in time, where speed is linear.
		extra := s.WaterKn - math.Max(s.FromKn, s.ToKn) // what a stream takes
		mean := (litresAnHour(curve, s.FromKn+extra) + 4*litresAnHour(curve, (s.FromKn+s.ToKn)/2+extra) + litresAnHour(curve, s.ToKn+extra)) / 6
		litres += mean * s.End.Sub(s.Start).Hours()
	}
	for route := range b.plan.Routes() {
		litres += b.coolDown(route).Hours() * litresAnHour(curve, 0)
	}
	return litres, fastestKn
}

// litresAnHour reads the burn curve: linear between its points, the first
// point's burn below it (an idling engine burns no less than is known), NaN
// beyond its last.
func litresAnHour(curve []plan.Burn, kn float64) float64 {
	const rounding = 1e-6
	if kn <= curve[0].Kn {
		return curve[0].Lph
	}
	for i := 1; i < len(curve); i++ {
		a, b := curve[i-1], curve[i]
		if kn <= b.Kn+rounding && b.Kn > a.Kn {
			return a.Lph + (b.Lph-a.Lph)*math.Min(1, (kn-a.Kn)/(b.Kn-a.Kn))
		}
	}
	if last := curve[len(curve)-1]; kn <= last.Kn+rounding {
		return last.Lph
	}
	return math.NaN()
}

// coolDown is how long the engine runs on after a route, beyond the minutes it
// ran slowly just before.
func (b burning) coolDown(route int) time.Duration {
	rest := time.Duration(b.plan.Boat.CoolDownMin * float64(time.Minute))
	for i := len(b.track.Steps) - 1; i >= 0; i-- {
		s := &b.track.Steps[i]
		if b.track.Legs[s.Leg].Route != route {
			continue
		}
		if s.FastestKn() > b.plan.Boat.WarmUpKn+1e-9 {
			break
		}
		rest -= s.End.Sub(s.Start)
	}
	return max(0, rest)
}

// underWayMinutes is the time under way.
func (dr dayReport) underWayMinutes() float64 { return dr.track.UnderWay().Minutes() }
