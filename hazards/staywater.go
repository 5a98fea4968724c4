package hazards

import (
	"math"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
)

// water checks the water under the keel from arriving to leaving. Where the
// tide is not known for all of the stay, what is known is judged all the same.
func (s *stayCheck) water() {
	claims := s.depths()
	from, to, whole := s.tideSpan()
	s.tideMissing = !whole
	if !whole {
		s.add(plan.Finding{Check: plan.CheckClearance, Severity: plan.NoData, Facts: facts.TideNotKnown{Why: s.whyNoTide()}})
	}
	if !from.Before(to) && !(whole && from.Equal(to)) {
		return
	}
	least, lowMargin, okLow := s.heights.least(from, to)
	most, highMargin, okHigh := s.heights.greatest(from, to)
	if !okLow || !okHigh {
		return
	}
	if whole {
		s.greatestDepth(least-lowMargin, most+highMargin)
	}
	worst := s.shoalest(claims, least, lowMargin)
	if worst != nil {
		s.judgeWater(worst)
		s.wavesUnknown(*worst)
	}
	s.depthFigures(worst)
}

// wavesUnknown tells of a berth, whose shelter is not checked, where the sea is not
// known for all of the stay and such waves as she goes out in would leave too
// little water.
func (s *stayCheck) wavesUnknown(x sum) {
	if !s.seaMissing || s.exposed() || x.judge(&s.plan.Margins) == tooLittle {
		return
	}
	x.waveM = math.Max(x.waveM, s.plan.Margins.WaveFraction*s.plan.Boat.SeaStopM)
	if x.judge(&s.plan.Margins) == tooLittle {
		s.add(plan.Finding{Check: plan.CheckClearance, Severity: plan.NoData, Facts: facts.WavesNotKnown{}})
	}
}

// tideSpan is the part of the stay for which the tide is known.
func (s *stayCheck) tideSpan() (from, to time.Time, whole bool) {
	if s.heights.tide == nil {
		return s.stop.Leave, s.stop.Leave, false
	}
	if _, ok := s.heights.tide.Least(s.stop.Arrive, s.stop.Leave); ok {
		return s.stop.Arrive, s.stop.Leave, true
	}
	from, to = s.heights.known(s.stop.Arrive, s.stop.Leave)
	return from, to, false
}

func (s *stayCheck) whyNoTide() facts.WhyNoTide {
	if s.heights.tide == nil {
		return facts.NoTide
	}
	return facts.TideEndsStay
}

// depthFigures are those of the whole stay. A part of it is no figure: where some
// of the tide, of the depths or of the levels is not known there is none, and no
// clearance without the sea either.
func (s *stayCheck) depthFigures(worst *sum) {
	if worst == nil || s.depthMissing {
		return
	}
	if h, ok := s.heights.tide.HeightM(s.stop.Arrive); ok {
		s.out.DepthArrivalM = ptr(worst.depthM + worst.offsetM + h)
	}
	if s.tideMissing {
		return
	}
	s.out.DepthLeastM = ptr(worst.waterM())
	if !s.seaMissing {
		s.out.ClearanceLeastM = ptr(plan.WholeMM(s.least.clearanceM()))
		s.keepHere(plan.CheckClearance, *s.out.ClearanceLeastM, s.least.requiredM, "m")
	}
}

// depths lists the known depths where she lies, within the slow corridor's
// reach, and reports unknown ones once. No depth at all is unknown too.
func (s *stayCheck) depths() []claim {
	var known []claim
	var unknown, nearby, none facts.Unknown
	refused := map[*chart.Feature]bool{}
	for _, cl := range s.claims(s.stretch()) {
		switch {
		case cl.unknown == none:
			known = append(known, cl)
		case cl.wide:
			nearby = cl.unknown
		case cl.f == nil || !cl.f.RefusedFeature():
			unknown = cl.unknown
		case !refused[cl.f]:
			refused[cl.f] = true
			s.add(unread(cl.f))
		}
	}
	if len(known) == 0 && unknown == none && len(refused) == 0 {
		unknown = facts.Unknown{Why: facts.NotCharted}
	}
	if unknown != none {
		s.depthMissing = true
		s.add(plan.Finding{Check: plan.CheckClearance, Severity: plan.NoData, Facts: facts.DepthNotKnown{Why: unknown, AtStay: true}})
	}
	if nearby != none {
		s.depthMissing = true
		s.add(plan.Finding{Check: plan.CheckClearance, Severity: plan.Care, Facts: facts.DepthNotInPlace{Why: nearby}})
	}
	return known
}

