package state

import (
	"encoding/json"
	"fmt"
	"time"

	"github.com/paulmach/orb"

	"keelroom/app/edit"
	"keelroom/app/engine"
	"keelroom/hazards"
	"keelroom/hazards/plan"
)

// The modes of the chart.
const (
	ModeLook   = "look"
	ModeRoute  = "route"
	ModeZone   = "zone"
	ModeDanger = "danger"
)

// gesture is what the chart view says: which of the members count depends on
// its kind.
type gesture struct {
	Feature, Vertex int
	Lon, Lat        float64
	Finding         *int
	Mode            string
	Points          int
	Coordinates     []orb.Point
	Objects         []map[string]any
	Bounds          *[4]float64
	Text            string
}

func (g *gesture) at() orb.Point { return orb.Point{g.Lon, g.Lat} }

// ChartSays takes what was done on the chart. detail is the JSON of it.
// It reports whether the screen has to be drawn again.
func (r *Room) ChartSays(kind string, detail []byte) (changed bool) {
	if r.tooEarly(kind, detail) {
		return false
	}
	g := gesture{Feature: -1}
	if err := json.Unmarshal(detail, &g); err != nil {
		return false
	}
	switch kind {
	case "moving":
		r.Checks.moves(detail)
	case "given-up":
		r.Checks.Moving = nil
	case "resend":
		r.Checks.resend()
	case "view":
		at := g.at()
		r.View.viewAt = &at
		return false
	case "move":
		r.move(&g)
	case "insert":
		if r.onPart(&g, func(p *plan.Plan, part int) error { return edit.InsertVertex(p, part, g.Vertex, g.at()) }) {
			r.Selection.choosePoint(pointRef{g.Feature, g.Vertex})
		}
	case "remove":
		r.onPart(&g, func(p *plan.Plan, part int) error { return edit.RemoveVertex(p, part, g.Vertex) })
	case "select":
		r.Selection.choose(&g)
	case "sketching":
		r.Sketch.Points = max(g.Points, 0)
	case "sketch":
		r.Sketch.finish(&g)
	case "place":
		r.placed(&g)
	case "press":
		r.pressed(&g)
	case "trouble":
		r.Notices.notify(true, "The chart view: "+g.Text)
	}
	return true
}

func (r *Room) onPart(g *gesture, change func(p *plan.Plan, part int) error) bool {
	return r.History.try(func(p *plan.Plan) error {
		part, ok := edit.PartOfFeature(p, g.Feature)
		if !ok {
			return fmt.Errorf("this is no longer part of the plan")
		}
		return change(p, part)
	})
}

func moved(g *gesture) func(p *plan.Plan) error {
	return func(p *plan.Plan) error {
		part, ok := edit.PartOfFeature(p, g.Feature)
		if !ok {
			return fmt.Errorf("this is no longer part of the plan")
		}
		if p.Parts[part].Stay != nil {
			return edit.MoveStay(p, part, g.at())
		}
		return edit.MoveVertex(p, part, g.Vertex, g.at())
	}
}

func (r *Room) move(g *gesture) {
	rev := r.History.rev
	r.Selection.choosePoint(pointRef{g.Feature, g.Vertex})
	r.History.try(moved(g))
	if r.History.rev == rev { // what is on the screen is of a place that it was dragged through
		r.Checks.Moving = nil
		r.Ports.chart.SetPlan(r.History.Open.Text)
		r.Ports.strip.SetDay(r.Checks.dayRaw)
	}
}

func (sl *Selection) choose(g *gesture) {
	switch {
	case g.Finding != nil:
		sl.view.Tab = TabWatch
		sl.point = nothing
		sl.Finding = *g.Finding
		sl.ports.Device.Focus(fmt.Sprintf("finding-%d", *g.Finding))
	case g.Feature >= 0:
		sl.point = pointRef{g.Feature, g.Vertex}
	default:
		sl.point = nothing
	}
}

// selectPoint chooses a waypoint or stay: what is named on the bar, highlighted on
// the chart and meant by Delete is always this one.
func (sl *Selection) choosePoint(s pointRef) {
	if _, _, _, ok := sl.pointOf(s); !ok {
		s = nothing
	}
	sl.point = s
	sl.ports.chart.Select(s.feature, s.vertex)
}

// selectAfter keeps the chosen point chosen after an edit, which may have given it
// another place in the file. Where points came or went it may be another by now, and
// nothing is chosen.
func (sl *Selection) follow(before *plan.Plan) {
	s := nothing
	if sl.point != nothing && shapeOf(before) == shapeOf(sl.history.Plan) {
		s = sameIn(sl.history.Plan, before, sl.point)
	}
	sl.Finding = -1 // the next report counts anew
	sl.choosePoint(s)
}

// sameIn is the selection, made in the plan before, in the plan after.
func sameIn(after, before *plan.Plan, s pointRef) pointRef {
	part, ok := edit.PartOfFeature(before, s.feature)
	if !ok {
		return nothing
	}
	feature, ok := edit.FeatureOfPart(after, part)
	if !ok {
		return nothing
	}
	return pointRef{feature, s.vertex}
}

// SetMode changes what a tap on the chart does.
func (s *Sketch) setMode(mode string) {
	s.Mode, s.Points, s.Form = mode, 0, nil
	s.ports.chart.SetMode(mode)
	s.ports.redraw()
}

