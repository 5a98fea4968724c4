package state

import (
	"fmt"
	"reflect"
	"strings"
	"time"

	"keelroom/hazards/plan"
)

// followDeparture moves the hour with the departure: the water on the chart is that
// of the day as it is now planned.
func (h *Hour) follow(before *plan.Plan) {
	was, now := departure(before), departure(h.history.Plan)
	if was == nil || now == nil || was.Equal(*now) {
		return
	}
	h.At, h.chosen = now.Unix(), false
	h.ports.strip.SetCursor(h.At)
	h.colour()
}

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
func (r *Checks) fade() {
	rev, chartRev := r.history.rev, r.charts.rev
	r.ports.Device.After(fadeAfter, func() {
		if !r.Stale() {
			return
		}
		if r.sameWater() {
			r.clearFound()
		} else {
			r.clearViews()
		}
		r.ports.redraw()
	})
	r.ports.Device.After(oldAfter, func() {
		if r.Stale() && rev == r.history.rev && chartRev == r.charts.rev {
			r.Checking.old = true
			r.clearViews() // the waves that the water allows for are those of the way before
			r.ports.redraw()
		}
	})
}

// VerdictKnown says whether there is a verdict to be shown: a report that is not older
// than a verdict may stand.
func (r *Checks) VerdictKnown() bool { return r.Day.Report != nil && !(r.Checking.old && r.Stale()) }

// sameWater says whether the water that was worked out last is that of the plan as
// it is: of the same charts, tide, boat, margins and day.
func (r *Checks) sameWater() bool {
	of := func(p *plan.Plan) []any {
		date, _ := p.Date()
		return []any{p.Tide, p.Boat, p.Margins, p.Choices, p.ZoneName, date}
	}
	return r.Day.Report != nil && r.Checking.sinceChart == r.charts.rev && !r.charts.reading() && reflect.DeepEqual(of(r.Day.Plan), of(r.history.Plan))
}

// shapeOf tells two plans apart by how many points their parts have.
func shapeOf(p *plan.Plan) string {
	var b strings.Builder
	for _, part := range p.Parts {
		if part.Route != nil {
			fmt.Fprintf(&b, "%d ", len(part.Route.Points))
		} else {
			b.WriteString("stay ")
		}
	}
	return b.String()
}
