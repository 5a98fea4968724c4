package app

import (
	"fmt"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/edit"
	"keelroom/app/engine"
	"keelroom/app/phrase"
	"keelroom/hazards/plan"
)

// sheet is the plan sheet: the verdict, then one section.
func sheet(r *Room) ui.UI {
	return ui.Aside().Class("sheet").Aria("label", "Plan sheet").Body(
		verdictCard(r),
		brief(r),
		tabList(r),
		ui.Section().Class("panel").ID("panel").Role("tabpanel").Aria("labelledby", "tab-"+r.view.tab).TabIndex(0).Body(panel(r)),
		ui.Footer().Class("foot").Body(
			ui.P().Text("A planning aid, not a chart. Check official charts and notices, keep a lookout, obey local rules. "+
				"Checked in this browser; nothing is sent anywhere."),
		),
	)
}

// brief is the verdict in a word, which stays in sight on a phone while the sheet
// is scrolled. Others hear the verdict itself.
func brief(r *Room) ui.UI {
	s, word := plan.NoData, "Not checked"
	if r.checks.verdictKnown() && r.checks.checking.failed == "" {
		s, word = r.checks.day.Report.Verdict, say(r.checks.day.Report.Verdict).word
		if r.checks.stale() {
			word += " · being checked again"
		}
	}
	return ui.P().Class("brief").Aria("hidden", "true").Body(shape(s), ui.Text(word))
}

func tabList(r *Room) ui.UI {
	list := make([]ui.UI, len(tabs))
	for i, t := range tabs {
		list[i] = &tabButton{Room: r, ID: t.id, Label: t.label + tabMark(r, t.id), On: t.id == r.view.tab}
	}
	return ui.Div().Class("tabs").Role("tablist").Aria("label", "Sections of the plan").Body(list...)
}

// tabMark counts what wants attention under a tab.
func tabMark(r *Room, id string) string {
	n := 0
	switch id {
	case tabWatch:
		if r.checks.verdictKnown() {
			n = watched(r.checks.day.Report)
		}
	case tabCharts:
		for _, s := range r.charts.sets {
			if s.failed != "" {
				n++
			}
		}
	}
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("\u00a0%d", n)
}

// tabButton is one tab; arrow keys go from one to the next (WAI-ARIA, tabs).
type tabButton struct {
	ui.Compo
	Room      *Room
	ID, Label string
	On        bool
}

// Render draws the tab.
func (t *tabButton) Render() ui.UI {
	selected, index := "false", -1
	if t.On {
		selected, index = "true", 0
	}
	return ui.Button().Type("button").ID("tab-"+t.ID).Class("tab").Role("tab").Aria("selected", selected).Aria("controls", "panel").
		TabIndex(index).Text(t.Label).OnClick(t.onClick).OnKeyDown(t.onKey)
}

func (t *tabButton) onClick(ui.Context, ui.Event) { t.Room.Do("tab", t.ID) }

func (t *tabButton) onKey(_ ui.Context, e ui.Event) {
	step := map[string]int{"ArrowRight": 1, "ArrowDown": 1, "ArrowLeft": -1, "ArrowUp": -1}[e.Get("key").String()]
	if step == 0 {
		return
	}
	e.PreventDefault()
	for i := range tabs {
		if tabs[i].id == t.ID {
			next := tabs[(i+step+len(tabs))%len(tabs)].id
			t.Room.Do("tab", next)
			t.Room.ports.device.Focus("tab-" + next)
			return
		}
	}
}

func panel(r *Room) ui.UI {
	switch r.view.tab {
	case tabRoute:
		return routePanel(r)
	case tabStays:
		return staysPanel(r)
	case tabDay:
		return dayPanel(r)
	case tabBoat:
		return boatPanel(r)
	case tabCharts:
		return chartsPanel(r)
	case tabPlans:
		return plansPanel(r)
	case tabAbout:
		return aboutPanel(r)
	}
	return watchPanel(r)
}

// verdictCard is the verdict in words, and the figures of the day.
func verdictCard(r *Room) ui.UI {
	switch {
	case len(r.checks.checking.problems) > 0 || r.checks.checking.failed != "":
		return notChecked(r)
	case !r.checks.verdictKnown():
		return ui.Section().Class("verdict waiting").Aria("live", "polite").Body(
			ui.P().Class("title").Text(r.history.plan.Title),
			ui.H1().Text("Not checked yet"),
			ui.P().Class("progress").Text(r.view.progress),
		)
	}
	rep, c := r.checks.day.Report, clocksOf(&r.checks.day)
	said := say(rep.Verdict)
	class, title := "verdict verdict-"+said.class, r.history.plan.Title
	if r.checks.stale() {
		class, title = class+" stale", "being checked again · "+title
	}
	return ui.Section().Class(class).Aria("live", "polite").Body(
		ui.P().Class("title").Text(title),
		ui.H1().Body(shape(rep.Verdict), ui.Text(said.sentence)),
		ui.P().Class("tally").Text(tally(rep)),
		ui.Dl().Class("facts facts-few").Body(
			fact("Leave", c.at(rep.Depart)),
			fact("Back", c.at(rep.Back)),
			fact("Least under keel", least(rep, c)),
		),
		ui.P().Class("unbuilt").Text(unbuilt(rep)),
		ui.P().Class("unbuilt").Text(notGiven(rep)),
		ui.P().Class("zone").Text(zoneLine(&r.checks.day)),
	)
}

