//go:build !js

package cli

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"keelroom/hazards/plan"
)

const (
	goodPlan  = "testdata/plan.geojson"
	goodChart = "testdata/chart"
	depare    = "testdata/chart/DEPARE.geojson"
)

func TestCheckWritesTheReport(t *testing.T) {
	status, out, diag := cli("check", "-chart", goodChart, goodPlan)
	if status != statusOK {
		t.Fatalf("status %d: %s", status, diag)
	}
	if !json.Valid([]byte(out)) {
		t.Fatal("what is written is not JSON")
	}
	r, err := plan.DecodeReport([]byte(out))
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Legs) != 2 || len(r.Stays) != 1 || len(r.Charts) != 1 {
		t.Errorf("%d legs, %d stays, %d charts; the plan has 2 and 1, the folder is 1 chart", len(r.Legs), len(r.Stays), len(r.Charts))
	}
	// One feature of the chart is refused: status 0, and both places tell.
	const message = `E-NUM UWTROC.json features[0].properties.VALSOU: "deep"`
	if !strings.Contains(diag, message) {
		t.Errorf("no %q on standard error:\n%s", message, diag)
	}
	if !slices.ContainsFunc(r.Messages, func(m string) bool { return strings.Contains(m, message) }) {
		t.Errorf("no %q in the report's messages: %q", message, r.Messages)
	}
}

// Two answers to the same question must be the same bytes.
func TestCheckIsSteady(t *testing.T) {
	_, first, _ := cli("check", "-chart", goodChart, goodPlan)
	_, second, _ := cli("check", "-chart", goodChart, goodPlan)
	if first != second {
		t.Error("two checks of the same plan differ")
	}
}

func TestSeveralCharts(t *testing.T) {
	status, out, diag := cli("check", "-chart", depare, "-chart", goodChart, goodPlan)
	if status != statusOK {
		t.Fatalf("status %d: %s", status, diag)
	}
	r, err := plan.DecodeReport([]byte(out))
	if err != nil || len(r.Charts) != 2 {
		t.Errorf("%d charts, %v; each -chart is one", len(r.Charts), err)
	}
}

