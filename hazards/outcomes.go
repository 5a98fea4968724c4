package hazards

import (
	"encoding/binary"
	"math"
	"slices"

	"keelroom/geo/chart"
	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
	"keelroom/hazards/tide"
)

// What is found on a leg follows from nothing but what goes into it: the ground, the
// settings, the leg with its steps and its sea, and its neighbours' ends. While a
// waypoint is dragged most of that stands, to the last bit, on all legs before it and
// on every route after a stay. So the outcome of a leg is kept under what went into
// it, and a leg that has the same again is not judged anew.

// legOutcome is all that checking a leg adds to a check.
type legOutcome struct {
	findings       []plan.Finding
	abouts         []about
	result         legResult
	least          leastAt
	passed         []*chart.Feature
	slack          []slack
	poors          []poor
	undirected     []undirected
	waveAllowanceM float64
	swellShut      bool
	inHand         []plan.InHand
	// first are the things that are told once a day which were met here, and whether
	// no leg before had met them: the one thing that legs ask about each other.
	first []metFirst
	// figures are the leg in the report, once asked for.
	figures *legFigures
}

// metFirst is a thing and whether a leg is the first of the day to meet it.
type metFirst struct {
	thing *chart.Feature
	first bool
}

// reusing checks legs, and takes the outcomes of those that have the same again.
type reusing struct{ *checker }

// checkLeg runs the checks of what lies along a leg, or takes the outcome kept.
func (ru reusing) checkLeg(i int) {
	if ru.cells == nil {
		ru.cells = make([][]seaCell, len(ru.track.Legs)) // shared with the part below
	}
	if ru.passing {
		if out := ru.judgeLeg(i); out != nil {
			ru.take(i, out)
		}
		return
	}
	key := ru.legKey(i)
	out, kept := ru.memory.outcomes.get(string(key))
	if kept = kept && ru.standsFirst(i, out) && !everyLeg; !kept {
		name := string(key) // judging may use the room of the key
		if out = ru.judgeLeg(i); ru.stopped != nil {
			return
		}
		ru.memory.outcomes.put(name, out)
	}
	ru.judged = append(ru.judged, !kept)
	ru.take(i, out)
}

// everyLeg has every leg judged anew, so that a test can tell that keeping outcomes
// changes nothing.
var everyLeg = false

// judgeLeg runs the checks of what lies along a leg, but for the quality of the
// survey, which is reported once for all, and gives what they found by itself.
func (ru reusing) judgeLeg(i int) *legOutcome {
	one := *ru.checker
	one.report, one.abouts = &plan.Report{}, nil
	one.results, one.leasts, one.poors, one.slack, one.undirected, one.met = nil, nil, nil, nil, nil, nil
	one.passed, one.swellShut = map[int][]*chart.Feature{}, false
	l := one.checkWay(i)
	one.legMarks(i, l).checkLegMarks()
	ru.stopped, ru.unasked = one.stopped, one.unasked
	if ru.stopped != nil {
		return nil
	}
	return &legOutcome{findings: one.report.Findings, abouts: one.abouts, result: one.results[0], least: one.leasts[0],
		passed: one.passed[i], slack: one.slack, poors: one.poors, undirected: one.undirected,
		waveAllowanceM: one.report.WaveAllowanceM, swellShut: one.swellShut, first: one.met, inHand: one.report.InHand}
}

// take adds the outcome of a leg to the check.
func (ru reusing) take(i int, o *legOutcome) {
	ru.report.Findings = append(ru.report.Findings, o.findings...)
	ru.abouts = append(ru.abouts, o.abouts...)
	ru.outcomes, ru.leasts = append(ru.outcomes, o), append(ru.leasts, o.least)
	if o.passed != nil {
		ru.passed[i] = o.passed
	}
	ru.slack = append(ru.slack, o.slack...)
	for _, p := range o.poors {
		gathered{ru.checker}.poorSurvey(p.route, p.area, p.leg, p.from, p.to)
	}
	for _, u := range o.undirected {
		u.leg = &ru.track.Legs[i]
		gathered{ru.checker}.addUndirected(u)
	}
	ru.report.WaveAllowanceM = math.Max(ru.report.WaveAllowanceM, o.waveAllowanceM)
	ru.swellShut = ru.swellShut || o.swellShut
	for _, m := range o.inHand {
		ru.report.Keep(m)
	}
	for _, m := range o.first {
		ru.meetFirst(m.thing, i)
	}
}