// shoalest is the claim with the least clearance where she lies; the least of all,
// with those that only the survey's accuracy brings near, is kept.
func (s *stayCheck) shoalest(claims []claim, least, margin float64) *sum {
	zones := s.zocSpans(&s.met)
	var worst, place, datum *sum
	for _, cl := range claims {
		x := s.sumAt(cl, least, margin, zones)
		kind := x.judge(&s.plan.Margins)
		s.depthMissing = s.depthMissing || !x.datumOK
		if !x.datumOK && kind != tooLittle {
			datum = ptr(x)
			continue
		}
		s.least = lesser(s.least, x)
		switch {
		case !cl.wide:
			worst = lesser(worst, x)
		case kind == onlyInPlace:
			place = lesser(place, x)
		}
	}
	if datum != nil {
		s.add(s.datumAtStay(datum))
	}
	if place != nil && (worst == nil || worst.judge(&s.plan.Margins) != tooLittle) {
		s.reportWater(onlyInPlace, place)
	}
	return worst
}

// lesser is the sum that leaves less.
func lesser(a *sum, b sum) *sum {
	if a == nil || b.clearanceM() < a.clearanceM() {
		return ptr(b)
	}
	return a
}

// sumAt is the clearance at a claim over the whole stay, where she lies herself.
func (s *stayCheck) sumAt(cl claim, least, margin float64, zones []zocSpan) sum {
	x := s.chartedSum(cl, least, margin, zones)
	s.shoalByEcho(&x)
	return x
}

// chartedSum is the clearance at a claim over the whole stay by the chart alone.
func (s *stayCheck) chartedSum(cl claim, least, margin float64, zones []zocSpan) sum {
	x := sum{claim: cl, start: s.lowest(), end: s.stop.Leave, atStay: true, marginAheadM: s.marginAheadM, humpM: s.plan.Boat.HumpM, seaUnknown: s.seaMissing, tideM: least, marginM: margin, draughtM: s.plan.Boat.DraughtM,
		waveM: s.plan.Margins.WaveFraction * s.hsM, openWaveM: s.plan.Margins.WaveFraction * (s.openHsM - s.hsM), requiredM: s.plan.Margins.AnchoredUnderKeelM}
	x.offsetM, x.datumOK = s.levels().offset(cl.f)
	x.accuracyM = DepthAccuracyM(worstZoc(zones, 0, 0), cl.depthM)
	return x
}

// shoalByEcho takes what the echo sounder read into account where it is less
// than the chart's bound; it never deepens it.
func (s *stayCheck) shoalByEcho(x *sum) {
	stay := s.stop.Stay
	if stay.SoundedM == nil || stay.SoundedAt == nil {
		return
	}
	sounded, ok := s.soundedLeastM()
	if !ok {
		x.datumOK = false // what it read cannot be used, nor left out
		return
	}
	x.depthM = math.Min(x.depthM, sounded-x.offsetM)
}

// soundedLeastM is the least that a sounding given says of the depth below the tide's
// datum; ok is false where the height of tide then is not known.
func (s *stayCheck) soundedLeastM() (metres float64, ok bool) {
	at := *s.stop.Stay.SoundedAt
	h, margin, ok := s.heights.greatest(at.Add(-underWayPad), at.Add(underWayPad))
	return *s.stop.Stay.SoundedM - h - margin, ok
}

