package app

import (
	"fmt"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/hazards/plan"
)

// Views makes the views that draw into elements of the page, which are named by
// their ids.
type Views interface {
	// Chart also fills key, an element, with what its colours mean.
	Chart(element, key string, said func(kind string, detail []byte)) ChartView
	Strip(element string, said func(kind string, detail []byte)) StripView
	// OnTurn gives the views what runs things on the screen's turn.
	OnTurn(turn func(run func()))
	Release()
}

// Screen is the whole screen. It must be made by NewScreen.
type Screen struct {
	ui.Compo

	room  *Room
	views Views
	chart *widget
	strip *widget
	key   *widget
}

// NewScreen makes the screen of a room.
func NewScreen(r *Room, v Views) *Screen {
	return &Screen{room: r, views: v, chart: &widget{id: "chart"}, strip: &widget{id: "strip"}, key: &widget{id: "key"}}
}

// OnMount gives the views their elements and begins.
func (s *Screen) OnMount(ctx ui.Context) {
	r := s.room
	turn := func(run func()) {
		ctx.Dispatch(func(ctx ui.Context) {
			if !r.Turn(run) {
				ctx.PreventUpdate()
			}
		})
	}
	said := func(take func(string, []byte) bool) func(string, []byte) {
		return func(kind string, detail []byte) {
			turn(func() { r.ports.dirty = take(kind, detail) || r.ports.dirty })
		}
	}
	ctx.Defer(func(ui.Context) {
		s.views.OnTurn(turn)
		r.Attach(s.views.Chart(s.chart.id, s.key.id, said(r.ChartSays)), s.views.Strip(s.strip.id, said(r.StripSays)))
		r.Start()
	})
}

// OnDismount lets the views go.
func (s *Screen) OnDismount() { s.views.Release() }

// widget is an element that belongs to a view: go-app makes it once and never
// looks into it. It has no exported field, so it is never updated.
type widget struct {
	ui.Compo

	id string
}

// Render draws the element, which is always the same.
func (w *widget) Render() ui.UI { return ui.Div().ID(w.id).Class("widget") }

// Render draws the screen. The children keep their places: the views' elements
// must never be taken out.
func (s *Screen) Render() ui.UI {
	r := s.room
	return ui.Div().Class("room").Body(
		head(r),
		ui.Main().Class("deck").Body(
			ui.Div().Class("chartwell").Aria("label", "Chart").Role("region").Body(s.chart, overChart(r, s.key)),
			ui.Div().Class("stripwell").Aria("label", "The day by the hour").Role("region").Body(s.strip, overStrip(r)),
			sheet(r),
		),
		noticeList(r),
		welcome(r),
		&paper{Room: r, Rev: r.checks.shown, Invented: invented(r), Stale: r.checks.stale() || r.checks.checking.tried},
	)
}

// head is the bar on top.
func head(r *Room) ui.UI {
	undo := &press{Room: r, Label: "Undo", Do: "undo", Off: !r.history.canStep(r.history.open.Past)}
	redo := &press{Room: r, Label: "Redo", Do: "redo", Off: !r.history.canStep(r.history.open.Future)}
	return ui.Header().Class("bar-top").Body(
		ui.P().Class("name").Body(ui.Span().Class("keel").Aria("hidden", "true"), ui.Text("Keelroom")),
		ui.P().Class("aid").Text("A planning aid, not a chart."+invented(r)),
		ui.P().Class("kept").Text(r.keeper.status()),
		ui.Div().Class("tools").Role("group").Aria("label", "Edit").Body(undo, redo,
			&box{Room: r, ID: "palette", Label: "Colours", Kind: boxSelect, Text: r.settings.values[settingPalette], Options: paletteOptions()}),
	)
}

func paletteOptions() [][2]string {
	list := make([][2]string, len(palettes))
	for i, p := range palettes {
		list[i] = [2]string{p.id, p.label}
	}
	return list
}

// invented says so of the demo, wherever its data are on the screen.
func invented(r *Room) string {
	if _, s := r.charts.findSet(demoSet); s != nil {
		return " The demo waters are invented."
	}
	return ""
}

// noticeList is what happened, newest last.
func noticeList(r *Room) ui.UI {
	list := r.notices.current()
	items := make([]ui.UI, len(list))
	for i, n := range list {
		class, word := "notice", ""
		if n.grave {
			class, word = "notice notice-grave", "Trouble: "
		}
		items[i] = ui.Div().Class(class).Body(
			ui.P().Text(word+n.text),
			undoOf(r, &n),
			&press{Room: r, Label: "Close", Name: "Close this message", Do: "dismiss", Arg: fmt.Sprint(n.id)},
		)
	}
	return ui.Div().Class("notices").Aria("live", "polite").Body(items...)
}

// undoOf is the button of a message that can be taken back.
func undoOf(r *Room, n *notice) ui.UI {
	if n.do == "" {
		return ui.Span()
	}
	return &press{Room: r, Label: n.offered(), Do: "notice-do", Arg: fmt.Sprint(n.id)}
}

// welcome is the caution of a first visit, then three hints.
func welcome(r *Room) ui.UI {
	switch {
	case !r.startup.ready:
		return ui.Div().Class("welcome gone")
	case r.settings.values[settingCaution] == "":
		return ui.Div().Class("welcome").Role("dialog").Aria("modal", "true").Aria("labelledby", "caution-title").Body(
			ui.Div().Class("card").Body(
				ui.H2().ID("caution-title").Text("Before you go by anything here"),
				cautionList(plan.StandingCautions()),
				ui.P().Text("The waters, boat and day of the demo are invented."),
				&press{Room: r, Label: "I have read this", Do: "understood", Class: "chief"},
			))
	case r.settings.values[settingHints] == "":
		return ui.Div().Class("welcome hints").Role("region").Aria("label", "Hints").Body(
			ui.Div().Class("card").Body(
				ui.Ol().Body(
					ui.Li().Text("Drag a waypoint on the chart: the whole day is checked again while you drag."),
					ui.Li().Text("Move the hour on the strip below the chart: the water is coloured as it stands then."),
					ui.Li().Text("Tap a line under Watch to see where and when it holds. Everything can be undone."),
				),
				&press{Room: r, Label: "Close hints", Do: "hints-gone"},
			))
	}
	return ui.Div().Class("welcome gone")
}

func cautionList(list []string) ui.UI {
	items := make([]ui.UI, len(list))
	for i, text := range list {
		items[i] = ui.Li().Text(text)
	}
	return ui.Ul().Class("cautions").Body(items...)
}

// paper is the printed sheet: the whole report, hidden on the screen. It is
// drawn again only for another report.
type paper struct {
	ui.Compo
	Room     *Room
	Rev      int
	Invented string
	Stale    bool
}

// Render draws the sheet.
func (p *paper) Render() ui.UI {
	r := p.Room
	if r.checks.day.Report == nil || p.Stale {
		return ui.Div().Class("paper").Body(ui.H1().Text("Keelroom: not checked since the last change"), cautionList(plan.StandingCautions()))
	}
	body := []ui.UI{ui.P().Class("name").Text("Keelroom"), ui.P().Class("aid").Text("A planning aid, not a chart." + p.Invented)}
	return ui.Div().Class("paper").Body(append(body, sections(&r.checks.day)...)...)
}
