package layer

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"keelroom/geo/chart"
)

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
	for _, object := range []string{`"objectClass":"SOUNDG","VALSOU":5`, `"objectClass":"UWTROC"`, `"objectClass":"OBSTRN"`, `"objectClass":"WRECKS"`} {
		for say, want := range map[string]chart.Codes{`"NATSUR":["4","17"]`: chart.CodesOf(4, 17), `"NATSUR":"9"`: chart.CodesOf(9), `"surfaceCharacteristics":[{"natureOfSurface":4}]`: chart.CodesOf(4),
			`"NATSUR":"sand"`: 0, `"NATSUR":null`: 0} {
			if f := only(t, doc(aPoint, object+","+say)); f.NatSur != want {
				t.Errorf("%s, %s: %v", object, say, f.NatSur.List())
			}
		}
	}
}
