package layer

import (
	"fmt"
	"runtime"
	"strings"
	"testing"

	"keelroom/geo/chart"
)

// A mark that cannot be read is refused as a mark: a skipper who comes near it
// must hear of it. INVENTED features.
func TestUnreadMarksAreRefusedAsMarks(t *testing.T) {
	for _, test := range []struct {
		geometry, properties string
		class                chart.Class
	}{
		{aPoint, `"objectClass":"BOYCAR","CATCAM":"north"`, chart.BOYCAR},
		{aPoint, `"OBJL":5,"CATCAM":"1,2"`, chart.BCNCAR},
		{aPoint, `"OBJL":17,"CATLAM":99`, chart.BOYLAT},
		{aPoint, `"objectClass":"LateralBeacon","categoryOfLateralMark":"port"`, chart.BCNLAT},
		{aPoint, `"OBJL":16,"COLOUR":"red"`, chart.BOYISD},
		{anArea, `"OBJL":19`, chart.BOYSPP},
		{`null`, `"OBJL":14,"CATCAM":1`, chart.BOYCAR},
	} {
		set, messages := read(doc(test.geometry, test.properties))
		if set == nil || len(set.Features) != 0 || len(set.Refused) != 1 || set.Refused[0].Class != test.class {
			t.Errorf("%s: %v, want one refused %v", test.properties, messages, test.class)
		}
	}
}

// Layer profile section 2, rule 6: a class that nobody knows, with a member that
// only a danger, a depth, an overhead, a rule or a mark has, leaves unknown water.
func TestUnknownClassWithATellingMember(t *testing.T) {
	for _, member := range []string{
		`"VALSOU":-0.5`, `"valueOfSounding":-0.5`, `"WATLEV":4`, `"waterLevelEffect":5`, `"CATWRK":2`, `"categoryOfWreck":2`,
		`"CATOBS":6`, `"categoryOfObstruction":6`, `"EXPSOU":2`, `"QUASOU":"4"`, `"DRVAL1":0.3`, `"depthRangeMinimumValue":0.3`,
		`"DRVAL2":2`, `"VALDCO":2`, `"VERCLR":4`, `"verticalClearanceFixed":{"verticalClearanceValue":4}`, `"VERCCL":2`, `"VERCSA":9`,
		`"verticalClearanceOpen":{"verticalClearanceValue":4}`, `"HORCLR":8`, `"CATBRG":"2"`, `"categoryOfOpeningBridge":3`,
		`"RESTRN":"7"`, `"restriction":[7]`, `"CATREA":"14"`, `"categoryOfRestrictedArea":14`, `"CATCOV":2`,
		`"VALSOU":"deep"`, `"valsou":-0.5`, `"Watlev":4`, `"ValueOfSounding":-0.5`,
	} {
		for _, class := range []string{`"objectClass":"Rock"`, `"OBJECT":"UWTROK"`, `"_layer":"underwater rock"`, `"OBJL":1530`, `"OBJL":200`, `"foo":1`} {
			set, messages := read(doc(aPoint, class+","+member))
			if set == nil || codes(messages) != "E-CLASS" || len(set.Features) != 0 || len(set.Refused) != 1 || set.Refused[0].Boxless {
				t.Errorf("%s, %s: %v, want E-CLASS and its box refused", class, member, messages)
			}
		}
	}
	// Of the marks' members the place counts as a mark that could not be read.
	for member, want := range map[string]chart.Class{`"CATCAM":1`: chart.BOYCAR, `"categoryOfLateralMark":1`: chart.BOYLAT, `"BOYSHP":4`: chart.BOYSPP, `"beaconShape":3`: chart.BCNSPP} {
		set, messages := read(doc(aPoint, `"objectClass":"BOYCRA",`+member))
		if set == nil || codes(messages) != "E-CLASS" || len(set.Refused) != 1 || set.Refused[0].Class != want {
			t.Errorf("%s: %v, want E-CLASS and a refused %v", member, messages, want)
		}
	}
	// A speed under a class that nobody knows may be that of a marine farm.
	speed := `"speedLimit":6,"speedUnits":4`
	if set, messages := read(doc(anArea, `"objectClass":"MarineFarmm",`+speed)); set == nil || codes(messages) != "E-CLASS" || len(set.Refused) != 1 {
		t.Errorf("a speed of an unknown class: %v", messages)
	}
	if set, messages := read(doc(anArea, speed)); set == nil || len(set.Features) != 1 || !set.Features[0].Rules.SpeedZone {
		t.Errorf("a speed without any class: %v, want the zone", messages)
	}
	// What says nothing of the kind is drawn and not used.
	for _, plainly := range []string{`"objectClass":"Rock"`, `"OBJL":1530`, `"OBJNAM":"INVENTED","VALSOU":""`, `"foo":1`} {
		if set, messages := read(doc(aPoint, plainly)); set == nil || codes(messages) != "W-CLASS" || len(set.Features) != 1 || len(set.Refused) != 0 {
			t.Errorf("%s: %v, want W-CLASS", plainly, messages)
		}
	}
}

