//go:build !js

package browser

import (
	"testing"

	"github.com/chromedp/chromedp/kb"
)

const isQuestion = "is a sign or a digit wrong?"

// One waypoint with latitude and longitude exchanged is a question at once, with no
// verdict beside it; undo answers it, and a reload finds the question as it was and
// the page at work.
func TestMistypedWaypoint(t *testing.T) {
	t.Parallel()
	screened(t, func(t *testing.T, v view) {
		p := atSea(t, v)
		p.verdict(isCare)
		exchange := func() {
			t.Helper()
			p.section("route")
			p.unfold(".routeform")
			p.fill(css("#field-at-0-2"), "36.03 S 43.03 E", kb.Tab)
			p.verdict(isQuestion)
			p.verdict("waypoint 3 at")
			p.seesNone("nothing found forbids", "being checked again")
		}
		exchange()
		p.press(button("Undo"))
		p.verdict(isCare)
		exchange()
		p.saved("one earlier state")
		p.reload()
		p.sees(demoTitle)
		p.verdict(isQuestion)
		p.seesNone("nothing found forbids")
		p.press(button("Show waypoint 3"))
		p.press(button("Undo"))
		p.verdict(isCare)
	})
}
