package layer

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"keelroom/geo/chart"
)

const (
	aPoint   = `{"type":"Point","coordinates":[10,50]}`
	aLine    = `{"type":"LineString","coordinates":[[10,50],[11,50]]}`
	anArea   = `{"type":"Polygon","coordinates":[[[10,50],[11,50],[11,51],[10,51],[10,50]]]}`
	openArea = `{"type":"Polygon","coordinates":[[[10,50],[11,50],[11,51],[10,51]]]}`
)

// doc is a collection of one feature of invented waters.
func doc(geometry, properties string) string {
	return `{"type":"FeatureCollection","features":[{"type":"Feature","geometry":` + geometry +
		`,"properties":{` + properties + `}}]}`
}

// docs is a collection with members before its features.
func docs(members string, features ...string) string {
	return `{"type":"FeatureCollection",` + members + `"features":[` + strings.Join(features, ",") + `]}`
}

func feature(geometry, properties string) string {
	return `{"type":"Feature","geometry":` + geometry + `,"properties":{` + properties + `}}`
}

// read decodes one invented file called x.geojson.
func read(text string) (*chart.Set, []chart.Message) {
	return Decode([]File{{Name: "x.geojson", Data: []byte(text)}})
}

// codes lists the codes of messages, datum warnings left out.
func codes(messages []chart.Message) string {
	var out []string
	for _, m := range messages {
		if m.Code != "W-DATUM" {
			out = append(out, m.Code)
		}
	}
	return strings.Join(out, " ")
}

// Layer profile section 2, class by class: OBJL, S-57 and S-101 names.
func TestEveryClassOfTheProfile(t *testing.T) {
	tests := []struct {
		code            int
		s57, s101, geom string
		attributes      string
	}{
		{42, "DEPARE", "DepthArea", anArea, `"DRVAL1":5`},
		{46, "DRGARE", "DredgedArea", anArea, `"DRVAL1":5`},
		{154, "UNSARE", "UnsurveyedArea", anArea, ``},
		{71, "LNDARE", "LandArea", aPoint, ``},
		{43, "DEPCNT", "DepthContour", aLine, `"VALDCO":5`},
		{129, "SOUNDG", "Sounding", aPoint, `"VALSOU":5`},
		{153, "UWTROC", "UnderwaterAwashRock", aPoint, ``},
		{159, "WRECKS", "Wreck", aPoint, ``},
		{86, "OBSTRN", "Obstruction", aLine, ``},
		{57, "FLODOC", "FloatingDock", aLine, ``},
		{65, "HULKES", "Hulk", anArea, ``},
		{95, "PONTON", "Pontoon", aLine, ``},
		{90, "PILPNT", "Pile", aPoint, ``},
		{98, "PYLONS", "PylonBridgeSupport", anArea, ``},
		{55, "FSHFAC", "FishingFacility", aPoint, ``},
		{87, "OFSPLF", "OffshorePlatform", anArea, ``},
		{38, "DAMCON", "Dam", aLine, ``},
		{49, "DYKCON", "Dyke", aLine, ``},
		{26, "CAUSWY", "Causeway", aLine, ``},
		{80, "LOGPON", "LogPond", anArea, ``},
		{82, "MARCUL", "MarineFarmCulture", anArea, ``},
		{61, "GATCON", "Gate", aPoint, ``},
		{148, "TSSLPT", "TrafficSeparationSchemeLanePart", anArea, ``},
		{150, "TSEZNE", "SeparationZone", anArea, ``},
		{30, "COALNE", "Coastline", aLine, ``},
		{122, "SLCONS", "ShorelineConstruction", aPoint, ``},
		{112, "RESARE", "RestrictedArea", anArea, `"RESTRN":["7"]`},
		{27, "CTNARE", "CautionArea", aPoint, ``},
		{96, "PRCARE", "PrecautionaryArea", anArea, ``},
		{11, "BRIDGE", "Bridge", aLine, ``},
		{11, "BRIDGE", "SpanFixed", aLine, ``},
		{21, "CBLOHD", "CableOverhead", aLine, ``},
		{93, "PIPOHD", "PipelineOverhead", aLine, ``},
		{34, "CONVYR", "Conveyor", anArea, ``},
		{302, "M_COVR", "DataCoverage", anArea, `"CATCOV":1`},
		{308, "M_QUAL", "QualityOfBathymetricData", anArea, ``},
		{309, "M_SDAT", "SoundingDatum", anArea, `"VERDAT":12`},
		{312, "M_VDAT", "VerticalDatumOfData", anArea, `"VERDAT":16`},
		{17, "BOYLAT", "LateralBuoy", aPoint, ``},
		{7, "BCNLAT", "LateralBeacon", aPoint, ``},
		{14, "BOYCAR", "CardinalBuoy", aPoint, ``},
		{5, "BCNCAR", "CardinalBeacon", aPoint, ``},
		{16, "BOYISD", "IsolatedDangerBuoy", aPoint, ``},
		{6, "BCNISD", "IsolatedDangerBeacon", aPoint, ``},
		{18, "BOYSAW", "SafeWaterBuoy", aPoint, ``},
		{8, "BCNSAW", "SafeWaterBeacon", aPoint, ``},
		{19, "BOYSPP", "SpecialPurposeGeneralBuoy", aPoint, ``},
		{9, "BCNSPP", "SpecialPurposeGeneralBeacon", aPoint, ``},
		{306, "M_NSYS", "NavigationalSystemOfMarks", anArea, ``},
		{51, "FAIRWY", "Fairway", anArea, ``},
		{4, "ACHARE", "AnchorageArea", anArea, ``},
		{22, "CBLSUB", "CableSubmarine", aLine, ``},
		{20, "CBLARE", "CableArea", anArea, ``},
		{94, "PIPSOL", "PipelineSubmarineOnLand", aLine, ``},
		{92, "PIPARE", "SubmarinePipelineArea", anArea, ``},
		{121, "SBDARE", "SeabedArea", anArea, ``},
	}
	for _, test := range tests {
		more := ""
		if test.attributes != "" {
			more = "," + test.attributes
		}
		for _, say := range []string{
			fmt.Sprintf(`"OBJL":%d`, test.code),
			`"objectClass":"` + test.s57 + `"`, `"OBJECT":"` + strings.ToLower(test.s57) + `"`, `"_layer":"` + test.s57 + `"`,
			`"objectClass":"` + test.s101 + `"`, `"objectClass":"` + strings.ToUpper(test.s101) + `"`,
			fmt.Sprintf(`"OBJL":%d,"_layer":"%s","objectClass":"%s"`, test.code, test.s57, test.s101),
		} {
			set, messages := read(doc(test.geom, say+more))
			if set == nil || len(set.Features) != 1 || int(set.Features[0].Class) != test.code || codes(messages) != "" {
				t.Errorf("%s: %v, want class %d", say+more, messages, test.code)
			}
		}
	}
}

