package hazards

import (
	"slices"
	"strings"
	"testing"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// unreadOff is a mark that was left out, in a box of a metre about a place off the anchor.
func unreadOff(class chart.Class, deg, metres float64) chart.Refused {
	x, y := offAnchor(deg, metres)
	const half = 0.5 / 1620
	return left(class, x-half, y-half, x+half, y+half)
}

// A mark that could not be read may stand where she swings: nothing is known there, as
// everywhere else that was left out. How far marks matter along a leg (mark_m) has nothing
// to do with it.
func TestUnreadMarksInTheCircle(t *testing.T) {
	for _, class := range []chart.Class{chart.BCNSPP, chart.BCNLAT, chart.BOYSPP, chart.LITVES} {
		for _, c := range []struct {
			deg, metres float64
			want        []string
		}{{90, 24, []string{"no-data swing"}}, {90, circleM - 0.3, []string{"no-data swing"}}, {90, circleM + 1.5, nil}, {200, 24, []string{"care swing"}}, {200, circleM + 1.5, nil}} {
			p, _ := anchored()
			p.Margins.MarkM = 1
			s := set()
			s.Refused = []chart.Refused{unreadOff(class, c.deg, c.metres)}
			r := mustCheck(t, s, p)
			expectCircle(t, r, c.want...)
			if c.want == nil {
				continue
			}
			f := finding(t, r, plan.CheckSwing)
			if f.Source == nil || f.Source.Class != class.Acronym() || !strings.Contains(f.Detail, "a mark may stand") || !strings.Contains(f.Detail, "could not be read (E-NUM)") {
				t.Errorf("%s: %+v %s", class, f.Source, f.Detail)
			}
			if c.deg == 90 && *r.Stays[0].RoomM > c.metres+0.1 {
				t.Errorf("%s %.1f m off: room for %.1f m", class, c.metres, *r.Stays[0].RoomM)
			}
		}
	}
	// A box about the anchor, and one of many kilometres that only an edge of comes close.
	for _, box := range []chart.Refused{left(chart.BCNSPP, 45, 45, 55, 55), left(chart.BCNSPP, 50.01, 1, 99, 99)} {
		p, _ := anchored()
		s := set()
		s.Refused = []chart.Refused{box}
		if got := foundInCircle(mustCheck(t, s, p)); !slices.Contains(got, "no-data swing") {
			t.Errorf("%v: %q", box, got)
		}
	}
}

// Nor is a place offered beside one.
func TestNoPlaceBesideAnUnreadMark(t *testing.T) {
	for metres, clear := range map[float64]bool{24: false, 300: true} {
		p, stay := anchored()
		p.Margins.MarkM, stay.RodeM = 1, nil
		p.Boat.Rode = &plan.Rode{ChainM: ptr(200.0), ChainKgPerM: ptr(2.4), BowRollerM: 1} // a circle of some 133 m
		s := set()
		s.Refused = []chart.Refused{unreadOff(chart.BCNSPP, 90, metres)}
		l, err := NewSession(chart.New(s)).Lying(p, *stay, leaving.Add(time.Hour))
		if err != nil {
			t.Fatal(err)
		}
		lie, err := l.At(at(50, 50))
		if err != nil || (lie.Worst < plan.NoData) != clear {
			t.Errorf("%.0f m off: %s, %v", metres, lie.Worst, err)
		}
	}
}

// An isolated danger mark stands or floats on the danger it warns of: it is kept off by
// hazard_m, 10 m here, and does not give way.
func TestIsolatedDangerMarksInTheCircle(t *testing.T) {
	for _, class := range []chart.Class{chart.BOYISD, chart.BCNISD} {
		for _, c := range []struct {
			deg, metres float64
			want        []string
		}{{90, 25, []string{"not-clear swing"}}, {90, circleM + 9.7, []string{"not-clear swing"}}, {90, circleM + 10.5, nil}, {200, 25, []string{"care swing"}}} {
			p, _ := anchored()
			r := mustCheck(t, set(placed(class, c.deg, c.metres)), p)
			expectCircle(t, r, c.want...)
			if c.want != nil {
				if f := finding(t, r, plan.CheckSwing); !strings.Contains(f.Detail, "which marks a danger that lies under it") {
					t.Errorf("%s: %s", class, f.Detail)
				}
			}
		}
	}
}

// Between two rows that lie nearly opposite, the wind may go either way round: the longer
// way is the shorter one if it shifts by wind_room_deg, 30 degrees here.
func TestWindThatMayGoEitherWayRound(t *testing.T) {
	for _, c := range []struct {
		to    float64
		whole bool
	}{{149, false}, {150, true}, {179, true}, {180, true}, {181, true}, {210, true}, {211, false}} {
		for _, stream := range []bool{false, true} { // its rows lie between those of the wind
			p, _ := anchored()
			p.Wind = []plan.Wind{{Time: leaving.Add(-time.Hour), FromDeg: 0, Kn: 10}, {Time: leaving.Add(3 * time.Hour), FromDeg: c.to, Kn: 10}, {Time: leaving.Add(9 * time.Hour), FromDeg: c.to, Kn: 10}}
			for h := -1; stream && h < 10; h++ {
				p.Stream = append(p.Stream, plan.Stream{Time: leaving.Add(time.Duration(h)*time.Hour + 30*time.Minute), TowardDeg: 90, Kn: 0.1})
			}
			if got := sectorOf(t, p) == "0.0-360.0"; got != c.whole {
				t.Errorf("0 to %.0f degrees: all round is %v, want %v", c.to, got, c.whole)
			}
		}
	}
	p, _ := anchored()
	p.Wind = []plan.Wind{{Time: leaving.Add(-time.Hour), FromDeg: 0, Kn: 10}, {Time: leaving.Add(3 * time.Hour), FromDeg: 180, Kn: 10}, {Time: leaving.Add(9 * time.Hour), FromDeg: 180, Kn: 10}}
	for _, deg := range []float64{90, 270} {
		r := mustCheck(t, set(placed(chart.LNDARE, deg, 30)), p)
		expectCircle(t, r, "not-clear swing")
		if f := finding(t, r, plan.CheckSwing); !strings.Contains(f.Detail, "which way round is not known") {
			t.Error(f.Detail)
		}
	}
}
