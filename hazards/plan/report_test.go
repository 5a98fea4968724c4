package plan

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"
)

func july(hour, minute, second int) *time.Time {
	return new(time.Date(2026, 7, 11, hour, minute, second, 0, time.UTC))
}

// exampleReport is a report with every kind of feature, in invented waters. Its
// figures are made up and have the decimals of the contract.
func exampleReport() *Report {
	r := NewReport()
	r.Verdict = NotClear
	r.Depart, r.Back = july(9, 0, 0), july(16, 20, 0)
	r.LeaveBy = []LeaveBy{{Time: july(14, 5, 0), Why: "the bar has 1.50 m then (INVENTED)"}, {Why: "not known"}}
	r.DistanceNm, r.UnderWayMin = new(12.34), new(61.5)
	r.LeastClearance = &LeastClearance{ClearanceM: new(0.41), Time: july(9, 31, 2), Position: orb.Point{-36.13, 43.15}, Leg: 2}
	r.Tide = &TideOfDay{Datum: 23, Method: "harmonic", Events: []HighOrLow{{*july(3, 4, 5), HighWater, 4.1, nil}, {*july(9, 15, 0), LowWater, -0.12, nil}}}
	r.Sun = &Sun{Sunrise: july(6, 1, 2), Sunset: july(21, 3, 4)}
	r.Charts = []ChartUsed{{Title: "INVENTED waters", Edition: "1", IssueDate: "20260101", Scale: 12000, Datum: 23, Authority: "private", SHA256: "00ff"}}
	r.Messages = []string{"W-SPEED features[3]: no figure"}
	r.More = []More{{Check: CheckNoEntry, Severity: NotClear, Leg: 2, Count: 1980}, {Check: CheckCoverage, Severity: Care, Count: 3}}
	r.Checks = map[string]string{CheckSea: NoInput, CheckClearance: Done, CheckLines: NotBuilt, CheckChain: NotApplicable}
	r.Legs = []Leg{
		{Route: "Out", Leg: 1, CourseDeg: new(65.5), CourseMagneticDeg: new(75.25), DistanceNm: new(0.72), Start: july(9, 0, 0), End: july(9, 7, 0), Kn: new(6.2), LeastClearanceM: new(1.2), Passes: []Source{{Layer: "sketch", Class: "PRCARE", Name: "Race water (INVENTED)"}, {Layer: "sketch", Class: "CTNARE"}}, Line: orb.LineString{{-36.2, 43.1}, {-36.185, 43.105}}},
		{Route: "Out", Leg: 2, Line: orb.LineString{{-36.185, 43.105}, {-36.13, 43.15}}},
	}
	r.Findings = []Finding{{
		Check: CheckClearance, Severity: NotClear, Title: "Too little water", Detail: "0.41 m under the keel; 1.00 m is wanted.", Leg: 2,
		Time: july(9, 31, 2), Until: july(9, 33, 0), Windows: [][2]time.Time{{*july(11, 0, 0), *july(17, 30, 0)}},
		Measured: new(0.41), Required: new(1.0), Unit: "m", Source: &Source{Layer: "sketch", Class: "DEPARE", Name: "Farrow Bar (INVENTED)"},
		Made:     []Term{{Name: "charted depth", Value: 1.5, Unit: "m", Why: "DRVAL1"}, {Name: "tide", Value: 0.21, Unit: "m", Why: "least within 15 min"}},
		Also:     []Passing{{Leg: 2, Time: july(9, 35, 0), At: orb.Point{-36.131, 43.151}}, {Leg: 7, Time: july(16, 2, 30), At: orb.Point{-36.14, 43.14}}},
		Geometry: orb.Polygon{{{-36.14, 43.14}, {-36.13, 43.14}, {-36.13, 43.15}, {-36.14, 43.14}}},
	}, {Check: CheckFuel, Severity: NoData, Title: "No burn curve", Windows: [][2]time.Time{}}}
	r.Zones = []ZonePassage{{Name: "Quay limit", LimitKn: new(5.0), Stated: true, Leg: 1, Enter: july(9, 0, 0), Leave: july(9, 5, 0), Entry: orb.Point{-36.2, 43.1}, Exit: orb.Point{-36.19, 43.103}}}
	r.SlowDowns = []SlowDown{{Zone: "Quay limit", Leg: 4, Time: july(16, 10, 0), FromKn: new(22.0), ToKn: new(5.0), At: orb.Point{-36.188, 43.104}}}
	r.Clearances = []Clearance{{Leg: 2, Time: july(9, 31, 2), ChartedDepthM: new(1.5), TideM: new(0.21), MarginM: new(0.3), DraughtM: new(0.95), SquatM: new(0.05), WaveM: new(0.0), ClearanceM: new(0.41), RequiredM: new(1.0), At: orb.Point{-36.13, 43.15}}}
	r.Stays = []StayResult{{Name: "Lanternfish Cove (INVENTED)", Leg: 3, Arrive: july(10, 2, 0), Until: july(15, 30, 0), DepthLeastM: new(3.1), RadiusM: new(30.12), WindFromDeg: new(240.0), WindRoom: &WindRoom{BackingDeg: new(41.0)}, At: orb.Point{-36.1, 43.18}}}
	r.Circles = []SwingingCircle{{Stay: "Lanternfish Cove (INVENTED)", Leg: 3, RadiusM: new(30.12), Area: orb.Polygon{{{-36.1, 43.18}, {-36.099, 43.18}, {-36.1, 43.181}, {-36.1, 43.18}}}}}
	return r
}