// shortfallM is by how much a sounding says that there is less than the chart's bound at
// the anchor: so much less there may be all about. ok is false where one is given that
// cannot be used.
func (s *stayCheck) shortfallM() (metres float64, ok bool) {
	if s.stop.Stay.SoundedM == nil || s.stop.Stay.SoundedAt == nil {
		return 0, true
	}
	sounded, ok := s.soundedLeastM()
	for i := range s.met.Hits {
		h := &s.met.Hits[i]
		if !h.Class.WaterArea() || len(h.Inside) == 0 || !chart.Known(h.DepthMinM) {
			continue
		}
		offset, comparable := s.levels().offset(h.Feature)
		ok = ok && comparable
		metres = math.Max(metres, h.DepthMinM+offset-sounded)
	}
	return metres, ok
}

func (s *stayCheck) datumAtStay(x *sum) plan.Finding {
	if _, ok := s.levels().offset(x.f); ok {
		return plan.Finding{Check: plan.CheckClearance, Severity: plan.NoData, Facts: facts.SoundingUnusable{}}
	}
	return plan.Finding{Check: plan.CheckDatum, Severity: plan.NoData, Source: x.origin(),
		Facts: facts.LevelsDiffer{Depths: x.f.Datum, Tide: s.plan.Tide.DatumOf(), AtStay: true}}
}

func (s *stayCheck) judgeWater(worst *sum) {
	if kind := worst.judge(&s.plan.Margins); kind != fine {
		s.reportWater(kind, worst)
	}
	s.waterSlack(worst)
}

// reportWater reports a stay's clearance finding.
func (s *stayCheck) reportWater(kind clearanceKind, x *sum) {
	from, to := s.day(s.stop.Arrive)
	f := plan.Finding{Check: plan.CheckClearance, Severity: kind.severity(), Facts: x.facts(kind, &s.plan.Margins), Source: x.origin()}
	f.Measured, f.Required, f.Unit, f.Made = x.figures(kind, &s.plan.Margins)
	if kind == tooLittle && x.datumOK && !x.seaUnknown {
		f.Windows = s.heights.windowsToTell(x.levelM(), true, from, to)
	}
	f.Time = ptr(x.start)
	s.add(f)
}

// waterSlack notes when, after leaving, the water at the stay would go.
func (s *stayCheck) waterSlack(x *sum) {
	if s.onlyStops || x.judge(&s.plan.Margins) == tooLittle || !x.datumOK {
		return // leaveBy gives no time then
	}
	horizon := s.stop.Leave.Add(2 * besideLow)
	left := time.Duration(0) // a window within 15 min of its end
	for _, w := range s.heights.windows(x.levelM(), true, s.stop.Leave.Add(-time.Hour), horizon) {
		if !w[0].After(s.stop.Leave.Add(underWayPad)) && !w[1].Before(s.stop.Leave) {
			if !w[1].Before(horizon) {
				return // it does not go in a day
			}
			left = w[1].Sub(s.stop.Leave)
		}
	}
	s.slack = append(s.slack, slack{route: s.stop.Route + 1, left: left})
}

// greatestDepth is the deepest the chart allows, or the echo sounder says, with
// the highest tide. Open towards the deep, or without a common datum, it is not
// known.
func (s *stayCheck) greatestDepth(lowM, topM float64) {
	deepest := math.Inf(-1)
	for i := range s.met.Hits {
		h := &s.met.Hits[i]
		if h.RefusedFeature() && len(h.Near) > 0 {
			return // it may have been deeper water
		}
		if !h.Class.WaterArea() || len(h.Near) == 0 || s.chart.Overruled(h.Feature) {
			continue
		}
		offset, ok := s.levels().offset(h.Feature)
		if !chart.Known(h.DepthMaxM) || !ok {
			return
		}
		deepest = math.Max(deepest, h.DepthMaxM+offset)
	}
	if math.IsInf(deepest, -1) || len(s.met.Untiled)+len(s.met.Outside) > 0 {
		return
	}
	if stay := s.stop.Stay; stay.SoundedM != nil && stay.SoundedAt != nil {
		h, margin, ok := s.heights.least(stay.SoundedAt.Add(-underWayPad), stay.SoundedAt.Add(underWayPad))
		if !ok {
			return
		}
		deepest = math.Max(deepest, *stay.SoundedM-h+margin)
	}
	s.out.DepthGreatestM = ptr(deepest + topM)
}
