package screen

import (
	"fmt"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/state"
	"keelroom/hazards/plan"
	"keelroom/hazards/tide"
)

func stays(d *state.Day, c clocks) ui.UI {
	if len(d.Report.Stays) == 0 {
		return ui.P().Text("The day has no stay.")
	}
	var list []ui.UI
	for i := range d.Report.Stays {
		list = append(list, stay(d, &d.Report.Stays[i], c))
	}
	return ui.Div().Class("stays").Body(list...)
}

func stay(d *state.Day, s *plan.StayResult, c clocks) ui.UI {
	rows := []ui.UI{
		fact("There", c.at(s.Arrive)+" – "+c.at(s.Until)),
		fact("Depth", fmt.Sprintf("%s on arrival, %s to %s", down(s.DepthArrivalM, "m"), down(s.DepthLeastM, "m"), up(s.DepthGreatestM, "m"))),
		fact("Least under the keel", down(s.ClearanceLeastM, "m")),
		fact("Sea at most", up(s.SeaGreatestM, "m")),
		fact("Wind from", bearing(s.WindFromDeg)+", fetch "+figure(s.FetchNm, 2, "nm")),
		fact("The wind may shift by", room(s.WindRoom)),
	}
	return ui.Article().Class("stay").Body(
		ui.H3().Text(s.Name),
		ui.Dl().Class("facts").Body(append(rows, anchorFacts(d, s, c)...)...),
		stayHours(s, c), explained(s),
	)
}

func room(w *plan.WindRoom) string {
	if w == nil {
		return notKnown
	}
	return degrees(w.BackingDeg) + " backing, " + degrees(w.VeeringDeg) + " veering"
}

// swings is the radius that she may swing in, and the greatest that would be clear.
func swings(s *plan.StayResult) string {
	if s.RadiusM == nil {
		return notKnown
	}
	text := up(s.RadiusM, "m") + " of the anchor"
	if s.RoomM != nil {
		text += ", and " + down(s.RoomM, "m") + " would be clear"
	}
	return text
}

func tideAndSun(d *state.Day, c clocks) ui.UI {
	rows := tideFacts(d.Report.Tide, c)
	if s := d.Report.Sun; s != nil {
		rows = append(rows, fact("Sunrise", c.at(s.Sunrise)), fact("Sunset", c.at(s.Sunset)), fact("End of dusk", c.at(s.CivilDusk)))
	}
	return ui.Dl().Class("facts").Body(rows...)
}

func tideFacts(t *plan.TideOfDay, c clocks) []ui.UI {
	if t == nil {
		return []ui.UI{fact("Tide", notKnown)}
	}
	var rows []ui.UI
	for _, e := range t.Events {
		name := "Low water"
		if e.Kind == plan.HighWater {
			name = "High water"
		}
		rows = append(rows, fact(name, c.at(&e.Time)+", "+number(e.HeightM, 1, "m")))
	}
	datum := "a datum that is not known"
	if name, ok := tide.VERDATName(t.Datum); ok {
		datum = name
	}
	return append(rows, fact("Heights above", datum), wide("Method", t.Method))
}

// wide is a fact whose text wants the whole line.
func wide(name, value string) ui.UI {
	return ui.Div().Class("fact fact-wide").Body(ui.Dt().Text(name), ui.Dd().Text(value))
}

func legs(d *state.Day, c clocks, most int) ui.UI {
	head := ui.THead().Body(ui.Tr().Body(
		column("Leg", ""), column("Start", ""), column("End", "spare"), column("Course", ""), column("nm", ""), column("kn", ""), column("Under keel", ""),
	))
	var bodies []ui.UI
	list := d.Report.Legs[:min(most, len(d.Report.Legs))]
	for from := 0; from < len(list); {
		to := from
		for to < len(list) && list[to].Route == list[from].Route {
			to++
		}
		bodies = append(bodies, route(list[from:to], c))
		from = to
	}
	return ui.Table().Class("legs").Body(append([]ui.UI{head}, bodies...)...)
}

func column(name, class string) ui.UI {
	th := ui.Th().Scope("col").Text(name)
	if class != "" {
		return th.Class(class)
	}
	return th
}

// route is the legs of one route under its name.
func route(legs []plan.Leg, c clocks) ui.UI {
	rows := []ui.UI{ui.Tr().Class("route").Body(ui.Th().Scope("rowgroup").ColSpan(7).Text(legs[0].Route))}
	for i := range legs {
		l := &legs[i]
		rows = append(rows, ui.Tr().Body(
			ui.Th().Scope("row").Text(fmt.Sprint(l.Leg)),
			ui.Td().Text(c.at(l.Start)),
			ui.Td().Class("spare").Text(c.at(l.End)),
			ui.Td().Text(bearing(l.CourseDeg)),
			ui.Td().Text(figure(l.DistanceNm, 2, "")),
			ui.Td().Text(figure(l.Kn, 1, "")),
			ui.Td().Text(down(l.LeastClearanceM, "m")),
		))
	}
	return ui.TBody().Body(rows...)
}

func cautions(r *plan.Report) ui.UI {
	items := make([]ui.UI, 0, len(r.Cautions)+len(r.Messages))
	for _, text := range r.Cautions {
		items = append(items, ui.Li().Text(text))
	}
	for _, text := range r.Messages {
		items = append(items, ui.Li().Body(ui.Text("The chart files: "), ui.Code().Text(text)))
	}
	return ui.Ul().Class("cautions").Body(items...)
}

func chartsUsed(r *plan.Report) ui.UI {
	if len(r.Charts) == 0 {
		return ui.P().Text("None.")
	}
	var items []ui.UI
	for i := range r.Charts {
		items = append(items, ui.Li().Text(chartLine(&r.Charts[i])))
	}
	return ui.Ul().Class("cautions").Body(items...)
}

func chartLine(u *plan.ChartUsed) string {
	line := u.Title
	if u.Scale > 0 {
		line += fmt.Sprintf(", 1:%d", u.Scale)
	}
	if u.Edition != "" {
		line += ", edition " + u.Edition
	}
	if u.IssueDate != "" {
		line += ", issued " + u.IssueDate
	}
	return line + ", " + u.Authority + " data"
}
