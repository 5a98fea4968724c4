package hazards

import (
	"slices"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// levels compares the levels that depths, heights and the tide are above, as the
// charts and the plan tell.
type levels struct {
	*ground
	plan *plan.Plan
}

func (c *checker) levels() levels { return levels{c.ground, c.plan} }

// A height of tide adds to a charted depth only where both are above the same
// datum. offset gives how far the tide's datum lies above a feature's sounding
// datum, metres; ok is false where that is not known: such a depth may fail a
// check but never pass it. What the skipper answered speaks of the chart's own
// datum, or of one that is not stated, not of features that have another.
func (l levels) offset(f *chart.Feature) (metres float64, ok bool) {
	own := 0
	if f.Set != nil {
		own = f.Set.SoundingDatum
	}
	return l.datumOffset(f.Datum, own)
}

// localDatum is the VERDAT of a local datum (IHO S-57 App. A): two of them are the
// same level only within one chart.
const localDatum = 24

// datumOffset is offset for depths above a datum, of a set with one of its own.
func (l levels) datumOffset(charted, ofChart int) (float64, bool) {
	if l.plan.Tide == nil {
		return 0, false
	}
	if charted == 0 {
		charted = l.plan.Choices.SoundingDatum
	}
	if charted != 0 && charted != localDatum && charted == l.plan.Tide.DatumOf() {
		return 0, true
	}
	answer := l.plan.Choices.TideAboveChartM
	answered := charted == 0 || charted == ofChart || charted == l.plan.Choices.SoundingDatum
	if charted == localDatum && l.ground.localSets() > 1 {
		answered = false // of which of them it speaks is not known
	}
	if answer != nil && answered {
		return *answer, true
	}
	return 0, false
}

// localSets is how many sets have depths above a local datum, counted once.
func (g *ground) localSets() int {
	if g.locals == nil {
		g.locals = ptr(countLocal(g.chart))
	}
	return *g.locals
}

func countLocal(c *chart.Chart) (n int) {
	for _, s := range c.Sets() {
		above := func(f chart.Feature) bool { return f.Datum == localDatum && chart.Known(f.DepthMinM) }
		if s.SoundingDatum == localDatum || slices.ContainsFunc(s.Features, above) {
			n++
		}
	}
	return n
}

// chartsOffset is the offset that all charts (not private layers) share; ok is
// false where they differ or one is not known: then no bank is surely dry.
func (l levels) chartsOffset() (metres float64, ok bool) {
	for _, s := range l.chart.Sets() {
		if s.Authority == chart.Private {
			continue
		}
		m, known := l.datumOffset(s.SoundingDatum, s.SoundingDatum)
		if !known || ok && m != metres {
			return 0, false
		}
		metres, ok = m, true
	}
	return metres, ok
}
