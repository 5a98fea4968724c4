package words

import (
	"cmp"
	"fmt"

	"keelroom/hazards/facts"
)

// englishPlace are the sentences about a place.
var englishPlace = map[string]Sentence{
	facts.UnreadThere: there(func(_ *Teller, p facts.There) string {
		return fmt.Sprintf("%s could not be read%s (%s): %s", capital(className(p.Thing.Class)), away(p.Metres), p.Info, notKnownWithout(p.Thing.Class))
	}),
	facts.UnknownNear: there(func(_ *Teller, p facts.There) string {
		return fmt.Sprintf("Water of unknown depth lies %d m away.", p.Metres)
	}),
	facts.LayerThere: there(func(_ *Teller, p facts.There) string { return layerName(p) + "." }),
	facts.LayerDepth: there(func(t *Teller, p facts.There) string {
		end := "there."
		if p.Less {
			end = "here, less than the chart."
		}
		return fmt.Sprintf("%s has %s below %s %s", layerName(p), depths(p.Low, p.High), t.language.Datum(p.Datum), end)
	}),
	facts.LandThere:    there(func(_ *Teller, p facts.There) string { return "Land" + named("", p.Thing.Name) + "." }),
	facts.DepthUnknown: there(func(_ *Teller, p facts.There) string { return "The depth is not known: " + whyUnknown(p.Why) + "." }),
	facts.DepthThere: there(func(t *Teller, p facts.There) string {
		dredged := ""
		if p.Dredged {
			dredged = ", dredged"
		}
		return fmt.Sprintf("Charted depth %s below %s%s.", depths(p.Low, p.High), t.language.Datum(p.Datum), dredged)
	}),
	facts.NoChartThere:  fixed("No chart reaches here."),
	facts.NoDepthThere:  fixed("No depth is charted here."),
	facts.NoTideThere:   fixed("No tide is given, so the water at an hour is not known."),
	facts.NoHeightThere: fixed("The height of tide is not known at this hour."),
	facts.HeightThere: there(func(t *Teller, p facts.There) string {
		return fmt.Sprintf("Height of tide %s m above %s at %s.", tenths(p.Value), t.language.Datum(p.Datum), t.clockOnly(p.When))
	}),
	facts.NoLevelThere: fixed("Depths and heights of tide are above different levels, or it is not known which: the water is not known."),
	facts.DryThere: there(func(_ *Teller, p facts.There) string {
		return fmt.Sprintf("It may be dry: the bottom is %s m above the water, margin taken off.", tenths(p.Value))
	}),
	facts.WaterThere: there(func(_ *Teller, p facts.There) string {
		return fmt.Sprintf("At least %.1f m of water, margin taken off.", p.Value)
	}),
	facts.SoundingThere: there(func(t *Teller, p facts.There) string {
		return fmt.Sprintf("A sounding of %.1f m below %s%s.", p.Value, t.language.Datum(p.Datum), away(p.Metres))
	}),
	facts.DangerThere: there(func(t *Teller, p facts.There) string {
		return fmt.Sprintf("%s%s%s.%s", capital(thing(p.Thing)), dangerDepth(t, p), away(p.Metres), chartSays(p.Info))
	}),
	facts.ThingThere: there(func(_ *Teller, p facts.There) string {
		return fmt.Sprintf("%s%s.%s", capital(thing(p.Thing)), away(p.Metres), chartSays(p.Info))
	}),
	facts.WatersThere: there(func(_ *Teller, p facts.There) string {
		return fmt.Sprintf("%s%s.%s", named(waters[p.Water][0], p.Thing.Name), away(p.Metres), chartSays(p.Info))
	}),
	facts.OverheadThere: say(overheadThere),
	facts.RulesThere:    say(rulesThere),
	facts.UnreadMarkThere: there(func(_ *Teller, p facts.There) string {
		return fmt.Sprintf("A mark that could not be read (%s).", p.Info)
	}),
	facts.SurveyThere: there(func(_ *Teller, p facts.There) string {
		return fmt.Sprintf("Survey quality (CATZOC) %s: the charted depth may be out by %.1f m.", surveyQuality(p.CatZoc), p.Value)
	}),
}

func there(word func(*Teller, facts.There) string) Sentence { return say(word) }

// tenths writes a figure with one decimal, and no minus before nothing.
func tenths(v float64) string {
	if v == 0 {
		v = 0
	}
	return fmt.Sprintf("%.1f", v)
}

func away(metres int) string {
	if metres < 1 {
		return ""
	}
	return fmt.Sprintf(", %d m away", metres)
}

// layerName names a layer that is no chart in force.
func layerName(p facts.There) string {
	switch {
	case p.Private:
		return "A private layer"
	case p.Cancelled:
		return fmt.Sprintf("%q, which its producer cancelled and is no chart in force", p.Layer)
	}
	return fmt.Sprintf("%q, which is no chart,", p.Layer)
}

// depths are rounded down to tenths.
func depths(low, high facts.Figure) string {
	switch {
	case !high.Known:
		return fmt.Sprintf("%.1f m or more", low.Value)
	case low == high:
		return fmt.Sprintf("%.1f m", low.Value)
	}
	return fmt.Sprintf("%.1f to %.1f m", low.Value, high.Value)
}

func dangerDepth(t *Teller, p facts.There) string {
	switch {
	case !p.Low.Known:
		return ", depth not stated"
	case p.Low.Value < 0:
		return fmt.Sprintf(", dries %s m above %s", tenths(-p.Low.Value), t.language.Datum(p.Datum))
	}
	return fmt.Sprintf(", depth %.1f m below %s", p.Low.Value, t.language.Datum(p.Datum))
}

func overheadThere(t *Teller, o facts.OverheadClearances) string {
	var charted []string
	for _, c := range []struct {
		m    facts.Figure
		what string
	}{{o.Open, "clearance"}, {o.Safe, "safe clearance"}, {o.Closed, "clearance when closed"}} {
		if c.m.Known {
			charted = append(charted, fmt.Sprintf("%s %.1f m", c.what, c.m.Value))
		}
	}
	text := "clearance not stated"
	if len(charted) > 0 {
		text = list(charted) + " above " + t.language.Datum(o.Datum)
	}
	return fmt.Sprintf("Overhead%s: %s%s.", named("", o.Name), text, away(o.Metres))
}

func rulesThere(_ *Teller, a facts.AreaRules) string {
	var rules []string
	switch {
	case a.SpeedZone && a.Limit.Known:
		rules = append(rules, fmt.Sprintf("speed limit %.1f kn", a.Limit.Value))
	case a.SpeedZone:
		rules = append(rules, "a speed limit that is not stated")
	}
	rules = append(rules, ruleNames(a.Restrn, a.CatRea)...)
	season := ""
	if a.OffSeason {
		season = " Not in force on this day."
	}
	return fmt.Sprintf("%s: %s.%s%s", named("An area", a.Name), cmp.Or(list(rules), "no rule stated"), season, chartSays(a.Info))
}
