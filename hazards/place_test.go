package hazards

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/hazards/words"
)

// linesOf is what is said of a place.
func linesOf(p Place) []string { return words.English.For(nil, leaving).Others(p.Found) }

// A private layer, or a cell that its producer cancelled, is no depth to go by where no
// chart reaches (layer-profile.md, Priority), and where one reaches only a warning.
func TestPlaceOnNoChart(t *testing.T) {
	at := orb.Point{-36, 43}
	area := func(title string, authority chart.Authority, depth, side float64) *chart.Set {
		c := func(lon, lat float64) chart.Coord { return chart.CoordOf(orb.Point{lon, lat}) }
		ring := []chart.Coord{c(at[0]-side, at[1]-side), c(at[0]+side, at[1]-side), c(at[0]+side, at[1]+side), c(at[0]-side, at[1]+side), c(at[0]-side, at[1]-side)}
		of := func(class chart.Class) chart.Feature {
			return chart.Feature{Class: class, Geometry: chart.Geometry{Prim: chart.Area, Coords: ring, Ends: []int32{5}}, DepthMinM: depth, DepthMaxM: depth + 5}
		}
		covr := of(chart.MCOVR)
		covr.Meta = &chart.Meta{CatCov: 1}
		return &chart.Set{Title: title, Authority: authority, SoundingDatum: 23, Features: []chart.Feature{of(chart.DEPARE), covr}}
	}
	cancelled := area("OLD.000 (cancelled)", chart.Private, 9, 0.01)
	cancelled.Cancelled = "OLD.003"
	elsewhere := area("INVENTED chart", chart.Derived, 4, 0.001)
	for i := range elsewhere.Features {
		for k := range elsewhere.Features[i].Coords {
			elsewhere.Features[i].Coords[k].Lon += 1e7
		}
	}
	hole := area("INVENTED chart", chart.Derived, 4, 0.01)
	hole.Features = hole.Features[1:] // coverage without a depth
	for _, c := range []struct {
		name string
		sets []*chart.Set
		want []string
		min  float64 // 0 none
	}{
		{"where no chart reaches", []*chart.Set{cancelled, elsewhere}, []string{"No chart reaches here.", `"OLD.000 (cancelled)", which its producer cancelled`}, 0},
		{"in a hole of the chart", []*chart.Set{cancelled, hole}, []string{"No depth is charted here.", `"OLD.000 (cancelled)", which its producer cancelled`}, 0},
		{"alone", []*chart.Set{cancelled}, []string{"Charted depth 9.0", "which its producer cancelled"}, 9},
		{"beside a shoaler chart", []*chart.Set{cancelled, area("INVENTED chart", chart.Derived, 4, 0.01)}, []string{"Charted depth 4.0"}, 4},
		{"beside a deeper chart", []*chart.Set{cancelled, area("INVENTED chart", chart.Derived, 12, 0.01)}, []string{"which its producer cancelled and is no chart in force has 9.0", "less than the chart"}, 9},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := NewSession(chart.New(c.sets...)).Place(nil, at, time.Now())
			lines := strings.Join(linesOf(got), " ")
			for _, want := range c.want {
				if err != nil || !strings.Contains(lines, want) {
					t.Errorf("%v, %q; want %q", err, lines, want)
				}
			}
			if c.min == 0 && got.DepthMinM != nil || c.min > 0 && (got.DepthMinM == nil || *got.DepthMinM != c.min) {
				t.Errorf("depth %v, want %v", got.DepthMinM, c.min)
			}
		})
	}
}

