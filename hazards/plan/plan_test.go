package plan

import (
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"
)

// TestDefaults: the figures of plan-file.md section 1, for a plan that gives none.
func TestDefaults(t *testing.T) {
	p := mustDecode(t, readFile(t, "testdata/smallest.geojson"))
	b, m := p.Boat, p.Margins
	tests := []struct {
		name      string
		got, want float64
	}{
		{"harbour_kn", b.HarbourKn, 5}, {"warm_up_kn", b.WarmUpKn, 7}, {"warm_up_min", b.WarmUpMin, 15},
		{"cool_down_min", b.CoolDownMin, 5}, {"planing_kn", b.PlaningKn, 14}, {"hump_m", b.HumpM, 0.35},
		{"block_coefficient", b.BlockCoeff, 0.4}, {"slow_down_m", b.SlowDownM, 150}, {"rough_kn", b.RoughKn, 8},
		{"sea_limit_m", b.SeaLimitM, 0.8}, {"sea_stop_m", b.SeaStopM, 1.2},
		{"bow_roller_m", DefaultRode().BowRollerM, 1.0}, {"rope_m", DefaultRode().RopeM, 0},
		{"under_keel_m", m.UnderKeelM, 0.5}, {"under_keel_fast_m", m.UnderKeelFastM, 1.0}, {"comfort_depth_m", m.ComfortDepthM, 3.0},
		{"anchored_under_keel_m", m.AnchoredUnderKeelM, 1.0}, {"corridor_m", m.CorridorM, 25}, {"corridor_slow_m", m.CorridorSlowM, 8},
		{"hazard_m", m.HazardM, 10}, {"berth_m", m.BerthM, 150}, {"mark_m", m.MarkM, 200}, {"mark_off_m", m.MarkOffM, 10}, {"overhead_m", m.OverheadM, 0.5},
		{"tide_m", m.TideM, 0.3}, {"wave_fraction", m.WaveFraction, 1.0}, {"anchored_sea_m", m.AnchoredSeaM, 0.3},
		{"window_min", m.WindowMin, 45}, {"wind_room_deg", m.WindRoomDeg, 30}, {"open_fetch_km", m.OpenFetchKm, 20},
		{"scope, 12 kn", m.ScopeFor(12, false), 3}, {"scope, 12.1 kn", m.ScopeFor(12.1, false), 5}, {"scope with rope", m.ScopeFor(5, true), 7},
		{"under keel at 8 kn", m.UnderKeelAt(8), 0.5}, {"under keel at 8.1 kn", m.UnderKeelAt(8.1), 1.0},
		{"corridor at 8 kn", m.CorridorAt(8), 8}, {"corridor at 8.1 kn", m.CorridorAt(8.1), 25},
		{"gust", (&Wind{Kn: 10}).Gust(), 14}, {"gust given", (&Wind{Kn: 10, GustKn: new(11.0)}).Gust(), 11},
		{"draught_m", b.DraughtM, 0.9}, {"cruise_kn", b.CruiseKn, 22},
	}
	for _, tt := range tests {
		if math.Abs(tt.got-tt.want) > 1e-12 {
			t.Errorf("%s: %v, want %v", tt.name, tt.got, tt.want)
		}
	}
}

