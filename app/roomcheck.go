package app

import (
	"encoding/json"
	"slices"
	"time"

	"keelroom/app/engine"
	"keelroom/hazards"
	"keelroom/hazards/plan"
)

// checks asks the engine for checks of the plan, one at a time, and holds the newest answer.
type checks struct {
	aside      *aside
	charts     *charts
	departures *departures
	history    *history
	hour       *hour
	ports      *ports
	view       *view

	checking checking
	day      Day // the newest checked day, what is on the screen
	dayRaw   Doc // what the strip shows
	shown    int // counts what was put on the screen of checks
}

// checking is what is asked of the engine: one check at a time, and the newest
// state waits for its end.
type checking struct {
	busy     bool
	waiting  string // the plan file that waits; "" none
	waitRev  int
	waitTry  bool
	problems []engine.Problem // why the plan cannot be checked
	failed   string           // why the check failed
	aside    bool             // the plan, or a chart, is set aside
	old      bool             // what is on the screen is older than a verdict may stand
	// The revisions of plan and chart that the day on the screen belongs to, and
	// whether it is that of a try.
	since, sinceChart int
	tried             bool
}

// recheck asks for a check of the plan as it is.
func (r *checks) recheck() {
	r.request(r.history.open.Text, r.history.rev, false)
	r.departures.drop()
}

// dropRibbon takes away the departures of another plan or chart.
func (d *departures) drop() {
	if len(d.ribbon.slots) > 0 {
		d.ribbon = ribbon{}
		d.ports.strip.SetRibbon(`{"step_min":10,"slots":[],"busy":true}`)
	}
}

// ask asks for a check of a plan file, which may be a try: an edit that is still
// being made.
func (r *checks) request(text string, rev int, try bool) {
	if text == "" {
		return
	}
	if r.checking.busy {
		// A check that waits must not be lost for a try of the same state.
		if r.checking.waiting != "" && r.checking.waitRev == rev {
			try = try && r.checking.waitTry
		}
		r.checking.waiting, r.checking.waitRev, r.checking.waitTry = text, rev, try
		return
	}
	q := engine.Request{Kind: engine.CheckPlan, Plan: text, PlanRev: rev, ChartRev: r.charts.rev}
	asked := AskedOf(q)
	if r.aside.has(asked) {
		r.planAside()
		return
	}
	r.checking.busy = true
	r.ports.engine.Ask(q, func(a engine.Reply, docs map[string]Doc) {
		if a.State == engine.Progress {
			r.view.progress = a.Words
			return
		}
		r.checking.busy = false
		r.aside.answered(asked, a)
		r.answer_(a, docs, try)
		if next := r.checking.waiting; next != "" {
			r.checking.waiting = ""
			r.request(next, r.checking.waitRev, r.checking.waitTry)
		}
	})
}

// answered takes a check's answer, unless another plan is open by now.
func (r *checks) answer_(a engine.Reply, docs map[string]Doc, try bool) {
	if a.PlanRev != r.history.rev || a.ChartRev != r.charts.rev {
		return
	}
	r.view.progress, r.checking.aside, r.checking.old = "", false, false
	if why := r.charts.chartAside(); why != "" && a.State == engine.Done {
		r.checking.aside = true
		r.nothingKnown(why + " Without it nothing is told of this day: under Charts, remove it, or try it once more.")
		return
	}
	switch a.State {
	case engine.Done:
		r.took(docs, try)
		if !try {
			r.departures.ask()
		}
	case engine.Failed:
		r.refused(a, docs)
	}
	r.ports.redraw()
}

func (r *checks) took(docs map[string]Doc, try bool) {
	report, err := plan.DecodeReport([]byte(docs["report"].String()))
	if err != nil {
		r.checking.failed = "the report cannot be read: " + err.Error()
		return
	}
	r.checking.failed, r.checking.problems = "", nil
	r.checking.since, r.checking.sinceChart, r.checking.tried = r.history.rev, r.charts.rev, try
	r.shown++
	r.day = Day{Plan: r.history.plan, Report: report}
	r.ports.chart.SetReport(docs["report"])
	r.ports.chart.SetPrivate(docs["private"])
	r.dayRaw = docs["day"]
	r.ports.strip.SetDay(r.dayRaw)
	r.hour.day = readDayDoc(docs["day"])
	r.hour.place(report.Depart)
}

func (r *checks) refused(a engine.Reply, docs map[string]Doc) {
	r.checking.failed = a.Words
	var body engine.ProblemsBody
	_ = json.Unmarshal(a.Body, &body) // without a body there are no problems to list
	r.checking.problems = body.Problems
	r.day = Day{Plan: r.history.plan}
	r.shown++
	r.clearViews()
	r.ports.chart.SetPrivate(docs["private"])
}

// clearViews takes everything off the views that was worked out.
func (r *checks) clearViews() {
	r.hour.day = dayDoc{}
	r.ports.chart.SetWater(nil, nil)
	r.clearFound()
}

// clearFound takes what was found off the views, and leaves the water.
func (r *checks) clearFound() {
	r.dayRaw, r.departures.ribbon = nil, ribbon{}
	r.ports.chart.SetReport(nil)
	r.ports.strip.SetDay(nil)
	r.ports.strip.SetRibbon("")
}

