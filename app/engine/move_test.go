package engine

import (
	"encoding/json"
	"math/rand/v2"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"keelroom/app/edit"
	"keelroom/geo/chart"
	"keelroom/hazards"
	"keelroom/hazards/plan"
	"keelroom/hazards/words"
	"keelroom/testdata/beside"
)

// answer is the message of a view.
type answer struct {
	Seq   int
	State string
	Words string
	Base  int
	Items map[string]json.RawMessage
	Gone  []string
}

// screen is what a screen has put together from the answers to its moves.
type screen struct {
	has   int
	items map[string]string
}

func (s *screen) take(t testing.TB, a answer) {
	t.Helper()
	switch {
	case a.State != Done:
		t.Fatalf("move %d is %s: %s", a.Seq, a.State, a.Words)
	case a.Base == 0:
		s.items = map[string]string{}
	case a.Base != s.has:
		t.Fatalf("move %d changes the answer %d, the screen has %d", a.Seq, a.Base, s.has)
	}
	for _, name := range a.Gone {
		if _, there := s.items[name]; !there {
			t.Errorf("%s is gone, and was not there", name)
		}
		delete(s.items, name)
	}
	for name, text := range a.Items {
		s.items[name] = string(text)
	}
	s.has = a.Seq
}

func answered(t testing.TB, h *fakeHost, seq int) answer {
	t.Helper()
	var a answer
	r := h.end(t, seq)
	if err := json.Unmarshal(r.View, &a); err != nil {
		t.Fatalf("%s: %v", r.View, err)
	}
	if a.Seq != seq || a.State != r.State || r.Kind != MovePoint {
		t.Fatalf("move %d is answered by %+v", seq, r)
	}
	return a
}

// whole is the view of a report by itself.
func whole(t testing.TB, before, p *plan.Plan, r *plan.Report) map[string]string {
	t.Helper()
	var v view
	v.of(before, p, r)
	s := screen{}
	var a answer
	if err := json.Unmarshal(v.message(1, 0, &view{}), &a); err != nil {
		t.Fatal(err)
	}
	s.take(t, a)
	return s.items
}

func sameItems(t testing.TB, where string, got, want map[string]string) {
	t.Helper()
	for name, text := range want {
		if got[name] != text {
			t.Errorf("%s: %s is %s, want %s", where, name, got[name], text)
		}
	}
	for name := range got {
		if _, there := want[name]; !there {
			t.Errorf("%s: %s is there and should not be", where, name)
		}
	}
}

// moving is a service with the demo's chart that has checked the demo's plan as
// revision 3 on chart 1.
func moving(t testing.TB, h *fakeHost) *Service {
	t.Helper()
	s := demoService(t, h)
	s.Handle(Request{ID: 2, Kind: CheckPlan, Plan: demoPlan(t), PlanRev: 3, ChartRev: 1})
	if r := h.end(t, 2); r.State != Done {
		t.Fatal(r.Words)
	}
	return s
}

// pointsOf are all points that can be moved, by feature and vertex.
func pointsOf(p *plan.Plan) (list []Move) {
	for part, item := range p.Parts {
		feature, _ := edit.FeatureOfPart(p, part)
		n := 1
		if item.Route != nil {
			n = len(item.Route.Points)
		}
		for vertex := range n {
			at := orb.Point{}
			if item.Route != nil {
				at = item.Route.Points[vertex]
			} else {
				at = item.Stay.At
			}
			list = append(list, Move{PlanRev: 3, ChartRev: 1, Feature: feature, Vertex: vertex, At: at})
		}
	}
	return list
}

