package plan

import (
	"errors"
	"os"
	"strings"
	"testing"

	"keelroom/geo/geojson"
)

// change replaces one piece of a text, which must be there.
func change(t testing.TB, text string, pairs ...string) string {
	t.Helper()
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(text, pairs[i]) {
			t.Fatalf("nothing to change: %q", pairs[i])
		}
		text = strings.Replace(text, pairs[i], pairs[i+1], 1)
	}
	return text
}

// Each case spoils the example day in one place. path is where the error must
// point, msg what it must say.
var spoiled = []struct {
	name     string
	from, to string
	path     string
	msg      string
}{
	{"newer version", `"version": 1`, `"version": 2`, "plan.version", "version 2, made by a later Keelroom; version 1 is wanted"},
	{"version 0", `"version": 1`, `"version": 0`, "plan.version", "version 0; version 1 is wanted"},
	{"version text", `"version": 1`, `"version": "1"`, "plan.version", `the text "1"; a number is wanted`},
	{"version broken", `"version": 1`, `"version": 1.5`, "plan.version", `1.5; version 1 is wanted`},
	{"version missing", `"version": 1,`, ``, "plan.version", "missing; a number is wanted"},
	{"no zone", `"time_zone": "Atlantic/Azores",`, ``, "plan.time_zone", "missing; an IANA name"},
	{"null zone", `"time_zone": "Atlantic/Azores"`, `"time_zone": null`, "plan.time_zone", "missing; an IANA name"},
	{"unknown zone", `Atlantic/Azores`, `Atlantic/Farrow`, "plan.time_zone", `"Atlantic/Farrow" is not a known time zone; an IANA name`},
	{"zone of the machine", `Atlantic/Azores`, `Local`, "plan.time_zone", `"Local" means another zone on another machine`},
	{"zone by path", `Atlantic/Azores`, `../../etc/passwd`, "plan.time_zone", `is not a known time zone`},
	{"zone as number", `"Atlantic/Azores"`, `-1`, "plan.time_zone", `the number -1; a text is wanted`},
	{"no draught", `"draught_m": 0.95, `, ``, "plan.boat.draught_m", "missing or 0; a number from 0.05 to 20 metres is wanted"},
	{"null draught", `"draught_m": 0.95`, `"draught_m": null`, "plan.boat.draught_m", "missing or 0"},
	{"negative draught", `"draught_m": 0.95`, `"draught_m": -0.95`, "plan.boat.draught_m", "-0.95; a number from 0.05 to 20 metres is wanted"},
	{"absurd draught", `"draught_m": 0.95`, `"draught_m": 95`, "plan.boat.draught_m", "95; a number from 0.05 to 20 metres"},
	{"endless draught", `"draught_m": 0.95`, `"draught_m": 1e999`, "plan.boat.draught_m", "+Inf; a number from 0.05"},
	{"draught as text", `"draught_m": 0.95`, `"draught_m": "0.95"`, "plan.boat.draught_m", `the text "0.95"; a number is wanted`},
	{"no cruise", `"cruise_kn": 23, `, ``, "plan.boat.cruise_kn", "missing or 0; a number from 0.5 to 100 knots"},
	{"boat as text", `"boat": {`, `"boat": "grey", "was": {`, "plan.boat", `the text "grey"; an object is wanted`},
	{"negative beam", `"beam_m": 2.60`, `"beam_m": -2.60`, "plan.boat.beam_m", "-2.6; a number from 0.3 to 30 metres"},
	{"night as number", `"night": false`, `"night": 0`, "plan.boat.night", "the number 0; true or false is wanted"},
	{"reserve in litres", `"reserve": 0.4`, `"reserve": 40`, "plan.boat.fuel.reserve", "40; a number from 0 to 1 as a fraction of in_tank_l"},
	{"more fuel than the tank holds", `"in_tank_l": 210.5`, `"in_tank_l": 1900`, "plan.boat.fuel.in_tank_l", "1900 litres are more than the tank holds, 280 litres (tank_l); what is in it when she leaves is wanted"},
	{"a tank smaller than its fuel", `"tank_l": 280`, `"tank_l": 50`, "plan.boat.fuel.in_tank_l", "210.5 litres are more than the tank holds, 50 litres"},
	{"burn without speed", `{"kn": 7, "lph": 9.5}`, `{"lph": 9.5}`, "plan.boat.fuel.burn[1].kn", "missing; a number is wanted"},
	{"chain below 0", `"chain_m": 45`, `"chain_m": -45`, "plan.boat.rode.chain_m", "-45; a number from 0 to 1000 metres"},
	{"chain without weight", `"chain_kg_per_m": 1.35, `, ``, "plan.boat.rode.chain_kg_per_m", "missing; what a metre of the chain weighs is wanted: of 6 mm about 0.8 kg, of 8 mm 1.4, of 10 mm 2.2, of 12 mm 3.1"},
	{"chain of weight 0", `"chain_kg_per_m": 1.35`, `"chain_kg_per_m": 0`, "plan.boat.rode.chain_kg_per_m", "0; a number from 0.1 to 100 kilograms a metre is wanted"},
	{"rope of unknown chain", `"chain_m": 45, "chain_kg_per_m": 1.35, `, ``, "plan.boat.rode.chain_m", "missing; the metres of chain aboard are wanted, 0 where all of the rode is rope"},
	{"neither chain nor rope", `"chain_m": 45, "chain_kg_per_m": 1.35, "rope_m": 20`, `"chain_m": 0, "rope_m": 0`, "plan.boat.rode.chain_m", "no chain, and no rope in rope_m; the length of one of them is wanted, or a boat without rode"},
	{"rope below 0", `"rope_m": 20`, `"rope_m": -20`, "plan.boat.rode.rope_m", "-20; a number from 0 to 2000 metres"},
	{"marks that go back", `[10, 20, 32.5]`, `[10, 32.5, 20]`, "plan.boat.rode.marks_m[2]", "20 is not beyond the mark before it, 32.5; metres from the anchor that increase are wanted"},
	{"mark at 0", `[10, 20, 32.5]`, `[0, 20, 32.5]`, "plan.boat.rode.marks_m[0]", "0; a number from 0.1 to 3000 metres"},
	{"device ahead of the bow", `"device_from_bow_m": 4.2`, `"device_from_bow_m": -4.2`, "plan.boat.device_from_bow_m", "-4.2; a number from 0 to 100 metres"},
	{"position absurd", `"position_m": 12`, `"position_m": 1200`, "plan.margins.position_m", "1200; a number from 0 to 200 metres"},
	{"rode laid of 0", `"rode_m": 25`, `"rode_m": 0`, "features[2].properties.rode_m", "0; a number from 1 to 1000 metres"},
	{"sounding in feet", `"sounded_m": 4.6`, `"sounded_m": "15 ft"`, "features[2].properties.sounded_m", `the text "15 ft"; the number of metres is wanted, 4.57`},
	{"sounding in fathoms", `"sounded_m": 4.6`, `"sounded_m": "2.5fathoms"`, "features[2].properties.sounded_m", `the text "2.5fathoms"; the number of metres is wanted, 4.57`},
	{"sounding in words", `"sounded_m": 4.6`, `"sounded_m": "deep"`, "features[2].properties.sounded_m", `the text "deep"; a number of metres is wanted`},
	{"sounding in metres as text", `"sounded_m": 4.6`, `"sounded_m": "4.6 m"`, "features[2].properties.sounded_m", `the text "4.6 m"; the number of metres is wanted, 4.60`},
	{"sounding in a member of feet", `"sounded_m": 4.6`, `"sounded_m": 4.6, "sounded_ft": 15`, "features[2].properties.sounded_ft", `15 feet; sounded_m, in metres, is wanted: 4.57`},
	{"sounding in a member of fathoms", `"sounded_m": 4.6`, `"sounded_m": 4.6, "sounded_fm": 2.5`, "features[2].properties.sounded_fm", `2.5 fathoms; sounded_m, in metres, is wanted: 4.57`},
	{"sounding deeper than an anchorage", `"sounded_m": 4.6`, `"sounded_m": 200.1`, "features[2].properties.sounded_m", `200.1; a number from 0 to 200 metres`},
	{"anchor dropped nowhere", `, "position": [-36.1001100, 43.1801200]`, ``, "features[2].properties.anchor_dropped.position", `missing; an array is wanted`},
	{"anchor dropped at no time", `"time": "2026-07-11T10:12:00+00:00", `, ``, "features[2].properties.anchor_dropped.time", `missing; a text is wanted`},
	{"anchor dropped beyond the pole", `[-36.1001100, 43.1801200]`, `[43.18, -136.1]`, "features[2].properties.anchor_dropped.position", `has a latitude beyond 90`},
	{"anchor dropped at one number", `[-36.1001100, 43.1801200]`, `[-36.1]`, "features[2].properties.anchor_dropped.position", `1 numbers; longitude and latitude are wanted`},
	{"anchor dropped as a place", `{"time": "2026-07-11T10:12:00+00:00", "position": [-36.1001100, 43.1801200]}`, `[-36.1, 43.18]`, "features[2].properties.anchor_dropped", `an array; an object is wanted`},
	{"margin below 0", `"under_keel_m": 0.6`, `"under_keel_m": -0.6`, "plan.margins.under_keel_m", "-0.6; a number from 0 to 20 metres"},
	{"wind room absurd", `"wind_room_deg": 35`, `"wind_room_deg": 350`, "plan.margins.wind_room_deg", "350; a number from 0 to 180 degrees"},
	{"persons broken", `"persons": 4`, `"persons": 4.5`, "plan.persons", "4.5; a whole number from 1 to 1000 is wanted"},
	{"persons negative", `"persons": 4`, `"persons": -4`, "plan.persons", "-4; a whole number from 1 to 1000 is wanted"},
	{"back before the end", `"back_by": "2026-07-11T19:30:00`, `"back_by": "2026-07-11T09:30:00`, "plan.back_by", "not after the last time of the day"},
	{"datum unknown", `"datum": 23, "z0_m"`, `"datum": 31, "z0_m"`, "plan.tide.datum", "31; a VERDAT number, 1 to 30 or 44, is wanted"},
	{"no mean level", `"z0_m": 2.31,`, ``, "plan.tide.z0_m", "missing; with constituents the mean level"},
	{"two tides", `"adjust_m": -0.05`, `"adjust_m": -0.05, "level_m": 0.2`, "plan.tide", "none or several of constituents"},
	{"no tide in tide", `"constituents": [`, `"constants": [`, "plan.tide", "none or several of constituents"},
	{"negative amplitude", `"amplitude_m": 1.312`, `"amplitude_m": -1.312`, "plan.tide.constituents[0].amplitude_m", "-1.312; a number from 0 to 20"},
	{"wind goes back", `"time": "2026-07-11T14:00:00Z", "from_deg"`, `"time": "2026-07-11T08:00:00Z", "from_deg"`, "plan.wind[1].time", "not after the time before it"},
	{"gust below mean", `"gust_kn": 14`, `"gust_kn": 4`, "plan.wind[0].gust_kn", "4 is below the mean of 9 knots"},
	{"wind from 361", `"from_deg": 265`, `"from_deg": 361`, "plan.wind[1].from_deg", "361; a number from 0 to 360 degrees"},
	{"wind without offset", `"2026-07-11T14:00:00Z"`, `"2026-07-11T14:00:00"`, "plan.wind[1].time", "has no zone offset; a time such as"},
	{"wind as one object", `"wind": [`, `"wind": {}, "was": [`, "plan.wind", "an object; an array is wanted"},
	{"wind of texts", `{"time": "2026-07-11T14:00:00Z", "from_deg": 265, "kn": 12}`, `"SW 4"`, "plan.wind[1]", `the text "SW 4"; an object is wanted`},
	{"stream as text", `"toward_deg": 75, "kn": 0.8`, `"toward_deg": 75, "kn": "0.8"`, "plan.stream[0].kn", `the text "0.8"; a number is wanted`},
	{"region C", `"buoyage_region": "A"`, `"buoyage_region": "C"`, "plan.buoyage_region", `"C"; one of A, B is wanted`},
	{"vessel class number", `["pleasure craft"]`, `["pleasure craft", 3]`, "plan.chart_choices.vessel_classes[1]", "the number 3; a text is wanted"},
	{"no departure", `"depart": "2026-07-11T09:00:00+00:00", `, ``, "features[1].properties.depart", "missing on the first route"},
	{"departure without offset", `"2026-07-11T09:00:00+00:00"`, `"2026-07-11T09:00:00"`, "features[1].properties.depart", "has no zone offset; a time such as"},
	{"departure without seconds", `"2026-07-11T09:00:00+00:00"`, `"2026-07-11T09:00+00:00"`, "features[1].properties.depart", "a time such as 2026-07-01T09:30:00+01:00 is wanted"},
	{"departure on 31 June", `"2026-07-11T09:00:00+00:00"`, `"2026-06-31T09:00:00+00:00"`, "features[1].properties.depart", "a time such as"},
	{"departure in year 26", `"2026-07-11T09:00:00+00:00"`, `"0026-07-11T09:00:00+00:00"`, "features[1].properties.depart", "the year 26; a year from 1975 to 2199"},
	{"departure as number", `"2026-07-11T09:00:00+00:00"`, `1783760400`, "features[1].properties.depart", "the number 1783760400; a text is wanted"},
	{"departure on later route", `"name": "Home"`, `"name": "Home", "depart": "2026-07-11T16:00:00Z"`, "features[4].properties.depart", "a departure on a later route"},
	{"speeds too few", `[6, 22, 18.0]`, `[6, 22]`, "features[1].properties.speeds_kn", "2 speeds for 3 legs; one a leg is wanted"},
	{"speed 0", `[6, 22, 18.0]`, `[6, 0, 18.0]`, "features[1].properties.speeds_kn[1]", "0; a number from 0.5 to 100 knots"},
	{"speed as text", `[6, 22, 18.0]`, `[6, "22", 18.0]`, "features[1].properties.speeds_kn[1]", `the text "22"; a number is wanted`},
	{"one waypoint", `[[-36.1001000, 43.1801000], [-36.2000000, 43.1000000]]`, `[[-36.1001000, 43.1801000]]`, "features[4].geometry.coordinates", "a route of 1 waypoints; 2 or more are wanted"},
	{"no waypoints", `[[-36.1001000, 43.1801000], [-36.2000000, 43.1000000]]`, `[]`, "features[4].geometry.coordinates", "a route of 0 waypoints; 2 or more are wanted"},
	// 0.0006° of latitude are 66.7 m there, 0.0001° of longitude 8.1 m: by Pythagoras 67 m.
	{"a gap", `[-36.1000000, 43.1800000]`, `[-36.1000000, 43.1795000]`, "features[2].geometry.coordinates", "begins 67 m from where the part before it ends; at most 50 m are wanted"},
	{"latitude beyond 90", `[-36.1850000, 43.1050000]`, `[43.1050000, -136.1850000]`, "features[1].geometry.coordinates[1]", "has a latitude beyond 90: longitude and latitude may be swapped"},
	{"latitude far beyond 90", `[-36.1850000, 43.1050000]`, `[-136.1850000, 243.1050000]`, "features[1].geometry.coordinates[1]", "has a latitude beyond 90;"},
	{"longitude beyond 180", `[-36.1850000, 43.1050000]`, `[323.8150000, 43.1050000]`, "features[1].geometry.coordinates[1]", "has a longitude beyond 180"},
	{"metres", `[-36.1850000, 43.1050000]`, `[-4028095.8, 5326461.3]`, "features[1].geometry.coordinates[1]", "looks like metres of a map projection"},
	{"one number", `[-36.1850000, 43.1050000]`, `[-36.1850000]`, "features[1].geometry.coordinates[1]", "a position of 1 numbers"},
	{"route as point", `"type": "LineString", "coordinates": [[-36.2000000, 43.1000000], [-36.1850000, 43.1050000], [-36.1300000, 43.1500000], [-36.1000000, 43.1800000]]`, `"type": "Point", "coordinates": [-36.2, 43.1]`, "features[1].geometry", "a Point; a LineString is wanted for a route"},
	{"route without geometry", `"geometry": {"type": "LineString", "coordinates": [[-36.2000000, 43.1000000], [-36.1850000, 43.1050000], [-36.1300000, 43.1500000], [-36.1000000, 43.1800000]]}`, `"geometry": null`, "features[1].geometry", "missing; an object is wanted"},
	{"no until", `"until": "2026-07-11T15:30:00+00:00", `, ``, "features[2].properties.until", "missing; a time such as"},
	{"until before departure", `"until": "2026-07-11T15:30:00`, `"until": "2026-07-11T08:30:00`, "features[2].properties.until", "not after the time before it, 2026-07-11T09:00:00Z; a later time is wanted"},
	{"kind of stay", `"kind": "anchor"`, `"kind": "adrift"`, "features[2].properties.kind", `"adrift"; one of anchor, mooring, berth is wanted`},
	{"sounding without time", `, "sounded_at": "2026-07-11T10:10:00+00:00"`, ``, "features[2].properties.sounded_m", "a sounding without sounded_at"},
	{"time without sounding", `"sounded_m": 4.6, `, ``, "features[2].properties.sounded_at", "the time of a sounding without sounded_m"},
	{"side of berth", `"side": "port"`, `"side": "left"`, "features[0].properties.side", `"left"; one of port, starboard is wanted`},
	{"heading", `"heading_deg": 215`, `"heading_deg": 2150`, "features[0].properties.heading_deg", "2150; a number from 0 to 360 degrees"},
	{"unknown role", `"role": "refuge"`, `"role": "haven"`, "features[5].properties.role", `the role "haven"; a role out of route, stay, berth, refuge, zone, hazard is wanted`},
	{"role of another case", `"role": "hazard"`, `"role": "Hazard"`, "features[3].properties.role", `the role "Hazard"`},
	{"role as number", `"role": "refuge"`, `"role": 4`, "features[5].properties.role", `the number 4; a text is wanted`},
	{"no role", `"role": "hazard", `, ``, "features[3]", `a feature without properties.role`},
	{"no properties", `"properties": {"role": "refuge", "name": "Wick Pool (INVENTED)"}`, `"properties": null`, "features[5]", `a feature without properties.role`},
	{"feature is a geometry", `{"type": "Feature", "properties": {"role": "refuge"`, `{"type": "Point", "properties": {"role": "refuge"`, "features[5].type", `"Point"; "Feature" is wanted`},
	{"feature is null", `{"type": "Feature", "properties": {"role": "refuge", "name": "Wick Pool (INVENTED)"}, "geometry": {"type": "Point", "coordinates": [-36.1500000, 43.0900000]}}`, `null`, "features[5]", `null; an object is wanted`},
	{"stay after stay", `"name": "Home", "role": "route"`, `"name": "Home", "role": "stay"`, "features[4].geometry", "a LineString; a Point is wanted for a stay"},
	{"stay missing", `"role": "stay"`, `"role": "refuge"`, "features[4]", "a route after a route; a stay between them is wanted"},
	{"no collection", `"type": "FeatureCollection"`, `"type": "Feature"`, "type", `"Feature"; "FeatureCollection" is wanted`},
	{"no plan", `"plan": {`, `"plant": {`, "plan", `missing; an object is wanted`},
	{"no features", `"features": [`, `"feature": [`, "features", `missing; an array is wanted`},
	{"wrong crs", `"name": "example`, `"crs": {"type": "name", "properties": {"name": "urn:ogc:def:crs:EPSG::3857"}}, "name": "example`, "crs", `the coordinate reference system "urn:ogc:def:crs:EPSG::3857"; WGS 84`},
	{"nameless crs", `"name": "example`, `"crs": {"type": "link"}, "name": "example`, "crs", `the coordinate reference system ""; WGS 84`},
	{"key twice", `"hull_colour": "grey"`, `"hull_colour": "grey", "name": "again"`, "plan.boat", `the key "name" occurs twice`},
	{"unknown key twice", `"hull_colour": "grey"`, `"hull_colour": {"a": 1, "a": 2}`, "plan.boat.hull_colour", `the key "a" occurs twice`},
	{"NaN", `"draught_m": 0.95`, `"draught_m": NaN`, "plan.boat.draught_m", `NaN, which is not JSON,`},
	{"NaN in hazard", `"VALSOU": 0.4`, `"VALSOU": NaN`, "features[3].properties.VALSOU", `NaN, which is not JSON,`},
	{"comma decimal", `"draught_m": 0.95`, `"draught_m": 0,95`, "plan.boat", `a key in double quotes is wanted`},
	{"trailing comma", `"hull_colour": "grey"`, `"hull_colour": "grey",`, "plan.boat", `a comma before '}'`},
	{"something after", "\n}\n", "\n}\n{}", "", `an object after the document; the end is wanted`},
}

