package app

import (
	"fmt"
	"time"

	"keelroom/app/phrase"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"
)

// routePanel is the day's routes: departure, waypoints, legs.
func routePanel(r *Room) ui.UI {
	if len(r.history.plan.Parts) == 0 {
		return ui.Div().Body(
			ui.P().Text("This day has no route yet."),
			ui.Ol().Body(
				ui.Li().Text("Open the charts of your waters under Charts."),
				ui.Li().Text("Press Sketch route and tap the way on the chart, or press Add at the cross to use the keyboard."),
				ui.Li().Text("Give the boat, the tide and the wind under Boat and Day."),
			),
			button(r, "Sketch route", "mode", modeRoute),
		)
	}
	body := []ui.UI{ui.FieldSet().Class("form").Body(ui.Legend().Text("Departure"), fieldBox(r, departDayField), fieldBox(r, departField))}
	for part := range r.history.plan.Parts {
		if r.history.plan.Parts[part].Route != nil {
			body = append(body, routeForm(r, part))
		}
	}
	last := r.history.plan.Parts[len(r.history.plan.Parts)-1]
	body = append(body, ui.Div().Class("row").Body(
		button(r, "Sketch on", "mode", modeRoute),
		&press{Room: r, Label: "Add a stay here", Do: "place-stay", Off: last.Route == nil},
		&press{Room: r, Label: "Way back", Name: "Add the way back along the last route", Do: "way-back", Off: last.Stay == nil},
	))
	if r.checks.verdictKnown() {
		body = append(body, part("Legs", ui.Div().Body(beforeChange(r), legs(&r.checks.day, clocksOf(&r.checks.day), r.view.rowsShown(listLegs, len(r.checks.day.Report.Legs))), moreButton(r, listLegs, len(r.checks.day.Report.Legs))), false, ""))
	}
	return ui.Div().Body(body...)
}

func routeForm(r *Room, part int) ui.UI {
	route := r.history.plan.Parts[part].Route
	name := route.Name
	if name == "" {
		name = fmt.Sprintf("Route %d", part/2+1)
	}
	body := []ui.UI{ui.Summary().Text(fmt.Sprintf("%s: %s", name, phrase.Counted(len(route.Points), "waypoint", "waypoints"))), fieldBox(r, nameField(part))}
	body = append(body, windowButtons(r, part, len(route.Points)))
	from, to := r.view.window(part, len(route.Points))
	for v := from; v < to; v++ {
		if v > 0 {
			body = append(body, fieldBox(r, speedField(part, v-1)))
		}
		arg := fmt.Sprintf("%d,%d", part, v)
		body = append(body, ui.Div().Class("waypoint").Body(
			fieldBox(r, positionField(part, v)),
			&press{Room: r, Label: "Show", Name: fmt.Sprintf("Show waypoint %d", v+1), Do: "go-vertex", Arg: arg},
			&press{Room: r, Label: "Insert before", Name: fmt.Sprintf("Insert before waypoint %d", v+1), Do: "insert-vertex", Arg: arg, Off: v == 0},
			&press{Room: r, Label: "Delete", Name: fmt.Sprintf("Delete waypoint %d", v+1), Do: "remove-vertex", Arg: arg},
		))
	}
	body = append(body, &press{Room: r, Label: "Delete this route", Do: "remove-part", Arg: fmt.Sprint(part)})
	return ui.Details().Class("routeform").Body(body...)
}

// staysPanel is the day's stays: what the report says, and what can be changed.
func staysPanel(r *Room) ui.UI {
	var body []ui.UI
	for part := range r.history.plan.Parts {
		if r.history.plan.Parts[part].Stay == nil {
			continue
		}
		body = append(body, ui.FieldSet().Class("form").Body(
			ui.Legend().Text(r.history.plan.Parts[part].Stay.Name),
			fieldBox(r, nameField(part)), fieldBox(r, stayKind(part)), fieldBox(r, stayUntilField(part)), fieldBox(r, stayPosition(part)),
			rodeField(r, part),
			&press{Room: r, Label: "Show", Name: "Show " + r.history.plan.Parts[part].Stay.Name, Do: "go-vertex", Arg: fmt.Sprintf("%d,0", part)},
			&press{Room: r, Label: "Delete this stay", Do: "remove-part", Arg: fmt.Sprint(part)},
		))
	}
	if len(body) == 0 {
		return ui.P().Text("The day has no stay. Add one under Route, at the end of a route.")
	}
	if r.checks.verdictKnown() {
		body = append(body, part("What the checks say", ui.Div().Body(beforeChange(r), stays(&r.checks.day, clocksOf(&r.checks.day))), false, ""))
	}
	return ui.Div().Body(body...)
}

