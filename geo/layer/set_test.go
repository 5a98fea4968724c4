package layer

import (
	"fmt"
	"strings"
	"testing"

	"keelroom/geo/chart"
)

// dsid is a file of a data set's identification.
func dsid(properties string) File {
	return File{"DSID.geojson", []byte(docs(`"name":"DSID",`, feature(`null`, properties)))}
}

// Layer profile sections 3 and 4.6: when the datum is doubtful.
func TestDatumWarnings(t *testing.T) {
	sounding := File{"SOUNDG.geojson", []byte(doc(aPoint, `"OBJL":129,"VALSOU":4`))}
	drawn := File{"x.geojson", []byte(doc(aPoint, `"objectClass":"SOUNDG","VALSOU":4`))}
	land := File{"x.geojson", []byte(doc(aPoint, `"objectClass":"LNDARE"`))}
	withLayer := func(layer string) File {
		return File{"x.geojson", []byte(docs(`"layer":{`+layer+`},`, feature(aPoint, `"objectClass":"SOUNDG","VALSOU":4`)))}
	}
	tests := []struct {
		name  string
		files []File
		datum int
		off   bool
		warns int
	}{
		{"DSID", []File{dsid(`"DSPM_SDAT":12,"DSPM_HDAT":2`), sounding}, 12, false, 0},
		{"no DSID", []File{sounding}, 0, false, 1},
		{"drawn, no datum", []File{drawn}, 0, false, 1},
		{"drawn land has no depth", []File{land}, 0, false, 0},
		{"verticalDatum", []File{withLayer(`"verticalDatum":12`)}, 12, false, 0},
		{"verticalDatum unknown", []File{withLayer(`"verticalDatum":"unknown"`)}, 0, false, 1},
		{"mean sea level", []File{withLayer(`"verticalDatum":3`)}, 3, false, 1},
		{"19", []File{withLayer(`"verticalDatum":19`)}, 19, false, 1},
		{"26", []File{withLayer(`"verticalDatum":26`)}, 26, false, 1},
		{"44", []File{withLayer(`"verticalDatum":44`)}, 44, false, 0},
		{"DSID goes first", []File{dsid(`"DSPM_SDAT":12`), withLayer(`"verticalDatum":23`)}, 12, false, 0},
		{"DSID without it", []File{dsid(`"DSPM_CSCL":5000`), withLayer(`"verticalDatum":23`)}, 23, false, 0},
		{"two that differ", []File{dsid(`"DSPM_SDAT":12`), dsid(`"DSPM_SDAT":23`), sounding}, 0, false, 1},
		{"of the feature", []File{{"x.geojson", []byte(doc(aPoint, `"objectClass":"SOUNDG","VALSOU":4,"VERDAT":12`))}}, 0, false, 0},
		{"of the feature, mean sea level", []File{dsid(`"DSPM_SDAT":12`), {"x.geojson", []byte(doc(aPoint, `"OBJL":129,"VALSOU":4,"VERDAT":3`))}}, 12, false, 1},
		{"M_SDAT", []File{drawn, {"y.geojson", []byte(doc(anArea, `"objectClass":"M_SDAT","VERDAT":12`))}}, 0, false, 0},
		{"another horizontal datum", []File{dsid(`"DSPM_SDAT":12,"DSPM_HDAT":1`), sounding}, 12, true, 1},
	}
	for _, test := range tests {
		set, messages := Decode(test.files)
		if set == nil {
			t.Errorf("%s: %v", test.name, messages)
			continue
		}
		warns := 0
		for _, m := range messages {
			if m.Code == "W-DATUM" && m.Level == chart.Warning {
				warns++
			}
		}
		if set.SoundingDatum != test.datum || set.OffDatum != test.off || warns != test.warns || warns != len(messages) {
			t.Errorf("%s: datum %d, off %v, %v; want %d, %v and %d warnings", test.name, set.SoundingDatum, set.OffDatum, messages, test.datum, test.off, test.warns)
		}
	}
}

