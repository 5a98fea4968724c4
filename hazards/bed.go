package hazards

import (
	"math"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// bed is how deep the ground at an anchor may lie, in metres below the tide's datum, and
// the water over it while she lies there.
type bed struct {
	// What the chart allows: the least DRVAL1 and the greatest DRVAL2 about the anchor.
	shoalM, deepM         float64
	shoalKnown, deepKnown bool
	// What the echo sounder read, at its least and greatest for the tide then. Where its
	// time has no tide it is given and not known.
	sounded, echoKnown     bool
	echoShoalM, echoDeepM  float64
	leastM, topM           float64 // height of tide, as far as it is known
	lowMarginM, topMarginM float64
	tideKnown, tideAtAll   bool    // for all of the stay, or for some of it
	rollerM                float64 // the bow roller over the water
}

// bed is worked out once.
func (s *stayCheck) bed() *bed {
	if s.bedMemo == nil {
		b := &bed{rollerM: s.bowRollerM()}
		s.chartedBed(b)
		s.echoBed(b)
		s.tideOver(b)
		s.bedMemo = b
	}
	return s.bedMemo
}

// chartedBed takes the areas of water about the anchor in. What is not surveyed, not
// read, open towards the deep or above another level is not known.
func (s *stayCheck) chartedBed(b *bed) {
	b.shoalM, b.deepM = math.Inf(1), math.Inf(-1)
	known := len(s.met.Untiled)+len(s.met.Outside) == 0
	b.shoalKnown, b.deepKnown = known, known
	for i := range s.met.Hits {
		h := &s.met.Hits[i]
		if len(h.Near) == 0 || s.chart.Overruled(h.Feature) || !h.UnknownWater() && !h.Class.WaterArea() {
			continue
		}
		offset, ok := s.levels().offset(h.Feature)
		b.shoalKnown = b.shoalKnown && ok && !h.UnknownWater() && chart.Known(h.DepthMinM)
		if h.RefusedFeature() && !maybeDeep(h.Meant()) {
			continue
		}
		b.deepKnown = b.deepKnown && ok && !h.RefusedFeature() && chart.Known(h.DepthMaxM)
		if b.shoalKnown {
			b.shoalM = math.Min(b.shoalM, h.DepthMinM+offset)
		}
		if b.deepKnown {
			b.deepM = math.Max(b.deepM, h.DepthMaxM+offset)
		}
	}
	b.shoalKnown = b.shoalKnown && !math.IsInf(b.shoalM, 0)
	b.deepKnown = b.deepKnown && !math.IsInf(b.deepM, 0)
}

// maybeDeep tells whether something of a class that was left out may have been deeper water.
func maybeDeep(c chart.Class) bool { return c.WaterArea() || c == chart.MSDAT || c == chart.NoClass }

// echoBed takes the reading of the echo sounder in: the water that stood over the ground
// then is the tide's least, for a ground that is deep, or its greatest.
func (s *stayCheck) echoBed(b *bed) {
	stay := s.stop.Stay
	if stay.SoundedM == nil || stay.SoundedAt == nil {
		return
	}
	from, to := stay.SoundedAt.Add(-underWayPad), stay.SoundedAt.Add(underWayPad)
	least, lowMargin, ok := s.heights.least(from, to)
	most, highMargin, okMost := s.heights.greatest(from, to)
	b.sounded, b.echoKnown = true, ok && okMost
	b.echoShoalM, b.echoDeepM = *stay.SoundedM-most-highMargin, *stay.SoundedM-least+lowMargin
}

// tideOver takes the height of tide over the stay in, as far as it is known.
func (s *stayCheck) tideOver(b *bed) {
	from, to, whole := s.tideSpan()
	if !from.Before(to) && !(whole && from.Equal(to)) {
		return
	}
	least, lowMargin, okLow := s.heights.least(from, to)
	most, highMargin, okHigh := s.heights.greatest(from, to)
	b.tideAtAll = okLow && okHigh
	b.tideKnown = whole && b.tideAtAll
	b.leastM, b.lowMarginM, b.topM, b.topMarginM = least, lowMargin, most, highMargin
}

// deepest is the ground as deep as it may lie: as sounded, but no shoaler than the chart
// says; else the deepest that the chart allows.
func (b *bed) deepest() (metres float64, ok bool) {
	if !b.sounded {
		return b.deepM, b.deepKnown
	}
	if b.shoalKnown {
		return math.Max(b.echoDeepM, b.shoalM), b.echoKnown
	}
	return b.echoDeepM, b.echoKnown
}

// shoalest is the ground as deep as it lies at the least: as sounded, which is then the
// deepest too, or as charted.
func (b *bed) shoalest() (metres float64, ok bool) {
	if b.sounded {
		return b.deepest()
	}
	return b.shoalM, b.shoalKnown
}

// highM is the greatest height of the bow roller over the ground.
func (b *bed) highM() (metres float64, ok bool) {
	deep, ok := b.deepest()
	return b.overM(deep), ok && b.tideKnown
}

// overM is the greatest height of the bow roller over ground of a depth, as it is shown:
// whole hundredths, rounded up.
func (b *bed) overM(depthM float64) float64 {
	return math.Max(0, plan.CeilHundredths(plan.WholeMM(depthM+b.topM+b.topMarginM+b.rollerM)))
}

// lowM is the least height of the bow roller over the ground, for the widest circle: of
// what is charted and what was sounded the shoaler, 0 where one is not known.
func (b *bed) lowM() float64 {
	if !b.shoalKnown || !b.tideKnown || b.sounded && !b.echoKnown {
		return 0
	}
	shoal := b.shoalM
	if b.sounded {
		shoal = math.Min(shoal, b.echoShoalM)
	}
	return math.Max(0, shoal+b.leastM-b.lowMarginM+b.rollerM)
}
