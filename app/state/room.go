package state

import (
	"github.com/paulmach/orb"

	"keelroom/hazards/plan"
)

// Room joins the parts of the state, each of which has one job, and takes what the skipper
// does and what comes from elsewhere. All its methods run on the screen's turn. It must be
// made by NewRoom.
type Room struct {
	Build string

	Ports      *Ports
	View       *View
	Notices    *Notices
	Settings   *Settings
	aside      *Aside
	History    *History
	Startup    *Startup
	Keeper     *Keeper
	Plans      *Plans
	Charts     *Charts
	Cells      *Cells
	Hour       *Hour
	Departures *Departures
	Checks     *Checks
	Places     *Places
	Lying      *Lying
	Selection  *Selection
	Stations   *Stations
	Forms      *Forms
	Sketch     *Sketch
	Files      *Files
	Watch      *AnchorWatch
	exports    *Exports
}

// NewRoom makes the state of a screen.
func NewRoom(e Engine, s Store, d Device, build string) *Room {
	r := &Room{Build: build}
	r.Ports = &Ports{engine: e, store: s, Device: d, chart: blindChart{}, strip: blindStrip{}}
	r.View = &View{Tab: TabWatch, Progress: "Opening what was kept."}
	r.Notices = &Notices{ports: r.Ports, offers: r.offers}
	r.Settings = &Settings{ports: r.Ports, notices: r.Notices, Values: map[string]string{}}
	r.aside = &Aside{settings: r.Settings}
	r.Startup = &Startup{}
	r.wirePlan()
	r.wireCharts()
	r.wireChecks()
	r.wireForms()
	r.wireWatch()
	return r
}

// wirePlan joins the parts that hold and keep plans.
func (r *Room) wirePlan() {
	r.History = &History{ports: r.Ports, notices: r.Notices, changed: r.planChanged, Plan: plan.New()}
	r.Keeper = &Keeper{ports: r.Ports, notices: r.Notices, settings: r.Settings, history: r.History, startup: r.Startup,
		show: r.show, recheck: func() { r.Checks.recheck() }, savingCharts: func() bool { return r.Charts.saving() }}
	r.Plans = &Plans{ports: r.Ports, view: r.View, notices: r.Notices, settings: r.Settings, history: r.History, keeper: r.Keeper, show: r.show}
}

// wireCharts joins the parts that hold and open charts.
func (r *Room) wireCharts() {
	r.Charts = &Charts{ports: r.Ports, view: r.View, notices: r.Notices, settings: r.Settings, aside: r.aside, revs: map[string]string{},
		recheck: func() { r.Checks.recheck() }, fade: func() { r.Lying.drop(); r.Checks.chartsChanged() }, setPlace: func(p *PlaceInfo) { r.Places.set(p) }, dropRibbon: func() { r.Departures.drop() }}
	r.Cells = &Cells{ports: r.Ports, view: r.View, notices: r.Notices, aside: r.aside, charts: r.Charts, recheck: func() { r.Checks.recheck() }}
	r.Charts.cells = r.Cells
	r.Files = &Files{ports: r.Ports, view: r.View, notices: r.Notices, aside: r.aside, startup: r.Startup, keeper: r.Keeper, plans: r.Plans, charts: r.Charts, cells: r.Cells}
}

// wireChecks joins the parts that hold what the engine answers.
func (r *Room) wireChecks() {
	r.Hour = &Hour{ports: r.Ports, history: r.History}
	r.Departures = &Departures{ports: r.Ports, notices: r.Notices, aside: r.aside, history: r.History, charts: r.Charts, departs: func() bool { return r.Checks.departs() }}
	r.Checks = &Checks{build: r.Build, ports: r.Ports, view: r.View, aside: r.aside, history: r.History, charts: r.Charts, hour: r.Hour, departures: r.Departures}
	r.Places = &Places{ports: r.Ports, aside: r.aside, history: r.History, charts: r.Charts, hour: r.Hour}
	r.Lying = &Lying{ports: r.Ports, view: r.View, aside: r.aside, history: r.History, charts: r.Charts, arrivals: r.arrivalAt}
	r.exports = &Exports{ports: r.Ports, notices: r.Notices, settings: r.Settings, history: r.History, keeper: r.Keeper, charts: r.Charts, cells: r.Cells, checks: r.Checks}
}

// wireForms joins the parts that the skipper's hands are at.
func (r *Room) wireForms() {
	r.Selection = &Selection{ports: r.Ports, view: r.View, history: r.History, point: nothing, Finding: -1}
	r.Stations = &Stations{ports: r.Ports, view: r.View, notices: r.Notices, history: r.History}
	r.Forms = &Forms{ports: r.Ports, notices: r.Notices, history: r.History, stations: r.Stations, Rejected: map[string]rejected{}}
	r.Sketch = &Sketch{ports: r.Ports, view: r.View, history: r.History, charts: r.Charts, forms: r.Forms, Mode: ModeLook}
}

// wireWatch joins the anchor watch.
func (r *Room) wireWatch() {
	r.Watch = &AnchorWatch{ports: r.Ports, notices: r.Notices, history: r.History, lookout: blindLookout{},
		report: func() *Day { return &r.Checks.Day }, old: func() bool { return r.Checks.Stale() || r.Checks.Recalled() }, aimed: r.aimed}
}

