package words

import (
	"fmt"
	"math"

	"keelroom/hazards/facts"
)

// englishSea are the details of findings about the sea, the wind and the anchorage.
var englishSea = map[string]Sentence{
	facts.NoWind:     fixed("The wind given does not reach this time, or lies between two rows more than 12 h apart, so the sea is not known."),
	facts.NoSwell:    fixed("The swell forecast does not reach this time: no swell is counted."),
	facts.NoStream:   fixed("The streams given do not reach this time: she is planned as in still water, and wind against stream is not known."),
	facts.TooMuchSea: say(func(_ *Teller, s facts.SeaHeight) string { return waveHeight(s) }),
	facts.Rough:      say(func(_ *Teller, s facts.SeaHeight) string { return waveHeight(s) + " Planned slowly." }),
	facts.SeaNearLimit: say(func(_ *Teller, s facts.SeaHeight) string {
		return fmt.Sprintf("%s Growth formulas are good to %d %%.", waveHeight(s), facts.GrowthUncertain)
	}),
	facts.OpenWater: either(
		say(func(_ *Teller, s facts.SeaHeight) string {
			return fmt.Sprintf("The wind comes over water beyond the chart: %s m if it is open for %.0f km, %s m within the chart.", hundredths(s.OpenM), s.OpenKm, hundredths(s.HsM))
		}),
		say(func(_ *Teller, s facts.Shelter) string {
			return fmt.Sprintf("%s m within the chart, but %s m if the water beyond it is open for %.0f km; %s m is the limit at anchor.",
				hundredths(s.HsM), hundredths(s.OpenM), s.OpenKm, hundredths(s.LimitM))
		})),
	facts.BreakingSea: say(breaking),
	facts.SeaMayBreak: say(breaking),
	facts.CodeWindAgainstStream: say(func(_ *Teller, w facts.WindAgainstStream) string {
		return fmt.Sprintf("The stream runs %.1f kn against %.0f kn of wind: expect short, steep seas.", w.StreamKn, w.WindKn)
	}),
	facts.CodeCannotStem: say(func(t *Teller, c facts.CannotStem) string {
		return fmt.Sprintf("At %.1f kn she cannot keep to this leg in a stream of %.1f kn toward %03.0f° at %s. The times after it are worth nothing.",
			c.Kn, c.StreamKn, c.TowardDeg, t.Clock(c.When))
	}),
	facts.CodeNoWindAtStay: say(func(_ *Teller, n facts.NoWindAtStay) string {
		if n.Room {
			return "How far the wind may shift is not known."
		}
		return "The wind or swell given does not reach over the whole stay, or two rows of wind are more than 12 h apart, so the sea there is not known."
	}),
	facts.CodeStrongGusts: say(func(t *Teller, g facts.StrongGusts) string {
		return fmt.Sprintf("Gusts of %.0f kn at %s: above %.0f kn every stay wants care.", math.Ceil(g.Kn), t.Clock(g.When), g.LimitKn)
	}),
	facts.NoShelter: say(func(t *Teller, s facts.Shelter) string {
		return fmt.Sprintf("Significant wave height up to %s m, %s m is the limit at anchor: %s.", hundredths(s.HsM), hundredths(s.LimitM), windThen(t, s))
	}),
	facts.ShelterDoubtful: say(func(t *Teller, s facts.Shelter) string {
		return fmt.Sprintf("Up to %s m, and growth formulas are good to %d %%, which may make it %s m; %s m is the limit at anchor: %s.",
			hundredths(s.HsM), facts.GrowthUncertain, hundredths(s.PlusM), hundredths(s.LimitM), windThen(t, s))
	}),
	facts.CodeNoWindRoom: say(func(_ *Teller, n facts.NoWindRoom) string {
		return fmt.Sprintf("With the wind as it is the sea here already passes %s m, counting open water beyond the chart.", hundredths(n.LimitM))
	}),
	facts.CodeLittleWindRoom: say(littleRoom),
	facts.CodeAnchoring: say(func(_ *Teller, a facts.Anchoring) string {
		return named("Here", a.Name) + ": " + whyNotAnchor[a.Why] + awayFromAnchor(a.Metres) + "." + chartSays(a.Info)
	}),
	facts.CodeInCircle: say(func(_ *Teller, c facts.InCircle) string {
		return fmt.Sprintf("%s: %s, within the %.0f m that she swings in: the rode may foul it.%s", named("In the circle", c.Name), whyNotAnchor[c.Why]+awayFromAnchor(c.Metres), c.RadiusM, chartSays(c.Info))
	}),
}

func wind(w facts.Wind) string {
	return fmt.Sprintf("wind %.0f kn from %03.0f° over %.1f nm of open water", w.Kn, w.FromDeg, w.FetchNm)
}

func windThen(t *Teller, s facts.Shelter) string { return wind(s.Wind) + " at " + t.Clock(s.When) }

func waveHeight(s facts.SeaHeight) string {
	return fmt.Sprintf("Significant wave height %s m: %s.", hundredths(s.HsM), wind(s.Wind))
}

func breaking(_ *Teller, b facts.Breaking) string {
	return fmt.Sprintf("Significant wave height %s m in %s m of water.", hundredths(b.HsM), hundredths(b.WaterM))
}

func littleRoom(_ *Teller, l facts.LittleWindRoom) string {
	way := "back"
	if l.Veering {
		way = "veer"
	}
	text := fmt.Sprintf("If the wind should %s by %.0f° the sea here passes %s m; %.0f° are wanted.", way, l.RoomDeg, hundredths(l.LimitM), l.WantedDeg)
	if l.OpenOnly {
		text += " Only open water beyond the chart makes it so."
	}
	return text
}

var whyNotAnchor = map[facts.WhyNotAnchor]string{
	facts.Cable:               "a submarine cable lies here",
	facts.Pipeline:            "a submarine pipeline lies here",
	facts.FoulGround:          "the ground is foul",
	facts.AnchoringProhibited: "anchoring is prohibited",
	facts.DraggingProhibited:  "dragging is prohibited",
	facts.StoppingProhibited:  "stopping is prohibited",
	facts.BathingArea:         "it is a bathing area",
	facts.AnchoringRestricted: "anchoring is restricted; find out on what terms",
	facts.Minefield:           "it is charted as a minefield",
}