// TestUnknownStaysUnknown: what has no default is nil, and what is computed from
// it says so.
func TestUnknownStaysUnknown(t *testing.T) {
	p := mustDecode(t, readFile(t, "testdata/smallest.geojson"))
	b := &p.Boat
	if b.LengthM != nil || b.BeamM != nil || b.AirDraughtM != nil || b.WindageM2 != nil || b.HoldingN != nil || b.Fuel != nil || b.Rode != nil {
		t.Errorf("something is known: %+v", b)
	}
	if p.Tide != nil || p.BackBy != nil || p.BuoyageDeg != nil || p.Choices.TideAboveChartM != nil || p.Choices.SoundingDatum != 0 {
		t.Errorf("something is known: %+v", p)
	}
	if _, ok := b.Windage(); ok {
		t.Error("windage without beam")
	}
	b.BeamM = new(2.5)
	if _, ok := b.Windage(); ok {
		t.Error("windage without length")
	}
	for length, want := range map[float64]float64{6: 4.5, 10: 5.75} { // 2.5 × 1.8, 2.5 × 2.3
		b.LengthM = &length
		if m2, ok := b.Windage(); !ok || math.Abs(m2-want) > 1e-12 {
			t.Errorf("windage %v of %v m; %v m² is wanted", m2, length, want)
		}
	}
	b.LengthM, b.BeamM = nil, nil
	f := &Fuel{TankL: new(300.0)}
	if _, ok := f.ReserveL(); ok {
		t.Error("a reserve of an unknown tank")
	}
	f.InTankL = new(210.0)
	if l, ok := f.ReserveL(); !ok || math.Abs(l-70) > 1e-9 {
		t.Errorf("reserve %v; a third of 210 l is wanted", l)
	}
}

// TestExample reads every member of the plan file to where it belongs.
func TestExample(t *testing.T) {
	p := mustDecode(t, readFile(t, "testdata/example-day.geojson"))
	utc := func(h, m int) time.Time { return time.Date(2026, 7, 11, h, m, 0, 0, time.UTC) }
	tests := []struct {
		name      string
		got, want any
	}{
		{"title", p.Title, "To Lanternfish Cove and back (INVENTED)"}, {"persons", p.Persons, 4},
		{"back by", *p.BackBy, utc(19, 30)}, {"zone", p.Zone.String(), "Atlantic/Azores"},
		{"length", *p.Boat.LengthM, 7.9}, {"air draught", *p.Boat.AirDraughtM, 2.3}, {"holding", *p.Boat.HoldingN, 3200.0},
		{"hump", p.Boat.HumpM, 0.30}, {"in tank", *p.Boat.Fuel.InTankL, 210.5}, {"burn", p.Boat.Fuel.Burn[2].Lph, 38.0},
		{"reserve", *p.Boat.Fuel.Reserve, 0.4}, {"chain", *p.Boat.Rode.ChainM, 45.0}, {"rope", p.Boat.Rode.RopeM, 20.0},
		{"chain weight", *p.Boat.Rode.ChainKgPerM, 1.35}, {"marks", p.Boat.Rode.MarksM, []float64{10, 20, 32.5}}, {"device", p.Boat.DeviceFromBowM, 4.2}, {"position", p.Margins.PositionM, 12.0},
		{"dropped at", p.Stays()[0].Dropped.Time, utc(10, 12)}, {"dropped", p.Stays()[0].Dropped.At, orb.Point{-36.10011, 43.18012}},
		{"scope", *p.Margins.Scope, 4.0}, {"wave fraction", p.Margins.WaveFraction, 0.9}, {"mark off", p.Margins.MarkOffM, 12.5},
		{"station", p.Tide.Station, "Farrow Quay (INVENTED)"}, {"form", p.Tide.Form(), Harmonic}, {"datum", p.Tide.DatumOf(), 23},
		{"z0", *p.Tide.Z0M, 2.31}, {"M2", p.Tide.Constituents[0].AmplitudeM, 1.312}, {"S2", p.Tide.Constituents[1].PhaseDeg, 148.0},
		{"adjust", p.Tide.AdjustM, -0.05}, {"wind", p.Wind[1].FromDeg, 265.0}, {"gust", p.Wind[0].Gust(), 14.0},
		{"gust not given", p.Wind[1].Gust(), p.Wind[1].Kn * 1.4}, {"swell", p.Swell[0].PeriodS, 8.0}, {"stream", p.Stream[0].TowardDeg, 75.0},
		{"buoyage", *p.BuoyageDeg, 35.0}, {"region", p.BuoyageRegion, "A"}, {"classes", p.Choices.VesselClasses, []string{"pleasure craft"}},
		{"tide above chart", *p.Choices.TideAboveChartM, 0.0}, {"parts", len(p.Parts), 3}, {"depart", *p.Routes()[0].Depart, utc(9, 0)},
		{"speeds", p.Routes()[0].SpeedsKn, []float64{6, 22, 18}}, {"legs", p.Routes()[0].Legs(), 3},
		{"waypoint", p.Routes()[1].Points[1], orb.Point{-36.2, 43.1}}, {"until", p.Stays()[0].Until, utc(15, 30)},
		{"sounded", *p.Stays()[0].SoundedM, 4.6}, {"sounded at", *p.Stays()[0].SoundedAt, utc(10, 10)}, {"kind", p.Stays()[0].Kind, AtAnchor},
		{"berth", *p.Berths[0].HeadingDeg, 215.0}, {"side", p.Berths[0].Side, PortSide}, {"refuge", p.Refuges[0].At, orb.Point{-36.15, 43.09}},
		{"private", []string{p.Private[0].Role, p.Private[1].Role}, []string{RoleHazard, RoleZone}}, {"private index", p.Private[1].Index, 6},
	}
	for _, tt := range tests {
		if !reflect.DeepEqual(tt.got, tt.want) {
			t.Errorf("%s: %v, want %v", tt.name, tt.got, tt.want)
		}
	}
	if kn, ok := p.Routes()[0].SpeedKn(1); kn != 22 || !ok {
		t.Error(kn, ok)
	}
	if _, ok := p.Routes()[1].SpeedKn(0); ok {
		t.Error("a speed where none is given")
	}
}

