//go:build !js

package browser

import (
	"testing"
)

// hesitant drags as a careful hand does: it takes hold, trembles, waits longer than
// a long press, and only then goes.
func (p *tab) hesitant(from, to spot) {
	p.t.Helper()
	first := from.plus(2, 1)
	if p.view.touch {
		p.touch(from)
		p.slide(first)
	} else {
		p.down(from)
		p.move(first)
	}
	p.longer()
	for _, s := range first.between(to, dragSteps) {
		if p.view.touch {
			p.slide(s)
		} else {
			p.move(s)
		}
	}
	p.letGo(to)
}

// longer lets more time pass, by the page's own clock, than a press takes to be long
// (PRESS_MS of the chart's gestures, 550).
func (p *tab) longer() {
	p.t.Helper()
	read[bool](p, `new Promise((done) => setTimeout(() => done(true), 800))`)
}

// A press on a waypoint that moves is a drag, however long it was held before; and
// the waypoint that was dragged is the one that is named and deleted.
func TestHeldThenDragged(t *testing.T) {
	t.Parallel()
	screened(t, func(t *testing.T, v view) {
		p := atSea(t, v)
		p.newDay()
		p.press(button("Sketch route").nth(0))
		p.sees("Tap the chart, point by point.")
		all := p.spots(7)
		at, aside := []spot{all[4], all[5], all[6], all[0]}, []spot{all[2], all[3]}
		c := p.chart()
		p.dab(at)
		p.press(button("Done"))
		p.listed(".routeform summary", "four waypoints")
		p.unfold(".routeform")

		p.poke(at[1])
		p.listed(".bar-chosen", "Waypoint 2")
		p.hesitant(at[0], aside[0])
		p.listed(".bar-chosen", "Waypoint 1")
		p.near("waypoint 1 after the drag", p.typed("field-at-0-0"), c.position(aside[0]), c.slack())
		p.shot("held-then-dragged-" + v.name())
		second := p.typed("field-at-0-1")
		p.press(button("Delete Waypoint 1").nth(0))
		p.listed(".routeform summary", "three waypoints")
		p.near("the first waypoint", p.typed("field-at-0-0"), second, c.slack())

		// The handle in the middle of the leg that is the first by now.
		middle := spot{(at[1].x + at[2].x) / 2, (at[1].y + at[2].y) / 2}
		p.hesitant(middle, aside[1])
		p.listed(".routeform summary", "four waypoints")
		p.listed(".bar-chosen", "Waypoint 2")
		p.near("the waypoint drawn out", p.typed("field-at-0-1"), c.position(aside[1]), c.slack())
	})
}
