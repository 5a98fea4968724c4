package hazards

import (
	"math/rand"
	"slices"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/plan"
	"keelroom/testdata/beside"
)

// findingsOf lists the findings of a check.
func findingsOf(r *plan.Report, check string) []plan.Finding {
	return slices.DeleteFunc(slices.Clone(r.Findings), func(f plan.Finding) bool { return f.Check != check })
}

// apartReport is the report with every finding by itself.
func apartReport(t testing.TB, s *Session, p *plan.Plan) *plan.Report {
	t.Helper()
	everyFinding = true
	defer func() { everyFinding = false }()
	return check(t, s, p)
}

// A bank of 400 m (x 48 to 52, 8 m a hundredth of the unit, 111 m of track a unit
// north, 81 m a unit east at 43° N) on a route whose legs are 20 m long is one
// finding that runs from one end to the other.
func TestOneBankOverShortLegs(t *testing.T) {
	// A unit of x is 0.001° of longitude: 81.4 m at 43° N.
	s := set(depth(0.5, 5, rectangle(47.5, 0, 52.5, 100)))
	points := []orb.Point{at(40, 50)}
	for x := 40.25; x <= 60; x += 0.25 {
		points = append(points, at(x, 50))
	}
	r := mustCheck(t, s, day(points...))
	banks := findingsOf(r, plan.CheckClearance)
	if len(banks) != 1 {
		t.Fatalf("%d findings of the water, want one", len(banks))
	}
	bank := banks[0]
	if whole := geo.DistanceM(firstOf(bank.Geometry), lastOf(bank.Geometry)); whole < 400 || whole > 500 {
		t.Errorf("the finding is %.0f m long, the bank 407 m and the corridor 25 m more at each end", whole)
	}
	if n := len(bank.Also); n < 19 || n > 24 {
		t.Errorf("%d more legs are named, 407 m of 20 m legs are 20 or 21 and the corridor's two", n)
	}
	for i := 1; i < len(bank.Also); i++ {
		if bank.Also[i].Leg != bank.Also[i-1].Leg+1 {
			t.Errorf("leg %d after %d", bank.Also[i].Leg, bank.Also[i-1].Leg)
		}
	}
}

// Out and home over one bar is one finding with both times. The first place gives
// its place and time, the lowest water the words: the tide falls 1 m between.
func TestOutAndHomeIsOnce(t *testing.T) {
	p := day(at(10, 50), at(90, 50), at(10, 50))
	p.Boat.CruiseKn = 7
	p.Boat.Fuel.Burn[0].Kn = 7
	p.Tide = &plan.TideSource{Datum: lat}
	for i, hour := range []int{-12, -3, 4, 10, 17} {
		p.Tide.Events = append(p.Tide.Events, plan.TideEvent{Time: leaving.Add(time.Duration(hour) * time.Hour), HeightM: float64(i % 2 * 3)})
	}
	s := set(depth(0, 5, rectangle(60, 0, 61, 100)))
	apart := findingsOf(apartReport(t, NewSession(chart.New(s)), p), plan.CheckClearance)
	once := findingsOf(mustCheck(t, s, p), plan.CheckClearance)
	if len(apart) != 2 || len(once) != 1 {
		t.Fatalf("%d findings apart and %d together, want 2 and 1", len(apart), len(once))
	}
	f := once[0]
	if f.Leg != 1 || !f.Time.Equal(*apart[0].Time) || len(f.Also) != 1 || f.Also[0].Leg != 2 || !f.Also[0].Time.Equal(*apart[1].Time) {
		t.Errorf("leg %d at %v, also %v; want leg 1 at %v and leg 2 at %v", f.Leg, f.Time, f.Also, apart[0].Time, apart[1].Time)
	}
	if *apart[1].Measured >= *apart[0].Measured || *f.Measured != *apart[1].Measured {
		t.Errorf("%.2f m of %.2f and %.2f is told, want the less", *f.Measured, *apart[0].Measured, *apart[1].Measured)
	}
	if len(f.Windows) == 0 {
		t.Fatalf("no windows: %v, of: %s", f.Windows, f.Detail)
	}
	for _, w := range f.Windows {
		for _, a := range apart {
			if !slices.ContainsFunc(a.Windows, func(v [2]time.Time) bool { return !v[0].After(w[0]) && !v[1].Before(w[1]) }) {
				t.Errorf("the window %v is in none of %v", w, a.Windows)
			}
		}
	}
}