// S-57 names in another case are the same names: databases write them in lower
// case, and a danger must not lose its depth or a rule its code by that.
func TestNamesInAnotherCase(t *testing.T) {
	set, messages := read(doc(aPoint, `"objl":159,"valsou":0.4,"watlev":3`))
	if set == nil || len(set.Features) != 1 || set.Features[0].Class != chart.WRECKS || set.Features[0].DepthMinM != 0.4 {
		t.Errorf("a wreck in lower case: %v", messages)
	}
	set, messages = read(doc(anArea, `"ObjectClass":"resare","restrn":"7"`))
	if set == nil || len(set.Features) != 1 || !set.Features[0].Rules.Restrn.Has(7) {
		t.Errorf("a rule in lower case: %v", messages)
	}
	if set, messages = read(doc(aPoint, `"OBJL":159,"VALSOU":4,"valsou":0.4`)); set == nil || codes(messages) != "E-CONFLICT" {
		t.Errorf("two spellings that differ: %v", messages)
	}
}

// What a person would write, and a slip of the finger, are answered with the
// name that is wanted.
func TestClassesAreSuggested(t *testing.T) {
	for written, want := range map[string]string{
		"Rock": "UWTROC", "rocks": "UWTROC", "Reef": "UWTROC", "Buoy": "BOYLAT", "cardinal buoy": "BOYCAR", "Shipwreck": "WRECKS", "wrecks!": "WRECKS",
		"UWTROK": "UWTROC", "DEPAER": "DEPARE", "Obstuction": "OBSTRN", "LandAreas": "LNDARE", "Speed zone": "RESARE", "Island": "LNDARE", "Beacon": "BCNLAT",
	} {
		_, messages := read(doc(aPoint, fmt.Sprintf(`"objectClass":%q,"VALSOU":2`, written)))
		if len(messages) == 0 || messages[0].Code != "E-CLASS" || !strings.Contains(messages[0].Wanted, want) {
			t.Errorf("%q: %v, want %s suggested", written, messages, want)
		}
	}
	_, messages := read(doc(aPoint, `"objectClass":"Rock"`))
	if len(messages) == 0 || !strings.Contains(messages[0].Wanted, "UWTROC") {
		t.Errorf("%v, want UWTROC suggested", messages)
	}
	_, messages = read(doc(aPoint, `"objectClass":"qzqzqz","VALSOU":2`))
	if len(messages) == 0 || strings.Contains(messages[0].Wanted, "such as") {
		t.Errorf("%v, want no suggestion for what is like nothing", messages)
	}
}

// S-57 also draws depth areas as lines (App. A, DEPARE). They say nothing that an
// area does not and leave nothing unknown, whatever their depths.
func TestDepthAreaAsLine(t *testing.T) {
	for _, depths := range []string{``, `,"DRVAL1":5,"DRVAL2":10`, `,"DRVAL1":"","DRVAL2":""`, `,"DRVAL1":"deep"`, `,"DRVAL1":9,"DRVAL2":2`} {
		set, messages := read(doc(aLine, `"objectClass":"DEPARE"`+depths))
		if set == nil || codes(messages) != "" || len(set.Features) != 1 || len(set.Refused) != 0 {
			t.Errorf("DEPARE%s: %v, want it taken", depths, messages)
		} else if f := set.Features[0]; chart.Known(f.DepthMinM) || chart.Known(f.DepthMaxM) {
			t.Errorf("DEPARE%s: depths %g and %g of a line", depths, f.DepthMinM, f.DepthMaxM)
		}
	}
	if _, messages := read(doc(aPoint, `"objectClass":"DEPARE","DRVAL1":5`)); codes(messages) != "E-GEOM" {
		t.Errorf("a depth area as a point: %v", messages)
	}
}

