package app

import (
	"encoding/json"
	"slices"
	"strings"
	"time"

	"keelroom/app/engine"
	"keelroom/hazards"
	"keelroom/hazards/plan"
)

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
func (r *Room) recheck() {
	r.ask(r.open.Text, r.rev, false)
	r.dropRibbon()
}

// dropRibbon takes away the departures of another plan or chart.
func (r *Room) dropRibbon() {
	if len(r.ribbon.slots) > 0 {
		r.ribbon = ribbon{}
		r.strip.SetRibbon(`{"step_min":10,"slots":[],"busy":true}`)
	}
}

// ask asks for a check of a plan file, which may be a try: an edit that is still
// being made.
func (r *Room) ask(text string, rev int, try bool) {
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
	q := engine.Request{Kind: engine.CheckPlan, Plan: text, PlanRev: rev, ChartRev: r.chartRev}
	asked := AskedOf(q)
	if r.setAside(asked) {
		r.planAside()
		return
	}
	r.checking.busy = true
	r.engine.Ask(q, func(a engine.Reply, docs map[string]Doc) {
		if a.State == engine.Progress {
			r.progress = a.Words
			return
		}
		r.checking.busy = false
		r.answeredOn(asked, a)
		r.answered(a, docs, try)
		if next := r.checking.waiting; next != "" {
			r.checking.waiting = ""
			r.ask(next, r.checking.waitRev, r.checking.waitTry)
		}
	})
}

// answered takes a check's answer, unless another plan is open by now.
func (r *Room) answered(a engine.Reply, docs map[string]Doc, try bool) {
	if a.PlanRev != r.rev || a.ChartRev != r.chartRev {
		return
	}
	r.progress, r.checking.aside, r.checking.old = "", false, false
	if why := r.chartAside(); why != "" && a.State == engine.Done {
		r.checking.aside = true
		r.nothingKnown(why + " Without it nothing is told of this day: under Charts, remove it, or try it once more.")
		return
	}
	switch a.State {
	case engine.Done:
		r.took(docs, try)
		if !try {
			r.askRibbon()
		}
	case engine.Failed:
		r.refused(a, docs)
	}
	r.redraw()
}

func (r *Room) took(docs map[string]Doc, try bool) {
	report, err := plan.DecodeReport([]byte(docs["report"].String()))
	if err != nil {
		r.checking.failed = "the report cannot be read: " + err.Error()
		return
	}
	r.checking.failed, r.checking.problems = "", nil
	r.checking.since, r.checking.sinceChart, r.checking.tried = r.rev, r.chartRev, try
	r.shown++
	r.day = Day{Plan: r.plan, Report: report}
	r.chart.SetReport(docs["report"])
	r.chart.SetPrivate(docs["private"])
	r.dayRaw = docs["day"]
	r.strip.SetDay(r.dayRaw)
	r.dayDoc = readDayDoc(docs["day"])
	r.placeCursor()
}

func (r *Room) refused(a engine.Reply, docs map[string]Doc) {
	r.checking.failed = a.Words
	var body engine.ProblemsBody
	_ = json.Unmarshal(a.Body, &body) // without a body there are no problems to list
	r.checking.problems = body.Problems
	r.day = Day{Plan: r.plan}
	r.shown++
	r.clearViews()
	r.chart.SetPrivate(docs["private"])
}

// clearViews takes everything off the views that was worked out.
func (r *Room) clearViews() {
	r.dayDoc = dayDoc{}
	r.chart.SetWater(nil, nil)
	r.clearFound()
}

