// Package sea holds the wind, swell and stream a skipper plans with and works
// out how high the sea stands at a place and a time.
//
// # Model
//
// A wind series is linear between its rows; its 10-minute mean at 10 m raises
// the sea, gusts never do. The fetch at a place is the mean of nine rays at 3°
// about the direction the wind comes from (SPM 1984, p 3-39). Waves grow by the
// shallow-water equations 3-39 and 3-40 of the same manual with the mean depth
// along the fetch, as far as the wind has had time to raise them: of the last
// 0.5 to 12 hours, each at its mean speed, the stretch that gives the highest
// sea counts. Swell joins by energy where its direction is open.
//
// Reference: U.S. Army Corps of Engineers, Shore Protection Manual, 4th ed.,
// 1984, vol. I, chapter 3 ("SPM 1984" in this package). Heights are significant
// wave heights (Hs) in metres, periods are of the spectral peak in seconds.
//
// # What is unknown
//
// Unknown depth never limits the growth. A ray that leaves the data without
// meeting land is counted twice over: to the data's edge, and again as if water
// went on for the open fetch; a State carries both seas. It also carries both
// raised by a quarter, since growth formulas differ from measured seas by that
// much. Where the wind is not known there is no State at all. Wind older than
// the series is taken to have blown as in its first row, so that a series that
// begins in the morning does not make the sea look young.
//
// # Out of scope
//
// Refraction and diffraction round headlands and into bays, waves against a
// stream, reflection, the old sea left over from another direction after the
// wind has shifted, wakes of ships, and whether a wave of a given steepness is
// fit for a given boat.
package sea
