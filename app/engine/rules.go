package engine

import (
	"encoding/json"

	"keelroom/hazards/plan"
)

// rulesText is what the views need of the rules of the checks, which are written
// nowhere else.
type rulesText struct {
	WorstFirst []string          `json:"worst_first"` // severities of a finding
	Verdicts   map[string]string `json:"verdicts"`    // in words
}

// Rules writes what the views are told once, as they are made: the severities of a
// finding, the worst first, and the verdicts of a departure in words.
func Rules() []byte {
	b, _ := json.Marshal(rulesText{ // texts: does not fail
		WorstFirst: []string{plan.NotClear.String(), plan.NoData.String(), plan.Care.String(), plan.Note.String()},
		Verdicts:   map[string]string{plan.NotClear.String(): "not clear", plan.NoData.String(): "not known", plan.Care.String(): "care", plan.Clear.String(): "clear"},
	})
	return b
}
