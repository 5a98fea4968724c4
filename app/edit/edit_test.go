package edit

import (
	"bytes"
	"math/rand"
	"slices"
	"strings"
	"testing"
	"time"
	_ "time/tzdata"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/hazards/plan"
)

// An invented day: out to one bay, on to another, home. Between the parts stand
// a zone, a berth and a member that no version knows.
const invented = `{"type":"FeatureCollection","plan":{"version":1,"title":"INVENTED day","time_zone":"Etc/GMT+2","back_by":"2026-07-18T18:00:00-02:00","boat":{"draught_m":0.9,"cruise_kn":20},"later":[1]},
"features":[
{"type":"Feature","properties":{"role":"zone","objectClass":"RESARE","RESTRN":["7"]},"geometry":{"type":"Polygon","coordinates":[[[-36.1,43.1],[-36.09,43.1],[-36.09,43.11],[-36.1,43.1]]]}},
{"type":"Feature","properties":{"role":"route","name":"INVENTED out","depart":"2026-07-18T09:00:00-02:00","speeds_kn":[5,20,8],"colour":"kept"},"geometry":{"type":"LineString","coordinates":[[-36.05,43.02],[-36.04,43.01],[-36.02,43.0],[-36.0,43.0]]}},
{"type":"Feature","properties":{"role":"berth","name":"INVENTED pontoon"},"geometry":{"type":"Point","coordinates":[-36.05,43.02]}},
{"type":"Feature","properties":{"role":"stay","name":"INVENTED Bay","until":"2026-07-18T12:00:00-02:00","sounded_m":4,"sounded_at":"2026-07-18T10:00:00-02:00"},"geometry":{"type":"Point","coordinates":[-36.0002,43.0]}},
{"type":"Feature","properties":{"role":"hazard","objectClass":"OBSTRN"},"geometry":{"type":"Point","coordinates":[-36.1,43.2]}},
{"type":"Feature","properties":{"role":"route","name":"INVENTED on"},"geometry":{"type":"LineString","coordinates":[[-36.0003,43.0],[-35.98,43.01],[-35.97,43.02]]}},
{"type":"Feature","properties":{"role":"stay","name":"INVENTED Hole","until":"2026-07-18T15:00:00-02:00"},"geometry":{"type":"Point","coordinates":[-35.97,43.02]}},
{"type":"Feature","properties":{"role":"route","name":"INVENTED home"},"geometry":{"type":"LineString","coordinates":[[-35.97,43.02],[-36.01,43.015],[-36.05,43.02]]}}
]}`

