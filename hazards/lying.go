package hazards

import (
	"fmt"
	"math"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
)

// Lying tries places to lie at: the checks of a stay are made as if she lay there,
// from one time to another. It belongs to the Session that made it and is good until
// that is used again.
type Lying struct {
	c    *checker
	stop passage.Stop
	stay plan.Stay
}

// Lie is what the checks say of lying at a place.
type Lie struct {
	Stay     plan.StayResult
	Findings []plan.Finding // of lying there; Leg is of no meaning
	Worst    plan.Severity  // of the findings
}

// approachM is how far off the leg begins that a tried stay is put at the end of.
const approachM = 100

// Lying makes ready to try places for a stay of a plan that lasts from arrive to
// stay.Until. Of the stay its kind, its rode and its name count; what an echo sounder
// read belongs to one place and is left out. The plan needs no route of its own. An
// error names what is wrong with the plan or the times.
func (s *Session) Lying(p *plan.Plan, stay plan.Stay, arrive time.Time) (*Lying, error) {
	if !arrive.Before(stay.Until) {
		return nil, fmt.Errorf("the stay would end at %s, not after she arrives at %s; a later time to leave is wanted", stay.Until.Format(time.RFC3339), arrive.Format(time.RFC3339))
	}
	stay.SoundedM, stay.SoundedAt = nil, nil
	if !geo.ValidPosition(stay.At) {
		return nil, fmt.Errorf("the place of the stay is no position")
	}
	q := *p
	q.Parts = []plan.Part{
		{Route: &plan.Route{Depart: &arrive, Points: []orb.Point{geo.RhumbDirect(stay.At, 180, approachM), stay.At}}},
		{Stay: &stay},
	}
	c, err := s.begin(&q, true)
	if err != nil {
		return nil, err
	}
	if len(c.track.Stops) != 1 {
		return nil, fmt.Errorf("the stay could not be laid out in time")
	}
	l := &Lying{c: c, stop: c.track.Stops[0], stay: stay}
	l.stop.Arrive, l.stop.Leave = arrive, stay.Until
	return l, nil
}

// At makes every check of a stay at a place, with all its figures. An error is that
// of Session.Between.
func (l *Lying) At(p orb.Point) (Lie, error) { return l.at(p, false) }

// Judge makes every check as At does, without what can be no worse than care and the
// figures that no finding needs: Worst is that of At where it is not clear or not
// known, and no worse than care where At's is not.
func (l *Lying) Judge(p orb.Point) (Lie, error) { return l.at(p, true) }

func (l *Lying) at(p orb.Point, brief bool) (Lie, error) {
	l.lie(p)
	l.c.brief, l.c.onlyStops = brief, brief
	defer func() { l.c.onlyStops = false }()
	l.c.checkStay(0)
	gathered{l.c}.reportQuality()
	if err := l.c.pause(); err != nil {
		return Lie{}, err
	}
	out := Lie{Stay: l.c.report.Stays[0], Findings: l.c.report.Findings, Worst: plan.VerdictOf(l.c.report.Findings)}
	return out, nil
}

// RuledOut gives the finding that forbids lying at a place, or says that something
// about it is not known, as far as that can be seen quickly: by the depth there, what
// forbids an anchor, and the sea when it blows hardest. Without one the place may be
// fit or not: At decides. The finding is one that At has too.
func (l *Lying) RuledOut(p orb.Point) (plan.Finding, bool) {
	l.lie(p)
	l.c.brief = true
	l.c.lying = 1
	defer func() { l.c.lying = 0 }()
	s := l.c.newStay(0)
	for _, look := range []func(){s.calmWater, s.anchoringRules, s.seaAtWorst} {
		look()
		for _, f := range l.c.report.Findings {
			if f.Severity == plan.NotClear || f.Severity == plan.NoData {
				return f, true
			}
		}
		l.c.report.Findings = l.c.report.Findings[:0]
		l.c.abouts = l.c.abouts[:0]
	}
	return plan.Finding{}, false
}

