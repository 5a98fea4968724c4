package state

import "github.com/paulmach/orb"

// View is what of the state the screen shows at the moment; none of it is kept.
type View struct {
	Tab      string
	more     map[string]int // of long lists, rows that are shown beyond the first: see lists.go
	windows  map[int]int    // by part, the first waypoint that is listed
	viewAt   *orb.Point
	bounds   *[4]float64 // of the chart that is seen: west, south, east, north
	Progress string
	Offline  string
}

// ListStep is how many rows of a list are shown at first, and more when asked for.
const ListStep = 50

// RowsShown is how many of a list's rows are shown.
func (v *View) RowsShown(list string, rows int) int { return min(rows, ListStep+v.more[list]) }

// showMore shows more of a list.
func (v *View) showMore(list string) {
	if v.more == nil {
		v.more = map[string]int{}
	}
	v.more[list] += ListStep
}

// Window is which waypoints of a part are listed, from one to before another.
func (v *View) Window(part, points int) (from, to int) {
	from = max(0, min(v.windows[part], points-ListStep))
	return from, min(points, from+ListStep)
}

// showWindow lists the waypoints of a part about one of them.
func (v *View) showWindow(part, vertex int) {
	if v.windows == nil {
		v.windows = map[int]int{}
	}
	v.windows[part] = max(0, vertex-ListStep/2)
}

// Lists that show more when asked to.
const (
	ListPlans   = "plans"
	ListPrivate = "private"
	ListLegs    = "legs"
)

// The tabs of the sheet.
const (
	TabWatch  = "watch"
	TabRoute  = "route"
	TabStays  = "stays"
	TabDay    = "day"
	TabBoat   = "boat"
	TabCharts = "charts"
	TabPlans  = "plans"
	TabAbout  = "about"
)

var Tabs = []struct{ ID, Label string }{
	{TabWatch, "Watch"}, {TabRoute, "Route"}, {TabStays, "Stays"}, {TabDay, "Day"},
	{TabBoat, "Boat"}, {TabCharts, "Charts"}, {TabPlans, "Plans"}, {TabAbout, "About"},
}
