package watch

import (
	"slices"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
)

const (
	// dropFor is how long fixes are collected for the place of the anchor.
	dropFor = time.Minute
	// dropGap is how long no fix may come in that minute: she has gone on falling back meanwhile.
	dropGap = 30 * time.Second
	// dropWithin is how long after the anchor went down the minute has to be over.
	dropWithin = 2 * time.Minute
	// dropFixes is how many are wanted at least, so that one bad fix is seen among them.
	dropFixes = 4
	// mostDropFixes bounds what is kept of a receiver that gives many a second.
	mostDropFixes = 240
	// dropOutlierM is how far from the middle of all a fix is left out of the mean.
	dropOutlierM = 20.0
)

// Drop is the minute of fixes from which the place of the anchor is taken.
type Drop struct {
	Fixes []Fix `json:"fixes,omitempty"`
	// From the device to the bow, towards which she lies; HeadingKnown is false where no wind
	// is given: then the place is that of the device.
	BowM         float64 `json:"bow_m"`
	HeadingDeg   float64 `json:"heading_deg"`
	HeadingKnown bool    `json:"heading_known"`
}

// add takes a fix in and says whether the minute is full.
func (d *Drop) add(f *Fix) bool {
	if len(d.Fixes) < mostDropFixes {
		d.Fixes = append(d.Fixes, *f)
	}
	first := d.Fixes[0].Time
	return len(d.Fixes) >= dropFixes && (f.Time.Sub(first) >= dropFor || f.Time.Before(first))
}

// Share is how much of the minute is over, 0 to 1.
func (d *Drop) Share() float64 {
	if len(d.Fixes) == 0 {
		return 0
	}
	over := d.Fixes[len(d.Fixes)-1].Time.Sub(d.Fixes[0].Time)
	return max(0, min(1, over.Seconds()/dropFor.Seconds(), float64(len(d.Fixes))/dropFixes))
}

// place is the mean of the fixes, each by its weight and without those far from the middle of
// all, moved to the bow.
func (d *Drop) place() orb.Point {
	plane := geo.NewPlane(d.Fixes[0].At)
	points := make([]geo.XY, len(d.Fixes))
	for i := range d.Fixes {
		points[i] = plane.XY(d.Fixes[i].At)
	}
	middle := geo.XY{X: median(points, func(p geo.XY) float64 { return p.X }), Y: median(points, func(p geo.XY) float64 { return p.Y })}
	var sum geo.XY
	weights := 0.0
	for i, p := range points {
		if p.Sub(middle).Len() <= dropOutlierM {
			w := d.Fixes[i].weight()
			sum, weights = sum.Add(p.Scale(w)), weights+w
		}
	}
	mean := middle
	if weights > 0 {
		mean = sum.Scale(1 / weights)
	}
	at := plane.Position(mean)
	if d.HeadingKnown && d.BowM > 0 {
		at = geo.Direct(at, d.HeadingDeg, d.BowM)
	}
	return at
}

// median is the middle of one coordinate.
func median(points []geo.XY, of func(geo.XY) float64) float64 {
	values := make([]float64, len(points))
	for i, p := range points {
		values[i] = of(p)
	}
	slices.Sort(values)
	n := len(values)
	return (values[(n-1)/2] + values[n/2]) / 2
}