func TestReportRoundTrip(t *testing.T) {
	want := exampleReport()
	b := want.Encode(nil)
	got, err := DecodeReport(b)
	if err != nil {
		t.Fatal(err)
	}
	// The features come back in the order of the report: the fuel finding is not on a leg.
	slices.Reverse(want.Findings)
	if !reflect.DeepEqual(want, got) {
		t.Errorf("got\n%+v\nwant\n%+v\nfrom\n%s", got, want, b)
	}
}

// contractMembers are the members that plan-file.md section 4 names.
var contractMembers = map[string]string{
	"report":    "version verdict depart back leave_by distance_nm under_way_min fuel_l least_clearance tide sun charts messages checks cautions",
	"leg":       "route leg course_deg course_magnetic_deg distance_nm start end kn least_clearance_m",
	"finding":   "check severity title detail leg time until windows measured required unit source",
	"zone":      "name limit_kn enter leave exit stated",
	"slow-down": "zone time from_kn to_kn",
	"clearance": "leg time charted_depth_m tide_m margin_m draught_m squat_m wave_m clearance_m required_m source",
	"stay": "name arrive until depth_arrival_m depth_least_m depth_greatest_m clearance_least_m rode_m rode_aboard_m radius_m lee_room_m " +
		"sea_greatest_m fetch_nm wind_from_deg wind_room_deg",
	"swinging-circle": "stay radius_m",
}

// TestContractMembers: every member of the contract is written, known or not.
func TestContractMembers(t *testing.T) {
	empty := &Report{Legs: make([]Leg, 1), Findings: make([]Finding, 1), Zones: make([]ZonePassage, 1), SlowDowns: make([]SlowDown, 1),
		Clearances: make([]Clearance, 1), Stays: make([]StayResult, 1), Circles: make([]SwingingCircle, 1)}
	for name, r := range map[string]*Report{"full": exampleReport(), "empty": empty} {
		doc := parsed(t, r.Encode(nil)).(map[string]any)
		seen := map[string]bool{"report": true}
		has(t, name, "report", doc["report"].(map[string]any))
		for _, f := range doc["features"].([]any) {
			properties := f.(map[string]any)["properties"].(map[string]any)
			kind := properties["kind"].(string)
			seen[kind] = true
			has(t, name, kind, properties)
		}
		if len(seen) != len(contractMembers) {
			t.Errorf("%s: kinds %v", name, seen)
		}
	}
}

func has(t *testing.T, name, kind string, object map[string]any) {
	t.Helper()
	for _, member := range strings.Fields(contractMembers[kind]) {
		if _, ok := object[member]; !ok {
			t.Errorf("%s report, %s: no member %s", name, kind, member)
		}
	}
}

// TestAlsoAndPasses: where else a finding holds, and the areas a leg only passes
// through, are members that are there only when there is something to say.
func TestAlsoAndPasses(t *testing.T) {
	zone := time.FixedZone("", 2*3600)
	text := string(exampleReport().Encode(zone))
	for _, want := range []string{
		`"also":[{"leg":2,"time":"2026-07-11T11:35:00+02:00","position":[-36.1310000,43.1510000]},{"leg":7,"time":"2026-07-11T18:02:30+02:00","position":[-36.1400000,43.1400000]}]`,
		`"more":[{"check":"no-entry","severity":"not-clear","leg":2,"count":1980},{"check":"coverage","severity":"care","leg":null,"count":3}]`,
		`"passes":[{"layer":"sketch","class":"PRCARE","name":"Race water (INVENTED)"},{"layer":"sketch","class":"CTNARE","name":""}]`,
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %s in\n%s", want, text)
		}
	}
	if n := strings.Count(text, `"also"`) + strings.Count(text, `"passes"`); n != 2 {
		t.Errorf("also and passes %d times, want once each", n)
	}
}

