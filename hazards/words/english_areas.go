package words

import (
	"fmt"

	"keelroom/hazards/facts"
)

// waters are what waters set aside, troubled or to be known are called, and what is
// said of them.
var waters = map[string][2]string{
	facts.Gate:               {"A gate", "Find out whether and when it is open."},
	facts.TrafficLane:        {"A traffic lane", "Cross it at right angles and keep clear of its traffic (COLREGs rule 10)."},
	facts.SeparationZone:     {"A separation zone", "It is entered only to cross, at right angles, or to fish (COLREGs rule 10)."},
	facts.InshoreTraffic:     {"An inshore traffic zone", "Coastal traffic keeps to it; vessels under 20 m may use it (COLREGs rule 10)."},
	facts.PracticeArea:       {"A military practice area", "Find out before entering whether firing or exercises are under way."},
	facts.SeaplaneArea:       {"A seaplane landing area", "Aircraft land and take off here: keep well clear of them."},
	facts.SubmarineLane:      {"A submarine transit lane", "Submarines may be under way here, also submerged: keep a good lookout."},
	facts.OffshoreProduction: {"An offshore production area", "Platforms, buoys and lines may lie here, and safety zones about them: find out which."},
	// No chart can tell the state of either.
	facts.Ice:         {"Ice", "The chart shows ice here."},
	facts.BrokenWater: {"Broken water", "Overfalls, eddies or breakers are charted here: worst with wind against stream."},
	facts.CautionArea: {"A caution area", "The chart asks for caution here."},
	facts.Anchorage:   {"An anchorage", "Vessels may lie at anchor here."},
}

// englishAreas are the details of findings about areas and their rules.
var englishAreas = map[string]Sentence{
	facts.EntryProhibited: say(area), facts.EntryProhibitedClose: say(area), facts.EntryRestricted: say(area),
	facts.RuleNotStated: say(area), facts.RestrictedArea: say(area),

	facts.Gate: say(setAside), facts.TrafficLane: say(setAside), facts.SeparationZone: say(setAside), facts.InshoreTraffic: say(setAside),
	facts.PracticeArea: say(setAside), facts.SeaplaneArea: say(setAside), facts.SubmarineLane: say(setAside), facts.OffshoreProduction: say(setAside),
	facts.Ice: say(notice), facts.BrokenWater: say(notice), facts.CautionArea: say(notice), facts.Anchorage: say(notice),

	facts.CodeSpeedLimit: say(func(t *Teller, s facts.SpeedLimit) string { return passage(t, s.Passage) + chartSays(s.Info) }),
	facts.CodeLimitNotStated: say(func(t *Teller, l facts.LimitNotStated) string {
		return fmt.Sprintf("%s: %s; planned at %.1f kn. %s%s", t.zoneName(l.Name), noLimit(l.Others), l.LimitKn, passage(t, l.Passage), chartSays(l.Info))
	}),
	facts.CodeAskedAbove: say(func(_ *Teller, a facts.AskedAbove) string {
		return fmt.Sprintf("%.1f kn are asked for on this leg; planned at the limit of %.1f kn.", a.AskedKn, a.LimitKn)
	}),
}

func watersTitle(_ *Teller, w facts.Waters) string { return named(waters[w.What][0], w.Name) }

func setAside(_ *Teller, w facts.Waters) string {
	return fmt.Sprintf("%s%s. %s%s", waters[w.What][0], lies(w.Lies), waters[w.What][1], chartSays(w.Info))
}

func notice(_ *Teller, w facts.Waters) string { return waters[w.What][1] + chartSays(w.Info) }

// area says what an area is, what it says, and where it lies.
func area(_ *Teller, a facts.Area) string {
	what := "A restricted area"
	if !a.Restricted {
		what = "An area"
	}
	rules := "the layer does not say what is restricted"
	if names := ruleNames(a.Restrn, a.CatRea); len(names) > 0 {
		rules = list(names)
	}
	return fmt.Sprintf("%s%s: %s.%s", named(what, a.Name), lies(a.Lies), rules, chartSays(a.Info))
}

// lies says, after the name of an area, whether the track enters it or passes beside
// it.
func lies(l facts.Lies) string {
	switch l.How {
	case facts.Within:
		return ", where she lies"
	case facts.OnTrack:
		return ", on the track"
	case facts.Nearly:
		return ", less than 1 m from the track"
	case facts.Entered:
		return ", which the track enters"
	}
	there := "the track"
	if l.AtStay {
		there = "where she lies"
	}
	return fmt.Sprintf(", %d m from %s", l.Metres, there)
}

// noLimit says why a zone has no limit for her.
func noLimit(others facts.Limits) string {
	if others == "" {
		return "the layer gives no figure"
	}
	var names []string
	others.All(func(kn float64, vessels string) { names = append(names, fmt.Sprintf("%.1f kn for %s", kn, vessels)) })
	return "the layer gives a figure for other vessels only (" + list(names) + ")"
}

func passage(t *Teller, p facts.Passage) string {
	text := fmt.Sprintf("From %s to %s.", t.Clock(p.Enter), t.Clock(p.Leave))
	if p.SeasonEnds {
		text += " Its season begins or ends while she is inside: planned at the limit throughout."
	}
	if p.Slows {
		text = fmt.Sprintf("Begin to slow from %.0f kn at %s, %.0f m before the line. %s", p.SlowFromKn, t.Clock(p.SlowAt), p.SlowM, text)
	}
	return text
}
