package hazards

import (
	"slices"

	"keelroom/geo/chart"
)

// A height of tide adds to a charted depth only where both are above the same
// datum. offset gives how far the tide's datum lies above a feature's sounding
// datum, metres; ok is false where that is not known: such a depth may fail a
// check but never pass it. What the skipper answered speaks of the chart's own
// datum, or of one that is not stated, not of features that have another.
func (c *checker) offset(f *chart.Feature) (metres float64, ok bool) {
	own := 0
	if f.Set != nil {
		own = f.Set.SoundingDatum
	}
	return c.datumOffset(f.Datum, own)
}

// localDatum is the VERDAT of a local datum (IHO S-57 App. A): two of them are the
// same level only within one chart.
const localDatum = 24

// datumOffset is offset for depths above a datum, of a set with one of its own.
func (c *checker) datumOffset(charted, ofChart int) (float64, bool) {
	if c.plan.Tide == nil {
		return 0, false
	}
	if charted == 0 {
		charted = c.plan.Choices.SoundingDatum
	}
	if charted != 0 && charted != localDatum && charted == c.plan.Tide.DatumOf() {
		return 0, true
	}
	answer := c.plan.Choices.TideAboveChartM
	answered := charted == 0 || charted == ofChart || charted == c.plan.Choices.SoundingDatum
	if charted == localDatum && c.ground.localSets() > 1 {
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
func (c *checker) chartsOffset() (metres float64, ok bool) {
	for _, s := range c.chart.Sets() {
		if s.Authority == chart.Private {
			continue
		}
		m, known := c.datumOffset(s.SoundingDatum, s.SoundingDatum)
		if !known || ok && m != metres {
			return 0, false
		}
		metres, ok = m, true
	}
	return metres, ok
}
