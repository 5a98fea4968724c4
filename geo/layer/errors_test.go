package layer

import (
	"strings"
	"testing"

	"keelroom/geo/chart"
)

// What leaves one feature out, and which of those leave unknown water.
func TestFeatureErrors(t *testing.T) {
	tests := []struct {
		name, geometry, properties string
		code                       string
		refused                    bool
	}{
		{"classes disagree", aPoint, `"OBJL":71,"objectClass":"BOYLAT"`, "E-CONFLICT", true},
		{"classes disagree, danger last", aPoint, `"OBJL":17,"objectClass":"UWTROC"`, "E-CONFLICT", true},
		{"unreadable OBJL", aPoint, `"OBJL":"rock"`, "E-NUM", true},
		{"OBJL out of range", aPoint, `"OBJL":-4`, "E-NUM", true},
		{"fraction", aPoint, `"OBJL":71.5`, "E-NUM", true},
		{"decimal comma", aLine, `"objectClass":"DEPCNT","VALDCO":"2,5"`, "E-NUM", true},
		{"unit in the text", aLine, `"objectClass":"DEPCNT","VALDCO":"5 m"`, "E-NUM", true},
		{"true", aLine, `"objectClass":"DEPCNT","VALDCO":true`, "E-NUM", true},
		{"object", aLine, `"objectClass":"DEPCNT","VALDCO":{"a":1}`, "E-NUM", true},
		{"two numbers", aLine, `"objectClass":"DEPCNT","VALDCO":[1,2]`, "E-NUM", true},
		{"infinite text", aLine, `"objectClass":"DEPCNT","VALDCO":"Inf"`, "E-NUM", true},
		{"hexadecimal text", aLine, `"objectClass":"DEPCNT","VALDCO":"0x10"`, "E-NUM", true},
		{"beyond float64", aLine, `"objectClass":"DEPCNT","VALDCO":1e999`, "E-NUM", true},
		{"too high", aLine, `"objectClass":"DEPCNT","VALDCO":-20.1`, "E-NUM", true},
		{"too deep", aLine, `"objectClass":"DEPCNT","VALDCO":12000.1`, "E-NUM", true},
		{"no contour value", aLine, `"objectClass":"DEPCNT"`, "E-DEPTH", true},
		{"contour value unknown", aLine, `"objectClass":"DEPCNT","VALDCO":""`, "E-DEPTH", true},
		{"names disagree", aLine, `"objectClass":"DEPCNT","VALDCO":2,"valueOfDepthContour":2.06`, "E-CONFLICT", true},
		{"range turned", anArea, `"objectClass":"DEPARE","DRVAL1":5,"DRVAL2":2`, "E-RANGE", true},
		{"depth area as point", aPoint, `"objectClass":"DEPARE","DRVAL1":5`, "E-GEOM", true},
		{"contour as area", anArea, `"objectClass":"DEPCNT","VALDCO":5`, "E-GEOM", true},
		{"sounding as line", aLine, `"objectClass":"SOUNDG","VALSOU":5`, "E-GEOM", true},
		{"buoy as area", anArea, `"objectClass":"BOYLAT"`, "E-GEOM", true},
		{"sounding without depth", aPoint, `"objectClass":"SOUNDG"`, "E-DEPTH", true},
		{"sounding with two depths", aPoint, `"objectClass":"SOUNDG","DEPTH":2,"VALSOU":2.1`, "E-CONFLICT", true},
		{"sounding and third coordinate", `{"type":"Point","coordinates":[10,50,-4]}`, `"objectClass":"SOUNDG","VALSOU":4`, "E-CONFLICT", true},
		{"third coordinate too deep", `{"type":"Point","coordinates":[10,50,99999]}`, `"objectClass":"SOUNDG"`, "E-NUM", true},
		{"one sounding of two without depth", `{"type":"MultiPoint","coordinates":[[10,50,4],[11,50]]}`, `"objectClass":"SOUNDG"`, "E-DEPTH", true},
		{"WATLEV of no sense", aPoint, `"objectClass":"UWTROC","WATLEV":"high"`, "E-NUM", true},
		{"RESTRN of no sense", anArea, `"objectClass":"RESARE","RESTRN":"7;8"`, "E-NUM", true},
		{"RESTRN names disagree", anArea, `"objectClass":"RESARE","RESTRN":"7","restriction":8`, "E-CONFLICT", true},
		{"VERDAT of no sense", aPoint, `"objectClass":"SOUNDG","VALSOU":4,"VERDAT":31`, "E-NUM", true},
		{"clearance of no sense", aLine, `"objectClass":"BRIDGE","VERCLR":"tall"`, "E-NUM", true},
		{"negative clearance", aLine, `"objectClass":"CBLOHD","VERCSA":-3`, "E-NUM", true},
		{"speed without unit", anArea, `"objectClass":"RESARE","RESTRN":[27],"speedLimit":6`, "E-UNIT", true},
		{"speed in another unit", anArea, `"objectClass":"FAIRWY","speedLimit":6,"speedUnits":"m/s"`, "E-UNIT", true},
		{"speed as bare number", anArea, `"objectClass":"RESARE","RESTRN":[27],"vesselSpeedLimit":6`, "E-UNIT", true},
		{"speed 0", anArea, `"objectClass":"RESARE","speedLimit":0,"speedUnits":4`, "E-NUM", true},
		{"speed 101", anArea, `"objectClass":"RESARE","speedLimit":101,"speedUnits":4`, "E-NUM", true},
		{"speed with comma", anArea, `"objectClass":"RESARE","vesselSpeedLimit":[{"speedLimit":"6,5","speedUnits":4}]`, "E-NUM", true},
		{"speed on a line", aLine, `"objectClass":"RESARE","RESTRN":"27"`, "E-GEOM", true},
		{"speed on a point of another class", aPoint, `"objectClass":"PRCARE","speedLimit":6,"speedUnits":4`, "E-GEOM", true},
		{"restricted line", aLine, `"objectClass":"RESARE","RESTRN":"7"`, "E-GEOM", true},
		{"null geometry", `null`, `"objectClass":"LNDARE"`, "E-GEOM", true},
		{"null geometry without class", `null`, `"a":1`, "W-CLASS E-GEOM", false},
		{"GeometryCollection", `{"type":"GeometryCollection","geometries":[]}`, `"objectClass":"LNDARE"`, "E-GEOM", true},
		{"unknown geometry", `{"type":"Circle","coordinates":[1,2]}`, `"objectClass":"LNDARE"`, "E-GEOM", true},
		{"no coordinates", `{"type":"Point"}`, `"objectClass":"LNDARE"`, "E-GEOM", true},
		{"empty line", `{"type":"LineString","coordinates":[]}`, `"objectClass":"LNDARE"`, "E-GEOM", true},
		{"empty area", `{"type":"Polygon","coordinates":[]}`, `"objectClass":"LNDARE"`, "E-GEOM", true},
		{"empty multi area", `{"type":"MultiPolygon","coordinates":[]}`, `"objectClass":"LNDARE"`, "E-GEOM", true},
		{"empty hole", `{"type":"Polygon","coordinates":[[[10,50],[11,50],[11,51],[10,50]],[]]}`, `"objectClass":"LNDARE"`, "E-GEOM", true},
		{"line of one position", `{"type":"LineString","coordinates":[[10,50]]}`, `"objectClass":"LNDARE"`, "E-GEOM", true},
		{"line without length", `{"type":"LineString","coordinates":[[10,50],[10,50.00000001]]}`, `"objectClass":"LNDARE"`, "E-GEOM", true},
		{"ring of three positions", `{"type":"Polygon","coordinates":[[[10,50],[11,50],[10,50]]]}`, `"objectClass":"LNDARE"`, "E-GEOM", true},
		{"position of one number", `{"type":"Point","coordinates":[10]}`, `"objectClass":"LNDARE"`, "E-GEOM", true},
		{"nesting", `{"type":"Polygon","coordinates":[[10,50],[11,50],[11,51],[10,50]]}`, `"objectClass":"LNDARE"`, "E-GEOM", true},
		{"antimeridian", `{"type":"Polygon","coordinates":[[[179,50],[-179,50],[-179,51],[179,51],[179,50]]]}`, `"objectClass":"LNDARE"`, "E-ANTIMERIDIAN", true},
		{"antimeridian line", `{"type":"LineString","coordinates":[[179,50],[-179,50]]}`, `"objectClass":"COALNE"`, "E-ANTIMERIDIAN", true},
		{"area with one depth", anArea, `"depth":5`, "E-DEPTH", true},
		{"area with one end", anArea, `"depthMax":5`, "E-DEPTH", true},
		{"plain depth of no sense", aLine, `"depth":"5 m"`, "E-NUM", true},
		{"plain depth without place", `null`, `"depth":5`, "E-GEOM", true},
	}
	for _, test := range tests {
		set, messages := read(doc(test.geometry, test.properties))
		if set == nil || codes(messages) != test.code || len(set.Features) != 0 {
			t.Errorf("%s: %v, want %s and no feature", test.name, messages, test.code)
			continue
		}
		if (len(set.Refused) == 1) != test.refused {
			t.Errorf("%s: refused %v, want %v", test.name, set.Refused, test.refused)
		}
	}
}

