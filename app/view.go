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

// listStep is how many rows of a list are shown at first, and more when asked for.
const listStep = 50

// shownOf is how many of a list's rows are shown.
func (v *view) rowsShown(list string, rows int) int { return min(rows, listStep+v.more[list]) }

// ListMore shows more of a list.
func (v *view) showMore(list string) {
	if v.more == nil {
		v.more = map[string]int{}
	}
	v.more[list] += listStep
}

// window is which waypoints of a part are listed, from one to before another.
func (v *view) window(part, points int) (from, to int) {
	from = max(0, min(v.windows[part], points-listStep))
	return from, min(points, from+listStep)
}

// ShowWindow lists the waypoints of a part about one of them.
func (v *view) showWindow(part, vertex int) {
	if v.windows == nil {
		v.windows = map[int]int{}
	}
	v.windows[part] = max(0, vertex-listStep/2)
}

// Lists that show more when asked to.
const (
	listPlans   = "plans"
	listPrivate = "private"
	listLegs    = "legs"
)

// The tabs of the sheet.
const (
	tabWatch  = "watch"
	tabRoute  = "route"
	tabStays  = "stays"
	tabDay    = "day"
	tabBoat   = "boat"
	tabCharts = "charts"
	tabPlans  = "plans"
	tabAbout  = "about"
)

var tabs = []struct{ id, label string }{
	{tabWatch, "Watch"}, {tabRoute, "Route"}, {tabStays, "Stays"}, {tabDay, "Day"},
	{tabBoat, "Boat"}, {tabCharts, "Charts"}, {tabPlans, "Plans"}, {tabAbout, "About"},
}
