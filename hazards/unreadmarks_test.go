package hazards

import (
	"slices"
	"strings"
	"testing"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// left is the box of a refused feature of a class, units of the invented waters.
func left(class chart.Class, x0, y0, x1, y1 float64) chart.Refused {
	return chart.Refused{Class: class, File: "invented.geojson", Index: 7, Min: chart.CoordOf(at(x0, y0)), Max: chart.CoordOf(at(x1, y1)), Code: "E-NUM"}
}

// A mark that could not be read is no-data within mark_m, 200 m, of the track
// (plan-file contract, section 4, row mark), and nothing beyond: no water is
// unknown for it.
func TestMarksThatCouldNotBeRead(t *testing.T) {
	for _, c := range []struct {
		name string
		r    chart.Refused
		want []string
	}{
		{"on the track", left(chart.BOYCAR, 50, 50, 50, 50), []string{"no-data mark"}},
		{"150 m off", left(chart.BOYCAR, 50, off(150), 50, off(150)), []string{"no-data mark"}},
		{"190 m off", left(chart.BCNLAT, 50, off(-190), 50, off(-190)), []string{"no-data mark"}},
		{"210 m off", left(chart.BOYLAT, 50, off(210), 50, off(210)), nil},
		{"drawn as an area 190 m off", left(chart.BOYSPP, 45, off(190), 55, off(900)), []string{"no-data mark"}},
		{"drawn as an area 210 m off", left(chart.BOYSPP, 45, off(210), 55, off(900)), nil},
		{"drawn as an area about the whole track", left(chart.BCNISD, 1, 1, 99, 99), []string{"no-data mark"}},
		{"beside the start", left(chart.BOYSAW, 10, off(40), 10, off(40)), []string{"no-data mark"}},
		{"behind the start", left(chart.BOYSAW, 7, 50, 7, 50), nil},
		{"a light vessel", left(chart.LITVES, 50, off(150), 50, off(150)), []string{"no-data mark"}},
		{"no mark", left(chart.WRECKS, 50, off(150), 50, off(150)), nil},
		{"what may have been anything", left(chart.NoClass, 50, off(20), 50, off(20)), []string{"no-data clearance"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := set()
			s.Refused = []chart.Refused{c.r}
			r := mustCheck(t, s, day())
			expect(t, r, c.want...)
			if len(c.want) == 1 && c.want[0] == "no-data mark" {
				f := finding(t, r, plan.CheckMark)
				if f.Leg != 1 || f.Measured == nil || f.Source == nil || f.Source.Class != c.r.Class.Acronym() {
					t.Errorf("finding %+v", f)
				}
			}
		})
	}
}

// One mark is one finding, however many pieces and legs pass it.
func TestAnUnreadMarkIsToldOncePerPass(t *testing.T) {
	s := set()
	s.Refused = []chart.Refused{left(chart.BOYSPP, 30, off(50), 70, off(900))}
	if r := mustCheck(t, s, day()); len(r.Findings) != 1 {
		t.Errorf("%d findings, want one", len(r.Findings))
	}
}

// Beside a lateral mark of a channel without a direction it is no half of a gate,
// and a place close by tells of it.
func TestAnUnreadMarkIsNoGate(t *testing.T) {
	s := set(mark(chart.BOYLAT, chart.Mark{CatLam: 1}, 50, off(50)))
	s.Refused = []chart.Refused{left(chart.BOYLAT, 50, off(-50), 50, off(-50))}
	expect(t, mustCheck(t, s, day()), "no-data mark", "note mark")
	p, err := NewSession(chart.New(s)).Place(day(), at(50, off(-45)), leaving)
	if err != nil || !slices.ContainsFunc(linesOf(p), func(l string) bool { return strings.Contains(l, "could not be read") }) {
		t.Errorf("%v, %v: nothing of the mark", linesOf(p), err)
	}
}
