package screen

import (
	"fmt"
	"math"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/state"
	"keelroom/hazards/plan"
)

// anchorFacts are the figures of lying at anchor.
func anchorFacts(d *state.Day, s *plan.StayResult, c clocks) []ui.UI {
	return []ui.UI{
		fact("Rode to lay", toLay(d.Plan, s)),
		fact("Rode aboard", down(s.RodeAboardM, "m")),
		wide("Drop where the sounder reads", soundings(s, c)),
		fact("Rode to depth", scopes(s)),
		wide("Wind that lifts the rode", lifts(s.LiftKn)),
		fact("Pull at the anchor", pull(s.LoadN)),
		fact("Ground", orNotKnown(s.Bottom)),
		fact("Swings within", swings(s)),
		fact("Room downwind of that", down(s.LeeRoomM, "m")),
	}
}

func orNotKnown(text string) string {
	if text == "" {
		return notKnown
	}
	return text
}

// toLay is the rode to lay, counted by the marks on it where the boat has any.
func toLay(p *plan.Plan, s *plan.StayResult) string {
	lay := s.ToLayM
	if s.RodeM != nil {
		lay = s.RodeM
	}
	if lay == nil {
		return notKnown
	}
	text := up(lay, "m")
	if s.RodeM != nil && s.ToLayM != nil {
		text += " as planned, " + up(s.ToLayM, "m") + " wanted"
	}
	if p.Boat.Rode != nil {
		text += byMarks(p.Boat.Rode.MarksM, *lay)
	}
	return text
}

// byMarks is how far beyond which mark of the rode a length is.
func byMarks(marks []float64, m float64) string {
	n := 0
	for n < len(marks) && marks[n] <= m+1e-9 {
		n++
	}
	switch {
	case len(marks) == 0:
		return ""
	case n == 0:
		return fmt.Sprintf(", before the first mark, which is at %s", number(marks[0], 0, "m"))
	case m-marks[n-1] < 0.05:
		return fmt.Sprintf(", mark %d", n)
	}
	return fmt.Sprintf(", %s beyond mark %d", number(m-marks[n-1], 1, "m"), n)
}

// soundings is what the echo sounder must read when the anchor goes down.
func soundings(s *plan.StayResult, c clocks) string {
	if s.SoundFromM == nil || s.SoundToM == nil {
		return notKnown
	}
	return fmt.Sprintf("%s to %s at %s, below the surface: less, and she is too near the ground at low water; more, and the rode is too short",
		number(*s.SoundFromM, 1, "m"), number(*s.SoundToM, 1, "m"), c.at(s.Arrive))
}

func scopes(s *plan.StayResult) string {
	if s.ScopeHigh == nil && s.ScopeLow == nil {
		return notKnown
	}
	return fmt.Sprintf("%s : 1 at high water, %s : 1 at low", down(s.ScopeHigh, ""), down(s.ScopeLow, ""))
}

// lifts are the gusts at which the rode no longer pulls level.
func lifts(l *plan.Lift) string {
	if l == nil {
		return notKnown
	}
	at := func(kn *float64) string {
		if kn == nil {
			return "in no gust"
		}
		return "from " + down(kn, "kn")
	}
	return "the last of it " + at(l.LevelKn) + "; steeper than an anchor holds " + at(l.SteepKn)
}

// pull is a force in newtons, and as a weight that a hand knows.
func pull(n *float64) string {
	if n == nil {
		return notKnown
	}
	return fmt.Sprintf("%s, as much as %s hangs", number(math.Ceil(*n), 0, "N"), number(math.Ceil(*n/9.80665), 0, "kg"))
}

// stayHours is the table of a stay by the hour.
func stayHours(s *plan.StayResult, c clocks) ui.UI {
	if len(s.Hours) == 0 {
		return ui.Div().Class("gone")
	}
	var rows []ui.UI
	for i := range s.Hours {
		h := &s.Hours[i]
		rows = append(rows, ui.Tr().Body(
			ui.Th().Scope("row").Text(c.at(&h.Time)),
			ui.Td().Text(figure(h.TideM, 2, "")), ui.Td().Text(down(h.ClearanceM, "m")), ui.Td().Text(up(h.GustKn, "")),
			ui.Td().Text(up(h.SeaM, "m")), ui.Td().Text(bearing(h.HeadingDeg)), ui.Td().Text(down(h.Scope, "")),
		))
	}
	return ui.Details().Class("hours").Body(
		ui.Summary().Text("Hour by hour"),
		ui.Div().Class("scrolls").TabIndex(0).Role("region").Aria("label", "The stay hour by hour").Body(ui.Table().Class("legs").Body(
			ui.THead().Body(ui.Tr().Body(column("Time", ""), column("Tide, m", ""), column("Under keel", ""), column("Gust, kn", ""), column("Waves", ""), column("Heads", ""), column("Rode : depth", ""))),
			ui.TBody().Body(rows...),
		)),
	)
}

// explained are the sums that the figures of a stay are made of.
func explained(s *plan.StayResult) ui.UI {
	if len(s.Explained) == 0 {
		return ui.Div().Class("gone")
	}
	var parts []ui.UI
	for i := range s.Explained {
		e := &s.Explained[i]
		var terms []ui.UI
		for _, t := range e.Made {
			terms = append(terms, ui.Li().Text(term(&t)))
		}
		parts = append(parts, ui.P().Class("title").Text(figureName(e.Figure)), ui.Ul().Body(terms...))
	}
	return ui.Details().Class("sums").Body(ui.Summary().Text("Where these figures come from"), ui.Div().Body(parts...))
}

func term(t *plan.Term) string {
	text := t.Name + ": " + number(t.Value, 2, t.Unit)
	if t.Why != "" {
		text += " (" + t.Why + ")"
	}
	return text
}

// figureName is a member of the report in words.
func figureName(member string) string {
	if name, ok := figureNames[member]; ok {
		return name
	}
	return member
}

var figureNames = map[string]string{
	"load_n": "Pull at the anchor", "to_lay_m": "Rode to lay", "rode_m": "Rode laid", "radius_m": "Swings within", "height_m": "Bow roller above the ground",
	"sound_from_m": "The least that the sounder may read", "sound_to_m": "The most that the sounder may read",
	"scope_high": "Rode to depth at high water", "scope_low": "Rode to depth at low water", "lift_kn": "Wind that lifts the rode",
}
