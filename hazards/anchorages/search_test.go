package anchorages

import (
	"errors"
	"math"
	"math/rand"
	"runtime"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/hazards"
	"keelroom/hazards/plan"
	"keelroom/testdata/beside"
	"keelroom/testdata/waters"
)

// Where the plans of the tests are: of the demo's waters, and of a real cell.
var (
	invented = []string{"web", "demo", "plan.geojson"}
	realDay  = []string{"testdata", "plans", "roads-day.geojson"}
)

// lunch asks for a stay of a plan, with its boat and its winds turned and scaled, in
// an area.
func lunch(t testing.TB, path []string, area orb.Bound, turn, scale float64) Question {
	t.Helper()
	p := waters.Plan(t, path...)
	for i := range p.Wind {
		p.Wind[i].FromDeg = math.Mod(p.Wind[i].FromDeg+turn, 360)
		p.Wind[i].Kn = math.Round(p.Wind[i].Kn * scale)
		if g := p.Wind[i].GustKn; g != nil {
			gust := math.Max(p.Wind[i].Kn, math.Round(*g*scale))
			p.Wind[i].GustKn = &gust
		}
	}
	stay := *p.Stays()[0]
	arrive := stay.Until.Add(-2 * time.Hour)
	from := p.Routes()[0].Points[0]
	return Question{Plan: p, Stay: stay, Arrive: arrive, Area: area, From: &from}
}

// search runs a search to its end.
func search(t testing.TB, session *hazards.Session, q Question) *Search {
	t.Helper()
	s, err := New(q)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Run(session, nil); err != nil {
		t.Fatal(err)
	}
	return s
}

// putInto is the plan with the stay at a place, at the end of a short leg, and the
// report of it by a session that knows nothing of the search. She arrives when the
// question says.
func putInto(t *testing.T, session *hazards.Session, q *Question, at orb.Point) *plan.Report {
	t.Helper()
	p := q.Plan.Clone()
	stay := q.Stay
	stay.At, stay.SoundedM, stay.SoundedAt = at, nil, nil
	depart := q.Arrive
	p.Parts = []plan.Part{{Route: &plan.Route{Depart: &depart, Points: []orb.Point{{at[0], at[1] - 0.0001}, at}, SpeedsKn: []float64{5}}}, {Stay: &stay}}
	for range 2 {
		r, err := session.Check(p)
		if err != nil {
			t.Fatal(err)
		}
		if r.Stays[0].Arrive.Equal(q.Arrive) {
			return r
		}
		depart = depart.Add(q.Arrive.Sub(*r.Stays[0].Arrive))
	}
	r, err := session.Check(p)
	if err != nil || r.Stays[0].Arrive.Sub(q.Arrive).Abs() > time.Millisecond {
		t.Fatalf("she arrives at %v, not at %v: %v", r.Stays[0].Arrive, q.Arrive, err)
	}
	return r
}

// testWaters are the waters of the tests, with a plan for each.
func testWaters(t testing.TB) []testWater {
	return []testWater{
		{"demo", invented, chart.New(waters.Demo(t))},
		{"US5MA12M", realDay, chart.New(waters.Folder(t, beside.File(t, "charts", "US5MA12M", "geojson")))},
	}
}

type testWater struct {
	name  string
	plan  []string
	chart *chart.Chart
}

// shallow is a random place on the outline of water of some metres.
func (w *testWater) shallow(rnd *rand.Rand) orb.Point {
	for {
		f := w.chart.Features()[rnd.Intn(len(w.chart.Features()))]
		if f.Class == chart.DEPARE && f.DepthMinM >= 1 && f.DepthMinM <= 6 {
			return f.Coords[rnd.Intn(len(f.Coords))].Position()
		}
	}
}