func TestWhatASetSaysOfItself(t *testing.T) {
	layer := `"layer":{"title":"INVENTED bay","source":"made up","licence":"CC0-1.0","edition":3,"issueDate":"2026-01-02","authority":"official","compilationScale":12000,"verticalDatum":23},`
	set, messages := read(docs(layer, feature(aPoint, `"objectClass":"LNDARE"`)))
	if set == nil {
		t.Fatal(messages)
	}
	got := [...]any{set.Title, set.Source, set.Licence, set.Edition, set.IssueDate, set.Authority, set.Scale, set.SoundingDatum}
	want := [...]any{"INVENTED bay", "made up", "CC0-1.0", "3", "2026-01-02", chart.Official, 12000, 23}
	if got != want {
		t.Errorf("got %v, want %v", got, want)
	}
	// printf of the text | sha256sum, coreutils.
	set, _ = read(`{"type":"FeatureCollection","features":[]}`)
	if set.SHA256 != "ed778c73ea51338d6576fb5992b189f2b94d9f3d5e199f46c1af520d6b0b3e6c" {
		t.Errorf("hash %s", set.SHA256)
	}
}

func TestAuthority(t *testing.T) {
	land := feature(aPoint, `"objectClass":"LNDARE"`)
	file := func(name, layer string) File {
		return File{name, []byte(docs(`"layer":{`+layer+`},`, land))}
	}
	coverage := File{"M_COVR.geojson", []byte(doc(anArea, `"OBJL":302,"CATCOV":1`))}
	tests := []struct {
		name  string
		files []File
		want  chart.Authority
	}{
		{"drawn", []File{file("a", ``)}, chart.Private},
		{"DSID", []File{file("a", ``), dsid(`"DSPM_SDAT":12`)}, chart.Derived},
		{"M_COVR", []File{file("a", ``), coverage}, chart.Derived},
		{"claimed", []File{file("a", `"authority":"derived"`)}, chart.Derived},
		{"claimed private beside M_COVR", []File{file("a", `"authority":"private"`), coverage}, chart.Private},
		{"the least of two claims", []File{file("a", `"authority":"official"`), file("b", `"authority":"derived"`)}, chart.Derived},
	}
	for _, test := range tests {
		if set, messages := Decode(test.files); set == nil || set.Authority != test.want {
			t.Errorf("%s: %v, want %v", test.name, messages, test.want)
		}
	}
}

func TestKeys(t *testing.T) {
	tests := []struct{ properties, id, want string }{
		{`"LNAM":"0226020648310032"`, `"7"`, "0226020648310032"},
		// M_COVR of US5MA12M, as its LNAM has it: FIDN is written negative.
		{`"AGEN":550,"FIDN":-111053296,"FIDS":7363`, `7`, "0226F96176101CC3"},
		{`"AGEN":550,"FIDN":33966129,"FIDS":50`, `7`, "0226020648310032"},
		{`"AGEN":550`, `"bank"`, "bank"},
		{`"AGEN":550`, `7`, "7"},
		{``, `{}`, ""},
	}
	for _, test := range tests {
		set, messages := read(docs(`"name":"LNDARE",`, `{"type":"Feature","id":`+test.id+`,"geometry":`+aPoint+`,"properties":{`+test.properties+`}}`))
		if set == nil || len(set.Features) != 1 || set.Features[0].Key != test.want {
			t.Errorf("%s %s: %v, want %s", test.properties, test.id, messages, test.want)
		}
	}
}

