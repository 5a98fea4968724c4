package hazards

import (
	"errors"
	"fmt"
	"math/rand"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/hazards/plan"
	"keelroom/hazards/words"
	"keelroom/testdata/beside"
)

// What a session keeps of one check may serve the next only where all that went into
// it is the same: an outcome kept too long may be a safer one than the true one. So
// one session checks a row of plans of which each differs from the one before in one
// member, whichever of all it has, and every report must be that of a fresh check.

// reuser edits a plan and compares the reports of one session with fresh ones.
type reuser struct {
	t       *testing.T
	name    string
	rnd     *rand.Rand
	chart   *chart.Chart
	session *Session
	plan    *plan.Plan
}

func newReuser(t *testing.T, name string, c *chart.Chart, p *plan.Plan, seed int64) *reuser {
	return &reuser{t: t, name: name, rnd: rand.New(rand.NewSource(seed)), chart: c, session: NewSession(c), plan: p}
}

// edit makes one change that leaves a plan a plan; ok is false for none.
func (ru *reuser) edit(of func([]memberEdit) memberEdit) (path string, q *plan.Plan) {
	for range 20 {
		q = ru.plan.Clone()
		e := of(ru.editsOf(q))
		e.apply()
		path = e.path
		if q = readAgain(q); q != nil {
			return path, q
		}
	}
	return path, nil
}

func (ru *reuser) any(list []memberEdit) memberEdit { return list[ru.rnd.Intn(len(list))] }

// step changes the way or a stay, checks, and either stays with it or goes back.
func (ru *reuser) step() {
	path, q := ru.edit(func(list []memberEdit) memberEdit {
		return ru.any(slices.DeleteFunc(list, func(e memberEdit) bool {
			return strings.HasPrefix(e.path, "plan.") && !strings.HasPrefix(e.path, "plan.P")
		}))
	})
	if q == nil {
		return
	}
	was := ru.plan
	ru.compare(path, q)
	if ru.rnd.Intn(3) > 0 {
		ru.compare(path+", and back", was)
		return
	}
	ru.plan = q
}

// compare checks a plan in the session and afresh, while moving and at rest.
func (ru *reuser) compare(path string, p *plan.Plan) {
	ru.t.Helper()
	fresh, wrong := Check(ru.chart, p.Clone())
	moving := ru.rnd.Intn(3)
	if moving == 0 {
		ru.compareMoving(path, p, fresh, wrong)
	}
	got, err := ru.session.Check(p)
	if fmt.Sprint(err) != fmt.Sprint(wrong) {
		ru.t.Errorf("%s: %s: %v, afresh %v", ru.name, path, err, wrong)
	}
	if err == nil && wrong == nil {
		ru.same(path, p, got, fresh)
	}
	if moving == 1 {
		ru.compareMoving(path, p, fresh, wrong)
	}
}

func (ru *reuser) compareMoving(path string, p *plan.Plan, fresh *plan.Report, wrong error) {
	got, err := ru.session.CheckMoving(p)
	if fmt.Sprint(err) != fmt.Sprint(wrong) {
		ru.t.Errorf("%s: %s: moving %v, afresh %v", ru.name, path, err, wrong)
	}
	if err == nil && wrong == nil {
		ru.same(path+" (moving)", p, whileMoving(got), whileMoving(fresh))
	}
}

// whileMoving is what CheckMoving gives of a report.
func whileMoving(r *plan.Report) *plan.Report {
	q := *r
	q.LeaveBy, q.Tide, q.Sun, q.Charts, q.Messages, q.Checks, q.Cautions, q.Warned = nil, nil, nil, nil, nil, nil, nil, nil
	q.Legs, q.Clearances = nil, nil
	for _, l := range r.Legs {
		q.Legs = append(q.Legs, plan.Leg{Leg: l.Leg, Start: l.Start, End: l.End})
	}
	for _, c := range r.Clearances {
		q.Clearances = append(q.Clearances, plan.Clearance{Leg: c.Leg, ClearanceM: c.ClearanceM, At: c.At})
	}
	q.Findings = slices.Clone(r.Findings)
	return &q
}