// Layer profile section 2: the first that answers.
func TestClassOfAFeature(t *testing.T) {
	tests := []struct {
		name, file, text string
		want             chart.Class
		codes            string
	}{
		{"OBJL over collection and file", "BOYLAT.geojson", docs(`"name":"SOUNDG",`, feature(aPoint, `"OBJL":71`)), chart.LNDARE, ""},
		{"collection over file", "BOYLAT.geojson", docs(`"name":"LNDARE",`, feature(aPoint, ``)), chart.LNDARE, ""},
		{"collection named after the features", "x.geojson", `{"type":"FeatureCollection","features":[` + feature(aPoint, ``) + `],"name":"LNDARE"}`, chart.LNDARE, ""},
		{"merged collection", "x.geojson", docs(`"name":"merged",`, feature(aPoint, `"OBJECT":"LNDARE"`)), chart.LNDARE, ""},
		{"file", "a/b/LNDARE.geojson", docs(``, feature(aPoint, ``)), chart.LNDARE, ""},
		{"file on a backslash path", `a\LNDARE.json`, docs(``, feature(aPoint, ``)), chart.LNDARE, ""},
		{"end of the file's name", "US5XX11M_LNDARE.geojson", docs(``, feature(aPoint, ``)), chart.LNDARE, ""},
		{"end of the file's name with underscore", "US5XX11M_M_COVR.geojson", docs(``, feature(anArea, `"CATCOV":1`)), chart.MCOVR, ""},
		{"file of another case is no acronym", "lndare.geojson", docs(``, feature(aPoint, ``)), chart.NoClass, "W-CLASS"},
		{"unknown name", "x.geojson", docs(``, feature(aPoint, `"objectClass":"Wharf9"`)), chart.NoClass, "W-CLASS"},
		{"unknown name and a depth", "x.geojson", docs(``, feature(aLine, `"_layer":"contours","depth":5`)), chart.DEPCNT, ""},
		{"depth on a point", "x.geojson", docs(``, feature(aPoint, `"depth":5`)), chart.SOUNDG, ""},
		{"depths on an area", "x.geojson", docs(``, feature(anArea, `"depthMin":2,"depthMax":5`)), chart.DEPARE, ""},
		{"another S-57 class", "x.geojson", docs(``, feature(aPoint, `"OBJL":75`)), 75, ""},
		{"foul ground", "x.geojson", docs(``, feature(aPoint, `"objectClass":"FoulGround"`)), chart.OBSTRN, ""},
		{"empty OBJL", "x.geojson", docs(``, feature(aPoint, `"OBJL":null,"objectClass":"LNDARE"`)), chart.LNDARE, ""},
		{"OBJL as text", "x.geojson", docs(``, feature(aPoint, `"OBJL":"71"`)), chart.LNDARE, ""},
	}
	for _, test := range tests {
		set, messages := Decode([]File{{test.file, []byte(test.text)}})
		if set == nil || len(set.Features) != 1 || set.Features[0].Class != test.want || codes(messages) != test.codes {
			t.Errorf("%s: %v, want class %d and %q", test.name, messages, test.want, test.codes)
		}
	}
}

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
		{"depth area as line", aLine, `"objectClass":"DEPARE","DRVAL1":5`, "E-GEOM", true},
		{"contour as area", anArea, `"objectClass":"DEPCNT","VALDCO":5`, "E-GEOM", true},
		{"sounding as line", aLine, `"objectClass":"SOUNDG","VALSOU":5`, "E-GEOM", true},
		{"buoy as area", anArea, `"objectClass":"BOYLAT"`, "E-GEOM", false},
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

