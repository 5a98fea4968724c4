package engine

import (
	"time"

	"github.com/paulmach/orb"

	"keelroom/hazards"
	"keelroom/hazards/anchorages"
	"keelroom/hazards/plan"
	"keelroom/hazards/words"
)

// AnchoragesBody is the places to lie at that were found, best first.
type AnchoragesBody struct {
	Places []AnchoragePlace `json:"places"`
	More   int              `json:"more"` // places beyond those listed
	// NotGiven says what the plan does not give, so that it is not checked.
	NotGiven []string `json:"not_given"`
	Arrive   int64    `json:"arrive"`
	Until    int64    `json:"until"`
}

// AnchoragePlace is one of them, with what speaks for and against it.
type AnchoragePlace struct {
	Rank    int        `json:"rank"`
	At      [2]float64 `json:"at"`
	Verdict string     `json:"verdict"`
	Why     []string   `json:"why"`
	Against []string   `json:"against"`
	Points  float64    `json:"points"`
	RadiusM *float64   `json:"radius_m"`
}

// LieBody is what the checks say of lying at a place.
type LieBody struct {
	Verdict  string   `json:"verdict"`
	Why      []string `json:"why"`       // what speaks for it
	NotGiven []string `json:"not_given"` // what the plan does not give, so that it is not checked
	Against  []string `json:"against"`   // what forbids it, is not known or wants care, the worst first
}

// mostPlaces is how many places are listed.
const mostPlaces = 24

// lyingWork is a search that may be interrupted.
type lyingWork struct {
	session  *hazards.Session // that it was begun with
	search   *anchorages.Search
	question anchorages.Question
	sendAt   time.Time // when the places found so far are sent next
}

// findAnchorages looks for places to lie at. What was found stays found when a shorter
// request goes first.
func (s *Service) findAnchorages(j *job) error {
	session, err := s.charts.ready(j)
	if err != nil {
		return err
	}
	if j.lying == nil || j.lying.session != session { // the charts may be others
		q, err := s.whereToLieIn(session, j)
		if err != nil {
			return err
		}
		search, err := anchorages.New(q)
		if err != nil {
			return &failure{words: "No place was looked for: " + err.Error() + "."}
		}
		j.lying = &lyingWork{session: session, search: search, question: q}
	}
	w := j.lying
	between := session.Between
	defer func() { session.Between = between }()
	session.Between = func() error {
		if !time.Now().Before(w.sendAt) {
			if err := s.sendPlaces(j); err != nil {
				return err
			}
		}
		if between != nil {
			return between()
		}
		return nil
	}
	if err := w.search.Run(session, nil); err != nil {
		return checkFailed(err)
	}
	return s.jobs.done(j, w.body(), nil)
}

// sendShare is how many times longer the search goes on than it took to send what was
// found: on a busy device most of the time would go into that.
const sendShare = 10

// sendPlaces sends the places found so far, if there are new ones, and how far the search is.
func (s *Service) sendPlaces(j *job) error {
	w := j.lying
	began := time.Now()
	defer func() { w.sendAt = time.Now().Add(max(sendRibbonEvery, sendShare*time.Since(began))) }()
	raw, err := bodyOf(w.body())
	if err != nil {
		return err
	}
	s.jobs.post(j, Reply{State: Progress, Words: "Looking for places to lie at.", Done: int(1000 * w.search.Progress()), Total: 1000, Body: raw})
	return nil
}

// body is the places in words.
func (w *lyingWork) body() AnchoragesBody {
	list := w.search.Worded(words.English, mostPlaces)
	out := AnchoragesBody{Places: []AnchoragePlace{}, More: max(0, w.search.Told()-mostPlaces), Arrive: w.question.Arrive.Unix(), Until: w.question.Stay.Until.Unix(), NotGiven: w.question.Plan.NotGiven()}
	for i := range list {
		a := &list[i]
		p := AnchoragePlace{Rank: a.Rank, At: [2]float64(a.At), Verdict: a.Severity.String(), Why: a.Why, Against: a.Against, RadiusM: a.RadiusM}
		if t := a.Points; t != nil {
			p.Points = t.Sea + t.Room + t.Bottom + t.Way + t.Care
		}
		out.Places = append(out.Places, p)
	}
	return out
}

// whereToLieIn is the question of a stay of the plan, with where to look.
func (s *Service) whereToLieIn(session *hazards.Session, j *job) (anchorages.Question, error) {
	q, err := s.whereToLie(session, j)
	switch {
	case err != nil:
		return q, err
	case j.Bounds == nil:
		return q, &failure{words: "The part of the chart to look in is wanted."}
	}
	q.Area = orb.Bound{Min: orb.Point{j.Bounds[0], j.Bounds[1]}, Max: orb.Point{j.Bounds[2], j.Bounds[3]}}
	return q, nil
}

// whereToLie is the question of a stay of the plan, but for where to look.
func (s *Service) whereToLie(session *hazards.Session, j *job) (anchorages.Question, error) {
	var q anchorages.Question
	p, err := s.planOf(j.Plan)
	if err != nil {
		return q, err
	}
	if j.Stay < 0 || j.Stay >= len(p.Parts) || p.Parts[j.Stay].Stay == nil {
		return q, &failure{words: "The plan has no such stay any more."}
	}
	q = anchorages.Question{Plan: p, Stay: *p.Parts[j.Stay].Stay, Arrive: time.Unix(j.Time, 0)}
	stop := 0
	for i := range p.Parts[:j.Stay] {
		if p.Parts[i].Stay != nil {
			stop++
		}
		if r := p.Parts[i].Route; r != nil && len(r.Points) > 0 {
			q.From = &r.Points[0]
		}
	}
	if j.Time != 0 {
		return q, nil
	}
	r, err := session.CheckMoving(p)
	if err != nil {
		return q, checkFailed(err)
	}
	if stop >= len(r.Stays) || r.Stays[stop].Arrive == nil {
		return q, &failure{words: "When she arrives is not known: give the day and a route that leads to the stay first."}
	}
	q.Arrive = r.Stays[stop].Arrive.Truncate(time.Second)
	return q, nil
}

// lieHere says what the checks say of lying at a place instead.
func (s *Service) lieHere(j *job) error {
	at, session, err := s.askedAbout(j)
	if err != nil {
		return err
	}
	q, err := s.whereToLie(session, j)
	if err != nil {
		return err
	}
	l, err := session.Lying(q.Plan, q.Stay, q.Arrive)
	if err != nil {
		return checkFailed(err)
	}
	lie, err := l.At(at)
	if err != nil {
		return checkFailed(err)
	}
	if q.Stay.Kind != plan.AtAnchor {
		return &failure{words: "Not checked: " + anchorages.ErrNotAtAnchor.Error() + "."}
	}
	out := LieBody{NotGiven: q.Plan.NotGiven(), Verdict: lie.Worst.String(), Why: []string{}, Against: []string{}}
	t := words.English.For(q.Plan.Zone, q.Arrive)
	for _, worst := range []plan.Severity{plan.NotClear, plan.NoData, plan.Care} {
		for _, f := range lie.Findings {
			if f.Severity == worst && f.Facts != nil {
				out.Against = append(out.Against, t.Title(f.Facts)+". "+t.Detail(f.Facts))
			}
		}
	}
	out.Why = t.Others(anchorages.For(&anchorages.Place{At: at, Stay: lie.Stay, Findings: lie.Findings}, &q.Plan.Margins))
	return s.jobs.done(j, out, nil)
}
