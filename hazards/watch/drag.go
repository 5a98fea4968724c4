package watch

import (
	"math"
	"time"
)

// The test for dragging is a cumulative sum (Page 1954) of how far each fix lies beyond the
// circle, less an allowance, times the seconds that it stands for and its weight. Inside the
// circle the sum falls, never below nought. Errors of a receiver stay alike for a minute or so,
// so it is a sum over seconds and no count of fixes: ten fixes of one second say little more than one
// of ten.
//
// The figures were chosen on the simulated nights of package trial. They are no function of the
// accuracy, as a poor receiver must not widen the circle.
const (
	// allowanceM is how far beyond the circle a fix has to lie to raise the sum.
	allowanceM = 4.0
	// limitMS is the sum that is an alarm, metres × seconds: ten metres beyond the allowance for a
	// quarter of a minute. It is more than one fix can add, however wild.
	limitMS = 150.0
	// clipM bounds what one fix can add or take off a second.
	clipM = 14.0
	// longestS is how many seconds one fix can stand for.
	longestS = 10.0
	// mostUnspentS is how much of a gap is left to the fixes after it: they are news of that time
	// too, but no single one is to stand for it.
	mostUnspentS = 60.0
)

// Test is the state of the test for dragging.
type Test struct {
	Sum      float64 `json:"sum"`       // metres × seconds
	UnspentS float64 `json:"unspent_s"` // seconds that no fix has stood for yet
}

// add takes a fix in that lies so far beyond the circle (negative inside) and came some time after
// the one before, and says whether the anchor is dragging.
func (t *Test) add(beyondM, weight float64, since time.Duration) bool {
	t.UnspentS = math.Min(mostUnspentS, t.UnspentS+math.Max(0, since.Seconds()))
	stands := math.Min(longestS, t.UnspentS)
	t.UnspentS -= stands
	step := math.Max(-clipM, math.Min(clipM, beyondM-allowanceM))
	t.Sum = math.Max(0, math.Min(limitMS, t.Sum+weight*stands*step))
	return t.Sum >= limitMS
}

// Share is how near the test is to an alarm, 0 to 1.
func (t *Test) Share() float64 { return t.Sum / limitMS }
