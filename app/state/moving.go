package state

import (
	"encoding/json"
	"strings"

	"keelroom/app/engine"
	"keelroom/hazards/plan"
)

// Moving is what the chart view says of the plan while a point of it is dragged, and
// until the plan is checked with the point where it was dropped.
type Moving struct {
	Head  *engine.Head // of the newest answer; nil: there is none
	Words string       // why there is none
	Late  bool         // the answer for the place where the point is now is overdue

	dropped bool // the drag has ended, and the plan with the point there is checked
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
	if c.Checking.Aside { // what is found without what is set aside is not what was asked for
		m = &Moving{Words: strings.TrimSuffix(c.Checking.Failed, ".")}
	}
	c.Moving = m
}

// dropped takes note that a drag has ended with a change of the plan. Where nothing
// has changed, what is on the screen of a place that the point was dragged through goes.
func (c *Checks) dropped(changed bool) {
	if changed {
		if c.Moving != nil {
			c.Moving.dropped = true
		}
		return
	}
	c.Moving = nil
	c.ports.chart.SetPlan(c.history.Open.Text)
	c.ports.strip.SetDay(c.dayRaw)
}

// noPlan is what the chart view follows where nothing may be told of a drag.
const noPlan = -1

// chartsChanged takes note that what is on the screen is of other charts than those
// that are open. Nothing is told of a drag until the plan is checked on these.
func (c *Checks) chartsChanged() {
	c.compareRecalled()
	c.ports.chart.Follow(noPlan, c.charts.rev)
	c.fade()
}

// follow gives the chart view the revisions of what is on the screen: no answer about
// another plan or chart is taken. Of what is set aside there is none, nor while a chart
// is being read.
func (c *Checks) follow(asked Asked, rev int) {
	if c.aside.has(asked) || c.charts.unusedChart() != "" || c.charts.reading() {
		rev = noPlan
	}
	c.ports.chart.Follow(rev, c.charts.rev)
}

// resend gives the engine the plan again, which it says it does not have, unless it
// is being given or waits for a chart.
func (c *Checks) resend() {
	if !c.Checking.busy && !c.Checking.Aside && !c.charts.reading() {
		c.request(c.history.Open.Text, c.history.rev)
	}
}