// Every place that is offered passes the check of a plan with the stay there, made
// by a session that knows nothing of the search.
func TestOfferedPlacesPass(t *testing.T) {
	days := 25
	if runtime.GOOS == "js" {
		days = 3
	}
	for _, w := range testWaters(t) {
		rnd := rand.New(rand.NewSource(11))
		places := 0
		for range days {
			q := lunch(t, w.plan, Around(w.shallow(rnd), 1), 360*rnd.Float64(), 0.3+1.6*rnd.Float64())
			s := search(t, hazards.NewSession(w.chart), q)
			fresh := hazards.NewSession(w.chart)
			for _, p := range s.Places() {
				places++
				for _, f := range putInto(t, fresh, &q, p.At).Findings {
					at, here := f.Geometry.(orb.Point)
					if here && at == p.At && (f.Severity == plan.NotClear || f.Severity == plan.NoData) {
						t.Errorf("%s: %v is offered and has %v %s %s", w.name, p.At, f.Severity, f.Check, f.Code)
					}
				}
			}
		}
		t.Logf("%s: %d places in %d days", w.name, places, days)
		if places < 10*days {
			t.Errorf("%s: only %d places in %d days", w.name, places, days)
		}
	}
}

// clearPatches looks at every 25 m of an area, and fails the test where a disc of
// 50 m radius is all fit, and nothing was found in the fit water that hangs together
// with it.
func clearPatches(t *testing.T, session *hazards.Session, q Question, s *Search) (discs int) {
	t.Helper()
	const stepM, around = 25, 2
	l, err := session.Lying(q.Plan, q.Stay, q.Arrive)
	if err != nil {
		t.Fatal(err)
	}
	g := gridOf(q.Area, stepM)
	for i := range g.nodes {
		if _, out := l.RuledOut(g.at(i)); out {
			g.nodes[i] = ruledOut
			continue
		}
		lie, err := l.Judge(g.at(i))
		if err != nil {
			t.Fatal(err)
		}
		g.nodes[i] = fit
		if lie.Worst == plan.NotClear || lie.Worst == plan.NoData {
			g.nodes[i] = ruledOut
		}
	}
	patch := g.patches()
	offered := map[int]bool{}
	for _, p := range s.Places() {
		offered[patch[g.nearest(p.At)]] = true
	}
	for y := around; y < g.rows-around; y++ {
		for x := around; x < g.cols-around; x++ {
			i := y*g.cols + x
			if !g.disc(x, y, around) {
				continue
			}
			discs++
			if !offered[patch[i]] {
				t.Errorf("50 m around %v are fit to lie at, and nothing is offered in that water", g.at(i))
				return discs
			}
		}
	}
	return discs
}

// gridOf is a lattice of another step.
func gridOf(b orb.Bound, step float64) *lattice {
	w, h := sides(b)
	cols, rows := int(w/step)+1, int(h/step)+1
	return &lattice{area: b, cols: cols, rows: rows, nodes: make([]node, cols*rows), dLon: widthDeg(b) / float64(cols-1), dLat: (b.Max[1] - b.Min[1]) / float64(rows-1)}
}

// disc reports whether all nodes within so many steps of one are fit.
func (l *lattice) disc(x, y, r int) bool {
	for dy := -r; dy <= r; dy++ {
		for dx := -r; dx <= r; dx++ {
			if dx*dx+dy*dy <= r*r && l.nodes[(y+dy)*l.cols+x+dx] != fit {
				return false
			}
		}
	}
	return true
}

// patches numbers the fit water that hangs together.
func (l *lattice) patches() []int {
	of := make([]int, len(l.nodes))
	n := 0
	for i := range l.nodes {
		if l.nodes[i] != fit || of[i] != 0 {
			continue
		}
		n++
		of[i] = n
		for todo := []int{i}; len(todo) > 0; {
			k := todo[len(todo)-1]
			todo = todo[:len(todo)-1]
			x, y := k%l.cols, k/l.cols
			for _, d := range [][2]int{{-1, 0}, {1, 0}, {0, -1}, {0, 1}} {
				if u, v := x+d[0], y+d[1]; u >= 0 && u < l.cols && v >= 0 && v < l.rows {
					if m := v*l.cols + u; l.nodes[m] == fit && of[m] == 0 {
						of[m] = n
						todo = append(todo, m)
					}
				}
			}
		}
	}
	return of
}

