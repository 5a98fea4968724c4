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

// legMarks judges the marks that are passed on a leg.
type legMarks struct {
	*checker
	index int
	leg   *passage.Leg
	water *legClearance // along the leg; nil on the way between two parts of the day
}

func (c *checker) legMarks(index int, water *legClearance) *legMarks {
	return &legMarks{c, index, &c.track.Legs[index], water}
}

// checkLegMarks judges the marks passed on a leg. A lateral mark that the route
// only begins or ends beside is not passed; a cardinal marks foul ground, so it
// counts there too.
func (m *legMarks) checkLegMarks() {
	for _, a := range m.passes() {
		switch {
		case a.mark.UnreadMark():
			m.unreadMark(a)
		case a.mark.Class.Cardinal():
			m.cardinal(a)
		case a.mark.Class.Lateral() && !m.atRouteEnd(a):
			m.lateral(a)
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

func (m *legMarks) cardinal(a abeam) {
	side, ok := cardinalBearing(a.mark.Mark.CatCam)
	mark := facts.CardinalMark{What: facts.SideNotCharted, Name: a.mark.Name, Side: a.mark.Mark.CatCam}
	if !ok {
		m.markFinding(a, plan.NoData, mark)
		return
	}
	bearing, wrong := m.wrongSide(a, side)
	switch {
	case a.distM <= m.runsOverM():
		mark.What = facts.CodeOverCardinal
		m.markFinding(a, plan.NotClear, mark)
	case wrong:
		mark.What, mark.DistanceM, mark.BearingD = facts.CodeCardinalWrong, a.distM, geo.Bearing(math.Round(bearing))
		m.markFinding(a, plan.NotClear, mark)
	}
}

// unreadMark tells of a mark that was left out of its layer: it may be one to pass
// on the other side.
func (m *legMarks) unreadMark(a abeam) {
	m.markFinding(a, plan.NoData, facts.MarkNotRead{Class: a.mark.Meant(), Index: a.mark.Index, File: a.mark.File, Info: a.mark.Info})
}

// wrongSide tells whether a leg passes a mark on the other side than the one named,
// degrees true: by the bearing from it to the leg's nearest place. That of a place on
// the mark itself says nothing.
func (m *legMarks) wrongSide(a abeam, side float64) (bearing float64, wrong bool) {
	_, bearing, _ = geo.Inverse(a.at, m.leg.Rhumb.At(a.metres))
	return bearing, a.distM <= m.runsOverM() || math.Abs(geo.Turn(side, bearing)) > 90
}

// wrongCardinal tells whether a leg passes a cardinal mark on the wrong side.
func (m *legMarks) wrongCardinal(f *chart.Feature) bool {
	side, ok := cardinalBearing(f.Mark.CatCam)
	return ok && slices.ContainsFunc(m.passes(), func(a abeam) bool {
		_, wrong := m.wrongSide(a, side)
		return a.mark == f && wrong
	})
}

func (m *legMarks) markFinding(a abeam, s plan.Severity, what facts.Facts) {
	t := m.track.TimeAt(m.leg, a.metres)
	m.find(plan.Finding{Check: plan.CheckMark, Severity: s, Facts: what, Leg: m.leg.Number, Time: ptr(t), Until: ptr(t),
		Geometry: a.at, Source: sourceOf(a.mark), Measured: ptr(a.distM), Unit: "m"})
}
