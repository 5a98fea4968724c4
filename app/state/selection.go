package state

import (
	"fmt"
	"strings"

	"github.com/paulmach/orb"

	"keelroom/app/edit"
	"keelroom/hazards/plan"
)

// Selection is the waypoint or stay, and the finding, that is chosen.
type Selection struct {
	history *History
	ports   *Ports
	view    *View

	point   pointRef
	Finding int // the one that was tapped on the chart
}

// pointRef is a chosen waypoint or stay: a feature of the plan file.
type pointRef struct{ feature, vertex int }

var nothing = pointRef{-1, -1}

func (sl *Selection) choose(g *gesture) {
	switch {
	case g.Finding != nil:
		sl.view.Tab = TabWatch
		sl.point = nothing
		sl.Finding = *g.Finding
		sl.ports.Device.Focus(fmt.Sprintf("finding-%d", *g.Finding))
	case g.Feature >= 0:
		sl.point = pointRef{g.Feature, g.Vertex}
	default:
		sl.point = nothing
	}
}

// choosePoint chooses a waypoint or stay: what is named on the bar, highlighted on
// the chart and meant by Delete is always this one.
func (sl *Selection) choosePoint(s pointRef) {
	if _, _, _, ok := sl.pointOf(s); !ok {
		s = nothing
	}
	sl.point = s
	sl.ports.chart.Select(s.feature, s.vertex)
}

// follow keeps the chosen point chosen after an edit, which may have given it
// another place in the file. Where points came or went it may be another by now, and
// nothing is chosen.
func (sl *Selection) follow(before *plan.Plan) {
	s := nothing
	if sl.point != nothing && shapeOf(before) == shapeOf(sl.history.Plan) {
		s = sameIn(sl.history.Plan, before, sl.point)
	}
	sl.Finding = -1 // the next report counts anew
	sl.choosePoint(s)
}

// sameIn is the selection, made in the plan before, in the plan after.
func sameIn(after, before *plan.Plan, s pointRef) pointRef {
	part, ok := edit.PartOfFeature(before, s.feature)
	if !ok {
		return nothing
	}
	feature, ok := edit.FeatureOfPart(after, part)
	if !ok {
		return nothing
	}
	return pointRef{feature, s.vertex}
}

// Chosen is the waypoint or stay that is chosen, and where it is.
func (sl *Selection) Chosen() (part, vertex int, at orb.Point, ok bool) { return sl.pointOf(sl.point) }

// pointOf is the waypoint or stay of a selection.
func (sl *Selection) pointOf(s pointRef) (part, vertex int, at orb.Point, ok bool) {
	if s == nothing {
		return 0, 0, at, false
	}
	if part, ok = edit.PartOfFeature(sl.history.Plan, s.feature); !ok {
		return 0, 0, at, false
	}
	at, ok = sl.vertexAt(part, s.vertex)
	return part, s.vertex, at, ok
}

// shapeOf identifies a plan by how many points their parts have.
func shapeOf(p *plan.Plan) string {
	var b strings.Builder
	for _, part := range p.Parts {
		if part.Route != nil {
			fmt.Fprintf(&b, "%d ", len(part.Route.Points))
		} else {
			b.WriteString("stay ")
		}
	}
	return b.String()
}
