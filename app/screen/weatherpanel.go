package screen

import (
	"fmt"
	"strings"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/edit"
	"keelroom/app/state"
)

// weatherPanel are the tables, each with a way to bring it to the plan's day.
func weatherPanel(r *state.Room) ui.UI {
	body := []ui.UI{ui.Legend().Text("Wind and sea")}
	for _, f := range state.WeatherFields {
		body = append(body, fieldBox(r, f), seriesOff(r, f))
	}
	return ui.FieldSet().Class("form").Body(body...)
}

// seriesOff points to a table that has no line of the plan's day.
func seriesOff(r *state.Room, f state.Field) ui.UI {
	days, from := edit.SeriesOff(r.History.Plan, f.ID)
	if days == 0 {
		return ui.Div().Class("offday gone")
	}
	day, _ := r.History.Plan.Date()
	name := strings.ToLower(f.Label)
	return ui.Div().Class("offday").Body(
		ui.P().Class("wrong").Text(fmt.Sprintf("This is for %s. For the plan's day, %s, nothing is given.", state.DateWords(from), state.DateWords(day))),
		&press{Room: r, Label: "Move the " + name + " to " + state.DateWords(day), Do: "series-move", Arg: f.ID},
	)
}