func TestSpoiledPlans(t *testing.T) {
	example := string(readFile(t, "testdata/example-day.geojson"))
	for _, tt := range spoiled {
		t.Run(tt.name, func(t *testing.T) {
			_, err := Decode([]byte(change(t, example, tt.from, tt.to)))
			var errs *Errors
			if !errors.As(err, &errs) {
				t.Fatalf("error %v; an *Errors is wanted", err)
			}
			for _, p := range errs.List {
				if p.Line < 1 || p.Column < 1 {
					t.Errorf("no place: %v", p)
				}
				if p.Path == tt.path && strings.Contains(p.Msg, tt.msg) {
					return
				}
			}
			t.Errorf("got\n%v\nwant %s: ...%s", err, tt.path, tt.msg)
		})
	}
}

// TestOneMistakeOneProblem: a mistake does not drag others behind it.
func TestOneMistakeOneProblem(t *testing.T) {
	example := string(readFile(t, "testdata/example-day.geojson"))
	several := map[string]bool{"stay after stay": true, "no role": false}
	for _, tt := range spoiled {
		_, err := Decode([]byte(change(t, example, tt.from, tt.to)))
		var errs *Errors
		if errors.As(err, &errs) && len(errs.List) > 1 && !several[tt.name] {
			t.Errorf("%s:\n%v", tt.name, err)
		}
	}
}