// TestReportOrder: the order of the slices does not matter.
func TestReportOrder(t *testing.T) {
	rng := rand.New(rand.NewPCG(43, 39))
	base := func() *Report {
		r := exampleReport()
		for leg := range 3 {
			for _, check := range []string{CheckSea, CheckLand, CheckLand} {
				for i := range 3 {
					r.Findings = append(r.Findings, Finding{Check: check, Severity: Care, Leg: leg, Time: july(9, i/2, 0), Title: string(rune('a' + i)), Geometry: orb.Point{-36 - float64(i%2), 43}})
				}
			}
		}
		return r
	}
	want := string(base().Encode(nil))
	for range 50 {
		r := base()
		rng.Shuffle(len(r.Findings), func(i, j int) { r.Findings[i], r.Findings[j] = r.Findings[j], r.Findings[i] })
		rng.Shuffle(len(r.Legs), func(i, j int) { r.Legs[i], r.Legs[j] = r.Legs[j], r.Legs[i] })
		if got := string(r.Encode(nil)); got != want {
			t.Fatalf("another order gives another report")
		}
	}
	checkOrder(t, []byte(want))
}

// checkOrder reads the keys back and compares neighbours: leg, time, check, position.
func checkOrder(t *testing.T, b []byte) {
	t.Helper()
	var doc struct {
		Features []struct {
			Geometry   *struct{ Coordinates json.RawMessage }
			Properties struct {
				Leg                        *int
				Time, Start, Enter, Arrive string
				Check                      string
			}
		}
	}
	if err := json.Unmarshal(b, &doc); err != nil {
		t.Fatal(err)
	}
	last := ""
	for i, f := range doc.Features {
		p := f.Properties
		leg := 0
		if p.Leg != nil {
			leg = *p.Leg
		}
		key := string(rune('0'+leg)) + "\x00" + p.Time + p.Start + p.Enter + p.Arrive + "\x00" + p.Check
		if key < last {
			t.Errorf("feature %d: %q after %q", i, key, last)
		}
		last = key
	}
}

func TestFloorHundredths(t *testing.T) {
	tests := []struct{ in, want float64 }{
		{0.29, 0.29}, {0.289, 0.28}, {0.2894, 0.28}, {0.2896, 0.29}, {0.299, 0.29}, {0.2996, 0.3}, {0, 0}, {-0.001, -0.01}, {-0.29, -0.29}, {-0.291, -0.3},
		{1.5 + 0.21 - 0.3 - 0.95 - 0.05, 0.41}, {2.9 - 2.61, 0.29}, {3.1 - 2.81, 0.29}, {0.1 + 0.2, 0.3}, {11000.019, 11000.01},
	}
	for _, tt := range tests {
		if got := FloorHundredths(tt.in); math.Abs(got-tt.want) > 1e-12 {
			t.Errorf("%v: %v, want %v", tt.in, got, tt.want)
		}
	}
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if got := FloorHundredths(v); got-got == 0 {
			t.Errorf("%v became %v", v, got)
		}
	}
}

// TestRounding: metres, miles and degrees 2 decimals, clearances and depths down,
// knots and litres 1, whole seconds with the zone's offset, positions 7.
func TestRounding(t *testing.T) {
	zone := time.FixedZone("", 2*3600)
	half := time.Date(2026, 7, 11, 9, 0, 0, 600_000_000, time.UTC)
	r := &Report{DistanceNm: new(12.345678), UnderWayMin: new(61.26), FuelL: new(30.06), Depart: &half, LeaveBy: []LeaveBy{{Time: &half}}}
	r.Legs = []Leg{{Leg: 1, CourseDeg: new(359.996), CourseMagneticDeg: new(7.126), Kn: new(21.96), LeastClearanceM: new(0.999), Line: orb.LineString{{-36.12345678, 43}, {-36, 43.00000004}}}}
	r.Findings = []Finding{
		{Check: CheckClearance, Leg: 2, Unit: "m", Measured: new(0.4994), Required: new(0.5), Windows: [][2]time.Time{{half, half.Add(time.Hour)}}},
		{Check: CheckSea, Leg: 3, Unit: "m", Measured: new(0.8049), Required: new(0.8)},
		{Check: CheckFuel, Leg: 4, Unit: "l", Measured: new(-3.14)},
	}
	r.Stays = []StayResult{{Leg: 5, DepthLeastM: new(-0.001), DepthGreatestM: new(4.999), RadiusM: new(30.128), FetchNm: new(0.005)}}
	text := string(r.Encode(zone))
	for _, want := range []string{
		`"distance_nm":12.35`, `"under_way_min":61.3`, `"fuel_l":30.1`, `"depart":"2026-07-11T11:00:01+02:00"`, `"leave_by":[{"time":"2026-07-11T11:00:00+02:00"`,
		`"course_deg":0.00`, `"course_magnetic_deg":7.13`, `"kn":22.0`, `"least_clearance_m":0.99`, `[-36.1234568,43.0000000],[-36.0000000,43.0000000]`,
		`"measured":0.49,"required":0.50`, `"windows":[["2026-07-11T11:00:01+02:00","2026-07-11T12:00:00+02:00"]]`,
		`"measured":0.81,"required":0.80`, `"measured":-3.1,"required":null`, `"depth_least_m":-0.01`, `"depth_greatest_m":4.99`, `"radius_m":30.13`,
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %s in\n%s", want, text)
		}
	}
}