// clearFound takes what was found off the views, and leaves the water.
func (r *Room) clearFound() {
	r.dayRaw, r.ribbon = nil, ribbon{}
	r.chart.SetReport(nil)
	r.strip.SetDay(nil)
	r.strip.SetRibbon("")
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
func (r *Room) placeCursor() {
	inside := r.cursor >= r.dayDoc.From && r.cursor <= r.dayDoc.To
	if (!r.cursorBy || !inside) && r.day.Report != nil && r.day.Report.Depart != nil {
		r.cursor, r.cursorBy = r.day.Report.Depart.Unix(), false
	}
	r.strip.SetCursor(r.cursor)
	r.colourWater()
}

// Cursor is told that the hour was moved.
func (r *Room) Cursor(at int64) {
	r.cursor, r.cursorBy = at, true
	r.colourWater()
}

// colourWater colours the chart for the hour: by the nearest of the heights the
// engine worked out.
func (r *Room) colourWater() {
	r.chart.SetWater(r.waterAt(r.cursor), r.dayDoc.WaterSets)
}

func (r *Room) waterAt(at int64) *hazards.Water {
	const step = 600 // seconds from one row to the next
	d := &r.dayDoc
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
func (r *Room) heightAt(at int64) *float64 {
	if r.dayDoc.Tide == nil {
		return nil
	}
	var near *float64
	best := int64(5*60 + 1)
	for _, p := range r.dayDoc.Tide.Points {
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

// ribbonRest is how long the plan must rest before its departures are asked for.
const ribbonRest = 250 * time.Millisecond

// askRibbon asks for the departures of the newest plan, once it rests.
func (r *Room) askRibbon() {
	rev := r.rev
	r.device.After(ribbonRest, func() {
		if rev != r.rev || r.day.Report == nil || r.day.Report.Depart == nil {
			return
		}
		q := engine.Request{Kind: engine.Ribbon, Plan: r.open.Text, PlanRev: rev, ChartRev: r.chartRev}
		asked := AskedOf(q)
		if r.setAside(asked) {
			r.ribbonAside()
			return
		}
		r.ribbon = ribbon{rev: rev, chartRev: r.chartRev, busy: true}
		r.engine.Ask(q, func(a engine.Reply, docs map[string]Doc) {
			r.answeredOn(asked, a)
			r.ribbonAnswer(a, docs)
		})
	})
}

func (r *Room) ribbonAnswer(a engine.Reply, _ map[string]Doc) {
	if a.PlanRev != r.ribbon.rev || a.ChartRev != r.ribbon.chartRev || a.PlanRev != r.rev || a.State == engine.Cancelled {
		return
	}
	var body engine.RibbonBody
	if a.State == engine.Failed {
		r.ribbon.slots = nil
	} else if err := json.Unmarshal(a.Body, &body); err == nil {
		if a.State == engine.Done {
			r.ribbon.slots = body.Slots
		} else {
			r.ribbon.slots = append(r.ribbon.slots, body.Slots...)
		}
	}
	r.ribbon.busy = a.State == engine.Progress
	b, _ := json.Marshal(map[string]any{"step_min": 10, "slots": r.ribbon.slots, "busy": r.ribbon.busy}) // plain data: does not fail
	r.strip.SetRibbon(string(b))
	if !r.ribbon.busy {
		r.redraw()
	}
}

// stationSearch is the search for a tide station.
type stationSearch struct {
	text   string
	busy   bool
	failed string
	found  []engine.StationFound
}

// FindStations searches by name, or near the chart's middle without one.
func (r *Room) FindStations(text string) {
	q := engine.Request{Kind: engine.FindStations, Text: strings.TrimSpace(text)}
	if at, ok := r.middle(); ok {
		q.Lon, q.Lat = &at[0], &at[1]
	}
	r.station = stationSearch{text: text, busy: true}
	r.engine.Ask(q, func(a engine.Reply, _ map[string]Doc) {
		if a.State == engine.Progress || a.State == engine.Cancelled {
			return
		}
		r.station.busy = false
		var body engine.StationsBody
		if err := json.Unmarshal(a.Body, &body); a.State != engine.Done || err != nil {
			r.station.failed = a.Words
		}
		r.station.found = body.Stations
		if len(body.Stations) == 0 && r.station.failed == "" {
			r.station.failed = "No station is found by that name. Try a part of it, or type a tide table instead."
		}
		r.redraw()
	})
	r.redraw()
}