func rodeField(r *Room, part int) ui.UI {
	f, ok := r.forms.fieldOf(fmt.Sprintf("rode-%d", part))
	if !ok {
		return ui.Div()
	}
	return fieldBox(r, f)
}

func boatPanel(r *Room) ui.UI {
	return ui.Div().Body(form(r, "The boat as she is today", boatFields), form(r, "What to keep in hand", marginFields))
}

// plansPanel is the list of plans, and what can be done with the open one.
func plansPanel(r *Room) ui.UI {
	var rows []ui.UI
	for _, h := range r.plans.sorted() {
		name := h.Title
		if name == "" {
			name = "without a title"
		}
		current := "false"
		if h.ID == r.history.open.ID {
			current = "true"
		}
		rows = append(rows, ui.Li().Class("planrow").Aria("current", current).Body(
			&press{Room: r, Label: name, Name: "Open " + name, Do: "open-plan", Arg: h.ID, Class: "wide"},
			ui.Span().Class("when").Text(h.Changed.In(deviceZone(r)).Format("2006-01-02 15:04")),
			&press{Room: r, Label: "Delete", Name: "Delete " + name, Do: "plan-delete", Arg: h.ID},
		))
	}
	var back []ui.UI
	for _, p := range r.plans.deleted {
		back = append(back, ui.Div().Class("row").Body(ui.P().Text(p.Title+" is deleted."),
			&press{Room: r, Label: "Bring it back", Name: "Bring back " + p.Title, Do: "plan-back", Arg: p.ID}))
	}
	share := ui.Div()
	if r.ports.device.CanShare() {
		share = ui.Div().Class("row").Body(button(r, "Share this plan", "share", ""))
	}
	return ui.Div().Body(
		ui.Div().Class("row").Body(button(r, "New plan", "plan-new", ""), button(r, "Copy this plan", "plan-copy", ""),
			button(r, "Open a plan file", "open-files", ""), button(r, "Open the demo day", "demo-day", "")),
		ui.Div().Body(back...),
		part("Kept on this device", ui.Div().Body(ui.Ul().Class("plans").Body(rows...), moreButton(r, listPlans, len(r.keeper.list))), len(rows) == 0, "None."),
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
func deviceZone(r *Room) *time.Location {
	if zone, err := time.LoadLocation(r.ports.device.Zone()); err == nil && r.ports.device.Zone() != "" {
		return zone
	}
	return time.UTC
}

// savedLine says whether what is on the screen is kept.
func savedLine(r *Room) string {
	switch {
	case !r.startup.started:
		return "What is kept on this device is being opened."
	case r.keeper.save.broken || r.keeper.save.failed != "" || r.history.open.ID == "" || r.keeper.save.gone[r.history.open.ID]:
		return "Not saved: " + r.keeper.save.failed + " Export the plan to keep it."
	case r.keeper.busy():
		return "Saving."
	}
	line := fmt.Sprintf("Saved on this device, with %s.", phrase.Counted(len(r.history.open.Past), "earlier state", "earlier states"))
	if r.keeper.unpromised {
		line += unpromised
	}
	return line
}

// aboutPanel is what this is, what it may not be taken for, and whose work it is.
func aboutPanel(r *Room) ui.UI {
	return ui.Div().Body(
		part("What this is not", cautionList(standing()), false, ""),
		part("Offline", ui.P().ID("offline").Text(offlineLine(r)), false, ""),
		part("Sources", ui.Div().Body(
			ui.P().Text("Whose work this stands on, with every licence: "),
			ui.A().Href("web/sources.txt").Target("_blank").Text("Sources and licences"),
		), false, ""),
		ui.P().Class("hint").Text("Build "+r.build),
	)
}

func offlineLine(r *Room) string {
	if r.view.offline != "" {
		return r.view.offline
	}
	return "Not ready for use without a network yet."
}