// only is the one feature of a text.
func only(t *testing.T, text string) chart.Feature {
	t.Helper()
	set, messages := read(text)
	if set == nil || len(set.Features) != 1 {
		t.Fatalf("%s: %v", text, messages)
	}
	return set.Features[0]
}

// Layer profile sections 4 and 5: depths in metres, positive down.
func TestDepths(t *testing.T) {
	unknown := math.NaN()
	tests := []struct {
		name, text string
		min, max   float64
	}{
		{"area", doc(anArea, `"OBJL":42,"DRVAL1":1.8,"DRVAL2":3.6`), 1.8, 3.6},
		{"berth", doc(anArea, `"OBJL":46,"DRVAL1":0,"DRVAL2":7.3`), 0, 7.3},
		{"drying", doc(anArea, `"OBJL":42,"DRVAL1":-2.9,"DRVAL2":0`), -2.9, 0},
		{"text", doc(anArea, `"OBJL":42,"DRVAL1":"1.8","DRVAL2":" 3.6 "`), 1.8, 3.6},
		{"S-101", doc(anArea, `"OBJL":42,"depthRangeMinimumValue":1.8,"depthRangeMaximumValue":"3.6"`), 1.8, 3.6},
		{"both names", doc(anArea, `"OBJL":42,"DRVAL1":1.8,"depthRangeMinimumValue":1.85`), 1.8, unknown},
		{"no DRVAL1", doc(anArea, `"OBJL":42,"DRVAL2":3.6`), unknown, 3.6},
		{"null, empty", doc(anArea, `"OBJL":42,"DRVAL1":null,"DRVAL2":""`), unknown, unknown},
		{"unsurveyed", doc(anArea, `"OBJL":154,"DRVAL1":10`), unknown, unknown},
		{"contour", doc(aLine, `"OBJL":43,"VALDCO":5.4`), 5.4, unknown},
		{"unit does not touch S-57", docs(`"layer":{"depthUnit":"ft","depthSign":"up"},`, feature(aLine, `"OBJL":43,"VALDCO":5.4`)), 5.4, unknown},
		{"third coordinate is ignored", doc(`{"type":"LineString","coordinates":[[10,50,9],[11,50,9]]}`, `"OBJL":43,"VALDCO":5.4`), 5.4, unknown},
		{"sounding DEPTH", doc(`{"type":"Point","coordinates":[10,50,2.4]}`, `"OBJL":129,"DEPTH":2.4`), 2.4, unknown},
		{"sounding VALSOU", doc(aPoint, `"OBJL":129,"valueOfSounding":"2.4"`), 2.4, unknown},
		{"sounding z", doc(`{"type":"Point","coordinates":[10,50,2.4]}`, `"OBJL":129`), 2.4, unknown},
		{"soundings", doc(`{"type":"MultiPoint","coordinates":[[10,50,2.4],[10,51,-0.5],[11,51,7]]}`, `"OBJL":129`), -0.5, unknown},
		{"rock", doc(aPoint, `"OBJL":153,"VALSOU":0.3`), 0.3, unknown},
		{"rock without depth", doc(`{"type":"Point","coordinates":[10,50,9]}`, `"OBJL":153,"VALSOU":""`), unknown, unknown},

		{"plain depth", doc(aLine, `"depth":5`), 5, unknown},
		{"plain Depth text", doc(aLine, `"Depth":"5.25"`), 5.25, unknown},
		{"plain elev", doc(aLine, `"elev":-5`), 5, unknown},
		{"plain elevation", doc(aLine, `"Elevation":1.5`), -1.5, unknown},
		{"sign up", docs(`"layer":{"depthSign":"up"},`, feature(aLine, `"depth":-5`)), 5, unknown},
		{"sign down", docs(`"layer":{"depthSign":"down"},`, feature(aLine, `"depth":-1.5`)), -1.5, unknown},
		{"sign after the features", `{"type":"FeatureCollection","features":[` + feature(aLine, `"depth":-5`) + `],"layer":{"depthSign":"up"}}`, 5, unknown},
		{"named property", docs(`"layer":{"depthProperty":"prof","depthUnit":"m"},`, feature(aLine, `"PROF":5,"depth":7`)), 5, unknown},
		{"named height", docs(`"layer":{"depthProperty":"elev"},`, feature(aLine, `"elev":-5,"depth":7`)), 5, unknown},
		{"centimetres stay", doc(aLine, `"depth":1.15`), 1.15, unknown},
		{"millimetres to shoaler", doc(aLine, `"depth":1.159`), 1.15, unknown},
		{"millimetres to shoaler, drying", docs(`"layer":{"depthSign":"down"},`, feature(aLine, `"depth":-1.151`)), -1.16, unknown},
		// 6 ft = 1.8288 m and 3 fm = 5.4864 m, exactly.
		{"feet", docs(`"layer":{"depthUnit":"ft"},`, feature(aLine, `"depth":6`)), 1.82, unknown},
		{"fathoms", docs(`"layer":{"depthUnit":"fm"},`, feature(aLine, `"depth":3`)), 5.48, unknown},
		{"feet up", docs(`"layer":{"depthUnit":"ft"},`, feature(aLine, `"elev":6`)), -1.83, unknown},
		{"area", doc(anArea, `"depthMin":2,"depthMax":5`), 2, 5},
		{"area open below", doc(anArea, `"depthMin":2`), 2, unknown},
		{"area up", docs(`"layer":{"depthSign":"up"},`, feature(anArea, `"depthMin":-2,"depthMax":-5`)), 2, 5},
		{"point ignores z", doc(`{"type":"Point","coordinates":[10,50,-5]}`, `"depth":5`), 5, unknown},
		{"point in feet, upper case", docs(`"layer":{"depthUnit":"ft"},`, feature(aPoint, `"DEPTH":6`)), 1.82, unknown},
		{"null beside depth", doc(aLine, `"depth":5,"elev":null`), 5, unknown},
	}
	same := func(a, b float64) bool { return a == b || math.IsNaN(a) && math.IsNaN(b) }
	for _, test := range tests {
		f := only(t, test.text)
		if !same(f.DepthMinM, test.min) || !same(f.DepthMaxM, test.max) {
			t.Errorf("%s: %v to %v, want %v to %v", test.name, f.DepthMinM, f.DepthMaxM, test.min, test.max)
		}
	}
}

