package hazards

import (
	"fmt"
	"testing"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// A cardinal mark is wrong from 90° off its named side on, by the bearing from the
// mark to the nearest place of the track (plan-file contract, section 4; the sides
// from IHO S-57 App. A, CATCAM): 89° is right and 91° wrong, on either hand of all
// four. The track is laid square to the bearing, so that its nearest place lies on it.
func TestCardinalsAtARightAngle(t *testing.T) {
	const besideM, halfM = 100, 1500
	middle := at(50, 50)
	for catcam, side := range map[int]float64{1: 0, 2: 90, 3: 180, 4: 270} {
		for _, off := range []float64{-91, -89, 89, 91} {
			for _, class := range []chart.Class{chart.BOYCAR, chart.BCNCAR} {
				for _, back := range []float64{0, 180} {
					bearing := geo.Bearing(side + off)
					abeam := geo.RhumbDirect(middle, bearing, besideM)
					course := bearing + 90 + back
					p := day(geo.RhumbDirect(abeam, course+180, halfM), geo.RhumbDirect(abeam, course, halfM))
					want := []string{"not-clear mark"}
					if off == 89 || off == -89 {
						want = nil
					}
					t.Run(fmt.Sprintf("CATCAM %d %s %+.0f° course %.0f", catcam, class, off, geo.Bearing(course)), func(t *testing.T) {
						expect(t, mustCheck(t, set(mark(class, chart.Mark{CatCam: catcam}, 50, 50)), p), want...)
					})
				}
			}
		}
	}
}

// Running over a cardinal buoy is told as that, on whichever side of it she is; a
// little farther off on the right side it is a buoy that she passes too close.
func TestOverACardinal(t *testing.T) {
	for _, c := range []struct {
		northM float64 // of the mark, from the track: a south cardinal is passed on its right side
		want   string
		title  string
	}{{1, "not-clear mark", "Over a cardinal mark"}, {4, "care mark", "Close to a buoy"}, {-4, "not-clear mark", "Wrong side of a cardinal mark"}} {
		r := mustCheck(t, set(mark(chart.BOYCAR, chart.Mark{CatCam: 3}, 50, off(c.northM))), day())
		expect(t, r, c.want)
		if got := finding(t, r, plan.CheckMark).Title; got != c.title {
			t.Errorf("%.0f m north of the track: %q, want %q", c.northM, got, c.title)
		}
	}
}
