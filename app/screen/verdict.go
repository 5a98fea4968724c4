package screen

import (
	"slices"
	"strings"
	"time"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/engine"
	"keelroom/app/phrase"
	"keelroom/app/state"
	"keelroom/hazards/plan"
)

// severityStyle is how a severity is shown: a word, a shape and a verdict sentence.
type severityStyle struct {
	class, word, shape, sentence string
}

// styleOf is the style of a severity. What is no severity of the report is shown as not known.
func styleOf(s plan.Severity) severityStyle {
	switch s {
	case plan.NotClear:
		return severityStyle{"not-clear", "Not clear", "■", "Not clear: do not go as planned."}
	case plan.Care:
		return severityStyle{"care", "Care", "▲", "Care is needed: nothing found forbids this day."}
	case plan.Clear:
		return severityStyle{"clear", "Clear", "○", "Clear on the data given: nothing found against this day."}
	case plan.Note:
		return severityStyle{"note", "Note", "–", ""}
	}
	return severityStyle{"no-data", "Not known", "?", "Not known to be clear: data are missing."}
}

// shape is the mark of a severity, with its word for those who do not see it.
func shape(s plan.Severity) ui.UI {
	style := styleOf(s)
	return ui.Span().Class("shape shape-"+style.class).Aria("hidden", "true").Text(style.shape)
}

func verdict(d *state.Day) ui.UI {
	r, c := d.Report, clocksOf(d)
	style := styleOf(r.Verdict)
	return ui.Section().Class("verdict verdict-"+style.class).Body(
		ui.P().Class("title").Text(d.Plan.Title),
		ui.H1().Body(shape(r.Verdict), ui.Text(style.sentence)),
		ui.P().Class("tally").Text(tally(r)),
		ui.P().Class("unbuilt").Text(unbuilt(r)),
		ui.P().Class("unbuilt").Text(notGiven(r)),
		facts(d, c),
		ui.P().Class("zone").Text(zoneLine(d.Plan, r.Depart)),
	)
}

// zoneLine says what zone every time is in, and its offset from UTC at the departure
// where that is known.
func zoneLine(p *plan.Plan, depart *time.Time) string {
	offset := ""
	if depart != nil {
		offset = ", UTC" + depart.In(p.Zone).Format("-07:00")
	}
	return "All times are in the zone " + p.ZoneName + offset + "."
}

// tally says how many findings there are of each severity above a note, those that
// are only counted among them.
func tally(r *plan.Report) string { return tallyOf(engine.Tally(r)) }

// tallyOf words how many things are not clear, are not known, and want care.
func tallyOf(n [3]int) string {
	var parts []string
	for i, s := range [3]struct{ one, many string }{
		{"place or time is not clear", "places or times are not clear"},
		{"thing is not known", "things are not known"},
		{"thing wants care", "things want care"},
	} {
		if n[i] > 0 {
			parts = append(parts, phrase.Counted(n[i], s.one, s.many))
		}
	}
	if len(parts) == 0 {
		return "The checks that were made found nothing to watch."
	}
	return phrase.Capital(phrase.Joined(parts)) + "."
}

// unbuilt names the checks that were not made, beside every verdict.
func unbuilt(r *plan.Report) string {
	var names []string
	for _, name := range plan.CheckNames() {
		if r.Checks[name] == plan.NotBuilt {
			names = append(names, checkWord(name))
		}
	}
	return unbuiltWords(names)
}

func unbuiltWords(checks []string) string {
	if len(checks) == 0 {
		return ""
	}
	return "Not checked by this version: " + phrase.Joined(checks) + "."
}

// notGiven says, beside every verdict, what was not given and so not counted or checked.
func notGiven(r *plan.Report) string {
	var out []string
	for _, caution := range []string{plan.CautionNoSwell, plan.CautionNoRode, plan.CautionNoHolding} {
		if slices.Contains(r.Cautions, caution) {
			out = append(out, caution)
		}
	}
	return strings.Join(out, " ")
}

// facts are the figures of the day.
func facts(d *state.Day, c clocks) ui.UI {
	r := d.Report
	rows := []ui.UI{
		fact("Depart", c.at(r.Depart)),
		fact("Back", c.at(r.Back)),
		fact("Distance", figure(r.DistanceNm, 1, "nm")),
		fact("Under way", lasting(r.UnderWayMin)),
		fact("Fuel", up(r.FuelL, "l")),
		fact("Least under the keel", least(r, c)),
	}
	stays := d.Plan.Stays()
	for i, l := range r.LeaveBy {
		name := "Leave the stay by"
		if i < len(stays) {
			name = "Leave " + stays[i].Name + " by"
		}
		rows = append(rows, wide(name, c.at(l.Time)+because(l.Why)))
	}
	return ui.Dl().Class("facts").Body(rows...)
}

func because(why string) string {
	if why == "" {
		return ""
	}
	return ": " + why
}

func least(r *plan.Report, c clocks) string {
	l := r.LeastClearance
	if l == nil {
		return notKnown
	}
	return leastAt(l.ClearanceM, l.Time, c)
}

func leastAt(metres *float64, at *time.Time, c clocks) string {
	if metres == nil && at == nil {
		return notKnown
	}
	return down(metres, "m") + " at " + c.at(at)
}

func fact(name, value string) ui.UI {
	return ui.Div().Class("fact").Body(ui.Dt().Text(name), ui.Dd().Text(value))
}

// byTime sorts findings by when they hold; those for the whole day come first.
func byTime(findings []plan.Finding) []plan.Finding {
	sorted := make([]plan.Finding, len(findings))
	for n, i := range orderByTime(findings) {
		sorted[n] = findings[i]
	}
	return sorted
}

// orderByTime is that order as places in the list.
func orderByTime(findings []plan.Finding) []int {
	order := make([]int, len(findings))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		a, b := findings[i].Time, findings[j].Time
		switch {
		case a == nil && b == nil:
			return 0
		case a == nil:
			return -1
		case b == nil:
			return 1
		}
		return a.Compare(*b)
	})
	return order
}
