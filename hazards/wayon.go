package hazards

import (
	"encoding/binary"
	"reflect"
	"time"

	"keelroom/hazards/plan"
)

// Whether she may leave a stay later is tried for some thirty hours of leaving. The way
// on from the stay does not depend on the way to it, but for how warm the engine still
// is, so what is wrong with it is kept from check to check, as the outcomes of legs are:
// a waypoint that is dragged on the way out asks nothing of the way home.

// wayOutcome is what is wrong with the way on from a stay, nil for nothing.
type wayOutcome struct {
	wrong  *plan.Finding
	atOnce bool // it is known once she is laid out: it comes before what is wrong with the stay
}

// wayOn gives what is wrong with the way on from a stay to the next if she leaves at a
// time.
func (c *checker) wayOn(stop int, leave time.Time) wayOutcome {
	key := string(c.wayKey(stop, leave))
	out, kept := c.memory.ways.get(key)
	if !kept || everyLeg {
		if out = c.judgeWay(stop, leave); c.stopped == nil {
			c.memory.ways.put(key, out)
		}
	}
	return out
}

func (c *checker) judgeWay(stop int, leave time.Time) wayOutcome {
	t := c.leavingAt(stop, leave)
	s := &t.track.Stops[stop]
	first := t.lastLegOf(s.Route) + 1
	t.lightAndSchedule(stop+1, first)
	if f := t.wrong(); f != nil || t.stopped != nil {
		c.stopped = t.stopped
		return wayOutcome{f, true}
	}
	t.ways().checkGapFrom(s, first)
	for i := first; i < len(t.track.Legs) && t.wrong() == nil && t.pause() == nil; i++ {
		t.checkLeg(i)
	}
	if next := stop + 1; next < len(t.track.Stops) && t.wrong() == nil {
		t.ways().checkGapTo(&t.track.Stops[next], len(t.track.Legs)-1)
	}
	c.stopped = t.stopped
	return wayOutcome{wrong: t.wrong()}
}

// wayKey writes all that goes into what is wrong with a way on, but for the ground and
// the settings.
func (c *checker) wayKey(stop int, leave time.Time) []byte {
	s, b := &c.track.Stops[stop], c.memory.keyRoom[:0]
	b = binary.AppendVarint(b, int64(stop))
	b = binary.AppendVarint(b, int64(c.lastLegOf(s.Route)))
	b = binary.AppendVarint(b, int64(s.WarmUpLeft(leave)))
	b = appendTimes(b, leave, c.track.Depart)
	for _, stay := range c.plan.Stays() {
		b = appendValue(b, reflect.ValueOf(stay).Elem())
	}
	for i, r := range c.plan.Routes() {
		if i == s.Route+1 {
			b = appendValue(b, reflect.ValueOf(r).Elem())
		}
	}
	c.memory.keyRoom = b
	return b
}
