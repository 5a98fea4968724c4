package app

import (
	"strconv"
	"strings"
	"time"

	"github.com/paulmach/orb"

	"keelroom/app/edit"
	"keelroom/app/engine"
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
		r.whenReady(func() { do(r, arg) })
	default:
		r.whenStarted(func() { do(r, arg) })
	}
	r.redraw()
}

// actions by name.
var actions map[string]func(r *Room, arg string)

func init() {
	actions = map[string]func(r *Room, arg string){
		"tab":            func(r *Room, arg string) { r.tab = arg; r.device.Reveal("tab-" + arg) },
		"undo":           func(r *Room, _ string) { r.Undo() },
		"redo":           func(r *Room, _ string) { r.Redo() },
		"palette":        func(r *Room, arg string) { r.setPalette(arg); r.set(settingPalette, r.settings[settingPalette]) },
		"dismiss":        func(r *Room, arg string) { r.dismiss(number32(arg)) },
		"hints-gone":     func(r *Room, _ string) { r.set(settingHints, "gone") },
		"understood":     func(r *Room, _ string) { r.set(settingCaution, "read") },
		"fit":            func(r *Room, _ string) { r.fitPlan() },
		"zoom-in":        func(r *Room, _ string) { r.chart.ZoomBy(1) },
		"zoom-out":       func(r *Room, _ string) { r.chart.ZoomBy(-1) },
		"mode":           func(r *Room, arg string) { r.SetMode(arg) },
		"sketch-done":    func(r *Room, _ string) { r.chart.SketchDone() },
		"sketch-back":    func(r *Room, _ string) { r.chart.SketchBack() },
		"sketch-cancel":  func(r *Room, _ string) { r.chart.SketchCancel(); r.SetMode(modeLook) },
		"sketch-centre":  func(r *Room, _ string) { r.chart.AddAtCentre() },
		"go-finding":     func(r *Room, arg string) { r.goToFinding(number32(arg)) },
		"go-vertex":      goToVertex,
		"remove-vertex":  removeVertex,
		"insert-vertex":  insertVertex,
		"unselect":       func(r *Room, _ string) { r.selectPoint(nothing) },
		"place-gone":     func(r *Room, _ string) { r.setPlace(nil) },
		"place-stay":     placeStay,
		"place-route":    placeRoute,
		"remove-part":    removePart,
		"way-back":       func(r *Room, _ string) { r.try(edit.ReturnRoute) },
		"enter":          enterChoice,
		"ribbon-take":    func(r *Room, _ string) { r.takeSlot() },
		"ribbon-gone":    func(r *Room, _ string) { r.ribbon.why = nil },
		"series-move":    moveSeries,
		"stations":       func(r *Room, _ string) { r.FindStations(r.station.text) },
		"station":        func(r *Room, arg string) { r.takeStation(arg) },
		"tide-table":     func(r *Room, _ string) { r.useTable() },
		"tide-level":     func(r *Room, _ string) { r.useLevel() },
		"tide-secondary": func(r *Room, _ string) { r.useSecondary() },
		"open-files":     func(r *Room, _ string) { r.device.Pick(true, "", r.OpenFiles) }, // updates end in any number
		"open-plan":      func(r *Room, arg string) { r.OpenPlan(arg) },
		"set-show":       func(r *Room, arg string) { r.ShowSet(arg) },
		"set-raise":      func(r *Room, arg string) { r.RaiseSet(arg) },
		"set-remove":     func(r *Room, arg string) { r.RemoveSet(arg) },
		"set-paper":      func(r *Room, arg string) { r.ReadPaper(arg) },
		"opening-stop":   func(r *Room, arg string) { r.StopOpening(arg) },
		"cells-remove":   func(r *Room, _ string) { r.RemoveCells() },
		"set-back":       func(r *Room, arg string) { r.BringSetBack(arg) },
		"shared-open":    func(r *Room, _ string) { r.openShared() },
		"notice-do":      noticeDo,
		"route-here":     func(r *Room, _ string) { r.routeHere(false) },
		"stay-here":      func(r *Room, _ string) { r.routeHere(true) },
		"set-go":         func(r *Room, arg string) { r.goToSet(arg) },
		"demo-chart":     func(r *Room, _ string) { r.BringDemoBack() },
		"demo-day":       func(r *Room, _ string) { r.openDemo() },
		"private-gone":   removePrivate,
		"sketch-keep":    func(r *Room, _ string) { r.keepSketch() },
		"sketch-drop":    func(r *Room, _ string) { r.zoneForm = nil; r.clearDraft("draft-name") },
		"taking-stop":    func(r *Room, arg string) { r.StopTaking(arg) },
		"list-more":      func(r *Room, arg string) { r.ListMore(arg) },
		"list-window":    func(r *Room, arg string) { part, vertex := two(arg); r.ShowWindow(part, vertex) },
		"try-again":      func(r *Room, _ string) { r.TryAgain() },
		"plan-new":       func(r *Room, _ string) { r.NewPlan() },
		"plan-copy":      func(r *Room, _ string) { r.CopyPlan() },
		"plan-delete":    func(r *Room, arg string) { r.DeletePlan(arg) },
		"plan-back":      func(r *Room, arg string) { r.BringBack(arg) },
		"export-plan":    func(r *Room, _ string) { r.ExportPlan() },
		"export-report":  func(r *Room, _ string) { r.ExportReport() },
		"export-gpx":     func(r *Room, _ string) { r.ExportGPX() },
		"export-all":     func(r *Room, _ string) { r.ExportAll() },
		"share":          func(r *Room, _ string) { r.SharePlan() },
		"reload":         func(r *Room, _ string) { r.loadAgain() },
		"print":          func(r *Room, _ string) { r.device.Print() },
	}
}

