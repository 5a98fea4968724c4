package hazards

import (
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/plan"
	"keelroom/testdata/beside"
)

// The traps named in the README of the real charts (NOAA US5MA12M, see there
// for its licence), each as a skipper would run into it: a leg over the thing.

// over is a plan whose only leg passes a place on a course, 300 m to each side.
func over(base *plan.Plan, p orb.Point, course float64) *plan.Plan {
	q := *base
	q.Berths = nil
	q.Margins.BerthM = 0
	route := *base.Parts[0].Route
	route.SpeedsKn = nil
	route.Points = []orb.Point{geo.RhumbDirect(p, course+180, 300), geo.RhumbDirect(p, course, 300)}
	q.Parts = []plan.Part{{Route: &route}}
	return &q
}

func TestTrapsOfRealCharts(t *testing.T) {
	s := loadFolder(t, beside.File(t, "charts", "US5MA12M", "geojson"))
	base := readPlan(t, "testdata", "plans", "roads-day.geojson")
	session := NewSession(chart.New(s))
	rocks, islets := 0, 0
	for i := range s.Features {
		f := &s.Features[i]
		if f.Prim != chart.Point {
			continue
		}
		want := ""
		switch {
		case f.Class == chart.UWTROC && f.Danger.WatLev == 4 && !chart.Known(f.DepthMinM):
			rocks++
			want = plan.CheckHazard
		case f.Class == chart.LNDARE:
			islets++
			want = plan.CheckLand
		default:
			continue
		}
		r, err := session.Check(over(base, f.Coords[0].Position(), float64(i%360)))
		if err != nil {
			t.Fatal(err)
		}
		if worst(r, want) != plan.NotClear {
			t.Errorf("%s features[%d] at %v: %s is %s, want not-clear", f.File, f.Index, f.Coords[0].Position(), want, worst(r, want))
		}
	}
	// Counts of the README: 474 of 516 rocks, 258 of 285 land areas.
	if rocks != 474 || islets != 258 {
		t.Errorf("%d rocks and %d islets, the README counts 474 and 258", rocks, islets)
	}
}

// Contours are rounded fathoms (1.8, 3.6, 5.4 m): a boat that needs 2.0 m must
// not pass on the 1.8 m band though the next is 3.6 m.
func TestNeedBetweenRoundedFathoms(t *testing.T) {
	s := loadFolder(t, beside.File(t, "charts", "US5MA12M", "geojson"))
	base := readPlan(t, "testdata", "plans", "roads-day.geojson")
	base.Tide = &plan.TideSource{Datum: 12, LevelM: ptr(0.3)} // the margin: no help
	base.Boat.DraughtM, base.Margins.UnderKeelM, base.Boat.CruiseKn = 1.5, 0.5, 2
	base.Boat.HumpM, base.Margins.WaveFraction = 0, 0
	session := NewSession(chart.New(s))
	query := chart.New(s).NewQuery()
	tried := 0
	for i := range s.Features {
		f := &s.Features[i]
		if f.Class != chart.DEPARE || f.DepthMinM != 1.8 || tried == 40 {
			continue
		}
		p, ok := inside(query, f)
		if !ok {
			continue
		}
		tried++
		r, err := session.Check(over(base, p, 90))
		if err != nil {
			t.Fatal(err)
		}
		if worst(r, plan.CheckClearance) != plan.NotClear {
			t.Errorf("a leg through a 1.8 m band at %v passes with 2.0 m needed", p)
		}
	}
	if tried < 20 {
		t.Errorf("only %d bands tried", tried)
	}
}

// inside finds a place in an area, near one of its vertices.
func inside(q *chart.Query, f *chart.Feature) (orb.Point, bool) {
	for _, c := range f.Coords[:min(len(f.Coords), 50)] {
		for course := 0.0; course < 360; course += 45 {
			p := geo.RhumbDirect(c.Position(), course, 3)
			for _, g := range q.AreasAt(p) {
				if g.Class == f.Class && g.Index == f.Index && g.File == f.File {
					return p, true
				}
			}
		}
	}
	return orb.Point{}, false
}

// Every leg that ends outside the cell's coverage is told so.
func TestEdgeOfARealChart(t *testing.T) {
	s := loadFolder(t, beside.File(t, "charts", "hull"))
	base := readPlan(t, "testdata", "plans", "roads-day.geojson")
	session := NewSession(chart.New(s))
	for _, p := range []orb.Point{{-70.86, 42.312}, {-70.96, 42.312}, {-70.91, 42.325}, {-70.91, 42.30}} {
		r, err := session.Check(over(base, p, 45))
		if err != nil {
			t.Fatal(err)
		}
		if worst(r, plan.CheckCoverage) != plan.NoData {
			t.Errorf("over the edge at %v: coverage is %s", p, worst(r, plan.CheckCoverage))
		}
	}
}

// The track over every buoy and beacon of a real chart, half a metre off it: a buoy
// is care at least, a beacon not clear. By its GeoJSON files
// US5MA12M has 65 BOYLAT, 19 BOYSPP, 3 BCNLAT and 9 BCNSPP.
func TestOverEveryRealMark(t *testing.T) {
	s := loadFolder(t, beside.File(t, "charts", "US5MA12M", "geojson"))
	base := readPlan(t, "testdata", "plans", "roads-day.geojson")
	session := NewSession(chart.New(s))
	buoys, beacons := 0, 0
	for i := range s.Features {
		f := &s.Features[i]
		if !f.Class.Mark() {
			continue
		}
		course := float64(i % 360)
		want := []plan.Severity{plan.NotClear}
		if f.Class.Beacon() {
			beacons++
		} else {
			buoys++
			want = append(want, plan.Care) // a cardinal may be not clear by its side
		}
		r, err := session.Check(over(base, geo.Direct(f.Coords[0].Position(), course+90, 0.5), course))
		if err != nil {
			t.Fatal(err)
		}
		if got := worstAbout(r, f.Class.String(), plan.CheckMark); !slices.Contains(want, got) {
			t.Errorf("%s %s features[%d] at %v: %s, want one of %v", f.Class, f.File, f.Index, f.Coords[0].Position(), got, want)
		}
	}
	if buoys != 65+19 || beacons != 3+9 {
		t.Errorf("%d buoys and %d beacons", buoys, beacons)
	}
}

// worstAbout is the worst that a check says of things of a class.
func worstAbout(r *plan.Report, class, check string) plan.Severity {
	worst := plan.Note
	for _, f := range r.Findings {
		if f.Check == check && f.Source != nil && f.Source.Class == class {
			worst = worst.Worse(f.Severity)
		}
	}
	return worst
}
