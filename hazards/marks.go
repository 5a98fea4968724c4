package hazards

import (
	"math"
	"slices"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/facts"
	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
)

// checkLegMarks judges the marks passed on a leg. A lateral mark that the route
// only begins or ends beside is not passed; a cardinal marks foul ground, so it
// counts there too.
func (c *checker) checkLegMarks(index int, l *legClearance) {
	leg := &c.track.Legs[index]
	for _, a := range c.passes(index) {
		switch {
		case a.mark.UnreadMark():
			c.unreadMark(leg, a)
		case a.mark.Class.Cardinal():
			c.cardinal(leg, a)
		case a.mark.Class.Lateral() && !c.atRouteEnd(index, a):
			c.lateral(l, leg, a)
		}
	}
}

// cardinalBearing is the side to pass a cardinal mark on, degrees true (CATCAM
// 1 north, 2 east, 3 south, 4 west: IHO S-57 App. A, IALA R1001).
func cardinalBearing(catcam int) (deg float64, ok bool) {
	if catcam < 1 || catcam > 4 {
		return 0, false
	}
	return float64(catcam-1) * 90, true
}

func (c *checker) cardinal(leg *passage.Leg, a abeam) {
	side, ok := cardinalBearing(a.mark.Mark.CatCam)
	mark := facts.CardinalMark{What: facts.SideNotCharted, Name: a.mark.Name, Side: a.mark.Mark.CatCam}
	if !ok {
		c.markFinding(leg, a, plan.NoData, mark)
		return
	}
	bearing, wrong := c.wrongSide(leg, a, side)
	switch {
	case a.distM <= c.runsOverM():
		mark.What = facts.CodeOverCardinal
		c.markFinding(leg, a, plan.NotClear, mark)
	case wrong:
		mark.What, mark.DistanceM, mark.BearingD = facts.CodeCardinalWrong, a.distM, geo.Bearing(math.Round(bearing))
		c.markFinding(leg, a, plan.NotClear, mark)
	}
}

// unreadMark tells of a mark that was left out of its layer: it may be one to pass
// on the other side.
func (c *checker) unreadMark(leg *passage.Leg, a abeam) {
	c.markFinding(leg, a, plan.NoData, facts.MarkNotRead{Class: a.mark.Meant(), Index: a.mark.Index, File: a.mark.File, Info: a.mark.Info})
}

// wrongSide tells whether a leg passes a mark on the other side than the one named,
// degrees true: by the bearing from it to the leg's nearest place. That of a place on
// the mark itself says nothing.
func (c *checker) wrongSide(leg *passage.Leg, a abeam, side float64) (bearing float64, wrong bool) {
	_, bearing, _ = geo.Inverse(a.at, leg.Rhumb.At(a.metres))
	return bearing, a.distM <= c.runsOverM() || math.Abs(geo.Turn(side, bearing)) > 90
}

// wrongCardinal tells whether a leg passes a cardinal mark on the wrong side.
func (c *checker) wrongCardinal(index int, f *chart.Feature) bool {
	side, ok := cardinalBearing(f.Mark.CatCam)
	return ok && slices.ContainsFunc(c.passes(index), func(a abeam) bool {
		_, wrong := c.wrongSide(&c.track.Legs[index], a, side)
		return a.mark == f && wrong
	})
}

func (c *checker) markFinding(leg *passage.Leg, a abeam, s plan.Severity, what facts.Facts) {
	t := c.track.TimeAt(leg, a.metres)
	c.find(plan.Finding{Check: plan.CheckMark, Severity: s, Facts: what, Leg: leg.Number, Time: ptr(t), Until: ptr(t),
		Geometry: a.at, Source: sourceOf(a.mark), Measured: ptr(a.distM), Unit: "m"})
}