// TestUnreadableFiles: files that are no plan at all.
func TestUnreadableFiles(t *testing.T) {
	example := readFile(t, "testdata/example-day.geojson")
	tests := map[string]struct{ text, want string }{
		"empty":         {"", "the plan file (line 1, column 1): the end of the text; an object is wanted"},
		"space":         {" \n ", "the plan file (line 2, column 2): the end of the text; an object is wanted"},
		"truncated":     {string(example[:1500]), "the end of the text"},
		"a list":        {"[]", "the plan file (line 1, column 1): an array; an object is wanted"},
		"a text":        {`"plan"`, `the text "plan"; an object is wanted`},
		"web page":      {"<!doctype html>", `'<'; an object is wanted`},
		"bare geometry": {`{"type":"Point","coordinates":[1,2]}`, `"Point"; "FeatureCollection" is wanted`},
		"latin 1":       {"{\"title\":\"\xe9\"}", "the byte 0xE9, which is not UTF-8, in a text"},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			for _, read := range []func([]byte) (*Plan, error){Decode, DecodeDraft} {
				if _, err := read([]byte(tt.text)); err == nil || !strings.Contains(err.Error(), tt.want) {
					t.Errorf("got %v, want %s", err, tt.want)
				}
			}
		})
	}
	// Wherever the file is cut, it is refused.
	end := len(strings.TrimRight(string(example), "\n"))
	for cut := range end {
		if _, err := Decode(example[:cut]); err == nil {
			t.Fatalf("accepted when cut at byte %d", cut)
		}
	}
	_, err := Decode(example[:900])
	var syntax *geojson.SyntaxError
	if !errors.As(err, &syntax) || syntax.Offset != 900 {
		t.Errorf("cut at 900: %v", err)
	}
}

