// Package entry reads what a skipper types: positions, figures with units, clock
// times, and the lines of a tide table or a forecast.
//
// # Model
//
// Every reader takes text and gives a value, or an error that is a sentence, without
// capital and full stop, telling what to type. Where a text could mean two things
// it is refused, or the result carries how it was read, to be shown beside the
// field: nothing is guessed in silence. Another unit is refused with the converted
// figure offered ([OtherUnit]), never converted unasked.
//
// Positions are orb.Point: longitude, latitude, degrees, WGS 84. Figures are in the
// unit that the function is named after. Clock times are those of a zone: one that
// a change of the clocks repeats is an [*Ambiguous] error with both instants, one
// that it skips a [*Skipped].
//
// Text may hold what is pasted from elsewhere: typographic primes, quotes, dashes
// and spaces are taken for the plain ones; decimals have a point or a comma.
//
// # Conversions
//
// International foot 0.3048 m, nautical mile 1852 m, statute mile 1609.344 m,
// fathom 6 feet, gallons 3.785411784 l (US) and 4.54609 l (imperial), all exact:
// NIST SP 811 (2008), appendix B.
//
// # Out of scope
//
// Whether a figure suits a plan, which the plan's own rules say when it is put there.
package entry
