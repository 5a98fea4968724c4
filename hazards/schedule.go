package hazards

import (
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// checkSchedule: arriving after a stay should have ended, coming home late.
func (c *checker) checkSchedule() { c.checkScheduleFrom(0) }

// checkScheduleFrom does so for the stops from one on, and the end of the day.
func (c *checker) checkScheduleFrom(stop int) {
	for i := stop; i < len(c.track.Stops); i++ {
		s := &c.track.Stops[i]
		c.keep(plan.InHand{Check: plan.CheckSchedule, Leg: c.track.Legs[c.lastLegOf(s.Route)].Number, Stay: i + 1, Measured: s.Stay.Until.Sub(s.Arrive).Minutes(), Unit: "min"})
		if s.Arrive.After(s.Stay.Until) {
			c.findAbout(plan.Finding{Check: plan.CheckSchedule, Severity: plan.NotClear, Facts: facts.Late{What: facts.CodeLateAtStay, Comes: facts.At(s.Arrive), Due: facts.At(s.Stay.Until)}, Leg: c.track.Legs[c.lastLegOf(s.Route)].Number, Time: ptr(s.Arrive),
				Measured: ptr(s.Arrive.Sub(s.Stay.Until).Minutes()), Unit: "min", Geometry: s.Stay.At}, about{arriving: i + 1})
			continue
		}
		c.slack = append(c.slack, slack{route: s.Route, left: s.Stay.Until.Sub(s.Arrive)})
	}
	if by := c.plan.BackBy; by != nil {
		c.keep(plan.InHand{Check: plan.CheckSchedule, Measured: by.Sub(c.track.Back).Minutes(), Unit: "min"})
		last := c.track.Legs[len(c.track.Legs)-1]
		if c.track.Back.After(*by) {
			c.dayFinding(plan.Finding{Check: plan.CheckSchedule, Severity: plan.NotClear, Facts: facts.Late{What: facts.CodeBackTooLate, Comes: facts.At(c.track.Back), Due: facts.At(*by)}, Leg: last.Number,
				Measured: ptr(c.track.Back.Sub(*by).Minutes()), Unit: "min"})
			return
		}
		c.slack = append(c.slack, slack{route: last.Route, left: by.Sub(c.track.Back)})
	}
}