// TestEditing: what is changed is written, what is not stays as it was.
func TestEditing(t *testing.T) {
	example := string(readFile(t, "testdata/example-day.geojson"))
	tests := map[string]struct {
		edit  func(p *Plan)
		pairs []string // what changes in the file
	}{
		"number":           {func(p *Plan) { p.Boat.DraughtM = 1.05 }, []string{`"draught_m": 0.95`, `"draught_m": 1.05`}},
		"number forgotten": {func(p *Plan) { p.Boat.AirDraughtM = nil }, []string{`, "air_draught_m": 2.3`, ``}},
		"back to default":  {func(p *Plan) { p.Margins.CorridorM = 25 }, []string{`"corridor_m": 30`, `"corridor_m": 25`}},
		"text":             {func(p *Plan) { p.Title = "A \"quiet\" day\n" }, []string{`"title": "To Lanternfish Cove and back (INVENTED)"`, `"title": "A \"quiet\" day\n"`}},
		"wind dropped":     {func(p *Plan) { p.Stream = nil }, []string{`"stream": [{"time": "2026-07-11T08:00:00Z", "toward_deg": 75, "kn": 0.8}],`, ``}},
		"wind added": {func(p *Plan) {
			p.Wind = append(p.Wind, Wind{Time: time.Date(2026, 7, 11, 20, 0, 0, 0, time.UTC), FromDeg: 280, Kn: 6})
		}, []string{`"from_deg": 265, "kn": 12}`, `"from_deg": 265, "kn": 12}, {"time": "2026-07-11T20:00:00Z", "from_deg": 280, "kn": 6}`}},
		"later": {func(p *Plan) { p.Stays()[0].Until = p.Stays()[0].Until.Add(90 * time.Minute) },
			[]string{`"until": "2026-07-11T15:30:00`, `"until": "2026-07-11T17:00:00`}},
		"tide dropped": {func(p *Plan) { p.Tide = nil }, []string{`"tide": {`, `"gone": {`}},
		"refuge moved": {func(p *Plan) { p.Refuges[0].At = orb.Point{-36.16, 43.08} }, []string{`[-36.1500000, 43.0900000]`, `[-36.16, 43.08]`}},
		// A bbox that no longer holds is not written.
		"waypoint moved": {func(p *Plan) { p.Routes()[0].Points[1] = orb.Point{-36.1844444444, 43.1055555555} },
			[]string{`[-36.1850000, 43.1050000]`, `[-36.1844444, 43.1055556]`, `"bbox": [-36.2, 43.1, -36.1, 43.18], `, ``}},
		"route added": {func(p *Plan) {
			p.Parts = append(p.Parts,
				Part{Stay: &Stay{Name: "Quay", At: orb.Point{-36.2, 43.1}, Until: time.Date(2026, 7, 11, 18, 0, 0, 0, time.UTC), Kind: AtBerth}},
				Part{Route: &Route{Points: []orb.Point{{-36.2, 43.1}, {-36.21, 43.1}}}})
		}, []string{"\n],\n\"drawn_with\"", `,
{"type": "Feature", "properties": {"role": "stay", "name": "Quay", "until": "2026-07-11T18:00:00Z", "kind": "berth"}, "geometry": {"type": "Point", "coordinates": [-36.2, 43.1]}},
{"type": "Feature", "properties": {"role": "route"}, "geometry": {"type": "LineString", "coordinates": [[-36.2, 43.1], [-36.21, 43.1]]}}
],` + "\n\"drawn_with\""}},
		"anchor dropped": {func(p *Plan) { p.Stays()[0].Dropped.At, p.Boat.Rode.MarksM = orb.Point{-36.1, 43.18}, []float64{15} },
			[]string{`[-36.1001100, 43.1801200]`, `[-36.1, 43.18]`, `[10, 20, 32.5]`, `[15]`}},
		"anchor weighed": {func(p *Plan) { p.Stays()[0].Dropped = nil }, []string{`, "anchor_dropped": {"time": "2026-07-11T10:12:00+00:00", "position": [-36.1001100, 43.1801200]}`, ``}},
		"zone of the clock": {func(p *Plan) {
			if err := p.SetZone("Etc/GMT+2"); err != nil {
				panic(err)
			}
		}, []string{`"Atlantic/Azores"`, `"Etc/GMT+2"`}},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			p := mustDecode(t, []byte(example))
			tt.edit(p)
			want, got := parsed(t, []byte(change(t, example, tt.pairs...))), parsed(t, mustEncode(t, p))
			if name == "tide dropped" {
				delete(want.(map[string]any)["plan"].(map[string]any), "gone")
			}
			if name == "route added" {
				reorderLast(want)
			}
			normaliseTimes(want)
			normaliseTimes(got)
			if !reflect.DeepEqual(want, got) {
				t.Errorf("written:\n%s", mustEncode(t, p))
			}
		})
	}
}

