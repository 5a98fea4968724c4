package words

import (
	"fmt"
	"slices"

	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// namesListed is how many names of other things are told.
const namesListed = 8

// englishReport are the sentences of a report that are no finding's.
var englishReport = map[string]Sentence{
	facts.CodeAsOnLeg: say(func(t *Teller, a facts.AsOnLeg) string {
		return fmt.Sprintf(" This is as it is on leg %d at %s.", a.Leg, t.Clock(a.When))
	}),
	facts.CodeAlso:    say(func(t *Teller, a facts.Also) string { return " " + t.Title(a.Of) + ": " + t.Detail(a.Of) }),
	facts.CodeOnLeg:   say(func(t *Teller, o facts.OnLeg) string { return fmt.Sprintf(" On leg %d: %s", o.Leg, t.Detail(o.Of)) }),
	facts.CodeSameFor: say(sameFor),

	facts.StayNotClear:  fixed("the stay itself is not clear as planned"),
	facts.StayNotKnown:  fixed("not all of the stay is known"),
	facts.DayEnds:       fixed("the day ends here"),
	facts.WayNotClear:   fixed("the way on is not clear as planned"),
	facts.WayNotKnown:   fixed("not all of the way on is known"),
	facts.NothingSets:   fixed("nothing on the way on sets a time within a day"),
	facts.CodeNoneLater: say(noLater),

	facts.Aid:            fixed(plan.CautionAid),
	facts.OfficialCharts: fixed(plan.CautionCharts),
	facts.Lookout:        fixed(plan.CautionLookout),
	facts.LocalRules:     fixed(plan.CautionRules),
	facts.Practice:       fixed(plan.CautionPractice),
	facts.OverGround:     fixed(plan.CautionOverGround),
	facts.NoSwellGiven:   fixed(plan.CautionNoSwell),
	facts.StationNowhere: fixed("The plan does not say where its tide station lies: nothing compares its tide with the waters of the day."),
	facts.SwellShut:      fixed("Swell was left out where no open water lies toward it: how it bends into bays is not computed."),
	facts.SeaAccuracy: fixed(fmt.Sprintf("Seas are worked out from wind and fetch to within %d %%, and follow the wind's direction at once: an old sea from before a shift is not counted.",
		facts.GrowthUncertain)),
	facts.PrivateCoverage: fixed("No official or derived chart is loaded: coverage comes from private layers only."),
	facts.Trusted: say(func(_ *Teller, c facts.Caution) string {
		return fmt.Sprintf("“%s” is trusted over official charts, as the plan says: where it is of larger scale, their depths and dangers do not count.", c.Name)
	}),
	facts.TrustedUnknown: say(func(_ *Teller, c facts.Caution) string {
		return fmt.Sprintf("The plan trusts “%s”, and no derived chart of that name is loaded.", c.Name)
	}),
	facts.Cancelled: say(func(_ *Teller, c facts.Caution) string {
		return fmt.Sprintf("%q was cancelled by its producer (%s): it is no chart in force, and beside one counts only where it warns.", c.Name, c.By)
	}),
	facts.NotOfficial: say(func(_ *Teller, c facts.Caution) string {
		return fmt.Sprintf("%q is %s data, not an official chart.", c.Name, c.By)
	}),
	facts.NotBuilt: say(func(_ *Teller, c facts.Caution) string { return plan.CautionNotBuilt(c.Name) }),
}

func sameFor(_ *Teller, s facts.SameFor) string {
	text := fmt.Sprintf(" The same holds for %d more", s.Count)
	if s.CloseBy {
		text += " close by"
	}
	var names []string
	for _, n := range s.Names {
		names = append(names, "“"+n+"”")
	}
	slices.Sort(names)
	names = names[:min(len(names), namesListed)]
	switch {
	case len(names) == s.Count:
		text += ": " + list(names)
	case len(names) > 0:
		text += ", among them " + list(names)
	}
	return text + "."
}

// noLater says what would be wrong if she left later.
func noLater(t *Teller, n facts.NoLater) string {
	what := uncapital(t.Title(n.Of))
	if n.Leg > 0 {
		what += fmt.Sprintf(" on leg %d", n.Leg)
	}
	if n.Timed {
		what += " at " + t.Clock(n.When)
	}
	if n.Unknown {
		return "later it is not known: " + what
	}
	return "later it is not clear: " + what
}
