package state

import "keelroom/hazards/plan"

// Day is a plan with the report on it, which is nil while there is none.
type Day struct {
	Plan   *plan.Plan
	Report *plan.Report
}
