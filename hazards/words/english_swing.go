package words

import (
	"fmt"
	"math"

	"keelroom/hazards/facts"
)

// englishSwing are the details of findings about the circle that she swings in.
var englishSwing = map[string]Sentence{
	facts.SwingWater: say(func(_ *Teller, s facts.Swing) string {
		return swung(s, "too little water", "") + fmt.Sprintf(" %s m under the keel there at the lowest water of the stay, %s m wanted.", hundredths(s.HaveM), hundredths(s.WantedM)) + andOthers(s)
	}),
	facts.SwingLand:   say(func(_ *Teller, s facts.Swing) string { return swung(s, thing(s.Thing), "") + andOthers(s) }),
	facts.SwingObject: say(func(_ *Teller, s facts.Swing) string { return swung(s, thing(s.Thing), "") + andOthers(s) }),
	facts.SwingDanger: say(func(_ *Teller, s facts.Swing) string {
		if s.WantedM > 0 {
			return swung(s, thing(s.Thing), "") + fmt.Sprintf(" %s m under the keel there at the lowest water of the stay, %s m wanted.", hundredths(s.HaveM), hundredths(s.WantedM)) + andOthers(s)
		}
		if s.Thing.Class.IsolatedDanger() {
			return swung(s, thing(s.Thing), ", which marks a danger that lies under it") + andOthers(s)
		}
		return swung(s, thing(s.Thing), ", whose depth is not charted") + andOthers(s)
	}),
	facts.SwingOverhead: say(func(_ *Teller, s facts.Swing) string {
		return swung(s, overheadName(s.Thing), ", under which there is too little room, or it is not known how much") + andOthers(s)
	}),
	facts.SwingUnknown: say(func(_ *Teller, s facts.Swing) string {
		what := "water of which nothing is known"
		if s.UnreadMark {
			what = "where a mark may stand"
		}
		return swung(s, what, ": "+whyUnknown(s.Why)) + andOthers(s)
	}),
	facts.SwingTraffic: say(func(_ *Teller, s facts.Swing) string { return swung(s, trafficName(s.Thing), "") + andOthers(s) }),
	facts.SwingMoored:  say(func(_ *Teller, s facts.Swing) string { return swung(s, mooredName(s.Thing), "") + andOthers(s) }),
	facts.CodeSwingNotKnown: say(func(_ *Teller, s facts.SwingNotKnown) string {
		if s.Why == facts.NoBoatLength {
			return "The boat's length is not given, so the circle that she swings in is not known: only what lies within the rode is checked."
		}
		return "Neither the depth nor the rode aboard is known, so the circle that she swings in is not known."
	}),
	facts.CodeRodeTooShort: say(func(_ *Teller, r facts.RodeTooShort) string {
		return fmt.Sprintf("%s m of rode with %s m from the bow roller to the ground at high water: the anchor would hang, or not hold at all.", hundredths(r.RodeM), hundredths(r.HeightM))
	}),
}

// swingTitle is a title of what is there, and of what would be.
func swingTitle(there, then string) Sentence {
	return say(func(_ *Teller, s facts.Swing) string {
		if s.If {
			return then
		}
		return there
	})
}

// swung says what she swings onto, where, and what it takes.
func swung(s facts.Swing, what, more string) string {
	where := fmt.Sprintf("%s%s, %s of the anchor", what, more, farAndWhither(s))
	if s.If {
		return fmt.Sprintf("If the wind turned to %s, %.0f° further than is allowed for, she would swing onto %s.", compass(s.WindDeg), s.TurnDeg, where)
	}
	text := fmt.Sprintf("Within the %.0f m that she swings in she comes onto %s.", s.RadiusM, where)
	if why := whyAllRound[s.AllRound]; why != "" {
		text += " She may lie on any bearing: " + why + "."
	}
	return text
}

var whyAllRound = map[facts.WhyAllRound]string{
	facts.WindNotKnown:   "the wind is not known for all of the stay",
	facts.LightAir:       "the wind is under 4 kn for some of the stay",
	facts.StreamNotKnown: "the stream is not known for all of the stay",
	facts.StreamOpposed:  "the stream runs against the wind for some of the stay",
	facts.WindMayGoRound: "the wind turns about during the stay, and which way round is not known",
}

// farAndWhither says how far and where a thing lies.
func farAndWhither(s facts.Swing) string {
	if s.DistanceM < 1 {
		return "within a metre"
	}
	return fmt.Sprintf("%.0f m %s", s.DistanceM, compass(s.BearingDeg))
}

// compassPoints are the points of the compass from north, clockwise.
var compassPoints = [...]string{"N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "NNW"}

// compass is the point nearest to a bearing.
func compass(deg float64) string {
	n := len(compassPoints)
	return compassPoints[(int(math.Round(deg*float64(n)/360))%n+n)%n]
}

func andOthers(s facts.Swing) string {
	switch s.Others {
	case 0:
		return ""
	case 1:
		return " The same holds for one thing more."
	}
	return fmt.Sprintf(" The same holds for %d things more.", s.Others)
}

func awayFromAnchor(metres int) string {
	if metres < 1 {
		return ""
	}
	return fmt.Sprintf(", %d m from the anchor", metres)
}
