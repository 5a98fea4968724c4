//go:build !js

package browser

import (
	"fmt"
	"strings"
	"testing"
)

// A skipper asks where to lie, takes a place, and takes that back; then asks of a
// place on the chart why not there.
func TestWhereToLie(t *testing.T) {
	t.Parallel()
	screened(t, func(t *testing.T, v view) {
		p := atSea(t, v)
		p.section("stays")
		at := css("#panel fieldset:nth-of-type(1) [id^=field-at-]")
		before := p.value(at)
		p.press(button("Find places to lie").like())
		p.until("places to lie", func() bool { return p.has(css(".anchorage")) && !p.has(css(".lying progress")) })
		p.sees("nothing that is checked forbids to lie", "look at each place on the official chart")
		n := len(p.lines(".anchorage .title"))
		marked := read[string](p, `document.querySelector(".keelroom-chart").dataset.anchorages`)
		if marked != fmt.Sprint(n) {
			t.Errorf("%d places are listed, and %s marked on the chart", n, marked)
		}
		p.listed(".anchorage .title", "Place 1:")
		p.listed(".anchorage li", "under the keel")
		p.press(button("Lie here, at place 2"))
		p.listed(".anchorage .title", "Place 2, where the stay is now")
		p.until("the stay at another place", func() bool { return p.value(at) != before })
		p.accessible()
		p.press(button("Undo"))
		p.holds(at, before)
		p.gone(css(".anchorage"))
		if marked := read[string](p, `document.querySelector(".keelroom-chart").dataset.anchorages`); marked != "0" {
			t.Errorf("%s places are marked after going back", marked)
		}
		p.poke(p.chart().Box.middle())
		p.press(button("Lie here? Instead of").like())
		p.until("what is said of lying here", func() bool { return strings.Contains(p.words(".place"), "Lying here instead of") })
		p.listed(".liecard .title", "Lying here instead of")
		p.accessible()
	})
}
