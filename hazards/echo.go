package hazards

import (
	"math"

	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// What the echo sounder reads: what it must read as the anchor goes down, and whether what
// it did read is what chart and tide allow (at-anchor contract, sections 2 and 5). All
// readings are below the surface.

// arrivalTide is the height of tide as she arrives, at its least and its greatest with the
// margins that a reading then is taken with. ok is false where it is not known.
func (s *stayCheck) arrivalTide() (least, lowMargin, most, highMargin float64, ok bool) {
	from, to := s.stop.Arrive.Add(-underWayPad), s.stop.Arrive.Add(underWayPad)
	least, lowMargin, okLow := s.heights.least(from, to)
	most, highMargin, okHigh := s.heights.greatest(from, to)
	return least, lowMargin, most, highMargin, okLow && okHigh
}

// soundFromTerms are what the least reading on arrival is made of with which enough is left
// under her keel at the lowest water of the stay; nil where not all of it is known.
func (s *stayCheck) soundFromTerms() []plan.Term {
	_, _, most, margin, ok := s.arrivalTide()
	b := s.bed()
	if s.stop.Stay.Kind != plan.AtAnchor || !ok || !b.tideKnown || s.seaMissing {
		return nil
	}
	m := &s.plan.Margins
	return b.shownUp([]plan.Term{metres(facts.KeptUnderKeel, m.AnchoredUnderKeelM), metres(facts.Draught, s.plan.Boat.DraughtM), metres(facts.Waves, m.WaveFraction*s.hsM),
		metres(facts.TideLeast, -b.leastM), metres(facts.Margin, b.lowMarginM), metres(facts.TideAtArrival, most), metres(facts.Margin, margin)})
}

// soundFrom is that reading.
func (s *stayCheck) soundFrom() *float64 { return sumOf(s.soundFromTerms()) }

// soundToTerms are what the greatest reading on arrival is made of with which the rode is
// still enough by the scope rule: what is laid, else all that is aboard.
func (c chainCheck) soundToTerms() []plan.Term {
	least, margin, _, _, ok := c.arrivalTide()
	if !ok || !c.bed.tideKnown {
		return nil
	}
	laid := c.aboard.LengthM()
	if c.planned {
		laid = c.laidM
	}
	height := plan.FloorHundredths(c.scope.HeightM(c.aboard, laid) + 1e-9)
	first := metres(facts.RodeHeight, height)
	first.Of.M, first.Of.Scope = laid, c.scopeAt(height)
	return shownDown([]plan.Term{first, metres(facts.BowRoller, -c.bed.rollerM), metres(facts.TideGreatest, -c.bed.topM), metres(facts.Margin, -c.bed.topMarginM),
		metres(facts.TideAtArrival, least), metres(facts.Margin, -margin)})
}

// soundTo is that reading.
func (c chainCheck) soundTo() *float64 { return sumOf(c.soundToTerms()) }

// shownDown are terms as they are shown where less is worse: whole hundredths that add up
// to their sum rounded down.
func shownDown(terms []plan.Term) []plan.Term {
	values := make([]float64, len(terms))
	for i := range terms {
		values[i] = terms[i].Value
	}
	shown, _ := plan.Shown(values...)
	for i := range terms {
		terms[i].Value = shown[i]
	}
	return terms
}

// sumOf is what terms add up to, in whole hundredths and no less than nothing; nil for none.
func sumOf(terms []plan.Term) *float64 {
	if terms == nil {
		return nil
	}
	sum := 0.0
	for _, t := range terms {
		sum += t.Value
	}
	return ptr(math.Max(0, math.Round(sum*100)/100))
}

// disagreeM is by how much a reading may lie outside of what chart and tide allow.
const disagreeM = 0.5

// checkSounding compares what the echo sounder read with what chart and tide allow then.
func (s *stayCheck) checkSounding() {
	b := s.bed()
	if !b.sounded || !b.echoKnown || !b.shoalKnown {
		return
	}
	stay := s.stop.Stay
	read := *stay.SoundedM
	// read − echoDeepM is the least height of tide then, read − echoShoalM the greatest.
	from, to := b.shoalM+read-b.echoDeepM, math.Inf(1)
	if b.deepKnown {
		to = b.deepM + read - b.echoShoalM
	}
	inside := func(m float64) bool {
		return !plan.Exceeds(from-disagreeM, m) && (math.IsInf(to, 0) || !plan.Exceeds(m, to+disagreeM))
	}
	if inside(read) {
		return
	}
	f := facts.Sounding{ReadM: read, FromM: plan.FloorHundredths(math.Max(0, from)), Open: math.IsInf(to, 0), When: facts.At(*stay.SoundedAt), Feet: inside(read * footM)}
	if !f.Open {
		f.ToM = plan.CeilHundredths(math.Max(0, to))
	}
	s.add(plan.Finding{Check: plan.CheckClearance, Severity: plan.Care, Facts: f, Time: stay.SoundedAt, Measured: &read, Unit: "m"})
}

const footM = 0.3048