// TestNothingThatIsNotFinite: NaN and infinities become null, in every member.
func TestNothingThatIsNotFinite(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		r := exampleReport()
		spoilNumbers(reflect.ValueOf(r).Elem(), bad)
		b := r.Encode(nil)
		if !json.Valid(b) {
			t.Fatalf("not JSON: %s", b)
		}
		if _, err := DecodeReport(b); err != nil && strings.Contains(err.Error(), "not JSON") {
			t.Error(err)
		}
	}
}

// spoilNumbers sets every float64 that it finds to bad.
func spoilNumbers(v reflect.Value, bad float64) {
	switch v.Kind() {
	case reflect.Float64:
		if v.CanSet() {
			v.SetFloat(bad)
		}
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() && v.Type() != reflect.TypeFor[*time.Time]() {
			spoilNumbers(v.Elem(), bad)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				spoilNumbers(v.Field(i), bad)
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			spoilNumbers(v.Index(i), bad)
		}
	}
}

func TestSeverity(t *testing.T) {
	// plan-file.md section 4: not-clear > no-data > care > clear; a note does not count.
	order := []Severity{Note, Clear, Care, NoData, NotClear}
	for i, a := range order {
		for j, b := range order {
			if got := a.Worse(b); got != order[max(i, j)] {
				t.Errorf("%v and %v: %v", a, b, got)
			}
		}
		if s, ok := ParseSeverity(a.String()); !ok || s != a {
			t.Errorf("%v does not come back", a)
		}
	}
	var unset Severity
	if unset.String() != "no-data" || unset.Worse(Clear) != NoData || Clear.Worse(unset) != NoData || unset.Worse(NotClear) != NotClear {
		t.Error("a severity that was not set must count as no data")
	}
	if _, ok := ParseSeverity("fine"); ok {
		t.Error("fine is no severity")
	}
	tests := []struct {
		found []Severity
		want  Severity
	}{
		{nil, Clear}, {[]Severity{Note}, Clear}, {[]Severity{Note, Care, Clear}, Care},
		{[]Severity{Care, NoData, Note}, NoData}, {[]Severity{NotClear, NoData}, NotClear}, {[]Severity{unset}, NoData},
	}
	for _, tt := range tests {
		var findings []Finding
		for _, s := range tt.found {
			findings = append(findings, Finding{Severity: s})
		}
		if got := VerdictOf(findings); got != tt.want {
			t.Errorf("%v: %v, want %v", tt.found, got, tt.want)
		}
	}
}

func TestNewReportIsNotClear(t *testing.T) {
	text := string(NewReport().Encode(nil))
	if !strings.Contains(text, `"verdict":"no-data"`) {
		t.Errorf("a report nobody judged: %s", text)
	}
	for _, caution := range StandingCautions() {
		if !strings.Contains(text, caution) {
			t.Errorf("no caution %q", caution)
		}
	}
}

func TestReportsRefused(t *testing.T) {
	good := string(exampleReport().Encode(nil))
	for _, tt := range [][3]string{
		{`"verdict":"not-clear"`, `"verdict":"fine"`, `report.verdict`},
		{`"version":1`, `"version":"1"`, `report.version`},
		{`"kind":"zone"`, `"kind":"zones"`, `the kind "zones"`},
		{`"leg":1,"course_deg"`, `"leg":"1","course_deg"`, `properties.leg`},
		{`"report"`, `"result"`, `report`},
	} {
		if _, err := DecodeReport([]byte(change(t, good, tt[0], tt[1]))); err == nil || !strings.Contains(err.Error(), tt[2]) {
			t.Errorf("%s: %v", tt[1], err)
		}
	}
}
