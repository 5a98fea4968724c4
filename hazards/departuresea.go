package hazards

import (
	"math"
	"time"

	"github.com/paulmach/orb"

	"keelroom/hazards/sea"
)

// The sea at any departure of a block is bounded by the strongest wind of the time, in
// deep water, over the longest reach of the directions that it turns through.

// mostSea bounds the sea at a place from one time to another, at any departure.
func (c *checker) mostSea(p orb.Point, from, to time.Time) []seaLook {
	c.did(1)
	spell, v := c.spellOf(from, to), c.viewWhile(p, from, to)
	var out []seaLook
	if spell.Known != sea.Nothing {
		out = append(out, seaLook{at: from, state: spell.Most(v), known: true})
	}
	if spell.Known != sea.Whole {
		out = append(out, seaLook{at: from})
	}
	return out
}

// spellOf is the wind and the swell of the departures from one time to another, and a
// little about them, so that places nearby share one.
func (c *checker) spellOf(from, to time.Time) *sea.Spell {
	const slot = 10 * time.Minute
	from, to = from.Truncate(slot), to.Add(c.heights.within+slot-1).Truncate(slot)
	if c.spell.Spell == nil || !c.spell.from.Equal(from) || !c.spell.to.Equal(to) {
		c.spell = timedSpell{c.sea.Spell(from, to), from, to}
	}
	return c.spell.Spell
}

// timedSpell is a spell and its ends.
type timedSpell struct {
	*sea.Spell
	from, to time.Time
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

// viewWhile is the view from a place at the highest water from one time to another, at
// any departure.
func (c *checker) viewWhile(p orb.Point, from, to time.Time) *viewOver {
	v := &viewOver{ground: c.ground, model: c.sea, at: p}
	v.topM, v.known = c.topWhile(from, to)
	key := reachKey{p, c.ground.dryWith(v.topM, v.known)}
	if v.reached = c.reaches[key]; v.reached == nil {
		v.reached = new(reachAbout)
		if c.reaches != nil {
			c.reaches[key] = v.reached
		}
	}
	return v
}

// reaches are what the wind reaches over, by the place and how many of the drying levels
// are dry; of one plan, whose open fetch counts in them.
type reaches map[reachKey]*reachAbout

type reachKey struct {
	at  orb.Point
	dry int
}

// reachAbout is a reach for each whole degree, in sectors that are there once one of
// theirs was asked for.
type reachAbout [360 / sector]*[sector]struct {
	sea.Reach
	known bool
}

// viewOver is the view from a place at the highest water of a time.
type viewOver struct {
	ground  *ground
	model   *sea.Model
	at      orb.Point
	topM    float64
	known   bool
	reached *reachAbout
}

func (v *viewOver) Ray(deg int) sea.Ray {
	r := v.ground.cast(v.at, float64(deg), sea.MaxRayM, v.topM, v.known)
	return sea.Ray{LengthM: r.LengthM, Open: r.Open, MeanDepthM: math.Inf(1)}
}

func (v *viewOver) Exposure(deg int) sea.Exposure {
	return v.ground.exposure(v.at, float64(deg), v.topM, v.known)
}

func (v *viewOver) Reach(deg int) sea.Reach {
	s := &v.reached[deg/sector]
	if *s == nil {
		*s = new([sector]struct {
			sea.Reach
			known bool
		})
	}
	r := &(*s)[deg%sector]
	if !r.known {
		r.Reach, r.known = v.model.FanReach(v, deg), true
	}
	return r.Reach
}
