// Package app holds the screen: go-app components that show what the checks
// answer.
//
// Model: a Screen asks a Checker, which the program that runs in the browser
// supplies, for a checked day, says meanwhile how far it is, and then shows the
// report: the verdict in words first, what to watch in the order it comes, the
// stays, the legs, notes along the way, and the cautions. Severity is told by a
// word and a shape, never by colour alone. Every clock time is in the plan's
// zone, which is named.
//
// The package infers no rule of its own: it arranges and words what the report
// says. A figure that the report does not know is shown as not known. Depths
// and clearances are shown in metres rounded down to a decimetre, seas rounded
// up.
//
// Out of scope: fetching, storage, the clock and everything else that touches
// the browser, which package main does; drawing the chart.
package app
