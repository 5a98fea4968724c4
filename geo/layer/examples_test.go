package layer

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"keelroom/geo/chart"
	"keelroom/testdata/beside"
)

// Every file of examples/errors is named by the code that it must raise, and
// raises no other error.
func TestErrorExamples(t *testing.T) {
	dir := beside.File(t, "charts", "examples", "errors")
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	if len(entries) < 11 {
		t.Errorf("%d examples, at least 11 are wanted", len(entries))
	}
	// The levels of layer profile section 8 for these cases.
	fileLevel := map[string]bool{"E-COORD": true, "E-CRS": true, "E-SIGN": true}
	for _, e := range entries {
		t.Run(e.Name(), func(t *testing.T) {
			code := e.Name()[:2] + strings.FieldsFunc(e.Name()[2:], func(c rune) bool { return c == '-' || c == '.' })[0]
			set, messages := Decode([]File{readFile(t, filepath.Join(dir, e.Name()))})
			level := chart.Warning
			switch {
			case fileLevel[code]:
				level = chart.FileError
			case code[0] == 'E':
				level = chart.FeatureError
			}
			found := false
			for _, m := range messages {
				found = found || m.Code == code && m.Level == level && m.Path != "" && m.Found != "" && m.Wanted != ""
				if m.Level != chart.Warning && m.Code != code {
					t.Errorf("unwanted %v", m)
				}
			}
			if !found {
				t.Errorf("%s of level %v is not among %v", code, level, messages)
			}
			if (set == nil) != (level == chart.FileError) {
				t.Errorf("set %v after an error of level %v", set, level)
			}
		})
	}
}

// The texts that layer profile sections 5, 6 and 8 prescribe.
func TestPrescribedTexts(t *testing.T) {
	tests := map[string]string{
		"E-NUM-comma":       `E-NUM E-NUM-comma.geojson features[0].properties.VALDCO: "2,5"; a number with a decimal point`,
		"E-SIGN-depth":      `E-SIGN E-SIGN-depth.geojson features[0].properties.depth: 'depth' holds negative numbers: are they metres below (sign up) or drying heights (sign down)?; layer.depthSign, up or down`,
		"E-GEOM-speed-line": `E-GEOM E-GEOM-speed-line.geojson features[0].geometry: a line; a speed zone is an area; close the line`,
		"E-COORD-projected": `E-COORD E-COORD-projected.geojson features[0].geometry.coordinates[0]: 341000, 4.681e+06, which looks like metres of a map projection; longitude within 180 and latitude within 90 degrees`,
	}
	for name, want := range tests {
		_, messages := Decode([]File{readFile(t, beside.File(t, "charts", "examples", "errors", name+".geojson"))})
		if len(messages) == 0 || messages[0].String() != want {
			t.Errorf("got  %v\nwant %s", messages, want)
		}
	}
}

func example(t *testing.T, name string) *chart.Set {
	t.Helper()
	set, messages := Decode([]File{readFile(t, beside.File(t, "charts", "examples", name))})
	if set == nil {
		t.Fatal(messages)
	}
	for _, m := range messages {
		if m.Level != chart.Warning {
			t.Errorf("%s: %v", name, m)
		}
	}
	return set
}

func TestSpeedZoneExample(t *testing.T) {
	set := example(t, "speed-zone-sketch.geojson")
	if len(set.Features) != 3 || set.Authority != chart.Private || set.Title != "INVENTED speed zones for tests" {
		t.Fatalf("%d features of %v %q", len(set.Features), set.Authority, set.Title)
	}
	a, b, c := set.Features[0], set.Features[1], set.Features[2]
	for _, f := range set.Features {
		if f.Class != chart.RESARE || f.Prim != chart.Area || !f.Rules.SpeedZone {
			t.Errorf("%s is %v, speed zone %v", f.Name, f.Class, f.Rules.SpeedZone)
		}
	}
	if a.Rules.Limits[0].Kn != 6 || a.Rules.Season != (chart.Season{From: 515, To: 930}) || a.Rules.Restrn != chart.CodesOf(27) {
		t.Errorf("zone A: %+v", a.Rules)
	}
	if len(b.Rules.Limits) != 0 || b.Rules.Restrn != chart.CodesOf(13) || b.Rules.CatRea != chart.CodesOf(24) || !b.Rules.Season.Always() {
		t.Errorf("zone B: %+v", b.Rules)
	}
	if len(set.Messages) != 1 || set.Messages[0].Code != "W-SPEED" {
		t.Errorf("messages %v, want W-SPEED for zone B", set.Messages)
	}
	// 10 km/h at 1.852 km/h a knot.
	if got := c.Rules.Limits[0].Kn; math.Abs(got-10/1.852) > 1e-12 || c.Rules.Season != (chart.Season{From: 1001, To: 430}) || c.Rules.Restrn != chart.CodesOf(7, 27) {
		t.Errorf("zone C: %+v", c.Rules)
	}
}

func TestDepthExample(t *testing.T) {
	set := example(t, "depth-sketch.geojson")
	if len(set.Features) != 3 || set.SoundingDatum != 12 || set.Authority != chart.Private {
		t.Fatalf("%d features, datum %d, %v", len(set.Features), set.SoundingDatum, set.Authority)
	}
	sounding, rock, bank := set.Features[0], set.Features[1], set.Features[2]
	if sounding.Class != chart.SOUNDG || sounding.DepthsM[0] != 0.9 || !sounding.Doubtful {
		t.Errorf("sounding %+v", sounding)
	}
	if rock.Class != chart.UWTROC || chart.Known(rock.DepthMinM) || rock.Danger.WatLev != 3 || rock.Name != "INVENTED rock, depth unknown" {
		t.Errorf("rock %+v", rock)
	}
	if bank.Class != chart.DEPARE || bank.DepthMinM != -1.5 || bank.DepthMaxM != 0 || bank.Info != "INVENTED drying bank" {
		t.Errorf("bank %+v", bank)
	}
}

// Both contour files are made from the same contours, one as depth and one as
// elevation, so they must give the same features.
func TestContourExamples(t *testing.T) {
	down, up := example(t, "contours-depth.geojson"), example(t, "contours-elev.geojson")
	if len(down.Features) == 0 || len(down.Features) != len(up.Features) {
		t.Fatalf("%d and %d contours", len(down.Features), len(up.Features))
	}
	for i, f := range down.Features {
		g := up.Features[i]
		if f.Class != chart.DEPCNT || f.DepthMinM != g.DepthMinM || !samePlace(&f, &g) || f.DepthMinM < 0 || math.IsNaN(f.DepthMinM) {
			t.Fatalf("contour %d: %v m and %v m", i, f.DepthMinM, g.DepthMinM)
		}
	}
}
