package state

import (
	"encoding/json"
	"slices"
	"time"

	"keelroom/app/engine"
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

	build    string
	recalled *recalled // what is on the screen is of the last time; nil: it is not
	Checking checking
	Day      Day // the newest checked day, what is on the screen
	Moving   *Moving
	dayRaw   Doc  // what the strip shows
	Shown    int  // counts what was put on the screen of checks
	SheetDue bool // the sheet for the printer is not drawn yet of the newest answer
}

// checking is what is asked of the engine: one check at a time, and the newest
// state waits for its end.
type checking struct {
	begun    bool // charts that are read at the start were waited for
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
func (c *Checks) recheck() {
	c.request(c.history.Open.Text, c.history.rev)
	c.departures.drop()
}

// request asks for a check of a plan file.
func (c *Checks) request(text string, rev int) {
	c.compareRecalled()
	if text == "" || c.waitsForCharts() {
		return
	}
	q := engine.Request{Kind: engine.CheckPlan, Plan: text, PlanRev: rev, ChartRev: c.charts.rev}
	asked := AskedOf(q)
	c.follow(asked, rev)
	if c.Checking.busy {
		c.Checking.waiting, c.Checking.waitRev = text, rev
		return
	}
	if c.aside.has(asked) {
		c.planAside()
		return
	}
	c.Checking.busy = true
	c.ports.engine.Ask(q, func(a engine.Reply, docs map[string]Doc) {
		if a.State == engine.Progress {
			c.view.Progress = a.Words
			return
		}
		c.Checking.busy = false
		c.aside.answered(asked, a)
		c.receive(a, docs)
		if next := c.Checking.waiting; next != "" {
			c.Checking.waiting = ""
			c.request(next, c.Checking.waitRev)
		}
	})
	c.follow(asked, rev) // once more: only now the engine has the plan
}

// receive takes a check's answer, unless another plan is open by now.
func (c *Checks) receive(a engine.Reply, docs map[string]Doc) {
	if a.PlanRev != c.history.rev || a.ChartRev != c.charts.rev {
		return
	}
	c.ports.Device.StartIsOver()
	c.view.Progress, c.Checking.Aside, c.Checking.old = "", false, false
	if c.Moving != nil && c.Moving.dropped {
		c.Moving = nil
	}
	if why := c.charts.unusedChart(); why != "" && a.State == engine.Done {
		c.Checking.Aside = true
		c.nothingKnown(why + " Without it nothing is told of this day: under Charts, remove it, or try it once more.")
		return
	}
	switch a.State {
	case engine.Done:
		c.showReport(docs)
		c.sheetLater()
		c.departures.ask()
	case engine.Failed:
		c.showRefusal(a, docs)
	}
	c.ports.redraw()
}

func (c *Checks) showReport(docs map[string]Doc) {
	if c.confirms(docs) {
		c.recalled = nil
		c.Checking.since, c.Checking.sinceChart = c.history.rev, c.charts.rev
		return
	}
	c.recalled = nil
	report, err := plan.DecodeReport([]byte(docs["report"].String()))
	if err != nil {
		c.Checking.Failed = "the report cannot be read: " + err.Error()
		return
	}
	c.showDay(report, docs)
	c.Checking.since, c.Checking.sinceChart = c.history.rev, c.charts.rev
	c.store(docs)
}

// sheetAfter is how long the sheet for the printer waits for the screen to be drawn: it
// is as much to draw as all else, and until then says that nothing is checked.
const sheetAfter = 300 * time.Millisecond

// sheetLater has the sheet for the printer drawn once the screen is.
func (c *Checks) sheetLater() {
	c.SheetDue = true
	c.ports.Device.After(sheetAfter, c.drawSheet)
}

func (c *Checks) drawSheet() {
	c.SheetDue = false
	c.ports.redraw()
}

// showDay puts a checked day on the screen and the views.
func (c *Checks) showDay(report *plan.Report, docs map[string]Doc) {
	c.Checking.Failed, c.Checking.Problems = "", nil
	c.Shown++
	c.Day = Day{Plan: c.history.Plan, Report: report}
	c.ports.chart.SetReport(docs["report"])
	c.ports.chart.SetPrivate(docs["private"])
	c.dayRaw = docs["day"]
	c.ports.strip.SetDay(c.dayRaw)
	c.hour.Day = readDayDoc(docs["day"])
	c.hour.place(report.Depart)
}

func (c *Checks) showRefusal(a engine.Reply, docs map[string]Doc) {
	c.Checking.Failed = a.Words
	var body engine.ProblemsBody
	_ = json.Unmarshal(a.Body, &body) // without a body there are no problems to list
	c.Checking.Problems = body.Problems
	c.recalled = nil
	c.Day = Day{Plan: c.history.Plan}
	c.Shown++
	c.clearViews()
	c.ports.chart.SetPrivate(docs["private"])
}

// clearViews takes everything off the views that was worked out.
func (c *Checks) clearViews() {
	c.hour.Day = dayDoc{}
	c.ports.chart.SetWater(nil, nil)
	c.clearFound()
}

// clearFound takes what was found off the views, and leaves the water.
func (c *Checks) clearFound() {
	c.dayRaw, c.departures.Ribbon, c.Moving = nil, ribbon{}, nil
	c.ports.chart.SetReport(nil)
	c.ports.strip.SetDay(nil)
	c.ports.strip.SetRibbon("")
}

// departs says whether the day that was checked last has a departure.
func (c *Checks) departs() bool { return c.Day.Report != nil && c.Day.Report.Depart != nil }

// Stale says whether what is on the screen was checked before the last change.
func (c *Checks) Stale() bool {
	return c.Checking.since != c.history.rev || c.Checking.sinceChart != c.charts.rev || c.charts.reading()
}

// waitsForCharts says whether the first check has to wait for charts that are being
// read: without them nothing is known, and each of them asks for a check once it is read.
func (c *Checks) waitsForCharts() bool {
	reading := func(s *ChartSet) bool { return s.Reading }
	c.Checking.begun = c.Checking.begun || !slices.ContainsFunc(c.charts.Sets, reading)
	return !c.Checking.begun
}