// Twice the same object is loaded as stated, with W-DUP.
func TestTwins(t *testing.T) {
	other := `{"type":"Point","coordinates":[10,50.0000001]}`
	tests := []struct {
		name     string
		features []string
		twins    int
	}{
		{"same attributes", []string{feature(aPoint, `"objectClass":"LNDARE","a":1`), feature(aPoint, `"a":1,"objectClass":"LNDARE"`)}, 1},
		{"another attribute", []string{feature(aPoint, `"objectClass":"LNDARE","a":1`), feature(aPoint, `"a":2,"objectClass":"LNDARE"`)}, 0},
		{"another class", []string{feature(aPoint, `"objectClass":"LNDARE"`), feature(aPoint, `"objectClass":"UWTROC"`)}, 0},
		{"another place", []string{feature(aPoint, `"objectClass":"LNDARE"`), feature(other, `"objectClass":"LNDARE"`)}, 0},
		{"same LNAM", []string{feature(aPoint, `"objectClass":"LNDARE","LNAM":"A","a":1`), feature(aPoint, `"objectClass":"LNDARE","LNAM":"A","a":2`)}, 1},
		{"another LNAM", []string{feature(aPoint, `"objectClass":"LIGHTS","LNAM":"A"`), feature(aPoint, `"objectClass":"LIGHTS","LNAM":"B"`)}, 0},
		{"split soundings", []string{feature(aPoint, `"objectClass":"SOUNDG","LNAM":"A","DEPTH":2`), feature(other, `"objectClass":"SOUNDG","LNAM":"A","DEPTH":2`)}, 0},
		{"three", []string{feature(aPoint, `"OBJL":71`), feature(aPoint, `"OBJL":71`), feature(aPoint, `"OBJL":71`)}, 2},
	}
	for _, test := range tests {
		set, messages := read(docs(``, test.features...))
		if set == nil || len(set.Features) != len(test.features) {
			t.Errorf("%s: %v", test.name, messages)
			continue
		}
		twins := 0
		for _, m := range messages {
			if m.Code == "W-DUP" {
				twins++
			}
		}
		if twins != test.twins {
			t.Errorf("%s: %v, want %d twins", test.name, messages, test.twins)
		}
	}
}

// The first 20 messages of a code are listed, the rest counted.
func TestMessagesAreCounted(t *testing.T) {
	var features []string
	for range 50 {
		features = append(features, feature(aLine, `"objectClass":"DEPCNT","VALDCO":"2,5"`))
	}
	features = append(features, feature(anArea, `"objectClass":"DEPARE","DRVAL1":5,"DRVAL2":1`))
	set, messages := read(docs(``, features...))
	if set == nil || len(set.Refused) != 51 || len(messages) != Listed+2 {
		t.Fatalf("%d messages", len(messages))
	}
	if m := messages[Listed]; m.Code != "E-RANGE" || m.Path != "features[50].properties.DRVAL1" {
		t.Errorf("message %v", m)
	}
	if m := messages[Listed+1]; m.Code != "E-NUM" || m.Level != chart.FeatureError || m.Found != "30 more like these" {
		t.Errorf("the count is %v", m)
	}
}

func TestLimits(t *testing.T) {
	area := docs(``, feature(anArea, `"OBJL":71`), feature(anArea, `"OBJL":57`))
	file := File{"x.geojson", []byte(area)}
	tests := []struct {
		name  string
		files []File
		lim   limits
		ok    bool
	}{
		{"enough", []File{file}, limits{len(area), 2, 10}, true},
		{"bytes", []File{file}, limits{len(area) - 1, 2, 10}, false},
		{"features", []File{file}, limits{len(area), 1, 10}, false},
		{"positions", []File{file}, limits{len(area), 2, 9}, false},
		{"two files", []File{file, file}, limits{2 * len(area), 4, 20}, true},
		{"features of two files", []File{file, file}, limits{2 * len(area), 3, 20}, false},
		{"positions of two files", []File{file, file}, limits{2 * len(area), 4, 19}, false},
		{"positions used up by the first", []File{file, file}, limits{2 * len(area), 4, 10}, false},
	}
	for _, test := range tests {
		set, messages := decode(test.files, test.lim)
		if (set != nil) != test.ok {
			t.Errorf("%s: %v", test.name, messages)
		}
		if last := len(messages) - 1; !test.ok && (last < 0 || messages[last].Code != "E-SIZE" || messages[last].Level != chart.FileError) {
			t.Errorf("%s: %v, want E-SIZE", test.name, messages)
		}
	}
}