// noticeDo does what a message offers, and takes the message away.
func noticeDo(r *Room, arg string) {
	for _, n := range r.notices {
		if n.id == number32(arg) && n.do != "" {
			r.dismiss(n.id)
			r.Do(n.do, n.arg)
			return
		}
	}
}

// routeHere leads the day on to the place that was pressed.
func (r *Room) routeHere(stay bool) {
	place := r.place
	if place == nil || !place.reachable() {
		return
	}
	r.setPlace(nil)
	until := r.stayUntil()
	if !r.try(func(p *plan.Plan) error {
		if err := edit.AddRoute(p, []orb.Point{place.at}, r.firstHour()); err != nil || !stay {
			return err
		}
		return edit.AddStay(p, "Stay "+strconv.Itoa(len(p.Stays())+1), plan.AtAnchor, until)
	}) {
		return
	}
	if r.tab = tabRoute; stay {
		r.tab = tabStays
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
	if b, ok := planBounds(r.plan); ok {
		r.chart.Fit(b)
		return
	}
	for _, s := range r.sets {
		if s.info.Bounds != nil {
			r.chart.Fit(*s.info.Bounds)
			return
		}
	}
}

func (r *Room) goToSet(id string) {
	if _, s := r.findSet(id); s != nil && s.info.Bounds != nil {
		r.chart.Fit(*s.info.Bounds)
	}
}

// goToFinding shows where and when a finding holds.
func (r *Room) goToFinding(i int) {
	if r.day.Report == nil || i < 0 || i >= len(r.day.Report.Findings) {
		return
	}
	f := &r.day.Report.Findings[i]
	r.finding = i
	if f.Time != nil {
		r.Cursor(f.Time.Unix())
		r.strip.SetCursor(r.cursor)
	}
	if f.Geometry != nil {
		r.chart.GoTo(f.Geometry.Bound().Center())
	}
}

// vertexAt is where a waypoint of a part is.
func (r *Room) vertexAt(part, vertex int) (orb.Point, bool) {
	if part < 0 || part >= len(r.plan.Parts) {
		return orb.Point{}, false
	}
	if s := r.plan.Parts[part].Stay; s != nil {
		return s.At, true
	}
	points := r.plan.Parts[part].Route.Points
	if vertex < 0 || vertex >= len(points) {
		return orb.Point{}, false
	}
	return points[vertex], true
}

func goToVertex(r *Room, arg string) {
	part, vertex := two(arg)
	at, ok := r.vertexAt(part, vertex)
	if !ok {
		return
	}
	r.ShowWindow(part, vertex)
	if feature, ok := edit.FeatureOfPart(r.plan, part); ok {
		r.selectPoint(selection{feature, vertex})
	}
	r.chart.GoTo(at)
}

func removeVertex(r *Room, arg string) {
	part, vertex := two(arg)
	r.try(func(p *plan.Plan) error { return edit.RemoveVertex(p, part, vertex) })
}

// insertVertex puts a waypoint into the middle of the leg that ends at one.
func insertVertex(r *Room, arg string) {
	part, vertex := two(arg)
	a, ok := r.vertexAt(part, vertex-1)
	b, ok2 := r.vertexAt(part, vertex)
	if !ok || !ok2 {
		return
	}
	r.try(func(p *plan.Plan) error {
		return edit.InsertVertex(p, part, vertex, orb.Point{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2})
	})
}

func removePart(r *Room, arg string) {
	r.try(func(p *plan.Plan) error { return edit.RemovePart(p, number32(arg)) })
}

// placeStay ends the day so far with a stay of two hours.
func placeStay(r *Room, _ string) {
	r.setPlace(nil)
	if r.try(func(p *plan.Plan) error {
		return edit.AddStay(p, "Stay "+strconv.Itoa(len(p.Stays())+1), plan.AtAnchor, r.stayUntil())
	}) {
		r.tab = tabStays
	}
}

// stayUntil is a first guess of when a new stay ends, for the skipper to change:
// two hours after she comes there, as far as that is known.
func (r *Room) stayUntil() time.Time {
	if d := r.day.Report; d != nil && d.Back != nil {
		return d.Back.Add(2 * time.Hour).Round(5 * time.Minute)
	}
	last := r.device.Now()
	if routes := r.plan.Routes(); len(routes) > 0 && routes[0].Depart != nil {
		last = *routes[0].Depart
	}
	for _, s := range r.plan.Stays() {
		last = s.Until
	}
	return last.Add(4 * time.Hour).Round(5 * time.Minute)
}

// placeRoute begins a sketch; its first point is where the day has come to.
func placeRoute(r *Room, _ string) {
	r.setPlace(nil)
	r.SetMode(modeRoute)
}

func enterChoice(r *Room, arg string) {
	id, text, _ := strings.Cut(arg, "\n")
	r.Enter(id, text)
}

func (r *Room) takeSlot() {
	if r.ribbon.why != nil {
		r.LeaveAt(time.Unix(r.ribbon.why.T, 0))
	}
}

// takeStation puts a station of the list into the plan.
func (r *Room) takeStation(id string) {
	plan := r.open.ID
	r.engine.Ask(engine.Request{Kind: engine.OneStation, Text: id}, func(a engine.Reply, _ map[string]Doc) {
		if a.State == engine.Progress || r.open.ID != plan { // it was for another plan
			return
		}
		if a.State != engine.Done {
			r.tell(true, "The station cannot be taken: "+a.Words)
			return
		}
		r.useStation(a.Body)
	})
}

func removePrivate(r *Room, arg string) {
	r.try(func(p *plan.Plan) error { return edit.RemovePrivate(p, number32(arg)) })
}
