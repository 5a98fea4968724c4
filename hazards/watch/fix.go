package watch

import (
	"math"
	"time"

	"github.com/paulmach/orb"
)

// Fix is a position of the receiver.
type Fix struct {
	Time      time.Time `json:"time"` // the receiver's own
	At        orb.Point `json:"at"`   // lon, lat
	AccuracyM float64   `json:"accuracy_m"`
}

// accurate says whether the receiver reports how accurate it is. Nought is no accuracy that a
// receiver can have.
func (f *Fix) accurate() bool { return f.AccuracyM > 0 && !math.IsInf(f.AccuracyM, 0) }

// turnedBack is how far a receiver's time may go back before it is taken for set anew;
// less is an old fix that comes late.
const turnedBack = time.Minute

// after says whether a fix is another one than the last. Receivers repeat a fix that they
// remember, under its own time: that is no sight of the boat.
func (f *Fix) after(last *Fix) bool {
	return last.Time.IsZero() || f.Time.After(last.Time) || f.Time.Before(last.Time.Add(-turnedBack))
}

// weight is how much a fix counts for, at most 1: as the inverse square of its error, which
// is about half of the accuracy that a receiver reports (W3C Geolocation asks for a radius that
// holds 95 of 100 fixes). No fix that is good enough to be used counts for less than leastWeight:
// with a receiver that is always poor an alarm comes later, but it comes.
func (f *Fix) weight() float64 {
	return math.Max(leastWeight, math.Min(1, math.Pow(fullAccuracyM/f.AccuracyM, 2)))
}

const (
	fullAccuracyM = 20.0
	leastWeight   = 0.3
)

// elapsed is how long ago something was: the longer of what the steady clock and the wall
// clock say. A device that slept has a steady clock that stood still, and a wall clock that
// was set back would hide a silence.
func elapsed(now, since time.Time) time.Duration {
	return max(now.Sub(since), now.Round(0).Sub(since.Round(0)), 0)
}
