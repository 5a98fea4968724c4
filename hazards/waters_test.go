package hazards

import (
	"fmt"
	"math"
	"slices"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
	"keelroom/hazards/words"
)

// INVENTED waters about 43°N 36°W, where no coast is. One unit is 0.001
// degrees: 81 m east, 111 m north. The chart is 100 units square, 10 to 20 m
// deep, surveyed to zone A1, its depths below lowest astronomical tide.
const (
	lon0, lat0 = -36.0, 43.0
	unit       = 0.001
	lat        = 23 // VERDAT of lowest astronomical tide
)

func at(x, y float64) orb.Point { return orb.Point{lon0 + x*unit, lat0 + y*unit} }

func closed(points ...orb.Point) []chart.Coord {
	var out []chart.Coord
	for _, p := range points {
		out = append(out, chart.CoordOf(p))
	}
	return append(out, out[0])
}

func rectangle(x0, y0, x1, y1 float64) []chart.Coord {
	return closed(at(x0, y0), at(x1, y0), at(x1, y1), at(x0, y1))
}

func area(class chart.Class, ring []chart.Coord) chart.Feature {
	f := chart.Feature{Class: class, DepthMinM: chart.Unknown, DepthMaxM: chart.Unknown}
	f.Prim, f.Coords, f.Ends = chart.Area, ring, []int32{int32(len(ring))}
	return f
}

func depth(drval1, drval2 float64, ring []chart.Coord) chart.Feature {
	f := area(chart.DEPARE, ring)
	f.DepthMinM, f.DepthMaxM = drval1, drval2
	return f
}

func ruled(ring []chart.Coord, r chart.Rules) chart.Feature {
	f := area(chart.RESARE, ring)
	f.Rules = &r
	return f
}

func point(class chart.Class, x, y float64) chart.Feature {
	f := chart.Feature{Class: class, DepthMinM: chart.Unknown, DepthMaxM: chart.Unknown}
	f.Prim, f.Coords = chart.Point, []chart.Coord{chart.CoordOf(at(x, y))}
	if class.Danger() {
		f.Danger = &chart.Danger{}
	}
	return f
}

func sounding(m, x, y float64) chart.Feature {
	f := point(chart.SOUNDG, x, y)
	f.DepthsM = []float64{m}
	return f
}

func danger(class chart.Class, d chart.Danger, valsou, x, y float64) chart.Feature {
	f := point(class, x, y)
	f.Danger, f.DepthMinM = &d, valsou
	return f
}

func through(class chart.Class, points ...orb.Point) chart.Feature {
	f := chart.Feature{Class: class, DepthMinM: chart.Unknown, DepthMaxM: chart.Unknown}
	f.Prim = chart.Line
	for _, p := range points {
		f.Coords = append(f.Coords, chart.CoordOf(p))
	}
	f.Ends = []int32{int32(len(f.Coords))}
	return f
}

func mark(class chart.Class, m chart.Mark, x, y float64) chart.Feature {
	f := point(class, x, y)
	f.Mark = &m
	return f
}

func overheadLine(class chart.Class, o chart.Overhead, x float64) chart.Feature {
	f := through(class, at(x, 0), at(x, 100))
	f.Overhead = &o
	return f
}

func span(verclr, verccl, vercsa, horclr float64) chart.Overhead {
	return chart.Overhead{VerClrM: verclr, VerCclM: verccl, VerCsaM: vercsa, HorClrM: horclr}
}

func survey(zoc int, ring []chart.Coord) chart.Feature {
	f := area(chart.MQUAL, ring)
	f.Meta = &chart.Meta{CatZoc: zoc}
	return f
}

func buoyage(region int, orient float64) chart.Feature {
	f := area(chart.MNSYS, rectangle(0, 0, 100, 100))
	f.Meta = &chart.Meta{MarSys: region, OrientDeg: orient}
	return f
}

// set is the chart with more features on it.
func set(more ...chart.Feature) *chart.Set {
	whole := rectangle(0, 0, 100, 100)
	cover := area(chart.MCOVR, whole)
	cover.Meta = &chart.Meta{CatCov: 1}
	s := bareSet(append([]chart.Feature{cover, depth(10, 20, whole), survey(1, whole)}, more...)...)
	return s
}

func bareSet(features ...chart.Feature) *chart.Set {
	for i := range features {
		features[i].Index = i
	}
	return &chart.Set{Title: "INVENTED waters", Authority: chart.Derived, Scale: 12000, SoundingDatum: lat, HeightDatum: 17, Features: features}
}

var leaving = time.Date(2026, 7, 18, 10, 0, 0, 0, time.UTC)

