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
func (lv leaver) wayOn(stop int, leave time.Time) wayOutcome {
	key := string(lv.wayKey(stop, leave))
	out, kept := lv.memory.ways.get(key)
	if !kept || everyLeg {
		if out = lv.judgeWay(stop, leave); lv.stopped == nil {
			lv.memory.ways.put(key, out)
		}
	}
	return out
}

func (lv leaver) judgeWay(stop int, leave time.Time) wayOutcome {
	t := lv.leavingAt(stop, leave)
	s := &t.track.Stops[stop]
	first := t.lastLegOf(s.Route) + 1
	hours{t}.lightAndSchedule(stop+1, first)
	if f := t.wrong(); f != nil || t.stopped != nil {
		lv.stopped = t.stopped
		return wayOutcome{f, true}
	}
	ways{t}.checkGapFrom(s, first)
	for i := first; i < len(t.track.Legs) && t.wrong() == nil && t.pause() == nil; i++ {
		reusing{t}.checkLeg(i)
	}
	if next := stop + 1; next < len(t.track.Stops) && t.wrong() == nil {
		ways{t}.checkGapTo(&t.track.Stops[next], len(t.track.Legs)-1)
	}
	lv.stopped = t.stopped
	return wayOutcome{wrong: t.wrong()}
}

// wayKey writes all that goes into what is wrong with a way on, but for the ground and
// the settings.
func (lv leaver) wayKey(stop int, leave time.Time) []byte {
	s, b := &lv.track.Stops[stop], lv.memory.keyRoom[:0]
	b = binary.AppendVarint(b, int64(stop))
	b = binary.AppendVarint(b, int64(lv.lastLegOf(s.Route)))
	b = binary.AppendVarint(b, int64(s.WarmUpLeft(leave)))
	b = appendTimes(b, leave, lv.track.Depart)
	for _, stay := range lv.plan.Stays() {
		b = appendValue(b, reflect.ValueOf(stay).Elem())
	}
	for i, r := range lv.plan.Routes() {
		if i == s.Route+1 {
			b = appendValue(b, reflect.ValueOf(r).Elem())
		}
	}
	lv.memory.keyRoom = b
	return b
}