// aimed is the place that was tapped, else the middle of the chart.
func (r *Room) aimed() (at orb.Point, tapped, ok bool) {
	switch {
	case r.Places.Place != nil:
		return r.Places.Place.At, true, true
	case r.View.viewAt != nil:
		return *r.View.viewAt, false, true
	}
	return at, false, false
}

// AttachLookout gives the room what watches on the device, before Start.
func (r *Room) AttachLookout(l Lookout) { r.Watch.lookout = l }

// Attach gives the room its views; the first calls of both come before Start.
func (r *Room) Attach(c ChartView, s StripView) { r.Ports.chart, r.Ports.strip = c, s }

// Turn runs something that is the room's business and says whether the screen
// has to be drawn again.
func (r *Room) Turn(run func()) (changed bool) {
	r.Ports.Dirty = false
	run()
	return r.Ports.Dirty
}

// Start reads what is kept and opens the plan that was open, or the demo day.
func (r *Room) Start() {
	waiting := r.Keeper.watchStore(func() bool { return !r.Startup.Ready }, slowOpening)
	r.Ports.store.Load(func(k Kept, err error) {
		waiting()
		if err != nil {
			r.Notices.notify(true, "What was kept on this device cannot be read: "+sentence(err)+" Nothing will be saved until that is mended; export what matters.")
			r.Keeper.Save.Broken = true
		}
		r.begin(k)
	})
}

func (r *Room) begin(k Kept) {
	r.Startup.Ready = true
	if k.Settings != nil {
		r.Watch.take(k.Settings)
		r.Settings.Values = k.Settings
	}
	r.Keeper.List = k.Plans
	r.aside.read()
	r.Settings.setPalette(r.Settings.Values[SettingPalette])
	r.Startup.chooseEarly()
	r.Charts.openSets(k.Sets)
	if id := r.Settings.Values[settingPlan]; id != "" && r.Keeper.known(id) {
		r.Plans.open(id)
		return
	}
	if len(r.Keeper.List) > 0 {
		r.Plans.open(newest(r.Keeper.List).ID)
		return
	}
	r.Plans.openDemo()
}

// show makes everything follow the text of the open plan, after it was opened.
func (r *Room) show() {
	if err := r.History.read(); err != nil {
		r.Notices.notify(true, "This plan cannot be read, and nothing of it is changed: "+plain(err)+". Open another one.")
		r.Keeper.Save.unreadable = r.History.Open.ID
	}
	r.Forms.Rejected, r.Hour.chosen = map[string]rejected{}, false
	r.Places.set(nil)
	r.Lying.drop()
	r.Forms.drafts, r.Stations.Search, r.Selection.Finding = nil, stationSearch{}, -1
	r.View.more, r.View.windows = nil, nil
	r.Ports.chart.SketchCancel()
	r.Sketch.setMode(ModeLook)
	r.Checks.recalled = nil
	r.Checks.Day = Day{Plan: r.History.Plan}
	r.Checks.Checking.Failed, r.Checks.Checking.Problems = "", nil
	r.Checks.Shown++
	r.Checks.clearViews()
	r.Ports.chart.SetPrivate(nil)
	r.Ports.chart.SetPlan(r.History.Open.Text)
	r.Selection.choosePoint(nothing)
	r.Checks.recheck()
	if b, ok := planBounds(r.History.Plan); ok {
		r.Ports.chart.Fit(b)
	}
	r.Ports.redraw()
	if !r.Startup.Started {
		r.Checks.recall()
	}
	r.Startup.catchUp()
}

// EngineLost takes note that the engine was started again and so has lost the charts.
func (r *Room) EngineLost(why string) {
	r.Notices.notify(true, "The part that checks stopped ("+why+") and was started again; the charts are being read anew.")
	lost := r.Files.looking
	for _, t := range lost {
		r.Files.endIntake(t)
		r.Notices.notify(true, t.name+" was not opened, or not to its end: open it again.")
	}
	r.Files.looking = nil
	r.Checks.Checking, r.Departures.Ribbon, r.Stations.Search = checking{}, ribbon{}, stationSearch{}
	r.Places.set(nil)
	r.Checks.recalled = nil
	r.Lying.drop()
	r.Checks.Day = Day{Plan: r.History.Plan} // no verdict may stand that nothing is there to keep up
	r.Checks.Shown++
	r.Checks.clearViews()
	r.Charts.resend()
	r.Checks.recheck()
	for _, t := range lost {
		t.next()
	}
}

// planChanged makes everything follow a change of the open plan, saves and checks it.
func (r *Room) planChanged(before *plan.Plan) {
	r.Ports.chart.SetPlan(r.History.Open.Text)
	r.Places.set(nil)
	r.Lying.planChanged()
	r.Selection.follow(before)
	r.Hour.follow(before)
	r.Forms.Rejected = map[string]rejected{} // questions and mistakes were about the state before
	r.Keeper.keep()
	r.Keeper.persist()
	r.Checks.recheck()
	r.Checks.fade()
	r.Ports.redraw()
}
