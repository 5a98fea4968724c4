package hazards

import (
	"math/rand"
	"reflect"
	"slices"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
	"keelroom/testdata/beside"
)

// A drag with everything else standing: most legs are taken from the memory, and the
// report is that of a fresh check. Now and then a setting changes, a waypoint comes or
// goes, or she leaves at another hour.
func TestOutcomesKeptAreThoseOfAFreshCheck(t *testing.T) {
	hull := loadFolder(t, beside.File(t, "charts", "hull"))
	c := chart.New(hull)
	d := dragger{dangers: dangersOf(hull), rnd: rand.New(rand.NewSource(20261129)), base: readPlan(t, "testdata", "plans", "roads-day.geojson")}
	session := NewSession(c)
	p := d.next()
	taken, judged := 0, 0
	for i := range 80 {
		if p = d.turn(p); i%10 == 9 {
			d.stir(p)
		}
		got := check(t, session, p)
		if len(session.Judged()) != len(got.Legs) {
			t.Fatalf("check %d: %d legs, %d are told of", i, len(got.Legs), len(session.Judged()))
		}
		for _, anew := range session.Judged() {
			if anew {
				judged++
			} else {
				taken++
			}
		}
		if string(got.Encode(p.Zone)) != string(mustCheckOn(t, c, p).Encode(p.Zone)) {
			t.Errorf("check %d in a session differs from a fresh one", i)
		}
	}
	if t.Logf("%d legs judged, %d taken from the memory", judged, taken); taken < judged/2 {
		t.Errorf("%d legs judged, only %d taken from the memory", judged, taken)
	}
}

// turn is a plan with one of its waypoints elsewhere, or one more or less of them, all
// else as it was.
func (d *dragger) turn(p *plan.Plan) *plan.Plan {
	q := *p
	q.Parts = slices.Clone(p.Parts)
	var of []int
	for i, part := range q.Parts {
		if part.Route != nil {
			of = append(of, i)
		}
	}
	k := of[d.rnd.Intn(len(of))]
	r := *q.Parts[k].Route
	d.points, r.Points = slices.Clone(r.Points), nil
	d.drag()
	r.Points, r.SpeedsKn = d.points, nil
	q.Parts[k].Route = &r
	return &q
}

// Only the legs beside a waypoint that is moved, and those that she comes to later
// than before, are judged anew: not those before it, nor those after a stay.
func TestOnlyWhatAMoveTouchesIsJudged(t *testing.T) {
	set := loadFolder(t, beside.File(t, "charts", "US5MA12M", "geojson"))
	s := NewSession(chart.New(set))
	p := cutToForty(t, readPlan(t, "testdata", "plans", "roads-day.geojson"))
	check(t, s, p)
	if n := len(s.Judged()); n != 40 || slices.Contains(s.Judged(), false) {
		t.Fatalf("of the first check's %d legs %v are judged", n, s.Judged())
	}
	check(t, s, p)
	if slices.Contains(s.Judged(), true) {
		t.Errorf("the same plan again: %v are judged", s.Judged())
	}
	points := p.Parts[0].Route.Points
	moved, out := len(points)/2, len(points)-1
	points[moved][0] += 1e-4
	check(t, s, p)
	for i, judged := range s.Judged() {
		if want := i >= moved-1 && i < out; judged != want {
			t.Errorf("waypoint %d of %d is moved: leg %d judged: %t", moved, out, i, judged)
		}
	}
	p.Boat.DraughtM += 0.01
	check(t, s, p)
	if slices.Contains(s.Judged(), false) {
		t.Errorf("with another draught %v are judged", s.Judged())
	}
}

// Whatever a plan has that is not of its routes, stays and own layer is among the
// settings: each exported member of it, changed, makes others of them.
func TestSettingsAreOfEveryMember(t *testing.T) {
	p := everyMember(t)
	before := settingsOf(p, nil)
	if again := settingsOf(p, nil); !again.equal(&before) {
		t.Fatal("the settings of a plan are not its own")
	}
	eachMember(reflect.ValueOf(p).Elem(), "plan", func(path string, v reflect.Value) {
		was := reflect.New(v.Type()).Elem()
		was.Set(v)
		if !alter(v) {
			t.Errorf("%s: a %s is not known to this test", path, v.Type())
		}
		if now := settingsOf(p, nil); now.equal(&before) {
			t.Errorf("%s is changed and the settings are the same", path)
		}
		v.Set(was)
	})
	p.Zone = time.FixedZone(p.Zone.String(), 3600)
	if now := settingsOf(p, nil); now.equal(&before) {
		t.Error("another zone of the same name is taken for the same")
	}
}

// everyMember is a plan with every pointer and list of it filled.
func everyMember(t *testing.T) *plan.Plan {
	p := readPlan(t, "testdata", "plans", "roads-day.geojson")
	fill(reflect.ValueOf(p).Elem(), 0)
	return p
}

