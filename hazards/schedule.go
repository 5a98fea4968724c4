package hazards

import (
	"time"

	"keelroom/hazards/plan"
)

// checkSchedule: arriving after a stay should have ended, coming home late.
func (c *checker) checkSchedule() {
	for i := range c.track.Stops {
		s := &c.track.Stops[i]
		if s.Arrive.After(s.Stay.Until) {
			c.find(plan.Finding{Check: plan.CheckSchedule, Severity: plan.NotClear, Title: "Arriving too late", Leg: c.lastLegOf(s.Route), Time: ptr(s.Arrive),
				Detail:   "She arrives at " + c.clock(s.Arrive) + ", after the stay should have ended at " + c.clock(s.Stay.Until) + ". The day is planned on from there.",
				Measured: ptr(s.Arrive.Sub(s.Stay.Until).Minutes()), Unit: "min", Geometry: s.Stay.At})
			continue
		}
		c.slack = append(c.slack, slack{route: s.Route, left: s.Stay.Until.Sub(s.Arrive), why: "the next stay ends at " + c.clock(s.Stay.Until)})
	}
	if by := c.plan.BackBy; by != nil {
		last := c.track.Legs[len(c.track.Legs)-1]
		if c.track.Back.After(*by) {
			c.dayFinding(plan.Finding{Check: plan.CheckSchedule, Severity: plan.NotClear, Title: "Back too late", Leg: last.Number,
				Detail:   "She is back at " + c.clock(c.track.Back) + "; " + c.clock(*by) + " is wanted.",
				Measured: ptr(c.track.Back.Sub(*by).Minutes()), Unit: "min"})
			return
		}
		c.slack = append(c.slack, slack{route: last.Route, left: by.Sub(c.track.Back), why: "she is to be back by " + c.clock(*by)})
	}
}

// leaveBy is, for each stay, the latest time to leave before something on the
// way to the next one fails, with speeds and sea as they are for the planned
// time. A stay whose next route is not clear anyway has none.
func (c *checker) leaveBy() []plan.LeaveBy {
	var out []plan.LeaveBy
	for i := range c.track.Stops {
		s := &c.track.Stops[i]
		best, why := time.Duration(-1), ""
		for _, k := range c.slack {
			if k.route == s.Route+1 && (why == "" || k.left < best) {
				best, why = k.left, k.why
			}
		}
		switch {
		case c.routeFails(s.Route + 1):
			out = append(out, plan.LeaveBy{Why: "the way on is not clear as planned"})
		case why == "":
			out = append(out, plan.LeaveBy{Why: "nothing on the way on sets a time"})
		default:
			out = append(out, plan.LeaveBy{Time: ptr(s.Leave.Add(max(0, best))), Why: why})
		}
	}
	return out
}

// routeFails tells whether a route has a finding that is not clear.
func (c *checker) routeFails(route int) bool {
	for i := range c.report.Findings {
		f := &c.report.Findings[i]
		if f.Severity == plan.NotClear && f.Leg > 0 && c.track.Legs[f.Leg-1].Route == route {
			return true
		}
	}
	return false
}