// notChecked says what the plan lacks.
func notChecked(r *Room) ui.UI {
	items := make([]ui.UI, len(r.checks.checking.problems))
	head, why := "Not checked: the plan is not complete.", ""
	for i, p := range r.checks.checking.problems {
		items[i] = ui.Li().Body(ui.Text(lacks(p)+" "), toWaypoint(r, p))
		if p.Question {
			head = "Not checked: is this what you mean?"
		}
	}
	if len(items) == 0 {
		head, why = "The day could not be checked.", r.checks.checking.failed
	}
	again := ui.UI(ui.Span())
	if r.checks.checking.aside {
		again = button(r, "Try once more", "try-again", "")
	}
	return ui.Section().Class("verdict failure").Aria("live", "assertive").Body(
		ui.P().Class("title").Text(r.history.plan.Title),
		ui.H1().Body(shape(plan.NoData), ui.Text(head)),
		ui.P().Text(why),
		ui.Ul().Body(items...),
		ui.P().Text("Nothing is known of this day."),
		again,
	)
}

// toWaypoint is a button that shows the waypoint a question is about.
func toWaypoint(r *Room, p engine.Problem) ui.UI {
	var feature, vertex int
	if _, err := fmt.Sscanf(p.Path, "features[%d].geometry.coordinates[%d]", &feature, &vertex); err != nil || !p.Question {
		return ui.Span()
	}
	part, ok := edit.PartOfFeature(r.history.plan, feature)
	if !ok {
		return ui.Span()
	}
	return &press{Room: r, Label: "Show it", Name: fmt.Sprintf("Show waypoint %d", vertex+1), Do: "go-vertex", Arg: fmt.Sprintf("%d,%d", part, vertex)}
}

// lacks words what is missing, for the paths that a skipper meets.
func lacks(p engine.Problem) string {
	known := map[string]string{
		"plan.boat.draught_m": "The boat's draught is missing; it is under Boat.",
		"plan.boat.cruise_kn": "The boat's cruising speed is missing; it is under Boat.",
		"plan.time_zone":      "The time zone is missing; it is under Day.",
	}
	if text, ok := known[p.Path]; ok {
		return text
	}
	switch p.Path {
	case "":
		return phrase.Capital(p.Want)
	case "features":
		return "There is no route yet: press Sketch route."
	}
	if p.Question { // it names the place itself
		return phrase.Capital(p.Want) + "."
	}
	return phrase.Capital(p.Want) + " (" + p.Path + ")"
}

// watchPanel is what to watch, in the order it comes.
func watchPanel(r *Room) ui.UI {
	if !r.checks.verdictKnown() {
		return ui.P().Text("Nothing is checked.")
	}
	c := clocksOf(&r.checks.day)
	var watch, notes []ui.UI
	for _, i := range orderByTime(r.checks.day.Report.Findings) {
		f := &r.checks.day.Report.Findings[i]
		item := &findingRow{Room: r, Index: i, Rev: r.checks.shown, On: i == r.selection.finding, Clock: c.span(f.Time, f.Until)}
		if f.Severity == plan.Note {
			notes = append(notes, item)
		} else {
			watch = append(watch, item)
		}
	}
	return ui.Div().Body(
		beforeChange(r),
		part("What to watch, in the order it comes", ui.Ol().Class("findings").Body(watch...), len(watch) == 0, "Nothing beyond the notes along the way."),
		ui.P().Class("untold").Text(untold(r.checks.day.Report)),
		part("Leave by", leaveBy(&r.checks.day, c), false, ""),
		part("Notes along the way", ui.Ol().Class("findings").Body(notes...), len(notes) == 0, "None."),
		part("Tide and daylight", tideAndSun(&r.checks.day, c), false, ""),
		part("Cautions", cautions(r.checks.day.Report), false, ""),
	)
}

// beforeChange says above what the checks found that the plan has changed since.
func beforeChange(r *Room) ui.UI {
	if !r.checks.stale() {
		return ui.P()
	}
	return ui.P().Class("hint").Text("As checked before the last change.")
}

func part(title string, body ui.UI, empty bool, none string) ui.UI {
	if empty {
		body = ui.P().Text(none)
	}
	return ui.Section().Class("part").Body(ui.H2().Text(title), body)
}

func leaveBy(d *Day, c clocks) ui.UI {
	var rows []ui.UI
	stays := d.Plan.Stays()
	for i, l := range d.Report.LeaveBy {
		name := "The stay"
		if i < len(stays) {
			name = stays[i].Name
		}
		rows = append(rows, wide(name, c.at(l.Time)+because(l.Why)))
	}
	if len(rows) == 0 {
		return ui.P().Text("The day has no stay to leave.")
	}
	return ui.Dl().Class("facts").Body(rows...)
}

// findingRow is one finding; tapping it goes there.
type findingRow struct {
	ui.Compo
	Room       *Room
	Index, Rev int
	On         bool
	Clock      string
}

// Render draws the finding.
func (f *findingRow) Render() ui.UI {
	r := f.Room
	if r.checks.day.Report == nil || f.Index >= len(r.checks.day.Report.Findings) {
		return ui.Li()
	}
	found := &r.checks.day.Report.Findings[f.Index]
	said := say(found.Severity)
	class := "finding finding-" + said.class
	if f.On {
		class += " finding-on"
	}
	why := ui.P().Class("why").Text(found.Detail)
	return ui.Li().Class(class).ID(fmt.Sprintf("finding-%d", f.Index)).TabIndex(-1).Body(
		ui.P().Class("head").Body(
			ui.Span().Class("when").Text(f.Clock),
			ui.Span().Class("severity").Body(shape(found.Severity), ui.Text(said.word)),
			ui.Span().Class("where").Text(where(found)),
		),
		&press{Room: r, Label: phrase.Capital(found.Title), Do: "go-finding", Arg: fmt.Sprint(f.Index), Class: "what"},
		why,
		ui.P().Class("why").Text(also(found, clocksOf(&r.checks.day))),
		ui.P().Class("windows").Text(windows(found, clocksOf(&r.checks.day))),
	)
}
