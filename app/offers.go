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
		return slices.ContainsFunc(r.plans.deleted, func(p SavedPlan) bool { return p.ID == n.arg })
	case "set-back":
		return any(func(id string) bool {
			_, open := r.charts.findSet(id)
			return slices.ContainsFunc(r.charts.removed, func(s *chartSet) bool { return s.ID == id && (open == nil || !s.demo) })
		})
	case "set-remove":
		return any(func(id string) bool { _, s := r.charts.findSet(id); return s != nil })
	case "series-move":
		return any(func(id string) bool { days, _ := edit.SeriesOff(r.history.plan, id); return days != 0 })
	}
	return true
}

// timely are the messages that still hold: one whose offer was done in another way
// since tells of what is no more.
func (ns *notices) current() []notice {
	return slices.DeleteFunc(slices.Clone(ns.list), func(n notice) bool { return n.do != "" && !ns.offers(&n) })
}

// canStep says whether the newest of a list of states can be gone to.
func (h *history) canStep(states []string) bool {
	if len(states) == 0 {
		return false
	}
	text := states[len(states)-1]
	if h.readable == nil {
		h.readable = map[string]bool{}
	}
	can, known := h.readable[text]
	if !known {
		_, err := plan.DecodeDraft([]byte(text))
		can = err == nil
		if len(h.readable) > mostStates { // those of plans that were open before
			clear(h.readable)
		}
		h.readable[text] = can
	}
	return can
}