// reorderLast puts the refuge and the zone of the example behind two new parts:
// parts come in the day's order, others stay where they were among the parts.
func reorderLast(doc any) {
	m := doc.(map[string]any)
	f := m["features"].([]any)
	m["features"] = append(append(append([]any{}, f[:5]...), f[7:]...), f[5], f[6])
}

// TestOffsetsOfTheZone: times are written with the offset of the zone at that
// instant. The Azores keep UTC-1 in winter and UTC in summer; in 2026 the clocks
// go forward on 29 March and back on 25 October, at 01:00 UTC (IANA tz, EU rule).
func TestOffsetsOfTheZone(t *testing.T) {
	zone, err := time.LoadLocation("Atlantic/Azores")
	if err != nil {
		t.Fatal(err)
	}
	for in, want := range map[string]string{
		"2026-07-11T12:00:00+02:00":     "2026-07-11T10:00:00Z",
		"2026-01-11T12:00:00Z":          "2026-01-11T11:00:00-01:00",
		"2026-10-25T00:30:00Z":          "2026-10-25T00:30:00Z",
		"2026-10-25T01:30:00Z":          "2026-10-25T00:30:00-01:00",
		"2026-03-29T00:59:59.25Z":       "2026-03-28T23:59:59.25-01:00",
		"2026-03-29T01:00:00Z":          "2026-03-29T01:00:00Z",
		"2026-01-11T12:00:00.123-01:00": "2026-01-11T12:00:00.123-01:00",
	} {
		tm, wrong := parseTime(in)
		if got := spell(tm, zone); wrong != "" || got != want {
			t.Errorf("%s: %s %s, want %s", in, got, wrong, want)
		}
	}
}

