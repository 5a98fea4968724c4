package hazards

import (
	"fmt"
	"math"
	"math/rand"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/facts"
	"keelroom/hazards/plan"
	"keelroom/hazards/words"
)

// The stay of these tests: 25 m of chain out. The roller is at the least 10 + 2 − 0.3 + 1
// = 12.7 m over the ground, so that the bow comes √(25² − 12.7²) = 21.53 m from the
// anchor; with 7 m of boat and 10 m for the anchor's place the circle is 38.53 m.
const (
	rodeOutM = 25
	circleM  = 38.53
)

// anchored is a day that ends at anchor in the middle of the chart, with a wind from the
// west, so that she lies between 060° and 120° of her anchor.
func anchored() (*plan.Plan, *plan.Stay) {
	p := day(at(10, 50), at(50, 50))
	stay := lunch(p)
	stay.RodeM = ptr(float64(rodeOutM))
	p.Boat.SeaLimitM, p.Margins.AnchoredSeaM, p.Margins.WindRoomDeg = 5, 5, 30
	p.Margins.WaveFraction = 0
	blow(p, 270, 10)
	return p, stay
}

// off is a place so far from the anchor on a bearing, in the units of the chart.
func offAnchor(deg, metres float64) (x, y float64) {
	q := geo.Direct(at(50, 50), deg, metres)
	return (q[0] - lon0) / unit, (q[1] - lat0) / unit
}

func placed(class chart.Class, deg, metres float64) chart.Feature {
	x, y := offAnchor(deg, metres)
	return point(class, x, y)
}

// patch is a small area about a place: a square that points at the anchor, its corners a
// metre off.
func patch(class chart.Class, deg, metres float64) chart.Feature {
	middle := geo.Direct(at(50, 50), deg, metres)
	return area(class, closed(geo.Direct(middle, deg+180, 1), geo.Direct(middle, deg-90, 1), geo.Direct(middle, deg, 1), geo.Direct(middle, deg+90, 1)))
}

func shoalAt(depthM, deg, metres float64) chart.Feature {
	f := patch(chart.DEPARE, deg, metres)
	f.DepthMinM, f.DepthMaxM = depthM, depthM+5
	return f
}

// found are the findings of the circle and of what forbids an anchor.
func foundInCircle(r *plan.Report) []string {
	var out []string
	for _, f := range r.Findings {
		if f.Check == plan.CheckSwing || f.Check == plan.CheckAnchoringRule {
			out = append(out, f.Severity.String()+" "+f.Check)
		}
	}
	slices.Sort(out)
	return out
}

func lineOff(class chart.Class, deg, metres float64) chart.Feature {
	a, b := geo.Direct(at(50, 50), deg, metres), geo.Direct(at(50, 50), deg, metres)
	a, b = geo.Direct(a, deg+90, 3), geo.Direct(b, deg-90, 3)
	return through(class, a, b)
}

