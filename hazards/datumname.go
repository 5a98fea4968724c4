package hazards

import "strconv"

// datumNames are the vertical datums of IHO S-57 App. A, attribute VERDAT.
var datumNames = [...]string{1: "mean low water springs", 2: "mean lower low water springs", 3: "mean sea level",
	4: "lowest low water", 5: "mean low water", 6: "lowest low water springs", 7: "approximate mean low water springs",
	8: "Indian spring low water", 9: "low water springs", 10: "approximate lowest astronomical tide",
	11: "nearly lowest low water", 12: "mean lower low water", 13: "low water", 14: "approximate mean low water",
	15: "approximate mean lower low water", 16: "mean high water", 17: "mean high water springs", 18: "high water",
	19: "approximate mean sea level", 20: "high water springs", 21: "mean higher high water",
	22: "equinoctial spring low water", 23: "lowest astronomical tide", 24: "a local datum",
	25: "International Great Lakes Datum 1985", 26: "mean water level", 27: "lower low water large tide",
	28: "higher high water large tide", 29: "nearly highest high water", 30: "highest astronomical tide"}

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

// DatumName is the name of a vertical datum, VERDAT, for people; 0 is one that
// is not known.
func DatumName(verdat int) string { return datumName(verdat) }

// datumName is the name of a VERDAT code, for people.
func datumName(verdat int) string {
	switch {
	case verdat == 0:
		return "a datum that is not known"
	case verdat > 0 && verdat < len(datumNames):
		return datumNames[verdat]
	case verdat == 44:
		return "Baltic Sea Chart Datum 2000"
	}
	return "datum " + strconv.Itoa(verdat)
}
