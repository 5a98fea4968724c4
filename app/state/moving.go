package state

import (
	"encoding/json"

	"keelroom/app/engine"
	"keelroom/hazards/plan"
)

// Moving is what the chart view says of the plan while a point of it is dragged, and
// until the plan is checked with the point where it was dropped.
type Moving struct {
	Head  *engine.Head // of the newest answer; nil: there is none
	Words string       // why there is none
	Late  bool         // the answer for the place where the point is now is overdue
}

// Severity is how the plan is as it is now, and whether that is known.
func (m *Moving) Severity() (s plan.Severity, known bool) {
	if m.Head == nil || m.Late {
		return plan.NoData, false
	}
	return plan.ParseSeverity(m.Head.Verdict)
}

// moves takes what the chart view says of a drag.
func (c *Checks) moves(detail []byte) {
	m := &Moving{}
	if err := json.Unmarshal(detail, m); err != nil {
		m = &Moving{Late: true} // what cannot be read says nothing
	}
	c.Moving = m
}

// resend gives the engine the plan again, which it says it does not have, unless it
// is being given or waits for a chart.
func (c *Checks) resend() {
	if !c.Checking.busy && !c.charts.reading() {
		c.request(c.history.Open.Text, c.history.rev)
	}
}
