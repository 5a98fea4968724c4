package hazards

import (
	"math"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// What is in hand at the worst place of each leg and stay is kept of every check that
// measures something, whether it is enough or not: a plan can be clear by an inch or
// by a mile. A look that only asks for a verdict keeps none.

// keep takes what is in hand in.
func (c *checker) keep(m plan.InHand) {
	if !c.brief {
		c.report.Keep(m)
	}
}

// legInHand is what is in hand along a leg: of the water where all of it is known, and
// of the sea.
func (l *legClearance) legInHand(hsM float64, seaKnown bool) {
	leg := l.track.Legs[l.index].Number
	if l.least != nil {
		l.keep(plan.InHand{Check: plan.CheckClearance, Leg: leg, Measured: plan.WholeMM(l.least.clearanceM()), Required: l.least.requiredM, Unit: "m"})
	}
	if seaKnown {
		l.keep(plan.InHand{Check: plan.CheckSea, Leg: leg, Measured: hsM, Required: l.plan.Boat.SeaStopM, Unit: "m"})
	}
}

// keepHere is what is in hand where she lies.
func (s *stayCheck) keepHere(check string, measured, required float64, unit string) {
	s.checker.keep(plan.InHand{Check: check, Leg: s.leg, Stay: s.lying, Measured: measured, Required: required, Unit: unit})
}

// keep is what is in hand of a thing on the leg, or where she lies.
func (o *obstacles) keep(check string, measured, required float64, unit string) {
	o.checker.keep(plan.InHand{Check: check, Leg: o.leg.Number, Stay: o.lying, Measured: measured, Required: required, Unit: unit})
}

// keepDistance is how far off a thing is kept on a stretch; near a berth some things
// are passed by eye, and no distance from them is kept.
func (o *obstacles) keepDistance(st *stretch, h *chart.Hit, check string, requiredM float64) {
	if o.brief {
		return
	}
	least := math.Inf(1)
	for _, sp := range h.Wide {
		from, to, ok := st.clip(sp)
		if ok && (!passedByEye(h.Feature) || len(without(from, to, o.eyeSpans())) > 0) {
			least = math.Min(least, sp.DistM)
		}
	}
	if !math.IsInf(least, 1) {
		o.keep(check, least, requiredM, "m")
	}
}
