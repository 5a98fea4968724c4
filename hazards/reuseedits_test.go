package hazards

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"time"

	"github.com/paulmach/orb"

	"keelroom/hazards/plan"
)

// memberEdit changes one member of a plan.
type memberEdit struct {
	path  string
	apply func()
}

// editsOf are the changes that a plan allows, one or more for each exported member of
// it, found by reflection so that none is forgotten.
func (ru *reuser) editsOf(p *plan.Plan) []memberEdit {
	var out []memberEdit
	ru.walk(reflect.ValueOf(p).Elem(), "plan", func(path string, apply func()) { out = append(out, memberEdit{path, apply}) })
	out = append(out, memberEdit{"another date", func() { ru.anotherDate(p) }}, memberEdit{"a waypoint between", func() { ru.waypointBetween(p) }},
		memberEdit{"a route added", func() { ru.routeAdded(p) }}, memberEdit{"the parts in the other order", func() { otherWayRound(p) }},
		memberEdit{"a stay moved with its routes", func() { ru.moveStay(p) }})
	return out
}

func (ru *reuser) walk(v reflect.Value, path string, add func(string, func())) {
	switch v.Kind() {
	case reflect.Pointer:
		ru.walkPointer(v, path, add)
	case reflect.Struct:
		if v.Type() == timeType {
			add(path, func() { ru.moveTime(v) })
			return
		}
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() {
				ru.walk(v.Field(i), path+"."+f.Name, add)
			}
		}
	case reflect.Slice:
		ru.walkSlice(v, path, add)
	case reflect.Array:
		for i := range v.Len() {
			ru.walk(v.Index(i), path+"[]", add)
		}
	default:
		add(path, func() { ru.alterLeaf(v, path) })
	}
}

func (ru *reuser) walkPointer(v reflect.Value, path string, add func(string, func())) {
	if v.Type() == reflect.TypeFor[*time.Location]() {
		return // with its name: see alterText
	}
	switch {
	case v.IsNil() && v.Type() == reflect.TypeFor[*plan.Secondary]():
	case v.IsNil():
		add(path+"?", func() {
			v.Set(reflect.New(v.Type().Elem()))
			ru.fillIn(v.Elem(), path)
		})
	default:
		add(path+"?", func() { v.SetZero() })
		ru.walk(v.Elem(), path, add)
	}
}

// walkSlice changes a list as a whole, and some of its items.
func (ru *reuser) walkSlice(v reflect.Value, path string, add func(string, func())) {
	n := v.Len()
	if v.Type().Elem().Kind() == reflect.Uint8 {
		add(path, func() { v.SetBytes([]byte(strings.Replace(string(v.Bytes()), "36.", "36.0", 1))) })
		return
	}
	add(path+"+", func() { ru.grow(v, path) })
	if n > 0 {
		k := ru.rnd.Intn(n)
		add(path+"-", func() { v.Set(reflect.AppendSlice(v.Slice3(0, k, k), v.Slice(k+1, n))) })
	}
	if n > 1 {
		k := ru.rnd.Intn(n - 1)
		add(path+"<>", func() { reflect.Swapper(v.Interface())(k, k+1) })
	}
	for _, i := range ru.rnd.Perm(n)[:min(n, 3)] {
		ru.walk(v.Index(i), path+"[]", add)
	}
}

// grow puts one more item into a list: another such as the last, or one made up.
func (ru *reuser) grow(v reflect.Value, path string) {
	if path == "plan.Private" {
		v.Set(reflect.AppendSlice(v, reflect.ValueOf(append(privateAlong(ru.plan)[ru.rnd.Intn(4):], ru.unreadMark()))))
		return
	}
	item := reflect.New(v.Type().Elem()).Elem()
	if v.Len() > 0 {
		item.Set(v.Index(v.Len() - 1))
	}
	ru.fillIn(item, path)
	v.Set(reflect.Append(v, item))
}

// unreadMark is a mark of the plan's own layer that cannot be read, so that a message
// names its place among the features of the file.
func (ru *reuser) unreadMark() plan.PrivateFeature {
	p := ru.somewhere()
	return plan.PrivateFeature{Role: plan.RoleHazard, Feature: fmt.Appendf(nil,
		`{"type":"Feature","properties":{"role":"hazard","objectClass":"BOYCAR","CATCAM":"x"},"geometry":{"type":"Point","coordinates":[%f,%f]}}`, p[0], p[1])}
}

