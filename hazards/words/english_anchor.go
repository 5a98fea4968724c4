package words

import (
	"fmt"
	"math"

	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// englishAnchor are the details of findings about the rode, the ground and the sounding.
var englishAnchor = map[string]Sentence{
	facts.RodeShort: say(func(_ *Teller, r facts.Rode) string {
		return fmt.Sprintf("%s: %s Lay more, or anchor where it is shoaler.", laid(r), wantedRode(r))
	}),
	facts.RodeShortIfDeep: say(func(_ *Teller, r facts.Rode) string {
		text := fmt.Sprintf("%s are enough for the least depth that the chart allows here, not for the greatest: %s", laid(r), wantedRode(r))
		if r.SoundM >= 0 {
			text += fmt.Sprintf(" They are enough where the echo sounder reads no more than %s m on arrival.", hundredths(r.SoundM))
		}
		return text
	}),
	facts.CodeRodeNotAboard: say(func(_ *Teller, r facts.RodeNotAboard) string {
		return fmt.Sprintf("%s m are to be laid, and %s m are aboard: plan to lay no more than that, or correct what the boat has.", hundredths(r.LaidM), hundredths(r.AboardM))
	}),
	facts.CodePullLifts: say(pullLifts),
	facts.CodeGreatestDepthNotKnown: say(func(_ *Teller, g facts.GreatestDepthNotKnown) string {
		switch g.Why {
		case facts.NoTideOverStay:
			return "The tide is not known for all of the stay, so it is not known how much rode is enough."
		case facts.NoTideAtEcho:
			return "The tide is not known when the echo sounder was read, so it is not known how much rode is enough: take the reading out, or give the tide then."
		}
		return "The chart does not say how deep it may be here, so it is not known how much rode is enough: give what the echo sounder reads when you are there."
	}),
	facts.CodeLoadNotKnown: say(func(_ *Teller, l facts.LoadNotKnown) string {
		switch l.Why {
		case facts.NoStreamOverStay:
			return "The stream given does not reach over the whole stay, so what pulls at the anchor is not known."
		case facts.NoArea:
			return "What the wind takes hold of is not known: give the boat's length and beam, or her wind area."
		case facts.NoBeam:
			return "What the stream takes hold of is not known: give the boat's beam."
		}
		return "The wind given does not reach over the whole stay, so what pulls at the anchor is not known."
	}),
	facts.HoldingTooLittle: say(func(_ *Teller, h facts.HoldingFor) string {
		text := fmt.Sprintf("%s; her anchor holds %.0f N in good ground", load(h), h.HoldingN)
		if h.CountedN < h.HoldingN {
			text += fmt.Sprintf(", and %.0f N are counted in this: %s", h.CountedN, ground(h.Ground))
		}
		return text + ". Anchor where it is sheltered from the wind or the ground is better, or do not lie here in it."
	}),
	facts.PoorHolding: say(func(_ *Teller, h facts.HoldingFor) string {
		text := "The ground is " + ground(h.Ground) + ": an anchor may slide on it, or be caught."
		if h.LoadKg > 0 {
			text += " " + load(h) + "."
		}
		return text
	}),
	facts.HoldingDoubtful: say(func(_ *Teller, h facts.HoldingFor) string {
		return fmt.Sprintf("%s, over half of the %.0f N that her anchor holds in good ground, and what the ground is here is not charted.", load(h), h.HoldingN)
	}),
	facts.HoldingNotGiven: say(func(_ *Teller, h facts.HoldingFor) string {
		if h.LoadKg == 0 {
			return "What her anchor holds is not given, and what pulls at it is not known."
		}
		return load(h) + ". What her anchor holds is not given: whether that is enough is not checked."
	}),
	facts.CodeSoundingDisagrees: say(func(t *Teller, s facts.Sounding) string {
		text := fmt.Sprintf("The echo sounder read %s m at %s; chart and tide allow ", hundredths(s.ReadM), t.Clock(s.When))
		if s.Open {
			text += hundredths(s.FromM) + " m or more."
		} else {
			text += hundredths(s.FromM) + " to " + hundredths(s.ToM) + " m."
		}
		if s.Feet {
			text += " In feet it would agree: is it in metres?"
		}
		return text + " The tide, the place or the chart is not what was thought. The reading is from the surface, not from the keel."
	}),
}

// englishAnchorTitles are their titles.
var englishAnchorTitles = map[string]Sentence{
	facts.RodeShort:                 fixed("Too little rode"),
	facts.RodeShortIfDeep:           fixed("Rode enough only where it is not deep"),
	facts.CodeRodeNotAboard:         fixed("More rode than is aboard"),
	facts.CodePullLifts:             fixed("The pull may lift the anchor"),
	facts.CodeGreatestDepthNotKnown: fixed("Greatest depth at the anchor not known"),
	facts.CodeLoadNotKnown:          fixed("Pull at the anchor not known"),
	facts.HoldingTooLittle:          fixed("The anchor may not hold"),
	facts.PoorHolding:               fixed("Poor holding ground"),
	facts.HoldingDoubtful:           fixed("Holding is doubtful"),
	facts.HoldingNotGiven:           fixed("What pulls at the anchor"),
	facts.CodeSoundingDisagrees:     fixed("The echo sounder disagrees"),
}

func laid(r facts.Rode) string {
	if r.Planned {
		return hundredths(r.LaidM) + " m of rode"
	}
	return "All " + hundredths(r.LaidM) + " m of rode aboard"
}

func wantedRode(r facts.Rode) string {
	return fmt.Sprintf("%s m are wanted, %.1f for each of %s m. %s", hundredths(r.WantedM), r.Scope, hundredths(r.Height.TotalM), heightSum(r.Height))
}

// heightSum writes the height of the bow roller with its terms.
func heightSum(h facts.Height) string {
	depth := "Charted at the deepest"
	switch {
	case h.Sounded:
		depth = "Sounded"
	case h.Shoalest:
		depth = "Charted at the shoalest"
	}
	return fmt.Sprintf("%s %s %s tide %s (the greatest while she lies there) + margin %s + bow roller %s = %s m.",
		depth, hundredths(h.DepthM), sign(h.TideM), hundredths(math.Abs(h.TideM)), hundredths(h.MarginM), hundredths(h.RollerM), hundredths(h.TotalM))
}

func pullLifts(_ *Teller, p facts.PullLifts) string {
	text := fmt.Sprintf("In gusts of %.0f kn (%.0f N) the pull comes up by %.0f° at the anchor with %s m laid; up to %.0f° it holds. %s",
		math.Ceil(p.GustKn), p.LoadN, p.Deg, hundredths(p.LaidM), p.MostDeg, heightSum(p.Height))
	if p.WantedM > 0 {
		text += fmt.Sprintf(" %.0f m would keep it low.", p.WantedM)
	}
	return text
}

// load says what pulls at the anchor, as a skipper feels it too.
func load(h facts.HoldingFor) string {
	return fmt.Sprintf("Gusts of %.0f kn pull with up to %.0f N (as the weight of %.0f kg), stream included", math.Ceil(h.GustKn), h.LoadN, h.LoadKg)
}

// natures are the words of NATSUR (IHO S-57 App. A, attribute 113).
var natures = map[int]string{1: "mud", 2: "clay", 3: "silt", 4: "sand", 5: "stones", 6: "gravel", 7: "pebbles", 8: "cobbles", 9: "rock", 11: "lava", 14: "coral", 17: "shells", 18: "boulders"}

var holds = map[facts.Holds]string{facts.HoldsWell: "good holding", facts.HoldsFairly: "fair holding", facts.HoldsPoorly: "poor holding", facts.HoldsNotCharted: "holding not known"}

// ground names a ground and how well it holds.
func ground(g facts.Ground) string {
	var names []string
	for _, code := range g.Natures.List() {
		if name := natures[code]; name != "" {
			names = append(names, name)
		}
	}
	if g.Weed {
		names = append(names, "weed")
	}
	if len(names) == 0 {
		return "not charted"
	}
	return list(names) + " (" + holds[g.Holds] + ")"
}

// anchorTerm names the terms of sums about the rode.
func anchorTerm(m facts.Term) (name, why string, ok bool) {
	switch m.Part {
	case facts.WindLoad:
		return "wind", fmt.Sprintf("in a gust of %.0f kn, on her wind area", math.Ceil(m.Kn)), true
	case facts.StreamLoad:
		return "stream", fmt.Sprintf("of %.1f kn, on her hull: an upper estimate", m.Kn), true
	case facts.ScopeRule:
		return "scope", fmt.Sprintf("%.1f for each of %s m", m.Scope, hundredths(m.M)), true
	case facts.RodeHeight:
		return "height of the bow roller", fmt.Sprintf("for which %s m of rode are enough", hundredths(m.M)), true
	}
	return "", "", false
}

// anchorCautions are the cautions about lying at anchor.
var anchorCautions = map[string]Sentence{
	facts.NoRodeGiven:    fixed(plan.CautionNoRode),
	facts.NoHoldingGiven: fixed(plan.CautionNoHolding),
	facts.WaveSurge:      fixed("Waves at a stay jerk at the anchor: that is not counted in what pulls at it."),
	facts.CodeGround:     say(func(_ *Teller, g facts.Ground) string { return ground(g) }),
}
