package app

import "github.com/paulmach/orb"

// view is what of the state the screen shows at the moment; none of it is kept.
type view struct {
	tab      string
	more     map[string]int // of long lists, rows that are shown beyond the first: see lists.go
	windows  map[int]int    // by part, the first waypoint that is listed
	viewAt   *orb.Point
	progress string
	offline  string
}