// A folder is its own *.geojson and *.json files in byte order, in capitals too:
// a layer of dangers must not be lost to the case of its name.
func TestFolderInByteOrder(t *testing.T) {
	folder := t.TempDir()
	for _, name := range []string{"b.geojson", "a.json", "B.json", "a.geojson", "é.json", "c.txt", "d.GEOJSON", "e.json.bak"} {
		if err := os.WriteFile(filepath.Join(folder, name), nil, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.MkdirAll(filepath.Join(folder, "below.json", "x.json"), 0o755); err != nil {
		t.Fatal(err)
	}
	files, _, err := layerFiles(folder)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, f := range files {
		names = append(names, f.Name)
	}
	if want := []string{"B.json", "a.geojson", "a.json", "b.geojson", "d.GEOJSON", "é.json"}; !slices.Equal(names, want) {
		t.Errorf("read %q, want %q", names, want)
	}
}

// Each change makes the plan bad in one way: the error names the place, and
// what is wanted there.
var badPlans = []struct{ name, old, now, place, want string }{
	{"wrong CRS", ` "features": [`, ` "crs": {"type": "name", "properties": {"name": "EPSG:3857"}}, "features": [`, "crs", "WGS 84 longitude and latitude"},
	{"projected metres", "-36.08, 43.02]", "-4016411.8, 5315000.1]", "features[0].geometry.coordinates[0]", "looks like metres of a map projection"},
	{"NaN", `"draught_m": 0.9`, `"draught_m": NaN`, "plan.boat.draught_m", "a number is wanted"},
	{"infinite", `"draught_m": 0.9`, `"draught_m": 1e999`, "plan.boat.draught_m", ""},
	{"latitude beyond 90", "-36.08, 43.02]", "43.02, -136.08]", "features[0].geometry.coordinates[0]", "longitude and latitude may be swapped"},
	{"key twice", `"cruise_kn": 20`, `"cruise_kn": 20, "draught_m": 0.1`, "plan.boat", `the key "draught_m" occurs twice`},
	{"routes that do not join", "[[-36.06, 43.05], [", "[[-36.07, 43.05], [", "features[2].geometry.coordinates", "at most 50 m are wanted"},
	{"unknown version", `"version": 1`, `"version": 2`, "plan.version", "version 1 is wanted"},
	{"one waypoint", "[[-36.08, 43.02], [-36.06, 43.05]]", "[[-36.08, 43.02]]", "features[0].geometry.coordinates", "2 or more are wanted"},
	{"departure without zone", "10:00:00-02:00", "10:00:00", "features[0].properties.depart", "has no zone offset"},
	{"no time zone", `"time_zone": "Etc/GMT+2",`, ``, "plan.time_zone", "wanted"},
	{"boat without draught", `"draught_m": 0.9, `, ``, "plan.boat.draught_m", "a number from 0.05 to 20 metres is wanted"},
	{"two high waters running", `"height_m": 0.5`, `"height_m": 2.65`, "plan.tide.events[", "neither a high nor a low water"},
	{"no plan in it", `"plan": {`, `"plans": {`, "plan", "wanted"},
}

func TestBadPlans(t *testing.T) {
	good := read(t, goodPlan)
	for _, test := range badPlans {
		t.Run(test.name, func(t *testing.T) {
			path := scratch(t, "bad.geojson", changed(t, good, test.old, test.now))
			refused(t, []string{"check", "-chart", goodChart + "/DEPARE.geojson", path}, path+": "+test.place, test.want)
		})
	}
}

func TestUnreadablePlans(t *testing.T) {
	good := read(t, goodPlan)
	for _, test := range []struct{ name, text, want string }{
		{"empty", "", "line 1, column 1"},
		{"blank", " \n", "wanted"},
		{"truncated", good[:len(good)/2], "line "},
		{"an array", "[]", "an object is wanted"},
		{"more after the end", good + "{}", "line "},
		{"too deep", strings.Repeat("[", 100_000), ""},
		{"not UTF-8", "{\"a\": \"\xff\"}", "line 1"},
		{"too large", strings.Repeat(" ", plan.MaxBytes+1), strconv.Itoa(plan.MaxBytes) + " are wanted"},
	} {
		t.Run(test.name, func(t *testing.T) {
			path := scratch(t, "bad.geojson", test.text)
			refused(t, []string{"check", "-chart", depare, path}, path+": ", test.want)
		})
	}
	refused(t, []string{"check", "-chart", depare, "testdata/none.geojson"}, "testdata/none.geojson")
	refused(t, []string{"check", "-chart", depare, "testdata"}, "testdata is a folder; a file is wanted")
}

func TestBadCharts(t *testing.T) {
	good := read(t, depare)
	for _, test := range []struct{ name, text, code string }{
		{"empty", "", "E-JSON"},
		{"truncated", good[:len(good)-20], "E-JSON"},
		{"NaN", changed(t, good, `"DRVAL1": 10`, `"DRVAL1": NaN`), "E-JSON"},
		{"key twice", changed(t, good, `"DRVAL1": 10`, `"DRVAL1": 10, "DRVAL1": 2`), "E-JSON"},
		{"wrong CRS", changed(t, good, `"features"`, `"crs": {"type": "name", "properties": {"name": "EPSG:3857"}}, "features"`), "E-CRS"},
		{"projected metres", changed(t, good, "[-36.1, 43.0]", "[-4018600, 5312000]"), "E-COORD"},
		{"latitude beyond 90", changed(t, good, "[-36.1, 43.0]", "[43.0, -136.1]"), "E-COORD"},
		{"too large", strings.Repeat(" ", 64<<20+1), "E-SIZE"},
	} {
		t.Run(test.name, func(t *testing.T) {
			path := scratch(t, "DEPARE.geojson", test.text)
			refused(t, []string{"check", "-chart", path, goodPlan}, path+": "+test.code)
		})
	}
	empty := t.TempDir()
	refused(t, []string{"check", "-chart", empty, goodPlan}, empty+" holds no .geojson or .json file")
	refused(t, []string{"check", "-chart", "testdata/none", goodPlan}, "testdata/none")
}

// A limit holds for all files of a set together.
func TestFolderTooLarge(t *testing.T) {
	folder := t.TempDir()
	for _, name := range []string{"a.json", "b.json", "c.json"} {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(strings.Repeat(" ", 40<<20)), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	refused(t, []string{"check", "-chart", folder, goodPlan}, "E-SIZE")
}

// Whoever has two bad files is told of both at once.
func TestEveryErrorIsTold(t *testing.T) {
	badPlan := scratch(t, "plan.geojson", changed(t, changed(t, read(t, goodPlan), `"draught_m": 0.9, `, ``), `"cruise_kn": 20, `, ``))
	badChart := scratch(t, "DEPARE.geojson", "{")
	refused(t, []string{"check", "-chart", badChart, "-chart", "testdata/none", badPlan},
		"plan.boat.draught_m", "plan.boat.cruise_kn", badChart+": E-JSON", "testdata/none")
}
