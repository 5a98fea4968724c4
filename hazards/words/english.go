package words

import (
	"fmt"
	"maps"
	"strings"
	"time"

	"keelroom/hazards/facts"
)

// English is the language of the reports.
var English = &Language{
	Titles:  joined(englishTitles, englishAnchorTitles),
	Details: joined(englishWater, englishThings, englishAreas, englishMarks, englishSea, englishSwing, englishDay, englishAnchor),
	Others:  joined(englishReport, englishPlace, englishAnchorage, anchorCautions),
	Term:    englishTerm,
	Clock:   englishClock,
	Datum:   englishDatum,
	Zone:    "speed zone",
	More:    func(n int) string { return fmt.Sprintf("%d more", n) },
}

func joined(tables ...map[string]Sentence) map[string]Sentence {
	out := map[string]Sentence{}
	for _, t := range tables {
		maps.Copy(out, t)
	}
	return out
}

func englishClock(local time.Time, otherDay bool) string {
	if otherDay {
		return local.Format("Mon 2 Jan 15:04 MST")
	}
	return local.Format("15:04 MST")
}

// englishTitles are the titles of findings.
var englishTitles = map[string]Sentence{
	facts.TooLittleWater:        fixed("Too little water"),
	facts.TooLittleWaterInPlace: fixed("Shoal water within the survey's position accuracy"),
	facts.EnoughIfExact:         fixed("Enough only if the survey is exact"),
	facts.EnoughWithinChart:     fixed("Enough only in the sea within the chart"),
	facts.ShallowForSpeed:       fixed("Shallow for this speed"),
	facts.CodeDepthNotKnown:     fixed("Depth not known"),
	facts.CodeDepthNotInPlace:   fixed("Unknown water within the survey's position accuracy"),
	facts.CodeNotRead:           say(func(_ *Teller, f facts.NotRead) string { return capital(className(f.Class)) + " could not be read" }),
	facts.CodeNotReadNoPlace: say(func(_ *Teller, f facts.NotReadNoPlace) string {
		return capital(className(f.Class)) + " without a place could not be read"
	}),
	facts.CodeTideNotKnown:     fixed("Height of tide not known"),
	facts.CodeWavesNotKnown:    fixed("Waves at the berth not known"),
	facts.CodeSoundingUnusable: fixed("The sounding cannot be used"),
	facts.CodeLevelsDiffer:     fixed("Depths and tide from different levels"),
	facts.CodeAnotherFrame:     fixed("Positions in another frame"),
	facts.CodeTideWindow:       fixed("Enough water at this tide only"),
	facts.CodeLowNotKnown:      fixed("Low water beside this leg not known"),
	facts.CodeFarTide:          fixed("The tide is that of a far place"),
	facts.CodeOtherTide:        fixed("The tide is that of another water"),

	facts.Land:            fixed("Land"),
	facts.LandInPlace:     fixed("Land within the survey's position accuracy"),
	facts.InTheWay:        fixed("In the way"),
	facts.InTheWayInPlace: fixed("In the way within the survey's position accuracy"),
	facts.CodeByEye:       fixed("By eye"),
	facts.DangerNoDepth:   fixed("A danger without a depth"),
	facts.DangerInPlace:   fixed("A danger within the survey's position accuracy"),
	facts.DangerHarmless:  say(harmlessTitle),
	facts.DepthDoubtful:   fixed("A doubtful depth"),
	facts.CodePoorSurvey:  fixed("Poorly surveyed water"),

	facts.FixedMarkClose:      fixed("Too close to a fixed mark"),
	facts.BuoyClose:           fixed("Close to a buoy"),
	facts.LightAfloatClose:    fixed("Close to a light afloat"),
	facts.CodeIsolatedDanger:  fixed("Within the danger of an isolated danger mark"),
	facts.HandNotCharted:      fixed("Hand not charted"),
	facts.PreferredChannel:    fixed("Preferred channel mark"),
	facts.CrossingChannel:     fixed("Crossing a marked channel"),
	facts.DirectionNotCharted: fixed("Direction of buoyage not charted"),
	facts.CodeLateralWrong:    fixed("Wrong side of a lateral mark"),
	facts.SideNotCharted:      fixed("Side not charted"),
	facts.CodeOverCardinal:    fixed("Over a cardinal mark"),
	facts.CodeCardinalWrong:   fixed("Wrong side of a cardinal mark"),
	facts.CodeMarkNotRead:     fixed("A mark that could not be read"),

	facts.EntryProhibited: say(func(_ *Teller, a facts.Area) string { return capital(ruleName(a.Rule)) }),
	facts.EntryProhibitedClose: say(func(_ *Teller, a facts.Area) string {
		return "Close by: " + capital(ruleName(a.Rule))
	}),
	facts.EntryRestricted:    say(func(_ *Teller, a facts.Area) string { return capital(ruleName(a.Rule)) }),
	facts.RuleNotStated:      fixed("A rule that is not stated"),
	facts.RestrictedArea:     fixed("A restricted area"),
	facts.Ice:                say(watersTitle),
	facts.BrokenWater:        say(watersTitle),
	facts.Gate:               say(watersTitle),
	facts.TrafficLane:        say(watersTitle),
	facts.SeparationZone:     say(watersTitle),
	facts.InshoreTraffic:     say(watersTitle),
	facts.PracticeArea:       say(watersTitle),
	facts.SeaplaneArea:       say(watersTitle),
	facts.SubmarineLane:      say(watersTitle),
	facts.OffshoreProduction: say(watersTitle),
	facts.CautionArea:        say(watersTitle),
	facts.Anchorage:          say(watersTitle),
	facts.CodeSpeedLimit: say(func(t *Teller, s facts.SpeedLimit) string {
		return fmt.Sprintf("%.1f kn in %s", s.LimitKn, t.zoneName(s.Name))
	}),
	facts.CodeLimitNotStated: fixed("Limit not stated"),
	facts.CodeAskedAbove:     fixed("The plan's speed is above the limit"),

	facts.CodeOverheadNotKnown: fixed("Room overhead not known"),
	facts.OverheadEnough:       fixed("Room enough overhead"),
	facts.TooLittleOverhead:    fixed("Too little room overhead"),
	facts.WidthNotCharted:      fixed("Width not charted"),
	facts.BeamNotKnown:         fixed("Beam not known"),
	facts.CodeTooNarrow:        fixed("Too narrow"),

	facts.NoWind:                fixed("No wind for this time"),
	facts.NoSwell:               fixed("No swell for this time"),
	facts.NoStream:              fixed("No stream for this time"),
	facts.TooMuchSea:            fixed("Too much sea"),
	facts.Rough:                 fixed("A rough passage"),
	facts.SeaNearLimit:          fixed("A sea near the limit"),
	facts.OpenWater:             fixed("Open water beyond the chart"),
	facts.BreakingSea:           fixed("Breaking sea"),
	facts.SeaMayBreak:           fixed("The sea may break"),
	facts.CodeWindAgainstStream: fixed("Wind against the stream"),
	facts.CodeCannotStem:        fixed("A stream she cannot stem"),
	facts.CodeNoWindAtStay:      fixed("No wind for the stay"),
	facts.CodeStrongGusts:       fixed("Strong gusts where she lies"),
	facts.NoShelter:             fixed("No shelter here"),
	facts.ShelterDoubtful:       fixed("Shelter is doubtful"),
	facts.CodeNoWindRoom:        fixed("No room for the wind to shift"),
	facts.CodeLittleWindRoom:    fixed("Little room for the wind to shift"),
	facts.CodeAnchoring:         fixed("Anchoring"),
	facts.CodeInCircle:          fixed("The rode may foul something"),

	facts.SwingWater:        swingTitle("Too little water where she swings", "Too little water if the wind turns"),
	facts.SwingLand:         swingTitle("Land where she swings", "Land if the wind turns"),
	facts.SwingObject:       swingTitle("In the way where she swings", "In the way if the wind turns"),
	facts.SwingDanger:       swingTitle("A danger where she swings", "A danger if the wind turns"),
	facts.SwingOverhead:     swingTitle("Too low above her where she swings", "Too low above her if the wind turns"),
	facts.SwingUnknown:      swingTitle("Unknown water where she swings", "Unknown water if the wind turns"),
	facts.SwingTraffic:      swingTitle("Traffic where she swings", "Traffic if the wind turns"),
	facts.SwingMoored:       swingTitle("Moorings where she swings", "Moorings if the wind turns"),
	facts.CodeSwingNotKnown: fixed("Room to swing not known"),
	facts.CodeRodeTooShort:  fixed("The rode does not reach"),

	facts.Dark:              fixed("Under way in the dark"),
	facts.Twilight:          fixed("Under way in twilight"),
	facts.CodeFuelNotKnown:  fixed("Fuel not known"),
	facts.CodeTankNotKnown:  fixed("Fuel in the tank not known"),
	facts.CodeNotEnoughFuel: fixed("Not enough fuel"),
	facts.CodeIntoReserve:   fixed("Into the fuel reserve"),
	facts.CodeLateAtStay:    fixed("Arriving too late"),
	facts.CodeBackTooLate:   fixed("Back too late"),
	facts.CodeOtherClock:    fixed("The clock is that of another place"),
	facts.OutsideCharts:     fixed("Outside the charts"),
	facts.PrivateOnly:       fixed("A private layer only"),
}

func (t *Teller) zoneName(name string) string {
	if name == "" {
		return t.language.Zone
	}
	return name
}

// named adds a name to what a thing is.
func named(what, name string) string {
	if name == "" {
		return what
	}
	return what + " “" + name + "”"
}

// chartSays gives a feature's own words.
func chartSays(info string) string {
	if info == "" {
		return ""
	}
	return " The chart says: " + info
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// uncapital is a title or noun in the midst of a sentence.
func uncapital(s string) string { return strings.ToLower(s[:min(1, len(s))]) + s[min(1, len(s)):] }

func list(words []string) string { return strings.Join(words, ", ") }

// hundredths writes metres, which are whole hundredths, and no minus before nothing.
func hundredths(m float64) string {
	if m == 0 {
		m = 0
	}
	return fmt.Sprintf("%.2f", m)
}

// duration writes minutes.
func duration(m int) string {
	if m < 120 {
		return fmt.Sprintf("%d min", m)
	}
	return fmt.Sprintf("%d h %02d min", m/60, m%60)
}
