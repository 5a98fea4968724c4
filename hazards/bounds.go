package hazards

import "math"

// legBounds bounds what can be taken off a charted depth anywhere on a leg.
// Most claims of a chart are about water so deep that they can be passed over
// without working out when she is there: the shoal ones cost, not the many.
type legBounds struct {
	known    bool
	leastM   float64 // least height of tide on the leg, less the margin
	lowestM  float64 // the same within ±12 h
	takenM   float64 // draught, greatest squat, greatest wave with open water
	wantedM  float64 // greatest clearance wanted
	breaking float64 // deepest water in which the sea might break
}

// boundsHere works out the bounds of the leg.
func (l *legClearance) boundsHere() legBounds {
	leg := &l.track.Legs[l.index]
	from, to := leg.Start.Add(-underWayPad), leg.End.Add(underWayPad)
	least, margin, ok := l.heights.least(from, to)
	if !ok {
		return legBounds{}
	}
	lowFrom, lowTo := l.heights.known(from.Add(-besideLow), to.Add(besideLow+l.heights.within))
	lowest, ok := l.heights.tide.Least(lowFrom, lowTo)
	if !ok {
		return legBounds{}
	}
	_, open, _ := l.waves(l.index, 0, leg.Rhumb.LengthM)
	m := &l.plan.Margins
	return legBounds{known: true, leastM: least - margin, lowestM: lowest - math.Max(margin, l.marginAheadM),
		takenM:   l.plan.Boat.DraughtM + l.plan.Boat.HumpM + m.WaveFraction*open,
		wantedM:  math.Max(m.UnderKeelFastM, m.UnderKeelM),
		breaking: open * 2 / mayBreak}
}

// surelyFine tells whether a claim can neither fail any judgement of the
// clearance check, nor be the leg's least or limiting one.
func (l *legClearance) surelyFine(cl claim) bool {
	offset, ok := l.levels().offset(cl.f)
	b := &l.bounds
	if !ok || !b.known || l.least == nil || everyClaim {
		return false
	}
	water := cl.depthM + offset + b.leastM
	clearance := water - b.takenM
	switch {
	case clearance-DepthAccuracyM(0, cl.depthM) < b.wantedM:
		return false // may be too little, or only just enough
	case cl.depthM+offset+b.lowestM-b.takenM < b.wantedM:
		return false // may have a tide window
	case water < math.Max(l.plan.Margins.ComfortDepthM, b.breaking), water < 2*(b.takenM+b.wantedM):
		return false // may count on the wrong side of a mark: see shoalOn
	}
	return clearance >= l.least.clearanceM()
}

// everyClaim switches the shortcut off, so that a test can tell that it
// changes nothing.
var everyClaim = false