func day(t testing.TB) *plan.Plan {
	t.Helper()
	p, err := plan.Decode([]byte(invented))
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func encoded(t testing.TB, p *plan.Plan) []byte {
	t.Helper()
	b, err := plan.Encode(p)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// refused checks that an edit fails, says so in that way, and changes nothing.
func refused(t *testing.T, p *plan.Plan, says string, edit func(p *plan.Plan) error) {
	t.Helper()
	before := encoded(t, p)
	err := edit(p)
	if err == nil || !strings.Contains(err.Error(), says) {
		t.Errorf("error %v, want one with %q", err, says)
	}
	if !bytes.Equal(before, encoded(t, p)) {
		t.Errorf("a refused edit changed the plan (%v)", err)
	}
}

// accepted checks that an edit leaves a day that can be checked.
func accepted(t *testing.T, p *plan.Plan, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	if err := p.Validate(); err != nil {
		t.Fatal(err)
	}
	if _, err := plan.Decode(encoded(t, p)); err != nil {
		t.Fatal(err)
	}
}

func TestJointsMoveTogether(t *testing.T) {
	to := orb.Point{-35.995, 43.003}
	moves := map[string]func(p *plan.Plan) error{
		"end of the route":      func(p *plan.Plan) error { return MoveVertex(p, 0, 3, to) },
		"the stay":              func(p *plan.Plan) error { return MoveStay(p, 1, to) },
		"start of the next one": func(p *plan.Plan) error { return MoveVertex(p, 2, 0, to) },
	}
	for name, move := range moves {
		t.Run(name, func(t *testing.T) {
			p := day(t)
			accepted(t, p, move(p))
			if p.Parts[0].Route.Points[3] != to || p.Parts[1].Stay.At != to || p.Parts[2].Route.Points[0] != to {
				t.Error("the joint came apart")
			}
			if s := p.Parts[1].Stay; s.SoundedM != nil || s.SoundedAt != nil {
				t.Error("a sounding went along to where it was not read")
			}
			if p.Parts[2].Route.Points[2] != (orb.Point{-35.97, 43.02}) {
				t.Error("the other end moved")
			}
		})
	}
	p := day(t)
	accepted(t, p, MoveVertex(p, 0, 1, to))
	if p.Parts[1].Stay.SoundedM == nil || p.Parts[0].Route.Points[1] != to {
		t.Error("a waypoint between others moves alone")
	}
	accepted(t, p, MoveVertex(p, 0, 0, orb.Point{-36.06, 43.02}))
	if p.Parts[4].Route.Points[2] != (orb.Point{-36.05, 43.02}) {
		t.Error("where the day begins and where it ends are no joint")
	}
}

func TestInsertAndRemoveKeepSpeeds(t *testing.T) {
	p := day(t)
	accepted(t, p, InsertVertex(p, 0, 2, orb.Point{-36.03, 43.004}))
	if got := p.Parts[0].Route.SpeedsKn; !slices.Equal(got, []float64{5, 20, 20, 8}) {
		t.Errorf("speeds %v after inserting", got)
	}
	accepted(t, p, InsertVertex(p, 0, 0, orb.Point{-36.06, 43.03}))
	if got := p.Parts[0].Route.SpeedsKn; !slices.Equal(got, []float64{5, 5, 20, 20, 8}) {
		t.Errorf("speeds %v after lengthening", got)
	}
	accepted(t, p, RemoveVertex(p, 0, 4))
	if got := p.Parts[0].Route.SpeedsKn; !slices.Equal(got, []float64{5, 5, 20, 8}) {
		t.Errorf("speeds %v after removing: the lower of the two is wanted", got)
	}
	accepted(t, p, RemoveVertex(p, 0, 0))
	accepted(t, p, RemoveVertex(p, 4, 2))
	if got := p.Parts[0].Route.SpeedsKn; !slices.Equal(got, []float64{5, 20, 8}) {
		t.Errorf("speeds %v at the end", got)
	}
}

func TestRefusals(t *testing.T) {
	kn := func(v float64) *float64 { return &v }
	clock := func(s string) time.Time {
		at, err := time.Parse(time.RFC3339, "2026-07-18T"+s+":00-02:00")
		if err != nil {
			t.Fatal(err)
		}
		return at
	}
	ring := []orb.Point{{-36, 43}, {-35.9, 43}, {-35.9, 43.1}}
	for _, test := range []struct {
		says string
		edit func(p *plan.Plan) error
	}{
		{"choose it again", func(p *plan.Plan) error { return MoveVertex(p, 9, 0, orb.Point{}) }},
		{"choose it again", func(p *plan.Plan) error { return MoveVertex(p, 0, 4, orb.Point{}) }},
		{"choose it again", func(p *plan.Plan) error { return MoveVertex(p, 1, 0, orb.Point{}) }},
		{"choose it again", func(p *plan.Plan) error { return MoveStay(p, 0, orb.Point{}) }},
		{"choose it again", func(p *plan.Plan) error { return RemovePart(p, -1) }},
		{"choose it again", func(p *plan.Plan) error { return RemovePrivate(p, 2) }},
		{"latitude 95", func(p *plan.Plan) error { return MoveVertex(p, 0, 1, orb.Point{-36, 95}) }},
		{"between two others", func(p *plan.Plan) error { return InsertVertex(p, 0, 4, orb.Point{-36, 43}) }},
		{"between two others", func(p *plan.Plan) error { return InsertVertex(p, 2, 0, orb.Point{-36, 43}) }},
		{"remove the stay", func(p *plan.Plan) error { return RemoveVertex(p, 0, 3) }},
		{"0.5 to 100", func(p *plan.Plan) error { return SetSpeed(p, 0, 0, kn(0.2)) }},
		{"later time", func(p *plan.Plan) error { return SetDepart(p, clock("12:00")) }},
		{"end of the stay at INVENTED Bay (12:00 on 18 July)", func(p *plan.Plan) error { return SetUntil(p, 3, clock("11:00")) }},
		{"time to be back (18:00 on 18 July)", func(p *plan.Plan) error { return SetUntil(p, 3, clock("18:30")) }},
		{"time to be back", func(p *plan.Plan) error { return ShiftDay(p, 4*time.Hour) }},
		{"1975", func(p *plan.Plan) error { return ShiftDay(p, -100*365*24*time.Hour) }},
		{"give one such as", func(p *plan.Plan) error { return SetUntil(p, 1, time.Time{}) }},
		{"draw the way there", func(p *plan.Plan) error {
			if err := AddStay(p, "", "", clock("17:00")); err != nil {
				t.Error(err)
			}
			defer func() {
				if err := RemovePart(p, 5); err != nil {
					t.Error(err)
				}
			}()
			return AddStay(p, "", "", clock("17:30"))
		}},
		{"anchor, mooring or berth", func(p *plan.Plan) error { return AddStay(p, "", "hove to", clock("17:00")) }},
		{"add the stay first", ReturnRoute},
		{"another waypoint", func(p *plan.Plan) error { return AddRoute(p, []orb.Point{{-36.05, 43.02}}, time.Time{}) }},
		{"what is forbidden", func(p *plan.Plan) error { return AddZone(p, ring, "", nil) }},
		{"no speed limit", func(p *plan.Plan) error { return AddZone(p, ring, "", kn(0)) }},
		{"three corners", func(p *plan.Plan) error { return AddZone(p, ring[:2], "", kn(5)) }},
		{"three corners", func(p *plan.Plan) error {
			return AddZone(p, []orb.Point{{1, 1}, {2, 2}, {3, 3}, {1, 1}}, "", kn(5))
		}},
		{"without a crossing", func(p *plan.Plan) error {
			return AddZone(p, []orb.Point{{0, 0}, {1, 1}, {1, 0}, {0, 1}}, "", kn(5))
		}},
		{"180th meridian", func(p *plan.Plan) error {
			return AddHazard(p, []orb.Point{{179, 0}, {-179, 0}, {-179, 1}}, "", nil, "")
		}},
		{"say where", func(p *plan.Plan) error { return AddHazard(p, nil, "", nil, "") }},
		{"rock or wreck", func(p *plan.Plan) error { return AddHazard(p, ring, "", nil, "whale") }},
		{"no depth", func(p *plan.Plan) error { return AddHazard(p, ring, "", kn(-40), "") }},
	} {
		refused(t, day(t), test.says, test.edit)
	}
}

func TestDayFromNothing(t *testing.T) {
	boat := plan.DefaultBoat()
	boat.DraughtM, boat.CruiseKn = 0.9, 20
	p, err := NewDay("INVENTED", "Atlantic/Azores", boat)
	if err != nil {
		t.Fatal(err)
	}
	depart := time.Date(2026, 7, 18, 9, 0, 0, 0, time.UTC)
	sketch := []orb.Point{{-36, 43}, {-36, 43}, {-35.99, 43.01}}
	refused(t, p, "when she leaves", func(p *plan.Plan) error { return AddRoute(p, sketch, time.Time{}) })
	accepted(t, p, AddRoute(p, sketch, depart))
	accepted(t, p, SetSpeed(p, 0, 0, ptr(6.0)))
	accepted(t, p, AddRoute(p, []orb.Point{{-35.99, 43.01}, {-35.98, 43.02}}, time.Time{}))
	if r := p.Parts[0].Route; len(p.Parts) != 1 || len(r.Points) != 3 || !slices.Equal(r.SpeedsKn, []float64{6, 20}) {
		t.Errorf("a sketch after a route lengthens it: %d parts, %d points, speeds %v", len(p.Parts), len(r.Points), r.SpeedsKn)
	}
	accepted(t, p, AddStay(p, "INVENTED Bay", "", depart.Add(3*time.Hour)))
	accepted(t, p, ReturnRoute(p))
	back := p.Parts[2].Route
	if want := []orb.Point{{-35.98, 43.02}, {-35.99, 43.01}, {-36, 43}}; !slices.Equal(back.Points, want) || !slices.Equal(back.SpeedsKn, []float64{20, 6}) {
		t.Errorf("back along %v at %v", back.Points, back.SpeedsKn)
	}
	if _, err := NewDay("", "Local", boat); err == nil {
		t.Error("a zone that is another one elsewhere")
	}
	if _, err := NewDay("INVENTED", "UTC", plan.DefaultBoat()); err != nil {
		t.Errorf("a boat that is not known yet: %v", err)
	}
}

func ptr[T any](v T) *T { return &v }

func TestAddRouteFromAfar(t *testing.T) {
	p := day(t)
	accepted(t, p, RemovePart(p, 4))
	near, far := orb.Point{-35.9701, 43.0201}, orb.Point{-35.96, 43.03}
	accepted(t, p, AddRoute(p, []orb.Point{far, {-35.95, 43.03}}, time.Time{}))
	if r := p.Parts[4].Route; len(r.Points) != 3 || r.Points[0] != p.Parts[3].Stay.At || r.Points[1] != far {
		t.Errorf("the leg from the stay is drawn: %v", r.Points)
	}
	accepted(t, p, RemovePart(p, 4))
	accepted(t, p, AddRoute(p, []orb.Point{near, far}, time.Time{}))
	if r := p.Parts[4].Route; len(r.Points) != 2 || r.Points[0] != p.Parts[3].Stay.At {
		t.Errorf("a first point near the stay is the stay: %v", r.Points)
	}
}

// The way back after a way back leaves the side trip out.
func TestReturnTwice(t *testing.T) {
	p := day(t)
	for range 3 {
		accepted(t, p, RemovePart(p, len(p.Parts)-1))
	}
	accepted(t, p, MoveStay(p, 1, p.Parts[0].Route.Points[3]))
	accepted(t, p, AddRoute(p, []orb.Point{{-35.98, 43.01}}, time.Time{}))
	accepted(t, p, AddStay(p, "", plan.AtMooring, p.Parts[1].Stay.Until.Add(time.Hour)))
	accepted(t, p, AddRoute(p, []orb.Point{p.Parts[1].Stay.At}, time.Time{}))
	accepted(t, p, AddStay(p, "", "", p.Parts[1].Stay.Until.Add(2*time.Hour)))
	accepted(t, p, ReturnRoute(p))
	back := p.Parts[6].Route
	want := slices.Clone(p.Parts[0].Route.Points)
	slices.Reverse(want)
	if !slices.Equal(back.Points, want) || !slices.Equal(back.SpeedsKn, []float64{8, 20, 5}) {
		t.Errorf("back along %v at %v", back.Points, back.SpeedsKn)
	}
	accepted(t, p, AddStay(p, "", plan.AtBerth, p.Parts[5].Stay.Until.Add(2*time.Hour)))
	refused(t, p, "where the day began", ReturnRoute)
}

// Any gestures in any order leave a day that can be checked, or an error and the
// day as it was.
func TestAnyGestures(t *testing.T) {
	rng := rand.New(rand.NewSource(3))
	for range 40 {
		p := day(t)
		for range 30 {
			before := encoded(t, p)
			err := gesture(rng, p)
			if err != nil && !bytes.Equal(before, encoded(t, p)) {
				t.Fatalf("a refused gesture changed the plan: %v", err)
			}
			if err == nil && len(p.Parts) > 0 {
				accepted(t, p, nil)
			}
		}
	}
}

func gesture(rng *rand.Rand, p *plan.Plan) error {
	part, vertex := rng.Intn(7)-1, rng.Intn(6)-1
	at := geo.Direct(orb.Point{-36, 43}, rng.Float64()*360, rng.Float64()*3000)
	by := time.Duration(rng.Intn(120)-60) * time.Minute
	switch rng.Intn(11) {
	case 0:
		return MoveVertex(p, part, vertex, at)
	case 1:
		return MoveStay(p, part, at)
	case 2:
		return InsertVertex(p, part, vertex, at)
	case 3:
		return RemoveVertex(p, part, vertex)
	case 4:
		return RemovePart(p, part)
	case 5:
		return ShiftFrom(p, part, by)
	case 6:
		return AddRoute(p, []orb.Point{at, geo.Direct(at, 90, 500)}, time.Date(2026, 7, 18, 8, 0, 0, 0, time.UTC))
	case 7:
		return AddStay(p, "INVENTED", "", time.Date(2026, 7, 18, 9+rng.Intn(11), 0, 0, 0, time.UTC))
	case 8:
		return ReturnRoute(p)
	case 9:
		return SetSpeed(p, part, vertex, ptr(rng.Float64()*30))
	}
	return RenamePart(p, part, "INVENTED name")
}

func TestNames(t *testing.T) {
	p := day(t)
	accepted(t, p, RenamePart(p, 0, "a"))
	accepted(t, p, RenamePart(p, 1, "b"))
	if p.Parts[0].Route.Name != "a" || p.Parts[1].Stay.Name != "b" || RenamePart(p, 5, "") == nil {
		t.Error("names of parts")
	}
	if !bytes.Contains(encoded(t, p), []byte(`"later":[1]`)) {
		t.Error("a member of a later version is lost")
	}
}
