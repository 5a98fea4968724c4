package screen

import (
	"fmt"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/edit"
	"keelroom/app/engine"
	"keelroom/app/phrase"
	"keelroom/app/state"
	"keelroom/hazards/plan"
)

// sheet is the plan sheet: the verdict, then one section.
func sheet(r *state.Room) ui.UI {
	return ui.Aside().Class("sheet").Aria("label", "Plan sheet").Body(
		verdictCard(r),
		brief(r),
		tabList(r),
		ui.Section().Class("panel").ID("panel").Role("tabpanel").Aria("labelledby", "tab-"+r.View.Tab).TabIndex(0).Body(panel(r)),
		ui.Footer().Class("foot").Body(
			ui.P().Text("A planning aid, not a chart. Check official charts and notices, keep a lookout, obey local rules. "+
				"Checked in this browser; nothing is sent anywhere."),
		),
	)
}

// brief is the verdict in a word, which stays in sight on a phone while the sheet
// is scrolled. Others hear the verdict itself.
func brief(r *state.Room) ui.UI {
	s, word := plan.NoData, "Not checked"
	if m := r.Checks.Moving; m != nil {
		if now, known := m.Severity(); known {
			s, word = now, styleOf(now).word
		}
	} else if r.Checks.VerdictKnown() && r.Checks.Checking.Failed == "" {
		s, word = r.Checks.Day.Report.Verdict, styleOf(r.Checks.Day.Report.Verdict).word
		switch {
		case r.Checks.Recalled():
			word += " · as when last open"
		case r.Checks.Stale():
			word += " · being checked again"
		}
	}
	return ui.P().Class("brief").Aria("hidden", "true").Body(shape(s), ui.Text(word))
}

func tabList(r *state.Room) ui.UI {
	list := make([]ui.UI, len(state.Tabs))
	for i, t := range state.Tabs {
		list[i] = &tabButton{Room: r, ID: t.ID, Label: t.Label + tabMark(r, t.ID), On: t.ID == r.View.Tab}
	}
	return ui.Div().Class("tabs").Role("tablist").Aria("label", "Sections of the plan").Body(list...)
}

