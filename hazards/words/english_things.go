package words

import (
	"fmt"
	"strconv"
	"strings"

	"keelroom/geo/chart"
	"keelroom/hazards/facts"
)

// englishThings are the details of findings about what lies in the way, or overhead.
var englishThings = map[string]Sentence{
	facts.Land:            say(solid),
	facts.InTheWay:        either(say(solid), say(tooClose)),
	facts.LandInPlace:     say(solidInPlace),
	facts.InTheWayInPlace: say(solidInPlace),
	facts.CodeByEye: say(func(_ *Teller, b facts.ByEye) string {
		return capital(thing(b.Thing)) + " is close by near the berth: pass it by eye."
	}),
	facts.DangerNoDepth: say(func(_ *Teller, d facts.Danger) string {
		return capital(thing(d.Thing)) + " lies " + withinReach(d.AtStay) + " and the chart does not say how deep: it counts as impassable."
	}),
	facts.DangerInPlace: say(func(_ *Teller, d facts.Danger) string {
		return capital(thing(d.Thing)) + " without a depth lies outside the corridor, but may not be quite where it is drawn."
	}),
	facts.DangerHarmless: say(func(_ *Teller, d facts.Danger) string {
		return capital(thing(d.Thing)) + " is said to be no danger to surface craft, but the chart gives no depth."
	}),
	facts.DepthDoubtful: say(func(_ *Teller, d facts.Danger) string {
		return fmt.Sprintf("%s: %s m is charted, but marked as doubtful.", thing(d.Thing), tenths(d.DepthM))
	}),
	facts.CodePoorSurvey: say(func(_ *Teller, p facts.PoorSurvey) string {
		return fmt.Sprintf("Survey quality %s: charted things may lie hundreds of metres from where they are drawn, and others may not be charted.", surveyQuality(p.CatZoc))
	}),
	facts.FixedMarkClose:   say(tooClose),
	facts.BuoyClose:        say(tooClose),
	facts.LightAfloatClose: say(tooClose),
	facts.CodeIsolatedDanger: say(func(_ *Teller, c facts.TooClose) string {
		return fmt.Sprintf("%s lies %s: it is set over a danger, and the chart may not show how far that reaches.", capital(thing(c.Thing)), fromHer(c))
	}),
	facts.CodeOverheadNotKnown: say(func(_ *Teller, o facts.OverheadNotKnown) string {
		return overheadName(o.Thing) + ": " + whyNoRoom[o.Why]
	}),
	facts.OverheadEnough: say(func(t *Teller, o facts.Overhead) string { return overheadName(o.Thing) + ": " + overheadSum(t, o) }),
	facts.TooLittleOverhead: say(func(t *Teller, o facts.Overhead) string {
		return fmt.Sprintf("%s: %s of room at %s, %s wanted. %s", overheadName(o.Thing), millimetres(o.RoomM), t.Clock(o.When), millimetres(o.WantedM), overheadSum(t, o))
	}),
	facts.WidthNotCharted: say(func(_ *Teller, s facts.Supports) string {
		return named("bridge", s.Name) + ": the chart does not give the width between the supports."
	}),
	facts.BeamNotKnown: say(func(_ *Teller, s facts.Supports) string {
		return named("bridge", s.Name) + ": the boat's beam is not given."
	}),
	facts.CodeTooNarrow: say(func(_ *Teller, s facts.Supports) string {
		return fmt.Sprintf("%s: %.1f m between the supports, beam %.1f m + %.0f m wanted.", named("bridge", s.Name), s.WidthM, s.BeamM, s.ReserveM)
	}),
	facts.OutsideCharts: fixed("The data end here: nothing is known of this water."),
	facts.PrivateOnly:   fixed("No chart in force is loaded, only private layers."),
}

// withinReach says where things lie that count.
func withinReach(atStay bool) string {
	if atStay {
		return "close to where she lies"
	}
	return "within the corridor"
}

