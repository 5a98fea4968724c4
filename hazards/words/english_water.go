package words

import (
	"fmt"
	"math"
	"strings"

	"keelroom/hazards/facts"
)

// englishWater are the details of findings about the water and the tide.
var englishWater = map[string]Sentence{
	facts.TooLittleWater: say(func(t *Teller, w facts.Water) string {
		return inDanger(w, fmt.Sprintf("%s m under the keel at %s, %s m wanted. %s", hundredths(w.HaveM), t.Clock(w.When), hundredths(w.WantedM), sum(w.Sum)))
	}),
	facts.EnoughIfExact: say(func(_ *Teller, w facts.Water) string {
		return inDanger(w, fmt.Sprintf("%s m under the keel, %s m wanted, but the charted depth may be out by %s m. %s",
			hundredths(w.HaveM), hundredths(w.WantedM), hundredths(w.AccuracyM), sum(w.Sum)))
	}),
	facts.TooLittleWaterInPlace: say(func(_ *Teller, w facts.Water) string {
		return inDanger(w, fmt.Sprintf("Outside the corridor, but charted things may lie where they are not drawn: %s m under the keel there, %s m wanted. %s",
			hundredths(w.HaveM), hundredths(w.WantedM), sum(w.Sum)))
	}),
	facts.EnoughWithinChart: say(func(_ *Teller, w facts.Water) string {
		return inDanger(w, fmt.Sprintf("With open water beyond the chart the sea would take %s m more. %s", hundredths(w.OpenWaveM), sum(w.Sum)))
	}),
	facts.ShallowForSpeed: say(func(_ *Teller, w facts.Water) string {
		return inDanger(w, fmt.Sprintf("%s m of water at %.1f kn, %s m is comfortable. %s", hundredths(w.HaveM), w.Kn, hundredths(w.WantedM), sum(w.Sum)))
	}),
	facts.CodeDepthNotKnown: say(func(_ *Teller, d facts.DepthNotKnown) string {
		where := "On this stretch "
		if d.AtStay {
			where = "Where she lies "
		}
		return where + whyUnknown(d.Why) + ": unknown water is never taken as deep."
	}),
	facts.CodeDepthNotInPlace: say(func(_ *Teller, d facts.DepthNotInPlace) string {
		return "Outside the corridor, but charted things may lie where they are not drawn: there " + whyUnknown(d.Why) + "."
	}),
	facts.CodeNotRead: say(func(_ *Teller, n facts.NotRead) string {
		file := n.File
		if file == "" {
			file = "the layer"
		}
		return fmt.Sprintf("It is features[%d] of %s and was left out (%s): %s", n.Index, file, n.Info, notKnownWithout(n.Class))
	}),
	facts.CodeNotReadNoPlace: say(func(_ *Teller, n facts.NotReadNoPlace) string {
		return fmt.Sprintf("features[%d] of %s was left out (%s) and has no position: it may lie anywhere in the layer.", n.Index, n.File, n.Info)
	}),
	facts.CodeTideNotKnown: say(func(_ *Teller, n facts.TideNotKnown) string {
		switch n.Why {
		case facts.TideEnds:
			return "The tide given does not reach this time: tables are never extended beyond their ends."
		case facts.TideEndsStay:
			return "The tide given does not reach over the whole stay: tables are never extended beyond their ends."
		}
		return "No tide is given: add a station, a tide table or a tideless level."
	}),
	facts.CodeWavesNotKnown:    fixed("The wind or swell given does not reach over the whole stay, and the water here is enough only without waves."),
	facts.CodeSoundingUnusable: fixed("The height of tide at the time of the echo sounding is not known: take it out, or give the tide then."),
	facts.CodeLevelsDiffer: say(func(t *Teller, l facts.LevelsDiffer) string {
		depths, tide := t.language.Datum(l.Depths), t.language.Datum(l.Tide)
		if l.AtStay {
			return fmt.Sprintf("The depth where she lies is below %s, the tide above %s.", depths, tide)
		}
		return fmt.Sprintf("Depths here are below %s, heights of tide above %s. Say how far the tide's datum lies above the chart's, or which datum the chart has.", depths, tide)
	}),
	facts.CodeAnotherFrame: say(func(_ *Teller, f facts.AnotherFrame) string {
		return fmt.Sprintf("The positions of %q are not WGS 84 and may be 100 m out: no leg passes on them.", f.Layer)
	}),
	facts.CodeTideWindow: say(tideWindow),
	facts.CodeLowNotKnown: fixed("The tide given covers less than a whole tide about this time, so it cannot be said how low the water falls or when it goes: " +
		"add the waters before and after."),
	facts.CodeFarTide: say(func(_ *Teller, w facts.WrongTide) string {
		return fmt.Sprintf("%s, whose tide the plan has, lies %.0f km from %s here. High and low water may come earlier or later here, and rise and fall more or less: take a nearer station, or find out what differs.",
			station(w.Station), w.Km, position(w.At))
	}),
	facts.CodeOtherTide: say(func(_ *Teller, w facts.WrongTide) string {
		return fmt.Sprintf("Between %s, whose tide the plan has, and %s here lies mostly land, over %.0f km: its tide may be that of another water. Take a station on this one, or find out what differs.",
			station(w.Station), position(w.At), w.Km)
	}),
}

