//go:build !js

package browser

import (
	"testing"

	"github.com/chromedp/chromedp"
)

// lonLat is a position in degrees.
type lonLat struct{ lon, lat float64 }

// Positions in the invented demo waters (web/demo).
var (
	offTheBay = lonLat{-35.9883494, 43.0081013} // the waypoint before the last of the way out (plan.geojson)
	dryBank   = lonLat{-36.0328, 43.0073}       // in the bank with DRVAL1 -3 (chart/DEPARE.geojson)
	headland  = lonLat{-36.0020, 43.0090}       // in the mainland (chart/LNDARE.geojson)
)

// A waypoint dragged where she would be aground is told while it is held.
func TestDragIntoDanger(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name  string
		where lonLat
		told  string
	}{
		{"a bank that dries", dryBank, "water under the keel"},
		{"land", headland, "land"},
	} {
		t.Run(c.name, func(t *testing.T) {
			screened(t, func(t *testing.T, v view) {
				p := atSea(t, v)
				p.press(button("Whole day"))
				from, to := p.pixel(offTheBay.lon, offTheBay.lat), p.pixel(c.where.lon, c.where.lat)
				p.grasp(from, to)
				p.until("the verdict while the waypoint is held", func() bool { return p.has(css(".verdict-not-clear")) })
				p.letGo(to)
				p.verdict(isNotClear)
				p.listed("li.finding-not-clear", "Not clear", c.told)
				p.shot("dragged-" + v.name())
				p.press(button("Undo"))
				p.verdict(isCare)
				p.until("no finding that forbids the day", func() bool { return len(p.lines("li.finding-not-clear")) == 0 })
				p.keys("z", chromedp.ModifierCtrl, chromedp.ModifierShift)
				p.verdict(isNotClear)
				p.keys("z", chromedp.ModifierCtrl)
				p.verdict(isCare)
			})
		})
	}
}

func (v view) name() string {
	if v.touch {
		return "phone"
	}
	return "desk"
}
