package engine

import (
	"bytes"
	"errors"
	"strings"

	"keelroom/hazards"
	"keelroom/hazards/plan"
	"keelroom/hazards/words"
)

// check checks a plan.
func (s *Service) check(j *job) error {
	p, err := s.planOf(j.Plan)
	s.checked = checked{planRev: j.PlanRev, chartRev: j.ChartRev, plan: p}
	if err != nil {
		return s.withOwn(err, j.Plan)
	}
	session, err := s.charts.ready(j)
	if err != nil {
		return err
	}
	s.checked.session = session
	s.charts.hintRoutes(p)
	report, err := session.Check(p)
	if err != nil {
		return checkFailed(err)
	}
	words.English.Fill(report, p.Zone)
	day, err := Day(s.charts.chart, s.charts.setIDs(), p, report)
	if err != nil {
		return checkFailed(err)
	}
	own, err := s.privateOf(p)
	if err != nil {
		return checkFailed(err)
	}
	texts := map[string]string{"report": string(report.Encode(p.Zone)), "day": string(day), "private": own.draw}
	return s.jobs.done(j, CheckBody{report.Verdict.String(), own.messages}, texts)
}

// withOwn adds, to the failure of a plan that is not complete, its own layer: what
// the skipper sketched is drawn all the same.
func (s *Service) withOwn(err error, text string) error {
	var fault *failure
	if !errors.As(err, &fault) {
		return err
	}
	p, wrong := plan.DecodeDraft([]byte(text))
	if wrong != nil {
		return err
	}
	if own, wrong := s.privateOf(p); wrong == nil {
		fault.texts = map[string]string{"private": own.draw}
	}
	return err
}

// decoded is a plan file that was read, and the plan.
type decoded struct {
	text string
	plan *plan.Plan
}

// planOf reads a plan file that is to be checked, unless it is the one read last.
func (s *Service) planOf(text string) (*plan.Plan, error) {
	if s.decoded.plan != nil && s.decoded.text == text {
		return s.decoded.plan, nil
	}
	p, err := decodePlan(text)
	s.decoded = decoded{text, p}
	return p, err
}

// decodePlan reads a plan file that is to be checked.
func decodePlan(text string) (*plan.Plan, error) {
	p, err := plan.Decode([]byte(text))
	var wrong *plan.Errors
	switch {
	case err == nil:
		return p, nil
	case !errors.As(err, &wrong):
		return nil, err
	}
	body := ProblemsBody{More: wrong.More}
	for _, w := range wrong.List {
		body.Problems = append(body.Problems, Problem{w.Path, w.Msg, w.Question})
	}
	first := wrong.List[0]
	return nil, failed("The plan cannot be checked yet. "+first.Path+": "+first.Msg+".", body)
}

// checkFailed tells bad input that only the check sees, whose errors begin with
// a path; what ends the work stays what it is.
func checkFailed(err error) error {
	if errors.Is(err, errCancelled) || errors.Is(err, errOvertaken) {
		return err
	}
	path, want, ok := strings.Cut(err.Error(), ": ")
	if !ok {
		path, want = "", err.Error()
	}
	return failed("The plan cannot be checked. "+err.Error()+".", ProblemsBody{Problems: []Problem{{Path: path, Want: want}}})
}

// hintRoutes tells, in the messages of the first set, which routes lie on the
// charts only with longitude and latitude swapped.
func (c *collection) hintRoutes(p *plan.Plan) {
	for _, l := range c.sets {
		l.set.Messages = l.hinted
	}
	if c.bounded {
		hazards.AddRouteHints(c.bounds, c.chartSets(), p, "the plan")
	}
}

// setIDs names the sets as the screen does.
func (c *collection) setIDs() SetIDs {
	ids := SetIDs{}
	for _, l := range c.sets {
		ids[l.set] = l.id
	}
	return ids
}

// ownLayer is the layer that travels with a plan, drawn.
type ownLayer struct {
	features []byte
	draw     string
	messages []SetMessage
}

// privateOf draws the layer of a plan, unless it is the one drawn last.
func (s *Service) privateOf(p *plan.Plan) (ownLayer, error) {
	var features []byte
	for _, f := range p.Private {
		features = append(append(features, f.Feature...), '\n')
	}
	if s.own.draw != "" && bytes.Equal(features, s.own.features) {
		return s.own, nil
	}
	set, messages, err := hazards.PrivateLayer(p)
	if err != nil {
		return ownLayer{}, err
	}
	list, _ := listed(messages)
	s.own = ownLayer{features, strings.Join(Draw("plan", set, s.pace.turn), ""), list}
	return s.own, nil
}
