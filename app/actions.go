package app

import (
	"strconv"
	"strings"
	"time"

	"github.com/paulmach/orb"

	"keelroom/app/edit"
	"keelroom/hazards/plan"
)

// Do carries out what a button says.
func (r *Room) Do(name, arg string) {
	do, ok := actions[name]
	switch {
	case !ok:
	case atOnce[name]:
		do(r, arg)
	case onlyChoices[name]:
		r.startup.whenReady(func() { do(r, arg) })
	default:
		r.startup.whenStarted(func() { do(r, arg) })
	}
	r.ports.redraw()
}

// actions by name.
var actions map[string]func(r *Room, arg string)

func init() {
	actions = map[string]func(r *Room, arg string){
		"tab":  func(r *Room, arg string) { r.view.tab = arg; r.ports.device.Reveal("tab-" + arg) },
		"undo": func(r *Room, _ string) { r.history.undo() },
		"redo": func(r *Room, _ string) { r.history.redo() },
		"palette": func(r *Room, arg string) {
			r.settings.setPalette(arg)
			r.settings.set(settingPalette, r.settings.values[settingPalette])
		},
		"dismiss":        func(r *Room, arg string) { r.notices.dismiss(number32(arg)) },
		"hints-gone":     func(r *Room, _ string) { r.settings.set(settingHints, "gone") },
		"understood":     func(r *Room, _ string) { r.settings.set(settingCaution, "read") },
		"fit":            func(r *Room, _ string) { r.fitPlan() },
		"zoom-in":        func(r *Room, _ string) { r.ports.chart.ZoomBy(1) },
		"zoom-out":       func(r *Room, _ string) { r.ports.chart.ZoomBy(-1) },
		"mode":           func(r *Room, arg string) { r.sketch.setMode(arg) },
		"sketch-done":    func(r *Room, _ string) { r.ports.chart.SketchDone() },
		"sketch-back":    func(r *Room, _ string) { r.ports.chart.SketchBack() },
		"sketch-cancel":  func(r *Room, _ string) { r.ports.chart.SketchCancel(); r.sketch.setMode(modeLook) },
		"sketch-centre":  func(r *Room, _ string) { r.ports.chart.AddAtCentre() },
		"go-finding":     func(r *Room, arg string) { r.goToFinding(number32(arg)) },
		"go-vertex":      goToVertex,
		"remove-vertex":  removeVertex,
		"insert-vertex":  insertVertex,
		"unselect":       func(r *Room, _ string) { r.selection.choosePoint(nothing) },
		"place-gone":     func(r *Room, _ string) { r.places.set(nil) },
		"place-stay":     placeStay,
		"place-route":    placeRoute,
		"remove-part":    removePart,
		"way-back":       func(r *Room, _ string) { r.history.try(edit.ReturnRoute) },
		"enter":          enterChoice,
		"ribbon-take":    func(r *Room, _ string) { r.takeSlot() },
		"ribbon-gone":    func(r *Room, _ string) { r.departures.ribbon.why = nil },
		"series-move":    moveSeries,
		"stations":       func(r *Room, _ string) { r.stations.find(r.stations.search.text) },
		"station":        func(r *Room, arg string) { r.stations.take(arg) },
		"tide-table":     func(r *Room, _ string) { r.forms.useTable() },
		"tide-level":     func(r *Room, _ string) { r.forms.useLevel() },
		"tide-secondary": func(r *Room, _ string) { r.forms.useSecondary() },
		"open-files":     func(r *Room, _ string) { r.ports.device.Pick(true, "", r.files.open) }, // updates end in any number
		"open-plan":      func(r *Room, arg string) { r.plans.open(arg) },
		"set-show":       func(r *Room, arg string) { r.charts.show(arg) },
		"set-raise":      func(r *Room, arg string) { r.charts.raise(arg) },
		"set-remove":     func(r *Room, arg string) { r.charts.removeSet(arg) },
		"set-text":       func(r *Room, arg string) { r.charts.showText(arg) },
		"opening-stop":   func(r *Room, arg string) { r.cells.stopOpening(arg) },
		"cells-remove":   func(r *Room, _ string) { r.cells.removeAll() },
		"set-back":       func(r *Room, arg string) { r.charts.bringBack(arg) },
		"shared-open":    func(r *Room, _ string) { r.files.openShared() },
		"notice-do":      noticeDo,
		"route-here":     func(r *Room, _ string) { r.routeHere(false) },
		"stay-here":      func(r *Room, _ string) { r.routeHere(true) },
		"set-go":         func(r *Room, arg string) { r.charts.goToSet(arg) },
		"demo-chart":     func(r *Room, _ string) { r.charts.bringDemoBack() },
		"demo-day":       func(r *Room, _ string) { r.plans.openDemo() },
		"private-gone":   removePrivate,
		"sketch-keep":    func(r *Room, _ string) { r.sketch.keep() },
		"sketch-drop":    func(r *Room, _ string) { r.sketch.form = nil; r.forms.clearDraft("draft-name") },
		"taking-stop":    func(r *Room, arg string) { r.files.stopTaking(arg) },
		"list-more":      func(r *Room, arg string) { r.view.showMore(arg) },
		"list-window":    func(r *Room, arg string) { part, vertex := two(arg); r.view.showWindow(part, vertex) },
		"try-again":      func(r *Room, _ string) { r.TryAgain() },
		"plan-new":       func(r *Room, _ string) { r.plans.begin() },
		"plan-copy":      func(r *Room, _ string) { r.plans.copyOpen() },
		"plan-delete":    func(r *Room, arg string) { r.plans.delete(arg) },
		"plan-back":      func(r *Room, arg string) { r.plans.bringBack(arg) },
		"export-plan":    func(r *Room, _ string) { r.exports.plan() },
		"export-report":  func(r *Room, _ string) { r.exports.report() },
		"export-gpx":     func(r *Room, _ string) { r.exports.gpx() },
		"export-all":     func(r *Room, _ string) { r.exports.all() },
		"share":          func(r *Room, _ string) { r.exports.share() },
		"reload":         func(r *Room, _ string) { r.loadAgain() },
		"print":          func(r *Room, _ string) { r.ports.device.Print() },
	}
}