// What the charts say: the demo's harbour entrance, land, and outside.
func TestPlace(t *testing.T) {
	s := NewSession(chart.New(demoChart(t)))
	p := readPlan(t, "web", "demo", "plan.geojson")
	depart := *p.Parts[0].Route.Depart
	in, err := s.Place(p, p.Parts[0].Route.Points[6], depart)
	if err != nil || in.DepthMinM == nil || in.TideM == nil || in.WaterM == nil {
		t.Fatalf("%+v %v", in, err)
	}
	if *in.WaterM > *in.DepthMinM+*in.TideM {
		t.Errorf("%.2f m of water over a charted %.2f m with %.2f m of tide", *in.WaterM, *in.DepthMinM, *in.TideM)
	}
	none, err := s.Place(nil, orb.Point{0, 0}, depart)
	if err != nil || none.DepthMinM != nil || none.WaterM != nil || !strings.Contains(strings.Join(linesOf(none), " "), "No chart reaches here") {
		t.Errorf("outside: %+v %v", none, err)
	}
	land := 0
	for _, f := range s.base.Features() {
		if f.Class == chart.LNDARE && f.Prim == chart.Area {
			at, _ := s.Place(p, f.Coords[0].Position(), depart)
			if strings.Contains(strings.ToLower(strings.Join(linesOf(at), " ")), "land") {
				land++
			}
		}
	}
	if land == 0 {
		t.Error("no land where land is charted")
	}
	for _, f := range s.base.Features() {
		if f.UnknownWater() && f.Prim == chart.Area && f.Class == chart.UNSARE {
			at, _ := s.Place(p, middle(f), depart)
			if at.WaterM != nil || !strings.Contains(strings.Join(linesOf(at), " "), "not known") {
				t.Errorf("unsurveyed water is given as %.1f m: %v", *at.WaterM, linesOf(at))
			}
		}
	}
	t.Log(strings.Join(linesOf(in), "\n"))
}

// middle is the middle of a feature's box.
func middle(f *chart.Feature) orb.Point {
	b := orb.Bound{Min: f.Coords[0].Position(), Max: f.Coords[0].Position()}
	for _, c := range f.Coords {
		b = b.Extend(c.Position())
	}
	return b.Center()
}

// What stands, floats or hangs at a place is told by what it is, with all of its
// clearances; so are waters set aside.
func TestPlaceNamesThings(t *testing.T) {
	bridge := overheadLine(chart.BRIDGE, span(20, 2, chart.Unknown, 10), 50)
	dolphin := point(chart.MORFAC, 50, 50)
	dolphin.CatMor = 1
	crane := point(chart.CRANES, 50, 50)
	crane.Overhead = &chart.Overhead{VerClrM: 7, VerCclM: chart.Unknown, VerCsaM: chart.Unknown}
	beacon := through(chart.BCNSPP, at(50, 50), at(50, 51))
	beacon.Mark = &chart.Mark{}
	for _, c := range []struct {
		f    chart.Feature
		want []string
	}{
		{bridge, []string{"clearance 20.0 m, clearance when closed 2.0 m above"}},
		{dolphin, []string{"A dolphin"}},
		{crane, []string{"A crane", "clearance 7.0 m above"}},
		{beacon, []string{"A beacon."}},
		{mark(chart.BOYLAT, chart.Mark{}, 50, 50), []string{"A lateral buoy."}},
		{point(chart.WATTUR, 50, 50), []string{"Broken water."}},
		{area(chart.MIPARE, rectangle(40, 40, 60, 60)), []string{"A military practice area."}},
		{ruled(rectangle(40, 40, 60, 60), chart.Rules{Restrn: chart.CodesOf(16), CatRea: chart.CodesOf(12)}), []string{"discharging prohibited, the safety zone of an aid to navigation"}},
	} {
		got, err := NewSession(chart.New(set(c.f))).Place(nil, at(50, 50), leaving)
		lines := strings.Join(linesOf(got), " ")
		for _, want := range c.want {
			if err != nil || !strings.Contains(lines, want) {
				t.Errorf("%s: %v, %q; want %q", c.f.Class, err, lines, want)
			}
		}
	}
}

// Nothing is told as minus nothing: a tide 4 cm below its datum, a bottom just at the
// water, a rock that dries by nothing.
func TestNoMinusBeforeNothing(t *testing.T) {
	p := day()
	p.Tide.LevelM, p.Margins.TideM = ptr(-0.04), 0
	rock := danger(chart.UWTROC, chart.Danger{WatLev: 5}, math.Copysign(0, -1), 50, 50)
	rock.Doubtful = true
	nearly := danger(chart.UWTROC, chart.Danger{WatLev: 5}, -1e-12, 50, 50)
	for _, f := range []chart.Feature{depth(0.04, 20, rectangle(40, 40, 60, 60)), depth(math.Copysign(0, -1), 20, rectangle(40, 40, 60, 60)), rock, nearly} {
		got, err := NewSession(chart.New(set(f))).Place(p, at(50, 50), leaving)
		text := strings.Join(linesOf(got), " ")
		for _, f := range mustCheck(t, set(f), p).Findings {
			text += " " + f.Title + " " + f.Detail
		}
		if err != nil || strings.Contains(text, "-0.0 m") {
			t.Errorf("%v %q", err, text)
		}
	}
}
