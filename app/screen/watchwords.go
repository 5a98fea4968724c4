package screen

import (
	"fmt"
	"math"
	"time"

	"keelroom/app/phrase"
	"keelroom/app/state"
	"keelroom/hazards/watch"
)

// watchWords says in a few words how things are.
func watchWords(a *state.AnchorWatch, s watch.Status) string {
	switch {
	case s.Dragging:
		return dragWords(a, s) + unseenWords(a, s)
	case s.Blind != watch.Sees:
		return blindWords(s)
	case s.Unplaced:
		return unplacedWords
	case s.Phase == watch.Dropping:
		return fmt.Sprintf("Taking the anchor's place: %.0f %% of a minute. Hold her over the anchor.", math.Floor(100*a.Watch.Drop.Share()))
	case !s.Known:
		return "No position yet: nobody watches."
	case s.BeyondM > 0:
		return fmt.Sprintf("Outside the circle by %.0f m: being watched whether she drags. %.0f m from the anchor, %.0f m are allowed.", math.Ceil(s.BeyondM), math.Ceil(s.DistanceM), math.Floor(a.Watch.RadiusM))
	}
	return fmt.Sprintf("In the circle: %.0f m from the anchor, %.0f m are allowed.", s.DistanceM, a.Watch.RadiusM)
}

const unplacedWords = "The anchor's place is not known: no whole minute of positions came in time. Set it by bearing and distance or on the chart, under “Move the circle”. Until then nobody sees whether she drags."

// unseenWords add to other words that she is not seen now.
func unseenWords(a *state.AnchorWatch, s watch.Status) string {
	switch {
	case s.Blind == watch.Sees:
		return ""
	case s.Untimed:
		return " She is not seen now."
	}
	return fmt.Sprintf(" Last seen %s ago.", lastingSeconds(s.BlindFor))
}

// heardWords are for those who hear the screen: they change only when the state does, as metres that
// are read out every second drown all else.
func heardWords(s watch.Status) string {
	switch {
	case s.Dragging:
		return "The anchor drags."
	case s.Blind != watch.Sees:
		return "The anchor watch is blind."
	case s.Unplaced:
		return "The anchor's place is not known."
	case s.Phase == watch.Dropping:
		return "The anchor's place is being taken."
	case !s.Known:
		return "No position yet."
	case s.BeyondM > 0:
		return "She is outside the circle."
	}
	return "She is in the circle."
}

func dragWords(a *state.AnchorWatch, s watch.Status) string {
	where := fmt.Sprintf("%.0f m beyond the circle", s.BeyondM)
	if s.BeyondM <= 0 {
		where = "in the circle at this moment"
	}
	words := "The anchor drags. She is " + where + ", " + bearing(&s.BearingDeg) + " from where the anchor went down."
	if kn, toward, ok := a.Watch.Drift(a.Now); ok && kn >= 0.1 {
		words += fmt.Sprintf(" In the last two minutes she went %.1f kn toward %s.", kn, bearing(&toward))
	}
	return words
}

// blindCauses says why she is not seen, and what helps.
var blindCauses = map[watch.Cause]string{
	watch.NoFix:         "No position has come. Take the device where it sees the sky.",
	watch.PoorAccuracy:  "The positions are less accurate than the circle is wide. Take the device where it sees the sky.",
	watch.NotPermitted:  "This page may no longer know where the device is. Allow it in the browser's settings of this page.",
	watch.PageHidden:    "This page is not in front. Bring it back, and leave it there.",
	watch.NoReceiver:    "This device or page gets no position.",
	watch.ProgramHalted: "The page was closed or stopped, and no position has come since.",
	watch.NoAccuracy:    "Positions come without their accuracy, and may be far out. Allow this page the precise position, or keep the watch on another device.",
	watch.ClockSetBack:  "The device's clock was set back while the page was closed or stopped. Wait for a position, and look about meanwhile.",
}

func blindWords(s watch.Status) string {
	if s.Untimed {
		return "The watch is blind: nobody knows for how long she has not been seen. " + blindCauses[s.Cause]
	}
	return fmt.Sprintf("The watch is blind: she has not been seen for %s. %s", lastingSeconds(s.BlindFor), blindCauses[s.Cause])
}

// lastingSeconds is a time in seconds, or in minutes where it is long.
func lastingSeconds(d time.Duration) string {
	switch s := int(d.Seconds()); {
	case s < 120:
		return phrase.Counted(s, "second", "seconds")
	case s < 7200:
		return fmt.Sprintf("%d minutes", s/60)
	default:
		return fmt.Sprintf("%d hours and %d minutes", s/3600, s/60%60)
	}
}