// standsFirst tells whether the things of a kept outcome that are told once a day are
// met for the first time, or not, as they were then.
func (ru reusing) standsFirst(i int, o *legOutcome) bool {
	for _, m := range o.first {
		if leg, seen := ru.told[m.thing]; m.first != (!seen || leg == i) {
			return false
		}
	}
	return true
}

// meetFirst notes that a leg meets a thing, and tells whether it is the first to.
func (c *checker) meetFirst(f *chart.Feature, leg int) bool {
	first, seen := c.told[f]
	if !seen {
		c.told[f] = leg
	}
	return !seen || first == leg
}

// legKey writes all that goes into the outcome of a leg but for the ground and the
// settings, with which the memory is cleared. What a leg asks of the day must be
// here.
func (ru reusing) legKey(i int) []byte {
	leg, b := &ru.track.Legs[i], ru.memory.keyRoom[:0]
	b = ru.appendDay(b)
	b = binary.AppendVarint(b, int64(leg.Number))
	b = binary.AppendVarint(b, int64(leg.Route))
	b = append(append(b, leg.RouteName...), 0)
	b = appendBools(b, ru.onlyStops, leg.HarbourA, leg.HarbourB, ru.routeStarts(i), ru.routeEnds(i))
	b = appendRhumb(b, leg)
	if ru.asksTheNext(i) {
		b = appendRhumb(b, &ru.track.Legs[i+1])
	}
	b = appendTimes(b, leg.Start, leg.End)
	b = appendSteps(b, ru.track.StepsOf(leg))
	b = appendSea(b, ru.legSea(i))
	for _, s := range ru.harbours[i] {
		b = appendFloats(b, s.From, s.To)
	}
	ru.memory.keyRoom = b
	return b
}

// asksTheNext tells whether a leg has a mark at the joint with the next, so that it
// depends on how that runs: see passes.
func (ru reusing) asksTheNext(i int) bool {
	return !ru.routeEnds(i) && slices.ContainsFunc(ru.marksBeside(ru.track.Legs[i].Rhumb), func(a abeam) bool { return a.ended })
}

// appendDay writes what a leg asks of the day: the tide about it, and the date that
// times are written without.
func (ru reusing) appendDay(b []byte) []byte {
	from, _ := ru.day(ru.track.Depart)
	b = appendTimes(b, from)
	if w, ok := ru.heights.tide.(*tide.Window); ok {
		b = appendTimes(b, w.From(), w.To())
	}
	return appendFloats(b, ru.marginAheadM)
}

func appendBools(b []byte, list ...bool) []byte {
	for _, v := range list {
		if v {
			b = append(b, 1)
		} else {
			b = append(b, 0)
		}
	}
	return b
}

func appendRhumb(b []byte, leg *passage.Leg) []byte {
	r := &leg.Rhumb
	return appendFloats(b, r.From[0], r.From[1], r.To[0], r.To[1])
}

func appendSteps(b []byte, steps []passage.Step) []byte {
	b = binary.AppendUvarint(b, uint64(len(steps)))
	for i := range steps {
		s := &steps[i]
		b = appendFloats(b, s.FromM, s.ToM, s.FromKn, s.ToKn, s.WaterKn)
		b = appendTimes(b, s.Start, s.End)
		b = append(b, byte(s.Why))
	}
	return b
}

// appendSea writes where and when the sea is looked at: the rest of it follows.
func appendSea(b []byte, cells []seaCell) []byte {
	b = binary.AppendUvarint(b, uint64(len(cells)))
	for i := range cells {
		cell := &cells[i]
		b = appendFloats(b, cell.FromM, cell.ToM, cell.At[0], cell.At[1])
		b = appendBools(b, cell.Rough)
		b = binary.AppendUvarint(b, uint64(len(cell.looks)))
		for k := range cell.looks {
			b = appendTimes(b, cell.looks[k].at)
		}
	}
	return b
}
