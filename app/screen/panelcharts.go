package screen

import (
	"cmp"
	"fmt"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/engine"
	"keelroom/app/phrase"
	"keelroom/app/state"
	"keelroom/hazards/plan"
)

func standing() []string { return plan.StandingCautions() }

// chartsPanel is the layer sets, what was read of them, and the skipper's own
// zones and dangers.
func chartsPanel(r *state.Room) ui.UI {
	var rows []ui.UI
	for _, o := range r.Cells.Opening {
		rows = append(rows, openingRow(r, o))
	}
	for i := len(r.Charts.Sets) - 1; i >= 0; i-- {
		rows = append(rows, setRow(r, r.Charts.Sets[i], i == len(r.Charts.Sets)-1))
	}
	demo := ui.Div()
	if _, s := r.Charts.FindSet(state.DemoSet); s == nil {
		demo = ui.Div().Class("row").Body(button(r, "Bring the invented demo waters back", "demo-chart", ""))
	}
	return ui.Div().Body(
		sketchFormView(r),
		ui.Div().Class("row").Body(button(r, "Open charts", "open-files", "")),
		ui.P().Class("hint").Text("Official cells (S-57: .000 with their updates, or the zip of an exchange set), or GeoJSON layers, all of one chart at once; or drop them on the page. Updates alone join the cell that is open. Hidden charts are checked all the same: only Remove takes them out."),
		part("Charts, the uppermost first", ui.Ul().Class("sets").Body(rows...), len(rows) == 0, "No chart is open: nothing can be checked."),
		demo,
		removeCellsButton(r),
		part("Your own", ui.Div().Body(
			ui.Div().Class("row").Body(button(r, "Sketch a zone", "mode", state.ModeZone), button(r, "Sketch a danger", "mode", state.ModeDanger)),
			ui.Ul().Class("sets").Body(ownRows(r)...),
			moreButton(r, state.ListPrivate, len(r.History.Plan.Private)),
			ui.P().Class("hint").Text("They travel in the plan file. They can only add to what the charts warn of."),
		), false, ""),
		form(r, "Where the charts are silent", state.ChartFields),
	)
}

func openingRow(r *state.Room, o *state.Opening) ui.UI {
	body := []ui.UI{ui.P().Class("what").Text(o.Name), ui.P().Class("why").Text(cmp.Or(o.Words, "Being looked into."))}
	if o.Stoppable() {
		body = append(body, ui.Div().Class("row").Body(&press{Room: r, Label: "Stop", Name: "Stop opening " + o.Name, Do: "opening-stop", Arg: o.ID}))
	}
	return ui.Li().Class("set").Body(body...)
}

// removeCellsButton is the button that removes an exchange set at once.
func removeCellsButton(r *state.Room) ui.UI {
	n := len(r.Cells.CellRows())
	if n < 2 {
		return ui.Div()
	}
	return ui.Div().Class("row").Body(button(r, "Remove all "+phrase.Counted(n, "cell", "cells"), "cells-remove", ""))
}

func setRow(r *state.Room, s *state.ChartSet, top bool) ui.UI {
	name := s.Title()
	show := "Hide"
	if s.Hidden {
		show = "Show"
	}
	body := []ui.UI{
		ui.P().Class("what").Text(name),
		ui.P().Class("why").Text(setLine(s)),
	}
	if c := s.Info.Cell; c != nil {
		body = append(body, ui.P().Class("why").Text(state.CellLine(c, r.Ports.Device.Now())), ui.P().Class("why").Text(state.CopyWords))
		if c.Cancelled != "" {
			body = append(body, ui.P().Class("wrong").Text(state.CancelledWords(c)))
		}
	}
	if files := s.Unapplied(); len(files) > 0 {
		body = append(body, ui.P().Class("wrong").Text("Not applied: "+phrase.Joined(files)+". Why is told below; what the updates change is not in this chart."))
	}
	if s.Failed != "" {
		why := s.Failed
		if why != state.WaitsWords {
			why = "Refused: " + why
		}
		body = append(body, ui.P().Class("wrong").Text(why))
	}
	body = append(body, sameChartLines(r, s)...)
	body = append(body, textButtons(r, s)...)
	body = append(body, messageList(s), ui.Div().Class("row").Body(
		&press{Room: r, Label: "Go there", Name: "Go there: " + name, Do: "set-go", Arg: s.ID, Off: s.Info.Bounds == nil},
		&press{Room: r, Label: show, Name: show + " " + name, Do: "set-show", Arg: s.ID, Off: s.Failed != ""},
		&press{Room: r, Label: "Raise", Name: "Raise " + name, Do: "set-raise", Arg: s.ID, Off: top},
		&press{Room: r, Label: "Remove", Name: "Remove " + name, Do: "set-remove", Arg: s.ID},
	))
	return ui.Li().Class("set").Body(body...)
}