func TestWindowsOfSeveralPlaces(t *testing.T) {
	h := func(hour int) time.Time { return leaving.Add(time.Duration(hour) * time.Hour) }
	w := func(hours ...int) [][2]time.Time {
		out := [][2]time.Time{}
		for i := 0; i < len(hours); i += 2 {
			out = append(out, [2]time.Time{h(hours[i]), h(hours[i+1])})
		}
		return out
	}
	if got := inBoth(w(0, 3, 6, 9), w(2, 7)); !slices.Equal(got, w(2, 3, 6, 7)) {
		t.Errorf("0-3 and 6-9 with 2-7: %v", got)
	}
	if inBoth(nil, w(0, 1)) != nil || inBoth(w(0, 1), nil) != nil {
		t.Error("a list that is not known became known")
	}
	items := []item{}
	for _, v := range [][][2]time.Time{w(0, 3), w(2, 5), w(8, 9), w(), nil} {
		items = append(items, item{Finding: &plan.Finding{Windows: v}})
	}
	// 0-3 and 2-5 share 2-3; 8-9 shares nothing with that and stays apart; what is
	// never clear, and what is not known, joins the first.
	if got := apart(items, []int{0, 1, 2, 3, 4}); len(got) != 2 || !slices.Equal(got[0], []int{0, 1, 3, 4}) || !slices.Equal(got[1], []int{2}) {
		t.Errorf("parts %v", got)
	}
}

// Two charts of one place double nothing: the same cell twice, and a second chart
// that shows the same things a few metres off.
func TestTwoChartsDoubleNothing(t *testing.T) {
	features := func(off float64) []chart.Feature {
		rule := ruled(rectangle(20, 40+off, 30, 60+off), chart.Rules{Restrn: chart.CodesOf(8)})
		rule.Name = "INVENTED range"
		return []chart.Feature{rule, danger(chart.UWTROC, chart.Danger{WatLev: 4}, chart.Unknown, 50, 50+off),
			area(chart.PONTON, rectangle(70, 49.9+off, 71, 50.1+off)), mark(chart.BOYCAR, chart.Mark{CatCam: 1}, 80, 50.5+off)}
	}
	one := mustCheckOn(t, chart.New(set(features(0)...)), day())
	same := mustCheckOn(t, chart.New(set(features(0)...), set(features(0)...)), day())
	beside := mustCheckOn(t, chart.New(set(features(0)...), set(features(0.1)...)), day()) // 11 m north
	for name, r := range map[string]*plan.Report{"twice": same, "11 m off": beside} {
		if len(r.Findings) != len(one.Findings) || r.Verdict != one.Verdict {
			t.Errorf("%s: %d findings, %d on one chart", name, len(r.Findings), len(one.Findings))
			for _, f := range r.Findings {
				t.Log(describe(f), f.Detail)
			}
		}
	}
	far := features(0)
	far[3].Coords[0] = chart.CoordOf(at(80, 50.5+0.9)) // 100 m from the first: another mark
	if r := mustCheckOn(t, chart.New(set(features(0)...), set(far...)), day()); len(findingsOf(r, plan.CheckMark)) != 2 {
		t.Errorf("two marks 100 m apart: %d findings", len(findingsOf(r, plan.CheckMark)))
	}
}

