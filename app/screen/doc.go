// Package screen draws the state of the app: go-app components that read package state
// and send it actions by name.
//
// The verdict comes first, in words; then what to watch in the order it comes, the
// stays, the legs, notes along the way, and the cautions. Severity is shown by a word and a
// shape, never by colour alone. Every clock time is in the plan's zone, which is named. A
// figure that the report does not know is shown as not known; depths and clearances are
// rounded down, seas up, to hundredths of a metre.
package screen
