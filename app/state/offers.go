package state

import (
	"slices"
	"strings"

	"keelroom/app/edit"
)

// offers says whether what a message offers can still be done: it may have been done
// in another way since.
func (r *Room) offers(n *Notice) bool {
	any := func(holds func(id string) bool) bool { return slices.ContainsFunc(strings.Fields(n.arg), holds) }
	switch n.Do {
	case "plan-back":
		return slices.ContainsFunc(r.Plans.Deleted, func(p SavedPlan) bool { return p.ID == n.arg })
	case "set-back":
		return any(func(id string) bool {
			_, open := r.Charts.FindSet(id)
			return slices.ContainsFunc(r.Charts.removed, func(s *ChartSet) bool { return s.ID == id && (open == nil || !s.demo) })
		})
	case "set-remove":
		return any(func(id string) bool { _, s := r.Charts.FindSet(id); return s != nil })
	case "series-move":
		return any(func(id string) bool { days, _ := edit.SeriesOff(r.History.Plan, id); return days != 0 })
	}
	return true
}