// The rows of the contract (at-anchor, section 3), each where she lies, in the rest of
// the circle, and beyond it.
func TestWhatSheSwingsOnto(t *testing.T) {
	contour := func(deg, m float64) chart.Feature {
		f := lineOff(chart.DEPCNT, deg, m)
		f.DepthMinM = 0.2
		return f
	}
	dangerAt := func(d chart.Danger, valsou float64) func(deg, m float64) chart.Feature {
		return func(deg, m float64) chart.Feature {
			x, y := offAnchor(deg, m)
			return danger(chart.UWTROC, d, valsou, x, y)
		}
	}
	of := func(class chart.Class) func(deg, m float64) chart.Feature {
		return func(deg, m float64) chart.Feature { return placed(class, deg, m) }
	}
	drawn := func(class chart.Class) func(deg, m float64) chart.Feature {
		return func(deg, m float64) chart.Feature { return patch(class, deg, m) }
	}
	lined := func(class chart.Class) func(deg, m float64) chart.Feature {
		return func(deg, m float64) chart.Feature { return lineOff(class, deg, m) }
	}
	buoy := func(deg, m float64) chart.Feature {
		f := placed(chart.MORFAC, deg, m)
		f.CatMor = chart.MooringBuoy
		return f
	}
	cable := func(deg, m float64) chart.Feature {
		f := lineOff(chart.CBLOHD, deg, m)
		f.Overhead = ptr(span(1, chart.Unknown, chart.Unknown, chart.Unknown))
		return f
	}
	for _, c := range []struct {
		name         string
		f            func(deg, metres float64) chart.Feature
		reachM       float64 // beyond the circle
		sector, rest string
	}{
		// 0.3 + 2 − 0.3 − 1 = 1.0 m is enough, 0.2 m too little by a decimetre.
		{"too little water", func(deg, m float64) chart.Feature { return shoalAt(0.2, deg, m) }, 1, "not-clear swing", "care swing"},
		{"a contour", contour, 0, "not-clear swing", "care swing"},
		{"a sounding", func(deg, m float64) chart.Feature { x, y := offAnchor(deg, m); return sounding(0.2, x, y) }, 0, "not-clear swing", "care swing"},
		{"land", drawn(chart.LNDARE), 1, "not-clear swing", "care swing"},
		{"an islet", of(chart.LNDARE), 0, "not-clear swing", "care swing"},
		{"a shoreline", lined(chart.SLCONS), 0, "not-clear swing", "care swing"},
		{"a pontoon", drawn(chart.PONTON), 1, "not-clear swing", "care swing"},
		{"a beacon", of(chart.BCNSPP), 0, "not-clear swing", "care swing"},
		{"a dolphin", of(chart.MORFAC), 0, "not-clear swing", "care swing"},
		{"a cable too low", cable, 0, "not-clear swing", "care swing"},
		{"a rock without a depth", dangerAt(chart.Danger{WatLev: 3}, chart.Unknown), 10, "not-clear swing", "care swing"},
		{"a rock too shoal", dangerAt(chart.Danger{WatLev: 3}, 0.2), 10, "not-clear swing", "care swing"},
		{"unknown water", drawn(chart.UNSARE), 1, "no-data swing", "care swing"},
		{"a fairway", drawn(chart.FAIRWY), 1, "care swing", "care swing"},
		{"a separation zone", drawn(chart.TSEZNE), 1, "care swing", "care swing"},
		{"a traffic lane", drawn(chart.TSSLPT), 1, "care swing", "care swing"},
		{"a recommended track", lined(chart.RECTRC), 0, "care swing", "care swing"},
		{"a ferry's route", lined(chart.FERYRT), 0, "care swing", "care swing"},
		{"a mooring buoy", buoy, 0, "care swing", "note swing"},
		{"a buoy", of(chart.BOYSPP), 0, "care swing", "note swing"},
		{"a charted anchor berth", of(chart.ACHBRT), 0, "care swing", "note swing"},
		{"a cable", lined(chart.CBLSUB), 0, "care anchoring-rule", "care anchoring-rule"},
		{"a pipeline area", drawn(chart.PIPARE), 1, "care anchoring-rule", "care anchoring-rule"},
	} {
		t.Run(c.name, func(t *testing.T) {
			edge := circleM + c.reachM
			for _, place := range []struct {
				deg, m float64
				want   string
			}{{90, 30, c.sector}, {90, edge - 0.3, c.sector}, {90, edge + 0.5, ""}, {62, 30, c.sector}, {200, 30, c.rest}, {200, edge - 0.3, c.rest}, {200, edge + 0.5, ""}} {
				p, _ := anchored()
				got := strings.Join(foundInCircle(mustCheck(t, set(c.f(place.deg, place.m)), p)), ", ")
				if got != place.want {
					t.Errorf("%.0f° %.1f m off: %q, want %q", place.deg, place.m, got, place.want)
				}
			}
		})
	}
	p, _ := anchored()
	r := mustCheck(t, set(shoalAt(0.3, 90, 30)), p)
	if got := foundInCircle(r); got != nil {
		t.Errorf("just enough water: %q", got)
	}
	near(t, "the circle", *r.Stays[0].RadiusM, circleM, 0.01)
}

// What the rode may foul is not clear within position_m and the survey's position
// accuracy of the anchor: 10 + 6 m in zone A1, 10 + 20 in A2, 10 + 50 in B and where
// there is no useful figure.
func TestHowNearARuleCounts(t *testing.T) {
	for _, c := range []struct {
		catzoc int
		reachM float64
	}{{1, 16}, {2, 30}, {3, 60}, {4, 60}, {5, 60}, {0, 60}} {
		for _, class := range []chart.Class{chart.CBLSUB, chart.PIPSOL} {
			for _, deg := range []float64{90, 250} {
				for _, by := range []float64{-0.3, 0.5} {
					p, stay := anchored()
					stay.RodeM = ptr(120.0)
					s := set(lineOff(class, deg, c.reachM+by))
					s.Features[2] = survey(c.catzoc, rectangle(0, 0, 100, 100))
					want := "not-clear anchoring-rule"
					if by > 0 {
						want = "care anchoring-rule"
					}
					if got := strings.Join(foundInCircle(mustCheck(t, s, p)), ", "); got != want {
						t.Errorf("zone %d, %s %.1f m off on %.0f°: %q, want %q", c.catzoc, class, c.reachM+by, deg, got, want)
					}
				}
			}
		}
	}
	p, _ := anchored()
	p.Margins.PositionM = 30
	expectCircle(t, mustCheck(t, set(lineOff(chart.CBLSUB, 250, 35)), p), "not-clear anchoring-rule")
}

