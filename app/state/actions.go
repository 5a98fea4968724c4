package state

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
		r.Startup.whenReady(func() { do(r, arg) })
	default:
		r.Startup.whenStarted(func() { do(r, arg) })
	}
	r.Ports.redraw()
}

// actions by name.
var actions map[string]func(r *Room, arg string)

func init() {
	actions = map[string]func(r *Room, arg string){
		"tab":  func(r *Room, arg string) { r.View.Tab = arg; r.Ports.Device.Reveal("tab-" + arg) },
		"undo": func(r *Room, _ string) { r.History.undo() },
		"redo": func(r *Room, _ string) { r.History.redo() },
		"palette": func(r *Room, arg string) {
			r.Settings.setPalette(arg)
			r.Settings.set(SettingPalette, r.Settings.Values[SettingPalette])
		},
		"dismiss":        func(r *Room, arg string) { r.Notices.dismiss(number32(arg)) },
		"hints-gone":     func(r *Room, _ string) { r.Settings.set(SettingHints, "gone") },
		"understood":     func(r *Room, _ string) { r.Settings.set(SettingCaution, "read") },
		"fit":            func(r *Room, _ string) { r.fitPlan() },
		"zoom-in":        func(r *Room, _ string) { r.Ports.chart.ZoomBy(1) },
		"zoom-out":       func(r *Room, _ string) { r.Ports.chart.ZoomBy(-1) },
		"mode":           func(r *Room, arg string) { r.Sketch.setMode(arg) },
		"sketch-done":    func(r *Room, _ string) { r.Ports.chart.SketchDone() },
		"sketch-back":    func(r *Room, _ string) { r.Ports.chart.SketchBack() },
		"sketch-cancel":  func(r *Room, _ string) { r.Ports.chart.SketchCancel(); r.Sketch.setMode(ModeLook) },
		"sketch-centre":  func(r *Room, _ string) { r.Ports.chart.AddAtCentre() },
		"go-finding":     func(r *Room, arg string) { r.goToFinding(number32(arg)) },
		"go-vertex":      goToVertex,
		"remove-vertex":  removeVertex,
		"insert-vertex":  insertVertex,
		"unselect":       func(r *Room, _ string) { r.Selection.choosePoint(nothing) },
		"place-gone":     func(r *Room, _ string) { r.Places.set(nil) },
		"lie-find":       func(r *Room, arg string) { r.Lying.find(number32(arg)) },
		"lie-stop":       func(r *Room, _ string) { r.Lying.stop() },
		"lie-gone":       func(r *Room, _ string) { r.Lying.drop() },
		"lie-show":       func(r *Room, arg string) { r.Lying.show(number32(arg)) },
		"lie-at":         func(r *Room, arg string) { r.Lying.take(number32(arg)) },
		"lie-ask":        func(r *Room, arg string) { r.Lying.ask(number32(arg), r.Places.Place) },
		"lie-here":       func(r *Room, arg string) { r.lieHere(number32(arg)) },
		"place-stay":     placeStay,
		"place-route":    placeRoute,
		"remove-part":    removePart,
		"way-back":       func(r *Room, _ string) { r.History.try(edit.ReturnRoute) },
		"enter":          enterChoice,
		"ribbon-take":    func(r *Room, _ string) { r.takeSlot() },
		"ribbon-gone":    func(r *Room, _ string) { r.Departures.Ribbon.Why = nil },
		"series-move":    moveSeries,
		"stations":       func(r *Room, _ string) { r.Stations.find(r.Stations.Search.Text) },
		"station":        func(r *Room, arg string) { r.Stations.take(arg) },
		"tide-table":     func(r *Room, _ string) { r.Forms.useTable() },
		"tide-level":     func(r *Room, _ string) { r.Forms.useLevel() },
		"tide-secondary": func(r *Room, _ string) { r.Forms.useSecondary() },
		"open-files":     func(r *Room, _ string) { r.Ports.Device.Pick(true, "", r.Files.Open) }, // updates end in any number
		"open-plan":      func(r *Room, arg string) { r.Plans.open(arg) },
		"set-show":       func(r *Room, arg string) { r.Charts.show(arg) },
		"set-raise":      func(r *Room, arg string) { r.Charts.raise(arg) },
		"set-remove":     func(r *Room, arg string) { r.Charts.removeSet(arg) },
		"set-text":       func(r *Room, arg string) { r.Charts.showText(arg) },
		"opening-stop":   func(r *Room, arg string) { r.Cells.stopOpening(arg) },
		"cells-remove":   func(r *Room, _ string) { r.Cells.removeAll() },
		"set-back":       func(r *Room, arg string) { r.Charts.bringBack(arg) },
		"shared-open":    func(r *Room, _ string) { r.Files.openShared() },
		"notice-do":      noticeDo,
		"route-here":     func(r *Room, _ string) { r.routeHere(false) },
		"stay-here":      func(r *Room, _ string) { r.routeHere(true) },
		"set-go":         func(r *Room, arg string) { r.Charts.goToSet(arg) },
		"demo-chart":     func(r *Room, _ string) { r.Charts.bringDemoBack() },
		"demo-day":       func(r *Room, _ string) { r.Plans.openDemo() },
		"private-gone":   removePrivate,
		"sketch-keep":    func(r *Room, _ string) { r.Sketch.keep() },
		"sketch-drop":    func(r *Room, _ string) { r.Sketch.Form = nil; r.Forms.clearDraft("draft-name") },
		"taking-stop":    func(r *Room, arg string) { r.Files.stopIntake(arg) },
		"list-more":      func(r *Room, arg string) { r.View.showMore(arg) },
		"list-window":    func(r *Room, arg string) { part, vertex := two(arg); r.View.showWindow(part, vertex) },
		"try-again":      func(r *Room, _ string) { r.TryAgain() },
		"plan-new":       func(r *Room, _ string) { r.Plans.begin() },
		"plan-copy":      func(r *Room, _ string) { r.Plans.copyOpen() },
		"plan-delete":    func(r *Room, arg string) { r.Plans.delete(arg) },
		"plan-back":      func(r *Room, arg string) { r.Plans.bringBack(arg) },
		"export-plan":    func(r *Room, _ string) { r.exports.plan() },
		"export-report":  func(r *Room, _ string) { r.exports.report() },
		"export-gpx":     func(r *Room, _ string) { r.exports.gpx() },
		"export-all":     func(r *Room, _ string) { r.exports.all() },
		"share":          func(r *Room, _ string) { r.exports.share() },
		"reload":         func(r *Room, _ string) { r.loadAgain() },
		"watch-drop":     func(r *Room, _ string) { r.Watch.drop() },
		"watch-ack":      func(r *Room, _ string) { r.Watch.acknowledge() },
		"watch-end":      func(r *Room, _ string) { r.Watch.askEnd() },
		"watch-end-now":  func(r *Room, _ string) { r.Watch.end() },
		"watch-keep-on":  func(r *Room, _ string) { r.Watch.goOn() },
		"watch-attempt":  func(r *Room, _ string) { r.Watch.lookout.Attempt() },
		"watch-sound":    func(r *Room, _ string) { r.Watch.soundOn() },
		"watch-move":     func(r *Room, _ string) { r.Watch.moveBy() },
		"watch-aimed":    func(r *Room, _ string) { r.Watch.moveToAimed() },
		"watch-relay":    func(r *Room, _ string) { r.Watch.relay() },
		"watch-plan":     func(r *Room, _ string) { r.Watch.intoPlan(r.History.try) },
		"watch-go":       func(r *Room, _ string) { r.Watch.goTo() },
		"print":          func(r *Room, _ string) { r.Checks.drawSheet(); r.Ports.Device.Print() },
	}
}

