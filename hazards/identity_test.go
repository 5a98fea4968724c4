package hazards

import (
	"math/rand"
	"regexp"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
	"keelroom/testdata/beside"
)

// sameCause is what a finding of two checks has in common if its cause is the same.
type sameCause struct {
	check, code string
	thing       *chart.Feature
	at          orb.Point // of a sounding
	lying       bool
}

// causesIn are the findings of a report that come from a feature, by their cause. Two
// of one cause, such as one on each of two days, cannot be told apart by it.
func causesIn(p *plan.Plan, r *plan.Report) map[sameCause][]string {
	out := map[sameCause][]string{}
	for i := range r.Findings {
		f := &r.Findings[i]
		thing := thingOf(f)
		if thing == nil {
			continue
		}
		key := sameCause{check: f.Check, code: f.Code, thing: thing}
		if thing.Class == chart.SOUNDG {
			key.at = f.Source.At
		}
		point, ok := f.Geometry.(orb.Point)
		key.lying = ok && slices.ContainsFunc(p.Stays(), func(s *plan.Stay) bool { return s.At == point })
		out[key] = append(out[key], f.ID)
	}
	return out
}

// dragAbout moves one waypoint of a plan after another by a few metres at a time.
func dragAbout(p *plan.Plan, rnd *rand.Rand) *plan.Plan {
	out := shifted(p, *p.Parts[0].Route.Depart)
	route := out.Parts[0].Route
	route.Points = slices.Clone(route.Points)
	i := 1 + rnd.Intn(max(1, len(route.Points)-2))
	if i < len(route.Points)-1 {
		route.Points[i][0] += (rnd.Float64() - 0.5) * 6e-4
		route.Points[i][1] += (rnd.Float64() - 0.5) * 4e-4
	}
	return out
}

// While waypoints are dragged a finding of the same feature keeps its id, no two
// findings of a report share one, and what the session remembers changes none.
func TestAFindingKeepsItsIdWhileDragging(t *testing.T) {
	rnd := rand.New(rand.NewSource(7))
	demo := demoChart(t)
	kept := dragFollowed(t, demo, readPlan(t, "web", "demo", "plan.geojson"), rnd, 25)
	for _, p := range wanderings(t, demo, 6) {
		kept += dragFollowed(t, demo, p, rnd, 8)
	}
	hull := loadFolder(t, beside.File(t, "charts", "hull"))
	kept += dragFollowed(t, hull, readPlan(t, "testdata", "plans", "roads-day.geojson"), rnd, 25)
	if kept < 500 {
		t.Errorf("only %d findings were followed", kept)
	}
}

var idShape = regexp.MustCompile(`^[a-z2-7]{13}$`)

// dragFollowed drags a plan so many times, and counts the findings that were followed.
func dragFollowed(t *testing.T, set *chart.Set, p *plan.Plan, rnd *rand.Rand, moves int) (followed int) {
	t.Helper()
	c := chart.New(set)
	used := NewSession(c)
	before := causesIn(p, check(t, used, p))
	for move := range moves {
		p = dragAbout(p, rnd)
		r := check(t, used, p)
		wantOwnIds(t, r)
		if move%5 == 0 {
			wantSameIds(t, r, check(t, NewSession(c), p))
		}
		now := causesIn(p, r)
		for key, ids := range now {
			if old := before[key]; len(ids) == 1 && len(old) == 1 {
				followed++
				if old[0] != ids[0] {
					t.Errorf("%s, %s of %s %q: id %s became %s", key.check, key.code, key.thing.Class, key.thing.Name, old[0], ids[0])
				}
			}
		}
		before = now
	}
	return followed
}

// wantOwnIds holds that every finding has a code and an id, and its id for itself.
func wantOwnIds(t *testing.T, r *plan.Report) {
	t.Helper()
	seen := map[string]string{}
	for i := range r.Findings {
		f := &r.Findings[i]
		if f.Code == "" || !idShape.MatchString(f.ID) {
			t.Errorf("%q has the code %q and the id %q", f.Title, f.Code, f.ID)
		}
		if other, taken := seen[f.ID]; taken {
			t.Errorf("%q and %q share the id %s", other, f.Title, f.ID)
		}
		seen[f.ID] = f.Title
	}
}

func wantSameIds(t *testing.T, got, want *plan.Report) {
	t.Helper()
	ids := func(r *plan.Report) (out []string) {
		for i := range r.Findings {
			out = append(out, r.Findings[i].ID)
		}
		return out
	}
	if !slices.Equal(ids(got), ids(want)) {
		t.Errorf("ids %v, a fresh session gives %v", ids(got), ids(want))
	}
}

// A leg that is added to the way out changes no id of the way on from the stay, nor
// what the day as a whole wants, though its legs have other numbers then.
func TestIdsStandWhereLegsAreAdded(t *testing.T) {
	s := set()
	build := func(out ...orb.Point) *plan.Plan {
		p := day(out...)
		lunch(p)
		p.BackBy = ptr(leaving)
		p.Parts = append(p.Parts, plan.Part{Route: &plan.Route{Name: "on", Points: []orb.Point{at(50, 50), at(120, 50)}}})
		return p
	}
	ids := func(p *plan.Plan) (out [2]string) {
		for i, check := range []string{plan.CheckCoverage, plan.CheckSchedule} {
			list := findingsOf(mustCheck(t, s, p), check)
			if len(list) != 1 {
				t.Fatalf("%d findings of %s, want one", len(list), check)
			}
			out[i] = list[0].ID
		}
		return out
	}
	before, after := ids(build(at(10, 50), at(50, 50))), ids(build(at(10, 50), at(30, 52), at(50, 50)))
	if before != after {
		t.Errorf("ids %v became %v", before, after)
	}
}

// What lies in the chart under another name of its own, or nowhere near, is another
// cause; a chart of another scale that has the same name for it is the same.
func TestCauseOfAFeature(t *testing.T) {
	at := func(lon int32, key, set string) *chart.Feature {
		f := &chart.Feature{Class: chart.UWTROC, Key: key, Set: &chart.Set{Title: set}}
		f.Coords = []chart.Coord{{Lon: lon, Lat: 430000000}}
		return f
	}
	id := func(f *chart.Feature) string { return hashBasis.feature(f).id() }
	same := [][2]*chart.Feature{{at(1, "a", "one"), at(2, "a", "two")}, {at(1, "", "one"), at(1, "", "one")}}
	other := [][2]*chart.Feature{{at(1, "a", "one"), at(1, "b", "one")}, {at(1, "", "one"), at(2, "", "one")}, {at(1, "", "one"), at(1, "", "two")}}
	for _, pair := range same {
		if id(pair[0]) != id(pair[1]) {
			t.Errorf("%+v and %+v are two causes", pair[0], pair[1])
		}
	}
	for _, pair := range other {
		if id(pair[0]) == id(pair[1]) {
			t.Errorf("%+v and %+v are one cause", pair[0], pair[1])
		}
	}
}