// Chart is the chart that places are tried on, with the plan's own layer.
func (l *Lying) Chart() *chart.Chart { return l.c.chart }

// TurnedSea is the greatest significant height in metres at a place over the stay, if
// the wind may be turned by margins.wind_room_deg either way; see
// sea.Model.GreatestTurned. ok is false where the sea is not known.
func (l *Lying) TurnedSea(p orb.Point) (hsM float64, ok bool) {
	l.lie(p)
	s := l.c.newStay(0)
	return l.c.sea.GreatestTurned(p, s.stop.Arrive, s.stop.Leave, s.highest(), l.c.plan.Margins.WindRoomDeg)
}

// Strongest is where the wind comes from when it blows hardest at the stay, degrees,
// and the significant height that it has then raised over a mean fetch and a mean
// depth in metres, without swell. More of either never gives less. ok is false where
// she lies at a berth or the wind is not known.
func (l *Lying) Strongest() (fromDeg float64, heightM func(fetchM, depthM float64) float64, ok bool) {
	l.lie(l.stay.At)
	s := l.c.newStay(0)
	at, ok := s.strongest()
	if !ok || !s.exposed() {
		return 0, nil, false
	}
	w, _ := s.wind.At(at)
	return w.FromDeg, func(fetchM, depthM float64) float64 {
		hs, _ := l.c.sea.HeightOver(at, fetchM, depthM)
		return hs
	}, true
}

// LeastDepthM is the charted depth, metres below the sounding datum of the tide, that
// is just enough without waves at the lowest water of the stay; +Inf where that is not
// known. Charts of other datums may need other depths.
func (l *Lying) LeastDepthM() float64 {
	l.lie(l.stay.At)
	s := l.c.newStay(0)
	from, to, whole := s.tideSpan()
	least, margin, ok := s.heights.least(from, to)
	if !whole || !ok {
		return math.Inf(1)
	}
	m := &l.c.plan.Margins
	return l.c.plan.Boat.DraughtM + m.AnchoredUnderKeelM - least + margin
}

// lie puts her at a place, with nothing found yet.
func (l *Lying) lie(p orb.Point) {
	stay := l.stay
	stay.At = p
	stop := l.stop
	stop.Stay = &stay
	l.c.track.Stops = []passage.Stop{stop}
	l.c.report = plan.NewReport()
	l.c.abouts, l.c.leasts, l.c.stayWorst, l.c.slack, l.c.poors = nil, nil, nil, nil, nil
	clear(l.c.seas)
}

// calmWater checks the water as if there were no waves: more of them never leave
// more water.
func (s *stayCheck) calmWater() { s.water() }

// seaAtWorst looks at the sea at the time of the strongest wind alone.
func (s *stayCheck) seaAtWorst() {
	if !s.exposed() {
		return
	}
	at, ok := s.strongest()
	if !ok {
		return
	}
	if state, ok := s.seaAt(s.stop.Stay.At, at); ok && plan.Exceeds(state.HsM, s.plan.Margins.AnchoredSeaM) {
		s.hsM, s.worstAt = state.HsM, at
		s.shelter(state)
	}
}

// strongest is when the wind blows hardest of the times at which the stay is looked at.
func (s *stayCheck) strongest() (at time.Time, ok bool) {
	most := -1.0
	for _, t := range s.times() {
		if w, known := s.wind.At(t); known && w.Kn > most {
			most, at, ok = w.Kn, t, true
		}
	}
	return at, ok
}

// Sea is the greatest significant height in metres at a place over the stay; ok is false
// where not all of it is known.
func (l *Lying) Sea(p orb.Point) (hsM float64, ok bool) {
	l.lie(p)
	s := l.c.newStay(0)
	_, _, whole := s.lookOut()
	return s.hsM, whole
}
