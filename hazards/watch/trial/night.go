package trial

import (
	"math/rand/v2"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/hazards/watch"
)

// origin is in mid-ocean; began is any time.
var (
	origin = orb.Point{-36.15, 43.09}
	began  = time.Date(2026, 7, 11, 20, 0, 0, 0, time.UTC)
)

// night is one boat, watched by both rules.
type night struct {
	boat     *boat
	receiver *receiver
	plane    geo.Plane
	watch    *watch.Watch
	t        float64 // seconds
	plain    plainRule
	dragging bool // as the watch says
	blind    bool
	radiusM  float64

	alarms, plainAlarms, blindAlarms int
	alarmed, plainAlarmed            bool // in this step
}

// plainRule is an alarm as soon as one fix lies outside the circle, silent for as long
// after each as the watch is.
type plainRule struct{ quietUntil float64 }

const quietS = 120

func (p *plainRule) fix(t, beyondM float64) bool {
	if beyondM <= 0 || t < p.quietUntil {
		return false
	}
	p.quietUntil = t + quietS
	return true
}

// newNight lets the anchor go and has its place taken. positionM is what the circle allows
// for the place of the anchor.
func newNight(seed uint64, k kind, sigmaM, endS, positionM float64) *night {
	rng := rand.New(rand.NewPCG(seed, 0x616e63686f72))
	n := &night{boat: newBoat(rng, k, endS), receiver: newReceiver(rng, sigmaM), plane: geo.NewPlane(origin)}
	b := n.boat
	laid := watch.Laid{RodeM: b.rode, ChainM: b.rode, DepthM: b.height - 1, BowRollerM: 1, LengthM: b.length, PositionM: positionM}
	n.watch, _ = watch.Begin(began, "", laid, watch.Drop{BowM: b.device, HeadingDeg: b.windFrom(0), HeadingKnown: true})
	n.radiusM = n.watch.RadiusM
	n.drop()
	return n
}

// drop gives the watch its minute of fixes: she is held over the anchor and falls back by up to
// 5 m while her rode runs out.
func (n *night) drop() {
	back := 5 * n.boat.rng.Float64()
	for n.watch.Phase == watch.Dropping {
		n.t += n.receiver.everyS
		aft := n.boat.device + min(back, back*n.t/60)
		n.hear(toward(n.boat.windFrom(0) + 180).Scale(aft))
		if n.watch.Unplaced(n.now()) {
			n.watch.Place(n.now(), origin) // a gap broke the minute: it is set by hand
		}
	}
}

// now is the clock.
func (n *night) now() time.Time { return began.Add(time.Duration(n.t * float64(time.Second))) }

// hear gives both rules a fix of a device that is truly at a place.
func (n *night) hear(at geo.XY) {
	n.alarmed, n.plainAlarmed = false, false
	said, accuracyM, ok := n.receiver.fix(at)
	now := n.now()
	if ok {
		pos := n.plane.Position(said)
		n.watch.Fix(now, watch.Fix{Time: now, At: pos, AccuracyM: accuracyM})
		if n.watch.Phase == watch.Watching && n.plain.fix(n.t, geo.DistanceM(n.watch.Anchor, pos)-n.radiusM) {
			n.plainAlarms++
			n.plainAlarmed = true
		}
	}
	n.look(now)
}

// look counts alarms that are to be heard, and acknowledges them at once.
func (n *night) look(now time.Time) {
	s := n.watch.Status(now)
	if s.Blind == watch.BlindAlarm && !n.blind {
		n.blindAlarms++
	}
	n.blind = s.Blind == watch.BlindAlarm
	if s.Sounding && s.Dragging {
		n.alarms++
		n.alarmed = true
	}
	if s.Sounding {
		n.watch.Acknowledge(now)
	}
}

// step lets the time to the next fix go by.
func (n *night) step(dragKn float64) {
	s := n.receiver.everyS
	n.t += s
	n.boat.step(n.t, s, dragKn)
	n.hear(n.boat.receiver())
}

// beyondM is how far the device truly lies beyond the circle about where the anchor was let go.
func (n *night) beyondM() float64 { return n.boat.receiver().Len() - n.radiusM }