// A bridge that is too low and too narrow is told as both.
func TestTooLowAndTooNarrow(t *testing.T) {
	r := mustCheck(t, set(overheadLine(chart.BRIDGE, span(1.7, chart.Unknown, chart.Unknown, 4.4), 50)), day())
	found := findingsOf(r, plan.CheckBridge)
	if len(found) != 1 {
		t.Fatalf("%d findings, want one of the one bridge", len(found))
	}
	text := found[0].Title + " " + found[0].Detail
	for _, want := range []string{"Too little room overhead", "Too narrow", "1.70 m above", "4.4 m between"} {
		if !containsText(text, want) {
			t.Errorf("no %q in %q", want, text)
		}
	}
}

// An area without words and without a rule is listed on the legs that enter it.
func TestAreasPassedThrough(t *testing.T) {
	silent, words := area(chart.CTNARE, rectangle(40, 40, 60, 60)), area(chart.PRCARE, rectangle(20, 40, 30, 60))
	silent.Name, words.Info = "INVENTED water", "INVENTED words"
	r := mustCheck(t, set(silent, words), day(at(10, 50), at(45, 50), at(55, 50), at(90, 50), at(90, 60)))
	expect(t, r, "note no-entry")
	for i, want := range []int{1, 1, 1, 0} {
		if got := r.Legs[i].Passes; len(got) != want || want == 1 && (got[0].Class != "CTNARE" || got[0].Name != "INVENTED water") {
			t.Errorf("leg %d passes through %v, want %d areas", i+1, got, want)
		}
	}
}

func containsText(text, want string) bool {
	for i := 0; i+len(want) <= len(text); i++ {
		if text[i:i+len(want)] == want {
			return true
		}
	}
	return false
}

// Putting findings together hides nothing: on random days over the demo and over
// the real charts, with stays and long and short legs, the verdict and every figure
// are those of the findings apart, each check has the same worst severity, and each
// finding has one that tells its check, severity, leg and time.
func TestOnceHidesNothing(t *testing.T) {
	demo := demoChart(t)
	hull := loadFolder(t, beside.File(t, "charts", "hull"))
	base := readPlan(t, "testdata", "plans", "roads-day.geojson")
	for _, c := range []struct {
		set   *chart.Set
		plans []*plan.Plan
	}{{demo, randomDays(t, demo, readPlan(t, "web", "demo", "plan.geojson"), 40)}, {hull, randomDays(t, hull, base, 20)}} {
		session := NewSession(chart.New(c.set))
		fewer, findings := 0, 0
		for i, p := range c.plans {
			apart, once := apartReport(t, session, p), check(t, session, p)
			if apart.Verdict != once.Verdict {
				t.Errorf("day %d: %s apart, %s together", i, apart.Verdict, once.Verdict)
			}
			for _, name := range plan.CheckNames() {
				if a, b := worst(apart, name), worst(once, name); a != b {
					t.Errorf("day %d: %s is %s apart, %s together", i, name, a, b)
				}
			}
			for k := range apart.Findings {
				if f := &apart.Findings[k]; !slices.ContainsFunc(once.Findings, func(g plan.Finding) bool { return tells(&g, f) }) {
					t.Errorf("day %d: nothing tells of %s at %v", i, describe(*f), f.Time)
				}
			}
			fewer, findings = fewer+len(apart.Findings)-len(once.Findings), findings+len(apart.Findings)
			apart.Findings, once.Findings = nil, nil
			if string(apart.Encode(p.Zone)) != string(once.Encode(p.Zone)) {
				t.Errorf("day %d: the rest of the report differs", i)
			}
		}
		t.Logf("%d of %d findings need not be told again", fewer, findings)
		if fewer == 0 {
			t.Error("nothing was put together, so nothing was tested")
		}
	}
}

