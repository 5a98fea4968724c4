//go:build !js

package browser

import (
	"context"
	"math"
	"time"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// spot is a position on the page, CSS pixels from the top left corner.
type spot struct{ x, y float64 }

func (s spot) plus(x, y float64) spot { return spot{s.x + x, s.y + y} }

// between are n spots on the way from s to e, the last of them e.
func (s spot) between(e spot, n int) (way []spot) {
	for i := 1; i <= n; i++ {
		f := float64(i) / float64(n)
		way = append(way, spot{s.x + f*(e.x-s.x), s.y + f*(e.y-s.y)})
	}
	return way
}

// press presses a place with what the page's screen has, a finger or a mouse.
func (p *tab) press(a place) {
	p.t.Helper()
	at := p.reach(a)
	if p.view.touch {
		p.tap(at)
		return
	}
	p.click(at)
}

func (p *tab) mouse(kind input.DispatchMouseEventType, at spot, button input.MouseButton, clicks int64) {
	p.t.Helper()
	var down int64
	if button == input.MouseButtonLeft && kind != input.DispatchMouseEventTypeMouseReleased {
		down = 1
	}
	call(p, input.DispatchMouseEvent, input.DispatchMouseEventParams{
		Type: kind, X: at.x, Y: at.y, Button: button, Buttons: down, ClickCount: clicks,
	})
}

func (p *tab) hover(at spot) {
	p.t.Helper()
	p.mouse(input.DispatchMouseEventTypeMouseMoved, at, input.MouseButtonNone, 0)
}

func (p *tab) down(at spot) {
	p.t.Helper()
	p.hover(at)
	p.mouse(input.DispatchMouseEventTypeMousePressed, at, input.MouseButtonLeft, 1)
}

func (p *tab) move(at spot) {
	p.t.Helper()
	p.mouse(input.DispatchMouseEventTypeMouseMoved, at, input.MouseButtonLeft, 0)
}

func (p *tab) up(at spot) {
	p.t.Helper()
	p.mouse(input.DispatchMouseEventTypeMouseReleased, at, input.MouseButtonLeft, 1)
}

func (p *tab) click(at spot) {
	p.t.Helper()
	p.down(at)
	p.up(at)
}

func (p *tab) doubleClick(at spot) {
	p.t.Helper()
	p.click(at)
	p.mouse(input.DispatchMouseEventTypeMousePressed, at, input.MouseButtonLeft, 2)
	p.mouse(input.DispatchMouseEventTypeMouseReleased, at, input.MouseButtonLeft, 2)
}

// dragSteps is how many moves a drag is made of.
const dragSteps = 12

// drag drags with the mouse.
func (p *tab) drag(from, to spot) {
	p.t.Helper()
	p.down(from)
	for _, s := range from.between(to, dragSteps) {
		p.move(s)
	}
	p.up(to)
}

// wheel turns the wheel over a spot; positive is towards the user.
func (p *tab) wheel(at spot, dy float64) {
	p.t.Helper()
	// The driver's type leaves out a zero, which the browser wants to be told.
	turn := map[string]any{"type": "mouseWheel", "x": at.x, "y": at.y, "deltaX": 0, "deltaY": dy}
	p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		return t.Call(ctx, input.CommandDispatchMouseEvent, turn, nil)
	}))
}

// fingers puts, moves or lifts fingers; those that are not named are lifted.
func (p *tab) fingers(kind input.DispatchTouchEventType, at ...spot) {
	p.t.Helper()
	points := []*input.TouchPoint{}
	for i, s := range at {
		id := float64(i)
		points = append(points, &input.TouchPoint{X: s.x, Y: s.y, ID: &id})
	}
	call(p, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: points})
}

func (p *tab) touch(at ...spot) {
	p.t.Helper()
	p.fingers(input.DispatchTouchEventTypeTouchStart, at...)
}
func (p *tab) slide(to ...spot) {
	p.t.Helper()
	p.fingers(input.DispatchTouchEventTypeTouchMove, to...)
}
func (p *tab) lift() { p.t.Helper(); p.fingers(input.DispatchTouchEventTypeTouchEnd) }

// tapsApart is how long a tap is held back after another. Chromium takes two
// taps at one place within 0.3 s for a double tap, which puts no caret in a
// field; nobody taps two fields so quickly.
const tapsApart = 400 * time.Millisecond

func (p *tab) tap(at spot) {
	p.t.Helper()
	time.Sleep(time.Until(p.tapped.Add(tapsApart)))
	p.touch(at)
	p.lift()
	p.tapped = time.Now()
}

// swipe drags with one finger.
func (p *tab) swipe(from, to spot) {
	p.t.Helper()
	p.touch(from)
	for _, s := range from.between(to, dragSteps) {
		p.slide(s)
	}
	p.lift()
}

// pull drags with what the page's screen has.
func (p *tab) pull(from, to spot) {
	p.t.Helper()
	if p.view.touch {
		p.swipe(from, to)
		return
	}
	p.drag(from, to)
}

// pinch moves two fingers about a spot from one distance to another.
func (p *tab) pinch(about spot, from, to float64) {
	p.t.Helper()
	pair := func(apart float64) (spot, spot) {
		d := apart / 2 * math.Sqrt2 / 2
		return about.plus(-d, -d), about.plus(d, d)
	}
	a, b := pair(from)
	p.touch(a)
	p.touch(a, b)
	for i := 1; i <= dragSteps; i++ {
		a, b = pair(from + (to-from)*float64(i)/dragSteps)
		p.slide(a, b)
	}
	p.lift()
}

// hold presses and holds until the page answers, then lets go.
func (p *tab) hold(at spot, what string, answered func() bool) {
	p.t.Helper()
	if p.view.touch {
		p.touch(at)
		p.until(what, answered)
		p.lift()
		return
	}
	p.down(at)
	p.until(what, answered)
	p.up(at)
}
