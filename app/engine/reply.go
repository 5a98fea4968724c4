package engine

import (
	"encoding/json"
)

// failure ends a request with a reply that says why.
type failure struct {
	words string
	body  json.RawMessage
	texts map[string]string
}

func (f *failure) Error() string { return f.words }

// failed is a failure with a body.
func failed(words string, body any) error {
	raw, err := bodyOf(body)
	if err != nil {
		return err
	}
	return &failure{words, raw, nil}
}

// post sends a reply to a request.
func (s *Service) post(j *job, r Reply) {
	if j.Kind == MovePoint && r.View == nil {
		s.answerMove(j.ID, r.State, r.Words)
		return
	}
	r.ID, r.Kind, r.PlanRev, r.ChartRev = j.ID, j.Kind, j.PlanRev, j.ChartRev
	s.host.Post(r)
}

// done sends the last reply of a request.
func (s *Service) done(j *job, body any, texts map[string]string) error {
	r := Reply{State: Done, Texts: texts}
	if body != nil {
		raw, err := bodyOf(body)
		if err != nil {
			return err
		}
		r.Body = raw
	}
	s.post(j, r)
	return nil
}

func bodyOf(body any) (json.RawMessage, error) { return json.Marshal(body) }

// says sends words about what is being done, and lets the event loop carry them.
func (s *Service) says(j *job, words string) error {
	s.post(j, Reply{State: Progress, Words: words})
	return s.pause()
}
