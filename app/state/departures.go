package state

import (
	"encoding/json"
	"time"

	"keelroom/app/engine"
)

// Departures are the verdicts of other departures of the day.
type Departures struct {
	aside   *Aside
	charts  *Charts
	history *History
	notices *Notices
	ports   *Ports
	departs func() bool

	Ribbon ribbon
}

// ribbon is what is known of the departures of the day.
type ribbon struct {
	rev, chartRev int
	busy          bool
	slots         []engine.Slot
	Why           *engine.Slot
}

// drop takes away the departures of another plan or chart.
func (d *Departures) drop() {
	if len(d.Ribbon.slots) > 0 {
		d.Ribbon = ribbon{}
		d.ports.strip.SetRibbon(`{"step_min":10,"slots":[],"busy":true}`)
	}
}

// ribbonRest is how long the plan must rest before its departures are asked for.
const ribbonRest = 250 * time.Millisecond

// ask asks for the departures of the newest plan, once it rests.
func (d *Departures) ask() {
	rev := d.history.rev
	d.ports.Device.After(ribbonRest, func() {
		if rev != d.history.rev || !d.departs() {
			return
		}
		q := engine.Request{Kind: engine.Ribbon, Plan: d.history.Open.Text, PlanRev: rev, ChartRev: d.charts.rev}
		asked := AskedOf(q)
		if d.aside.has(asked) {
			d.setAside()
			return
		}
		d.Ribbon = ribbon{rev: rev, chartRev: d.charts.rev, busy: true}
		d.ports.engine.Ask(q, func(a engine.Reply, docs map[string]Doc) {
			d.aside.answered(asked, a)
			d.answer(a, docs)
		})
	})
}

func (d *Departures) answer(a engine.Reply, _ map[string]Doc) {
	if a.PlanRev != d.Ribbon.rev || a.ChartRev != d.Ribbon.chartRev || a.PlanRev != d.history.rev || a.State == engine.Cancelled {
		return
	}
	var body engine.RibbonBody
	if a.State == engine.Failed {
		d.Ribbon.slots = nil
	} else if err := json.Unmarshal(a.Body, &body); err == nil {
		if a.State == engine.Done {
			d.Ribbon.slots = body.Slots
		} else {
			d.Ribbon.slots = append(d.Ribbon.slots, body.Slots...)
		}
	}
	d.Ribbon.busy = a.State == engine.Progress
	b, _ := json.Marshal(map[string]any{"step_min": 10, "slots": d.Ribbon.slots, "busy": d.Ribbon.busy}) // plain data: does not fail
	d.ports.strip.SetRibbon(string(b))
	if !d.Ribbon.busy {
		d.ports.redraw()
	}
}
