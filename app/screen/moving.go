package screen

import (
	"strings"
	"time"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/phrase"
	"keelroom/app/state"
	"keelroom/hazards"
	"keelroom/hazards/plan"
)

// movingCard is the verdict while a point is dragged.
func movingCard(r *state.Room) ui.UI {
	m, title := r.Checks.Moving, r.History.Plan.Title
	s, known := m.Severity()
	switch {
	case m.Words != "":
		return ui.Section().Class("verdict failure").Body(
			ui.P().Class("title").Text(title),
			ui.H1().Body(shape(plan.NoData), ui.Text("Not checked with the point here.")),
			ui.P().Text(phrase.Capital(m.Words)+"."),
			ui.P().Text("Nothing is known of this day."),
		)
	case !known:
		return ui.Section().Class("verdict waiting").Body(
			ui.P().Class("title").Text(title),
			ui.H1().Text("Being checked with the point here"),
		)
	}
	h, c := m.Head, clocks{zone: r.History.Plan.Zone, day: timeOf(m.Head.Depart)}
	said := styleOf(s)
	return ui.Section().Class("verdict verdict-"+said.class).Body(
		ui.P().Class("title").Text("with the point here · "+title),
		ui.H1().Body(shape(s), ui.Text(said.sentence)),
		ui.P().Class("tally").Text(tallyOf(h.Counts)),
		ui.Dl().Class("facts facts-few").Body(
			fact("Leave", c.at(timeOf(h.Depart))),
			fact("Back", c.at(timeOf(h.Back))),
			fact("Least under keel", leastAt(h.LeastM, timeOf(h.LeastAt), c)),
		),
		ui.P().Class("unbuilt").Text(worstWords(h.Worst)),
		ui.P().Class("unbuilt").Text(unbuiltWords(notBuiltWords())),
		ui.P().Class("unbuilt").Text(notGivenBy(r.History.Plan)),
		ui.P().Class("zone").Text(zoneLine(r.History.Plan, timeOf(h.Depart))),
	)
}

// notBuiltWords are the checks that this version does not make: the view of a move
// does not carry them.
func notBuiltWords() []string {
	var names []string
	for _, name := range hazards.NotBuilt() {
		names = append(names, checkWord(name))
	}
	return names
}

// notGivenBy says what a plan does not give and what is so not counted, as the report
// on it would.
func notGivenBy(p *plan.Plan) string {
	return strings.Join(p.NotGiven(), " ")
}

// worstWords are the title of the worst finding as a sentence.
func worstWords(title string) string {
	if title == "" {
		return ""
	}
	return phrase.Capital(title) + "."
}

// timeOf is a time of Unix seconds, nil where it is not known.
func timeOf(seconds *int64) *time.Time {
	if seconds == nil {
		return nil
	}
	t := time.Unix(*seconds, 0)
	return &t
}
