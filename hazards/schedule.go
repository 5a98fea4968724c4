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
			c.find(plan.Finding{Check: plan.CheckSchedule, Severity: plan.NotClear, Title: "Arriving too late", Leg: c.track.Legs[c.lastLegOf(s.Route)].Number, Time: ptr(s.Arrive),
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

// leaveBy is, for each stay, the latest time to leave before the water, the
// room overhead, the daylight or the schedule on the way to the next one
// fails. Speeds, wind and sea are taken as they are for the planned time, and
// the words say so. A stay whose way on is not clear, or not known, has none.
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
		switch worst := c.worstOn(s.Route + 1); {
		case c.stayWorst[i] == plan.NotClear:
			out = append(out, plan.LeaveBy{Why: "the stay itself is not clear as planned"})
		case c.stayWorst[i] == plan.NoData:
			out = append(out, plan.LeaveBy{Why: "not all of the stay is known"})
		case s.Route+1 >= len(c.plan.Routes()):
			out = append(out, plan.LeaveBy{Why: "the day ends here"})
		case worst == plan.NotClear:
			out = append(out, plan.LeaveBy{Why: "the way on is not clear as planned"})
		case worst == plan.NoData:
			out = append(out, plan.LeaveBy{Why: "not all of the way on is known"})
		case why == "":
			out = append(out, plan.LeaveBy{Why: "nothing on the way on sets a time; wind and sea were not looked at again"})
		default:
			out = append(out, plan.LeaveBy{Time: ptr(s.Leave.Add(max(0, best))), Why: why + "; wind and sea as planned"})
		}
	}
	return out
}

// worstOn is the worst severity found on a route, or for the day as a whole in
// what ends a day (fuel aside).
func (c *checker) worstOn(route int) plan.Severity {
	worst := plan.Note
	for i := range c.report.Findings {
		f := &c.report.Findings[i]
		if f.Leg > 0 && c.track.Legs[f.Leg-1].Route == route {
			worst = worst.Worse(f.Severity)
		}
	}
	return worst
}