// tells tells whether one finding holds for the place and time of another, and says
// no better of it.
func tells(g, f *plan.Finding) bool {
	// A note may be told with the care that the same thing wants at another time.
	if g.Check != f.Check || g.Severity != f.Severity && (f.Severity != plan.Note || !containsText(g.Title+g.Detail, f.Title)) {
		return false
	}
	if g.Severity == f.Severity && g.Title == f.Title && beyond(g) < beyond(f) {
		return false
	}
	if f.Windows == nil && g.Windows != nil {
		return false
	}
	for _, w := range g.Windows {
		if f.Windows != nil && !slices.ContainsFunc(f.Windows, func(v [2]time.Time) bool { return !v[0].After(w[0]) && !v[1].Before(w[1]) }) {
			return false
		}
	}
	here := func(leg int, at *time.Time) bool {
		return leg == f.Leg && (at == nil) == (f.Time == nil) && (at == nil || at.Sub(*f.Time).Abs() < 2*time.Second)
	}
	return here(g.Leg, g.Time) || slices.ContainsFunc(g.Also, func(p plan.Passing) bool { return here(p.Leg, p.Time) })
}

// randomDays go out over a chart's waters, lie somewhere, and come home another way
// or the same, in legs of 30 m to some miles.
func randomDays(t testing.TB, s *chart.Set, base *plan.Plan, n int) []*plan.Plan {
	t.Helper()
	b, _ := chart.New(s).Bounds()
	rnd := rand.New(rand.NewSource(20260719))
	place := func() orb.Point {
		return orb.Point{b.Min[0] + (0.05+0.9*rnd.Float64())*(b.Max[0]-b.Min[0]), b.Min[1] + (0.05+0.9*rnd.Float64())*(b.Max[1]-b.Min[1])}
	}
	var out []*plan.Plan
	for range n {
		p := *base
		depart := base.Parts[0].Route.Depart.Add(time.Duration(rnd.Intn(10)-3) * time.Hour)
		p.Boat.DraughtM = 0.4 + 2*rnd.Float64()
		way := []orb.Point{place()}
		for range 1 + rnd.Intn(4) {
			from, to := way[len(way)-1], place()
			steps := 1 + rnd.Intn(3)*rnd.Intn(8)
			for k := 1; k <= steps; k++ {
				f := float64(k) / float64(steps)
				way = append(way, orb.Point{from[0] + f*(to[0]-from[0]), from[1] + f*(to[1]-from[1])})
			}
		}
		home := []orb.Point{way[len(way)-1], place()}
		if rnd.Intn(2) == 0 {
			home = slices.Clone(way)
			slices.Reverse(home)
		}
		p.Parts = []plan.Part{{Route: &plan.Route{Name: "out", Depart: &depart, Points: way}},
			{Stay: &plan.Stay{Name: "stop", Kind: plan.AtAnchor, At: home[0], Until: depart.Add(5 * time.Hour)}}, {Route: &plan.Route{Name: "home", Points: home}}}
		out = append(out, &p)
	}
	return out
}

// A thing that wants care at one hour and is only a note at another is told once, as
// care; a note of another thing stays one.
func TestANoteIsToldWithTheCareOfTheSameThing(t *testing.T) {
	s := set()
	apart := []plan.Finding{
		{Check: plan.CheckMark, Severity: plan.Note, Title: "t", Detail: "deep", Leg: 1, Time: ptr(leaving), Source: &plan.Source{Thing: &s.Features[2]}},
		{Check: plan.CheckMark, Severity: plan.Care, Title: "t", Detail: "shoal", Leg: 3, Time: ptr(leaving.Add(time.Hour)), Source: &plan.Source{Thing: &s.Features[2]}},
		{Check: plan.CheckMark, Severity: plan.Note, Title: "t", Detail: "another", Leg: 2, Time: ptr(leaving), Source: &plan.Source{Thing: &s.Features[0]}},
	}
	c := newChecker(newGround(chart.New(s), nil), newMemory(), day())
	if err := (preparing{c}).prepare(); err != nil {
		t.Fatal(err)
	}
	once := c.merging().once(apart, make([]about, len(apart)))
	if len(once) != 2 || once[0].Severity != plan.Care || once[0].Leg != 3 || len(once[0].Also) != 1 || once[0].Also[0].Leg != 1 || !containsText(once[0].Detail, "shoal") || once[1].Severity != plan.Note {
		t.Errorf("%+v", once)
	}
}
