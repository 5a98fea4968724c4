package engine

import (
	"errors"

	"github.com/paulmach/orb"

	"keelroom/app/edit"
	"keelroom/geo/geojson"
	"keelroom/hazards"
	"keelroom/hazards/plan"
	"keelroom/hazards/words"
)

// MovePoint is the kind of a job that checks the plan as it would be with one point
// elsewhere; see [Move].
const MovePoint = "move"

// Stale is the state of an answer to a move of another plan or chart than those
// checked last: the plan has to be sent again.
const Stale = "stale"

// Move asks what the checks would say if a point of the plan lay elsewhere: a
// waypoint, or a stay, that is being dragged. The plan is the one checked last,
// which the revisions name. A newer move ends an older one.
//
// The answer is a reply of the kind MovePoint with the move's Seq as its ID, and
// the message for the view in View: see view.go.
type Move struct {
	Seq               int // from 1, growing
	PlanRev, ChartRev int
	Feature, Vertex   int // of the plan file
	At                orb.Point
	Insert            bool // a new waypoint before that vertex
	Has               int  // the Seq of the newest answer that the asker has, 0 none
}

// checked is the plan that was checked last.
type checked struct {
	planRev, chartRev int
	session           *hazards.Session // that it was checked with: another once the charts change
	plan              *plan.Plan       // nil: it cannot be checked
}

// HandleMove takes a move in. Like Handle it only queues.
func (s *Service) HandleMove(m Move) {
	s.jobs.add(&job{Request: Request{ID: m.Seq, Kind: MovePoint, PlanRev: m.PlanRev, ChartRev: m.ChartRev}, move: m})
}

// movePoint checks the plan with a point moved, and answers with what changed on
// the screen since the answer that the asker has.
func (s *Service) movePoint(j *job) error {
	m, c := &j.move, &s.checked
	switch {
	case c.planRev != m.PlanRev || c.chartRev != m.ChartRev:
		s.answerMove(m.Seq, Stale, "")
		return nil
	case c.plan == nil:
		return &failure{words: "The plan cannot be checked yet."}
	case s.charts.session == nil || c.session != s.charts.session:
		s.answerMove(m.Seq, Stale, "")
		return nil
	}
	p, err := moved(c.plan, m)
	if err != nil {
		return &failure{words: err.Error()}
	}
	report, err := s.charts.session.CheckMoving(p)
	if err != nil {
		return moveFailed(err)
	}
	words.English.FillTitles(report)
	now, before := &s.views[0], &s.views[1]
	now.of(c.plan, p, report)
	base := 0
	if m.Has != 0 && m.Has == s.viewed {
		base = m.Has
	}
	s.jobs.post(j, Reply{State: Done, View: now.message(m.Seq, base, before)})
	s.viewed = m.Seq
	s.views[0], s.views[1] = s.views[1], s.views[0]
	return nil
}

// moved is the plan with a point elsewhere; the two share what did not move.
func moved(p *plan.Plan, m *Move) (*plan.Plan, error) {
	part, ok := edit.PartOfFeature(p, m.Feature)
	if !ok {
		return nil, errors.New("this is no longer part of the plan")
	}
	q := *p
	switch {
	case m.Insert:
		return &q, edit.InsertVertex(&q, part, m.Vertex, m.At)
	case p.Parts[part].Stay != nil:
		return &q, edit.MoveStay(&q, part, m.At)
	}
	return &q, edit.MoveVertex(&q, part, m.Vertex, m.At)
}

// moveFailed is why a plan with a point elsewhere cannot be checked; what ends the
// work stays what it is.
func moveFailed(err error) error {
	var wrong *plan.Errors
	if errors.As(err, &wrong) && len(wrong.List) > 0 {
		return &failure{words: wrong.List[0].Msg}
	}
	return checkFailed(err)
}

// answerMove answers a move without a view.
func (s *Service) answerMove(seq int, state, words string) {
	b := appendHead(nil, seq, state)
	if words != "" {
		b = geojson.AppendText(append(b, `,"words":`...), words)
	}
	s.pace.host.Post(Reply{ID: seq, Kind: MovePoint, State: state, View: append(b, '}')})
}
