package hazards

import (
	"time"

	"github.com/paulmach/orb"

	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
	"keelroom/hazards/sun"
)

// The departures of a day differ in the tide, the light and the sea, and hardly ever in
// what would be found on most legs. So what a leg could have at worst is worked out
// once for many departures, a block: it is checked as one that she may run at any time
// from that of the first of them to that of the last, with the least water, the
// greatest sea and every season of that time. Where that is not worse than what a
// departure has already, the leg is passed over: nothing of it could be told. Blocks lie
// within each other, from the whole day to an hour; what none of them settles is
// checked for the one departure, as Check does it. Unknown is never less than unknown:
// where something is known for a part of a block only, its legs are taken for not
// clear, so that they are checked one by one.
//
// A block shares one track, shifted. So there must be no stream, each speed zone must be
// in force always or never, and the sea must surely leave her speed alone; else each
// departure is laid out and checked by itself.

// Departures are the outlooks of one plan at regular times of leaving. They are for the
// goroutine of their Session.
type Departures struct {
	session *Session
	plan    *plan.Plan
	first   time.Duration // from the plan's own departure to the first of them
	step    time.Duration
	count   int
	// measured: its legs are not too long, which is the same at all times.
	measured bool
	ground   *ground // that the blocks were made on
	blocks   map[blockKey]*block
	room     *passage.Track // of the departure before
	states   recent[seaKey, seaState]
	reaches  reaches
}

type blockKey struct{ level, number int }

// blockSizes are how many departures the blocks of each level below the whole have.
var blockSizes = [...]int{36, 12, 4}

// Departures begins outlooks of a plan: of so many departures from a time on, a step
// apart.
func (s *Session) Departures(p *plan.Plan, first time.Time, step time.Duration, count int) *Departures {
	d := &Departures{session: s, plan: p, step: step, count: count, states: newRecent[seaKey, seaState](mostStates)}
	if r := p.Routes(); len(r) > 0 && r[0].Depart != nil {
		d.first = first.Sub(*r[0].Depart)
	}
	return d
}

// Outlook is that of the plan leaving at one of the times: what Session.Outlook gives.
func (d *Departures) Outlook(i int) (Outlook, error) {
	if !d.measured {
		if err := d.plan.CheckExtent(); err != nil {
			return Outlook{}, err
		}
		d.measured = true
	}
	c, err := d.begin(i, 0)
	if err != nil {
		return Outlook{}, err
	}
	ol := outlooks{checker: c}
	if ol.block, err = d.blockOf(i); err != nil {
		return Outlook{}, err
	}
	if ol.block == nil {
		if err := (preparing{c}).lay(preparing{c}.waters()); err != nil {
			return Outlook{}, err
		}
		return ol.look()
	}
	c.track = ol.block.track.Shifted(c.plan, time.Duration(i-ol.block.first)*d.step, d.room)
	d.room, c.harbours = c.track, ol.block.harbours
	return ol.look()
}

// begin is a check of a departure, not laid out, and of those up to so much later.
func (d *Departures) begin(i int, within time.Duration) (*checker, error) {
	p := d.plan.Later(d.first + time.Duration(i)*d.step)
	c, err := d.session.started(p, true)
	if err != nil {
		return nil, err
	}
	if c.ground != d.ground {
		d.ground, d.blocks = c.ground, map[blockKey]*block{}
		d.states.clear()
		d.reaches = reaches{}
	}
	c.lyingSeas, c.reaches = &d.states, d.reaches
	c.heights.within, c.bounding = within, within > 0
	return c, preparing{c}.prepareInputs()
}

// blockOf is the smallest block of a departure that has a track; nil for none.
func (d *Departures) blockOf(i int) (*block, error) {
	var out *block
	for level := range len(blockSizes) + 1 {
		b, err := d.block(level, i, out)
		if err != nil {
			return nil, err
		}
		if b.track != nil {
			out = b
		}
	}
	return out, nil
}

// block is the one of a level that a departure is of.
func (d *Departures) block(level, departure int, within *block) (*block, error) {
	size := d.count
	if level > 0 {
		size = blockSizes[level-1]
	}
	key := blockKey{level, departure / size}
	if b := d.blocks[key]; b != nil {
		return b, nil
	}
	first := key.number * size
	c, err := d.begin(first, time.Duration(min(size, d.count-first)-1)*d.step)
	if err != nil {
		return nil, err
	}
	b := &block{checker: c, first: first, within: within}
	if err := b.layOut(d.step); err != nil {
		return nil, err
	}
	d.blocks[key] = b
	return b, nil
}

// block is departures one after the other. Its checker bounds what is found of any.
type block struct {
	*checker
	first  int    // its first departure
	within *block // a larger one; nil for the largest
	worst  []legBound
}

// legBound is what a leg has at worst at any departure of a block.
type legBound struct {
	weight weight
	judged bool
	light  weight
	lit    bool // light is known
}

// layOut lays the block out; it has no track where its departures do not share one.
func (b *block) layOut(step time.Duration) error {
	switch {
	case !b.bounding:
	case b.within != nil:
		b.track = b.within.track.Shifted(b.plan, time.Duration(b.first-b.within.first)*step, nil)
		b.harbours = b.within.harbours
	default:
		if err := b.layFirst(); err != nil {
			return err
		}
	}
	if b.track != nil {
		b.worst, b.cells = make([]legBound, len(b.track.Legs)), make([][]seaCell, len(b.track.Legs))
	}
	return nil
}