// TestManyProblems: all are counted, 20 are listed, in the order of the file.
func TestManyProblems(t *testing.T) {
	text := string(readFile(t, "testdata/smallest.geojson"))
	var winds []string
	for range 2500 {
		winds = append(winds, `{"time":"2026-07-11","from_deg":-1,"kn":3}`)
	}
	text = change(t, text, `"boat"`, `"wind":[`+strings.Join(winds, ",")+`],"persons":-1,"boat"`)
	_, err := Decode([]byte(text))
	var errs *Errors
	if !errors.As(err, &errs) {
		t.Fatal(err)
	}
	if len(errs.List) != MaxListed || len(errs.List)+errs.More != 5001 {
		t.Errorf("%d listed and %d more; 20 and 4981 are wanted", len(errs.List), errs.More)
	}
	for i, p := range errs.List[1:] {
		if p.Offset < errs.List[i].Offset {
			t.Errorf("%v is listed after %v", p, errs.List[i])
		}
	}
}

// TestBadFiles: whole files that must be refused; the name says why.
func TestBadFiles(t *testing.T) {
	files, err := os.ReadDir("testdata/bad")
	if err != nil || len(files) == 0 {
		t.Fatal(err)
	}
	for _, f := range files {
		if p, err := Decode(readFile(t, "testdata/bad/"+f.Name())); err == nil {
			t.Errorf("%s: accepted as %v", f.Name(), p)
		}
	}
}