// Zones and hazards that travel with a plan.
func TestPrivate(t *testing.T) {
	set, messages := Private("plan.geojson", []PlanFeature{
		{"features[2]", []byte(feature(anArea, `"role":"zone","speedLimit":6,"speedUnits":"kn","name":"INVENTED harbour"`))},
		{"features[3]", []byte(feature(aPoint, `"role":"hazard"`))},
		{"features[5]", []byte(feature(aPoint, `"role":"hazard","objectClass":"UWTROC","VALSOU":"1,5"`))},
		{"features[6]", []byte(feature(aLine, `"role":"hazard","depth":2`))},
	})
	if set == nil || len(set.Features) != 3 || set.Authority != chart.Private {
		t.Fatal(messages)
	}
	zone, hazard, contour := set.Features[0], set.Features[1], set.Features[2]
	if zone.Class != chart.RESARE || !zone.Rules.SpeedZone || zone.Rules.Limits[0].Kn != 6 || zone.Index != 0 {
		t.Errorf("zone %+v", zone)
	}
	if hazard.Class != chart.OBSTRN || chart.Known(hazard.DepthMinM) || hazard.Index != 1 {
		t.Errorf("hazard %+v", hazard)
	}
	if contour.Class != chart.DEPCNT || contour.DepthMinM != 2 {
		t.Errorf("contour %+v", contour)
	}
	want := `E-NUM plan.geojson features[5].properties.VALSOU: "1,5"; a number with a decimal point`
	if len(messages) == 0 || messages[0].String() != want || len(set.Refused) != 1 || set.Refused[0].Index != 2 {
		t.Errorf("%v, want %s", messages, want)
	}
	for text, path := range map[string]string{
		feature(`{"type":"Point","coordinates":[341000,4681000]}`, `"role":"hazard"`): "features[7].geometry.coordinates",
		`{"type":"Feature","properties":{"VALSOU":NaN}}`:                              "features[7].properties.VALSOU",
		feature(aLine, `"depth":-2`):                                                  "features[7].properties.depth",
	} {
		set, messages := Private("plan.geojson", []PlanFeature{{"features[7]", []byte(text)}})
		if set != nil || len(messages) == 0 || messages[0].Path != path {
			t.Errorf("%s: %v, want %s", text, messages, path)
		}
	}
	if set, messages := Private("plan.geojson", nil); set == nil || len(set.Features) != 0 || len(messages) != 0 {
		t.Errorf("no features: %v", messages)
	}
}

func TestSwapHints(t *testing.T) {
	bay, _ := read(doc(`{"type":"Polygon","coordinates":[[[-71,42],[-70,42],[-70,43],[-71,43],[-71,42]]]}`, `"OBJL":42,"DRVAL1":5`))
	tests := []struct {
		name, geometry string
		hints          int
	}{
		{"as it should be", `{"type":"Point","coordinates":[-70.5,42.5]}`, 0},
		{"swapped", `{"type":"Point","coordinates":[42.5,-70.5]}`, 1},
		{"swapped line", `{"type":"LineString","coordinates":[[42.5,-70.5],[42.6,-70.4]]}`, 1},
		{"elsewhere", `{"type":"Point","coordinates":[10,50]}`, 0},
	}
	for _, test := range tests {
		set, _ := read(doc(test.geometry, `"objectClass":"LNDARE"`))
		hints := SwapHints(set, []*chart.Set{bay, set})
		if len(hints) != test.hints {
			t.Errorf("%s: %v, want %d", test.name, hints, test.hints)
		}
		for _, m := range hints {
			if m.Code != "W-COORD" || m.Level != chart.Warning || m.Path != "features[0].geometry" {
				t.Errorf("%s: %v", test.name, m)
			}
		}
		if len(SwapHints(set, nil)) != 0 {
			t.Errorf("%s: a hint without another chart", test.name)
		}
	}
}

