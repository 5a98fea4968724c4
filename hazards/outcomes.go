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

// checkLeg runs the checks of what lies along a leg, or takes the outcome kept.
func (c *checker) checkLeg(i int) {
	if c.cells == nil {
		c.cells = make([][]seaCell, len(c.track.Legs)) // shared with the part below
	}
	if c.passing {
		if out := c.judgeLeg(i); out != nil {
			c.take(i, out)
		}
		return
	}
	key := c.legKey(i)
	out, kept := c.memory.outcomes.get(string(key))
	if kept = kept && c.standsFirst(i, out) && !everyLeg; !kept {
		name := string(key) // judging may use the room of the key
		if out = c.judgeLeg(i); c.stopped != nil {
			return
		}
		c.memory.outcomes.put(name, out)
	}
	c.judged = append(c.judged, !kept)
	c.take(i, out)
}

// everyLeg has every leg judged anew, so that a test can tell that keeping outcomes
// changes nothing.
var everyLeg = false

// judgeLeg runs the checks of what lies along a leg, but for the quality of the
// survey, which is reported once for all, and gives what they found by itself.
func (c *checker) judgeLeg(i int) *legOutcome {
	one := *c
	one.report, one.abouts = plan.NewReport(), nil
	one.results, one.leasts, one.poors, one.slack, one.undirected, one.met = nil, nil, nil, nil, nil, nil
	one.passed, one.swellShut = map[int][]*chart.Feature{}, false
	l := one.checkWay(i)
	one.legMarks(i, l).checkLegMarks()
	c.stopped, c.unasked = one.stopped, one.unasked
	if c.stopped != nil {
		return nil
	}
	return &legOutcome{findings: one.report.Findings, abouts: one.abouts, result: one.results[0], least: one.leasts[0],
		passed: one.passed[i], slack: one.slack, poors: one.poors, undirected: one.undirected,
		waveAllowanceM: one.report.WaveAllowanceM, swellShut: one.swellShut, first: one.met, inHand: one.report.InHand}
}

// take adds the outcome of a leg to the check.
func (c *checker) take(i int, o *legOutcome) {
	c.report.Findings = append(c.report.Findings, o.findings...)
	c.abouts = append(c.abouts, o.abouts...)
	c.outcomes, c.leasts = append(c.outcomes, o), append(c.leasts, o.least)
	if o.passed != nil {
		c.passed[i] = o.passed
	}
	c.slack = append(c.slack, o.slack...)
	for _, p := range o.poors {
		c.poorSurvey(p.route, p.area, p.leg, p.from, p.to)
	}
	for _, u := range o.undirected {
		u.leg = &c.track.Legs[i]
		c.addUndirected(u)
	}
	c.report.WaveAllowanceM = math.Max(c.report.WaveAllowanceM, o.waveAllowanceM)
	c.swellShut = c.swellShut || o.swellShut
	for _, m := range o.inHand {
		c.report.Keep(m)
	}
	for _, m := range o.first {
		c.meetFirst(m.thing, i)
	}
}

// standsFirst tells whether the things of a kept outcome that are told once a day are
// met for the first time, or not, as they were then.
func (c *checker) standsFirst(i int, o *legOutcome) bool {
	for _, m := range o.first {
		if leg, seen := c.told[m.thing]; m.first != (!seen || leg == i) {
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
func (c *checker) legKey(i int) []byte {
	leg, b := &c.track.Legs[i], c.memory.keyRoom[:0]
	b = c.appendDay(b)
	b = binary.AppendVarint(b, int64(leg.Number))
	b = binary.AppendVarint(b, int64(leg.Route))
	b = append(append(b, leg.RouteName...), 0)
	b = appendBools(b, c.onlyStops, leg.HarbourA, leg.HarbourB, c.routeStarts(i), c.routeEnds(i))
	b = appendRhumb(b, leg)
	if c.asksTheNext(i) {
		b = appendRhumb(b, &c.track.Legs[i+1])
	}
	b = appendTimes(b, leg.Start, leg.End)
	b = appendSteps(b, c.track.StepsOf(leg))
	b = appendSea(b, c.legSea(i))
	for _, s := range c.harbours[i] {
		b = appendFloats(b, s.From, s.To)
	}
	c.memory.keyRoom = b
	return b
}

// asksTheNext tells whether a leg has a mark at the joint with the next, so that it
// depends on how that runs: see passes.
func (c *checker) asksTheNext(i int) bool {
	return !c.routeEnds(i) && slices.ContainsFunc(c.marksBeside(c.track.Legs[i].Rhumb), func(a abeam) bool { return a.ended })
}

// appendDay writes what a leg asks of the day: the tide about it, and the date that
// times are written without.
func (c *checker) appendDay(b []byte) []byte {
	from, _ := c.day(c.track.Depart)
	b = appendTimes(b, from)
	if w, ok := c.heights.tide.(*tide.Window); ok {
		b = appendTimes(b, w.From(), w.To())
	}
	return appendFloats(b, c.marginAheadM)
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