// List attributes in every shape of layer profile section 3.
func TestLists(t *testing.T) {
	for text, want := range map[string]chart.Codes{
		`["2","6","24"]`: chart.CodesOf(2, 6, 24), `"2,6,24"`: chart.CodesOf(2, 6, 24), `[2,6,24]`: chart.CodesOf(2, 6, 24),
		`["2,6","24"]`: chart.CodesOf(2, 6, 24), `",7"`: chart.CodesOf(7), `["","7",null]`: chart.CodesOf(7), `7`: chart.CodesOf(7),
		`"7"`: chart.CodesOf(7), `[]`: 0, `""`: 0, `null`: 0,
	} {
		f := only(t, doc(anArea, `"objectClass":"RESARE","CATREA":["9"],"RESTRN":`+text))
		if f.Rules.Restrn != want || f.Rules.CatRea != chart.CodesOf(9) {
			t.Errorf("RESTRN %s: %v, want %v", text, f.Rules.Restrn.List(), want.List())
		}
	}
	buoy := only(t, doc(aPoint, `"objectClass":"BOYLAT","COLOUR":["3","4","3"],"CATLAM":3,"BOYSHP":4,"featureName":[{"name":""},{"name":"INVENTED buoy"}]`))
	if fmt.Sprint(*buoy.Mark) != "{3 0 [3 4 3] 4}" || buoy.Name != "INVENTED buoy" {
		t.Errorf("buoy %+v %q", *buoy.Mark, buoy.Name)
	}
}