// day is a quiet day out along y = 50: from x = 10 to 90 at 20 kn, warm at the
// start, in a calm, with 2 m of tide all day.
func day(points ...orb.Point) *plan.Plan {
	if len(points) == 0 {
		points = []orb.Point{at(10, 50), at(90, 50)}
	}
	p := plan.New()
	p.Zone, p.ZoneName = time.UTC, "UTC"
	p.Boat.DraughtM, p.Boat.CruiseKn, p.Boat.WarmUpMin = 1, 20, 0
	p.Boat.LengthM, p.Boat.BeamM, p.Boat.AirDraughtM = ptr(7.0), ptr(2.5), ptr(3.0)
	p.Boat.Rode = &plan.Rode{ChainM: ptr(40.0), ChainKgPerM: ptr(1.4), BowRollerM: 1}
	p.Boat.Fuel = &plan.Fuel{TankL: ptr(300.0), InTankL: ptr(300.0), Burn: []plan.Burn{{Kn: 5, Lph: 6}, {Kn: 20, Lph: 45}}}
	p.Margins.BerthM = 0
	p.Tide = &plan.TideSource{Datum: lat, LevelM: ptr(2.0), HeightDatumM: ptr(4.0)}
	p.Wind = calmFor(leaving.Add(-12*time.Hour), leaving.Add(24*time.Hour))
	depart := leaving
	p.Parts = []plan.Part{{Route: &plan.Route{Name: "out", Depart: &depart, Points: points}}}
	return p
}

// lunch ends the day's route with a stay of two hours.
func lunch(p *plan.Plan) *plan.Stay {
	points := p.Parts[0].Route.Points
	stay := &plan.Stay{Name: "lunch", At: points[len(points)-1], Kind: plan.AtAnchor, Until: leaving.Add(3 * time.Hour)}
	p.Parts = append(p.Parts, plan.Part{Stay: stay})
	// Rode and anchor enough for these waters, so that nothing is to be said of them.
	p.Boat.HoldingN = ptr(1e6)
	p.Boat.Rode = &plan.Rode{ChainM: ptr(500.0), ChainKgPerM: ptr(2.2), BowRollerM: 1}
	return stay
}

// calmFor is rows of no wind from one time to another, near enough to each other
// in time to be joined.
func calmFor(from, to time.Time) []plan.Wind {
	var rows []plan.Wind
	for t := from; t.Before(to); t = t.Add(12 * time.Hour) {
		rows = append(rows, plan.Wind{Time: t})
	}
	return append(rows, plan.Wind{Time: to})
}

// windUntil makes the day's wind, steady as it begins, end so long after leaving.
func windUntil(p *plan.Plan, after time.Duration) {
	from, kn := p.Wind[0].FromDeg, p.Wind[0].Kn
	p.Wind = calmFor(p.Wind[0].Time, leaving.Add(after))
	blow(p, from, kn)
}

// blow gives the day a steady wind.
func blow(p *plan.Plan, from, kn float64) {
	for i := range p.Wind {
		p.Wind[i].FromDeg, p.Wind[i].Kn = from, kn
	}
}

func mustCheck(t testing.TB, s *chart.Set, p *plan.Plan) *plan.Report {
	t.Helper()
	return mustCheckOn(t, chart.New(s), p)
}

func mustCheckOn(t testing.TB, c *chart.Chart, p *plan.Plan) *plan.Report {
	t.Helper()
	r, err := Check(c, p)
	if err != nil {
		t.Fatal(err)
	}
	words.English.Fill(r, p.Zone)
	return r
}

// said lists findings as "severity check", sorted, each once.
func said(r *plan.Report) []string {
	var out []string
	for _, f := range r.Findings {
		out = append(out, f.Severity.String()+" "+f.Check)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

func expect(t *testing.T, r *plan.Report, want ...string) {
	t.Helper()
	slices.Sort(want)
	if got := said(r); !slices.Equal(got, want) {
		t.Errorf("got  %q\nwant %q", got, want)
		for _, f := range r.Findings {
			t.Logf("%s %s: %s %s", f.Severity, f.Check, f.Title, f.Detail)
		}
	}
}

func finding(t *testing.T, r *plan.Report, check string) plan.Finding {
	t.Helper()
	for _, f := range r.Findings {
		if f.Check == check {
			return f
		}
	}
	t.Fatalf("no finding of %s; %q", check, said(r))
	return plan.Finding{}
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.5g, want %.5g ± %v", what, got, want, tolerance)
	}
}

func describe(f plan.Finding) string {
	return fmt.Sprintf("%s %s leg %d: %s", f.Severity, f.Check, f.Leg, f.Title)
}
