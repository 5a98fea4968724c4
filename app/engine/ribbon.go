package engine

import (
	"time"

	"github.com/paulmach/orb"

	"keelroom/hazards"
	"keelroom/hazards/plan"
	"keelroom/hazards/words"
)

// ribbonStep is how far apart departures are.
const ribbonStep = 10 * time.Minute

// sendRibbonEvery is how often the slots found are sent.
const sendRibbonEvery = 100 * time.Millisecond

// RibbonBody is the departures of a day, or those found since the last reply.
type RibbonBody struct {
	StepMin int    `json:"step_min"`
	Slots   []Slot `json:"slots"`
}

// Slot is one departure: the whole day checked as if she left at T (Unix
// seconds). The reason is the worst finding, the first of that severity as the
// report has them; where the day is clear there is none.
type Slot struct {
	T       int64       `json:"t"`
	Verdict string      `json:"verdict"`
	Title   string      `json:"title"`
	Why     string      `json:"why"`
	Check   string      `json:"check"`
	Leg     int         `json:"leg"`
	At      *[2]float64 `json:"at"`
	Back    int64       `json:"back"`
}

// ribbonWork is a ribbon that may be interrupted.
type ribbonWork struct {
	plan    *plan.Plan
	from    time.Time // the midnight that begins the day
	total   int
	slots   []Slot
	sent    int // of slots
	sentAt  time.Time
	session *hazards.Session // that the departures are of
	days    *hazards.Departures
}

func newRibbon(p *plan.Plan) *ribbonWork {
	depart := p.Routes()[0].Depart.In(zoneOf(p))
	w := &ribbonWork{plan: p, from: midnight(depart, 0)}
	w.total = int((midnight(depart, 1).Sub(w.from) + ribbonStep - 1) / ribbonStep)
	w.slots = make([]Slot, 0, w.total)
	return w
}

// departures are those of the day in a session.
func (w *ribbonWork) departures(s *hazards.Session) *hazards.Departures {
	if w.session != s {
		w.session, w.days = s, s.Departures(w.plan, w.from, ribbonStep, w.total)
	}
	return w.days
}

// ribbon checks every departure of the day. What was found stays found when a
// shorter request goes first; the departure at hand is begun anew.
func (s *Service) ribbon(j *job) error {
	if j.ribbon == nil {
		p, err := s.planOf(j.Plan)
		if err != nil {
			return err
		}
		j.ribbon = newRibbon(p)
	}
	w := j.ribbon
	session, err := s.charts.ready(j)
	if err != nil {
		return err
	}
	if w.sentAt.IsZero() {
		if err := s.sendRibbon(j); err != nil {
			return err
		}
	}
	days := w.departures(session)
	for i := len(w.slots); i < w.total; i++ {
		look, err := days.Outlook(i)
		if err != nil {
			return checkFailed(err)
		}
		w.slots = append(w.slots, slotOf(w.from.Add(time.Duration(i)*ribbonStep), &look, w.plan.Zone))
		if len(w.slots) < w.total && time.Since(w.sentAt) >= sendRibbonEvery {
			if err := s.sendRibbon(j); err != nil {
				return err
			}
		}
	}
	return s.jobs.done(j, RibbonBody{ribbonMinutes, w.slots}, nil)
}

const ribbonMinutes = int(ribbonStep / time.Minute)

// sendRibbon sends the slots that were not sent yet.
func (s *Service) sendRibbon(j *job) error {
	w := j.ribbon
	raw, err := bodyOf(RibbonBody{ribbonMinutes, w.slots[w.sent:]})
	if err != nil {
		return err
	}
	w.sent, w.sentAt = len(w.slots), time.Now()
	s.jobs.post(j, Reply{State: Progress, Words: "Checking every departure of the day.", Done: len(w.slots), Total: w.total, Body: raw})
	return s.pace.pause()
}

func slotOf(t time.Time, o *hazards.Outlook, zone *time.Location) Slot {
	s := Slot{T: t.Unix(), Verdict: o.Verdict.String(), Back: o.Back.Unix()}
	if f := words.English.First(o.Worst, zone, t); f != nil && o.Verdict != plan.Clear {
		s.Title, s.Why, s.Check, s.Leg, s.At = f.Title, f.Detail, f.Check, f.Leg, placeOf(f.Geometry)
	}
	return s
}

// placeOf is the first position of a finding.
func placeOf(g orb.Geometry) *[2]float64 {
	var p orb.Point
	switch g := g.(type) {
	case orb.Point:
		p = g
	case orb.LineString:
		if len(g) == 0 {
			return nil
		}
		p = g[0]
	case orb.Polygon:
		if len(g) == 0 || len(g[0]) == 0 {
			return nil
		}
		p = g[0][0]
	default:
		return nil
	}
	return &[2]float64{p[0], p[1]}
}