// Layer profile section 6: what makes a speed zone, and its value in knots.
func TestSpeedZones(t *testing.T) {
	const kmh, mph = 1 / 1.852, 1.609344 / 1.852
	type limits = []chart.SpeedLimit
	tests := []struct {
		name, properties string
		zone             bool
		limits           limits
	}{
		{"flat knots", `"objectClass":"RESARE","RESTRN":"27","speedLimit":6,"speedUnits":4`, true, limits{{Kn: 6}}},
		{"flat km/h", `"objectClass":"RESARE","RESTRN":"27","speedLimit":"10","speedUnits":"km/h"`, true, limits{{Kn: 10 * kmh}}},
		{"flat code as text", `"objectClass":"RESARE","RESTRN":"27","speedLimit":10,"speedUnits":"2"`, true, limits{{Kn: 10 * kmh}}},
		{"mph", `"objectClass":"RESARE","RESTRN":"27","speedLimit":5,"speedUnits":3`, true, limits{{Kn: 5 * mph}}},
		{"complex", `"objectClass":"RESARE","restriction":27,"vesselSpeedLimit":{"speedLimit":6,"speedUnits":"kn"}`, true, limits{{Kn: 6}}},
		{"complex list", `"objectClass":"RESARE","vesselSpeedLimit":[{"speedLimit":8,"speedUnits":4,"vesselClass":"small"},{"speedLimit":5,"speedUnits":"mph"}]`,
			true, limits{{Kn: 8, VesselClass: "small"}, {Kn: 5 * mph}}},
		{"no wake", `"objectClass":"RESARE","RESTRN":[13]`, true, nil},
		{"no wake area", `"objectClass":"RESARE","CATREA":[24]`, true, nil},
		{"another restriction", `"objectClass":"RESARE","RESTRN":[7]`, false, nil},
		{"another class", `"objectClass":"FAIRWY","speedLimit":6,"speedUnits":4`, true, limits{{Kn: 6}}},
		{"another class by code", `"objectClass":"DRGARE","DRVAL1":3,"RESTRN":["27"]`, true, nil},
		{"no class at all", `"speedLimit":6,"speedUnits":4`, true, limits{{Kn: 6}}},
		{"empty value", `"objectClass":"RESARE","RESTRN":"27","vesselSpeedLimit":{"speedLimit":null}`, true, nil},
	}
	for _, test := range tests {
		set, messages := read(doc(anArea, test.properties))
		if set == nil || len(set.Features) != 1 {
			t.Errorf("%s: %v", test.name, messages)
			continue
		}
		r := set.Features[0].Rules
		if r == nil || r.SpeedZone != test.zone || len(r.Limits) != len(test.limits) {
			t.Errorf("%s: %+v", test.name, r)
			continue
		}
		for i, want := range test.limits {
			if math.Abs(r.Limits[i].Kn-want.Kn) > 1e-12 || r.Limits[i].VesselClass != want.VesselClass {
				t.Errorf("%s: limit %+v, want %+v", test.name, r.Limits[i], want)
			}
		}
		if warned := strings.Contains(codes(messages), "W-SPEED"); warned != (test.zone && test.limits == nil) {
			t.Errorf("%s: %v", test.name, messages)
		}
	}
}