// After any row of moves, of waypoints and stays, near and far, what the answers put
// together is the view of the report of a check made afresh of the plan as it would
// be saved.
func TestMovesAddUpToAFreshCheck(t *testing.T) {
	h := newHost()
	s := moving(t, h)
	p := planOf(t, demoPlan(t))
	c := chart.New(decodeFiles(t, demoFiles(t)))
	points := pointsOf(p)
	random := rand.New(rand.NewPCG(7, 11))
	var has screen
	m, changes := points[0], 0
	for i := range 36 {
		if i%6 == 0 {
			m = points[random.IntN(len(points))]
		}
		spread := []float64{0.0002, 0.002, 0.02}[i%3]
		m.Insert = m.Vertex > 0 && i/6%4 == 3
		m.Seq, m.Has = 1000+i, has.has
		m.At = orb.Point{m.At[0] + spread*(random.Float64()-0.5), m.At[1] + spread*(random.Float64()-0.5)}
		if i%17 == 16 {
			m.Has = 5 // an answer that it never gave: it tells all
		}
		s.HandleMove(m)
		a := answered(t, h, m.Seq)
		has.take(t, a)
		if a.Base != 0 && len(a.Items) < len(has.items) {
			changes++
		}
		q, err := moved(p, &m)
		if err != nil {
			t.Fatal(err)
		}
		saved, err := plan.Encode(q)
		if err != nil {
			t.Fatal(err)
		}
		fresh := planOf(t, string(saved))
		report, err := hazards.Check(c, fresh)
		if err != nil {
			t.Fatal(err)
		}
		words.English.Fill(report, fresh.Zone)
		sameItems(t, "move "+strings.Repeat("*", i%3), has.items, whole(t, p, fresh, report))
		if t.Failed() {
			t.Fatalf("after move %d: %+v", i, m)
		}
	}
	if changes < 24 {
		t.Errorf("only %d of 36 answers told less than all", changes)
	}
}

// The figures of a view are those of the report as it is written.
func TestViewIsRoundedAsTheReport(t *testing.T) {
	p := planOf(t, demoPlan(t))
	report, err := hazards.Check(chart.New(decodeFiles(t, demoFiles(t))), p)
	if err != nil {
		t.Fatal(err)
	}
	words.English.Fill(report, p.Zone)
	read, err := plan.DecodeReport(report.Encode(p.Zone))
	if err != nil {
		t.Fatal(err)
	}
	got, want := whole(t, p, p, report), whole(t, p, p, read)
	for name := range want {
		if name == "blocks" { // it tells no part of a second
			delete(got, name)
			delete(want, name)
		}
	}
	sameItems(t, "the view", got, want)
	if len(want) < 40 {
		t.Errorf("only %d items", len(want))
	}
}

// A move in another plan or chart than those checked last is not answered by the
// plan that the engine has.
func TestMoveOfAnotherState(t *testing.T) {
	h := newHost()
	s := demoService(t, h)
	m := pointsOf(planOf(t, demoPlan(t)))[4]
	ask := func(name string, seq, planRev, chartRev int, want string) answer {
		t.Helper()
		m.Seq, m.PlanRev, m.ChartRev = seq, planRev, chartRev
		s.HandleMove(m)
		a := answered(t, h, seq)
		if a.State != want || len(a.Items) > 0 != (want == Done) {
			t.Errorf("%s: %s %s with %d items, want %s", name, a.State, a.Words, len(a.Items), want)
		}
		return a
	}
	ask("nothing was checked", 1001, 3, 1, Stale)
	s.Handle(Request{ID: 2, Kind: CheckPlan, Plan: demoPlan(t), PlanRev: 3, ChartRev: 1})
	h.end(t, 2)
	ask("the plan that was checked", 1002, 3, 1, Done)
	ask("an older plan", 1003, 2, 1, Stale)
	ask("a newer plan", 1004, 4, 1, Stale)
	ask("another chart", 1005, 3, 2, Stale)
	s.Handle(Request{ID: 3, Kind: DropSet, Set: "demo", ChartRev: 2})
	h.end(t, 3)
	ask("the chart has changed since", 1006, 3, 1, Stale)
	s.Handle(Request{ID: 4, Kind: CheckPlan, Plan: demoPlan(t), PlanRev: 3, ChartRev: 2})
	h.end(t, 4)
	ask("checked on the new chart", 1007, 3, 2, Done)
	s.Handle(Request{ID: 5, Kind: CheckPlan, Plan: `{"type":"FeatureCollection","plan":{"version":1},"features":[]}`, PlanRev: 5, ChartRev: 2})
	h.end(t, 5)
	if a := ask("a plan that is not complete", 1008, 5, 2, Failed); a.Words == "" {
		t.Error("nothing says why")
	}
	ask("the plan before that", 1009, 3, 2, Stale)
}