// Codes of 17 000 and up are those of Inland ENCs (the names are in GDAL's
// s57objectclasses_iw.csv). Each is told with what it means; what a boat would miss
// is refused, and its place counts as unknown.
func TestInlandCodes(t *testing.T) {
	for _, test := range []struct {
		code     int
		geometry string
		says     string
		refused  chart.Class
		unknown  bool
	}{
		{17011, aLine, "bridge", chart.BRIDGE, true},
		{17012, aLine, "cable overhead", chart.CBLOHD, true},
		{17003, anArea, "depth area", chart.DEPARE, true},
		{17003, aLine, "depth area", 0, false}, // a line says nothing that an area does not
		{17005, anArea, "restricted area", chart.RESARE, true},
		{17016, anArea, "lock basin", chart.LOKBSN, true},
		{17061, aPoint, "buoy", chart.BOYSPP, true},
		{17060, aPoint, "beacon", chart.BCNSPP, true},
		{17050, aPoint, "notice mark", 0, false},
		{17004, aPoint, "distance mark", 0, false},
		{17066, anArea, "waterway area", 0, false},
		{17999, anArea, "17999", chart.NoClass, true},
		{40000, aPoint, "40000", chart.NoClass, true},
	} {
		set, messages := read(doc(test.geometry, fmt.Sprintf(`"OBJL":%d`, test.code)))
		code, drawn := "E-CLASS", 0
		if !test.unknown {
			code, drawn = "W-CLASS", 1
		}
		if set == nil || codes(messages) != code || !strings.Contains(messages[0].Found, test.says) || !strings.Contains(messages[0].Found, "Inland") || len(set.Features) != drawn {
			t.Errorf("%d: %v, want %s with %q", test.code, messages, code, test.says)
			continue
		}
		if (len(set.Refused) == 1) != test.unknown || test.unknown && set.Refused[0].Class != test.refused {
			t.Errorf("%d: refused %+v, want unknown %v as %v", test.code, set.Refused, test.unknown, test.refused)
		}
	}
}

// A text of over 1 000 characters is cut, with a warning, and costs no more than
// a few times the file.
func TestLongNamesAreCut(t *testing.T) {
	long := strings.Repeat("ö", 1001)
	set, messages := read(doc(aPoint, `"OBJL":71,"OBJNAM":"`+long+`","INFORM":"`+long+`"`))
	if set == nil || codes(messages) != "W-NAME W-NAME" || len(set.Features) != 1 {
		t.Fatalf("%v, want two texts cut", messages)
	}
	f := set.Features[0]
	if want := long[:2*999] + "…"; f.Name != want || f.Info != want {
		t.Errorf("name of %d characters, info of %d; 1000 are wanted", len([]rune(f.Name)), len([]rune(f.Info)))
	}
	if _, messages = read(doc(aPoint, `"OBJL":71,"OBJNAM":"`+long[:2000]+`"`)); codes(messages) != "" {
		t.Errorf("1 000 characters: %v", messages)
	}
	huge := strings.Repeat("n", 10<<20)
	for _, text := range []string{
		doc(aPoint, `"OBJL":71,"OBJNAM":"`+huge+`"`), doc(aPoint, `"OBJL":71,"featureName":[{"name":"\u0041`+huge+`"}]`),
		doc(aPoint, `"OBJL":"`+huge+`"`), doc(aPoint, `"objectClass":"`+huge+`"`), doc(aPoint, `"OBJL":71,"`+huge+`":1`),
		docs(`"name":"`+huge+`","layer":{"title":"`+huge+`"},`, feature(aPoint, `"OBJL":71`)),
		`{"type":"FeatureCollection","features":[{"type":"Feature","id":"` + huge + `","geometry":` + aPoint + `,"properties":{"OBJL":71}}]}`,
	} {
		var set *chart.Set
		var messages []chart.Message
		used := allocatedBy(func() { set, messages = read(text) })
		if used > 12*uint64(len(text)) {
			t.Errorf("%.60s…: %d MB for a file of %d", text, used>>20, len(text)>>20)
		}
		if set == nil {
			t.Errorf("%.60s…: %v", text, messages)
			continue
		}
		if kept := heldText(set); kept > 5000 {
			t.Errorf("%.60s…: a set with texts of %d bytes", text, kept)
		}
	}
}

// heldText is how many bytes of text a set holds.
func heldText(s *chart.Set) (n int) {
	n = len(s.Title) + len(s.Source) + len(s.Licence) + len(s.Edition) + len(s.IssueDate)
	for i := range s.Features {
		n += len(s.Features[i].Name) + len(s.Features[i].Info) + len(s.Features[i].Key) + len(s.Features[i].File)
	}
	for _, m := range s.Messages {
		n += len(m.String())
	}
	return n
}

// allocatedBy is how many bytes fn allocates in all.
func allocatedBy(fn func()) uint64 {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	fn()
	runtime.ReadMemStats(&after)
	return after.TotalAlloc - before.TotalAlloc
}
