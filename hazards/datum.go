package hazards

import (
	"keelroom/geo/chart"
)

// A height of tide adds to a charted depth only where both are above the same
// datum. offset gives how far the tide's datum lies above a feature's sounding
// datum, metres; ok is false where that is not known: such a depth may fail a
// check but never pass it.
func (c *checker) offset(f *chart.Feature) (metres float64, ok bool) {
	return c.datumOffset(f.Datum)
}

// setOffset is offset for a set as a whole.
func (c *checker) setOffset(s *chart.Set) (metres float64, ok bool) {
	return c.datumOffset(s.SoundingDatum)
}

func (c *checker) datumOffset(charted int) (float64, bool) {
	if c.plan.Tide == nil {
		return 0, false
	}
	if c.plan.Choices.TideAboveChartM != nil {
		return *c.plan.Choices.TideAboveChartM, true
	}
	if charted == 0 {
		charted = c.plan.Choices.SoundingDatum
	}
	tideDatum := c.plan.Tide.DatumOf()
	return 0, charted != 0 && charted == tideDatum
}
