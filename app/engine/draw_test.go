package engine

import (
	"encoding/json"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"keelroom/geo/layer"
	"keelroom/testdata/beside"
)

// drawn is a drawing as a view reads it.
type drawn struct {
	Set struct {
		ID, Title, Authority string
		Scale                int
		Bounds               *[4]float64
	}
	Features []struct {
		Properties map[string]any
		Geometry   struct {
			Type        string
			Coordinates any
		}
	}
}

func readDrawing(t testing.TB, pieces []string) drawn {
	t.Helper()
	var d drawn
	if err := json.Unmarshal([]byte(strings.Join(pieces, "")), &d); err != nil {
		t.Fatal(err)
	}
	return d
}

// positions flattens coordinates; neighbours that are equal count once, as the
// layer profile drops them. Third numbers are left out.
func positions(v any) (out [][2]float64) {
	list, _ := v.([]any)
	if len(list) >= 2 {
		if x, ok := list[0].(float64); ok {
			return [][2]float64{{x, list[1].(float64)}}
		}
	}
	for _, item := range list {
		for _, p := range positions(item) {
			if n := len(out); n == 0 || out[n-1] != p {
				out = append(out, p)
			}
		}
	}
	return out
}

// The drawing of the real cell holds what GDAL's files hold (NOAA US5MA12M, by
// ogr2ogr): feature by feature the class, the geometry's type, every position and
// the depths. encoding/json reads both.
func TestDrawIsTheFile(t *testing.T) {
	for _, parts := range [][]string{{"charts", "US5MA12M", "geojson"}, {"charts", "hull"}} {
		files := folder(t, beside.File(t, parts...))
		set := decodeFiles(t, files)
		d := readDrawing(t, Draw("cell", set, nil))
		type key struct {
			class string
			index int
		}
		drawnAt := map[key]int{}
		for i, f := range d.Features {
			class, _ := f.Properties["c"].(string)
			index, _ := f.Properties["i"].(float64)
			drawnAt[key{class, int(index)}] = i
		}
		seen := 0
		for _, file := range files {
			seen += compareFile(t, file, func(class string, index int) int {
				if i, ok := drawnAt[key{class, index}]; ok {
					return i
				}
				return -1
			}, d)
		}
		if seen != len(d.Features) {
			t.Errorf("%v: %d features drawn, %d in the files", parts, len(d.Features), seen)
		}
		t.Logf("%v: %d features", parts, seen)
	}
}

// compareFile compares the features of one file, all of one class, with those
// drawn, and counts them.
func compareFile(t *testing.T, file layer.File, find func(string, int) int, d drawn) (seen int) {
	t.Helper()
	var in struct {
		Name     string
		Features []struct {
			Properties map[string]any
			Geometry   *struct {
				Type        string
				Coordinates any
			}
		}
	}
	if err := json.Unmarshal(file.Data, &in); err != nil {
		t.Fatal(err)
	}
	for i, f := range in.Features {
		if f.Geometry == nil {
			continue // metadata and collections are not drawn
		}
		at := find(in.Name, i)
		if at < 0 {
			t.Fatalf("%s features[%d] is not drawn", file.Name, i)
		}
		seen++
		got := d.Features[at]
		if got.Geometry.Type != f.Geometry.Type {
			t.Errorf("%s features[%d] is drawn as %s, it is a %s", file.Name, i, got.Geometry.Type, f.Geometry.Type)
		}
		a, b := positions(got.Geometry.Coordinates), positions(f.Geometry.Coordinates)
		if len(a) != len(b) {
			t.Fatalf("%s features[%d]: %d positions drawn, %d in the file", file.Name, i, len(a), len(b))
		}
		for k := range a {
			if math.Abs(a[k][0]-b[k][0]) > 5e-8 || math.Abs(a[k][1]-b[k][1]) > 5e-8 {
				t.Fatalf("%s features[%d]: position %d is %v, in the file %v", file.Name, i, k, a[k], b[k])
			}
		}
		for _, name := range []string{"DRVAL1", "DRVAL2", "VALDCO", "VALSOU", "WATLEV", "CATZOC", "CATCOV", "VERCLR", "CATLAM", "SCAMIN"} {
			want, stated := f.Properties[name]
			if have, ok := got.Properties[name]; ok && (!stated || have != want) {
				t.Errorf("%s features[%d]: %s is drawn as %v, in the file %v", file.Name, i, name, have, want)
			}
		}
		if depth, ok := f.Properties["DEPTH"]; ok && got.Properties["d"] != depth {
			t.Errorf("%s features[%d]: depth %v drawn, %v in the file", file.Name, i, got.Properties["d"], depth)
		}
		switch in.Name {
		case "DEPARE", "DRGARE":
			if got.Properties["DRVAL1"] != f.Properties["DRVAL1"] || got.Properties["DRVAL2"] != f.Properties["DRVAL2"] {
				t.Errorf("%s features[%d]: depths %v", file.Name, i, got.Properties)
			}
		case "DEPCNT":
			if got.Properties["VALDCO"] != f.Properties["VALDCO"] {
				t.Errorf("%s features[%d]: contour %v", file.Name, i, got.Properties)
			}
		}
	}
	return seen
}