// dayDoc is what the screen needs of the day that the strip draws.
type dayDoc struct {
	From      int64         `json:"from"`
	To        int64         `json:"to"`
	Water     [][]*float64  `json:"water"`
	WaterSets []string      `json:"water_sets"`
	Tide      *dayDocHeight `json:"tide"`
}

type dayDocHeight struct {
	DatumName string       `json:"datum_name"`
	Points    [][]*float64 `json:"points"`
}

func readDayDoc(d Doc) (day dayDoc) {
	if d != nil {
		_ = json.Unmarshal([]byte(d.String()), &day) // what cannot be read has no water: shown as unknown
	}
	return day
}

// placeCursor puts the hour where the skipper left it, else at the departure.
func (h *hour) place(depart *time.Time) {
	inside := h.at >= h.day.From && h.at <= h.day.To
	if (!h.chosen || !inside) && depart != nil {
		h.at, h.chosen = depart.Unix(), false
	}
	h.ports.strip.SetCursor(h.at)
	h.colour()
}

// Cursor is told that the hour was moved.
func (h *hour) move(at int64) {
	h.at, h.chosen = at, true
	h.colour()
}

// colourWater colours the chart for the hour: by the nearest of the heights the
// engine worked out.
func (h *hour) colour() {
	h.ports.chart.SetWater(h.waterAt(h.at), h.day.WaterSets)
}

func (h *hour) waterAt(at int64) *hazards.Water {
	const step = 600 // seconds from one row to the next
	d := &h.day
	if at < d.From || at > d.To {
		return nil
	}
	first := int((at - d.From) / step)
	last := first
	if (at-d.From)%step != 0 {
		last++ // between two heights the lower one is the safe one
	}
	var worst *hazards.Water
	for i := first; i <= last; i++ {
		if i >= len(d.Water) || len(d.Water[i]) != 4 || slices.Contains(d.Water[i], nil) {
			return nil
		}
		if row := d.Water[i]; worst == nil || *row[1] > worst.DriesM {
			worst = &hazards.Water{DriesM: *row[1], AfloatM: *row[2], EnoughM: *row[3]}
		}
	}
	return worst
}

// heightAt is the height of tide at the hour, for the words beside the chart.
func (h *hour) heightAt(at int64) *float64 {
	if h.day.Tide == nil {
		return nil
	}
	var near *float64
	best := int64(5*60 + 1)
	for _, p := range h.day.Tide.Points {
		if len(p) == 2 && p[0] != nil && p[1] != nil {
			if d := max(int64(*p[0])-at, at-int64(*p[0])); d < best {
				best, near = d, p[1]
			}
		}
	}
	return near
}

// ribbon is what is known of the departures of the day.
type ribbon struct {
	rev, chartRev int
	busy          bool
	slots         []engine.Slot
	why           *engine.Slot
}

// departs says whether the day that was checked last has a departure.
func (r *checks) departs() bool { return r.day.Report != nil && r.day.Report.Depart != nil }

// ribbonRest is how long the plan must rest before its departures are asked for.
const ribbonRest = 250 * time.Millisecond

// askRibbon asks for the departures of the newest plan, once it rests.
func (d *departures) ask() {
	rev := d.history.rev
	d.ports.device.After(ribbonRest, func() {
		if rev != d.history.rev || !d.departs() {
			return
		}
		q := engine.Request{Kind: engine.Ribbon, Plan: d.history.open.Text, PlanRev: rev, ChartRev: d.charts.rev}
		asked := AskedOf(q)
		if d.aside.has(asked) {
			d.setAside()
			return
		}
		d.ribbon = ribbon{rev: rev, chartRev: d.charts.rev, busy: true}
		d.ports.engine.Ask(q, func(a engine.Reply, docs map[string]Doc) {
			d.aside.answered(asked, a)
			d.answer(a, docs)
		})
	})
}

func (d *departures) answer(a engine.Reply, _ map[string]Doc) {
	if a.PlanRev != d.ribbon.rev || a.ChartRev != d.ribbon.chartRev || a.PlanRev != d.history.rev || a.State == engine.Cancelled {
		return
	}
	var body engine.RibbonBody
	if a.State == engine.Failed {
		d.ribbon.slots = nil
	} else if err := json.Unmarshal(a.Body, &body); err == nil {
		if a.State == engine.Done {
			d.ribbon.slots = body.Slots
		} else {
			d.ribbon.slots = append(d.ribbon.slots, body.Slots...)
		}
	}
	d.ribbon.busy = a.State == engine.Progress
	b, _ := json.Marshal(map[string]any{"step_min": 10, "slots": d.ribbon.slots, "busy": d.ribbon.busy}) // plain data: does not fail
	d.ports.strip.SetRibbon(string(b))
	if !d.ribbon.busy {
		d.ports.redraw()
	}
}

// stale says whether what is on the screen was checked before the last change.
func (r *checks) stale() bool {
	return r.checking.since != r.history.rev || r.checking.sinceChart != r.charts.rev || r.charts.reading()
}
