package layer

import (
	"encoding/json"
	"math"
	"strconv"
	"strings"
	"testing"

	"keelroom/geo/chart"
	"keelroom/testdata/beside"
)

// plainFeature is a feature as encoding/json reads it, for comparison.
type plainFeature struct {
	Properties map[string]any
	Geometry   *struct {
		Type        string
		Coordinates any
	}
}

func plainFeatures(t *testing.T, f File) []plainFeature {
	t.Helper()
	var doc struct{ Features []plainFeature }
	if err := json.Unmarshal(f.Data, &doc); err != nil {
		t.Fatal(err)
	}
	return doc.Features
}

// positions appends all positions below a coordinates value.
func positions(dst [][]float64, v any) [][]float64 {
	items := v.([]any)
	if x, ok := items[0].(float64); ok {
		p := []float64{x}
		for _, n := range items[1:] {
			p = append(p, n.(float64))
		}
		return append(dst, p)
	}
	for _, item := range items {
		dst = positions(dst, item)
	}
	return dst
}

// Every feature of real layers must come out with the class of its OBJL, the
// numbers of its properties, and its vertices to 1e-7 degrees.
func TestRealLayersAgreeWithEncodingJSON(t *testing.T) {
	for _, path := range [][]string{{"charts", "US5MA12M", "geojson"}, {"charts", "hull"}} {
		t.Run(path[1], func(t *testing.T) {
			files := folder(t, beside.File(t, path...))
			set, messages := Decode(files)
			if set == nil {
				t.Fatal(messages)
			}
			if len(set.Refused) != 0 {
				t.Errorf("refused %+v", set.Refused)
			}
			next := 0
			for _, file := range files {
				for i, want := range plainFeatures(t, file) {
					if want.Geometry == nil {
						continue
					}
					compareFeature(t, &set.Features[next], want, file, i)
					next++
				}
			}
			if next != len(set.Features) {
				t.Errorf("%d features, want %d", len(set.Features), next)
			}
		})
	}
}

func compareFeature(t *testing.T, f *chart.Feature, want plainFeature, file File, i int) {
	t.Helper()
	p := want.Properties
	if f.File != baseName(file.Name) || f.Index != i || f.Key != p["LNAM"] {
		t.Errorf("%s %d: %s %d key %s", file.Name, i, f.File, f.Index, f.Key)
	}
	if float64(f.Class) != p["OBJL"].(float64) || Acronym(f.Class)+".geojson" != f.File {
		t.Errorf("%s %d: class %d %s", f.File, i, f.Class, Acronym(f.Class))
	}
	for name, got := range stated(f) {
		if v, ok := p[name].(float64); ok && v != got || !ok && !math.IsNaN(got) && got != 0 {
			t.Errorf("%s %d: %s is %v, want %v", f.File, i, name, got, p[name])
		}
	}
	for name, got := range statedLists(f) {
		if want := codesOf(p[name]); got != want {
			t.Errorf("%s %d: %s is %v, want %v", f.File, i, name, got.List(), want.List())
		}
	}
	if name, _ := p["OBJNAM"].(string); f.Name != name {
		t.Errorf("%s %d: name %q, want %q", f.File, i, f.Name, name)
	}
	comparePlace(t, f, want)
}

// stated are the numbers that a feature keeps, by their property.
func stated(f *chart.Feature) map[string]float64 {
	m := map[string]float64{"SCAMIN": float64(f.ScaMin)}
	switch {
	case f.Class.WaterArea():
		m["DRVAL1"], m["DRVAL2"] = f.DepthMinM, f.DepthMaxM
	case f.Class == chart.DEPCNT:
		m["VALDCO"] = f.DepthMinM
	case f.Class == chart.SOUNDG:
		m["DEPTH"] = f.DepthsM[0]
	case f.Danger != nil:
		m["VALSOU"] = f.DepthMinM
		m["WATLEV"], m["CATOBS"] = float64(f.Danger.WatLev), float64(f.Danger.CatObs)
		m["CATWRK"], m["EXPSOU"] = float64(f.Danger.CatWrk), float64(f.Danger.ExpSou)
	case f.Overhead != nil:
		m["VERCLR"], m["VERCCL"] = f.Overhead.VerClrM, f.Overhead.VerCclM
		m["VERCSA"], m["HORCLR"] = f.Overhead.VerCsaM, f.Overhead.HorClrM
	case f.Class == chart.BOYLAT:
		m["CATLAM"], m["BOYSHP"] = float64(f.Mark.CatLam), float64(f.Mark.Shape)
	case f.Class == chart.BCNLAT:
		m["CATLAM"], m["BCNSHP"] = float64(f.Mark.CatLam), float64(f.Mark.Shape)
	case f.Class == chart.MCOVR:
		m["CATCOV"] = float64(f.Meta.CatCov)
	case f.Class == chart.MQUAL:
		m["CATZOC"] = float64(f.Meta.CatZoc)
	case f.Class == chart.MNSYS:
		m["MARSYS"], m["ORIENT"] = float64(f.Meta.MarSys), f.Meta.OrientDeg
	}
	return m
}