// layFirst lays the first departure out with no sea that slows her, and keeps that if
// it is so for all departures of the block.
func (b *block) layFirst() error {
	w := preparing{b.checker}.waters()
	asked := &askedSea{times: map[orb.Point][2]time.Time{}}
	w.SeaM = asked.seaM
	if err := (preparing{b.checker}).lay(w); err != nil {
		return err
	}
	if !b.track.Timeless(b.plan, w, b.heights.within) || !b.surelyCalm(asked) {
		b.track = nil
	}
	return b.stopped
}

// askedSea is from when to when the sea was asked for at each place, in the order of the
// first asking.
type askedSea struct {
	places []orb.Point
	times  map[orb.Point][2]time.Time
}

// seaM takes the sea for calm.
func (a *askedSea) seaM(p orb.Point, from, to time.Time) (float64, bool) {
	was, ok := a.times[p]
	if !ok {
		a.places, was = append(a.places, p), [2]time.Time{from, to}
	}
	a.times[p] = [2]time.Time{earlier(from, was[0]), later(to, was[1])}
	return 0, false
}

// surelyCalm tells whether the sea slows her nowhere that it was asked for, at any
// departure of the block.
func (b *block) surelyCalm(asked *askedSea) bool {
	for _, p := range asked.places {
		at := asked.times[p]
		for _, l := range b.mostSea(p, at[0], at[1]) {
			if l.known && plan.Exceeds(l.state.HsM, b.plan.Boat.SeaLimitM) {
				return false
			}
		}
		if b.stopped != nil {
			return false
		}
	}
	return true
}

// settles tells whether nothing that a leg can have at any departure of the block counts
// beside what was found so far; larger blocks are asked first. The error is that of
// between.
func (b *block) settles(index int, so soFar, between func() error) (bool, error) {
	if b.within != nil {
		if settled, err := b.within.settles(index, so, between); settled || err != nil {
			return settled, err
		}
	}
	l := &b.worst[index]
	if !l.judged {
		b.between, b.stopped = between, nil
		if l.weight, l.judged = b.judge(index); !l.judged {
			return false, b.stopped
		}
	}
	return so.beats(l.weight), nil
}

func (b *block) judge(index int) (weight, bool) {
	if !b.boundable(index) {
		return weightOf(plan.NotClear), true
	}
	clear(b.told)
	out := reusing{b.checker}.judgeLeg(index)
	if out == nil {
		return 0, false
	}
	return worstOf(out), true
}

// worstOf is the weight of the worst that a leg adds to a report.
func worstOf(out *legOutcome) (w weight) {
	for i := range out.findings {
		w = max(w, weightOf(out.findings[i].Severity))
	}
	for _, u := range out.undirected {
		w = max(w, weightOf(u.severity))
	}
	if len(out.poors) > 0 {
		w = max(w, weightOf(plan.Care))
	}
	return w
}

// boundable tells whether the tide on a leg is known at all departures of the block, or
// at none.
func (b *block) boundable(index int) bool {
	if b.heights.tide == nil {
		return true
	}
	leg := &b.track.Legs[index]
	from, to := leg.Start.Add(-underWayPad), leg.End.Add(underWayPad)
	if _, _, ok := b.heights.least(from, to); ok {
		_, _, ok = b.heights.greatest(from, to)
		return ok && b.boundsKnown(leg)
	}
	begin, end, bounded := b.heights.tide.Covers()
	return bounded && (end.Before(from) || begin.After(to.Add(b.heights.within)))
}

// boundsKnown tells whether the lowest water about a leg is known.
func (b *block) boundsKnown(leg *passage.Leg) bool {
	from, to := b.aboutLeg(leg)
	_, ok := b.heights.tide.Least(b.heights.known(from, to))
	return ok
}

// aboutLeg is the time about a leg in which the lowest water is looked for.
func (c *checker) aboutLeg(leg *passage.Leg) (from, to time.Time) {
	return leg.Start.Add(-underWayPad - besideLow), leg.End.Add(underWayPad + besideLow + c.heights.within)
}

// light is the weight of the worst that the light can have for a leg at any departure of
// the block.
func (b *block) light(index int) weight {
	l := &b.worst[index]
	if !l.lit {
		l.lit, l.light = true, darkestWithin(&b.track.Legs[index], b.heights.within)
		if b.plan.Boat.Night {
			l.light = noFinding
		}
	}
	if b.within != nil && l.light != noFinding {
		return min(l.light, b.within.light(index))
	}
	return l.light
}

// darkestWithin is the weight of the darkest light of a leg that may be run so much
// later, by the altitude of the sun at its start: see surelyDay.
func darkestWithin(leg *passage.Leg, within time.Duration) weight {
	switch lowest := lowestSunDeg(leg, within); {
	case lowest > 0:
		return noFinding
	case lowest > sun.CivilDeg:
		return weightOf(plan.Care)
	}
	return weightOf(plan.NotClear)
}