func TestTimesRefused(t *testing.T) {
	for _, s := range []string{
		"", "now", "2026-07-11", "09:00", "2026-07-11T09:00:00", "2026-07-11 09:00:00Z", "2026-07-11T9:00:00Z", "2026-07-11T09:00Z",
		"2026-07-11T09:00:00,5Z", "2026-07-11T24:00:00Z", "2026-13-11T09:00:00Z", "2026-02-29T09:00:00Z", "2026-07-11T09:60:00Z",
		"2026-07-11T09:00:00+1:00", "2026-07-11T09:00:00+0100", "2026-07-11T09:00:00+25:00", "1974-12-31T23:59:59Z", "2200-01-01T00:00:00Z",
		"2026-07-11T09:00:00 Z", "2026-07-11T09:00:00[Atlantic/Azores]",
	} {
		if tm, wrong := parseTime(s); wrong == "" {
			t.Errorf("%q: taken as %v", s, tm)
		}
	}
}

func TestTideForms(t *testing.T) {
	const table = `{"datum":23,"events":[{"time":"2026-07-11T03:00:00Z","height_m":4.1},{"time":"2026-07-11T09:10:00Z","height_m":0.8}]}`
	tests := map[string]struct {
		tide, form string
		datum      int
		wrong      string
	}{
		"table":            {table, Table, 23, ""},
		"tideless":         {`{"datum":44,"level_m":0.1}`, Tideless, 44, ""},
		"tideless at 0":    {`{"level_m":0}`, Tideless, 0, ""},
		"secondary":        {`{"reference":` + table + `,"high":{"minutes":-12,"factor":0.8},"low":{"minutes":5,"metres":-0.2}}`, SecondaryPort, 23, ""},
		"own datum":        {`{"datum":5,"reference":` + table + `,"high":{"minutes":0,"factor":1},"low":{"minutes":0,"factor":1}}`, SecondaryPort, 5, ""},
		"no low":           {`{"reference":` + table + `,"high":{"minutes":-12,"factor":0.8}}`, "", 0, "plan.tide.low"},
		"no reference":     {`{"high":{"minutes":-12,"factor":0.8},"low":{"minutes":5,"factor":1}}`, "", 0, "plan.tide.reference"},
		"both":             {`{"reference":` + table + `,"high":{"minutes":0,"factor":1,"metres":0},"low":{"minutes":0,"factor":1}}`, "", 0, "plan.tide.high"},
		"neither":          {`{"reference":` + table + `,"high":{"minutes":0},"low":{"minutes":0,"factor":1}}`, "", 0, "plan.tide.high"},
		"no minutes":       {`{"reference":` + table + `,"high":{"factor":1},"low":{"minutes":0,"factor":1}}`, "", 0, "plan.tide.high.minutes"},
		"tideless of port": {`{"reference":{"level_m":1},"high":{"minutes":0,"factor":1},"low":{"minutes":0,"factor":1}}`, "", 0, "plan.tide.reference"},
		"port of port": {`{"reference":{"reference":` + table + `,"high":{"minutes":0,"factor":1},"low":{"minutes":0,"factor":1}},
		   "high":{"minutes":0,"factor":1},"low":{"minutes":0,"factor":1}}`, "", 0, "plan.tide.reference"},
		"level and port": {`{"level_m":1,"reference":` + table + `,"high":{"minutes":0,"factor":1},"low":{"minutes":0,"factor":1}}`, "", 0, "plan.tide"},
		"of a station":   {`{"datum":23,"level_m":1,"position":[-4.5,48.3],"time_zone":"Europe/Paris","levels":[{"datum":17,"height_m":6.9}],"record_years":7,"left_out":"T3","left_out_m":0.01}`, Tideless, 23, ""},
		"off the globe":  {`{"level_m":1,"position":[48.3,-94.5]}`, "", 0, "plan.tide.position"},
		"half a place":   {`{"level_m":1,"position":[48.3]}`, "", 0, "plan.tide.position"},
		"no such zone":   {`{"level_m":1,"time_zone":"Nowhere/Quay"}`, "", 0, "plan.tide.time_zone"},
		"a bare level":   {`{"level_m":1,"levels":[{"height_m":6.9}]}`, "", 0, "plan.tide.levels[0].datum"},
		"no such kind":   {`{"events":[{"time":"2026-07-11T03:00:00Z","height_m":4.1,"kind":"high"},{"time":"2026-07-11T09:10:00Z","height_m":0.8}]}`, "", 0, "plan.tide.events[0].kind"},
		"empty":          {`{}`, "", 0, "plan.tide"},
		"empty table":    {`{"events":[]}`, "", 0, "plan.tide"},
		"table backward": {`{"events":[{"time":"2026-07-11T03:00:00Z","height_m":4.1},{"time":"2026-07-11T02:00:00Z","height_m":1}]}`, "", 0, "plan.tide.events[1].time"},
		"nameless":       {`{"z0_m":1,"constituents":[{"name":"","amplitude_m":1,"phase_deg":0}]}`, "", 0, "plan.tide.constituents[0].name"},
		"as a station":   {`"Farrow Quay"`, "", 0, "plan.tide"},
	}
	smallest := string(readFile(t, "testdata/smallest.geojson"))
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			p, err := Decode([]byte(change(t, smallest, `"boat"`, `"tide":`+tt.tide+`,"boat"`)))
			if tt.wrong != "" {
				if err == nil || !strings.Contains(err.Error(), tt.wrong+" (line") {
					t.Errorf("got %v, want an error at %s", err, tt.wrong)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			if p.Tide.Form() != tt.form || p.Tide.DatumOf() != tt.datum {
				t.Errorf("form %q, datum %d", p.Tide.Form(), p.Tide.DatumOf())
			}
			if again := mustDecode(t, mustEncode(t, p)); !reflect.DeepEqual(p.Tide, again.Tide) {
				t.Errorf("written again: %+v", again.Tide)
			}
		})
	}
}