// same compares two reports as they are read.
func (ru *reuser) same(path string, p *plan.Plan, got, want *plan.Report) {
	ru.t.Helper()
	words.English.Fill(got, p.Zone)
	q := *want
	q.Findings = slices.Clone(want.Findings)
	words.English.Fill(&q, p.Zone)
	if a, b := got.Encode(p.Zone), q.Encode(p.Zone); string(a) != string(b) {
		ru.t.Errorf("%s: %s: the report is not that of a fresh check:\n%s", ru.name, path, goldenDifference(ru.t, b, a))
	}
	if got.WaveAllowanceM != want.WaveAllowanceM || !slices.EqualFunc(got.InHand, want.InHand, func(a, b plan.InHand) bool { return reflect.DeepEqual(a, b) }) {
		ru.t.Errorf("%s: %s: what is in hand, or taken off for waves, is not that of a fresh check", ru.name, path)
	}
}

func chartOf(t *testing.T, waters document) *chart.Chart {
	t.Helper()
	set, messages := layer.Decode([]layer.File{{Name: "waters.geojson", Data: waters.text()}})
	if set == nil {
		t.Fatal(messages)
	}
	return chart.New(set)
}

// randomReuser is a session on random waters with a random day: what legs ask of each
// other, as marks where two meet, and what holds near berths, is all about the way.
func randomReuser(t *testing.T, seed int64) *reuser {
	rnd := rand.New(rand.NewSource(seed))
	day := randomDay(rnd)
	waters := randomWaters(rnd, day)
	shortLegs(rnd, day)
	crowd(rnd, day, waters)
	c := chartOf(t, waters)
	p, err := plan.Decode(day.text())
	if err != nil {
		t.Fatal(err)
	}
	return newReuser(t, fmt.Sprintf("random %d", seed), c, p, seed)
}

// shortLegs puts waypoints of the way out 50 to 500 m before its end, and about half of
// the days end at a berth, near which land is passed by eye.
func shortLegs(rnd *rand.Rand, day document) {
	features := day.root["features"].([]any)
	out := features[0].(object)["geometry"].(object)
	way := out["coordinates"].([]any)
	end := way[len(way)-1].([]any)
	for _, back := range []float64{0.004, 0.002, 0.0008} {
		way = slices.Insert(way, len(way)-1, any([]any{end[0].(float64) - back, end[1].(float64) + back*(rnd.Float64()-0.5)}))
	}
	out["coordinates"] = way
	if rnd.Intn(2) == 0 {
		day.root["plan"].(object)["margins"] = object{"berth_m": 150}
		stay := features[1].(object)["properties"].(object)
		stay["kind"] = "berth"
		delete(stay, "rode_m")
	}
}

// crowd puts marks and piles about the waypoints of the way out, and areas of which only
// the first leg that meets them tells.
func crowd(rnd *rand.Rand, day, waters document) {
	way := day.root["features"].([]any)[0].(object)["geometry"].(object)["coordinates"].([]any)
	add := func(f any) { waters.root["features"] = append(waters.root["features"].([]any), f) }
	for _, w := range way[1:] {
		x, y := w.([]any)[0].(float64), w.([]any)[1].(float64)
		near := []any{x + 0.0006*rnd.NormFloat64(), y + 0.0006*rnd.NormFloat64()}
		add(feature(pick(rnd, object{"objectClass": "BOYCAR", "CATCAM": 1 + rnd.Intn(4), "BOYSHP": 4}, object{"objectClass": "BOYLAT", "CATLAM": 1 + rnd.Intn(2), "COLOUR": []any{"3"}, "BOYSHP": 2},
			object{"objectClass": "PILPNT"}, object{"objectClass": "MORFAC", "CATMOR": 7}), "Point", near))
		if rnd.Intn(2) == 0 {
			ring := []any{}
			for _, c := range [][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}, {-1, -1}} {
				ring = append(ring, []any{x + 0.003*c[0], y + 0.003*c[1]})
			}
			add(feature(object{"objectClass": "CTNARE", "INFORM": "INVENTED words"}, "Polygon", []any{ring}))
		}
	}
}

func TestReportsOfASessionAreThoseOfFreshChecks(t *testing.T) {
	for seed := range int64(4) {
		ru := randomReuser(t, 40+seed)
		for range 30 {
			ru.step()
		}
	}
}

// alone are the changes that no plan allows without another one.
var alone = []string{"plan.Version", "plan.Private[].Role", "plan.Tide.Z0M?", "plan.Tide.LevelM?", "plan.Tide.Events+", "plan.Wind<>", "plan.Swell<>", "plan.Stream<>",
	"plan.Parts+", "plan.Parts<>", "plan.Parts[].Route?", "plan.Parts[].Route.SpeedsKn-", "plan.Parts[].Stay.SoundedAt?",
	"plan.Boat.Rode.ChainM?", "plan.Boat.Rode.ChainKgPerM?", "plan.Boat.Rode.MarksM<>"}