// What the box of a refused feature covers.
func TestRefusedBox(t *testing.T) {
	set, _ := read(doc(anArea, `"objectClass":"DEPARE","DRVAL1":"deep"`))
	want := chart.Refused{
		Class: chart.DEPARE, File: "x.geojson", Min: chart.Coord{Lon: 100000000, Lat: 500000000},
		Max: chart.Coord{Lon: 110000000, Lat: 510000000}, Code: "E-NUM",
	}
	if len(set.Refused) != 1 || set.Refused[0] != want {
		t.Errorf("got %+v, want %+v", set.Refused, want)
	}
	set, _ = read(doc(`null`, `"objectClass":"DEPARE"`))
	if len(set.Refused) != 1 || !set.Refused[0].Boxless || set.Refused[0].Code != "E-GEOM" {
		t.Errorf("got %+v, want one without a box", set.Refused)
	}
}

// What refuses a file.
func TestFileErrors(t *testing.T) {
	ok := feature(aPoint, `"objectClass":"LNDARE"`)
	tests := []struct{ name, text, code string }{
		{"nothing", ``, "E-JSON"},
		{"cut off", `{"type":"FeatureCollection","features":[`, "E-JSON"},
		{"NaN", docs(``, feature(aLine, `"objectClass":"DEPCNT","VALDCO":NaN`)), "E-JSON"},
		{"duplicate key", docs(``, feature(aPoint, `"OBJL":71,"OBJL":71`)), "E-JSON"},
		{"duplicate key nobody reads", docs(``, feature(aPoint, `"OBJL":71,"a":{"b":1,"b":2}`)), "E-JSON"},
		{"something after it", docs(``, ok) + `x`, "E-JSON"},
		{"an array", `[]`, "E-JSON"},
		{"no object in features", docs(``, `7`), "E-JSON"},
		{"properties are a list", docs(``, `{"type":"Feature","geometry":null,"properties":[]}`), "E-JSON"},
		{"bare geometry", aPoint, "E-GEOM"},
		{"bare GeometryCollection", `{"type":"GeometryCollection","geometries":[]}`, "E-GEOM"},
		{"no type", `{"features":[]}`, "E-GEOM"},
		{"no features", `{"type":"FeatureCollection"}`, "E-GEOM"},
		{"projected crs", docs(`"crs":{"type":"name","properties":{"name":"EPSG:3857"}},`, ok), "E-CRS"},
		{"linked crs", docs(`"crs":{"type":"link","properties":{"href":"x"}},`, ok), "E-CRS"},
		{"crs after the features", `{"type":"FeatureCollection","features":[` + ok + `],"crs":{"properties":{"name":"EPSG:3857"}}}`, "E-CRS"},
		{"crs of a feature", docs(``, `{"type":"Feature","crs":{"properties":{"name":"EPSG:3857"}},"geometry":null}`), "E-CRS"},
		{"longitude", docs(``, feature(`{"type":"Point","coordinates":[180.0000001,50]}`, ``)), "E-COORD"},
		{"latitude", docs(``, feature(`{"type":"Point","coordinates":[10,-90.1]}`, ``)), "E-COORD"},
		{"negative depth", docs(``, feature(aLine, `"depth":5`), feature(aLine, `"depth":-5`)), "E-SIGN"},
		{"negative depth of an area", docs(``, feature(anArea, `"depthMin":-1,"depthMax":5`)), "E-SIGN"},
		{"negative named depth", docs(`"layer":{"depthProperty":"prof"},`, feature(aLine, `"prof":-5`)), "E-SIGN"},
		{"height with sign down", docs(`"layer":{"depthSign":"down"},`, feature(aLine, `"elev":-5`)), "E-SIGN"},
		{"two depth properties", docs(``, feature(aLine, `"depth":5,"elev":-5`)), "E-CONFLICT"},
		{"two depth properties in two features", docs(``, feature(aLine, `"depth":5`), feature(aLine, `"elevation":-5`)), "E-CONFLICT"},
		{"depth twice by case", docs(``, feature(aLine, `"depth":5,"DEPTH":5`)), "E-CONFLICT"},
		{"depths in feet by DSID", docs(`"name":"DSID",`, feature(`null`, `"DSPM_DUNI":2`)), "E-UNIT"},
		{"heights in feet by DSID", docs(`"name":"DSID",`, feature(`null`, `"DSPM_HUNI":2`)), "E-UNIT"},
		{"unreadable unit in DSID", docs(`"name":"DSID",`, feature(`null`, `"DSPM_DUNI":"m"`)), "E-UNIT"},
		{"depth unit", docs(`"layer":{"depthUnit":"yd"},`, ok), "E-UNIT"},
		{"depth sign", docs(`"layer":{"depthSign":"below"},`, ok), "E-SIGN"},
		{"authority", docs(`"layer":{"authority":"offical"},`, ok), "E-JSON"},
		{"datum", docs(`"layer":{"verticalDatum":31},`, ok), "E-JSON"},
		{"scale", docs(`"layer":{"compilationScale":"1:5000"},`, ok), "E-JSON"},
		{"title", docs(`"layer":{"title":{}},`, ok), "E-JSON"},
		{"endless list", docs(``, feature(anArea, `"OBJL":112,"RESTRN":[`+strings.Repeat(`1,`, maxItems)+`1]`)), "E-SIZE"},
		{"deep nesting", strings.Repeat(`[`, 1000), "E-JSON"},
	}
	for _, test := range tests {
		set, messages := read(test.text)
		if set != nil {
			t.Errorf("%s: a set, want none", test.name)
		}
		found := false
		for _, m := range messages {
			found = found || m.Code == test.code && m.Level == chart.FileError && m.Found != "" && m.Wanted != ""
		}
		if !found {
			t.Errorf("%s: %v, want %s for the file", test.name, messages, test.code)
		}
	}
}