// TestDrafts: a plan still being made can be written and read as a draft, and is
// not taken for a complete one; what it holds must be right.
func TestDrafts(t *testing.T) {
	p := New()
	p.Title = "Sketch (INVENTED)"
	draft := func() []byte { return mustEncode(t, p) }
	if string(draft()) == "" {
		t.Fatal("nothing written")
	}
	steps := []func(){
		func() {},
		func() { p.Parts = []Part{{Route: &Route{}}} },
		func() { p.Parts[0].Route.Points = []orb.Point{{-36.2, 43.1}} },
		func() { p.Boat.DraughtM, p.Boat.CruiseKn = 1, 22 },
		func() { p.Parts[0].Route.Points = append(p.Parts[0].Route.Points, orb.Point{-36.1, 43.2}) },
		func() { p.Parts[0].Route.Depart = new(time.Date(2026, 7, 11, 9, 0, 0, 0, time.UTC)) },
	}
	for i, step := range steps {
		step()
		b := draft()
		if _, err := Decode(b); err == nil || p.Validate() == nil {
			t.Errorf("step %d: taken for a complete plan", i)
		}
		again, err := DecodeDraft(b)
		if err != nil {
			t.Fatalf("step %d: %v", i, err)
		}
		if got := string(mustEncode(t, again)); got != string(b) {
			t.Errorf("step %d: %s became %s", i, b, got)
		}
	}
	if err := p.SetZone("Atlantic/Azores"); err != nil {
		t.Fatal(err)
	}
	if err := p.Validate(); err != nil {
		t.Error(err)
	}
	mustDecode(t, draft())
	if _, err := DecodeDraft([]byte(change(t, string(draft()), `"draught_m":1`, `"draught_m":-1`))); err == nil {
		t.Error("a draft with a negative draught was taken")
	}
}

