package layer

import (
	"fmt"
	"strings"
	"testing"

	"keelroom/geo/chart"
)

// INVENTED features about 43°N 36°W. What cannot be read as it was meant must
// turn into unknown water, never vanish: each of these once did.

func square(x0, y0, x1, y1 float64) string {
	return fmt.Sprintf("[[%g,%g],[%g,%g],[%g,%g],[%g,%g],[%g,%g]]", x0, y0, x1, y0, x1, y1, x0, y1, x0, y0)
}

func decodeOne(t *testing.T, head, feature string) (*chart.Set, []chart.Message) {
	t.Helper()
	text := `{"type":"FeatureCollection",` + head + `"features":[` + feature + `]}`
	set, messages := Decode([]File{{Name: "invented.geojson", Data: []byte(text)}})
	return set, messages
}

func drawn(properties, kind, coordinates string) string {
	geometry := "null"
	if kind != "" {
		geometry = `{"type":"` + kind + `","coordinates":` + coordinates + `}`
	}
	return `{"type":"Feature","properties":{` + properties + `},"geometry":` + geometry + `}`
}

const (
	land   = `"objectClass":"LNDARE"`
	closed = `"objectClass":"RESARE","RESTRN":[7]`
)

func TestWhatCannotBeMeantIsUnknown(t *testing.T) {
	big, small, apart := square(-36, 43, -35, 44), square(-35.8, 43.2, -35.2, 43.8), square(-34, 43, -33, 44)
	line := "[[-36,43],[-35,43],[-36,43],[-36,43]]"
	for name, f := range map[string]string{
		"the same part twice":         drawn(land, "MultiPolygon", "[["+big+"],["+big+"]]"),
		"a part inside another":       drawn(closed, "MultiPolygon", "[["+big+"],["+small+"]]"),
		"a hole like its outer ring":  drawn(land, "Polygon", "["+big+","+big+"]"),
		"a hole outside its ring":     drawn(`"objectClass":"DEPARE","DRVAL1":50`, "Polygon", "["+big+","+apart+"]"),
		"a hole in a ring of no area": drawn(`"objectClass":"DEPARE","DRVAL1":50`, "Polygon", "["+line+","+small+"]"),
		"a hole in another part":      drawn(land, "MultiPolygon", "[["+big+"],["+apart+","+small+"]]"),
		"a range without a place":     drawn(`"depthMin":1,"depthMax":2`, "", ""),
		"a data set drawn in a place": drawn(`"objectClass":"DSID"`, "Polygon", "["+big+"]"),
		"a collection in a place":     drawn(`"OBJL":400`, "Polygon", "["+big+"]"),
		"rules on another class":      drawn(`"OBJL":83,"CATREA":"x"`, "Polygon", "["+big+"]"),
		"two depths of a point":       drawn(`"depth":30`, "Point", "[-36,43,3]"),
		"land over the antimeridian":  drawn(land, "Polygon", "["+square(-179.9, 43, 179.9, 44)+"]"),
		"the coast over it":           drawn(`"objectClass":"COALNE"`, "LineString", "[[179.9,43],[-179.9,43]]"),
	} {
		t.Run(name, func(t *testing.T) {
			set, messages := decodeOne(t, "", f)
			if set == nil || len(set.Refused) != 1 {
				t.Fatalf("want one refused mark; messages %v", messages)
			}
			if strings.Contains(name, "antimeridian") || strings.Contains(name, "coast") {
				if !set.Refused[0].Boxless {
					t.Errorf("the mark %+v has a box, which leaves the place itself out", set.Refused[0])
				}
			}
		})
	}
}

// What is as it should be stays: an island in a lake, parts beside each other
// and touching, holes, in any direction.
func TestWellNestedAreasStay(t *testing.T) {
	big, lake, island, beside := square(-36, 43, -35, 44), square(-35.8, 43.2, -35.2, 43.8), square(-35.6, 43.4, -35.4, 43.6), square(-35, 43, -34, 44)
	for name, f := range map[string]string{
		"a hole":            drawn(land, "Polygon", "["+big+","+lake+"]"),
		"an island in it":   drawn(land, "MultiPolygon", "[["+big+","+lake+"],["+island+"]]"),
		"island first":      drawn(land, "MultiPolygon", "[["+island+"],["+big+","+lake+"]]"),
		"parts that touch":  drawn(land, "MultiPolygon", "[["+big+"],["+beside+"]]"),
		"a hole of no area": drawn(land, "Polygon", "["+big+",[[-35.8,43.2],[-35.7,43.2],[-35.8,43.2],[-35.8,43.2]]]"),
	} {
		if set, messages := decodeOne(t, "", f); set == nil || len(set.Features) != 1 || len(set.Refused) != 0 {
			t.Errorf("%s: refused; %v", name, messages)
		}
	}
}