func solid(_ *Teller, s facts.Solid) string {
	switch {
	case s.Crossed && s.AtStay:
		return capital(thing(s.Thing)) + " is where she lies."
	case s.Crossed:
		return capital(thing(s.Thing)) + " is crossed by the track."
	}
	return capital(thing(s.Thing)) + " lies " + withinReach(s.AtStay) + "."
}

func solidInPlace(_ *Teller, s facts.Solid) string {
	return capital(thing(s.Thing)) + " lies outside the corridor, but may not be quite where it is drawn."
}

func tooClose(_ *Teller, c facts.TooClose) string {
	return fmt.Sprintf("%s %s %s; %.1f m off is wanted.", capital(thing(c.Thing)), stances[c.Stance], fromHer(c), c.WantedM)
}

var stances = map[facts.Stance]string{facts.Stands: "stands", facts.Floats: "floats", facts.Moored: "is moored"}

// fromHer says how far a thing is from the track, or from where she lies.
func fromHer(c facts.TooClose) string {
	there := "the track"
	if c.AtStay {
		there = "where she lies"
	}
	if c.DistanceM > 0 {
		return fmt.Sprintf("%.1f m from %s", c.DistanceM, there)
	}
	return "on " + there
}

// harmlessTitle is the title of a danger that passing is said to be clear of.
func harmlessTitle(_ *Teller, d facts.Danger) string {
	if d.Thing.Class == chart.WRECKS {
		return "A wreck without a depth"
	}
	return capital(kindOf(d.Thing))
}

// overheadSum writes the sum out: every term, and what they add up to.
func overheadSum(t *Teller, o facts.Overhead) string {
	when, level := "the greatest within 15 min of passing", ""
	if o.AtStay {
		when = "the greatest while she lies there"
	}
	if o.LevelUnknown {
		level = " How far the level of charted heights lies above the tide's datum is not known: taken as nothing."
	}
	return fmt.Sprintf("%s %s above %s + %s for that level above the tide's datum − tide %s, %s, − margin %s − waves %s − air draught %s = %s.%s",
		clearanceNames[o.Charted], millimetres(o.ChartedM), t.language.Datum(o.Level), millimetres(o.DatumM), millimetres(o.TideM), when,
		millimetres(o.MarginM), millimetres(o.WavesM), millimetres(o.AirM), millimetres(o.RoomM), level)
}

var whyNoRoom = map[facts.WhyNoRoom]string{
	facts.NoClearance:  "the chart gives no clearance.",
	facts.NoAirDraught: "the boat's air draught is not given.",
	facts.NoHeightThen: "the height of tide then is not known.",
	facts.NoLevel:      "how far the level of charted heights lies above that of the tide is not known, and it may lie below it.",
}

var clearanceNames = map[facts.Clearance]string{facts.PlainClearance: "Clearance", facts.SafeClearance: "Safe clearance",
	facts.LessForCurrent: "Clearance less 5 m for the current,", facts.ClosedClearance: "Clearance closed", facts.LowerClosed: "Clearance closed, the lower charted,"}

// millimetres writes metres to the millimetre, with two decimals at least.
func millimetres(m float64) string {
	text := strconv.FormatFloat(m+0, 'f', 3, 64) // + 0 takes the sign off nothing
	return strings.TrimSuffix(text, "0") + " m"
}

// notKnownWithout says what is not known where a feature of a class was left out.
func notKnownWithout(k chart.Class) string {
	switch {
	case k.Overhead():
		return "the room under it is not known, and unknown room is never taken as enough."
	case k == chart.RESARE || k.SpecialWater() || k == chart.GATCON:
		return "what holds there, a speed limit or that one must not enter, is not known."
	case k == chart.MCOVR:
		return "where the data end is not known."
	case k.NoGo(), k.Shoreline(), k.CloseBy(), k == chart.LNDARE:
		return "it may lie in the way."
	}
	return "the depth there is not known, and unknown water is never taken as deep."
}
