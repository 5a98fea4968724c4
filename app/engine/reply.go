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
func (js *jobs) post(j *job, r Reply) {
	if j.Kind == MovePoint && r.View == nil {
		js.answerMove(j.ID, r.State, r.Words)
		return
	}
	r.ID, r.Kind, r.PlanRev, r.ChartRev = j.ID, j.Kind, j.PlanRev, j.ChartRev
	js.pace.host.Post(r)
}

// done sends the last reply of a request.
func (js *jobs) done(j *job, body any, texts map[string]string) error {
	r := Reply{State: Done, Texts: texts}
	if body != nil {
		raw, err := bodyOf(body)
		if err != nil {
			return err
		}
		r.Body = raw
	}
	js.post(j, r)
	return nil
}

func bodyOf(body any) (json.RawMessage, error) { return json.Marshal(body) }

// progress sends words about what is being done, and lets the event loop carry them.
func (js *jobs) progress(j *job, words string) error {
	js.post(j, Reply{State: Progress, Words: words})
	return js.pace.pause()
}
