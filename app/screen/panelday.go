package screen

import (
	"strconv"
	"strings"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/phrase"
	"keelroom/app/state"
	"keelroom/hazards/plan"
)

// dayPanel is the day: what it is called, its tide, wind and swell.
func dayPanel(r *state.Room) ui.UI {
	return ui.Div().Body(
		form(r, "The day", append([]state.Field{state.DepartDayField, state.DepartField}, state.DayFields...)),
		tidePanel(r),
		weatherPanel(r),
	)
}

// tidePanel is the tide in use, and the ways to give another.
func tidePanel(r *state.Room) ui.UI {
	body := []ui.UI{ui.Legend().Text("Tide"), ui.P().ID("tide-line").Text(state.TideLine(r.History.Plan.Tide)), ui.P().ID("tide-method").Class("hint").Text(state.TideMethod(r.History.Plan.Tide))}
	if r.History.Plan.Tide != nil {
		for _, f := range state.TideFields {
			body = append(body, fieldBox(r, f))
		}
	}
	body = append(body, stationForm(r), tableForm(r), secondaryForm(r), levelForm(r))
	return ui.FieldSet().Class("form").Body(body...)
}

func stationForm(r *state.Room) ui.UI {
	rows := make([]ui.UI, len(r.Stations.Search.Found))
	for i, s := range r.Stations.Search.Found {
		line := s.Name
		if s.Country != "" {
			line += ", " + s.Country
		}
		if s.Km != nil {
			line += ", " + number(*s.Km, 0, "km")
		}
		line += ", above " + s.Datum
		rows[i] = ui.Li().Body(&press{Room: r, Label: line, Do: "station", Arg: s.ID, Class: "wide"})
	}
	state := r.Stations.Search.Failed
	if r.Stations.Search.Busy {
		state = "Searching."
	}
	return ui.Details().Class("way").Body(
		ui.Summary().Text("From a station of the list"),
		&box{Room: r, ID: "station-search", Label: "Name of a port", Help: "Empty: the nearest to the middle of the chart.", Text: r.Stations.Search.Text},
		button(r, "Search", "stations", ""),
		ui.P().Class("hint").Aria("live", "polite").Text(state),
		ui.Ul().Class("stations").Body(rows...),
	)
}

const datumHelp = "The level that heights are above, as the table says it. It must be the chart's, or the difference must be given under Charts."

func tableForm(r *state.Room) ui.UI {
	text := draftBox(r, "draft-tide", "High and low waters", "", "One line each: date, clock, metres, such as 2026-07-18 03:12 0.4. Copy them as they stand in the table, every one, with HW or LW where it says so: 03:12 LW 0.4. Two that stand double: 16:50 HW 4.0 double.")
	text.Kind = state.BoxArea
	text.Rows = 8
	return ui.Details().Class("way").Body(
		ui.Summary().Text("From a tide table"),
		draftBox(r, "draft-tide-name", "Port", "", "As the table names it."),
		draftSelect(r, "draft-tide-zone", "Times are in", "Tables are often in the zone's winter time or in Universal Time all year. Look at the head of the table.", state.TableZones),
		draftSelect(r, "draft-tide-datum", "Heights are above", datumHelp, state.DatumOptions()),
		text,
		ui.P().Class("wrong").Role("alert").Text(r.Forms.Rejected["draft-tide-use"].Wrong),
		ui.Ul().Class("readings").Body(tablePreview(r)...),
		&press{Room: r, Label: "Use this table", Do: "tide-table", Class: "chief"},
	)
}

func levelForm(r *state.Room) ui.UI {
	return ui.Details().Class("way").Body(
		ui.Summary().Text("No tide: a steady level"),
		draftBox(r, "draft-level", "Level", "m", "Above the datum, as a gauge or a notice says."),
		draftSelect(r, "draft-level-datum", "Above", datumHelp, state.DatumOptions()),
		ui.P().Class("wrong").Role("alert").Text(r.Forms.Rejected["draft-level-use"].Wrong),
		button(r, "Use this level", "tide-level", ""),
	)
}

func secondaryForm(r *state.Room) ui.UI {
	if r.History.Plan.Tide == nil || r.History.Plan.Tide.Form() == plan.SecondaryPort || r.History.Plan.Tide.Form() == plan.Tideless {
		return ui.Div()
	}
	return ui.Details().Class("way").Body(
		ui.Summary().Text("A secondary port of "+r.History.Plan.Tide.Station),
		draftBox(r, "draft-second-name", "Secondary port", "", "As the table names it."),
		draftBox(r, "draft-hw-min", "High water later by", "min", "Negative for earlier."),
		draftBox(r, "draft-hw-m", "High water higher by", "m", "Negative for lower."),
		draftBox(r, "draft-lw-min", "Low water later by", "min", "Negative for earlier."),
		draftBox(r, "draft-lw-m", "Low water higher by", "m", "Negative for lower."),
		ui.P().Class("wrong").Role("alert").Text(r.Forms.Rejected["draft-second-use"].Wrong),
		button(r, "Use the secondary port", "tide-secondary", ""),
	)
}

// tablePreview shows how each line of the drafted table is read.
func tablePreview(r *state.Room) []ui.UI {
	if strings.TrimSpace(r.Forms.Drafted("draft-tide")) == "" || r.Forms.Drafted("draft-tide-zone") == "" {
		return nil
	}
	tides, err := r.Forms.ReadTable()
	var rows []ui.UI
	for _, l := range tides.Lines {
		switch {
		case l.Wrong != "":
			rows = append(rows, ui.Li().Class("wrong").Text("Line "+strconv.Itoa(l.Number)+": "+l.Wrong))
		case l.Read != "":
			rows = append(rows, ui.Li().Text("Line "+strconv.Itoa(l.Number)+" is read as "+l.Read))
		}
	}
	for _, c := range tides.Doubts {
		rows = append(rows, ui.Li().Class("care").Text("▲ "+phrase.Capital(c)))
	}
	if err != nil && len(rows) == 0 {
		rows = append(rows, ui.Li().Class("wrong").Text(phrase.Capital(err.Error())))
	}
	return rows
}
