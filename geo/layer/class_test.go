package layer

import (
	"fmt"
	"strings"
	"testing"

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
		{89, "OILBAR", "OilBarrier", aLine, ``},
		{107, "RAPIDS", "Rapids", anArea, ``},
		{84, "MORFAC", "MooringWarpingFacility", aLine, `"CATMOR":4`},
		{76, "LITFLT", "LightFloat", aPoint, ``},
		{77, "LITVES", "LightVessel", aPoint, ``},
		{15, "BOYINB", "InstallationBuoy", aPoint, ``},
		{35, "CRANES", "Crane", anArea, ``},
		{39, "DAYMAR", "Daymark", aPoint, ``},
		{66, "ICEARE", "IceArea", anArea, ``},
		{156, "WATTUR", "WaterTurbulence", aLine, ``},
		{83, "MIPARE", "MilitaryPracticeArea", anArea, ``},
		{120, "SPLARE", "SeaplaneLandingArea", aPoint, ``},
		{133, "SUBTLN", "SubmarineTransitLane", anArea, ``},
		{68, "ISTZNE", "InshoreTrafficZone", anArea, ``},
		{88, "OSPARE", "OffshoreProductionArea", anArea, ``},
		{7, "BCNLAT", "LateralBeacon", aLine, ``},
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
		{158, "WEDKLP", "WeedKelp", anArea, ``},
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
