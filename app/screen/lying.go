package screen

import (
	"fmt"
	"strings"
	"time"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/engine"
	"keelroom/app/phrase"
	"keelroom/app/state"
	"keelroom/hazards/plan"
)

// whereToLie is the search for another place for a stay, and its answer.
func whereToLie(r *state.Room, part int) ui.UI {
	if r.History.Plan.Parts[part].Stay.Kind != plan.AtAnchor {
		return ui.Div().Class("gone")
	}
	name := r.History.Plan.Parts[part].Stay.Name
	l := r.Lying
	find := &press{Room: r, Label: "Find places to lie", Name: "Find places to lie instead of " + name, Do: "lie-find", Arg: fmt.Sprint(part), Off: l.Busy}
	if !l.Asked || l.Part != part {
		return ui.Div().Class("lying").Body(find)
	}
	body := []ui.UI{find}
	if l.Busy {
		body = append(body,
			ui.Progress().Aria("label", "Looking for places to lie").Max(100).Value(int(100*l.Share)),
			&press{Room: r, Label: "Stop looking", Do: "lie-stop"})
	}
	body = append(body, ui.P().Class("lying-line").Role("status").Text(lyingLine(r)))
	var items []ui.UI
	for i := range l.Found.Places {
		items = append(items, anchorage(r, &l.Found.Places[i]))
	}
	if len(items) > 0 {
		body = append(body, ui.Ol().Class("anchorages").Body(items...),
			ui.P().Class("hint").Text("Ordered by the waves with the wind turned, then room, ground, the way there and what wants care. Found on the charts alone: look at each place on the official chart, and with your own eyes, before you trust it."),
			&press{Room: r, Label: "Take the places off the chart", Do: "lie-gone"})
	}
	return ui.Div().Class("lying").Body(body...)
}

// lyingLine says how the search stands.
func lyingLine(r *state.Room) string {
	l := r.Lying
	found := phrase.Capital(phrase.Counted(len(l.Found.Places), "place", "places"))
	switch {
	case l.Failed != "":
		return l.Failed
	case l.Busy && len(l.Found.Places) == 0:
		return "Looking in the part of the chart that is shown."
	case l.Busy:
		return found + " so far."
	case l.Stopped:
		return "The search was stopped: " + phrase.Counted(len(l.Found.Places), "place", "places") + " so far; there may be others, and better ones."
	case len(l.Found.Places) == 0:
		return "No place was found in the part of the chart that was shown, for these hours, this wind and this boat. Show other waters, or change the hours, and look again."
	}
	c := clocksOf(&r.Checks.Day)
	from, to := time.Unix(l.Found.Arrive, 0), time.Unix(l.Found.Until, 0)
	line := fmt.Sprintf("%s where nothing that is checked forbids to lie and nothing about the place is unknown, from %s to %s.", found, c.at(&from), c.at(&to))
	if len(l.Found.NotGiven) > 0 {
		line += " " + strings.Join(l.Found.NotGiven, " ")
	}
	if l.Found.More > 0 {
		line += fmt.Sprintf(" %d more are not listed: come nearer on the chart to see them.", l.Found.More)
	}
	return line
}

// anchorage is one place of the answer.
func anchorage(r *state.Room, p *engine.AnchoragePlace) ui.UI {
	s, ok := plan.ParseSeverity(p.Verdict)
	if !ok {
		s = plan.NoData
	}
	word := "Place " + fmt.Sprint(p.Rank)
	if r.Lying.Taken == p.Rank {
		word += ", where the stay is now"
	}
	return ui.Li().Class("anchorage").Body(
		ui.P().Class("title").Body(shape(s), ui.Text(word+": "+styleOf(s).word)),
		reasons("For it", p.Why), reasons("Against it", p.Against),
		ui.Div().Class("row").Body(
			&press{Room: r, Label: "Show", Name: fmt.Sprintf("Show place %d", p.Rank), Do: "lie-show", Arg: fmt.Sprint(p.Rank)},
			&press{Room: r, Label: "Lie here", Name: fmt.Sprintf("Lie here, at place %d", p.Rank), Do: "lie-at", Arg: fmt.Sprint(p.Rank), Class: "chief"},
		),
	)
}

// reasons are sentences under a heading.
func reasons(heading string, list []string) ui.UI {
	if len(list) == 0 {
		return ui.Div().Class("gone")
	}
	items := make([]ui.UI, len(list))
	for i, text := range list {
		items[i] = ui.Li().Text(phrase.Capital(text))
	}
	return ui.Div().Class("reasons").Body(ui.P().Text(heading), ui.Ul().Body(items...))
}

// lieCard is what the card of a place says of lying there instead of a stay.
func lieCard(r *state.Room, p *state.PlaceInfo) ui.UI {
	if p.Land || p.Asking {
		return ui.Div().Class("gone")
	}
	var body []ui.UI
	for part := range r.History.Plan.Parts {
		stay := r.History.Plan.Parts[part].Stay
		if stay == nil || stay.Kind != plan.AtAnchor {
			continue
		}
		if p.Lie != nil && p.Lie.Part == part {
			body = append(body, lieAnswer(r, p.Lie, stay.Name))
			continue
		}
		body = append(body, &press{Room: r, Label: "Lie here?", Name: "Lie here? Instead of " + stay.Name, Do: "lie-ask", Arg: fmt.Sprint(part)})
	}
	return ui.Div().Class("liecard").Body(body...)
}

func lieAnswer(r *state.Room, lie *state.Lie, name string) ui.UI {
	switch {
	case lie.Asking:
		return ui.P().Text("Being checked.")
	case lie.Failed != "":
		return ui.P().Text(lie.Failed)
	}
	s, ok := plan.ParseSeverity(lie.Body.Verdict)
	if !ok {
		s = plan.NoData
	}
	return ui.Div().Body(
		ui.P().Class("title").Body(shape(s), ui.Text("Lying here instead of "+name+": "+styleOf(s).word)),
		ui.P().Class("why").Text(strings.Join(lie.Body.NotGiven, " ")),
		reasons("Against it", lie.Body.Against), reasons("For it", lie.Body.Why),
		&press{Room: r, Label: "Lie here", Name: "Lie here instead of " + name, Do: "lie-here", Arg: fmt.Sprint(lie.Part), Class: "chief"},
	)
}
