package screen

import (
	"fmt"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/state"
	"keelroom/hazards/plan"
)

// Views makes the views that draw into elements of the page, which are named by
// their ids.
type Views interface {
	// Chart also fills key, an element, with what its colours mean.
	Chart(element, key string, notify func(kind string, detail []byte)) state.ChartView
	Strip(element string, notify func(kind string, detail []byte)) state.StripView
	// OnTurn gives the views what runs things on the screen's turn.
	OnTurn(turn func(run func()))
	Release()
}

// Screen is the whole screen. It must be made by NewScreen.
type Screen struct {
	ui.Compo

	room  *state.Room
	views Views
	chart *widget
	strip *widget
	key   *widget
}

// NewScreen makes the screen of a room.
func NewScreen(r *state.Room, v Views) *Screen {
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
	notify := func(take func(string, []byte) bool) func(string, []byte) {
		return func(kind string, detail []byte) {
			turn(func() { r.Ports.Dirty = take(kind, detail) || r.Ports.Dirty })
		}
	}
	ctx.Defer(func(ui.Context) {
		s.views.OnTurn(turn)
		r.Attach(s.views.Chart(s.chart.id, s.key.id, notify(r.ChartSays)), s.views.Strip(s.strip.id, notify(r.StripSays)))
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
		&printedSheet{Room: r, Rev: r.Checks.Shown, Invented: invented(r), Stale: r.Checks.Stale() || r.Checks.Moving != nil || r.Checks.SheetDue},
		watchAlarm(r),
	)
}

// head is the bar on top.
func head(r *state.Room) ui.UI {
	undo := &press{Room: r, Label: "Undo", Do: "undo", Off: !r.History.CanStep(r.History.Open.Past)}
	redo := &press{Room: r, Label: "Redo", Do: "redo", Off: !r.History.CanStep(r.History.Open.Future)}
	return ui.Header().Class("bar-top").Body(
		ui.P().Class("name").Body(ui.Span().Class("keel").Aria("hidden", "true"), ui.Text("Keelroom")),
		ui.P().Class("aid").Text("A planning aid, not a chart."+invented(r)),
		ui.P().Class("kept").Text(r.Keeper.Status()),
		ui.Div().Class("tools").Role("group").Aria("label", "Edit").Body(undo, redo,
			&box{Room: r, ID: "palette", Label: "Colours", Kind: state.BoxSelect, Text: r.Settings.Values[state.SettingPalette], Options: paletteOptions()}),
	)
}

func paletteOptions() [][2]string {
	list := make([][2]string, len(state.Palettes))
	for i, p := range state.Palettes {
		list[i] = [2]string{p.ID, p.Label}
	}
	return list
}

// invented says so of the demo, wherever its data are on the screen.
func invented(r *state.Room) string {
	if _, s := r.Charts.FindSet(state.DemoSet); s != nil {
		return " The demo waters are invented."
	}
	return ""
}

// noticeList is what happened, newest last.
func noticeList(r *state.Room) ui.UI {
	list := r.Notices.Current()
	items := make([]ui.UI, len(list))
	for i, n := range list {
		class, word := "notice", ""
		if n.Grave {
			class, word = "notice notice-grave", "Trouble: "
		}
		items[i] = ui.Div().Class(class).Body(
			ui.P().Text(word+n.Text),
			undoOf(r, &n),
			&press{Room: r, Label: "Close", Name: "Close this message", Do: "dismiss", Arg: fmt.Sprint(n.ID)},
		)
	}
	return ui.Div().Class("notices").Aria("live", "polite").Body(items...)
}

// undoOf is the button of a message that can be taken back.
func undoOf(r *state.Room, n *state.Notice) ui.UI {
	if n.Do == "" {
		return ui.Span()
	}
	return &press{Room: r, Label: n.Offered(), Do: "notice-do", Arg: fmt.Sprint(n.ID)}
}

// welcome is the caution of a first visit, then three hints.
func welcome(r *state.Room) ui.UI {
	switch {
	case !r.Startup.Ready:
		return ui.Div().Class("welcome gone")
	case r.Settings.Values[state.SettingCaution] == "":
		return ui.Div().Class("welcome").Role("dialog").Aria("modal", "true").Aria("labelledby", "caution-title").Body(
			ui.Div().Class("card").Body(
				ui.H2().ID("caution-title").Text("Before you go by anything here"),
				cautionList(plan.StandingCautions()),
				ui.P().Text("The waters, boat and day of the demo are invented."),
				&press{Room: r, Label: "I have read this", Do: "understood", Class: "chief"},
			))
	case r.Settings.Values[state.SettingHints] == "":
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

// printedSheet is the printed sheet: the whole report, hidden on the screen. It is
// drawn again only for another report.
type printedSheet struct {
	ui.Compo
	Room     *state.Room
	Rev      int
	Invented string
	Stale    bool
}

// Render draws the sheet.
func (p *printedSheet) Render() ui.UI {
	r := p.Room
	if r.Checks.Day.Report == nil || p.Stale {
		return ui.Div().Class("paper").Body(ui.H1().Text("Keelroom: not checked since the last change"), cautionList(plan.StandingCautions()))
	}
	body := []ui.UI{ui.P().Class("name").Text("Keelroom"), ui.P().Class("aid").Text("A planning aid, not a chart." + p.Invented)}
	return ui.Div().Class("paper").Body(append(body, sections(&r.Checks.Day)...)...)
}