// TestNotEncoded: a value that must not be in a file is refused by Encode.
func TestNotEncoded(t *testing.T) {
	tests := map[string]func(p *Plan){
		"plan.boat.draught_m (":                 func(p *Plan) { p.Boat.DraughtM = math.NaN() },
		"plan.boat.cruise_kn (":                 func(p *Plan) { p.Boat.CruiseKn = math.Inf(1) },
		"plan.boat.beam_m (":                    func(p *Plan) { p.Boat.BeamM = new(-1.0) },
		"plan.wind[0].from_deg (":               func(p *Plan) { p.Wind = []Wind{{FromDeg: 400}} },
		"features[0].geometry.coordinates[0] (": func(p *Plan) { p.Routes()[0].Points[0] = orb.Point{math.NaN(), 1} },
		"features[1].geometry.coordinates (":    func(p *Plan) { p.Refuges = []Refuge{{At: orb.Point{1, 91}}} },
		"features (":                            func(p *Plan) { p.Parts = append(p.Parts, Part{}) },
		"plan.time_zone (":                      func(p *Plan) { p.ZoneName = "Etc/UTC" },
		"plan.version (":                        func(p *Plan) { p.Version = 2 },
		"private[0] (":                          func(p *Plan) { p.Private = []PrivateFeature{{Role: RoleZone, Feature: []byte("{")}} },
		"private[0].role (": func(p *Plan) {
			p.Private = []PrivateFeature{{Role: RoleZone, Feature: []byte(`{"properties":{"role":"hazard"}}`)}}
		},
	}
	for path, spoil := range tests {
		p := mustDecode(t, readFile(t, "testdata/smallest.geojson"))
		spoil(p)
		b, err := Encode(p)
		path = strings.TrimSuffix(path, " (")
		if err == nil || !strings.HasPrefix(err.Error(), path+":") {
			t.Errorf("%s: error %v; wrote %s", path, err, b)
		}
	}
}

// TestPartsInMemory: the rules for the order of parts, for plans made in memory.
func TestPartsInMemory(t *testing.T) {
	route := func() Part { return Part{Route: &Route{Points: []orb.Point{{-36.2, 43.1}, {-36.2, 43.1}}}} }
	stay := func(hour int) Part {
		return Part{Stay: &Stay{At: orb.Point{-36.2, 43.1}, Kind: AtAnchor, Until: time.Date(2026, 7, 11, hour, 0, 0, 0, time.UTC)}}
	}
	tests := map[string]struct {
		parts []Part
		want  string
	}{
		"route":            {[]Part{route()}, ""},
		"ends with stay":   {[]Part{route(), stay(12)}, ""},
		"two stays":        {[]Part{route(), stay(12), route(), stay(15), route()}, ""},
		"none":             {nil, "features: no route"},
		"only a stay":      {[]Part{stay(12)}, "features: no route"},
		"begins with stay": {[]Part{stay(12), route()}, "features[0]: a stay before the first route"},
		"route, route":     {[]Part{route(), route()}, "features[1]: a route after a route"},
		"stay, stay":       {[]Part{route(), stay(12), stay(13)}, "features[2]: a stay after a stay"},
		"same until":       {[]Part{route(), stay(12), route(), stay(12)}, "features[3].properties.until: not after"},
		"until at start":   {[]Part{route(), stay(9)}, "features[1].properties.until: not after"},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			p := mustDecode(t, readFile(t, "testdata/smallest.geojson"))
			p.Parts = tt.parts
			if len(tt.parts) > 0 && tt.parts[0].Route != nil {
				tt.parts[0].Route.Depart = new(time.Date(2026, 7, 11, 9, 0, 0, 0, time.UTC))
			}
			err := p.Validate()
			if tt.want == "" && err != nil || tt.want != "" && (err == nil || !strings.Contains(err.Error(), tt.want)) {
				t.Errorf("got %v, want %q", err, tt.want)
			}
		})
	}
}

func TestLater(t *testing.T) {
	p := mustDecode(t, readFile(t, "testdata/example-day.geojson"))
	depart, until := *p.Routes()[0].Depart, p.Stays()[0].Until
	q := p.Later(90 * time.Minute)
	if !q.Routes()[0].Depart.Equal(depart.Add(90*time.Minute)) || !q.Stays()[0].Until.Equal(until.Add(90*time.Minute)) {
		t.Error("the day did not move")
	}
	if !p.Routes()[0].Depart.Equal(depart) || !p.Stays()[0].Until.Equal(until) {
		t.Error("the plan given was changed")
	}
	if q.BackBy != p.BackBy {
		t.Error("the time to be back moved")
	}
}
