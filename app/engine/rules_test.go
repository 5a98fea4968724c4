package engine

import (
	"encoding/json"
	"slices"
	"testing"

	"keelroom/hazards/plan"
)

// The views order severities as the checks do, and have a word for every verdict.
func TestRulesAreTheChecks(t *testing.T) {
	var rules struct {
		WorstFirst []string          `json:"worst_first"`
		Verdicts   map[string]string `json:"verdicts"`
	}
	if err := json.Unmarshal(Rules(), &rules); err != nil {
		t.Fatal(err)
	}
	for i, word := range rules.WorstFirst[1:] {
		worse, known := plan.ParseSeverity(rules.WorstFirst[i])
		s, also := plan.ParseSeverity(word)
		if !known || !also || worse.Worse(s) != worse || worse == s {
			t.Errorf("%s is not worse than %s", rules.WorstFirst[i], word)
		}
	}
	for _, s := range []plan.Severity{plan.NotClear, plan.NoData, plan.Care, plan.Clear} {
		if rules.Verdicts[s.String()] == "" {
			t.Errorf("no word for %s", s)
		}
		if s != plan.Clear && !slices.Contains(rules.WorstFirst, s.String()) {
			t.Errorf("%s has no place", s)
		}
	}
}