func statedLists(f *chart.Feature) map[string]chart.Codes {
	m := map[string]chart.Codes{}
	if f.Class == chart.SBDARE {
		m["NATSUR"] = f.NatSur
	}
	if f.Mark != nil {
		m["COLOUR"] = chart.CodesOf(f.Mark.Colours...)
	}
	m["RESTRN"], m["CATREA"] = 0, 0
	if f.Rules != nil {
		m["RESTRN"], m["CATREA"] = f.Rules.Restrn, f.Rules.CatRea
	}
	return m
}

// codesOf reads an array of texts, as those files have them.
func codesOf(v any) (codes chart.Codes) {
	items, _ := v.([]any)
	for _, item := range items {
		if n, err := strconv.Atoi(item.(string)); err == nil {
			codes |= chart.CodesOf(n)
		}
	}
	return codes
}

// comparePlace checks vertices: equal neighbours may have gone, nothing else.
func comparePlace(t *testing.T, f *chart.Feature, want plainFeature) {
	t.Helper()
	var kept [][]float64
	for _, p := range positions(nil, want.Geometry.Coordinates) {
		if n := len(kept); f.Prim == chart.Point || n == 0 || kept[n-1][0] != p[0] || kept[n-1][1] != p[1] {
			kept = append(kept, p)
		}
	}
	if len(kept) != len(f.Coords) {
		t.Errorf("%s %d: %d vertices, want %d", f.File, f.Index, len(f.Coords), len(kept))
		return
	}
	for i, p := range kept {
		got := f.Coords[i].Position()
		if math.Abs(got[0]-p[0]) > 0.5e-7 || math.Abs(got[1]-p[1]) > 0.5e-7 {
			t.Errorf("%s %d: vertex %d at %v, want %v", f.File, f.Index, i, got, p)
		}
	}
	prims := map[string]chart.Prim{"Point": chart.Point, "Line": chart.Line, "Poly": chart.Area}
	if name := strings.TrimPrefix(want.Geometry.Type, "Multi"); f.Prim != prims[name[:min(4, len(name))]] && f.Prim != prims[name] {
		t.Errorf("%s %d: %v, want %s", f.File, f.Index, f.Prim, name)
	}
}

// The traps that shared/charts/README.md lists for US5MA12M, with its counts.
func TestTraps(t *testing.T) {
	set, _ := Decode(folder(t, beside.File(t, "charts", "US5MA12M", "geojson")))
	count := map[string]int{}
	contours := map[float64]bool{}
	for i := range set.Features {
		f := &set.Features[i]
		switch {
		case f.Class == chart.UWTROC:
			count["rocks"]++
			if f.Danger.WatLev == 4 && !chart.Known(f.DepthMinM) {
				count["rocks without depth"]++
			}
		case f.Class == chart.LNDARE:
			count["land"]++
			if f.Prim == chart.Point {
				count["islets"]++
			}
		case f.Class == chart.DEPCNT:
			contours[f.DepthMinM] = true
		case f.Class == chart.SOUNDG:
			count["soundings"]++
			if f.DepthMinM != f.DepthsM[0] || len(f.DepthsM) != len(f.Coords) {
				t.Errorf("sounding %d: %v, %v", f.Index, f.DepthMinM, f.DepthsM)
			}
			if f.DepthsM[0] > 0 {
				count["positive down"]++
			}
		}
	}
	want := map[string]int{"rocks": 516, "rocks without depth": 474, "land": 285, "islets": 258, "soundings": 1698}
	for name, n := range want {
		if count[name] != n {
			t.Errorf("%d %s, want %d", count[name], name, n)
		}
	}
	if count["positive down"] < 1500 {
		t.Errorf("%v", count)
	}
	for _, depth := range []float64{1.8, 3.6, 5.4} {
		if !contours[depth] {
			t.Errorf("no contour of %v m", depth)
		}
	}
}

// The identification of the cell, as its DSID.geojson has it.
func TestDataSetOfRealLayers(t *testing.T) {
	files := folder(t, beside.File(t, "charts", "US5MA12M", "geojson"))
	set, _ := Decode(files)
	got := [...]any{set.Title, set.Edition, set.IssueDate, set.Scale, set.SoundingDatum, set.HeightDatum, set.OffDatum, set.Authority}
	want := [...]any{"US5MA12M.000", "32.0", "2022-10-13", 25000, 12, 16, false, chart.Derived}
	if got != want {
		t.Errorf("got %v, want %v", got, want)
	}
	if other, _ := Decode(reversed(files)); other.SHA256 != set.SHA256 || len(set.SHA256) != 64 {
		t.Errorf("hash %s depends on the order of files", set.SHA256)
	}
}

func reversed(files []File) (out []File) {
	for i := range files {
		out = append(out, files[len(files)-1-i])
	}
	return out
}