// One bad file among good ones leaves the whole set out.
func TestFileErrorLeavesTheSetOut(t *testing.T) {
	good := File{"a.geojson", []byte(doc(aPoint, `"OBJL":71`))}
	bad := File{"b.geojson", []byte(`{`)}
	if set, messages := Decode([]File{good, bad}); set != nil || len(messages) == 0 || messages[0].File != "b.geojson" {
		t.Errorf("set %v, messages %v", set, messages)
	}
	if set, messages := Decode(nil); set != nil || len(messages) != 1 {
		t.Errorf("no files: set %v, messages %v", set, messages)
	}
}

// What is accepted although it looks odd.
func TestAccepted(t *testing.T) {
	ok := feature(aPoint, `"objectClass":"LNDARE"`)
	tests := []struct{ name, text, codes string }{
		{"byte order mark", "\uFEFF" + docs(``, ok), ""},
		{"one feature", ok, ""},
		{"type last", `{"features":[` + ok + `],"type":"FeatureCollection"}`, ""},
		{"CRS84", docs(`"crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:OGC:1.3:CRS84"}},`, ok), ""},
		{"EPSG 4326", docs(`"crs":{"type":"name","properties":{"name":"EPSG:4326"}},`, ok), ""},
		{"EPSG 4326 as URN", docs(`"crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:EPSG::4326"}},`, ok), ""},
		{"null crs", docs(`"crs":null,`, ok), ""},
		{"unknown members", docs(`"layer":{"colour":[1],"title":null},"x":{},`, ok), ""},
		{"a layer of somebody else", docs(`"layer":"top",`, ok), ""},
		{"no properties", `{"type":"FeatureCollection","name":"LNDARE","features":[{"type":"Feature","geometry":` + aPoint + `}]}`, ""},
		{"empty collection", docs(``), ""},
		{"open ring", doc(openArea, `"OBJL":71`), "W-RING"},
		{"bow tie", doc(`{"type":"Polygon","coordinates":[[[10,50],[11,51],[11,50],[10,51],[10,50]]]}`, `"OBJL":71`), "W-SELFX"},
		{"the edge of the world", doc(`{"type":"Point","coordinates":[-180,90]}`, `"OBJL":71`), ""},
		{"half the globe", doc(`{"type":"Polygon","coordinates":[[[0,50],[180,50],[180,51],[0,51],[0,50]]]}`, `"OBJL":71`), ""},
		{"four numbers", doc(`{"type":"LineString","coordinates":[[10,50,1,2],[11,50,1,2]]}`, `"OBJL":71`), ""},
		{"restricted, nobody knows how", doc(anArea, `"objectClass":"RESARE"`), "W-CLASS"},
		{"SCAMIN of no sense", doc(aPoint, `"objectClass":"LNDARE","SCAMIN":"far"`), ""},
		{"unknown OBJL", doc(aPoint, `"OBJL":17000`), "W-CLASS"},
		{"collections are ignored", docs(``, ok, feature(`null`, `"OBJL":400`), feature(`null`, `"OBJL":401`), feature(`null`, `"OBJL":402`)), ""},
		{"bridge as point", doc(aPoint, `"objectClass":"BRIDGE"`), ""},
	}
	for _, test := range tests {
		set, messages := read(test.text)
		if set == nil || codes(messages) != test.codes {
			t.Errorf("%s: %v, want %q", test.name, messages, test.codes)
		} else if len(set.Features) > 1 || len(set.Refused) > 0 {
			t.Errorf("%s: %d features, refused %v", test.name, len(set.Features), set.Refused)
		}
	}
}

// Paths use the name the file uses.
func TestPathsNameWhatTheFileSays(t *testing.T) {
	tests := []struct{ text, want string }{
		{doc(anArea, `"OBJL":42,"depthRangeMinimumValue":5,"DRVAL2":1`), "features[0].properties.depthRangeMinimumValue"},
		{doc(anArea, `"OBJL":309,"verticalDatum":31`), "features[0].properties.verticalDatum"},
		{doc(anArea, `"OBJL":112,"RESTRN":"7","fixedDateRange":{"dateStart":"soon"}`), "features[0].properties.fixedDateRange"},
		{doc(aPoint, `"OBJL":17,"objectClass":"DSID"`), "features[0].properties.objectClass"},
		{doc(aPoint, `"OBJL":17,"objectClass":"C_AGGR"`), "features[0].properties.objectClass"},
	}
	for _, test := range tests {
		if _, messages := read(test.text); len(messages) == 0 || messages[0].Path != test.want {
			t.Errorf("%s: %v, want %s", test.text, messages, test.want)
		}
	}
}
