package screen

import (
	"fmt"

	"keelroom/app/phrase"
	"keelroom/hazards/plan"
)

// also says where and when else a finding holds: legs that follow each other as
// one run.
func also(f *plan.Finding, c clocks) string {
	if len(f.Also) == 0 {
		return ""
	}
	var runs []string
	for from := 0; from < len(f.Also); {
		to := from + 1
		for to < len(f.Also) && follows(&f.Also[to-1], &f.Also[to]) {
			to++
		}
		runs = append(runs, runWords(f.Also[from:to], c))
		from = to
	}
	return "Also " + phrase.Joined(runs) + "."
}

// follows reports whether a place is on the leg after another's.
func follows(a, b *plan.Passing) bool { return a.Leg > 0 && b.Leg == a.Leg+1 }

func runWords(run []plan.Passing, c clocks) string {
	first, last := &run[0], &run[len(run)-1]
	when := "at " + c.at(first.Time)
	if first.Time == nil {
		when = "at a time not known"
	}
	if c.at(first.Time) != c.at(last.Time) {
		when = "from " + c.at(first.Time) + " to " + c.at(last.Time)
	}
	switch {
	case len(run) > 1:
		return fmt.Sprintf("on legs %d to %d %s", first.Leg, last.Leg, when)
	case first.Leg > 0:
		return fmt.Sprintf("on leg %d %s", first.Leg, when)
	}
	return when
}
