package hazards

import (
	"fmt"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// AddRouteHints adds, to the messages of the first set, the routes of the plan
// that lie on the charts, which have these bounds, only with longitude and
// latitude swapped (W-COORD). They are checked as they stand, which is outside
// the data. file is the plan's name for the messages.
func AddRouteHints(bounds orb.Bound, sets []*chart.Set, p *plan.Plan, file string) {
	if len(sets) == 0 {
		return
	}
	for i, r := range p.Routes() {
		if !swapped(r.Points, bounds) {
			continue
		}
		sets[0].Messages = append(sets[0].Messages, chart.Message{
			Level: chart.Warning, Code: "W-COORD", File: file, Path: fmt.Sprintf("route %d %q", i+1, r.Name),
			Found:  fmt.Sprintf("%.7f, %.7f, outside every chart, and on one with the two swapped", r.Points[0][0], r.Points[0][1]),
			Wanted: "longitude first, then latitude",
		})
	}
}

func swapped(points []orb.Point, bounds orb.Bound) bool {
	for _, p := range points {
		if bounds.Contains(p) || !bounds.Contains(orb.Point{p[1], p[0]}) {
			return false
		}
	}
	return len(points) > 0
}
