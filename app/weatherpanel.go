package app

import (
	"fmt"
	"strings"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/edit"
)

// weatherPanel are the tables, each with a way to bring it to the plan's day.
func weatherPanel(r *Room) ui.UI {
	body := []ui.UI{ui.Legend().Text("Wind and sea")}
	for _, f := range weatherFields {
		body = append(body, fieldBox(r, f), seriesOff(r, f))
	}
	return ui.FieldSet().Class("form").Body(body...)
}

// seriesOff tells of a table that has no line of the plan's day.
func seriesOff(r *Room, f field) ui.UI {
	days, from := edit.SeriesOff(r.history.plan, f.id)
	if days == 0 {
		return ui.Div().Class("offday gone")
	}
	day, _ := r.history.plan.Date()
	name := strings.ToLower(f.label)
	return ui.Div().Class("offday").Body(
		ui.P().Class("wrong").Text(fmt.Sprintf("This is for %s. For the plan's day, %s, nothing is given.", dateWords(from), dateWords(day))),
		&press{Room: r, Label: "Move the " + name + " to " + dateWords(day), Do: "series-move", Arg: f.id},
	)
}
