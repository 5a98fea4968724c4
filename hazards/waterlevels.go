package hazards

import (
	"math"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
	"keelroom/hazards/tide"
)

// Water is what charted depths mean to a boat at one time: bounds of the charted
// depth (DRVAL1), metres, positive down from the sounding datum. Below DriesM it
// dries; below AfloatM it is too shallow for her; below EnoughM there is enough
// only within the margins; else there is enough. They never fall in that order.
type Water struct{ DriesM, AfloatM, EnoughM float64 }

// WaterLevels gives the Water of a day, for a chart that shows the water as it
// stands at an hour.
//
// The height of tide is the least within 15 minutes, less the margin (plan-file
// contract, section 3), with the plan's adjust_m. Call it h, above the sounding
// datum:
//
//	DriesM  = −h
//	AfloatM = draught + squat at harbour speed − h
//	EnoughM = draught + hump + under-keel margin + waves − h
//
// A chart shows one picture for every way of passing a place, and must not show
// as enough what a check calls not clear. So EnoughM takes the hump, which no
// squat exceeds at any speed, in any depth or narrow water; of the under-keel
// margins (slow, fast, at anchor) the greatest; and for waves the most that the
// report takes off anywhere that day, or could in the roughest sea that she goes out
// in (sea_stop_m) where some of the sea is not known. Where the speed is low or the water
// sheltered the checks may pass less. AfloatM takes the squat of narrow water,
// and the whole hump where the harbour speed reaches the limit of the depth
// Froude number (see Squat).
//
// What a survey may be out by (CATZOC), contours, soundings and dangers within
// an area, and overhead clearances are not in it.
type WaterLevels struct {
	sets            []*chart.Set
	heights         heights
	offsetM         float64 // tide datum above sounding datum, the least of the sets
	afloatM, needsM float64 // depths of water
}

// NewWaterLevels makes the levels of a plan for times from one to another. The
// report is the plan's. The error names the member of the tide that is wrong.
func NewWaterLevels(c *chart.Chart, p *plan.Plan, r *plan.Report, from, to time.Time) (*WaterLevels, error) {
	w := &WaterLevels{heights: heights{marginM: p.Margins.TideM}}
	b, m := &p.Boat, &p.Margins
	w.afloatM = waterNeeded(b.DraughtM, deepWaterSquat(b, b.HarbourKn, true), b.HumpM, b.HarbourKn)
	w.needsM = b.DraughtM + b.HumpM + max(m.UnderKeelM, m.UnderKeelFastM, m.AnchoredUnderKeelM) + r.WaveAllowanceM
	w.needsM = math.Max(w.needsM, w.afloatM)
	if p.Tide == nil {
		return w, nil
	}
	t, err := NewTide(p.Tide)
	if err != nil {
		return nil, err
	}
	w.heights.tide = tide.NewWindow(t, from.Add(-underWayPad), to.Add(underWayPad))
	w.compare(levels{&ground{chart: c}, p})
	return w, nil
}

// compare keeps the sets whose depths the tide adds to.
func (w *WaterLevels) compare(l levels) {
	w.offsetM = math.Inf(1)
	for _, s := range l.chart.Sets() {
		if s.Authority == chart.Private && !l.chart.OnlyPrivate() {
			continue
		}
		if offset, ok := l.setOffset(s); ok {
			w.sets = append(w.sets, s)
			w.offsetM = math.Min(w.offsetM, offset)
		}
	}
}

// setOffset is the least that the tide's datum lies above those of the depth
// areas of a set; ok is false where one is not known, or there is none.
func (l levels) setOffset(s *chart.Set) (offsetM float64, ok bool) {
	offsetM = math.Inf(1)
	seen := map[int]bool{}
	for i := range s.Features {
		f := &s.Features[i]
		if !f.Class.WaterArea() || f.UnknownWater() || seen[f.Datum] {
			continue
		}
		seen[f.Datum] = true
		offset, known := l.datumOffset(f.Datum, s.SoundingDatum)
		if !known {
			return 0, false
		}
		offsetM = math.Min(offsetM, offset)
	}
	return offsetM, len(seen) > 0
}

// Sets are the layer sets that the levels hold for: those whose depth areas all
// have a datum with which the plan's tide can be compared, and at least one.
// Private sets are not among them where a chart is loaded: what a skipper drew
// must not make water look deeper.
func (w *WaterLevels) Sets() []*chart.Set { return w.sets }

// At is the water at a time. ok is false where the height of tide is not known
// for all of the 15 minutes before and after, or no set is comparable.
func (w *WaterLevels) At(t time.Time) (Water, bool) {
	if len(w.sets) == 0 {
		return Water{}, false
	}
	h, margin, ok := w.heights.least(t.Add(-underWayPad), t.Add(underWayPad))
	if !ok {
		return Water{}, false
	}
	h += w.offsetM - margin
	return Water{DriesM: -h, AfloatM: w.afloatM - h, EnoughM: w.needsM - h}, true
}
