package hazards

import (
	"slices"
	"strings"
	"testing"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// What a stay does not know. INVENTED waters; by hand: charted 10 m + 2 m of tide
// − 0.3 m margin − 1 m draught = 10.7 m under the keel.

// At a berth the shelter is not checked; where the wind ends before the stay does,
// the water is enough only if such waves as she goes out in (1.2 m) leave enough.
func TestBerthWhereTheWindEnds(t *testing.T) {
	for _, c := range []struct {
		name  string
		depth float64
		early bool
		want  []string
	}{
		{"all of the wind", 0.6, false, nil},                       // 0.6 + 2 − 0.3 − 1 = 1.3 m, 1 m wanted
		{"a part of it", 0.6, true, []string{"no-data clearance"}}, // 1.3 − 1.2 = 0.1 m
		{"a part of it, deep", 10, true, nil},
	} {
		p := day()
		stay := lunch(p)
		stay.Kind, stay.Until = plan.AtBerth, leaving.Add(10*time.Hour)
		if c.early {
			p.Wind = []plan.Wind{{Time: leaving.Add(-6 * time.Hour)}, {Time: leaving.Add(3 * time.Hour)}}
		} else {
			p.Wind = calmFor(leaving.Add(-12*time.Hour), leaving.Add(24*time.Hour))
		}
		r := mustCheck(t, set(depth(c.depth, 20, rectangle(89, 40, 100, 60))), p)
		var got []string
		for _, f := range r.Findings {
			if strings.HasPrefix(f.Title, "Waves at the berth") {
				got = append(got, f.Severity.String()+" "+f.Check)
			}
		}
		if strings.Join(got, ";") != strings.Join(c.want, ";") {
			t.Errorf("%s: %q, want %q; %q", c.name, got, c.want, said(r))
		}
	}
}

// A cable area that could not be read, 44 m from the anchor, may forbid one where the
// survey does not say how well things are placed; it is unknown water in the circle that
// she swings in at any rate. To a mooring it forbids nothing.
func TestWhatWasLeftOutWithinTheRode(t *testing.T) {
	for _, c := range []struct {
		kind   string
		x      float64
		catzoc int
		want   []string
	}{
		{plan.AtAnchor, 90.4, 0, []string{"no-data anchoring-rule", "no-data swing"}},
		{plan.AtAnchor, 90.4, 1, []string{"no-data swing"}},
		{plan.AtMooring, 90.4, 0, []string{"no-data swing"}},
		{plan.AtAnchor, 91, 0, nil},
	} {
		p := day()
		stay := lunch(p)
		stay.Kind, stay.RodeM = c.kind, ptr(40.0)
		p.Parts[0].Route.Points[1], stay.At = at(90, 50), at(90, 50)
		s := set()
		s.Features[2] = survey(c.catzoc, rectangle(0, 0, 100, 100))
		s.Refused = []chart.Refused{{Class: chart.CBLARE, Min: chart.CoordOf(at(c.x, 49)), Max: chart.CoordOf(at(92, 51)), Code: "E-NUM"}}
		r := mustCheck(t, s, p)
		var got []string
		for _, f := range r.Findings {
			if f.Check == plan.CheckAnchoringRule || f.Check == plan.CheckSwing {
				got = append(got, f.Severity.String()+" "+f.Check)
			}
		}
		if slices.Sort(got); !slices.Equal(got, c.want) {
			t.Errorf("%s, at %.2f: %q, want %q", c.kind, c.x, got, c.want)
		}
	}
}

// Which depth is the greatest is not known where an area about her was left out.
func TestGreatestDepthBesideWhatWasLeftOut(t *testing.T) {
	p := day()
	lunch(p)
	if r := mustCheck(t, set(), p); r.Stays[0].DepthGreatestM == nil {
		t.Fatal("the greatest depth is not known though all is charted")
	}
	s := set()
	s.Refused = []chart.Refused{{Class: chart.DEPARE, Min: chart.CoordOf(at(90.02, 49)), Max: chart.CoordOf(at(91, 51)), Code: "E-NUM"}}
	if r := mustCheck(t, s, p); r.Stays[0].DepthGreatestM != nil {
		t.Errorf("greatest depth %.2f m beside an area that was left out", *r.Stays[0].DepthGreatestM)
	}
}

// One figure for the datum of heights serves one such datum: charts with two have
// none that is sure, unless the station's levels say it. A bridge 5 m above mean
// high water springs (17); the plan's 4 m may be that of the other chart (30, HAT).
// By hand: 5 + 4 − 2 of tide − 0.3 − 3 of air draught = 3.7 m; without the 4 m −0.3 m.
func TestHeightDatumsOfTwoCharts(t *testing.T) {
	other := bareSet(area(chart.MCOVR, rectangle(200, 0, 210, 10)))
	other.Features[0].Meta, other.HeightDatum, other.Title = &chart.Meta{CatCov: 1}, 30, "INVENTED other waters"
	bridge := overheadLine(chart.BRIDGE, chart.Overhead{VerClrM: 5, VerCclM: chart.Unknown, VerCsaM: chart.Unknown, HorClrM: 30, HeightDatum: 17}, 50)
	one, err := Check(chart.New(set(bridge)), day())
	if err != nil {
		t.Fatal(err)
	}
	two, err := Check(chart.New(set(bridge), other), day())
	if err != nil {
		t.Fatal(err)
	}
	if a, b := worst(one, plan.CheckBridge), worst(two, plan.CheckBridge); a != plan.Clear || b != plan.NotClear {
		t.Errorf("one datum of heights: %s, two: %s; want clear and not-clear", a, b)
	}
}

// No margin takes her over a beacon: half the beam (1.25 m) and 1 m are kept.
func TestMarginOfNothingKeepsOffABeacon(t *testing.T) {
	p := day()
	p.Margins.MarkOffM = 0
	r := mustCheck(t, set(mark(chart.BCNSPP, chart.Mark{}, 50, 50+0.5/111.2)), p)
	if worst(r, "") != plan.NotClear {
		t.Errorf("half a metre from a beacon: %q", said(r))
	}
}

// A cardinal mark is passed on the gap between the route's end and the stay: the
// route ends 7 m north of a buoy with water to the north, and she lies south of it.
func TestCardinalOnAGap(t *testing.T) {
	p := day(at(10, 50), at(90, 50.1))
	stay := lunch(p)
	stay.At = at(90, 49.75) // 39 m on
	r := mustCheck(t, set(mark(chart.BOYCAR, chart.Mark{CatCam: 1}, 90.1, 49.9)), p)
	if worst(r, plan.CheckMark) != plan.NotClear {
		t.Errorf("%q", said(r))
	}
}
