package state

import (
	"encoding/json"
	"slices"
	"time"

	"keelroom/app/engine"
	"keelroom/hazards"
	"keelroom/hazards/plan"
)

// Checks asks the engine for checks of the plan, one at a time, and holds the newest answer.
type Checks struct {
	aside      *Aside
	charts     *Charts
	departures *Departures
	history    *History
	hour       *Hour
	ports      *Ports
	view       *View

	Checking checking
	Day      Day // the newest checked day, what is on the screen
	Moving   *Moving
	dayRaw   Doc // what the strip shows
	Shown    int // counts what was put on the screen of checks
}

// checking is what is asked of the engine: one check at a time, and the newest
// state waits for its end.
type checking struct {
	busy     bool
	waiting  string // the plan file that waits; "" none
	waitRev  int
	Problems []engine.Problem // why the plan cannot be checked
	Failed   string           // why the check failed
	Aside    bool             // the plan, or a chart, is set aside
	old      bool             // what is on the screen is older than a verdict may stand
	// The revisions of plan and chart that the day on the screen belongs to.
	since, sinceChart int
}

// recheck asks for a check of the plan as it is.
func (r *Checks) recheck() {
	r.request(r.history.Open.Text, r.history.rev)
	r.departures.drop()
}

// dropRibbon takes away the departures of another plan or chart.
func (d *Departures) drop() {
	if len(d.Ribbon.slots) > 0 {
		d.Ribbon = ribbon{}
		d.ports.strip.SetRibbon(`{"step_min":10,"slots":[],"busy":true}`)
	}
}

// request asks for a check of a plan file.
func (r *Checks) request(text string, rev int) {
	if text == "" {
		return
	}
	if r.Checking.busy {
		r.Checking.waiting, r.Checking.waitRev = text, rev
		return
	}
	q := engine.Request{Kind: engine.CheckPlan, Plan: text, PlanRev: rev, ChartRev: r.charts.rev}
	asked := AskedOf(q)
	if r.aside.has(asked) {
		r.planAside()
		return
	}
	r.Checking.busy = true
	r.ports.engine.Ask(q, func(a engine.Reply, docs map[string]Doc) {
		if a.State == engine.Progress {
			r.view.Progress = a.Words
			return
		}
		r.Checking.busy = false
		r.aside.answered(asked, a)
		r.answer_(a, docs)
		if next := r.Checking.waiting; next != "" {
			r.Checking.waiting = ""
			r.request(next, r.Checking.waitRev)
		}
	})
	r.ports.chart.Follow(rev, r.charts.rev)
}

// answered takes a check's answer, unless another plan is open by now.
func (r *Checks) answer_(a engine.Reply, docs map[string]Doc) {
	if a.PlanRev != r.history.rev || a.ChartRev != r.charts.rev {
		return
	}
	r.view.Progress, r.Checking.Aside, r.Checking.old = "", false, false
	r.Moving = nil
	if why := r.charts.unusedChart(); why != "" && a.State == engine.Done {
		r.Checking.Aside = true
		r.nothingKnown(why + " Without it nothing is told of this day: under Charts, remove it, or try it once more.")
		return
	}
	switch a.State {
	case engine.Done:
		r.took(docs)
		r.departures.ask()
	case engine.Failed:
		r.refused(a, docs)
	}
	r.ports.redraw()
}

func (r *Checks) took(docs map[string]Doc) {
	report, err := plan.DecodeReport([]byte(docs["report"].String()))
	if err != nil {
		r.Checking.Failed = "the report cannot be read: " + err.Error()
		return
	}
	r.Checking.Failed, r.Checking.Problems = "", nil
	r.Checking.since, r.Checking.sinceChart = r.history.rev, r.charts.rev
	r.Shown++
	r.Day = Day{Plan: r.history.Plan, Report: report}
	r.ports.chart.SetReport(docs["report"])
	r.ports.chart.SetPrivate(docs["private"])
	r.dayRaw = docs["day"]
	r.ports.strip.SetDay(r.dayRaw)
	r.hour.Day = readDayDoc(docs["day"])
	r.hour.place(report.Depart)
}

func (r *Checks) refused(a engine.Reply, docs map[string]Doc) {
	r.Checking.Failed = a.Words
	var body engine.ProblemsBody
	_ = json.Unmarshal(a.Body, &body) // without a body there are no problems to list
	r.Checking.Problems = body.Problems
	r.Day = Day{Plan: r.history.Plan}
	r.Shown++
	r.clearViews()
	r.ports.chart.SetPrivate(docs["private"])
}

// clearViews takes everything off the views that was worked out.
func (r *Checks) clearViews() {
	r.hour.Day = dayDoc{}
	r.ports.chart.SetWater(nil, nil)
	r.clearFound()
}

// clearFound takes what was found off the views, and leaves the water.
func (r *Checks) clearFound() {
	r.dayRaw, r.departures.Ribbon, r.Moving = nil, ribbon{}, nil
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
func (h *Hour) place(depart *time.Time) {
	inside := h.At >= h.Day.From && h.At <= h.Day.To
	if (!h.chosen || !inside) && depart != nil {
		h.At, h.chosen = depart.Unix(), false
	}
	h.ports.strip.SetCursor(h.At)
	h.colour()
}

// Cursor is told that the hour was moved.
func (h *Hour) move(at int64) {
	h.At, h.chosen = at, true
	h.colour()
}

// colourWater colours the chart for the hour: by the nearest of the heights the
// engine worked out.
func (h *Hour) colour() {
	h.ports.chart.SetWater(h.WaterAt(h.At), h.Day.WaterSets)
}

func (h *Hour) WaterAt(at int64) *hazards.Water {
	const step = 600 // seconds from one row to the next
	d := &h.Day
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

// HeightAt is the height of tide at the hour, for the words beside the chart.
func (h *Hour) HeightAt(at int64) *float64 {
	if h.Day.Tide == nil {
		return nil
	}
	var near *float64
	best := int64(5*60 + 1)
	for _, p := range h.Day.Tide.Points {
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
	Why           *engine.Slot
}

// departs says whether the day that was checked last has a departure.
func (r *Checks) departs() bool { return r.Day.Report != nil && r.Day.Report.Depart != nil }

// ribbonRest is how long the plan must rest before its departures are asked for.
const ribbonRest = 250 * time.Millisecond

// askRibbon asks for the departures of the newest plan, once it rests.
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

// Stale says whether what is on the screen was checked before the last change.
func (r *Checks) Stale() bool {
	return r.Checking.since != r.history.rev || r.Checking.sinceChart != r.charts.rev || r.charts.reading()
}
