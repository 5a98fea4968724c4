package app

import (
	"slices"
	"strings"

	"keelroom/app/edit"
	"keelroom/hazards/plan"
)

// offers says whether what a message offers can still be done: it may have been done
// in another way since.
func (r *Room) offers(n *notice) bool {
	any := func(holds func(id string) bool) bool { return slices.ContainsFunc(strings.Fields(n.arg), holds) }
	switch n.do {
	case "plan-back":
		return slices.ContainsFunc(r.deletedPlans, func(p SavedPlan) bool { return p.ID == n.arg })
	case "set-back":
		return any(func(id string) bool {
			_, open := r.findSet(id)
			return slices.ContainsFunc(r.removed, func(s *chartSet) bool { return s.ID == id && (open == nil || !s.demo) })
		})
	case "set-remove":
		return any(func(id string) bool { _, s := r.findSet(id); return s != nil })
	case "series-move":
		return any(func(id string) bool { days, _ := edit.SeriesOff(r.plan, id); return days != 0 })
	}
	return true
}

// timely are the messages that still hold: one whose offer was done in another way
// since tells of what is no more.
func (r *Room) timely() []notice {
	return slices.DeleteFunc(slices.Clone(r.notices), func(n notice) bool { return n.do != "" && !r.offers(&n) })
}

// canStep says whether the newest of a list of states can be gone to.
func (r *Room) canStep(states []string) bool {
	if len(states) == 0 {
		return false
	}
	text := states[len(states)-1]
	if r.read == nil {
		r.read = map[string]bool{}
	}
	can, known := r.read[text]
	if !known {
		_, err := plan.DecodeDraft([]byte(text))
		can = err == nil
		if len(r.read) > mostStates { // those of plans that were open before
			clear(r.read)
		}
		r.read[text] = can
	}
	return can
}
