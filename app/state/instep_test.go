package state

import (
	"encoding/json"
	"strings"
	"testing"

	"keelroom/hazards/plan"
)

// inStep holds the open plan to its text, which is what is saved.
func inStep(t *testing.T, r *Room) {
	t.Helper()
	if r.History.Open.ID == "" || r.History.unread != nil {
		return
	}
	read, err := plan.DecodeDraft([]byte(r.History.Open.Text))
	if err != nil {
		t.Errorf("the open plan's text cannot be read: %v", err)
		return
	}
	if got, want := inJSON(t, r.History.Plan), inJSON(t, read); got != want {
		i := 0
		for i < len(got) && i < len(want) && got[i] == want[i] {
			i++
		}
		from := max(i-80, 0)
		t.Errorf("the open plan is …%.160s, its text says …%.160s", got[from:], want[from:])
	}
}

func inJSON(t *testing.T, p *plan.Plan) string {
	t.Helper()
	b, err := json.Marshal(p)
	if err != nil {
		t.Fatal(err)
	}
	return strings.ReplaceAll(string(b), "[]", "null") // a list of nothing is none
}
