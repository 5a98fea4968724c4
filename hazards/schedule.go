package hazards

import "keelroom/hazards/plan"

// checkSchedule: arriving after a stay should have ended, coming home late.
func (c *checker) checkSchedule() { c.checkScheduleFrom(0) }

// checkScheduleFrom does so for the stops from one on, and the end of the day.
func (c *checker) checkScheduleFrom(stop int) {
	for i := stop; i < len(c.track.Stops); i++ {
		s := &c.track.Stops[i]
		if s.Arrive.After(s.Stay.Until) {
			c.findAbout(plan.Finding{Check: plan.CheckSchedule, Severity: plan.NotClear, Code: "late-at-stay", Title: "Arriving too late", Leg: c.track.Legs[c.lastLegOf(s.Route)].Number, Time: ptr(s.Arrive),
				Detail:   "She arrives at " + c.clock(s.Arrive) + ", after the stay should have ended at " + c.clock(s.Stay.Until) + ". The day is planned on from there.",
				Measured: ptr(s.Arrive.Sub(s.Stay.Until).Minutes()), Unit: "min", Geometry: s.Stay.At}, about{arriving: i + 1})
			continue
		}
		c.slack = append(c.slack, slack{route: s.Route, left: s.Stay.Until.Sub(s.Arrive)})
	}
	if by := c.plan.BackBy; by != nil {
		last := c.track.Legs[len(c.track.Legs)-1]
		if c.track.Back.After(*by) {
			c.dayFinding(plan.Finding{Check: plan.CheckSchedule, Severity: plan.NotClear, Code: "back-too-late", Title: "Back too late", Leg: last.Number,
				Detail:   "She is back at " + c.clock(c.track.Back) + "; " + c.clock(*by) + " is wanted.",
				Measured: ptr(c.track.Back.Sub(*by).Minutes()), Unit: "min"})
			return
		}
		c.slack = append(c.slack, slack{route: last.Route, left: by.Sub(c.track.Back)})
	}
}