// noticeDo does what a message offers, and takes the message away.
func noticeDo(r *Room, arg string) {
	for _, n := range r.Notices.list {
		if n.ID == number32(arg) && n.Do != "" {
			r.Notices.dismiss(n.ID)
			r.Do(n.Do, n.arg)
			return
		}
	}
}

// routeHere leads the day on to the place that was pressed.
func (r *Room) routeHere(stay bool) {
	place := r.Places.Place
	if place == nil || !place.reachable() {
		return
	}
	r.Places.set(nil)
	until := r.stayUntil()
	if !r.History.try(func(p *plan.Plan) error {
		if err := edit.AddRoute(p, []orb.Point{place.At}, r.Sketch.firstHour()); err != nil || !stay {
			return err
		}
		return edit.AddStay(p, "Stay "+strconv.Itoa(len(p.Stays())+1), plan.AtAnchor, until)
	}) {
		return
	}
	if r.View.Tab = TabRoute; stay {
		r.View.Tab = TabStays
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
	if b, ok := planBounds(r.History.Plan); ok {
		r.Ports.chart.Fit(b)
		return
	}
	for _, s := range r.Charts.Sets {
		if s.Info.Bounds != nil {
			r.Ports.chart.Fit(*s.Info.Bounds)
			return
		}
	}
}

func (cs *Charts) goToSet(id string) {
	if _, s := cs.FindSet(id); s != nil && s.Info.Bounds != nil {
		cs.ports.chart.Fit(*s.Info.Bounds)
	}
}

// goToFinding shows where and when a finding holds.
func (r *Room) goToFinding(i int) {
	if r.Checks.Day.Report == nil || i < 0 || i >= len(r.Checks.Day.Report.Findings) {
		return
	}
	f := &r.Checks.Day.Report.Findings[i]
	r.Selection.Finding = i
	if f.Time != nil {
		r.Hour.move(f.Time.Unix())
		r.Ports.strip.SetCursor(r.Hour.At)
	}
	if f.Geometry != nil {
		r.Ports.chart.GoTo(f.Geometry.Bound().Center())
	}
}

// vertexAt is where a waypoint of a part is.
func (sl *Selection) vertexAt(part, vertex int) (orb.Point, bool) {
	if part < 0 || part >= len(sl.history.Plan.Parts) {
		return orb.Point{}, false
	}
	if s := sl.history.Plan.Parts[part].Stay; s != nil {
		return s.At, true
	}
	points := sl.history.Plan.Parts[part].Route.Points
	if vertex < 0 || vertex >= len(points) {
		return orb.Point{}, false
	}
	return points[vertex], true
}

func goToVertex(r *Room, arg string) {
	part, vertex := two(arg)
	at, ok := r.Selection.vertexAt(part, vertex)
	if !ok {
		return
	}
	r.View.showWindow(part, vertex)
	if feature, ok := edit.FeatureOfPart(r.History.Plan, part); ok {
		r.Selection.choosePoint(pointRef{feature, vertex})
	}
	r.Ports.chart.GoTo(at)
}

func removeVertex(r *Room, arg string) {
	part, vertex := two(arg)
	r.History.try(func(p *plan.Plan) error { return edit.RemoveVertex(p, part, vertex) })
}

// insertVertex puts a waypoint into the middle of the leg that ends at one.
func insertVertex(r *Room, arg string) {
	part, vertex := two(arg)
	a, ok := r.Selection.vertexAt(part, vertex-1)
	b, ok2 := r.Selection.vertexAt(part, vertex)
	if !ok || !ok2 {
		return
	}
	r.History.try(func(p *plan.Plan) error {
		return edit.InsertVertex(p, part, vertex, orb.Point{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2})
	})
}

func removePart(r *Room, arg string) {
	r.History.try(func(p *plan.Plan) error { return edit.RemovePart(p, number32(arg)) })
}

// placeStay ends the day so far with a stay of two hours.
func placeStay(r *Room, _ string) {
	r.Places.set(nil)
	if r.History.try(func(p *plan.Plan) error {
		return edit.AddStay(p, "Stay "+strconv.Itoa(len(p.Stays())+1), plan.AtAnchor, r.stayUntil())
	}) {
		r.View.Tab = TabStays
	}
}

// stayUntil is a first guess of when a new stay ends, for the skipper to change:
// two hours after she comes there, as far as that is known.
func (r *Room) stayUntil() time.Time {
	if d := r.Checks.Day.Report; d != nil && d.Back != nil {
		return d.Back.Add(2 * time.Hour).Round(5 * time.Minute)
	}
	last := r.Ports.Device.Now()
	if routes := r.History.Plan.Routes(); len(routes) > 0 && routes[0].Depart != nil {
		last = *routes[0].Depart
	}
	for _, s := range r.History.Plan.Stays() {
		last = s.Until
	}
	return last.Add(4 * time.Hour).Round(5 * time.Minute)
}

// placeRoute begins a sketch; its first point is where the day has come to.
func placeRoute(r *Room, _ string) {
	r.Places.set(nil)
	r.Sketch.setMode(ModeRoute)
}

func enterChoice(r *Room, arg string) {
	id, text, _ := strings.Cut(arg, "\n")
	r.Enter(id, text)
}

func (r *Room) takeSlot() {
	if r.Departures.Ribbon.Why != nil {
		r.LeaveAt(time.Unix(r.Departures.Ribbon.Why.T, 0))
	}
}

func removePrivate(r *Room, arg string) {
	r.History.try(func(p *plan.Plan) error { return edit.RemovePrivate(p, number32(arg)) })
}