// No clear patch of 50 m radius is missed: windows of the demo, and of a real cell.
func TestNoPatchIsMissed(t *testing.T) {
	windows := 6
	if runtime.GOOS == "js" {
		windows = 1
	}
	for _, w := range testWaters(t) {
		rnd := rand.New(rand.NewSource(5))
		discs := 0
		for range windows {
			q := lunch(t, w.plan, Around(w.shallow(rnd), 0.4), 360*rnd.Float64(), 0.3+1.5*rnd.Float64())
			session := hazards.NewSession(w.chart)
			s := search(t, session, q)
			n := clearPatches(t, session, q, s)
			t.Logf("%s %v: %d discs, %d places", w.name, q.Area.Center(), n, len(s.Places()))
			discs += n
		}
		if discs == 0 {
			t.Errorf("%s: no clear patch in any window: nothing was tested", w.name)
		}
	}
}

// A search can be left off anywhere and run on: it finds the same.
func TestSearchCanBeLeftOff(t *testing.T) {
	c := chart.New(waters.Demo(t))
	b, _ := c.Bounds()
	q := lunch(t, invented, Around(b.Center(), 1.5), 40, 1.5)
	whole := search(t, hazards.NewSession(c), q)
	session := hazards.NewSession(c)
	enough := errors.New("enough")
	s, err := New(q)
	if err != nil {
		t.Fatal(err)
	}
	last, times := 0.0, 0
	for {
		asked := 0
		session.Between = func() error {
			if asked++; asked > 400 {
				return enough
			}
			return nil
		}
		err := s.Run(session, nil)
		if p := s.Progress(); p < last || p > 1 {
			t.Errorf("progress %v after %v", p, last)
		} else {
			last = p
		}
		if err == nil {
			break
		}
		if times++; !errors.Is(err, enough) || times > 10000 {
			t.Fatalf("%v after %d times", err, times)
		}
	}
	a, z := whole.Places(), s.Places()
	if len(a) != len(z) || len(a) == 0 || times == 0 {
		t.Fatalf("%d places, and %d when left off %d times", len(a), len(z), times)
	}
	for i := range a {
		if a[i].At != z[i].At {
			t.Errorf("place %d is %v, and %v when left off", i, a[i].At, z[i].At)
		}
	}
}

func TestQuestionsThatAreRefused(t *testing.T) {
	good := lunch(t, invented, Around(orb.Point{-30, 43}, 1), 0, 1)
	for name, spoil := range map[string]func(q *Question){
		"an empty area":      func(q *Question) { q.Area.Max = q.Area.Min },
		"an area turned":     func(q *Question) { q.Area.Min, q.Area.Max = q.Area.Max, q.Area.Min },
		"no numbers":         func(q *Question) { q.Area.Min[0] = math.NaN() },
		"a sea":              func(q *Question) { q.Area = Around(orb.Point{-30, 43}, 16) },
		"a berth":            func(q *Question) { q.Stay.Kind = plan.AtBerth },
		"a mooring":          func(q *Question) { q.Stay.Kind = plan.AtMooring },
		"until before":       func(q *Question) { q.Stay.Until = q.Arrive },
		"beyond the earth":   func(q *Question) { q.Area.Max[1] = 91 },
		"infinitely far off": func(q *Question) { q.Area.Max[0] = math.Inf(1) },
	} {
		q := good
		spoil(&q)
		if _, err := New(q); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if _, err := New(good); err != nil {
		t.Error(err)
	}
}

func BenchmarkSearch(b *testing.B) {
	c := chart.New(waters.Folder(b, beside.File(b, "charts", "US5MA12M", "geojson")))
	bounds, _ := c.Bounds()
	session := hazards.NewSession(c)
	turn := 0.0
	for b.Loop() {
		turn += 37
		s := search(b, session, lunch(b, realDay, Around(bounds.Center(), 5), math.Mod(turn, 360), 1.5))
		b.ReportMetric(float64(s.done), "looks")
		b.ReportMetric(float64(len(s.found)), "found")
	}
}
