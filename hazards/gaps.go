package hazards

import (
	"math"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
)

// Where a part of the day ends up to plan.JoinM from where the next begins, she
// goes that way too: it is checked as a leg of its own, in the corridor of the
// part that comes next (plan-file contract, section 1). It has no number, moves
// no clock and adds no distance; what is found on it is told of the leg beside it.

// gap is the way between two parts of the day.
type gap struct {
	from, to orb.Point
	beside   int       // index of the leg that it is told of
	start    time.Time // when she is there
	end      time.Time
	kn       float64
}

// checkGapsAt checks the ways to and from the stay that a leg leads to.
func (c *checker) checkGapsAt(leg int) {
	for i := range c.track.Stops {
		if s := &c.track.Stops[i]; c.lastLegOf(s.Route) == leg {
			c.checkGapTo(s, leg)
			c.checkGapFrom(s, leg+1)
		}
	}
}

// checkGapTo checks the way from the end of a route to a stay.
func (c *checker) checkGapTo(stop *passage.Stop, last int) {
	c.checkGap(gap{from: c.track.Legs[last].Rhumb.To, to: stop.Stay.At, beside: last, start: stop.Arrive, kn: math.Min(c.plan.Boat.HarbourKn, plan.SlowKn)})
}

// checkGapFrom checks the way from a stay to the beginning of the next route.
func (c *checker) checkGapFrom(stop *passage.Stop, next int) {
	if next >= len(c.track.Legs) {
		return
	}
	leg := &c.track.Legs[next]
	c.checkGap(gap{from: stop.Stay.At, to: leg.Rhumb.From, beside: next, end: stop.Leave, kn: c.track.StepsOf(leg)[0].FastestKn()})
}

func (c *checker) checkGap(g gap) {
	if g.from == g.to {
		return
	}
	alone := c.alone(g)
	alone.checkWay(0)
	alone.legMarks(0, nil).checkGapMarks()
	c.stopped, c.unasked = alone.stopped, alone.unasked
	for i, f := range alone.report.Findings {
		if f.Severity != plan.Note { // what is only to be known, the leg beside it tells
			c.findAbout(f, alone.abouts[i])
		}
	}
	beside := &c.track.Legs[g.beside]
	for _, p := range alone.poors {
		end := beside.Rhumb.LengthM
		if g.start.IsZero() {
			end = 0
		}
		c.poorSurvey(p.route, p.area, g.beside, end, end)
	}
	c.leasts = append(c.leasts, alone.leasts...)
	c.slack = append(c.slack, alone.slack...)
	c.swellShut = c.swellShut || alone.swellShut
	for _, m := range alone.report.InHand {
		c.report.Keep(m)
	}
	c.report.WaveAllowanceM = math.Max(c.report.WaveAllowanceM, alone.report.WaveAllowanceM)
}

// checkGapMarks judges the cardinal marks passed on a gap, and those that could not
// be read. A lateral mark is not passed where a route only begins or ends.
func (m *legMarks) checkGapMarks() {
	for _, a := range m.passes() {
		switch {
		case a.mark.UnreadMark():
			m.unreadMark(a)
		case a.mark.Class.Cardinal():
			m.cardinal(a)
		}
	}
}

// alone is a check of the gap by itself, as the only leg of its day.
func (c *checker) alone(g gap) *checker {
	leg, step := c.gapLeg(&g)
	out := *c
	out.track = &passage.Track{Depart: c.track.Depart, Back: c.track.Back, Legs: []passage.Leg{leg}, Steps: []passage.Step{step},
		Sea: []passage.SeaCell{{ToM: leg.Rhumb.LengthM, At: leg.Rhumb.At(leg.Rhumb.LengthM / 2)}}}
	out.report, out.abouts = plan.NewReport(), nil
	out.told, out.passed = map[*chart.Feature]int{}, map[int][]*chart.Feature{}
	out.cells, out.leasts, out.results, out.poors, out.slack = nil, nil, nil, nil, nil
	out.harbours = map[int][]chart.Span{}
	for _, p := range c.harboursBeside(g.beside) {
		out.addHarbour(0, p)
	}
	if out.harbours[0] != nil {
		out.harbours[0] = joinSpans(out.harbours[0])
	}
	return &out
}

// gapLeg is the gap as a leg, with its only step; one of the two times is given.
func (c *checker) gapLeg(g *gap) (passage.Leg, passage.Step) {
	beside := &c.track.Legs[g.beside]
	rhumb := geo.NewRhumb(g.from, g.to)
	lasts := time.Duration(rhumb.LengthM / (g.kn * geo.KnotMPS) * float64(time.Second))
	if g.end.IsZero() {
		g.end = g.start.Add(lasts)
	} else {
		g.start = g.end.Add(-lasts)
	}
	leg := passage.Leg{Number: beside.Number, Route: beside.Route, RouteName: beside.RouteName, Rhumb: rhumb, Start: g.start, End: g.end, Count: 1}
	step := passage.Step{ToM: rhumb.LengthM, Start: g.start, End: g.end, FromKn: g.kn, ToKn: g.kn, WaterKn: g.kn}
	if c.stream != nil {
		if s, ok := c.stream.At(g.start); ok {
			step.WaterKn = math.Max(g.kn, passage.ThroughWater(g.kn, rhumb.CourseDeg, s.TowardDeg, s.Kn))
		}
	}
	return leg, step
}

// harboursBeside are the places about which land is passed by eye: berths, the
// harbour ends of a leg, and a stay alongside.
func (c *checker) harboursBeside(index int) []orb.Point {
	leg := &c.track.Legs[index]
	var out []orb.Point
	if leg.HarbourA {
		out = append(out, leg.Rhumb.From)
	}
	if leg.HarbourB {
		out = append(out, leg.Rhumb.To)
	}
	for _, b := range c.plan.Berths {
		out = append(out, b.At)
	}
	return out
}