// inDanger says first which danger a depth is of.
func inDanger(w facts.Water, text string) string {
	if w.Danger.Name == "" {
		return text
	}
	return thing(w.Danger) + ": " + text
}

// sum writes a sum out.
func sum(s facts.Sum) string {
	var b strings.Builder
	fmt.Fprintf(&b, "Charted %.2f m %s tide %.2f m (%s)", s.ChartedM, sign(s.TideM), math.Abs(s.TideM), tideMeant(s.AtStay))
	for _, part := range []struct {
		name string
		m    float64
	}{{"datum", s.DatumM}, {"margin", s.MarginM}, {"draught", s.DraughtM}, {"squat", s.SquatM}, {"waves", s.WavesM}} {
		if part.m != 0 {
			fmt.Fprintf(&b, " %s %s %.2f m", sign(part.m), part.name, math.Abs(part.m))
		}
	}
	b.WriteString(" = " + hundredths(s.TotalM) + " m.")
	if s.DatumUnknown {
		b.WriteString(" Depth and tide are above different levels, or it is not known which: at most this much.")
	}
	if s.SeaUnknown {
		b.WriteString(" Not all of the sea is known: too little may have been taken off for waves.")
	}
	return b.String()
}

// tideMeant says which height of tide counts: it differs from that at the minute.
func tideMeant(atStay bool) string {
	if atStay {
		return "the least while she lies there"
	}
	return "the least within 15 min of passing"
}

func sign(v float64) string {
	if v < 0 {
		return "−"
	}
	return "+"
}

func whyUnknown(u facts.Unknown) string {
	switch u.Why {
	case facts.Unreadable:
		return className(u.Class) + " could not be read (" + u.Info + ")"
	case facts.NotSurveyed:
		return "the area is not surveyed"
	case facts.NoLeastDepth:
		return "the area has no least depth"
	case facts.NotHere:
		return "no depth is charted here"
	case facts.OtherLevel:
		return "depths and tide are above levels that cannot be compared"
	}
	return "no depth is charted"
}

func tideWindow(t *Teller, w facts.TideWindow) string {
	text := fmt.Sprintf("The tide must stand at %s m or more here, above %s; it falls to %s m within 12 hours.",
		hundredths(w.NeedM), t.language.Datum(w.Datum), hundredths(w.LowestM))
	if w.Ends {
		text += fmt.Sprintf(" The window closes at %s, %s after passing.", t.Clock(w.Closes), duration(w.LeftMin))
	}
	return text
}

// englishTerm names the terms of sums.
func englishTerm(_ *Teller, m facts.Term) (name, why string) {
	switch m.Part {
	case facts.ChartedDepth:
		return "charted depth", m.Class.String() + ", the shoalest the chart allows"
	case facts.TideLeast:
		return "tide", tideMeant(m.AtStay)
	case facts.Squat:
		return "squat", fmt.Sprintf("at %.1f kn in %s m of water", m.Kn, hundredths(m.WaterM))
	case facts.ChartedHeight:
		return "clearance", clearanceNames[m.Charted]
	}
	if name, why, ok := anchorTerm(m); ok {
		return name, why
	}
	return fixedTerms[m.Part][0], fixedTerms[m.Part][1]
}

// fixedTerms are the terms that are always called the same.
var fixedTerms = map[facts.Part][2]string{
	facts.DatumOffset:    {"datum", "tide datum above sounding datum, as answered"},
	facts.Margin:         {"margin", "for the tide's own uncertainty"},
	facts.Draught:        {"draught", "at rest, loaded"},
	facts.Waves:          {"waves", "share of the significant wave height"},
	facts.HeightDatum:    {"height datum", "above the tide's datum"},
	facts.TideGreatest:   {"tide", "greatest height while she is there, 15 min more under way"},
	facts.AirDraught:     {"air draught", "above the water"},
	facts.InTank:         {"in the tank", "at departure"},
	facts.DeepestCharted: {"charted depth", "the greatest that the chart allows"},
	facts.SoundedDepth:   {"sounded depth", "what the echo sounder read, less the tide then"},
	facts.BowRoller:      {"bow roller", "above the water"},
	facts.PullLevel:      {"for the pull", "so that it stays low at the anchor"},
	facts.WholeMetres:    {"rounded up", "to whole metres"},
	facts.NotAboard:      {"not aboard", "more is wanted than there is"},
	facts.KeptUnderKeel:  {"under the keel", "what is to be left at anchor"},
	facts.TideAtArrival:  {"tide on arrival", "within 15 min of it"},
	facts.Burnt:          {"burnt", "burn curve over the timed track, cool-down included"},
}

func station(name string) string {
	if name == "" {
		return "The tide station"
	}
	return name
}
