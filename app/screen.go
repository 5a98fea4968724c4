package app

import (
	"fmt"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/hazards/plan"
)

// Day is a plan with the report on it.
type Day struct {
	Plan   *plan.Plan
	Report *plan.Report
}

// Checker checks the demo day. It is called on a goroutine of its own and may
// take its time; progress is told what it is at, in words.
type Checker interface {
	CheckDemo(progress func(words string)) (Day, error)
}

// Screen is the whole screen. It must be made by NewScreen.
type Screen struct {
	ui.Compo

	checker  Checker
	build    string
	progress string
	day      *Day
	failure  string
}

// NewScreen makes the screen. A nil checker checks nothing. build names the
// build, for the foot of the page.
func NewScreen(checker Checker, build string) *Screen {
	return &Screen{checker: checker, build: build, progress: "Starting."}
}

// OnMount has the demo day checked.
func (s *Screen) OnMount(ctx ui.Context) {
	if s.checker == nil {
		return
	}
	ctx.Async(func() {
		day, err := s.check(func(words string) {
			ctx.Dispatch(func(ui.Context) { s.progress = words })
		})
		ctx.Dispatch(func(ui.Context) { s.answer(day, err) })
	})
}

// check keeps a mistake in the checker from ending the program.
func (s *Screen) check(progress func(string)) (day Day, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("the check stopped: %v", r)
		}
	}()
	return s.checker.CheckDemo(progress)
}

func (s *Screen) answer(day Day, err error) {
	switch {
	case err != nil:
		s.failure = err.Error()
	case day.Plan == nil || day.Report == nil:
		s.failure = "the check gave no report"
	default:
		s.day = &day
	}
}

// Render draws the screen.
func (s *Screen) Render() ui.UI {
	return ui.Div().Class("sheet").Body(
		heading(),
		ui.Main().Body(s.content()...),
		s.foot(),
	)
}

func heading() ui.UI {
	return ui.Header().Class("heading").Body(
		ui.P().Class("name").Text("Keelroom"),
		ui.P().Class("aid").Body(
			ui.Strong().Text("A planning aid, not a chart. "),
			ui.Text("The waters, the boat and the day shown here are invented."),
		),
	)
}

func (s *Screen) content() []ui.UI {
	switch {
	case s.failure != "":
		return []ui.UI{ui.Section().Class("verdict failure").Aria("live", "assertive").Body(
			ui.H1().Body(shape(plan.NoData), ui.Text("The day could not be checked.")),
			ui.P().Text(s.failure),
			ui.P().Text("Nothing is known of it. Load the page again; if this stays, take the plan as not checked."),
		)}
	case s.day == nil:
		return []ui.UI{ui.Section().Class("verdict waiting").Aria("live", "polite").Body(
			ui.H1().Text("Not checked yet"),
			ui.P().Class("progress").Text(s.progress),
		)}
	}
	return sections(s.day)
}

func (s *Screen) foot() ui.UI {
	return ui.Footer().Class("foot").Body(
		ui.P().Text("Checked in this browser. Nothing is sent anywhere."),
		ui.P().Text("Build "+s.build),
	)
}
