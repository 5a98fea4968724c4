package hazards

// The vertical datums below, at and above the mean level (IHO S-57, appendix A,
// VERDAT; 44 is the mean level). Local datums and that of the Great Lakes are in
// none: they lie where they lie.
const (
	lowDatum = 1 + iota
	meanDatum
	highDatum
)

var datumRanks = map[int]int{1: lowDatum, 2: lowDatum, 3: meanDatum, 4: lowDatum, 5: lowDatum, 6: lowDatum, 7: lowDatum, 8: lowDatum, 9: lowDatum,
	10: lowDatum, 11: lowDatum, 12: lowDatum, 13: lowDatum, 14: lowDatum, 15: lowDatum, 16: highDatum, 17: highDatum, 18: highDatum,
	19: meanDatum, 20: highDatum, 21: highDatum, 22: lowDatum, 23: lowDatum, 26: meanDatum, 27: lowDatum, 28: highDatum, 29: highDatum,
	30: highDatum, 44: meanDatum}

// surelyAbove tells whether the datum of charted heights lies above that of a tide
// by what the two are. Heights are never charted above a low water: one whose datum
// is not stated is above a mean level or a high one.
func surelyAbove(heights, tide int) bool {
	above := datumRanks[heights]
	if heights == 0 {
		above = meanDatum
	}
	below := datumRanks[tide]
	return below != 0 && below < above
}