// Paths name the place in Multi geometries and odd property names.
func TestPaths(t *testing.T) {
	tests := []struct{ text, want string }{
		{doc(`{"type":"MultiPolygon","coordinates":[[[[1,1],[2,1],[2,2],[1,1]]],[[[1,1],[2,1],[2,2],[1,1]],[[1,1],[2,1],[2,95],[1,1]]]]}`, ``), "features[0].geometry.coordinates[1][1][2]"},
		{doc(`{"type":"MultiLineString","coordinates":[[[1,1],[2,1]],[[1,1],[200,1]]]}`, ``), "features[0].geometry.coordinates[1][1]"},
		{doc(`{"type":"MultiPoint","coordinates":[[1,1],[2,91]]}`, ``), "features[0].geometry.coordinates[1]"},
		{feature(`{"type":"Point","coordinates":[999,1]}`, ``), "geometry.coordinates"},
		{docs(`"layer":{"depthProperty":"deep water"},`, feature(aLine, `"deep water":-5`)), `features[0].properties["deep water"]`},
	}
	for _, test := range tests {
		if _, messages := read(test.text); len(messages) != 1 || messages[0].Path != test.want {
			t.Errorf("%v, want %s", messages, test.want)
		}
	}
}

// Rings are closed and equal neighbours dropped, holes and parts kept.
func TestRings(t *testing.T) {
	f := only(t, doc(`{"type":"MultiPolygon","coordinates":[
		[[[10,50],[10,50],[12,50],[12,50.00000001],[12,52],[10,52]],[[10.5,50.5],[11,50.5],[11,51],[10.5,50.5]]],
		[[[20,50],[21,50],[21,51],[20,50]]]]}`, `"OBJL":71`))
	if got := fmt.Sprint(f.Ends); got != "[5 9 13]" || f.Coords[0] != f.Coords[4] {
		t.Errorf("ends %s of %v", got, f.Coords)
	}
	line := only(t, doc(`{"type":"MultiLineString","coordinates":[[[10,50],[11,50],[11,50]],[[12,50],[13,50]],[[14,50],[14,50]]]}`, `"OBJL":71`))
	if got := fmt.Sprint(line.Ends); got != "[2 4]" {
		t.Errorf("ends %s", got)
	}
	set, messages := read(doc(openArea, `"OBJL":71`))
	if got := fmt.Sprint(set.Features[0].Ends); got != "[5]" || !strings.Contains(codes(messages), "W-RING") {
		t.Errorf("ends %s, %v", got, messages)
	}
}

// Another format's decoder gives texts, as S-57 has them, and no JSON.
func TestBuilderTakesS57Texts(t *testing.T) {
	var b Builder
	where := func(attribute string) string { return "feature 12 " + attribute }
	b.Describe(DataSet{Name: "INVENTED.000", Edition: "2", Update: "3", SoundingDatum: 12, DepthUnit: 1, HeightUnit: 1, HorizontalDatum: 2, Scale: 12000, Where: where})
	b.Add(&Object{
		Class: chart.RESARE, Index: 12, Key: "0226020648310032", Where: where,
		Attributes: []Attribute{{RESTRN, "RESTRN", TextOf(",7")}, {CATREA, "CATREA", TextOf("9,12")}, {OBJNAM, "OBJNAM", TextOf("INVENTED range")}},
		Geometry: chart.Geometry{Prim: chart.Area, Coords: []chart.Coord{{Lon: 0, Lat: 0}, {Lon: 9, Lat: 0}, {Lon: 9, Lat: 9}, {Lon: 0, Lat: 0}},
			Ends: []int32{4}},
	})
	b.Add(&Object{
		Class: chart.DEPARE, Index: 13, Where: where,
		Attributes: []Attribute{{DRVAL1, "DRVAL1", TextOf("deep")}},
		Geometry:   chart.Geometry{Prim: chart.Point, Coords: []chart.Coord{{Lon: 5, Lat: 5}}},
	})
	set := b.Set()
	if set == nil || len(set.Features) != 1 || set.Edition != "2.3" || set.Authority != chart.Derived {
		t.Fatalf("%+v", b.Log.Messages())
	}
	if f := set.Features[0]; f.Rules.Restrn != chart.CodesOf(7) || f.Rules.CatRea != chart.CodesOf(9, 12) || f.Name != "INVENTED range" {
		t.Errorf("%+v %+v", f, f.Rules)
	}
	if len(set.Refused) != 1 || set.Messages[0].Path != "feature 12 DRVAL1" {
		t.Errorf("%v %v", set.Refused, set.Messages)
	}
}
