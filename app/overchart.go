package app

import (
	"fmt"
	"time"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/entry"
	"keelroom/app/phrase"
	"keelroom/hazards/plan"
)

// overChart is what stands on the chart: tools, the sketch's buttons, a place.
func overChart(r *Room, key ui.UI) ui.UI {
	return ui.Div().Class("over").Body(
		ui.Div().Class("tools tools-chart").Role("group").Aria("label", "Chart").Body(
			&press{Room: r, Label: "+", Name: "Nearer", Do: "zoom-in", Class: "round"},
			&press{Room: r, Label: "−", Name: "Farther", Do: "zoom-out", Class: "round"},
			&press{Room: r, Label: "Whole day", Do: "fit"},
			&press{Room: r, Label: "Sketch route", Do: "mode", Arg: modeRoute, Pressed: pressed(r.sketch.mode == modeRoute)},
			ui.Details().Class("key").Body(ui.Summary().Class("press").Text("Key"), key),
		),
		sketchBar(r),
		selectedBar(r),
		placeCard(r),
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
func sketchBar(r *Room) ui.UI {
	if r.sketch.mode == modeLook {
		return ui.Div().Class("bar-sketch gone")
	}
	words := map[string]string{
		modeRoute:  "Tap the chart, point by point. Nothing is pulled to the shore or to deep water: what you draw is what is checked.",
		modeZone:   "Tap the corners of the zone.",
		modeDanger: "Tap where the danger is.",
	}[r.sketch.mode]
	return ui.Div().Class("bar-sketch").Role("group").Aria("label", "Sketch").Body(
		ui.P().Aria("live", "polite").Text(words+" "+phrase.Capital(phrase.Counted(r.sketch.points, "point", "points"))+"."),
		&press{Room: r, Label: "Add at the cross", Do: "sketch-centre"},
		&press{Room: r, Label: "Last point back", Do: "sketch-back", Off: r.sketch.points == 0},
		&press{Room: r, Label: "Done", Do: "sketch-done", Class: "chief", Off: r.sketch.points == 0},
		&press{Room: r, Label: "Cancel", Do: "sketch-cancel"},
	)
}

// selectedBar is what can be done with the chosen waypoint.
func selectedBar(r *Room) ui.UI {
	part, vertex, at, ok := r.selection.chosen()
	if !ok || r.sketch.mode != modeLook {
		return ui.Div().Class("bar-chosen gone")
	}
	arg := fmt.Sprintf("%d,%d", part, vertex)
	name := fmt.Sprintf("Waypoint %d", vertex+1)
	isStay := r.history.plan.Parts[part].Stay != nil
	if isStay {
		name = r.history.plan.Parts[part].Stay.Name
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
func placeCard(r *Room) ui.UI {
	p := r.places.place
	if p == nil {
		return ui.Div().Class("place gone")
	}
	var lines []ui.UI
	for _, l := range p.lines {
		lines = append(lines, ui.Li().Text(l))
	}
	return ui.Div().Class("place").Role("region").Aria("label", "What the charts say here").Body(
		ui.P().Class("title").Text(entry.FormatPosition(p.at)),
		ui.Ul().Body(lines...),
		ui.P().Text(p.failed),
		ui.P().Class("why").Text(notReachable(r, p)),
		&press{Room: r, Label: "Route to here", Do: "route-here", Off: notReachable(r, p) != "" || p.asking},
		&press{Room: r, Label: "And stay", Name: "Route to here and stay", Do: "stay-here", Off: notReachable(r, p) != "" || p.asking},
		&press{Room: r, Label: "Close", Do: "place-gone"},
	)
}

// notReachable says why a route cannot lead to a place.
func notReachable(r *Room, p *placeInfo) string {
	switch {
	case p.land:
		return "No route can lead here: it is land."
	case len(r.history.plan.Parts) == 0:
		return "Sketch a route first: then it can be led on to a place."
	}
	return ""
}

// hourLine says which hour the chart shows.
func hourLine(r *Room) string {
	if r.checks.day.Report == nil || r.hour.at == 0 {
		return "No tide is known: depths are not coloured."
	}
	t := time.Unix(r.hour.at, 0)
	line := "Water at " + clocksOf(&r.checks.day).at(&t) + t.In(r.history.plan.Zone).Format(" UTC-07:00")
	h := r.hour.heightAt(r.hour.at)
	switch {
	case h == nil && r.checks.stale():
		return line + ": being worked out"
	case h == nil:
		return line + ": height of tide not known"
	}
	line += ", tide " + number(*h, 1, "m") + " above " + r.hour.day.Tide.DatumName
	if r.hour.waterAt(r.hour.at) == nil || len(r.hour.day.WaterSets) == 0 {
		line += "; depths are not coloured, as no chart here has a level that it can be compared with"
	} else if r.checks.stale() {
		line += "; waves as checked before the last change"
	}
	return line
}

// overStrip is the reason of a departure that was tapped.
func overStrip(r *Room) ui.UI {
	w := r.departures.ribbon.why
	if w == nil {
		return ui.Div().Class("slot gone")
	}
	s, ok := plan.ParseSeverity(w.Verdict)
	if !ok {
		s = plan.NoData
	}
	t := time.Unix(w.T, 0)
	return ui.Div().Class("slot").Role("region").Aria("label", "This departure").Body(
		ui.P().Body(shape(s), ui.Text("Leaving at "+clocksOf(&r.checks.day).at(&t)+": "+say(s).word+". "+w.Title)),
		ui.P().Class("why").Text(w.Why),
		&press{Room: r, Label: "Leave then", Do: "ribbon-take", Class: "chief"},
		&press{Room: r, Label: "Close", Do: "ribbon-gone"},
	)
}
