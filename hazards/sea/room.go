package sea

import (
	"math"
	"slices"
	"time"

	"github.com/paulmach/orb"
)

// Room is how far the wind may shift before the sea at a place passes a limit,
// in degrees from 0 to 180: backing is anticlockwise, veering clockwise.
type Room struct {
	BackingDeg, VeeringDeg float64
}

// RoomStepDeg is how far beyond the room asked for a sea may be looked at.
const RoomStepDeg = raySpacing

const (
	roomRefine  = 0.05 // degrees: the room given is at most this much too small
	roomStep    = 30 * time.Minute
	roomSamples = 500 // a longer stay is looked at in longer steps
)

// WindRoom is the room the wind has at p from one time to another before the sea
// there passes limitM: every direction of the series is turned by the same angle,
// the speeds stay. It is given within the data and with open water beyond it. A
// sea already over the limit leaves 0 on both sides, one that no direction lifts
// over it 180. Rays are cast once all round, for the time `highest` at which the
// water stands highest, so that a drying area stops one only if it is dry
// throughout. Between two rays of that rose the fetch is interpolated. Swell counts
// where its forecast reaches (State.SwellUnknown tells where not). ok is false
// where the wind is not known over the whole time, the times are in the wrong
// order, or there is no chart.
func (m *Model) WindRoom(p orb.Point, from, to, highest time.Time, limitM float64) (within, withOpen Room, ok bool) {
	return m.WindRoomUpTo(p, from, to, highest, limitM, 180)
}

// WindRoomUpTo is WindRoom that looks no further than so many degrees: a room of
// less is that of WindRoom, one of as much or more says only that.
func (m *Model) WindRoomUpTo(p orb.Point, from, to, highest time.Time, limitM, upToDeg float64) (within, withOpen Room, ok bool) {
	if _, ok := m.Wind.MeanKn(from, to); !ok || m.Cast == nil {
		return Room{}, Room{}, false
	}
	start, _ := m.Wind.At(from)
	r := m.rose(p, start.FromDeg, highest)
	seas := m.samples(r, from, to, limitM)
	return r.within.room(seas, limitM, upToDeg), r.withOpen.room(seas, limitM, upToDeg), true
}

// sample is a time at which the sea is looked at.
type sample struct {
	fromDeg, swellM float64
	past            history
	calmM           float64 // a mean fetch over which the limit is surely kept, to be asked first
}

// samples are every half hour, the end, and every row of wind and swell between:
// between those all that is given runs straight.
func (m *Model) samples(r *rose, from, to time.Time, limitM float64) []sample {
	step := max(roomStep, to.Sub(from)/roomSamples)
	rows := m.Wind.times.within(from, to)
	if m.Swell != nil {
		rows = append(slices.Clone(rows), m.Swell.times.within(from, to)...)
	}
	seas := make([]sample, 0, int(to.Sub(from)/step)+2+len(rows))
	add := func(t time.Time) {
		if w, ok := m.Wind.At(t); ok {
			s := sample{fromDeg: w.FromDeg, swellM: m.swellBy(r, t), past: m.Wind.history(t)}
			s.calmM = s.past.calmFetch(heightLeft(limitM, s.swellM))
			seas = append(seas, s)
		}
	}
	for t := from; t.Before(to); t = t.Add(step) {
		add(t)
	}
	add(to)
	for _, t := range rows {
		add(t)
	}
	return seas
}

// heightLeft is the wind's sea that with a swell makes up a limit, less a little
// for rounding; 0 or below where the swell alone passes it or the limit is no number.
func heightLeft(limitM, swellM float64) float64 {
	const rounding = 1 - 1e-9
	left := math.Sqrt(limitM*limitM-swellM*swellM) * rounding
	if left > 0 && limitM > 0 {
		return left
	}
	return -1
}

// over says whether the sea passes the limit with a fetch; a limit that is not a
// number is passed.
func (s *sample) over(f fetch, limitM float64) bool {
	if f.meanM <= s.calmM {
		return false
	}
	return !(AddHeights(s.past.grow(f).HsM, s.swellM) <= limitM)
}

// swellBy is the swell that counts at t, by the rays of the rose.
func (m *Model) swellBy(r *rose, t time.Time) float64 {
	sw, ok := m.Swell.At(t)
	if !ok || sw.HeightM <= 0 {
		return 0
	}
	return sw.HeightM * exposure(func(off float64) bool { return r.open(sw.FromDeg + off) }).share()
}

// room for the wind over the fetches of the ring.
func (g *ring) room(seas []sample, limitM, upToDeg float64) Room {
	over := func(shiftDeg float64) bool { return g.anyOver(seas, shiftDeg, limitM) }
	return Room{BackingDeg: firstOver(over, -1, upToDeg), VeeringDeg: firstOver(over, 1, upToDeg)}
}

// anyOver says whether the sea passes the limit at any of the times.
func (g *ring) anyOver(seas []sample, shiftDeg, limitM float64) bool {
	for i := range seas {
		if seas[i].over(g.at(seas[i].fromDeg+shiftDeg), limitM) {
			return true
		}
	}
	return false
}

// firstOver is the greatest shift, 0 to 180 in the sense given, up to which the
// sea is not over: stepped at the spacing of the rays, then halved. It looks no
// further than it must to tell a shift below upToDeg.
func firstOver(over func(shiftDeg float64) bool, sense, upToDeg float64) float64 {
	if over(0) {
		return 0
	}
	good := 0.0
	for ; good < min(180, upToDeg); good += raySpacing {
		if bad := good + raySpacing; over(sense * bad) {
			return halve(over, sense, good, bad)
		}
	}
	return good
}

// halve narrows the shift at which the sea passes the limit, and stays below it.
func halve(over func(shiftDeg float64) bool, sense, good, bad float64) float64 {
	for bad-good > roomRefine {
		mid := (good + bad) / 2
		if over(sense * mid) {
			bad = mid
		} else {
			good = mid
		}
	}
	return good
}
