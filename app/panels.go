package app

import (
	"fmt"
	"time"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"
)

// routePanel is the day's routes: departure, waypoints, legs.
func (r *Room) routePanel() ui.UI {
	if len(r.plan.Parts) == 0 {
		return ui.Div().Body(
			ui.P().Text("This day has no route yet."),
			ui.Ol().Body(
				ui.Li().Text("Open the charts of your waters under Charts."),
				ui.Li().Text("Press Sketch route and tap the way on the chart, or press Add at the cross to use the keyboard."),
				ui.Li().Text("Give the boat, the tide and the wind under Boat and Day."),
			),
			r.button("Sketch route", "mode", modeRoute),
		)
	}
	body := []ui.UI{ui.FieldSet().Class("form").Body(ui.Legend().Text("Departure"), r.fieldBox(departDayField), r.fieldBox(departField))}
	for part := range r.plan.Parts {
		if r.plan.Parts[part].Route != nil {
			body = append(body, r.routeForm(part))
		}
	}
	last := r.plan.Parts[len(r.plan.Parts)-1]
	body = append(body, ui.Div().Class("row").Body(
		r.button("Sketch on", "mode", modeRoute),
		&press{Room: r, Label: "Add a stay here", Do: "place-stay", Off: last.Route == nil},
		&press{Room: r, Label: "Way back", Name: "Add the way back along the last route", Do: "way-back", Off: last.Stay == nil},
	))
	if r.verdictKnown() {
		body = append(body, part("Legs", ui.Div().Body(r.beforeChange(), legs(&r.day, r.day.clocks(), r.shownOf(listLegs, len(r.day.Report.Legs))), r.showMore(listLegs, len(r.day.Report.Legs))), false, ""))
	}
	return ui.Div().Body(body...)
}

func (r *Room) routeForm(part int) ui.UI {
	route := r.plan.Parts[part].Route
	name := route.Name
	if name == "" {
		name = fmt.Sprintf("Route %d", part/2+1)
	}
	body := []ui.UI{ui.Summary().Text(fmt.Sprintf("%s: %s", name, counted(len(route.Points), "waypoint", "waypoints"))), r.fieldBox(nameField(part))}
	body = append(body, r.windowButtons(part, len(route.Points)))
	from, to := r.window(part, len(route.Points))
	for v := from; v < to; v++ {
		if v > 0 {
			body = append(body, r.fieldBox(speedField(part, v-1)))
		}
		arg := fmt.Sprintf("%d,%d", part, v)
		body = append(body, ui.Div().Class("waypoint").Body(
			r.fieldBox(positionField(part, v)),
			&press{Room: r, Label: "Show", Name: fmt.Sprintf("Show waypoint %d", v+1), Do: "go-vertex", Arg: arg},
			&press{Room: r, Label: "Insert before", Name: fmt.Sprintf("Insert before waypoint %d", v+1), Do: "insert-vertex", Arg: arg, Off: v == 0},
			&press{Room: r, Label: "Delete", Name: fmt.Sprintf("Delete waypoint %d", v+1), Do: "remove-vertex", Arg: arg},
		))
	}
	body = append(body, &press{Room: r, Label: "Delete this route", Do: "remove-part", Arg: fmt.Sprint(part)})
	return ui.Details().Class("routeform").Body(body...)
}

// staysPanel is the day's stays: what the report says, and what can be changed.
func (r *Room) staysPanel() ui.UI {
	var body []ui.UI
	for part := range r.plan.Parts {
		if r.plan.Parts[part].Stay == nil {
			continue
		}
		body = append(body, ui.FieldSet().Class("form").Body(
			ui.Legend().Text(r.plan.Parts[part].Stay.Name),
			r.fieldBox(nameField(part)), r.fieldBox(stayKind(part)), r.fieldBox(stayUntilField(part)), r.fieldBox(stayPosition(part)),
			r.rodeField(part),
			&press{Room: r, Label: "Show", Name: "Show " + r.plan.Parts[part].Stay.Name, Do: "go-vertex", Arg: fmt.Sprintf("%d,0", part)},
			&press{Room: r, Label: "Delete this stay", Do: "remove-part", Arg: fmt.Sprint(part)},
		))
	}
	if len(body) == 0 {
		return ui.P().Text("The day has no stay. Add one under Route, at the end of a route.")
	}
	if r.verdictKnown() {
		body = append(body, part("What the checks say", ui.Div().Body(r.beforeChange(), stays(&r.day, r.day.clocks())), false, ""))
	}
	return ui.Div().Body(body...)
}