// What a move would make of the plan that cannot be checked is refused in words, and
// the next move is answered as ever.
func TestMovesThatCannotBe(t *testing.T) {
	h := newHost()
	s := moving(t, h)
	p := planOf(t, demoPlan(t))
	good := pointsOf(p)[4]
	seq := 1000
	ask := func(m Move) answer {
		seq++
		m.Seq = seq
		s.HandleMove(m)
		return answered(t, h, seq)
	}
	far, nowhere, feature, vertex := good, good, good, good
	far.At = orb.Point{good.At[0] + 8, good.At[1]}
	nowhere.At = orb.Point{0, 123}
	feature.Feature = 99
	vertex.Vertex = 500
	for _, c := range []struct {
		name, want string
		move       Move
	}{
		{"a leg over 200 nm", "at most 200 nm", far},
		{"no place on earth", "latitude", nowhere},
		{"a feature that is not there", "no longer", feature},
		{"a vertex that is not there", "no longer", vertex},
	} {
		before := ask(good)
		if a := ask(c.move); a.State != Failed || !strings.Contains(a.Words, c.want) || len(a.Items) > 0 {
			t.Errorf("%s: %+v", c.name, a)
		}
		again := good
		again.Has = before.Seq
		if a := ask(again); a.State != Done || a.Base != before.Seq || len(a.Items) > 0 || len(a.Gone) > 0 {
			t.Errorf("the same place after %s: %+v", c.name, a)
		}
	}
}

// Moves leave the plan as it was checked: its report stays the same, and a stay
// that was moved about keeps what was sounded there.
func TestMovesLeaveThePlan(t *testing.T) {
	h := newHost()
	s := moving(t, h)
	before := h.end(t, 2).Texts["report"]
	for i, m := range pointsOf(planOf(t, demoPlan(t))) {
		m.Seq = 1000 + i
		m.At[1] += 0.001
		s.HandleMove(m)
		answered(t, h, m.Seq)
	}
	s.Handle(Request{ID: 3, Kind: CheckPlan, Plan: demoPlan(t), PlanRev: 3, ChartRev: 1})
	if h.end(t, 3).Texts["report"] != before {
		t.Error("the report is another after the moves")
	}
}

// Of moves that wait the newest is answered; one that is worked on is ended by a
// newer one, by a plan and by a chart, as soon as the event loop has its turn.
func TestNewestMoveWins(t *testing.T) {
	for _, c := range []struct {
		name string
		do   func(s *Service, m Move)
		want string
	}{
		{"a newer move", func(s *Service, m Move) { m.Seq = 1001; s.HandleMove(m) }, MovePoint},
		{"a plan", func(s *Service, _ Move) { s.Handle(Request{ID: 1001, Kind: CheckPlan, Plan: demoPlan(t), PlanRev: 4}) }, CheckPlan},
		{"a chart", func(s *Service, _ Move) { s.Handle(Request{ID: 1001, Kind: DropSet, Set: "x", ChartRev: 4}) }, DropSet},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := newHost()
			s := New(h, nil)
			var clock time.Time
			s.pace.now = func() time.Time { clock = clock.Add(turnEvery); return clock } // every pause is a turn
			go s.Run()
			t.Cleanup(s.Stop)
			s.Handle(Request{ID: 1, Kind: PutSet, Set: "demo", Name: "The demo", ChartRev: 1, Files: demoFiles(t)})
			s.Handle(Request{ID: 2, Kind: CheckPlan, Plan: demoPlan(t), PlanRev: 3, ChartRev: 1})
			h.end(t, 2)
			m := pointsOf(planOf(t, demoPlan(t)))[4]
			m.At[0] += 0.0123
			m.Seq = 1000
			asked := false
			h.onTurn = func(int) {
				if !asked {
					asked = true
					c.do(s, m)
				}
			}
			s.HandleMove(m)
			if a := answered(t, h, 1000); a.State != Cancelled {
				t.Errorf("the move is %s", a.State)
			}
			if r := h.end(t, 1001); r.State != Done || r.Kind != c.want {
				t.Errorf("what came later: %s %s %s %s", r.Kind, r.State, r.Words, r.View)
			}
		})
	}
}

