package hazards

import (
	"strings"
	"testing"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
)

// What was left out of a layer is told as what it is, under way and where she lies:
// no bridge, area or pile is told as a depth that is not known.
func TestWhatWasLeftOutIsToldAsWhatItIs(t *testing.T) {
	for _, c := range []struct {
		class chart.Class
		check string
		title string
	}{
		{chart.BRIDGE, plan.CheckBridge, "A bridge could not be read"},
		{chart.CBLOHD, plan.CheckBridge, "An overhead cable could not be read"},
		{chart.RESARE, plan.CheckClearance, "A restricted area could not be read"},
		{chart.MIPARE, plan.CheckClearance, "A military practice area could not be read"},
		{chart.MORFAC, plan.CheckClearance, "A mooring structure could not be read"},
		{chart.WRECKS, plan.CheckClearance, "A wreck could not be read"},
		{chart.LNDARE, plan.CheckClearance, "Land could not be read"},
		{chart.DEPARE, plan.CheckClearance, "A depth area could not be read"},
		{chart.MSDAT, plan.CheckClearance, "The datum of depths could not be read"},
		{chart.NoClass, plan.CheckClearance, "Something could not be read"},
	} {
		for _, stays := range []bool{false, true} {
			p, place := day(), left(c.class, 50, 50, 50, 50)
			if stays {
				lunch(p)
				place = left(c.class, 90, 50, 90, 50)
			}
			s := set()
			s.Refused = []chart.Refused{place}
			r := mustCheck(t, s, p)
			want := []string{"no-data " + c.check}
			if stays && maybeDeep(c.class) {
				want = append(want, "no-data chain")
			}
			expect(t, r, want...)
			f := finding(t, r, c.check)
			if f.Title != c.title || !strings.Contains(f.Detail, "features[7] of invented.geojson") || strings.Contains(f.Detail, "depth") != depthOf(c.class) {
				t.Errorf("%s: %q %q", c.class, f.Title, f.Detail)
			}
			if f.Source == nil || f.Source.Class != c.class.String() {
				t.Errorf("%s: from %+v", c.class, f.Source)
			}
		}
	}
}

func depthOf(k chart.Class) bool {
	return k == chart.DEPARE || k == chart.WRECKS || k == chart.MSDAT || k == chart.NoClass
}

// Two that were left out at one place are two findings.
func TestTwoLeftOutAtOnePlace(t *testing.T) {
	s := set()
	s.Refused = []chart.Refused{left(chart.BRIDGE, 50, 50, 50, 50), left(chart.RESARE, 50, 50, 50, 50)}
	if r := mustCheck(t, s, day()); len(r.Findings) != 2 {
		t.Errorf("%d findings %q, want two", len(r.Findings), said(r))
	}
}

// Where she lies and no depth is charted at all, nothing else is told.
func TestStayWithoutAChartedDepth(t *testing.T) {
	cover := area(chart.MCOVR, rectangle(0, 0, 100, 100))
	cover.Meta = &chart.Meta{CatCov: 1}
	p := day()
	lunch(p)
	r := mustCheck(t, bareSet(cover, survey(1, rectangle(0, 0, 100, 100))), p)
	if got := finding(t, r, plan.CheckClearance); got.Title != "Depth not known" {
		t.Errorf("%+v", got)
	}
}

// A place, and a leg for what has no place, name what was left out too.
func TestPlaceNamesWhatWasLeftOut(t *testing.T) {
	for _, c := range []struct {
		r     chart.Refused
		want  string
		known bool
	}{
		{left(chart.BRIDGE, 50, 50, 50, 50), "A bridge could not be read (E-NUM)", false},
		{left(chart.BRIDGE, 49, 49, 51, 51), "A bridge could not be read (E-NUM)", false},
		{left(chart.RESARE, 50, off(20.5), 50, off(20.5)), "A restricted area could not be read, 20 m away (E-NUM)", true},
	} {
		s := set()
		s.Refused = []chart.Refused{c.r}
		got, err := NewSession(chart.New(s)).Place(day(), at(50, 50), leaving)
		lines := strings.Join(linesOf(got), " ")
		if err != nil || !strings.Contains(lines, c.want) || strings.Contains(lines, "unknown depth") || strings.Contains(lines, "depth is not known") || (got.DepthMinM != nil) != c.known {
			t.Errorf("%v %q, depth known %v; want %q", err, lines, got.DepthMinM != nil, c.want)
		}
	}
	s := set()
	s.Refused = []chart.Refused{{Class: chart.BRIDGE, File: "invented.geojson", Index: 7, Boxless: true, Code: "E-GEOM"}}
	if f := finding(t, mustCheck(t, s, day()), plan.CheckCoverage); f.Title != "A bridge without a place could not be read" {
		t.Errorf("%q", f.Title)
	}
}