// tabMark counts what wants attention under a tab.
func tabMark(r *state.Room, id string) string {
	n := 0
	switch id {
	case state.TabWatch:
		if m := r.Checks.Moving; m != nil {
			if _, known := m.Severity(); known { // else they are counts of another place
				n = m.Head.Counts[0] + m.Head.Counts[1] + m.Head.Counts[2]
			}
		} else if r.Checks.VerdictKnown() {
			n = watched(r.Checks.Day.Report)
		}
	case state.TabCharts:
		for _, s := range r.Charts.Sets {
			if s.Failed != "" {
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
	Room      *state.Room
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
	for i := range state.Tabs {
		if state.Tabs[i].ID == t.ID {
			next := state.Tabs[(i+step+len(state.Tabs))%len(state.Tabs)].ID
			t.Room.Do("tab", next)
			t.Room.Ports.Device.Focus("tab-" + next)
			return
		}
	}
}

func panel(r *state.Room) ui.UI {
	switch r.View.Tab {
	case state.TabRoute:
		return routePanel(r)
	case state.TabStays:
		return staysPanel(r)
	case state.TabDay:
		return dayPanel(r)
	case state.TabBoat:
		return boatPanel(r)
	case state.TabCharts:
		return chartsPanel(r)
	case state.TabPlans:
		return plansPanel(r)
	case state.TabAbout:
		return aboutPanel(r)
	}
	return watchPanel(r)
}

// verdictCard is the verdict in words, and the figures of the day.
func verdictCard(r *state.Room) ui.UI {
	switch {
	case r.Checks.Moving != nil:
		return movingCard(r)
	case len(r.Checks.Checking.Problems) > 0 || r.Checks.Checking.Failed != "":
		return notChecked(r)
	case !r.Checks.VerdictKnown():
		return ui.Section().Class("verdict waiting").Aria("live", "polite").Body(
			ui.P().Class("title").Text(r.History.Plan.Title),
			ui.H1().Text("Not checked yet"),
			ui.P().Class("progress").Text(r.View.Progress),
		)
	}
	rep, c := r.Checks.Day.Report, clocksOf(&r.Checks.Day)
	style := styleOf(rep.Verdict)
	class, title := "verdict verdict-"+style.class, r.History.Plan.Title
	switch {
	case r.Checks.Recalled():
		class, title = class+" stale recalled", "as it was when last open, being checked anew · "+title
	case r.Checks.Stale():
		class, title = class+" stale", "being checked again · "+title
	}
	return ui.Section().Class(class).Aria("live", "polite").Body(
		ui.P().Class("title").Text(title),
		ui.H1().Body(shape(rep.Verdict), ui.Text(style.sentence)),
		ui.P().Class("tally").Text(tally(rep)),
		ui.Dl().Class("facts facts-few").Body(
			fact("Leave", c.at(rep.Depart)),
			fact("Back", c.at(rep.Back)),
			fact("Least under keel", least(rep, c)),
		),
		ui.P().Class("unbuilt").Text(unbuilt(rep)),
		ui.P().Class("unbuilt").Text(notGiven(rep)),
		ui.P().Class("zone").Text(zoneLine(r.Checks.Day.Plan, rep.Depart)),
	)
}

// notChecked says what the plan lacks.
func notChecked(r *state.Room) ui.UI {
	items := make([]ui.UI, len(r.Checks.Checking.Problems))
	head, why := "Not checked: the plan is not complete.", ""
	for i, p := range r.Checks.Checking.Problems {
		items[i] = ui.Li().Body(ui.Text(lacks(p)+" "), toWaypoint(r, p))
		if p.Question {
			head = "Not checked: is this what you mean?"
		}
	}
	if len(items) == 0 {
		head, why = "The day could not be checked.", r.Checks.Checking.Failed
	}
	again := ui.UI(ui.Span())
	if r.Checks.Checking.Aside {
		again = button(r, "Try once more", "try-again", "")
	}
	return ui.Section().Class("verdict failure").Aria("live", "assertive").Body(
		ui.P().Class("title").Text(r.History.Plan.Title),
		ui.H1().Body(shape(plan.NoData), ui.Text(head)),
		ui.P().Text(why),
		ui.Ul().Body(items...),
		ui.P().Text("Nothing is known of this day."),
		again,
	)
}

// toWaypoint is a button that shows the waypoint a question is about.
func toWaypoint(r *state.Room, p engine.Problem) ui.UI {
	var feature, vertex int
	if _, err := fmt.Sscanf(p.Path, "features[%d].geometry.coordinates[%d]", &feature, &vertex); err != nil || !p.Question {
		return ui.Span()
	}
	part, ok := edit.PartOfFeature(r.History.Plan, feature)
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
func watchPanel(r *state.Room) ui.UI {
	if !r.Checks.VerdictKnown() {
		return ui.P().Text("Nothing is checked.")
	}
	c := clocksOf(&r.Checks.Day)
	var watch, notes []ui.UI
	for _, i := range orderByTime(r.Checks.Day.Report.Findings) {
		f := &r.Checks.Day.Report.Findings[i]
		item := &findingRow{Room: r, Index: i, Rev: r.Checks.Shown, On: i == r.Selection.Finding, Clock: c.span(f.Time, f.Until)}
		if f.Severity == plan.Note {
			notes = append(notes, item)
		} else {
			watch = append(watch, item)
		}
	}
	before := beforeChange(r)
	if r.Checks.Recalled() { // the card above says so, and the list is not to move when it is confirmed
		before = ui.P()
	}
	return ui.Div().Body(
		before,
		part("What to watch, in the order it comes", ui.Ol().Class("findings").Body(watch...), len(watch) == 0, "Nothing beyond the notes along the way."),
		ui.P().Class("untold").Text(notListed(r.Checks.Day.Report)),
		part("Leave by", leaveBy(&r.Checks.Day, c), false, ""),
		part("Notes along the way", ui.Ol().Class("findings").Body(notes...), len(notes) == 0, "None."),
		part("Tide and daylight", tideAndSun(&r.Checks.Day, c), false, ""),
		part("Cautions", cautions(r.Checks.Day.Report), false, ""),
	)
}

// beforeChange says above what the checks found that the plan has changed since.
func beforeChange(r *state.Room) ui.UI {
	switch {
	case r.Checks.Moving != nil:
		return ui.P().Class("hint").Text("As checked before the point was moved.")
	case r.Checks.Recalled():
		return ui.P().Class("hint").Text("As it was when last open. It is being checked anew.")
	case r.Checks.Stale():
		return ui.P().Class("hint").Text("As checked before the last change.")
	}
	return ui.P()
}

func part(title string, body ui.UI, empty bool, none string) ui.UI {
	if empty {
		body = ui.P().Text(none)
	}
	return ui.Section().Class("part").Body(ui.H2().Text(title), body)
}

func leaveBy(d *state.Day, c clocks) ui.UI {
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
	Room       *state.Room
	Index, Rev int
	On         bool
	Clock      string
}

// Render draws the finding.
func (f *findingRow) Render() ui.UI {
	r := f.Room
	if r.Checks.Day.Report == nil || f.Index >= len(r.Checks.Day.Report.Findings) {
		return ui.Li()
	}
	found := &r.Checks.Day.Report.Findings[f.Index]
	style := styleOf(found.Severity)
	class := "finding finding-" + style.class
	if f.On {
		class += " finding-on"
	}
	why := ui.P().Class("why").Text(found.Detail)
	return ui.Li().Class(class).ID(fmt.Sprintf("finding-%d", f.Index)).TabIndex(-1).Body(
		ui.P().Class("head").Body(
			ui.Span().Class("when").Text(f.Clock),
			ui.Span().Class("severity").Body(shape(found.Severity), ui.Text(style.word)),
			ui.Span().Class("where").Text(where(found)),
		),
		&press{Room: r, Label: phrase.Capital(found.Title), Do: "go-finding", Arg: fmt.Sprint(f.Index), Class: "what"},
		why,
		ui.P().Class("why").Text(also(found, clocksOf(&r.Checks.Day))),
		ui.P().Class("windows").Text(windows(found, clocksOf(&r.Checks.Day))),
	)
}