// A ribbon lets moves through, and goes on after them.
func TestMovesGoBeforeTheRibbon(t *testing.T) {
	h := newHost()
	s := moving(t, h)
	m := pointsOf(planOf(t, demoPlan(t)))[4]
	asked := false
	h.watch(func(r Reply) {
		if r.ID == 3 && r.State == Progress && !asked {
			asked = true
			m.Seq = 1000
			s.HandleMove(m)
		}
	})
	s.Handle(Request{ID: 3, Kind: Ribbon, Plan: demoPlan(t), PlanRev: 3, ChartRev: 1})
	if r := h.end(t, 3); r.State != Done {
		t.Fatal(r.State)
	}
	for _, r := range h.all() {
		if r.ID == 3 && r.State == Done {
			t.Fatal("the move waited for the ribbon")
		}
		if r.Kind == MovePoint {
			break
		}
	}
}

// forty is the plan over the real chart with its legs cut to forty.
func forty(t testing.TB) string {
	t.Helper()
	p := planOf(t, string(readFile(t, filepath.Join(beside.Root(t), "testdata", "plans", "roads-day.geojson"))))
	legs := 0
	for _, r := range p.Routes() {
		legs += r.Legs()
	}
	for legs < 40 {
		r := p.Routes()[0]
		i := legs % r.Legs()
		a, b := r.Points[i], r.Points[i+1]
		if err := edit.InsertVertex(p, 0, i+1, orb.Point{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2}); err != nil {
			t.Fatal(err)
		}
		legs++
	}
	b, err := plan.Encode(p)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// BenchmarkMove is a waypoint that is dragged, of a day of forty legs on a real
// chart, from the move to its answer.
func BenchmarkMove(b *testing.B) {
	h := newHost()
	s := New(h, nil)
	do := func(j *job) {
		if err := answers[j.Kind](s, j); err != nil {
			b.Fatal(err)
		}
	}
	text := forty(b)
	do(&job{Request: Request{Kind: PutSet, Set: "cell", Files: folder(b, beside.File(b, "charts", "US5MA12M", "geojson"))}})
	do(&job{Request: Request{Kind: CheckPlan, Plan: text, PlanRev: 3, ChartRev: 1}})
	p := planOf(b, text)
	feature, _ := edit.FeatureOfPart(p, 0)
	at := p.Routes()[0].Points[7]
	told := 0
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		m := Move{Seq: i + 1, Has: i, PlanRev: 3, ChartRev: 1, Feature: feature, Vertex: 7, At: orb.Point{at[0] + float64(i%30)*1e-5, at[1] + float64(i%17)*1e-5}}
		do(&job{Request: Request{ID: i + 1, Kind: MovePoint}, move: m})
		told += len(h.replies[len(h.replies)-1].View)
		h.replies = h.replies[:0]
	}
	b.ReportMetric(float64(told)/float64(b.N), "bytes/answer")
}

// The numbers of moves are the chart view's own: what ends a request with the same
// number ends no move.
func TestCancelMeansNoMove(t *testing.T) {
	s := New(newHost(), nil)
	s.HandleMove(Move{Seq: 7})
	s.Handle(Request{ID: 8, Kind: CancelRequest, Text: "7"})
	if j, _ := s.jobs.next(); j.Kind != MovePoint {
		t.Errorf("the move is gone, next is %s", j.Kind)
	}
}
