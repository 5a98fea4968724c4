package screen

import (
	"fmt"
	"strings"

	"keelroom/app/phrase"
	"keelroom/hazards/plan"
)

// watched is how many findings above a note there are, those that are only counted
// among them.
func watched(r *plan.Report) int {
	n := 0
	for i := range r.Findings {
		if r.Findings[i].Severity != plan.Note {
			n++
		}
	}
	for i := range r.More {
		if r.More[i].Severity != plan.Note {
			n += r.More[i].Count
		}
	}
	return n
}

// notListed says what the report only counts: of each check, a leg lists its worst
// findings.
func notListed(r *plan.Report) string {
	var parts []string
	for i := range r.More {
		m := &r.More[i]
		where := checkWord(m.Check)
		if m.Leg > 0 {
			where = fmt.Sprintf("leg %d, %s", m.Leg, where)
		}
		parts = append(parts, fmt.Sprintf("%d more on %s (%s)", m.Count, where, strings.ToLower(styleOf(m.Severity).word)))
	}
	if len(parts) == 0 {
		return ""
	}
	return "Not listed, as worse or as much is: " + phrase.Joined(parts) + ". The verdict counts them all."
}
