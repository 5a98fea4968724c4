package hazards

import (
	"time"

	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// besideLow is how far about the passage the lowest tide is looked for: one
// low water lies in it at least, the tide being semidiurnal or diurnal.
const besideLow = 12 * time.Hour

// reportWindow warns where a leg has water enough now but not at low water,
// and tells when the first window closes. A stay may then have to end earlier.
func (l *legClearance) reportWindow() {
	if len(l.limiting) == 0 || l.heights.tide == nil {
		return
	}
	var first *closing
	for i := range l.limiting {
		w := l.closing(&l.limiting[i])
		if w.opens && (first == nil || w.before(first)) {
			first = &w
		}
	}
	switch {
	case first != nil:
		l.find(l.windowFinding(first))
	case !l.besideKnown():
		l.find(l.lowNotKnown())
	}
}

// boundWindow finds the worst that reportWindow may: care, where at low water there may
// be too little, or how low it falls is not known.
func (l *legClearance) boundWindow() {
	if !l.passes || l.heights.tide == nil {
		return
	}
	leg := &l.track.Legs[l.index]
	from, to := l.aboutLeg(leg)
	lowest, ok := l.heights.tide.Least(from, to)
	if ok && lowest-curveSlackM >= l.needLevelM {
		return
	}
	l.find(plan.Finding{Check: plan.CheckTideWindow, Severity: plan.Care, Leg: leg.Number, Facts: facts.LowNotKnown{}})
}

// closing is the end of a claim's window.
type closing struct {
	*sum
	opens   bool    // the tide matters here at all
	lowestM float64 // lowest known within ±12 h
	at      time.Time
	known   bool // when it closes
}

func (w *closing) left() time.Duration { return w.at.Sub(w.end) }

// before tells whether a window leaves less time than another.
func (w *closing) before(v *closing) bool {
	if w.known != v.known {
		return w.known
	}
	return w.known && w.left() < v.left()
}

func (l *legClearance) closing(s *sum) closing {
	w := closing{sum: s}
	lowest, ok := l.heights.tide.Least(l.heights.known(s.start.Add(-besideLow), s.end.Add(besideLow)))
	if !ok || lowest >= s.levelM() {
		return w
	}
	w.opens, w.lowestM = true, lowest
	w.at, w.known = l.closes(s)
	return w
}

func (l *legClearance) windowFinding(s *closing) plan.Finding {
	leg := &l.track.Legs[l.index]
	f := plan.Finding{Check: plan.CheckTideWindow, Severity: plan.Note, Leg: leg.Number, Time: ptr(s.start), Until: ptr(s.end),
		Geometry: line(leg, s.from, s.to), Source: s.origin(),
		Measured: ptr(s.tideM), Required: ptr(s.levelM()), Unit: "m"}
	window := facts.TideWindow{NeedM: plan.CeilHundredths(s.levelM()), LowestM: plan.FloorHundredths(s.lowestM), Datum: l.plan.Tide.DatumOf()}
	if s.known {
		window.Ends, window.Closes, window.LeftMin = true, facts.At(s.at), int(s.left().Minutes())
		if s.left() <= time.Duration(l.plan.Margins.WindowMin*float64(time.Minute)) {
			f.Severity = plan.Care
		}
		l.slack = append(l.slack, slack{route: leg.Route, left: s.left()})
		l.keep(plan.InHand{Check: plan.CheckTideWindow, Leg: leg.Number, Measured: s.left().Minutes(), Required: l.plan.Margins.WindowMin, Unit: "min"})
	}
	f.Facts = window
	dayFrom, dayTo := l.day(s.start)
	f.Windows = l.heights.windowsToTell(s.levelM(), true, dayFrom, dayTo)
	return f
}

// cycle is how much of the tide must be known for the lowest to be among it: a
// semidiurnal cycle and a little more.
const cycle = 13 * time.Hour

// besideKnown tells whether enough of the tide about a leg is known to say how
// low it falls.
func (l *legClearance) besideKnown() bool {
	for i := range l.limiting {
		from, to := l.heights.known(l.limiting[i].start.Add(-besideLow), l.limiting[i].end.Add(besideLow))
		if to.Sub(from) < cycle {
			return false
		}
	}
	return true
}

func (l *legClearance) lowNotKnown() plan.Finding {
	leg, s := &l.track.Legs[l.index], &l.limiting[0]
	return plan.Finding{Check: plan.CheckTideWindow, Severity: plan.Care, Leg: leg.Number, Time: ptr(leg.Start), Until: ptr(leg.End),
		Facts: facts.LowNotKnown{}, Geometry: line(leg, s.from, s.to), Source: s.origin()}
}

// closes is when, after passing, the water at a place is no longer enough.
func (l *legClearance) closes(s *sum) (time.Time, bool) {
	for _, w := range l.heights.windows(s.levelM(), true, s.start.Add(-time.Hour), s.end.Add(2*besideLow)) {
		if !w[0].After(s.start.Add(underWayPad)) && !w[1].Before(s.start) {
			return w[1], w[1].Before(s.end.Add(2 * besideLow))
		}
	}
	// The window is shorter than the 15 minutes kept on either side.
	return s.end, true
}

// known is the part of an interval for which the tide is known.
func (h heights) known(from, to time.Time) (time.Time, time.Time) {
	begin, end, bounded := h.tide.Covers()
	if !bounded {
		return from, to
	}
	return later(from, begin), earlier(to, end)
}

// slack is how much later a route could leave before something on it ends, at the
// speeds of the planned time: where leaveBy looks first.
type slack struct {
	route int
	left  time.Duration
}
