package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// How sums are compared and shown. A sum is compared after rounding to whole
// millimetres, and equal is enough: what float64 makes of 0.3 + 0.2 is no reason
// to stop a boat. What is shown comes from the same rounded figure, cut to
// hundredths of a metre, so that what is read and what was decided are one.

// WholeMM rounds metres to whole millimetres, halves away from zero.
func WholeMM(metres float64) float64 { return math.Round(metres*1000) / 1000 }

// RoundedUpMM is the most that WholeMM adds to a figure, in metres, but for a
// millionth of a millimetre: a sum short by no more than this is enough.
const RoundedUpMM = 0.0005 - 1e-9

// Enough reports whether so many metres reach what is wanted. A figure that is not
// a number is never enough.
func Enough(haveM, wantedM float64) bool {
	return math.Round(haveM*1000) >= math.Round(wantedM*1000)
}

// Exceeds reports whether so many metres are more than a limit. A figure that is
// not a number exceeds every limit.
func Exceeds(metres, limitM float64) bool {
	return !(math.Round(metres*1000) <= math.Round(limitM*1000))
}

// CeilHundredths rounds what is wanted, or what stands in the way, up to 0.01 m.
func CeilHundredths(metres float64) float64 { return 0 - FloorHundredths(-metres) }

// Down writes a clearance or a depth in metres with two decimals, rounded down.
func Down(metres float64) string { return hundredthsText(FloorHundredths(metres)) }

// Up writes what is wanted, or a height of sea, in metres with two decimals,
// rounded up.
func Up(metres float64) string { return hundredthsText(CeilHundredths(metres)) }

// hundredthsText never writes a minus before nothing.
func hundredthsText(metres float64) string {
	if metres == 0 {
		metres = 0
	}
	return fmt.Sprintf("%.2f", metres)
}

// Shown gives the terms of a sum, each with its sign, as they are shown: in whole
// hundredths of a metre that add up to the total, which is the sum rounded down
// (FloorHundredths). Every shown term is within 0.01 m of its own value, and one
// that is a whole number of hundredths stays as it is: the hundredths that
// rounding each term down leaves over go to the terms with the largest
// remainders (the method by which T. Hare shares out seats, 1859).
func Shown(terms ...float64) (shown []float64, total float64) {
	sum := 0.0
	for _, t := range terms {
		sum += t
	}
	cents := make([]float64, len(terms))
	order := make([]int, len(terms))
	left := math.Round(FloorHundredths(sum) * 100)
	for i, t := range terms {
		cents[i] = math.Floor(t*100 + nothing)
		left -= cents[i]
		order[i] = i
	}
	remainder := func(i int) float64 { return terms[i]*100 - cents[i] }
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(remainder(j), remainder(i)) })
	for k := 0; k < len(order) && left >= 1; k++ {
		cents[order[k]]++
		left--
	}
	for i := range cents {
		cents[i] = cents[i]/100 + 0
	}
	return cents, FloorHundredths(sum) + 0
}

// nothing is what float64 may take off a whole number of hundredths.
const nothing = 1e-6
