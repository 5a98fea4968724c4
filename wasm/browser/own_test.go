//go:build !js

package browser

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"
)

// onTheWay lies in the middle of the demo's leg from the harbour (between two
// waypoints of the way out and home, plan.geojson): a danger there is met.
var onTheWay = lonLat{(-36.0419420 + -36.0202352) / 2, (43.0010802 + 42.9824471) / 2}

// A zone and a danger of the skipper's own are drawn, given their rules, checked,
// and travel in the plan file.
func TestOwnZoneAndDangerOnScreen(t *testing.T) {
	t.Parallel()
	screened(t, func(t *testing.T, v view) {
		p := atSea(t, v)
		p.section("charts")
		p.press(button("Sketch a zone"))
		p.sees("Tap the corners of the zone.")
		p.dab(p.spots(3))
		p.press(button("Done"))
		p.sees("The zone you sketched")
		p.accessible()
		p.fill(css("#field-draft-name"), "INVENTED sanctuary", kb.Tab)
		p.press(button("Keep it"))
		p.sees("A zone without a limit and without a rule would warn of nothing")
		p.fill(css("#field-draft-limit"), "5", kb.Tab)
		p.fill(css("#field-draft-from"), "05-01", kb.Tab)
		p.press(button("Keep it"))
		p.sees("both ends of the season are wanted")
		p.fill(css("#field-draft-to"), "31.12.", kb.Tab)
		p.press(button("Keep it"))
		p.sees("is no month and day")
		p.fill(css("#field-draft-to"), "09-30", kb.Tab)
		p.press(button("Keep it"))
		p.listed("li.set", "INVENTED sanctuary")

		p.press(button("Sketch a danger"))
		p.sees("Tap where the danger is.")
		p.point(onTheWay.lon, onTheWay.lat)
		p.sees("The danger you sketched")
		// The tap that sets the danger asks the chart nothing.
		p.pause()
		if p.has(css(".place:not(.gone)")) {
			t.Error("what the charts say at the danger lies over its form")
			p.press(css(".place button:last-of-type"))
		}
		p.accessible()
		p.fill(css("#field-draft-name"), "INVENTED wreck", kb.Tab)
		p.pick(css("#field-draft-kind"), "Wreck")
		p.fill(css("#field-draft-depth"), "-0.5", kb.Tab)
		p.press(button("Keep it"))
		p.listed("li.set", "INVENTED wreck")
		p.verdict(isNotClear)
		p.section("watch")
		p.listed("li.finding-not-clear", "wreck")

		p.saved("two earlier states")
		sent := string(p.exported())
		for _, want := range []string{"INVENTED sanctuary", "--0501", "--0930", "INVENTED wreck", "WRECKS"} {
			if !strings.Contains(sent, want) {
				t.Errorf("the plan file lacks %s", want)
			}
		}
		there := atSea(t, v)
		there.section("plans")
		there.give(func() { there.press(button("Open a plan file")) }, there.file("sent.geojson", sent))
		there.verdict(isNotClear)
		there.section("charts")
		there.listed("li.set", "INVENTED sanctuary")
		there.listed("li.set", "INVENTED wreck")
		sameJSON(t, "the plan exported again", there.exported(), []byte(sent))
		there.section("charts")
		there.press(button("Delete INVENTED wreck"))
		there.verdict(isCare)
	})
}