// What a layer refuses is drawn as its box; a sounding of several depths as a
// point for each; what a private layer holds is marked as the skipper's own.
func TestDrawSketch(t *testing.T) {
	set := decodeFiles(t, []layer.File{{Name: "sketch.geojson", Data: []byte(`{"type":"FeatureCollection","layer":{"title":"INVENTED \"sketch\"","verticalDatum":23},"features":[
	{"type":"Feature","properties":{"OBJL":129},"geometry":{"type":"MultiPoint","coordinates":[[-36,43,2.5],[-36.0000001,-43.5,-0.4]]}},
	{"type":"Feature","properties":{"OBJL":42,"DRVAL1":5,"DRVAL2":2},"geometry":{"type":"Polygon","coordinates":[[[-36,43],[-35.9,43],[-35.9,43.1],[-36,43]]]}},
	{"type":"Feature","properties":{"OBJL":42,"DRVAL1":5},"geometry":null},
	{"type":"Feature","properties":{"OBJL":112,"RESTRN":["27","1"],"speedLimit":5,"speedUnits":"kn","INFORM":"INVENTED"},"geometry":{"type":"MultiPolygon","coordinates":[[[[1,1],[2,1],[2,2],[1,1]]],[[[5,5],[9,5],[9,9],[5,5]],[[6,5.5],[7,5.5],[7,6],[6,5.5]]]]}}
	]}`)}})
	d := readDrawing(t, Draw("own", set, nil))
	kinds := map[string]int{}
	for _, f := range d.Features {
		kinds[f.Properties["c"].(string)+" "+f.Geometry.Type]++
		if f.Properties["own"] != true {
			t.Errorf("not marked as the skipper's own: %v", f.Properties)
		}
	}
	want := map[string]int{"SOUNDG Point": 2, "REFUSED Polygon": 2, "RESARE MultiPolygon": 1}
	for k, n := range want {
		if kinds[k] != n {
			t.Errorf("%d of %s, want %d: %v", kinds[k], k, n, kinds)
		}
	}
	for _, f := range d.Features {
		switch p := f.Properties; p["c"] {
		case "SOUNDG":
			if p["d"] != 2.5 && p["d"] != -0.4 {
				t.Errorf("a sounding of %v", p["d"])
			}
		case "REFUSED":
			if box := positions(f.Geometry.Coordinates); p["i"] == 2.0 && (box[0] != [2]float64{-36.0000001, -43.5} || box[2] != [2]float64{9, 43.1}) {
				t.Errorf("a feature without a place has the box %v", box)
			}
		case "RESARE":
			if p["speed"] != true || p["limit_kn"] != 5.0 || p["info"] != "INVENTED" {
				t.Errorf("%v", p)
			}
			parts := f.Geometry.Coordinates.([]any)
			if len(parts) != 2 || len(parts[0].([]any)) != 1 || len(parts[1].([]any)) != 2 {
				t.Errorf("the parts of a speed zone: %v", parts)
			}
		}
	}
	if d.Set.ID != "own" || d.Set.Title != `INVENTED "sketch"` || d.Set.Authority != "private" || d.Set.Bounds == nil {
		t.Errorf("%+v", d.Set)
	}
}

func TestAppendDegrees(t *testing.T) {
	for e7, want := range map[int32]string{0: "0", 1: "0.0000001", -1: "-0.0000001", 1_800_000_000: "180", -360_000_000: "-36",
		-709_999_999: "-70.9999999", 10: "0.000001", 423_000_000: "42.3", math.MinInt32: "-214.7483648"} {
		if got := string(appendDegrees(nil, e7)); got != want {
			t.Errorf("%d: %s, want %s", e7, got, want)
		}
	}
}

func BenchmarkDraw(b *testing.B) {
	set := decodeFiles(b, folder(b, beside.File(b, filepath.Join("charts", "US5MA12M", "geojson"))))
	b.ReportAllocs()
	for b.Loop() {
		Draw("cell", set, nil)
	}
}
