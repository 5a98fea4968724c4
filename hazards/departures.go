package hazards

import (
	"math"
	"time"

	"github.com/paulmach/orb"

	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
	"keelroom/hazards/sea"
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
	ground  *ground // that the blocks were made on
	blocks  map[blockKey]*block
	room    *passage.Track // of the departure before
	states  recent[seaKey, seaState]
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
	}
	c.lyingSeas = &d.states
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
	weight   weight
	judged   bool
	day, lit bool // the sun is surely up; that was asked
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
	asked := askedSea{}
	w.SeaM = asked.seaM
	if err := (preparing{b.checker}).lay(w); err != nil {
		return err
	}
	if !b.track.Timeless(b.plan, w, b.heights.within) || !b.surelyCalm(asked) {
		b.track = nil
	}
	return b.stopped
}

// askedSea is from when to when the sea was asked for at each place.
type askedSea map[orb.Point][2]time.Time

// seaM takes the sea for calm.
func (a askedSea) seaM(p orb.Point, from, to time.Time) (float64, bool) {
	if was, ok := a[p]; ok {
		from, to = earlier(from, was[0]), later(to, was[1])
	}
	a[p] = [2]time.Time{from, to}
	return 0, false
}

// surelyCalm tells whether the sea slows her nowhere that it was asked for, at any
// departure of the block.
func (b *block) surelyCalm(asked askedSea) bool {
	for p, at := range asked {
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

// weight orders severities, from none at all.
type weight uint8

const noFinding weight = 0

func weightOf(s plan.Severity) weight { return weight(s.Worse(plan.Note)) }

// weighs is the weight of the worst finding that a leg can have, ok false if the check
// was stopped.
func (b *block) weighs(index int) (w weight, ok bool) {
	l := &b.worst[index]
	if !l.judged {
		l.weight, l.judged = b.judge(index)
	}
	return l.weight, l.judged
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
	w := noFinding
	for i := range out.findings {
		w = max(w, weightOf(out.findings[i].Severity))
	}
	for _, u := range out.undirected {
		w = max(w, weightOf(u.severity))
	}
	if len(out.poors) > 0 {
		w = max(w, weightOf(plan.Care))
	}
	return w, true
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

// surelyDay tells whether a leg is run by day at all departures of the block.
func (b *block) surelyDay(index int) bool {
	l := &b.worst[index]
	if !l.lit {
		l.lit, l.day = true, surelyDayWithin(&b.track.Legs[index], b.heights.within)
	}
	return l.day || b.within != nil && b.within.surelyDay(index)
}

// mostSea bounds the sea at a place from one time to another, at any departure.
func (c *checker) mostSea(p orb.Point, from, to time.Time) []seaLook {
	c.did(1)
	v := &viewOver{ground: c.ground, model: c.sea, at: p}
	v.topM, v.known = c.topWhile(from, to)
	state, known := c.sea.Most(from, to.Add(c.heights.within), v)
	var out []seaLook
	if known != sea.Nothing {
		out = append(out, seaLook{at: from, state: state, known: true})
	}
	if known != sea.Whole {
		out = append(out, seaLook{at: from})
	}
	return out
}

// topWhile is the greatest height of the water above the sounding datum.
func (c *checker) topWhile(from, to time.Time) (float64, bool) {
	h, margin, ok := c.heights.greatest(from.Add(-underWayPad), to.Add(underWayPad))
	if !ok {
		return 0, false
	}
	offset, ok := c.levels().chartsOffset()
	return h + margin + offset, ok
}

// viewOver is the view from a place at the highest water of a time.
type viewOver struct {
	ground *ground
	model  *sea.Model
	at     orb.Point
	topM   float64
	known  bool
}

func (v *viewOver) Ray(deg int) sea.Ray {
	r := v.ground.cast(v.at, float64(deg), sea.MaxRayM, v.topM, v.known)
	return sea.Ray{LengthM: r.LengthM, Open: r.Open, MeanDepthM: math.Inf(1)}
}

func (v *viewOver) Exposure(deg int) sea.Exposure {
	return v.ground.exposure(v.at, float64(deg), v.topM, v.known)
}

func (v *viewOver) Reach(deg int) sea.Reach { return v.model.FanReach(v, deg) }
