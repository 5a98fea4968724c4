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

// ways checks the ways between the parts of a day.
type ways struct{ *checker }

// gap is the way between two parts of the day.
type gap struct {
	from, to orb.Point
	beside   int       // index of the leg that it is told of
	start    time.Time // when she is there
	end      time.Time
	kn       float64
}

// checkGapsAt checks the ways to and from the stay that a leg leads to.
func (w ways) checkGapsAt(leg int) {
	for i := range w.track.Stops {
		if s := &w.track.Stops[i]; w.lastLegOf(s.Route) == leg {
			w.checkGapTo(s, leg)
			w.checkGapFrom(s, leg+1)
		}
	}
}

// checkGapTo checks the way from the end of a route to a stay.
func (w ways) checkGapTo(stop *passage.Stop, last int) {
	w.checkGap(gap{from: w.track.Legs[last].Rhumb.To, to: stop.Stay.At, beside: last, start: stop.Arrive, kn: math.Min(w.plan.Boat.HarbourKn, plan.SlowKn)})
}

// checkGapFrom checks the way from a stay to the beginning of the next route.
func (w ways) checkGapFrom(stop *passage.Stop, next int) {
	if next >= len(w.track.Legs) {
		return
	}
	leg := &w.track.Legs[next]
	w.checkGap(gap{from: stop.Stay.At, to: leg.Rhumb.From, beside: next, end: stop.Leave, kn: w.track.StepsOf(leg)[0].FastestKn()})
}

func (w ways) checkGap(g gap) {
	if g.from == g.to {
		return
	}
	alone := w.alone(g)
	alone.checkWay(0)
	alone.legMarks(0, nil).checkGapMarks()
	w.stopped, w.unasked = alone.stopped, alone.unasked
	for i, f := range alone.report.Findings {
		if f.Severity != plan.Note { // what is only to be known, the leg beside it tells
			w.findAbout(f, alone.abouts[i])
		}
	}
	beside := &w.track.Legs[g.beside]
	for _, p := range alone.poors {
		end := beside.Rhumb.LengthM
		if g.start.IsZero() {
			end = 0
		}
		gathered{w.checker}.poorSurvey(p.route, p.area, g.beside, end, end)
	}
	w.leasts = append(w.leasts, alone.leasts...)
	w.slack = append(w.slack, alone.slack...)
	w.swellShut = w.swellShut || alone.swellShut
	for _, m := range alone.report.InHand {
		w.report.Keep(m)
	}
	w.report.WaveAllowanceM = math.Max(w.report.WaveAllowanceM, alone.report.WaveAllowanceM)
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
func (w ways) alone(g gap) *checker {
	leg, step := w.gapLeg(&g)
	out := *w.checker
	out.track = &passage.Track{Depart: w.track.Depart, Back: w.track.Back, Legs: []passage.Leg{leg}, Steps: []passage.Step{step},
		Sea: []passage.SeaCell{{ToM: leg.Rhumb.LengthM, At: leg.Rhumb.At(leg.Rhumb.LengthM / 2)}}}
	out.report, out.abouts = &plan.Report{}, nil
	out.told, out.passed = map[*chart.Feature]int{}, map[int][]*chart.Feature{}
	out.cells, out.leasts, out.results, out.poors, out.slack = nil, nil, nil, nil, nil
	out.harbours = map[int][]chart.Span{}
	for _, p := range w.harboursBeside(g.beside) {
		preparing{&out}.addHarbour(0, p)
	}
	if out.harbours[0] != nil {
		out.harbours[0] = joinSpans(out.harbours[0])
	}
	return &out
}

// gapLeg is the gap as a leg, with its only step; one of the two times is given.
func (w ways) gapLeg(g *gap) (passage.Leg, passage.Step) {
	beside := &w.track.Legs[g.beside]
	rhumb := geo.NewRhumb(g.from, g.to)
	lasts := time.Duration(rhumb.LengthM / (g.kn * geo.KnotMPS) * float64(time.Second))
	if g.end.IsZero() {
		g.end = g.start.Add(lasts)
	} else {
		g.start = g.end.Add(-lasts)
	}
	leg := passage.Leg{Number: beside.Number, Route: beside.Route, RouteName: beside.RouteName, Rhumb: rhumb, Start: g.start, End: g.end, Count: 1}
	step := passage.Step{ToM: rhumb.LengthM, Start: g.start, End: g.end, FromKn: g.kn, ToKn: g.kn, WaterKn: g.kn}
	if w.stream != nil {
		if s, ok := w.stream.At(g.start); ok {
			step.WaterKn = math.Max(g.kn, passage.ThroughWater(g.kn, rhumb.CourseDeg, s.TowardDeg, s.Kn))
		}
	}
	return leg, step
}

// harboursBeside are the places about which land is passed by eye: berths, the
// harbour ends of a leg, and a stay alongside.
func (w ways) harboursBeside(index int) []orb.Point {
	leg := &w.track.Legs[index]
	var out []orb.Point
	if leg.HarbourA {
		out = append(out, leg.Rhumb.From)
	}
	if leg.HarbourB {
		out = append(out, leg.Rhumb.To)
	}
	for _, b := range w.plan.Berths {
		out = append(out, b.At)
	}
	return out
}