func (r *Room) rodeField(part int) ui.UI {
	f, ok := r.fieldOf(fmt.Sprintf("rode-%d", part))
	if !ok {
		return ui.Div()
	}
	return r.fieldBox(f)
}

func (r *Room) boatPanel() ui.UI {
	return ui.Div().Body(r.form("The boat as she is today", boatFields), r.form("What to keep in hand", marginFields))
}

// plansPanel is the list of plans, and what can be done with the open one.
func (r *Room) plansPanel() ui.UI {
	var rows []ui.UI
	for _, h := range r.plansListed() {
		name := h.Title
		if name == "" {
			name = "without a title"
		}
		current := "false"
		if h.ID == r.open.ID {
			current = "true"
		}
		rows = append(rows, ui.Li().Class("planrow").Aria("current", current).Body(
			&press{Room: r, Label: name, Name: "Open " + name, Do: "open-plan", Arg: h.ID, Class: "wide"},
			ui.Span().Class("when").Text(h.Changed.In(r.deviceZone()).Format("2006-01-02 15:04")),
			&press{Room: r, Label: "Delete", Name: "Delete " + name, Do: "plan-delete", Arg: h.ID},
		))
	}
	var back []ui.UI
	for _, p := range r.deletedPlans {
		back = append(back, ui.Div().Class("row").Body(ui.P().Text(p.Title+" is deleted."),
			&press{Room: r, Label: "Bring it back", Name: "Bring back " + p.Title, Do: "plan-back", Arg: p.ID}))
	}
	share := ui.Div()
	if r.device.CanShare() {
		share = ui.Div().Class("row").Body(r.button("Share this plan", "share", ""))
	}
	return ui.Div().Body(
		ui.Div().Class("row").Body(r.button("New plan", "plan-new", ""), r.button("Copy this plan", "plan-copy", ""),
			r.button("Open a plan file", "open-files", ""), r.button("Open the demo day", "demo-day", "")),
		ui.Div().Body(back...),
		part("Kept on this device", ui.Div().Body(ui.Ul().Class("plans").Body(rows...), r.showMore(listPlans, len(r.plans))), len(rows) == 0, "None."),
		part("This plan", ui.Div().Class("row").Body(
			r.button("Export the plan", "export-plan", ""), r.button("Export the report", "export-report", ""),
			r.button("Export as GPX", "export-gpx", ""), r.button("Print the sheet", "print", "")), false, ""),
		part("Everything on this device", ui.Div().Body(
			ui.Div().Class("row").Body(r.button("Export everything", "export-all", "")),
			ui.P().Class("hint").Text("All plans with their earlier states, and all charts, in one file. Open it with Open a plan file, here or on another device; what is kept there stays."),
		), false, ""),
		share,
		ui.P().Class("hint").Text(r.savedLine()),
	)
}

// deviceZone is the zone of the clock that the skipper sees on the device.
func (r *Room) deviceZone() *time.Location {
	if zone, err := time.LoadLocation(r.device.Zone()); err == nil && r.device.Zone() != "" {
		return zone
	}
	return time.UTC
}

// savedLine says whether what is on the screen is kept.
func (r *Room) savedLine() string {
	switch {
	case !r.started:
		return "What is kept on this device is being opened."
	case r.save.broken || r.save.failed != "" || r.open.ID == "" || r.save.gone[r.open.ID]:
		return "Not saved: " + r.save.failed + " Export the plan to keep it."
	case r.savingNow():
		return "Saving."
	}
	line := fmt.Sprintf("Saved on this device, with %s.", counted(len(r.open.Past), "earlier state", "earlier states"))
	if r.unpromised {
		line += unpromised
	}
	return line
}

// aboutPanel is what this is, what it may not be taken for, and whose work it is.
func (r *Room) aboutPanel() ui.UI {
	return ui.Div().Body(
		part("What this is not", cautionList(standing()), false, ""),
		part("Offline", ui.P().ID("offline").Text(r.offlineLine()), false, ""),
		part("Sources", ui.Div().Body(
			ui.P().Text("Whose work this stands on, with every licence: "),
			ui.A().Href("web/sources.txt").Target("_blank").Text("Sources and licences"),
		), false, ""),
		ui.P().Class("hint").Text("Build "+r.build),
	)
}

func (r *Room) offlineLine() string {
	if r.offline != "" {
		return r.offline
	}
	return "Not ready for use without a network yet."
}
