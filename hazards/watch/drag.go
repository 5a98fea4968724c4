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
// Errors of the anchor's own place stay for the whole night, so a sum alone is either slow or
// nervous. A smaller sum is therefore enough where she has also moved outward in the last minutes: an error stays
// where it is, a dragging anchor moves. Where she has been in the circle is no evidence by itself: without
// a sum of what lies beyond it no movement counts.
//
// The figures were chosen on the simulated nights of package trial. They are no function of the
// accuracy, as a poor receiver must not widen the circle.
const (
	// allowanceM is how far beyond the circle a fix has to lie to raise the sum.
	allowanceM = 3.0
	// movingMS is the sum, metres × seconds, that is an alarm while she moves outward: ten metres
	// beyond the allowance for twelve seconds. It is more than one fix can add, however wild.
	movingMS = 120.0
	// stillMS is the sum that is an alarm in any case.
	stillMS = 600.0
	// outwardM is how much farther out the mean of the last seconds has to lie than that of the last
	// minutes for her to be moving outward.
	outwardM = 16.0
	// fastS and slowS are how long those two means remember.
	fastS, slowS = 15.0, 300.0
	// clipM bounds what one fix can add to the sum or take off it a second; jumpM how far it moves the means.
	clipM, jumpM = 14.0, 15.0
	// longestS is how many seconds one fix can stand for.
	longestS = 8.0
	// mostUnspentS is how much of a gap is left to the fixes after it: they are news of that time
	// too, but no single one is to stand for it.
	mostUnspentS = 60.0
)

// Test is the state of the test for dragging.
type Test struct {
	Sum      float64 `json:"sum"`       // metres × seconds
	UnspentS float64 `json:"unspent_s"` // seconds that no fix has stood for yet
	Begun    bool    `json:"begun,omitempty"`
	FastM    float64 `json:"fast_m"` // mean of the metres beyond the circle, of the last seconds
	SlowM    float64 `json:"slow_m"` // of the last minutes
}

// add takes a fix in that lies so far beyond the circle (negative inside) and came some time after
// the one before, and says whether the anchor is dragging.
func (t *Test) add(beyondM, weight float64, since time.Duration) bool {
	if !t.Begun {
		t.Begun, t.FastM, t.SlowM = true, math.Min(0, beyondM), math.Min(0, beyondM)
	}
	t.UnspentS = math.Min(mostUnspentS, t.UnspentS+math.Max(0, since.Seconds()))
	stands := math.Min(longestS, t.UnspentS)
	t.UnspentS -= stands
	t.Sum = math.Max(0, math.Min(stillMS, t.Sum+weight*stands*clipped(beyondM-allowanceM, clipM)))
	seen := t.FastM + clipped(beyondM-t.FastM, jumpM)
	t.FastM += (1 - math.Exp(-weight*stands/fastS)) * (seen - t.FastM)
	t.SlowM += (1 - math.Exp(-weight*stands/slowS)) * (seen - t.SlowM)
	return t.drags()
}

// drags says whether what was counted is enough.
func (t *Test) drags() bool {
	return t.Sum >= stillMS || t.Sum >= movingMS && t.FastM-t.SlowM >= outwardM
}

// Share is how near the test is to an alarm in any case, 0 to 1.
func (t *Test) Share() float64 { return t.Sum / stillMS }

// clipped is a number within a bound either way.
func clipped(v, bound float64) float64 { return math.Max(-bound, math.Min(bound, v)) }
