package state

import (
	"reflect"
	"time"

	"keelroom/hazards/plan"
)

// fadeAfter is how long what was checked before may stand on the chart after a
// change, so that quick answers do not make it flicker.
const fadeAfter = 400 * time.Millisecond

// oldAfter is how long the verdict of the state before may stand, marked as being
// checked again, while a check is under way.
const oldAfter = 3 * time.Second

// fade takes what was worked out off the views if the new answer is long in coming,
// and then the verdict too.
//
// Until then the water at an hour stays where nothing has changed that it comes from.
func (c *Checks) fade() {
	rev, chartRev := c.history.rev, c.charts.rev
	c.ports.Device.After(fadeAfter, func() {
		if !c.Stale() || c.Recalled() {
			return
		}
		if c.sameWater() {
			c.clearFound()
		} else {
			c.clearViews()
		}
		c.ports.redraw()
	})
	c.ports.Device.After(oldAfter, func() {
		if c.Stale() && !c.Recalled() && rev == c.history.rev && chartRev == c.charts.rev {
			c.Checking.old = true
			c.clearViews() // the waves that the water allows for are those of the way before
			c.ports.redraw()
		}
	})
}

// VerdictKnown says whether there is a verdict to be shown: a report that is not older
// than a verdict may stand.
func (c *Checks) VerdictKnown() bool { return c.Day.Report != nil && !(c.Checking.old && c.Stale()) }

// sameWater says whether the water that was worked out last is that of the plan as
// it is: of the same charts, tide, boat, margins and day.
func (c *Checks) sameWater() bool {
	of := func(p *plan.Plan) []any {
		date, _ := p.Date()
		return []any{p.Tide, p.Boat, p.Margins, p.Choices, p.ZoneName, date}
	}
	return c.Day.Report != nil && c.Checking.sinceChart == c.charts.rev && !c.charts.reading() && reflect.DeepEqual(of(c.Day.Plan), of(c.history.Plan))
}