// noticeDo does what a message offers, and takes the message away.
func noticeDo(r *Room, arg string) {
	for _, n := range r.notices.list {
		if n.id == number32(arg) && n.do != "" {
			r.notices.dismiss(n.id)
			r.Do(n.do, n.arg)
			return
		}
	}
}

// routeHere leads the day on to the place that was pressed.
func (r *Room) routeHere(stay bool) {
	place := r.places.place
	if place == nil || !place.reachable() {
		return
	}
	r.places.set(nil)
	until := r.stayUntil()
	if !r.history.try(func(p *plan.Plan) error {
		if err := edit.AddRoute(p, []orb.Point{place.at}, r.sketch.firstHour()); err != nil || !stay {
			return err
		}
		return edit.AddStay(p, "Stay "+strconv.Itoa(len(p.Stays())+1), plan.AtAnchor, until)
	}) {
		return
	}
	if r.view.tab = tabRoute; stay {
		r.view.tab = tabStays
	}
}

func number32(s string) int {
	n, err := strconv.Atoi(s)
	if err != nil {
		return -1
	}
	return n
}

// two reads "3,4", as buttons of lists carry it.
func two(arg string) (a, b int) {
	x, y, _ := strings.Cut(arg, ",")
	return number32(x), number32(y)
}

func (r *Room) fitPlan() {
	if b, ok := planBounds(r.history.plan); ok {
		r.ports.chart.Fit(b)
		return
	}
	for _, s := range r.charts.sets {
		if s.info.Bounds != nil {
			r.ports.chart.Fit(*s.info.Bounds)
			return
		}
	}
}

func (r *charts) goToSet(id string) {
	if _, s := r.findSet(id); s != nil && s.info.Bounds != nil {
		r.ports.chart.Fit(*s.info.Bounds)
	}
}