// fillIn gives what is new values that may stand in a plan.
func (ru *reuser) fillIn(v reflect.Value, path string) {
	switch {
	case v.Type() == reflect.TypeFor[orb.Point]():
		v.Set(reflect.ValueOf(ru.somewhere()))
	case v.Type() == timeType:
		if v.IsZero() {
			v.Set(reflect.ValueOf(*ru.plan.Parts[0].Route.Depart))
		}
		v.Set(reflect.ValueOf(v.Interface().(time.Time).Add(time.Duration(1+ru.rnd.Intn(900)) * time.Minute)))
	case v.Kind() == reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				ru.fillIn(v.Field(i), path+"."+v.Type().Field(i).Name)
			}
		}
	case v.Kind() == reflect.Pointer || v.Kind() == reflect.Slice:
	default:
		ru.alterLeaf(v, path)
	}
}

// somewhere is a place near one of the plan's waypoints.
func (ru *reuser) somewhere() orb.Point {
	routes := ru.plan.Routes()
	points := routes[ru.rnd.Intn(len(routes))].Points
	p := points[ru.rnd.Intn(len(points))]
	return orb.Point{p[0] + 0.001*ru.rnd.NormFloat64(), p[1] + 0.001*ru.rnd.NormFloat64()}
}

func (ru *reuser) moveTime(v reflect.Value) {
	by := []time.Duration{time.Nanosecond, time.Second, time.Minute, 7 * time.Minute, time.Hour, 4 * time.Hour, 24 * time.Hour}[ru.rnd.Intn(7)]
	if ru.rnd.Intn(2) == 0 {
		by = -by
	}
	v.Set(reflect.ValueOf(v.Interface().(time.Time).Add(by)))
}

func (ru *reuser) alterLeaf(v reflect.Value, path string) {
	switch v.Kind() {
	case reflect.Float64:
		v.SetFloat(ru.alteredNumber(v.Float(), path))
	case reflect.Int:
		v.SetInt(ru.alteredInt(v.Int(), path))
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.String:
		v.SetString(ru.alteredText(v.String(), path))
	default:
		ru.t.Fatalf("%s: a %s is not known to this test", path, v.Type())
	}
}

func (ru *reuser) alteredNumber(v float64, path string) float64 {
	switch {
	case strings.Contains(path, "Points") || strings.Contains(path, "At[]") || strings.Contains(path, "Position"):
		return v + []float64{1e-7, -1e-6, 1e-5, -1e-4, 1e-3, -5e-3}[ru.rnd.Intn(6)]
	case strings.HasSuffix(path, "Deg"):
		return []float64{0, 45, 90, 180, 270, 10 * float64(ru.rnd.Intn(36))}[ru.rnd.Intn(6)]
	}
	return []float64{v * 1.01, v * 1.3, v * 0.5, v * 2, v + 0.1, v + 1, v + 10}[ru.rnd.Intn(7)]
}

func (ru *reuser) alteredInt(v int64, path string) int64 {
	if strings.HasSuffix(path, "Datum") {
		return []int64{3, 16, 17, 23, 24, 30}[ru.rnd.Intn(6)]
	}
	return v + 1
}

// texts are the words that members of these names may have.
var texts = map[string][]string{
	".Kind": {plan.AtAnchor, plan.AtMooring, plan.AtBerth, plan.HighWater, plan.LowWater}, ".Side": {plan.PortSide, plan.StarboardSide, ""},
	".BuoyageRegion": {"A", "B", ""}, ".ZoneName": {"UTC", "Atlantic/Azores", "Europe/Lisbon", "Pacific/Auckland", "America/New_York"},
	".Day": {"2026-03-29", "2026-10-25", ""}, "Constituents.Name": {"M2", "S2", "N2", "K1", "O1", "M4"}, "Trust": {"INVENTED waters", "nothing"},
}

func (ru *reuser) alteredText(v, path string) string {
	for end, list := range texts {
		if strings.HasSuffix(strings.ReplaceAll(path, "[]", ""), end) {
			return list[ru.rnd.Intn(len(list))]
		}
	}
	return v + "x"
}

