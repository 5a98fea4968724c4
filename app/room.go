package app

import (
	"keelroom/hazards/plan"
)

// Room is the state of the screen: the open plan with its history, the charts,
// the newest report, and what is being done. All its methods run on the screen's
// turn. It must be made by NewRoom.
type Room struct {
	build string

	ports      *ports
	view       *view
	notices    *notices
	settings   *settings
	aside      *aside
	history    *history
	startup    *startup
	keeper     *keeper
	plans      *plans
	charts     *charts
	cells      *cells
	hour       *hour
	departures *departures
	checks     *checks
	places     *places
	selection  *selection
	stations   *stations
	forms      *forms
	sketch     *sketch
	files      *files
	exports    *exports
}

// pointRef is a chosen waypoint or stay: a feature of the plan file.
type pointRef struct{ feature, vertex int }

var nothing = pointRef{-1, -1}

// typing is what was typed into a field and refused.
type typing struct {
	text, wrong string
	choices     []choice
}

// choice is one answer to a question that what was typed leaves open.
type choice struct{ label, value string }

// NewRoom makes the state of a screen.
func NewRoom(e Engine, s Store, d Device, build string) *Room {
	r := &Room{build: build}
	r.ports = &ports{engine: e, store: s, device: d, chart: blindChart{}, strip: blindStrip{}}
	r.view = &view{tab: tabWatch, progress: "Opening what was kept."}
	r.notices = &notices{ports: r.ports, offers: r.offers}
	r.settings = &settings{ports: r.ports, notices: r.notices, values: map[string]string{}}
	r.aside = &aside{settings: r.settings}
	r.startup = &startup{}
	r.wirePlan()
	r.wireCharts()
	r.wireChecks()
	r.wireForms()
	return r
}

// wirePlan joins the parts that hold and keep plans.
func (r *Room) wirePlan() {
	r.history = &history{ports: r.ports, notices: r.notices, take: r.take, plan: plan.New()}
	r.keeper = &keeper{ports: r.ports, notices: r.notices, settings: r.settings, history: r.history, startup: r.startup,
		show: r.show, recheck: func() { r.checks.recheck() }, savingCharts: func() bool { return r.charts.saving() }}
	r.plans = &plans{ports: r.ports, view: r.view, notices: r.notices, settings: r.settings, history: r.history, keeper: r.keeper, show: r.show}
}

// wireCharts joins the parts that hold and open charts.
func (r *Room) wireCharts() {
	r.charts = &charts{ports: r.ports, view: r.view, notices: r.notices, settings: r.settings, aside: r.aside, revs: map[string]string{},
		recheck: func() { r.checks.recheck() }, fade: func() { r.checks.fade() }, setPlace: func(p *placeInfo) { r.places.set(p) }, dropRibbon: func() { r.departures.drop() }}
	r.cells = &cells{ports: r.ports, view: r.view, notices: r.notices, aside: r.aside, charts: r.charts, recheck: func() { r.checks.recheck() }}
	r.charts.cells = r.cells
	r.files = &files{ports: r.ports, view: r.view, notices: r.notices, aside: r.aside, startup: r.startup, keeper: r.keeper, plans: r.plans, charts: r.charts, cells: r.cells}
}

// wireChecks joins the parts that hold what the engine answers.
func (r *Room) wireChecks() {
	r.hour = &hour{ports: r.ports, history: r.history}
	r.departures = &departures{ports: r.ports, notices: r.notices, aside: r.aside, history: r.history, charts: r.charts, departs: func() bool { return r.checks.departs() }}
	r.checks = &checks{ports: r.ports, view: r.view, aside: r.aside, history: r.history, charts: r.charts, hour: r.hour, departures: r.departures}
	r.places = &places{ports: r.ports, aside: r.aside, history: r.history, charts: r.charts, hour: r.hour}
	r.exports = &exports{ports: r.ports, notices: r.notices, settings: r.settings, history: r.history, keeper: r.keeper, charts: r.charts, cells: r.cells, checks: r.checks}
}

// wireForms joins the parts that the skipper's hands are at.
func (r *Room) wireForms() {
	r.selection = &selection{ports: r.ports, view: r.view, history: r.history, point: nothing, finding: -1}
	r.stations = &stations{ports: r.ports, view: r.view, notices: r.notices, history: r.history}
	r.forms = &forms{ports: r.ports, notices: r.notices, history: r.history, stations: r.stations, typed: map[string]typing{}}
	r.sketch = &sketch{ports: r.ports, view: r.view, history: r.history, charts: r.charts, forms: r.forms, mode: modeLook}
}