// fill gives every nil pointer and empty list of a plan something.
func fill(v reflect.Value, depth int) {
	if depth > 8 || v.Type() == reflect.TypeFor[time.Time]() || v.Type() == reflect.TypeFor[*time.Location]() {
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		if v.IsNil() {
			v.Set(reflect.New(v.Type().Elem()))
		}
		fill(v.Elem(), depth+1)
	case reflect.Slice:
		if v.Len() == 0 {
			v.Set(reflect.MakeSlice(v.Type(), 1, 1))
		}
		for i := range v.Len() {
			fill(v.Index(i), depth+1)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				fill(v.Field(i), depth+1)
			}
		}
	}
}

// notSettings are the members of a plan that legs get by themselves.
var notSettings = []string{"plan.Parts", "plan.Private", "plan.Zone"}

// eachMember calls fn with every exported member of a value that has none itself.
func eachMember(v reflect.Value, path string, fn func(string, reflect.Value)) {
	if slices.Contains(notSettings, path) {
		return
	}
	switch {
	case v.Type() == reflect.TypeFor[time.Time]():
		fn(path, v)
	case v.Kind() == reflect.Pointer:
		if !v.IsNil() {
			eachMember(v.Elem(), path, fn)
		}
	case v.Kind() == reflect.Slice || v.Kind() == reflect.Array:
		for i := range min(v.Len(), 2) {
			eachMember(v.Index(i), path, fn)
		}
	case v.Kind() == reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() {
				eachMember(v.Field(i), path+"."+f.Name, fn)
			}
		}
	default:
		fn(path, v)
	}
}

// alter makes another value of one.
func alter(v reflect.Value) bool {
	switch {
	case v.Type() == reflect.TypeFor[time.Time]():
		v.Set(reflect.ValueOf(v.Interface().(time.Time).Add(time.Nanosecond)))
	case v.Kind() == reflect.String:
		v.SetString(v.String() + "x")
	case v.Kind() == reflect.Float64:
		v.SetFloat(v.Float() + 1)
	case v.CanInt():
		v.SetInt(v.Int() + 1)
	case v.Kind() == reflect.Bool:
		v.SetBool(!v.Bool())
	default:
		return false
	}
	return true
}

// A leg may pass the buoy that she moors to later: where that is, is among the settings.
func TestMooringsAreSettings(t *testing.T) {
	p := readPlan(t, "testdata", "plans", "roads-day.geojson")
	p.Stays()[0].Kind = plan.AtMooring
	before := settingsOf(p, nil)
	p.Stays()[0].At = orb.Point{p.Stays()[0].At[0] + 1e-7, p.Stays()[0].At[1]}
	if now := settingsOf(p, nil); now.equal(&before) {
		t.Error("another mooring makes no other settings")
	}
}

// What was asked for lately is kept, what was not goes.
func TestRecentForgets(t *testing.T) {
	r := newRecent[int, int](3)
	for i := range 3 {
		r.put(i, 10*i)
	}
	r.put(3, 30)
	if v, ok := r.get(0); !ok || v != 0 {
		t.Error("0 is forgotten though there is room")
	}
	r.put(4, 40)
	r.put(5, 50) // 1 and 2 were not asked for since
	for k, want := range map[int]bool{0: true, 1: false, 2: false, 3: true, 5: true} {
		if _, ok := r.get(k); ok != want {
			t.Errorf("%d is kept: %t", k, ok)
		}
	}
}

// What is told once a day is told on the way home when the way out, dragged elsewhere,
// no longer meets it, and on the way out again when it is dragged back: though nothing
// that goes into the legs home has changed meanwhile.
func TestToldOnceIsToldOnTheLegThatIsLeft(t *testing.T) {
	caution := area(chart.CTNARE, rectangle(40, 45, 50, 55))
	caution.Info = "INVENTED: small craft cross here"
	c := chart.New(set(caution, buoyage(1, 90)))
	straight, round := []orb.Point{at(10, 50), at(45, 50), at(80, 50)}, []orb.Point{at(10, 50), at(45, 80), at(80, 50)}
	plans := func(out []orb.Point) *plan.Plan {
		p := day(out...)
		lunch(p)
		p.Parts = append(p.Parts, plan.Part{Route: &plan.Route{Name: "home", Points: []orb.Point{at(80, 50), at(10, 50)}}})
		return p
	}
	session := NewSession(c)
	var legs []int
	for _, out := range [][]orb.Point{straight, round, straight, round} {
		p := plans(out)
		got := check(t, session, p)
		if string(got.Encode(p.Zone)) != string(mustCheckOn(t, c, p).Encode(p.Zone)) {
			t.Errorf("over %d points out: the session's report is not that of a fresh check", len(out))
		}
		for _, f := range got.Findings {
			if f.Check == plan.CheckNoEntry {
				legs = append(legs, f.Leg)
			}
		}
	}
	if want := []int{1, 3, 1, 3}; !slices.Equal(legs, want) {
		t.Errorf("the caution area is told of on legs %v, want %v", legs, want)
	}
}
