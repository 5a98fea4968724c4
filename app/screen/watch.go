package screen

import (
	"fmt"
	"time"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/phrase"
	"keelroom/app/state"
	"keelroom/hazards/plan"
)

// sections are the report's parts, in the order they are read.
func sections(d *state.Day) []ui.UI {
	c := clocksOf(d)
	var watch, notes []plan.Finding
	for _, f := range byTime(d.Report.Findings) {
		if f.Severity == plan.Note {
			notes = append(notes, f)
		} else {
			watch = append(watch, f)
		}
	}
	return []ui.UI{
		verdict(d),
		section("What to watch, in the order it comes", findings(watch, c, "Nothing beyond the notes along the way.")),
		ui.P().Class("untold").Text(notListed(d.Report)),
		section("Stays", stays(d, c)),
		section("Tide and daylight", tideAndSun(d, c)),
		section("Legs", printedLegs(d, c)),
		section("Notes along the way", findings(notes, c, "None.")),
		section("Cautions", cautions(d.Report)),
		section("Charts", chartsUsed(d.Report)),
	}
}

func section(title string, body ui.UI) ui.UI {
	return ui.Section().Class("part").Body(ui.H2().Text(title), body)
}

func findings(list []plan.Finding, c clocks, none string) ui.UI {
	if len(list) == 0 {
		return ui.P().Text(none)
	}
	items := make([]ui.UI, len(list))
	for i := range list {
		items[i] = finding(&list[i], c)
	}
	return ui.Ol().Class("findings").Body(items...)
}

func finding(f *plan.Finding, c clocks) ui.UI {
	style := styleOf(f.Severity)
	body := []ui.UI{
		ui.P().Class("head").Body(
			ui.Span().Class("when").Text(c.span(f.Time, f.Until)),
			ui.Span().Class("severity").Body(shape(f.Severity), ui.Text(style.word)),
			ui.Span().Class("where").Text(where(f)),
		),
		ui.P().Class("what").Text(f.Title),
	}
	if f.Detail != "" {
		body = append(body, ui.P().Class("why").Text(f.Detail))
	}
	if a := also(f, c); a != "" {
		body = append(body, ui.P().Class("why").Text(a))
	}
	if w := windows(f, c); w != "" {
		body = append(body, ui.P().Class("windows").Text(w))
	}
	return ui.Li().Class("finding finding-" + style.class).Body(body...)
}

func where(f *plan.Finding) string {
	place := checkWord(f.Check)
	if f.Leg > 0 {
		place = fmt.Sprintf("leg %d, %s", f.Leg, place)
	}
	if f.Source != nil && f.Source.Class != "" {
		place += ", " + classWord(f.Source.Class)
	}
	return place
}

// windows says when the same place would be clear, where the report knows.
func windows(f *plan.Finding, c clocks) string {
	if f.Windows == nil {
		return ""
	}
	if len(f.Windows) == 0 {
		return "At no time of this day would it be clear here."
	}
	parts := make([]string, len(f.Windows))
	for i, w := range f.Windows {
		parts[i] = c.at(&w[0]) + " – " + closing(w, c)
	}
	return "Clear here, as far as this goes: " + phrase.Joined(parts) + "."
}

// closing is the end of a window; the midnight that ends a day is 24:00.
func closing(w [2]time.Time, c clocks) string {
	if w[1].In(c.zone).Format("15:04") == "00:00" {
		return "24:00"
	}
	return c.at(&w[1])
}

// mostPrinted is how many legs go on paper: more than any day has that is sailed.
const mostPrinted = 200

// printedLegs is the table of legs, and how many are not in it.
func printedLegs(d *state.Day, c clocks) ui.UI {
	left := ""
	if n := len(d.Report.Legs) - mostPrinted; n > 0 {
		left = fmt.Sprintf("And %d more legs; the exported report has them all.", n)
	}
	return ui.Div().Body(legs(d, c, mostPrinted), ui.P().Text(left))
}