// Attach gives the room its views; the first calls of both come before Start.
func (r *Room) Attach(c ChartView, s StripView) { r.ports.chart, r.ports.strip = c, s }

// Turn runs something that is the room's business and says whether the screen
// has to be drawn again.
func (r *Room) Turn(run func()) (changed bool) {
	r.ports.dirty = false
	run()
	return r.ports.dirty
}

// Start reads what is kept and opens the plan that was open, or the demo day.
func (r *Room) Start() {
	waiting := r.keeper.watchStore(func() bool { return !r.startup.ready }, slowOpening)
	r.ports.store.Load(func(k Kept, err error) {
		waiting()
		if err != nil {
			r.notices.notify(true, "What was kept on this device cannot be read: "+sentence(err)+" Nothing will be saved until that is mended; export what matters.")
			r.keeper.save.broken = true
		}
		r.begin(k)
	})
}

func (r *Room) begin(k Kept) {
	r.startup.ready = true
	if k.Settings != nil {
		r.settings.values = k.Settings
	}
	r.keeper.list = k.Plans
	r.aside.read()
	r.settings.setPalette(r.settings.values[settingPalette])
	r.startup.chooseEarly()
	r.charts.openSets(k.Sets)
	if id := r.settings.values[settingPlan]; id != "" && r.keeper.known(id) {
		r.plans.open(id)
		return
	}
	if len(r.keeper.list) > 0 {
		r.plans.open(newest(r.keeper.list).ID)
		return
	}
	r.plans.openDemo()
}

// show makes everything follow the text of the open plan, after it was opened.
func (r *Room) show() {
	p, err := plan.DecodeDraft([]byte(r.history.open.Text))
	r.history.unread = err
	if err != nil {
		// Nothing of another plan may stand under its name.
		p = plan.New()
		p.Title = "A plan that cannot be read"
		r.notices.notify(true, "This plan cannot be read, and nothing of it is changed: "+plain(err)+". Open another one.")
		r.keeper.save.unreadable = r.history.open.ID
	}
	r.history.plan, r.history.open.Title = p, p.Title
	r.history.rev++
	r.forms.typed, r.hour.chosen = map[string]typing{}, false
	r.places.set(nil)
	r.forms.drafts, r.stations.search, r.selection.finding = nil, stationSearch{}, -1
	r.view.more, r.view.windows = nil, nil
	r.ports.chart.SketchCancel()
	r.sketch.setMode(modeLook)
	r.checks.day = Day{Plan: p}
	r.checks.checking.failed, r.checks.checking.problems = "", nil
	r.checks.shown++
	r.checks.clearViews()
	r.ports.chart.SetPrivate(nil)
	r.ports.chart.SetPlan(r.history.open.Text)
	r.selection.choosePoint(nothing)
	r.checks.recheck()
	if b, ok := planBounds(p); ok {
		r.ports.chart.Fit(b)
	}
	r.ports.redraw()
	r.startup.catchUp()
}

// EngineLost is told that the engine was started again: it has lost the charts.
func (r *Room) EngineLost(why string) {
	r.notices.notify(true, "The part that checks stopped ("+why+") and was started again; the charts are being read anew.")
	lost := r.files.looking
	for _, t := range lost {
		r.files.endTaking(t)
		r.notices.notify(true, t.name+" was not opened, or not to its end: open it again.")
	}
	r.files.looking = nil
	r.checks.checking, r.departures.ribbon, r.stations.search = checking{}, ribbon{}, stationSearch{}
	r.places.set(nil)
	r.checks.day = Day{Plan: r.history.plan} // no verdict may stand that nothing is there to keep up
	r.checks.shown++
	r.checks.clearViews()
	r.charts.resend()
	r.checks.recheck()
	for _, t := range lost {
		t.next()
	}
}

// OtherTab is told that another tab has saved a state of a plan.
func (r *Room) OtherTab(id string, rev int) { r.keeper.otherTab(id, rev) }

// OpenFiles takes files that were picked or dropped.
func (r *Room) OpenFiles(list []File) { r.files.open(list) }

// Shared takes files that came by the share target.
func (r *Room) Shared(list []File) { r.files.share(list) }

// Unreadable is told why files that were given cannot be read.
func (r *Room) Unreadable(why string) { r.files.unreadable(why) }
