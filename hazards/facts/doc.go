// Package facts holds what the checks find, as values: for each kind of finding a
// type with the quantities, times and names that its words are made of. Package
// hazards makes, compares and groups them; package words puts them into a language
// where a report is written or shown.
//
// All of them are comparable: two findings with equal facts say the same, and two
// with the same code and Subject have the same title. A figure that is rounded
// toward the unsafe side (water down, what is wanted up) is so rounded here, once,
// and clock times are whole minutes, so that two that read alike are equal.
//
// Units: metres, knots, nautical miles, degrees true, minutes, litres. A field whose
// name ends in M, Kn, Nm, Deg, Min or L is in that unit.
package facts
