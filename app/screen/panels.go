package screen

import (
	"fmt"
	"time"

	"keelroom/app/phrase"
	"keelroom/app/state"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"
)

// routePanel is the day's routes: departure, waypoints, legs.
func routePanel(r *state.Room) ui.UI {
	if len(r.History.Plan.Parts) == 0 {
		return ui.Div().Body(
			ui.P().Text("This day has no route yet."),
			ui.Ol().Body(
				ui.Li().Text("Open the charts of your waters under Charts."),
				ui.Li().Text("Press Sketch route and tap the way on the chart, or press Add at the cross to use the keyboard."),
				ui.Li().Text("Give the boat, the tide and the wind under Boat and Day."),
			),
			button(r, "Sketch route", "mode", state.ModeRoute),
		)
	}
	body := []ui.UI{ui.FieldSet().Class("form").Body(ui.Legend().Text("Departure"), fieldBox(r, state.DepartDayField), fieldBox(r, state.DepartField))}
	for part := range r.History.Plan.Parts {
		if r.History.Plan.Parts[part].Route != nil {
			body = append(body, routeForm(r, part))
		}
	}
	last := r.History.Plan.Parts[len(r.History.Plan.Parts)-1]
	body = append(body, ui.Div().Class("row").Body(
		button(r, "Sketch on", "mode", state.ModeRoute),
		&press{Room: r, Label: "Add a stay here", Do: "place-stay", Off: last.Route == nil},
		&press{Room: r, Label: "Way back", Name: "Add the way back along the last route", Do: "way-back", Off: last.Stay == nil},
	))
	if r.Checks.VerdictKnown() {
		body = append(body, part("Legs", ui.Div().Body(beforeChange(r), legs(&r.Checks.Day, clocksOf(&r.Checks.Day), r.View.RowsShown(state.ListLegs, len(r.Checks.Day.Report.Legs))), moreButton(r, state.ListLegs, len(r.Checks.Day.Report.Legs))), false, ""))
	}
	return ui.Div().Body(body...)
}

func routeForm(r *state.Room, part int) ui.UI {
	route := r.History.Plan.Parts[part].Route
	name := route.Name
	if name == "" {
		name = fmt.Sprintf("Route %d", part/2+1)
	}
	body := []ui.UI{ui.Summary().Text(fmt.Sprintf("%s: %s", name, phrase.Counted(len(route.Points), "waypoint", "waypoints"))), fieldBox(r, state.NameField(part))}
	body = append(body, windowButtons(r, part, len(route.Points)))
	from, to := r.View.Window(part, len(route.Points))
	for v := from; v < to; v++ {
		if v > 0 {
			body = append(body, fieldBox(r, state.SpeedField(part, v-1)))
		}
		arg := fmt.Sprintf("%d,%d", part, v)
		body = append(body, ui.Div().Class("waypoint").Body(
			fieldBox(r, state.PositionField(part, v)),
			&press{Room: r, Label: "Show", Name: fmt.Sprintf("Show waypoint %d", v+1), Do: "go-vertex", Arg: arg},
			&press{Room: r, Label: "Insert before", Name: fmt.Sprintf("Insert before waypoint %d", v+1), Do: "insert-vertex", Arg: arg, Off: v == 0},
			&press{Room: r, Label: "Delete", Name: fmt.Sprintf("Delete waypoint %d", v+1), Do: "remove-vertex", Arg: arg},
		))
	}
	body = append(body, &press{Room: r, Label: "Delete this route", Do: "remove-part", Arg: fmt.Sprint(part)})
	return ui.Details().Class("routeform").Body(body...)
}

// staysPanel is the day's stays: what the report says, and what can be changed.
func staysPanel(r *state.Room) ui.UI {
	var body []ui.UI
	for part := range r.History.Plan.Parts {
		if r.History.Plan.Parts[part].Stay == nil {
			continue
		}
		body = append(body, ui.FieldSet().Class("form").Body(
			ui.Legend().Text(r.History.Plan.Parts[part].Stay.Name),
			fieldBox(r, state.NameField(part)), fieldBox(r, state.StayKind(part)), fieldBox(r, state.StayUntilField(part)), fieldBox(r, state.StayPosition(part)),
			rodeField(r, part), fieldBox(r, state.SoundingField(part)),
			whereToLie(r, part),
			&press{Room: r, Label: "Show", Name: "Show " + r.History.Plan.Parts[part].Stay.Name, Do: "go-vertex", Arg: fmt.Sprintf("%d,0", part)},
			&press{Room: r, Label: "Delete this stay", Do: "remove-part", Arg: fmt.Sprint(part)},
		))
	}
	if len(body) == 0 {
		return ui.Div().Body(ui.P().Text("The day has no stay. Add one under Route, at the end of a route."), anchorWatch(r))
	}
	if r.Checks.VerdictKnown() {
		body = append(body, part("What the checks say", ui.Div().Body(beforeChange(r), stays(&r.Checks.Day, clocksOf(&r.Checks.Day))), false, ""))
	}
	if r.Watch.Running() {
		return ui.Div().Body(append([]ui.UI{anchorWatch(r)}, body...)...)
	}
	return ui.Div().Body(append(body, anchorWatch(r))...)
}