// A data set's datum that cannot be read is not known, whatever the layer says;
// and what a broken record does say still counts.
func TestBrokenDataSet(t *testing.T) {
	head := `"layer":{"verticalDatum":23},`
	set, _ := decodeOne(t, head, drawn(`"objectClass":"DSID","DSPM_SDAT":99`, "", ""))
	if set == nil || set.SoundingDatum != 0 {
		t.Errorf("an unreadable datum gives %+v", set)
	}
	if set, messages := decodeOne(t, head, `{"type":"Feature","properties":{"objectClass":"DSID","DSPM_DUNI":2},"geometry":{}}`); set != nil {
		t.Errorf("depths in another unit are read; %v", messages)
	}
	set, _ = decodeOne(t, head, `{"type":"feature","properties":{"objectClass":"DSID","DSPM_HDAT":1},"geometry":null}`)
	if set == nil || !set.OffDatum {
		t.Errorf("another frame of positions is lost: %+v", set)
	}
}

// A date that is stated and cannot be read makes the rule hold always.
func TestUnreadableDatesHoldAlways(t *testing.T) {
	for _, dates := range []string{
		`"DATSTA":["20240101","20240201"],"DATEND":"20251231"`, `"DATSTA":true,"DATEND":"20251231"`,
		`"fixedDateRange":{"dateStart":["20240101","20240201"],"dateEnd":"20251231"}`,
		`"fixedDateRange":[{"dateStart":"","dateEnd":""},{"dateStart":"20240101","dateEnd":"20241231"}]`,
	} {
		set, messages := decodeOne(t, "", drawn(closed+","+dates, "Polygon", "["+square(-36, 43, -35, 44)+"]"))
		if set == nil || len(set.Features) != 1 || !set.Features[0].Rules.Season.Always() || len(messages) == 0 {
			t.Errorf("%s: %v", dates, messages)
		}
	}
}

// A speed that is stated without a figure is a zone all the same, and a unit
// that is spelled otherwise is not read as metres.
func TestStatedIsHeard(t *testing.T) {
	area := "[" + square(-36, 43, -35, 44) + "]"
	set, _ := decodeOne(t, "", drawn(`"objectClass":"FAIRWY","vesselSpeedLimit":{"vesselClass":"X","speedLimit":null}`, "Polygon", area))
	if set == nil || len(set.Features) != 1 || set.Features[0].Rules == nil || !set.Features[0].Rules.SpeedZone {
		t.Error("a limit without a figure is no zone")
	}
	for _, head := range []string{`"layer":{"depthunit":"ft"},`, `"layer":{"depthUnit":""},`} {
		if set, messages := decodeOne(t, head, drawn(`"depth":10`, "Point", "[-36,43]")); set != nil {
			t.Errorf("%s is read as metres; %v", head, messages)
		}
	}
}

// A plan's hazard is one, whatever its class or its name says.
func TestPrivateHazardIsHeeded(t *testing.T) {
	for _, more := range []string{`"objectClass":"Fairway"`, `"OBJL":9999`, `"OBJL":302`, `"objectClass":"DSID"`, `"DSID_DSNM":"x"`} {
		for _, geometry := range []string{`{"type":"Point","coordinates":[-36,43]}`, "null"} {
			text := `{"type":"Feature","name":"DSID","properties":{"role":"hazard",` + more + `},"geometry":` + geometry + `}`
			set, messages := Private("plan", []PlanFeature{{Path: "features[1]", Data: []byte(text)}})
			if set == nil {
				continue // the plan is refused
			}
			dangers := len(set.Refused)
			for _, f := range set.Features {
				if f.Class == chart.OBSTRN {
					dangers++
				}
			}
			if dangers != 1 {
				t.Errorf("%s: %d dangers and unknown places, want one; %v", text, dangers, messages)
			}
		}
	}
}
