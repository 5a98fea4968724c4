//go:build !js

package browser

import (
	"testing"

	"github.com/chromedp/chromedp/kb"
)

// noRoom closes the browser and opens the page in a new one, on a device without
// room for more: a browser that runs counts for a while on the room that it has
// found before.
func (p *tab) noRoom() *tab {
	p.t.Helper()
	at := read[string](p, "location.href")
	p.b.again()
	p.b.book.allow(`favicon\.ico|status of 404`) // what is not there names no icon
	next := p.b.blank(p.view)
	next.open(at + "nothing") // of the same origin, and stores nothing
	next.quota(1)
	next.open(at)
	next.aboard()
	return next
}

// readAll closes every message.
func (p *tab) readAll() {
	p.t.Helper()
	for n := len(p.lines(".notice")); n > 0; n = len(p.lines(".notice")) {
		p.press(button("Close this message"))
		p.until("a message to go", func() bool { return len(p.lines(".notice")) < n })
	}
}

// A device without room keeps what it had, and the page says so and goes on.
func TestNoRoomOnTheDevice(t *testing.T) {
	t.Parallel()
	screened(t, func(t *testing.T, v view) {
		p := atSea(t, v)
		p.draught("1.1")
		p.saved("one earlier state")
		p = p.noRoom()
		p.draught("1.2")
		p.listed(".notice-grave", "Not saved", "there is no room left on this device", "Export this plan to a file")
		p.section("plans")
		p.sees("Not saved: there is no room left on this device.")
		p.seesNone("Saved on this device")
		p.accessible()
		p.readAll()
		p.opened(p.file("bank.geojson", bank))
		p.listed("li.set", "INVENTED bank", "private data")
		p.listed(".notice-grave", "is in use but cannot be kept for the next time", "there is no room left")

		p.quota(0)
		p.reload()
		p.aboard()
		p.section("boat")
		p.holds(css("#field-draught"), "1.1")
		p.saved("one earlier state")
		p.section("charts")
		if n := len(p.lines("li.set")); n != 1 {
			t.Errorf("%d layer sets; the one that could not be kept is not wanted", n)
		}
		p.draught("1.3")
		p.saved("two earlier states")
	})
}

// What could not be saved is saved with the next edit, once there is room.
func TestRoomAgain(t *testing.T) {
	t.Parallel()
	p := atSea(t, desk)
	p.saved("no earlier states")
	p = p.noRoom()
	p.draught("1.2")
	p.listed(".notice-grave", "Not saved")
	p.quota(0)
	p.section("boat")
	p.fill(css("#field-cruise"), "21", kb.Tab)
	p.saved("two earlier states")
	p.reload()
	p.aboard()
	p.section("boat")
	p.holds(css("#field-draught"), "1.2")
	p.holds(css("#field-cruise"), "21")
}

// A worker that ends is started again, whether it falls silent or breaks, and
// the plan is checked as if nothing had been.
func TestWorkerEnds(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name string
		end  func(p *tab)
	}{
		{"in silence", func(p *tab) { p.killWorkers("engine.js") }},
		{"loudly", func(p *tab) {
			p.b.book.allow("broken by the test|unreachable|exit code")
			p.breakWorkers("engine.js")
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			screened(t, func(t *testing.T, v view) {
				p := atSea(t, v)
				before := p.reported()
				c.end(p)
				p.draught("1.6") // checked by nobody: the worker is no more
				p.listed(".notice-grave", "The part that checks stopped", "was started again")
				p.draught("0.9")
				p.verdict(isCare)
				sameJSON(t, "the report of the worker started again", p.reported(), before)
				p.saved("two earlier states")
			})
		})
	}
}