// goToFinding shows where and when a finding holds.
func (r *Room) goToFinding(i int) {
	if r.checks.day.Report == nil || i < 0 || i >= len(r.checks.day.Report.Findings) {
		return
	}
	f := &r.checks.day.Report.Findings[i]
	r.selection.finding = i
	if f.Time != nil {
		r.hour.move(f.Time.Unix())
		r.ports.strip.SetCursor(r.hour.at)
	}
	if f.Geometry != nil {
		r.ports.chart.GoTo(f.Geometry.Bound().Center())
	}
}

// vertexAt is where a waypoint of a part is.
func (sl *selection) vertexAt(part, vertex int) (orb.Point, bool) {
	if part < 0 || part >= len(sl.history.plan.Parts) {
		return orb.Point{}, false
	}
	if s := sl.history.plan.Parts[part].Stay; s != nil {
		return s.At, true
	}
	points := sl.history.plan.Parts[part].Route.Points
	if vertex < 0 || vertex >= len(points) {
		return orb.Point{}, false
	}
	return points[vertex], true
}

func goToVertex(r *Room, arg string) {
	part, vertex := two(arg)
	at, ok := r.selection.vertexAt(part, vertex)
	if !ok {
		return
	}
	r.view.showWindow(part, vertex)
	if feature, ok := edit.FeatureOfPart(r.history.plan, part); ok {
		r.selection.choosePoint(pointRef{feature, vertex})
	}
	r.ports.chart.GoTo(at)
}

func removeVertex(r *Room, arg string) {
	part, vertex := two(arg)
	r.history.try(func(p *plan.Plan) error { return edit.RemoveVertex(p, part, vertex) })
}

// insertVertex puts a waypoint into the middle of the leg that ends at one.
func insertVertex(r *Room, arg string) {
	part, vertex := two(arg)
	a, ok := r.selection.vertexAt(part, vertex-1)
	b, ok2 := r.selection.vertexAt(part, vertex)
	if !ok || !ok2 {
		return
	}
	r.history.try(func(p *plan.Plan) error {
		return edit.InsertVertex(p, part, vertex, orb.Point{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2})
	})
}

func removePart(r *Room, arg string) {
	r.history.try(func(p *plan.Plan) error { return edit.RemovePart(p, number32(arg)) })
}

// placeStay ends the day so far with a stay of two hours.
func placeStay(r *Room, _ string) {
	r.places.set(nil)
	if r.history.try(func(p *plan.Plan) error {
		return edit.AddStay(p, "Stay "+strconv.Itoa(len(p.Stays())+1), plan.AtAnchor, r.stayUntil())
	}) {
		r.view.tab = tabStays
	}
}

// stayUntil is a first guess of when a new stay ends, for the skipper to change:
// two hours after she comes there, as far as that is known.
func (r *Room) stayUntil() time.Time {
	if d := r.checks.day.Report; d != nil && d.Back != nil {
		return d.Back.Add(2 * time.Hour).Round(5 * time.Minute)
	}
	last := r.ports.device.Now()
	if routes := r.history.plan.Routes(); len(routes) > 0 && routes[0].Depart != nil {
		last = *routes[0].Depart
	}
	for _, s := range r.history.plan.Stays() {
		last = s.Until
	}
	return last.Add(4 * time.Hour).Round(5 * time.Minute)
}

// placeRoute begins a sketch; its first point is where the day has come to.
func placeRoute(r *Room, _ string) {
	r.places.set(nil)
	r.sketch.setMode(modeRoute)
}

func enterChoice(r *Room, arg string) {
	id, text, _ := strings.Cut(arg, "\n")
	r.Enter(id, text)
}

func (r *Room) takeSlot() {
	if r.departures.ribbon.why != nil {
		r.LeaveAt(time.Unix(r.departures.ribbon.why.T, 0))
	}
}

func removePrivate(r *Room, arg string) {
	r.history.try(func(p *plan.Plan) error { return edit.RemovePrivate(p, number32(arg)) })
}