func expectCircle(t *testing.T, r *plan.Report, want ...string) {
	t.Helper()
	if got := foundInCircle(r); !slices.Equal(got, want) {
		t.Errorf("got  %q\nwant %q", got, want)
	}
}

// sectorOf is where she lies by the report, as text.
func sectorOf(t *testing.T, p *plan.Plan) string {
	t.Helper()
	r := mustCheck(t, set(), p)
	var out []string
	for _, a := range r.Circles[0].SectorDeg {
		out = append(out, fmt.Sprintf("%.1f-%.1f", a[0], a[1]))
	}
	return strings.Join(out, " ")
}

// Where she lies, by hand. Arriving at about 10:06, she leaves at 13:00.
func TestWhereSheLiesAboutTheAnchor(t *testing.T) {
	steady := func(from, kn float64) func(*plan.Plan) { return func(p *plan.Plan) { blow(p, from, kn) } }
	veering := func(fromA, fromB, knA, knB float64) func(*plan.Plan) {
		return func(p *plan.Plan) {
			p.Wind = []plan.Wind{{Time: leaving.Add(-3 * time.Hour), FromDeg: fromA, Kn: knA}, {Time: leaving, FromDeg: fromA, Kn: knA}, {Time: leaving.Add(3 * time.Hour), FromDeg: fromB, Kn: knB}, {Time: leaving.Add(9 * time.Hour), FromDeg: fromB, Kn: knB}}
		}
	}
	stream := func(rows ...plan.Stream) func(*plan.Plan) {
		return func(p *plan.Plan) { p.Stream = rows }
	}
	flow := func(toward, kn float64) func(*plan.Plan) {
		return stream(plan.Stream{Time: leaving.Add(-3 * time.Hour), TowardDeg: toward, Kn: kn}, plan.Stream{Time: leaving.Add(9 * time.Hour), TowardDeg: toward, Kn: kn})
	}
	const all = "0.0-360.0"
	for _, c := range []struct {
		name   string
		change []func(*plan.Plan)
		want   string
	}{
		{"steady", nil, "60.0-120.0"},
		{"over north", []func(*plan.Plan){steady(180, 10)}, "330.0-390.0"},
		{"4 kn", []func(*plan.Plan){steady(270, 4)}, "60.0-120.0"},
		{"light air", []func(*plan.Plan){steady(270, 3.9)}, all},
		{"light at its end", []func(*plan.Plan){veering(270, 270, 10, 3.9)}, all},
		{"no wind is given", []func(*plan.Plan){func(p *plan.Plan) { p.Wind = nil }}, all},
		{"the wind ends early", []func(*plan.Plan){func(p *plan.Plan) { p.Wind = p.Wind[:1]; p.Wind[0].Time = leaving.Add(-time.Hour) }}, all},
		{"more room", []func(*plan.Plan){func(p *plan.Plan) { p.Margins.WindRoomDeg = 90 }}, "0.0-180.0"},
		{"a weak stream", []func(*plan.Plan){flow(200, 0.5)}, "60.0-120.0"},
		{"a stream to the right", []func(*plan.Plan){flow(200, 0.6)}, "60.0-200.0"},
		{"a stream to the left", []func(*plan.Plan){flow(320, 0.6)}, "320.0-480.0"},
		{"a stream within the room", []func(*plan.Plan){flow(100, 2)}, "60.0-120.0"},
		{"a stream 134° off", []func(*plan.Plan){flow(224, 2)}, "60.0-224.0"},
		{"a stream against the wind", []func(*plan.Plan){flow(226, 2)}, all},
		{"a stream that ends", []func(*plan.Plan){stream(plan.Stream{Time: leaving.Add(-3 * time.Hour), TowardDeg: 90, Kn: 0.1})}, all},
		{"a stream that turns through being against it", []func(*plan.Plan){stream(plan.Stream{Time: leaving.Add(30 * time.Minute), TowardDeg: 200, Kn: 2}, plan.Stream{Time: leaving.Add(2 * time.Hour), TowardDeg: 340, Kn: 2}, plan.Stream{Time: leaving.Add(9 * time.Hour), TowardDeg: 340, Kn: 2})}, all},
	} {
		p, _ := anchored()
		for _, change := range c.change {
			change(p)
		}
		if got := sectorOf(t, p); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

// The sector against looking at every minute of the stay, the way the contract puts it.
func TestSectorAgainstEveryMinute(t *testing.T) {
	rnd := rand.New(rand.NewSource(20261128))
	sectors := 0
	for i := range 300 {
		p, _ := anchored()
		p.Wind, p.Stream = nil, nil
		from, set := rnd.Float64()*360, rnd.Float64()*360
		for h := -3; h < 9; h++ {
			from, set = geo.Bearing(from+rnd.NormFloat64()*30), geo.Bearing(set+rnd.NormFloat64()*20)
			p.Wind = append(p.Wind, plan.Wind{Time: leaving.Add(time.Duration(h) * time.Hour), FromDeg: from, Kn: 4 + rnd.Float64()*8})
			if i%2 == 0 {
				p.Stream = append(p.Stream, plan.Stream{Time: leaving.Add(time.Duration(h)*time.Hour + 20*time.Minute), TowardDeg: set, Kn: rnd.Float64() * 0.9})
			}
		}
		s := stayOn(t, p, chartSet(t))
		got := s.liesOn()
		if got.whole != 0 {
			continue
		}
		sectors++
		for at := s.stop.Arrive; at.Before(s.stop.Leave); at = at.Add(time.Minute) {
			w, _ := s.wind.At(at)
			down := w.FromDeg + 180
			must := []float64{down - p.Margins.WindRoomDeg, down, down + p.Margins.WindRoomDeg}
			if s.stream != nil {
				if st, ok := s.stream.At(at); ok && st.Kn > 0.5 {
					turn := geo.Turn(down, st.TowardDeg)
					must = append(must, down+turn, down+turn/2)
				}
			}
			for _, deg := range must {
				if !got.sector.Widened(1e-6).Holds(geo.Bearing(deg)) {
					t.Fatalf("day %d: at %v she lies on %.2f°, the sector is %v", i, at, deg, got.sector)
				}
			}
		}
	}
	if sectors < 50 {
		t.Errorf("only %d sectors", sectors)
	}
}

func chartSet(*testing.T) *chart.Set { return set() }

// What is missing is told, and what is known is judged all the same.
func TestCircleOfWhichSomethingIsMissing(t *testing.T) {
	p, _ := anchored()
	p.Boat.LengthM = nil
	r := mustCheck(t, set(shoalAt(0, 90, 20)), p)
	expectCircle(t, r, "no-data swing", "not-clear swing")
	if r.Checks[plan.CheckSwing] != plan.NoInput || r.Stays[0].RadiusM != nil || r.Stays[0].RoomM != nil || r.Stays[0].LeeRoomM != nil || len(r.Circles) > 0 {
		t.Errorf("swing %s, %+v", r.Checks[plan.CheckSwing], r.Stays[0])
	}
	p, _ = anchored()
	p.Tide = nil
	r = mustCheck(t, set(patch(chart.LNDARE, 90, 20)), p)
	expectCircle(t, r, "no-data swing", "not-clear swing")
	p, stay := anchored()
	r = mustCheck(t, set(), p)
	if r.Checks[plan.CheckSwing] != plan.Done || len(r.Circles) != 1 || *r.Circles[0].RadiusM != *r.Stays[0].RadiusM {
		t.Errorf("swing %s, circles %+v", r.Checks[plan.CheckSwing], r.Circles)
	}
	stay.Kind = plan.AtBerth
	r = mustCheck(t, set(), p)
	if r.Checks[plan.CheckSwing] != plan.NotApplicable || r.Stays[0].RadiusM != nil {
		t.Errorf("at a berth swing is %s, %+v", r.Checks[plan.CheckSwing], r.Stays[0])
	}
	// Depths above an unknown level may fail, never pass.
	p, _ = anchored()
	s := set()
	s.Features[1].Datum, s.SoundingDatum = 0, 0
	expectCircle(t, mustCheck(t, s, p), "no-data swing")
}

// 10 m of water at the lowest, 20 + 2.3 + 1 m of height at the highest: 23 m of rode do
// not reach.
func TestRodeThatDoesNotReach(t *testing.T) {
	for rode, want := range map[float64]plan.Severity{23: plan.NotClear, 23.4: plan.Clear} {
		p, stay := anchored()
		stay.RodeM = ptr(rode)
		got := plan.Clear
		for _, f := range mustCheck(t, set(), p).Findings {
			if f.Code == facts.CodeRodeTooShort {
				got = f.Severity
			}
		}
		if got != want {
			t.Errorf("%.1f m: %s, want %s", rode, got, want)
		}
	}
}

// What an echo sounding says is missing at the anchor may be missing all about: the
// chart has 10 m there, of which 1.5 m are left, and 1.5 m in a patch, of which none are.
func TestShortfallCountsInTheWholeCircle(t *testing.T) {
	p, stay := anchored()
	patch := shoalAt(1.7, 90, 30)
	expectCircle(t, mustCheck(t, set(patch), p))
	stay.SoundedM, stay.SoundedAt = ptr(10.0), ptr(leaving.Add(time.Hour)) // 2.3 m short of 12.3
	expectCircle(t, mustCheck(t, set(patch), p), "not-clear swing")
	stay.SoundedM = ptr(15.0) // never deeper than the chart
	expectCircle(t, mustCheck(t, set(shoalAt(0.2, 90, 30)), p), "not-clear swing")
}

// A mooring's circle is its own length, or 5 m, and hers; nothing that is laid on the
// ground matters to it.
func TestCircleOfAMooring(t *testing.T) {
	for _, c := range []struct{ rode, want float64 }{{0, 5 + 17}, {9, 9 + 17}} {
		p, stay := anchored()
		stay.Kind, stay.RodeM = plan.AtMooring, nil
		if c.rode > 0 {
			stay.RodeM = ptr(c.rode)
		}
		s := mustCheck(t, set(placed(chart.CBLSUB, 90, 5)), p)
		expectCircle(t, s)
		near(t, "the circle", *s.Stays[0].RadiusM, c.want, 1e-9)
	}
}

// How much room there is: to a shoal 60 m off where she lies, and dragging downwind to
// one 90 m off.
func TestRoomToSwingAndToDrag(t *testing.T) {
	p, _ := anchored()
	r := mustCheck(t, set(placed(chart.LNDARE, 65, 60), placed(chart.LNDARE, 90, 90)), p)
	expectCircle(t, r)
	near(t, "room", *r.Stays[0].RoomM, 60, 0.1)
	near(t, "lee room", *r.Stays[0].LeeRoomM, 90-circleM, 0.1)
	r = mustCheck(t, set(placed(chart.LNDARE, 65, 36)), p)
	near(t, "room where it is too little", *r.Stays[0].RoomM, 36, 0.1)
	near(t, "nothing in the way", *r.Stays[0].LeeRoomM, lookM, 0.1)
	// A boat that needs no more than that lies clear.
	p.Boat.LengthM = ptr(7 - (circleM - *r.Stays[0].RoomM) - 0.05)
	expectCircle(t, mustCheck(t, set(placed(chart.LNDARE, 65, 36)), p))
}

// The words say what she would swing onto, and how far the wind must turn for it.
func TestWordsOfTheCircle(t *testing.T) {
	p, _ := anchored()
	r := mustCheck(t, set(placed(chart.LNDARE, 180, 30)), p)
	f := finding(t, r, plan.CheckSwing)
	for _, want := range []string{"If the wind turned to N", "60° further", "swing onto land", "30 m S of the anchor"} {
		if !strings.Contains(f.Detail, want) {
			t.Errorf("%q is not in %q", want, f.Detail)
		}
	}
	if d := geo.DistanceM(f.Geometry.(orb.Point), at(50, 50)); math.Abs(d-30) > 0.1 {
		t.Errorf("the finding lies %.1f m off", d)
	}
	p.Wind = nil
	r, _ = Check(chart.New(set(placed(chart.LNDARE, 180, 30))), p)
	words.English.Fill(r, p.Zone)
	if f := finding(t, r, plan.CheckSwing); !strings.Contains(f.Detail, "the wind is not known") || f.Severity != plan.NotClear {
		t.Errorf("%s %s", f.Severity, f.Detail)
	}
}