func TestReportsFollowEveryMember(t *testing.T) {
	for seed := range int64(1) {
		ru := randomReuser(t, 20+seed)
		ru.enrich()
		for i := range ru.editsOf(ru.plan.Clone()) {
			path, q := ru.edit(func(list []memberEdit) memberEdit { return list[i] })
			if q == nil {
				if !slices.Contains(alone, path) {
					t.Errorf("%s is never changed", path)
				}
				continue
			}
			ru.compare(path, q)
		}
	}
}

// enrich gives the plan what a random day lacks.
func (ru *reuser) enrich() {
	p, point := ru.plan.Clone(), ru.plan.Parts[0].Route.Points[1]
	p.Berths = []plan.Berth{{Name: "INVENTED berth", At: point, HeadingDeg: ptr(90.0), Side: plan.PortSide}}
	p.Refuges = []plan.Refuge{{Name: "INVENTED refuge", At: point}}
	p.Margins.Scope, p.Boat.WindageM2, p.Boat.HoldingN = ptr(4.0), ptr(5.0), ptr(3000.0)
	p.BackBy, p.Tide.Position = ptr(p.Parts[0].Route.Depart.Add(20*time.Hour)), &point
	p.Tide.Levels = []plan.Level{{Datum: 16, HeightM: 3}, {Datum: 30, HeightM: 3.4}}
	p.Choices = plan.ChartChoices{SoundingDatum: 23, TideAboveChartM: ptr(0.1), VesselClasses: []string{"INVENTED"}, Trust: []string{"INVENTED waters"}}
	p.Private = append(privateAlong(p)[2:], ru.unreadMark())
	if s := p.Stays()[0]; s.Kind == plan.AtAnchor {
		s.SoundedM, s.SoundedAt = ptr(9.0), ptr(s.Until.Add(-time.Hour))
		s.Dropped = &plan.Dropped{Time: s.Until.Add(-2 * time.Hour), At: s.At}
	}
	if p.Boat.Rode != nil {
		p.Boat.Rode.MarksM = []float64{10, 20}
	}
	for range p.Parts[0].Route.Legs() {
		p.Parts[0].Route.SpeedsKn = append(p.Parts[0].Route.SpeedsKn, 12)
	}
	if ru.plan = readAgain(p); ru.plan == nil {
		_, err := p.Write()
		ru.t.Fatalf("%s: %v", ru.name, err)
	}
}

// The same over the demo's waters and real charts.
func TestReportsOfASessionOnCharts(t *testing.T) {
	for _, on := range []*reuser{
		newReuser(t, "demo", chart.New(demoChart(t)), readPlan(t, "web", "demo", "plan.geojson"), 1),
		newReuser(t, "hull", chart.New(loadFolder(t, beside.File(t, "charts", "hull"))), readPlan(t, "testdata", "plans", "roads-day.geojson"), 1),
	} {
		for range 8 {
			on.step()
		}
	}
}

// A check that is cut short, wherever that is, spoils nothing for the next.
func TestCancelledChecksSpoilNothing(t *testing.T) {
	stop := errors.New("stop")
	ru := randomReuser(t, 100)
	_, q := ru.edit(func([]memberEdit) memberEdit { return memberEdit{"", func() {}} })
	q.Parts[0].Route.Points[1][1] += 1e-4
	fresh := [2]*plan.Report{mustCheckOn(t, ru.chart, ru.plan), mustCheckOn(t, ru.chart, q)}
	for k := 0; ; k++ {
		ru.session = NewSession(ru.chart)
		if k%2 == 0 { // with what a check of another plan left, or with nothing
			check(t, ru.session, ru.plan)
		}
		calls := 0
		ru.session.Between = func() error {
			if calls++; calls > k {
				return stop
			}
			return nil
		}
		_, err := ru.session.Check(q)
		ru.session.Between = nil
		ru.same(fmt.Sprintf("cancelled at call %d", k), q, check(t, ru.session, q), fresh[1])
		ru.same(fmt.Sprintf("cancelled at call %d, and back", k), ru.plan, check(t, ru.session, ru.plan), fresh[0])
		if !errors.Is(err, stop) {
			break
		}
	}
}