// Layer profile section 6.4: seasons. Unreadable is always, with W-DATE.
func TestSeasons(t *testing.T) {
	day := func(s string) time.Time { d, _ := time.Parse("20060102", s); return d }
	always := chart.Season{}
	tests := []struct {
		properties string
		want       chart.Season
		code       string
	}{
		{`"PERSTA":"--0515","PEREND":"--0930"`, chart.Season{From: 515, To: 930}, ""},
		{`"PERSTA":"--1001","PEREND":"--0430"`, chart.Season{From: 1001, To: 430}, ""},
		{`"PERSTA":"--0229","PEREND":"--0229"`, chart.Season{From: 229, To: 229}, ""},
		{`"periodicDateRange":{"dateStart":"--0515","dateEnd":"--0930"}`, chart.Season{From: 515, To: 930}, ""},
		{`"periodicDateRange":[{"dateStart":"--0515","dateEnd":"--0930"}]`, chart.Season{From: 515, To: 930}, ""},
		{`"periodicDateRange":{"dateStart":"--0515","dateEnd":"--0930"},"PERSTA":"--0515","PEREND":"--0930"`, chart.Season{From: 515, To: 930}, ""},
		{`"DATSTA":"20260501","DATEND":"20260930"`, chart.Season{FirstDay: day("20260501"), Last: day("20260930")}, ""},
		{`"DATSTA":20260501`, chart.Season{FirstDay: day("20260501")}, ""},
		{`"fixedDateRange":{"dateEnd":"20260930"}`, chart.Season{Last: day("20260930")}, ""},
		{``, always, ""},
		{`"PERSTA":"","PEREND":null`, always, ""},
		{`"PERSTA":"--0515"`, always, "W-DATE"},
		{`"PERSTA":"--0230","PEREND":"--0930"`, always, "W-DATE"},
		{`"PERSTA":"May","PEREND":"--0930"`, always, "W-DATE"},
		{`"PERSTA":515,"PEREND":930`, always, "W-DATE"},
		{`"DATSTA":"2026"`, always, "W-DATE"},
		{`"DATSTA":"20260931"`, always, "W-DATE"},
		{`"DATSTA":"20260930","DATEND":"20260501"`, always, "W-DATE"},
		{`"periodicDateRange":"--0515"`, always, "W-DATE"},
		{`"periodicDateRange":[{"dateStart":"--0101","dateEnd":"--0201"},{"dateStart":"--0501","dateEnd":"--0601"}]`, always, "W-DATE"},
		{`"periodicDateRange":{"dateStart":"--0515","dateEnd":"--0930"},"PERSTA":"--0601","PEREND":"--0930"`, always, "W-DATE"},
		{`"PERSTA":"--0515","PEREND":"--0930","DATSTA":"soon"`, always, "W-DATE"},
	}
	for _, test := range tests {
		properties := `"objectClass":"RESARE","RESTRN":"7"`
		if test.properties != "" {
			properties += "," + test.properties
		}
		set, messages := read(doc(anArea, properties))
		if set == nil || len(set.Features) != 1 || codes(messages) != test.code {
			t.Errorf("%s: %v, want %q", test.properties, messages, test.code)
		} else if got := set.Features[0].Rules.Season; got != test.want {
			t.Errorf("%s: %+v, want %+v", test.properties, got, test.want)
		}
	}
}

func TestHazards(t *testing.T) {
	f := only(t, doc(aPoint, `"objectClass":"Wreck","waterLevelEffect":3,"categoryOfWreck":["1"],"expositionOfSounding":2,"VALSOU":7,"qualityOfVerticalMeasurement":"8"`))
	if *f.Danger != (chart.Danger{WatLev: 3, CatWrk: 1, ExpSou: 2}) || f.DepthMinM != 7 || !f.Doubtful {
		t.Errorf("%+v %+v", f, *f.Danger)
	}
	foul := only(t, doc(aPoint, `"objectClass":"FoulGround","VALSOU":7`))
	if foul.Danger.CatObs != 7 {
		t.Errorf("foul ground %+v", *foul.Danger)
	}
	for code, doubtful := range map[int]bool{1: false, 2: true, 3: true, 4: true, 6: false, 7: false, 8: true, 9: true, 10: false, 11: true} {
		f := only(t, doc(aPoint, fmt.Sprintf(`"OBJL":153,"VALSOU":1,"QUASOU":["%d"]`, code)))
		if f.Doubtful != doubtful {
			t.Errorf("QUASOU %d: doubtful %v", code, f.Doubtful)
		}
	}
	if f := only(t, doc(aPoint, `"OBJL":153,"QUASOU":["2"]`)); f.Doubtful {
		t.Error("no value can be doubtful without a value")
	}
}