// anotherDate moves the whole day, with all that has a time: to one on which clocks
// are put forward or back, or to the next.
func (ru *reuser) anotherDate(p *plan.Plan) {
	depart := *p.Parts[0].Route.Depart
	days := []time.Time{time.Date(2026, 3, 29, 0, 0, 0, 0, time.UTC), time.Date(2026, 10, 25, 0, 0, 0, 0, time.UTC), depart.AddDate(0, 0, 1), depart.AddDate(0, 0, -1)}
	by := days[ru.rnd.Intn(len(days))].Truncate(24 * time.Hour).Sub(depart.Truncate(24 * time.Hour))
	eachTime(reflect.ValueOf(p).Elem(), func(v reflect.Value) { v.Set(reflect.ValueOf(v.Interface().(time.Time).Add(by))) })
}

func eachTime(v reflect.Value, fn func(reflect.Value)) {
	switch {
	case v.Type() == timeType:
		fn(v)
	case v.Kind() == reflect.Pointer && !v.IsNil() && v.Type() != reflect.TypeFor[*time.Location]():
		eachTime(v.Elem(), fn)
	case v.Kind() == reflect.Slice:
		for i := range v.Len() {
			eachTime(v.Index(i), fn)
		}
	case v.Kind() == reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				eachTime(v.Field(i), fn)
			}
		}
	}
}

func (ru *reuser) waypointBetween(p *plan.Plan) {
	routes := p.Routes()
	r := routes[ru.rnd.Intn(len(routes))]
	i := ru.rnd.Intn(len(r.Points) - 1)
	r.Points = slices.Insert(r.Points, i+1, between(r.Points[i], r.Points[i+1]))
	if r.SpeedsKn != nil {
		r.SpeedsKn = slices.Insert(r.SpeedsKn, i, r.SpeedsKn[i])
	}
}

// routeAdded goes on from where the day ends: after a stay, or at once.
func (ru *reuser) routeAdded(p *plan.Plan) {
	last := p.Routes()[len(p.Routes())-1]
	end := last.Points[len(last.Points)-1]
	if ru.rnd.Intn(4) > 0 {
		until := p.Parts[0].Route.Depart.Add(time.Duration(6+ru.rnd.Intn(8)) * time.Hour)
		p.Parts = append(p.Parts, plan.Part{Stay: &plan.Stay{Name: "INVENTED stop", At: end, Until: until, Kind: plan.AtAnchor}})
	}
	p.Parts = append(p.Parts, plan.Part{Route: &plan.Route{Name: "INVENTED on", Points: []orb.Point{end, ru.somewhere(), ru.somewhere()}}})
}

// otherWayRound is the day from its end to its beginning, with the stays' times as they were.
func otherWayRound(p *plan.Plan) {
	var untils []time.Time
	for _, s := range p.Stays() {
		untils = append(untils, s.Until)
	}
	depart := p.Parts[0].Route.Depart
	p.Parts[0].Route.Depart = nil
	slices.Reverse(p.Parts)
	for _, r := range p.Routes() {
		slices.Reverse(r.Points)
		slices.Reverse(r.SpeedsKn)
	}
	for i, s := range p.Stays() {
		s.Until = untils[i]
	}
	if p.Parts[0].Route != nil {
		p.Parts[0].Route.Depart = depart
	}
}

// moveStay moves a stay, and the ends of the routes that meet there.
func (ru *reuser) moveStay(p *plan.Plan) {
	east, north := 0.0005*ru.rnd.NormFloat64(), 0.0005*ru.rnd.NormFloat64()
	move := func(at *orb.Point) { *at = orb.Point{at[0] + east, at[1] + north} }
	for i := range p.Parts {
		if s := p.Parts[i].Stay; s != nil {
			before := p.Parts[i-1].Route
			move(&s.At)
			move(&before.Points[len(before.Points)-1])
			if i+1 < len(p.Parts) {
				move(&p.Parts[i+1].Route.Points[0])
			}
			return
		}
	}
}

// readAgain is a plan as its file gives it; nil where that is refused.
func readAgain(p *plan.Plan) *plan.Plan {
	b, err := p.Write()
	if err != nil {
		return nil
	}
	if p, err = plan.Decode(b); err != nil {
		return nil
	}
	return p
}
