package app

import "keelroom/hazards/plan"

// history is the open plan with its earlier and undone states.
type history struct {
	notices *notices
	ports   *ports
	take    func(p *plan.Plan, text string)

	open     SavedPlan       // Text is the plan as it is
	plan     *plan.Plan      // of open.Text
	unread   error           // why that cannot be read; plan is another then
	spelt    spelling        // see spelling
	rev      int             // counts every change of the plan within this page
	readable map[string]bool // whether an earlier state can be read
}