func rodeField(r *state.Room, part int) ui.UI {
	f, ok := r.Forms.FieldOf(fmt.Sprintf("rode-%d", part))
	if !ok {
		return ui.Div()
	}
	return fieldBox(r, f)
}

func boatPanel(r *state.Room) ui.UI {
	return ui.Div().Body(form(r, "The boat as she is today", state.BoatFields), form(r, "What to keep in hand", state.MarginFields))
}

// plansPanel is the list of plans, and what can be done with the open one.
func plansPanel(r *state.Room) ui.UI {
	var rows []ui.UI
	for _, h := range r.Plans.Listed() {
		name := h.Title
		if name == "" {
			name = "without a title"
		}
		current := "false"
		if h.ID == r.History.Open.ID {
			current = "true"
		}
		rows = append(rows, ui.Li().Class("planrow").Aria("current", current).Body(
			&press{Room: r, Label: name, Name: "Open " + name, Do: "open-plan", Arg: h.ID, Class: "wide"},
			ui.Span().Class("when").Text(h.Changed.In(deviceZone(r)).Format("2006-01-02 15:04")),
			&press{Room: r, Label: "Delete", Name: "Delete " + name, Do: "plan-delete", Arg: h.ID},
		))
	}
	var back []ui.UI
	for _, p := range r.Plans.Deleted {
		back = append(back, ui.Div().Class("row").Body(ui.P().Text(p.Title+" is deleted."),
			&press{Room: r, Label: "Bring it back", Name: "Bring back " + p.Title, Do: "plan-back", Arg: p.ID}))
	}
	share := ui.Div()
	if r.Ports.Device.CanShare() {
		share = ui.Div().Class("row").Body(button(r, "Share this plan", "share", ""))
	}
	return ui.Div().Body(
		ui.Div().Class("row").Body(button(r, "New plan", "plan-new", ""), button(r, "Copy this plan", "plan-copy", ""),
			button(r, "Open a plan file", "open-files", ""), button(r, "Open the demo day", "demo-day", "")),
		ui.Div().Body(back...),
		part("Kept on this device", ui.Div().Body(ui.Ul().Class("plans").Body(rows...), moreButton(r, state.ListPlans, len(r.Keeper.List))), len(rows) == 0, "None."),
		part("This plan", ui.Div().Class("row").Body(
			button(r, "Export the plan", "export-plan", ""), button(r, "Export the report", "export-report", ""),
			button(r, "Export as GPX", "export-gpx", ""), button(r, "Print the sheet", "print", "")), false, ""),
		part("Everything on this device", ui.Div().Body(
			ui.Div().Class("row").Body(button(r, "Export everything", "export-all", "")),
			ui.P().Class("hint").Text("All plans with their earlier states, and all charts, in one file. Open it with Open a plan file, here or on another device; what is kept there stays."),
		), false, ""),
		share,
		ui.P().Class("hint").Text(savedLine(r)),
	)
}

// deviceZone is the zone of the clock that the skipper sees on the device.
func deviceZone(r *state.Room) *time.Location {
	if zone, err := time.LoadLocation(r.Ports.Device.Zone()); err == nil && r.Ports.Device.Zone() != "" {
		return zone
	}
	return time.UTC
}

// savedLine says whether what is on the screen is kept.
func savedLine(r *state.Room) string {
	switch {
	case !r.Startup.Started:
		return "What is kept on this device is being opened."
	case r.Keeper.Save.Broken || r.Keeper.Save.Failed != "" || r.History.Open.ID == "" || r.Keeper.Save.Gone[r.History.Open.ID]:
		return "Not saved: " + r.Keeper.Save.Failed + " Export the plan to keep it."
	case r.Keeper.Busy():
		return "Saving."
	}
	line := fmt.Sprintf("Saved on this device, with %s.", phrase.Counted(len(r.History.Open.Past), "earlier state", "earlier states"))
	if r.Keeper.Unpromised {
		line += state.Unpromised
	}
	return line
}

// aboutPanel is what this is, what it may not be taken for, and whose work it is.
func aboutPanel(r *state.Room) ui.UI {
	return ui.Div().Body(
		part("What this is not", cautionList(standing()), false, ""),
		part("Offline", ui.P().ID("offline").Text(offlineLine(r)), false, ""),
		part("Sources", ui.Div().Body(
			ui.P().Text("Whose work this stands on, with every licence: "),
			ui.A().Href("web/sources.txt").Target("_blank").Text("Sources and licences"),
		), false, ""),
		ui.P().Class("hint").Text("Build "+r.Build),
	)
}

func offlineLine(r *state.Room) string {
	if r.View.Offline != "" {
		return r.View.Offline
	}
	return "Not ready for use without a network yet."
}
