package hazards

import (
	"cmp"
	"math"
	"time"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/facts"
	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
)

// gateM is how far a port-hand mark and its starboard-hand mark may lie apart
// to be read as a gate.
const gateM = 500

// athwartDeg is how near to a right angle to the direction of buoyage a track
// crosses a channel rather than following it.
const athwartDeg = 20

// Lateral hands (CATLAM, IHO S-57 App. A).
const (
	portHand      = 1
	starboardHand = 2
)

// lateral judges a lateral mark against the direction of buoyage.
func (m *legMarks) lateral(a abeam) {
	mark := func(what string) facts.LateralMark { return facts.LateralMark{What: what, Name: a.mark.Name} }
	hand, ok := m.buoys().hand(a.mark)
	if !ok {
		// Without its hand and its colours it is a mark that could not be read.
		severity := plan.Care
		if len(a.mark.Mark.Colours) == 0 {
			severity = plan.NoData
		}
		m.markFinding(a, severity, mark(facts.HandNotCharted))
		return
	}
	if hand != portHand && hand != starboardHand {
		m.markFinding(a, plan.Note, mark(facts.PreferredChannel))
		return
	}
	direction, ok := m.buoys().direction(a.mark, hand)
	if !ok {
		m.gate(a, hand)
		return
	}
	off := math.Abs(geo.Turn(direction, m.leg.Rhumb.CourseDeg))
	if math.Abs(off-90) <= athwartDeg {
		severity, _ := m.wrongHand(a)
		m.markFinding(a, min(severity, plan.Care), mark(facts.CrossingChannel))
		return
	}
	wantPort := (hand == portHand) == (off < 90)
	if a.toPort == wantPort {
		return
	}
	severity, water := m.wrongHand(a)
	wrong := facts.LateralWrong{Name: a.mark.Name, Port: wantPort, Beside: water.beside()}
	if wrong.Beside == facts.Shoal {
		wrong.LeastM = down(water.leastM)
	}
	m.markFinding(a, severity, wrong)
}

// wrongHand is how passing a lateral mark on the wrong side weighs, by the water
// there: it marks the edge of a channel, and outside it may be as deep.
func (m *legMarks) wrongHand(a abeam) (plan.Severity, sideWater) {
	water := m.waterBeside(a)
	switch water.beside() {
	case facts.Foul:
		return plan.NotClear, water
	case facts.Deep:
		return plan.Note, water
	}
	return plan.Care, water
}

// sideWater is what is known of the water where she passes a mark.
type sideWater struct {
	foul, unknown, shoal bool
	leastM               float64
}

// beside is what counts of the water.
func (w *sideWater) beside() facts.Beside {
	switch {
	case w.foul:
		return facts.Foul
	case w.unknown:
		return facts.NotKnown
	case w.shoal:
		return facts.Shoal
	}
	return facts.Deep
}

// waterBeside looks at the leg's water within mark_m of where it passes a mark.
func (m *legMarks) waterBeside(a abeam) sideWater {
	from, to := math.Max(0, a.metres-m.plan.Margins.MarkM), math.Min(m.leg.Rhumb.LengthM, a.metres+m.plan.Margins.MarkM)
	water := sideWater{leastM: m.water.waterOn(from, to), unknown: m.water.noTide || !m.water.bounds.known}
	water.shoal = m.water.shoalOn(from, to, m.plan.Margins.ComfortDepthM)
	start, end := m.track.TimeAt(m.leg, from), m.track.TimeAt(m.leg, to)
	for i := range m.report.Findings[m.water.firstFinding:] {
		f := &m.report.Findings[m.water.firstFinding+i]
		if f.Time == nil || f.Until == nil || f.Until.Before(start) || f.Time.After(end) {
			continue
		}
		switch f.Check {
		case plan.CheckClearance, plan.CheckLand, plan.CheckHazard:
			water.foul = water.foul || f.Severity == plan.NotClear
			water.unknown = water.unknown || f.Severity == plan.NoData
		case plan.CheckCoverage, plan.CheckDatum, plan.CheckSea: // waves not known are not taken off
			water.unknown = water.unknown || f.Severity == plan.NoData
		}
	}
	return water
}

