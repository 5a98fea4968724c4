package words

import (
	"fmt"

	"keelroom/hazards/facts"
)

// englishMarks are the details of findings about the side of marks.
var englishMarks = map[string]Sentence{
	facts.HandNotCharted:   lateral(": neither its hand nor, for its colour, the region is known."),
	facts.PreferredChannel: lateral(": channels part here; the main one is marked."),
	facts.CrossingChannel: lateral(": the track crosses the channel here, so it is not told on which hand the mark is left; " +
		"keep out of the way of vessels in it (COLREGs rules 9 and 10)."),
	facts.DirectionNotCharted: lateral(", and perhaps others of this day: neither the chart nor the marks about it show the direction of buoyage; " +
		"say it in the plan, or check each mark's side."),
	facts.CodeLateralWrong: say(func(_ *Teller, m facts.LateralWrong) string {
		hand := "starboard"
		if m.Port {
			hand = "port"
		}
		return fmt.Sprintf("%s should be left to %s on this course; %s", named("lateral mark", m.Name), hand, beside(m))
	}),
	facts.SideNotCharted: say(func(_ *Teller, m facts.CardinalMark) string {
		return named("cardinal mark", m.Name) + ": the chart does not say on which side to pass it."
	}),
	facts.CodeOverCardinal: say(func(_ *Teller, m facts.CardinalMark) string {
		return fmt.Sprintf("%s: safe water lies to the %s of it; the track runs over it.", named("cardinal mark", m.Name), quarter(m.Side))
	}),
	facts.CodeCardinalWrong: say(func(_ *Teller, m facts.CardinalMark) string {
		return fmt.Sprintf("%s: safe water lies to the %s of it; the track passes it %.0f m off, bearing %03.0f° from the mark.",
			named("cardinal mark", m.Name), quarter(m.Side), m.DistanceM, m.BearingD)
	}),
	facts.CodeMarkNotRead: say(func(_ *Teller, m facts.MarkNotRead) string {
		return fmt.Sprintf("A mark (%s, features[%d] of %s) could not be read (%s): it is not known on which side to pass it.", m.Class, m.Index, m.File, m.Info)
	}),
}

func lateral(says string) Sentence {
	return say(func(_ *Teller, m facts.LateralMark) string { return named("lateral mark", m.Name) + says })
}

func beside(m facts.LateralWrong) string {
	switch m.Beside {
	case facts.Foul:
		return "the water there is foul."
	case facts.NotKnown:
		return "not all of the water there is known."
	case facts.Shoal:
		return fmt.Sprintf("the water there, %.1f m at the least, is less than comfortable or than twice what she needs.", m.LeastM)
	}
	return "the water there is deep enough."
}

// quarter is the side to pass a cardinal mark on (CATCAM).
func quarter(catcam int) string {
	if catcam < 1 || catcam > 4 {
		return "side not charted"
	}
	return [...]string{"north", "east", "south", "west"}[catcam-1]
}