// sketch takes a finished sketch.
func (s *Sketch) finish(g *gesture) {
	mode := g.Mode
	s.Mode, s.Points = ModeLook, 0
	s.ports.chart.SetMode(ModeLook)
	switch mode {
	case ModeRoute:
		s.sketchRoute(g.Coordinates)
	case ModeZone, ModeDanger:
		s.forms.clearDraft("draft-name")
		s.Form = &sketchForm{Mode: mode, points: g.Coordinates}
		s.view.Tab = TabCharts
	}
}

// sketchRoute adds a route.
func (s *Sketch) sketchRoute(points []orb.Point) {
	if s.history.try(func(p *plan.Plan) error { return edit.AddRoute(p, points, s.firstHour()) }) {
		s.view.Tab = TabRoute
	}
}

// firstHour is when a new day leaves until the skipper says otherwise: at the next
// whole hour of the clock, on the plan's day.
func (s *Sketch) firstHour() time.Time {
	next := s.ports.Device.Now().Truncate(time.Hour).Add(time.Hour)
	date, ok := s.history.Plan.Date()
	if !ok {
		return next
	}
	local := next.In(s.history.Plan.Zone)
	hour := local.Hour()
	if hour == 0 { // after 23:00 the next hour is tomorrow's
		hour = 23
	}
	return time.Date(date.Year(), date.Month(), date.Day(), hour, local.Minute(), 0, 0, s.history.Plan.Zone)
}

// PlaceInfo is what the charts say of a place that was tapped.
type PlaceInfo struct {
	At      orb.Point
	objects []map[string]any
	Lines   []string
	Failed  string
	Asking  bool
	Land    bool
}

// setPlace shows a card of a place, and marks on the chart which place it is about;
// nil takes both away.
func (p *Places) set(info *PlaceInfo) {
	p.Place = info
	if info == nil {
		p.ports.chart.MarkPlace(nil)
		return
	}
	p.ports.chart.MarkPlace(&info.At)
}

func (r *Room) placed(g *gesture) { r.Places.ask(g) }

func (r *Room) pressed(g *gesture) {
	if g.Feature >= 0 {
		r.Selection.choosePoint(pointRef{g.Feature, g.Vertex})
		return
	}
	r.Places.ask(g)
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

// StripSays takes what was done on the day strip.
func (r *Room) StripSays(kind string, detail []byte) (changed bool) {
	var g struct {
		T, Seconds float64
		Part       int
		Slot       *engine.Slot
	}
	if err := json.Unmarshal(detail, &g); err != nil {
		return false
	}
	at := time.Unix(int64(g.T), 0)
	switch kind {
	case "cursor":
		r.Hour.move(int64(g.T)) // the line on the chart names the hour
	case "shift":
		by := time.Duration(g.Seconds) * time.Second
		r.tryOnStrip(func(p *plan.Plan) error { return edit.ShiftFrom(p, g.Part, by) })
	case "until":
		r.tryOnStrip(func(p *plan.Plan) error { return edit.SetUntil(p, g.Part, at) })
	case "depart":
		r.LeaveAt(at)
	case "why":
		r.Departures.Ribbon.Why = g.Slot
	}
	return true
}

// tryOnStrip is try for a gesture on the strip, which is put right when the
// gesture is refused.
func (r *Room) tryOnStrip(edit func(p *plan.Plan) error) {
	if !r.History.try(edit) {
		r.Ports.strip.SetDay(r.Checks.dayRaw)
	}
}

// LeaveAt moves the whole day to another departure.
func (r *Room) LeaveAt(at time.Time) {
	r.History.try(func(p *plan.Plan) error {
		return edit.DepartAt(p, at)
	})
	r.Departures.Ribbon.Why = nil
}

// blindChart and blindStrip stand in until the views are there.
type blindChart struct{}

func (blindChart) SetSet(string, Doc)                {}
func (blindChart) SetOrder([]ShownSet)               {}
func (blindChart) SetPrivate(Doc)                    {}
func (blindChart) SetPlan(string)                    {}
func (blindChart) SetReport(Doc)                     {}
func (blindChart) Follow(planRev, chartRev int)      {}
func (blindChart) SetWater(*hazards.Water, []string) {}
func (blindChart) SetMode(string)                    {}
func (blindChart) SketchDone()                       {}
func (blindChart) SketchBack()                       {}
func (blindChart) SketchCancel()                     {}
func (blindChart) AddAtCentre()                      {}
func (blindChart) SetPalette(string)                 {}
func (blindChart) GoTo(orb.Point)                    {}
func (blindChart) Fit([4]float64)                    {}
func (blindChart) Select(feature, vertex int)        {}
func (blindChart) ZoomBy(float64)                    {}
func (blindChart) MarkPlace(*orb.Point)              {}

type blindStrip struct{}

func (blindStrip) SetDay(Doc)        {}
func (blindStrip) SetRibbon(string)  {}
func (blindStrip) SetCursor(int64)   {}
func (blindStrip) SetPalette(string) {}

// Chosen is the waypoint or stay that is chosen, and where it is.
func (sl *Selection) Chosen() (part, vertex int, at orb.Point, ok bool) { return sl.pointOf(sl.point) }

// pointOf is the waypoint or stay of a selection.
func (sl *Selection) pointOf(s pointRef) (part, vertex int, at orb.Point, ok bool) {
	if s == nothing {
		return 0, 0, at, false
	}
	if part, ok = edit.PartOfFeature(sl.history.Plan, s.feature); !ok {
		return 0, 0, at, false
	}
	at, ok = sl.vertexAt(part, s.vertex)
	return part, s.vertex, at, ok
}
