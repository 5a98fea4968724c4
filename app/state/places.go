package state

import (
	"encoding/json"

	"github.com/paulmach/orb"

	"keelroom/app/engine"
)

// Places is the place that was asked about.
type Places struct {
	aside   *Aside
	charts  *Charts
	history *History
	hour    *Hour
	ports   *Ports

	Place *PlaceInfo
}

// reachable says whether the day may be led on to a place.
func (p *PlaceInfo) reachable() bool { return !p.Asking && !p.Land }

// PlaceInfo is what the charts say of a place that was tapped.
type PlaceInfo struct {
	At      orb.Point
	objects []map[string]any
	Lines   []string
	Failed  string
	Asking  bool
	Land    bool
	Lie     *Lie // of lying here instead, once that was asked
}

// set shows a card of a place, and marks on the chart which place it is about;
// nil takes both away.
func (p *Places) set(info *PlaceInfo) {
	p.Place = info
	if info == nil {
		p.ports.chart.MarkPlace(nil)
		return
	}
	p.ports.chart.MarkPlace(&info.At)
}

func (p *Places) ask(g *gesture) {
	info := &PlaceInfo{At: g.at(), objects: g.Objects, Asking: true}
	p.set(info)
	q := engine.Request{Kind: engine.AskPlace, Lon: &info.At[0], Lat: &info.At[1], Time: p.hour.At, Plan: p.history.Open.Text, ChartRev: p.charts.rev}
	asked := AskedOf(q)
	if p.aside.has(asked) {
		info.Asking, info.Failed = false, "What the charts say here is not known: twice the part that checks has stopped at a place of this plan, so places are set aside until the plan is changed."
		p.ports.redraw()
		return
	}
	p.ports.engine.Ask(q, func(a engine.Reply, _ map[string]Doc) {
		p.aside.answered(asked, a)
		if a.State == engine.Progress || p.Place != info {
			return
		}
		var body engine.PlaceBody
		if err := json.Unmarshal(a.Body, &body); err != nil || a.State != engine.Done {
			info.Failed = "What the charts say here is not known: " + a.Words
		}
		info.Lines, info.Land, info.Asking = body.Lines, body.Land, false
		p.ports.redraw()
	})
}