// textButtons are the texts that came with a cell, such as its producer's terms, and the
// one that is being read.
func textButtons(r *state.Room, s *state.ChartSet) (body []ui.UI) {
	var row []ui.UI
	for _, name := range s.Texts() {
		label := "Read " + name
		if s.Text == name {
			label = "Close " + name
		}
		row = append(row, &press{Room: r, Label: label, Name: label + " of " + s.Name, Do: "set-text", Arg: s.ID + " " + name})
	}
	if len(row) > 0 {
		body = append(body, ui.Div().Class("row").Body(row...))
	}
	if s.Text != "" {
		body = append(body, ui.Pre().Class("enclosed").TabIndex(0).Text(s.TextShown))
	}
	return body
}

func setLine(s *state.ChartSet) string {
	if s.Reading {
		return "Being read."
	}
	line := phrase.Counted(s.Info.Features, "object", "objects")
	if s.Info.Cell != nil {
		return phrase.Capital(line) + ", read from S-57."
	}
	if s.Info.Authority != "" {
		line += ", " + s.Info.Authority + " data"
	}
	if s.Info.Scale > 0 {
		line += fmt.Sprintf(", 1:%d", s.Info.Scale)
	}
	if s.Info.DatumName != "" {
		line += ", depths below " + s.Info.DatumName
	}
	if s.Info.Edition != "" {
		line += ", edition " + s.Info.Edition
	}
	if s.Info.IssueDate != "" {
		line += ", issued " + s.Info.IssueDate
	}
	if s.Info.Licence != "" {
		line += ". " + s.Info.Licence
	}
	return phrase.Capital(line)
}

// messageList is what was refused or doubtful in a set, and why.
func messageList(s *state.ChartSet) ui.UI {
	list := engine.Counted(s.Info.Messages)
	if len(list) == 0 {
		return ui.Div()
	}
	items := make([]ui.UI, len(list))
	refused, warned := 0, 0
	for i, m := range list {
		if n := max(1, m.More); m.Level != "warning" {
			refused += n
		} else {
			warned += n
		}
		items[i] = ui.Li().Body(
			ui.Text(m.Found+"; wanted: "+m.Wanted+" "),
			ui.Code().Text(m.Code+" "+m.File+" "+m.Path),
		)
	}
	head := fmt.Sprintf("%s, %s", phrase.Counted(refused, "thing refused", "things refused"), phrase.Counted(warned, "warning", "warnings"))
	return ui.Details().Class("messages").Body(ui.Summary().Text(phrase.Capital(head)), ui.Ul().Body(items...))
}

func ownRows(r *state.Room) []ui.UI {
	rows := make([]ui.UI, 0, len(r.History.Plan.Private))
	for i := range r.View.RowsShown(state.ListPrivate, len(r.History.Plan.Private)) {
		name := state.PrivateName(&r.History.Plan.Private[i])
		rows = append(rows, ui.Li().Class("set").Body(
			ui.P().Class("what").Text(name),
			&press{Room: r, Label: "Delete", Name: "Delete " + name, Do: "private-gone", Arg: fmt.Sprint(i)},
		))
	}
	return rows
}

// sameChartLines say so in the list of charts.
func sameChartLines(r *state.Room, s *state.ChartSet) (lines []ui.UI) {
	for _, o := range r.Charts.SameAs(s) {
		lines = append(lines, ui.P().Class("wrong").Text("The same chart is open as "+o.Title()+" too. One is enough: remove the other."))
	}
	return lines
}
