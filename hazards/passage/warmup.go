package passage

import (
	"time"

	"keelroom/hazards/plan"
)

// coldAfter is how long a stop must be for the engine to be cold again
// (plan-file contract, section 2).
const coldAfter = 2 * time.Hour

// Engine follows through a day how warm a boat's engine is: it is cold at the
// first start and after a stop of over two hours, and has then to run the boat's
// warm_up_min, on one route or on several, before it is warm.
type Engine struct{ warmUp, left time.Duration }

// NewEngine is a cold one.
func NewEngine(b *plan.Boat) *Engine {
	d := seconds(b.WarmUpMin * 60)
	return &Engine{warmUp: d, left: d}
}

// WarmAt is when it is warm if it starts at a time and runs from then on; that
// time itself for one that is warm.
func (e *Engine) WarmAt(start time.Time) time.Time { return start.Add(e.left) }

// Ran says that it ran so long.
func (e *Engine) Ran(d time.Duration) { e.left = max(0, e.left-d) }

// Stop says that it was stopped so long.
func (e *Engine) Stop(d time.Duration) {
	if d > coldAfter {
		e.left = e.warmUp
	}
}
