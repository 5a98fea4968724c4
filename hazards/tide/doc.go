// Package tide gives the height of tide above a datum, at any instant, by one of four methods.
//
// The model. A Tide is a height in metres above its datum as a function of time. Its turning
// points are the high and low waters; between two of them the height only rises or only falls.
// The least and the greatest height of an interval are therefore at its ends or at the turning
// points inside it, and the checks ask for exactly those: never for samples.
//
// The methods.
//   - Harmonic: the sum of a station's constituents (P. Schureman, Manual of Harmonic Analysis and
//     Prediction of Tides, U.S. Coast and Geodetic Survey Special Publication 98, revised 1940,
//     printed 1958), with the equilibrium arguments and the node factors f and u taken at the time
//     itself. Tide authorities that hold f and u over a calendar year make a step at New Year;
//     taking them at the time makes none, and stays within a few millimetres of the other practice.
//   - Table: high and low waters as printed, joined by half cosines. Nothing is known outside them.
//   - Secondary: another tide with differences for high and low water, joined in the same way.
//   - Tideless: one level.
//
// What is unknown is said to be unknown: heights come with an ok that is false outside what is
// known. A table is never extended.
//
// Phases are Greenwich phase lags in degrees, times are UTC inside, heights are metres, positions
// are WGS 84 longitude and latitude in degrees.
//
// Out of scope: meteorological effects (see Adjusted), tidal streams, and any reading of files or
// clocks: callers pass bytes and instants.
//
// Every value here is safe for use by several goroutines at once.
package tide
