package state

import "keelroom/hazards/plan"

// History is the open plan with its earlier and undone states.
type History struct {
	notices *Notices
	ports   *Ports
	take    func(p *plan.Plan, text string)

	Open     SavedPlan       // Text is the plan as it is
	Plan     *plan.Plan      // of open.Text
	unread   error           // why that cannot be read; plan is another then
	spelt    spelling        // see spelling
	rev      int             // counts every change of the plan within this page
	readable map[string]bool // whether an earlier state can be read
}

// CanStep says whether the newest of a list of states can be gone to.
func (h *History) CanStep(states []string) bool {
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
