package hazards

import (
	"math"
	"time"

	"keelroom/geo"
	"keelroom/hazards/facts"
)

// Where she lies about her anchor (at-anchor contract, section 3): downwind of it,
// through the sweep of the stay's wind, turned either way as far as it may shift; with a
// stream also between downwind and downstream. Between two rows all that is given runs
// straight, so that the sweeps are whole arcs and nothing is sampled.

const (
	// lightAirKn is the mean wind below which she lies anywhere.
	lightAirKn = 4
	// feltStreamKn is the stream above which she lies to it too.
	feltStreamKn = 0.5
	// notOpposedDeg is how far a stream may run from downwind for her to lie between
	// the two. Beyond that it opposes the wind, and she lies anywhere.
	notOpposedDeg = 135
)

// liesOn are the bearings from the anchor on which she lies.
type liesOn struct {
	sector   geo.Arcs          // with the room for the wind to shift
	downwind geo.Arcs          // without it
	whole    facts.WhyAllRound // why she may lie anywhere; 0: she does not
}

func anywhere(why facts.WhyAllRound) liesOn {
	return liesOn{geo.WholeCircle(), geo.WholeCircle(), why}
}

// instant is what she lies to at a time.
type instant struct {
	at                 time.Time
	downDeg, windKn    float64
	streamDeg, driftKn float64 // the stream's; 0 where none is given
}

// liesOn works out where she lies while she is there.
func (s *stayCheck) liesOn() liesOn {
	if _, ok := s.wind.MeanKn(s.stop.Arrive, s.stop.Leave); !ok {
		return anywhere(facts.WindNotKnown)
	}
	if s.mayGoRound() {
		return anywhere(facts.WindMayGoRound)
	}
	var sweep sweeping
	sweep.notOpposedDeg = math.Min(notOpposedDeg, 180-s.plan.Margins.WindRoomDeg)
	var last instant
	for i, t := range append(append([]time.Time{s.stop.Arrive}, s.turnsIn(s.stop.Arrive, s.stop.Leave)...), s.stop.Leave) {
		now, why := s.instant(t)
		if why != 0 {
			return anywhere(why)
		}
		if i == 0 {
			last = now
		}
		if why := sweep.between(last, now); why != 0 {
			return anywhere(why)
		}
		last = now
	}
	downwind := geo.MergeArcs(sweep.downwind...).Widened(s.plan.Margins.WindRoomDeg)
	return liesOn{sector: geo.MergeArcs(append(sweep.stream, downwind...)...), downwind: geo.MergeArcs(append(sweep.stream, sweep.downwind...)...)}
}

// mayGoRound tells whether the wind turns so far between two rows that it may as well
// go the other way round: shifted as far as it may be, the longer way is the shorter.
func (s *stayCheck) mayGoRound() bool {
	return s.wind.TurnDeg(s.stop.Arrive, s.stop.Leave) >= 180-s.plan.Margins.WindRoomDeg
}

// instant is what she lies to at a time, or why she may lie anywhere then.
func (s *stayCheck) instant(t time.Time) (instant, facts.WhyAllRound) {
	w, ok := s.wind.At(t)
	switch {
	case !ok:
		return instant{}, facts.WindNotKnown
	case w.Kn < lightAirKn:
		return instant{}, facts.LightAir
	}
	out := instant{at: t, downDeg: geo.Bearing(w.FromDeg + 180), windKn: w.Kn}
	if s.stream == nil {
		return out, 0
	}
	st, ok := s.stream.At(t)
	if !ok {
		return instant{}, facts.StreamNotKnown
	}
	out.streamDeg, out.driftKn = st.TowardDeg, st.Kn
	return out, 0
}

// sweeping gathers the arcs that she sweeps.
type sweeping struct {
	downwind, stream []geo.Arc
	notOpposedDeg    float64
}

// between sweeps from one time to the next; what is given runs straight between. It
// tells why she may lie anywhere, if she may.
func (w *sweeping) between(a, b instant) facts.WhyAllRound {
	wind, stream := geo.Turn(a.downDeg, b.downDeg), geo.Turn(a.streamDeg, b.streamDeg)
	w.downwind = append(w.downwind, arcFrom(a.downDeg, wind))
	from, to, felt := overShare(a.driftKn, b.driftKn, feltStreamKn)
	if !felt {
		return 0
	}
	down, toward := a.downDeg+from*wind, a.streamDeg+from*stream
	apart := geo.Turn(down, toward)
	later := apart + (to-from)*(stream-wind) // runs straight: its ends are its extremes
	if math.Max(math.Abs(apart), math.Abs(later)) >= w.notOpposedDeg {
		return facts.StreamOpposed
	}
	w.stream = append(w.stream, arcFrom(down, apart), arcFrom(a.downDeg+to*wind, later), arcFrom(toward, (to-from)*stream))
	return 0
}

// arcFrom is the arc from a bearing through a turn, clockwise positive.
func arcFrom(deg, turn float64) geo.Arc {
	return geo.ArcAbout(deg, math.Max(0, -turn), math.Max(0, turn))
}

// overShare is the part, from 0 to 1, of the way from a to b that lies above a limit,
// its ends included; ok is false for none.
func overShare(a, b, limit float64) (from, to float64, ok bool) {
	switch {
	case a <= limit && b <= limit:
		return 0, 0, false
	case a <= limit:
		return (limit - a) / (b - a), 1, true
	case b <= limit:
		return 0, (limit - a) / (b - a), true
	}
	return 0, 1, true
}