func TestOverhead(t *testing.T) {
	f := only(t, doc(aLine, `"objectClass":"BRIDGE","CATBRG":["5"],"VERCCL":3.6,"HORCLR":"15.2","VERDAT":16`))
	if !f.Overhead.Opening || f.Overhead.VerCclM != 3.6 || f.Overhead.HorClrM != 15.2 || chart.Known(f.Overhead.VerClrM) || f.Overhead.HeightDatum != 16 || f.Datum != 0 {
		t.Errorf("%+v", f.Overhead)
	}
	for code, opens := range map[int]bool{1: false, 2: true, 3: true, 4: true, 5: true, 6: false, 7: true, 8: true, 9: false, 12: false} {
		if f := only(t, doc(aLine, fmt.Sprintf(`"OBJL":11,"CATBRG":%d`, code))); f.Overhead.Opening != opens {
			t.Errorf("CATBRG %d: opening %v", code, f.Overhead.Opening)
		}
	}
	span := only(t, doc(aLine, `"objectClass":"SpanOpening","verticalClearanceClosed":{"verticalClearanceValue":4.5},"horizontalClearanceFixed":{"horizontalClearanceValue":20}`))
	if !span.Overhead.Opening || span.Overhead.VerCclM != 4.5 || span.Overhead.HorClrM != 20 {
		t.Errorf("%+v", span.Overhead)
	}
	cable := only(t, doc(aLine, `"objectClass":"CableOverhead","verticalClearanceSafe":{"verticalClearanceValue":12},"verticalClearanceFixed":{"verticalClearanceValue":15}`))
	if cable.Overhead.VerCsaM != 12 || cable.Overhead.VerClrM != 15 || cable.Overhead.Opening {
		t.Errorf("%+v", cable.Overhead)
	}
}

func TestMeta(t *testing.T) {
	tests := []struct {
		properties string
		want       chart.Meta
	}{
		{`"OBJL":302,"CATCOV":1`, chart.Meta{CatCov: 1, OrientDeg: -1}},
		{`"OBJL":302`, chart.Meta{OrientDeg: -1}},
		{`"OBJL":308,"CATZOC":3`, chart.Meta{CatZoc: 3, OrientDeg: -1}},
		{`"OBJL":308,"zoneOfConfidence":[{"categoryOfZoneOfConfidenceInData":2},{"categoryOfZoneOfConfidenceInData":4}]`, chart.Meta{CatZoc: 4, OrientDeg: -1}},
		{`"OBJL":309,"VERDAT":12`, chart.Meta{VerDat: 12, OrientDeg: -1}},
		{`"OBJL":312,"verticalDatum":"16"`, chart.Meta{VerDat: 16, OrientDeg: -1}},
		{`"OBJL":306,"MARSYS":2,"ORIENT":250.5`, chart.Meta{MarSys: 2, OrientDeg: 250.5}},
		{`"OBJL":306,"marksNavigationalSystemOf":1,"orientation":{"orientationValue":90}`, chart.Meta{MarSys: 1, OrientDeg: 90}},
	}
	for _, test := range tests {
		got := *only(t, doc(anArea, test.properties)).Meta
		if !chart.Known(got.OrientDeg) {
			got.OrientDeg = -1 // NaN is not equal to itself
		}
		if got != test.want {
			t.Errorf("%s: %+v, want %+v", test.properties, got, test.want)
		}
	}
	if f := only(t, doc(anArea, `"objectClass":"SBDARE","NATSUR":["4","1"]`)); f.NatSur != chart.CodesOf(1, 4) {
		t.Errorf("NATSUR %v", f.NatSur.List())
	}
	if f := only(t, doc(anArea, `"objectClass":"SeabedArea","surfaceCharacteristics":[{"natureOfSurface":4},{"natureOfSurface":"1"}]`)); f.NatSur != chart.CodesOf(1, 4) {
		t.Errorf("natureOfSurface %v", f.NatSur.List())
	}
}
