package screen

import (
	"fmt"
	"time"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/entry"
	"keelroom/app/phrase"
	"keelroom/app/state"
	"keelroom/hazards/plan"
)

// overChart is what stands on the chart: tools, the sketch's buttons, a place.
func overChart(r *state.Room, key ui.UI) ui.UI {
	return ui.Div().Class("over").Body(
		ui.Div().Class("tools tools-chart").Role("group").Aria("label", "Chart").Body(
			&press{Room: r, Label: "+", Name: "Nearer", Do: "zoom-in", Class: "round"},
			&press{Room: r, Label: "−", Name: "Farther", Do: "zoom-out", Class: "round"},
			&press{Room: r, Label: "Whole day", Do: "fit"},
			&press{Room: r, Label: "Sketch route", Do: "mode", Arg: state.ModeRoute, Pressed: pressed(r.Sketch.Mode == state.ModeRoute)},
			ui.Details().Class("key").Body(ui.Summary().Class("press").Text("Key"), key),
		),
		sketchBar(r),
		selectedBar(r),
		placeCard(r),
		watchBar(r),
		ui.P().Class("hourline").Text(hourLine(r)),
	)
}

func pressed(on bool) string {
	if on {
		return "true"
	}
	return "false"
}

// sketchBar says what to do while sketching.
func sketchBar(r *state.Room) ui.UI {
	if r.Sketch.Mode == state.ModeLook {
		return ui.Div().Class("bar-sketch gone")
	}
	words := map[string]string{
		state.ModeRoute:  "Tap the chart, point by point. Nothing is pulled to the shore or to deep water: what you draw is what is checked.",
		state.ModeZone:   "Tap the corners of the zone.",
		state.ModeDanger: "Tap where the danger is.",
	}[r.Sketch.Mode]
	return ui.Div().Class("bar-sketch").Role("group").Aria("label", "Sketch").Body(
		ui.P().Aria("live", "polite").Text(words+" "+phrase.Capital(phrase.Counted(r.Sketch.Points, "point", "points"))+"."),
		&press{Room: r, Label: "Add at the cross", Do: "sketch-centre"},
		&press{Room: r, Label: "Last point back", Do: "sketch-back", Off: r.Sketch.Points == 0},
		&press{Room: r, Label: "Done", Do: "sketch-done", Class: "chief", Off: r.Sketch.Points == 0},
		&press{Room: r, Label: "Cancel", Do: "sketch-cancel"},
	)
}

// selectedBar is what can be done with the chosen waypoint.
func selectedBar(r *state.Room) ui.UI {
	part, vertex, at, ok := r.Selection.Chosen()
	if !ok || r.Sketch.Mode != state.ModeLook {
		return ui.Div().Class("bar-chosen gone")
	}
	arg := fmt.Sprintf("%d,%d", part, vertex)
	name := fmt.Sprintf("Waypoint %d", vertex+1)
	isStay := r.History.Plan.Parts[part].Stay != nil
	if isStay {
		name = r.History.Plan.Parts[part].Stay.Name
	}
	var list []ui.UI
	list = append(list, ui.P().Text(name+": "+entry.FormatPosition(at)))
	if !isStay {
		list = append(list,
			&press{Room: r, Label: "Insert before", Do: "insert-vertex", Arg: arg, Off: vertex == 0},
			&press{Room: r, Label: "Delete", Name: "Delete " + name, Do: "remove-vertex", Arg: arg},
		)
	}
	list = append(list, &press{Room: r, Label: "Close", Do: "unselect"})
	return ui.Div().Class("bar-chosen").Role("group").Aria("label", "Chosen waypoint").Body(list...)
}

// placeCard is what the charts say of a place, and what can be done there.
func placeCard(r *state.Room) ui.UI {
	p := r.Places.Place
	if p == nil {
		return ui.Div().Class("place gone")
	}
	var lines []ui.UI
	for _, l := range p.Lines {
		lines = append(lines, ui.Li().Text(l))
	}
	return ui.Div().Class("place").Role("region").Aria("label", "What the charts say here").Body(
		ui.P().Class("title").Text(entry.FormatPosition(p.At)),
		ui.Ul().Body(lines...),
		ui.P().Text(p.Failed),
		lieCard(r, p),
		ui.P().Class("why").Text(notReachable(r, p)),
		&press{Room: r, Label: "Route to here", Do: "route-here", Off: notReachable(r, p) != "" || p.Asking},
		&press{Room: r, Label: "And stay", Name: "Route to here and stay", Do: "stay-here", Off: notReachable(r, p) != "" || p.Asking},
		&press{Room: r, Label: "Close", Do: "place-gone"},
	)
}

// notReachable says why a route cannot lead to a place.
func notReachable(r *state.Room, p *state.PlaceInfo) string {
	switch {
	case p.Land:
		return "No route can lead here: it is land."
	case len(r.History.Plan.Parts) == 0:
		return "Sketch a route first: then it can be led on to a place."
	}
	return ""
}

// hourLine says which hour the chart shows, and whether what stands on it is of the last time.
func hourLine(r *state.Room) string {
	if r.Checks.Recalled() {
		return "As it was when last open, being checked anew. " + waterLine(r)
	}
	return waterLine(r)
}

// waterLine says of which hour the water on the chart is.
func waterLine(r *state.Room) string {
	if r.Checks.Day.Report == nil || r.Hour.At == 0 {
		return "No tide is known: depths are not coloured."
	}
	t := time.Unix(r.Hour.At, 0)
	line := "Water at " + clocksOf(&r.Checks.Day).at(&t) + t.In(r.History.Plan.Zone).Format(" UTC-07:00")
	h := r.Hour.HeightAt(r.Hour.At)
	switch {
	case h == nil && r.Checks.Stale():
		return line + ": being worked out"
	case h == nil:
		return line + ": height of tide not known"
	}
	line += ", tide " + number(*h, 1, "m") + " above " + r.Hour.Day.Tide.DatumName
	if r.Hour.WaterAt(r.Hour.At) == nil || len(r.Hour.Day.WaterSets) == 0 {
		line += "; depths are not coloured, as no chart here has a level that it can be compared with"
	} else if r.Checks.Stale() && !r.Checks.Recalled() {
		line += "; waves as checked before the last change"
	}
	return line
}

// overStrip is the reason of a departure that was tapped.
func overStrip(r *state.Room) ui.UI {
	w := r.Departures.Ribbon.Why
	if w == nil {
		return ui.Div().Class("slot gone")
	}
	s, ok := plan.ParseSeverity(w.Verdict)
	if !ok {
		s = plan.NoData
	}
	t := time.Unix(w.T, 0)
	return ui.Div().Class("slot").Role("region").Aria("label", "This departure").Body(
		ui.P().Body(shape(s), ui.Text("Leaving at "+clocksOf(&r.Checks.Day).at(&t)+": "+styleOf(s).word+". "+w.Title)),
		ui.P().Class("why").Text(w.Why),
		&press{Room: r, Label: "Leave then", Do: "ribbon-take", Class: "chief"},
		&press{Room: r, Label: "Close", Do: "ribbon-gone"},
	)
}