// shoalOn tells whether the water on [from, to] metres of the leg is less than
// comfortable, or than twice what she needs.
func (l *legClearance) shoalOn(from, to, comfortM float64) bool {
	for _, w := range l.on(from, to) {
		if w.to >= from && w.waterM < math.Max(comfortM, 2*w.needM) {
			return true
		}
	}
	return false
}

// hand is CATLAM, else what the colour means in the region: red to port in
// region A, to starboard in region B (IALA R1001).
func (b buoys) hand(f *chart.Feature) (hand int, ok bool) {
	m := f.Mark
	if m.CatLam != 0 {
		return m.CatLam, true
	}
	region := b.region(f)
	if region == "" || len(m.Colours) != 1 || m.Colours[0] != red && m.Colours[0] != green {
		return 0, false
	}
	if (m.Colours[0] == red) == (region == "A") {
		return portHand, true
	}
	return starboardHand, true
}

// COLOUR codes of IHO S-57 App. A.
const (
	red   = 3
	green = 4
)

// region is the IALA region at a mark: the chart's, else the plan's.
func (b buoys) region(f *chart.Feature) string {
	return cmp.Or(b.ground.buoyage(f).region, b.plan.BuoyageRegion)
}

// direction is the direction of buoyage at a mark of a hand, degrees true: the
// chart's, else the one its channel shows, else the plan's, which is the same
// everywhere.
func (b buoys) direction(f *chart.Feature, hand int) (deg float64, ok bool) {
	if b := b.ground.buoyage(f); b.charted {
		return b.deg, true
	}
	if deg, ok := b.shownDirection(f, hand); ok {
		return deg, true
	}
	if b.plan.BuoyageDeg != nil {
		return *b.plan.BuoyageDeg, true
	}
	return 0, false
}

// gate accepts a track between a port-hand mark and its nearest starboard-hand
// mark; else the direction is not known, which is told once a day, where it weighs
// most: by the water there, as it may be the right side.
func (m *legMarks) gate(a abeam, hand int) {
	if mate, ok := m.buoys().mate(a.mark, hand); ok && crossesBetween(m.leg, a.at, mate.Coords[0].Position()) {
		return
	}
	severity, _ := m.wrongHand(a)
	u := undirected{leg: m.leg, a: a, severity: min(severity, plan.Care)}
	u.day, _ = m.day(m.track.TimeAt(m.leg, a.metres))
	m.undirected = append(m.undirected, u)
}

// addUndirected keeps of a day's marks the first, until one weighs more; what is met
// after that one is told beside it.
func (g gathered) addUndirected(u undirected) {
	for i := range g.undirected {
		if old := &g.undirected[i]; old.day.Equal(u.day) {
			if u.severity > old.severity {
				u.day = time.Time{}
				*old = u
			}
			return
		}
	}
	g.undirected = append(g.undirected, u)
}

// undirected is the mark of a day that is named because the direction of buoyage is
// not known there.
type undirected struct {
	day      time.Time
	leg      *passage.Leg
	a        abeam
	severity plan.Severity
}

// reportUndirected writes the warnings that gate gathered.
func (g gathered) reportUndirected() {
	for _, u := range g.undirected {
		(&legMarks{checker: g.checker, leg: u.leg}).markFinding(u.a, u.severity, facts.LateralMark{What: facts.DirectionNotCharted, Name: u.a.mark.Name})
	}
}

// mate is the nearest lateral mark of the other hand within gateM.
func (b buoys) mate(f *chart.Feature, hand int) (*chart.Feature, bool) {
	return b.nearestOfHand(f, portHand+starboardHand-hand, gateM)
}
