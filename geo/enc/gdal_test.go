//go:build !js

package enc

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/testdata/beside"
)

var update = flag.Bool("update", false, "write the stored digests anew, from GDAL's output")

// gdal is the folder of GDAL's programs. Without them the test is skipped, the
// stored digests are compared in any case; under CI they are installed.
func gdal(t testing.TB) string {
	t.Helper()
	out, err := exec.Command(filepath.Join(beside.Root(t), ".ci", "gdal")).Output()
	if err != nil {
		why := err.Error()
		if failed := (*exec.ExitError)(nil); errors.As(err, &failed) {
			why = strings.TrimSpace(string(failed.Stderr))
		}
		if os.Getenv("CI") == "true" {
			t.Fatal(why)
		}
		t.Skipf("SKIPPED, only the stored digests of GDAL's output are compared: %s", why)
	}
	tool := strings.TrimSpace(string(out))
	return filepath.Dir(tool)
}

// converted is a real cell with its updates as GDAL writes it: all classes in
// one GeoJSON file, the class in the property OBJECT.
func converted(t testing.TB, name string) layer.File {
	t.Helper()
	tools := gdal(t)
	cell, err := filepath.Abs(beside.File(t, "charts", name, name+".000"))
	if err != nil {
		t.Fatal(err)
	}
	list, err := exec.Command(filepath.Join(tools, "ogrinfo"), "-ro", "-q", cell).Output()
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	var union strings.Builder
	union.WriteString(`<OGRVRTDataSource><OGRVRTUnionLayer name="all"><GeometryType>wkbUnknown</GeometryType>` +
		`<SourceLayerFieldName>OBJECT</SourceLayerFieldName><FieldStrategy>Union</FieldStrategy>`)
	for line := range strings.Lines(string(list)) {
		if fields := strings.Fields(line); len(fields) > 1 {
			fmt.Fprintf(&union, `<OGRVRTLayer name="%s"><SrcDataSource shared="1">%s</SrcDataSource></OGRVRTLayer>`, fields[1], cell)
		}
	}
	union.WriteString(`</OGRVRTUnionLayer></OGRVRTDataSource>`)
	vrt, out := filepath.Join(dir, name+".vrt"), filepath.Join(dir, name+".geojson")
	if err := os.WriteFile(vrt, []byte(union.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	convert := exec.Command(filepath.Join(tools, "ogr2ogr"), "-f", "GeoJSON", "-lco", "RFC7946=YES", "-lco", "COORDINATE_PRECISION=10", out, vrt)
	convert.Env = append(os.Environ(), "OGR_S57_OPTIONS=SPLIT_MULTIPOINT=ON,ADD_SOUNDG_DEPTH=ON,LNAM_REFS=ON,UPDATES=APPLY")
	if said, err := convert.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, said)
	}
	data, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	return layer.File{Name: name + ".geojson", Data: data}
}

// Every feature, every attribute that GDAL prints, and every vertex to 1e-7
// degrees, of both cells with their updates.
func TestRecordsAsGDAL(t *testing.T) {
	stored := storedDigests(t)
	for _, c := range realCells {
		t.Run(c.name, func(t *testing.T) {
			want := convertedRecords(t, converted(t, c.name))
			sameLines(t, "records", canonicalRecords(t, readModel(t, cellFiles(t, c.name, c.updates))), want)
			keepDigest(t, stored, c.name+" records", digest(want))
		})
	}
	writeDigests(t, stored)
}

// The chart features are those of the same cell by way of GDAL's GeoJSON.
func TestFeaturesAsGDAL(t *testing.T) {
	stored := storedDigests(t)
	for _, c := range realCells {
		t.Run(c.name, func(t *testing.T) {
			set, messages := layer.Decode([]layer.File{converted(t, c.name)})
			if set == nil {
				t.Fatal(messages)
			}
			want := canonicalFeatures(set.Features)
			sameLines(t, "features", canonicalFeatures(readCell(t, cellFiles(t, c.name, c.updates)).Set.Features), want)
			keepDigest(t, stored, c.name+" features", digest(want))
		})
	}
	writeDigests(t, stored)
}

func keepDigest(t *testing.T, stored map[string]string, name, got string) {
	t.Helper()
	if *update {
		stored[name] = got
	} else if stored[name] != got {
		t.Errorf("the stored digest of %s is %s, and GDAL's output has %s", name, stored[name], got)
	}
}

func writeDigests(t *testing.T, stored map[string]string) {
	t.Helper()
	if !*update {
		return
	}
	out, err := json.MarshalIndent(stored, "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(digestFile, append(out, '\n'), 0o644); err != nil {
		t.Fatal(err)
	}
}

// convertedRecords writes GDAL's features as canonicalRecords does ours.
func convertedRecords(t testing.TB, f layer.File) (lines []string) {
	t.Helper()
	var doc struct {
		Features []struct {
			Properties map[string]any
			Geometry   *struct {
				Type        string
				Coordinates any
			}
		}
	}
	if err := json.Unmarshal(f.Data, &doc); err != nil {
		t.Fatal(err)
	}
	for _, f := range doc.Features {
		if f.Properties["OBJECT"] == "DSID" {
			continue
		}
		prim, parts, depths := chart.None, [][]chart.Coord(nil), []float64(nil)
		if f.Geometry != nil {
			prim, parts, depths = convertedGeometry(f.Geometry.Type, f.Geometry.Coordinates)
		}
		lines = append(lines, convertedHead(f.Properties)+" "+canonicalGeometry(prim, parts, depths))
	}
	slices.Sort(lines)
	return lines
}

// notAttributes are the properties that are no S-57 attributes.
var notAttributes = []string{"OBJECT", "RCID", "PRIM", "GRUP", "OBJL", "RVER", "AGEN", "FIDN", "FIDS", "LNAM", "LNAM_REFS", "FFPT_RIND", "DEPTH"}

func convertedHead(p map[string]any) string {
	head := fmt.Sprintf("%s %v %v %v %v %v", p["LNAM"], p["RCID"], p["PRIM"], p["GRUP"], p["OBJL"], p["RVER"])
	names, _ := p["LNAM_REFS"].([]any)
	roles, _ := p["FFPT_RIND"].([]any)
	for i, name := range names {
		head += fmt.Sprintf(" %v:%v", name, roles[i])
	}
	var values []string
	for name, v := range p {
		if text := convertedValue(v); text != "" && !slices.Contains(notAttributes, name) {
			values = append(values, name+"="+text)
		}
	}
	slices.Sort(values)
	return head + " " + strings.Join(values, "|")
}

func convertedValue(v any) string {
	switch v := v.(type) {
	case float64:
		return strconv.FormatFloat(v, 'g', -1, 64)
	case []any:
		var items []string
		for _, item := range v {
			if item != "" {
				items = append(items, fmt.Sprint(item))
			}
		}
		return strings.Join(items, ",")
	case string:
		return v
	}
	return ""
}

func convertedGeometry(kind string, coordinates any) (prim chart.Prim, parts [][]chart.Coord, depths []float64) {
	line := func(v any) (p []chart.Coord) {
		for _, c := range v.([]any) {
			p = append(p, convertedCoord(c))
		}
		return p
	}
	switch kind {
	case "Point":
		if p := coordinates.([]any); len(p) > 2 {
			depths = []float64{p[2].(float64)}
		}
		return chart.Point, [][]chart.Coord{{convertedCoord(coordinates)}}, depths
	case "LineString":
		return chart.Line, [][]chart.Coord{line(coordinates)}, nil
	case "Polygon":
		prim = chart.Area
	case "MultiLineString":
		prim = chart.Line
	default:
		panic("a geometry of the kind " + kind)
	}
	for _, part := range coordinates.([]any) {
		parts = append(parts, line(part))
	}
	return prim, parts, nil
}

func convertedCoord(v any) chart.Coord {
	p := v.([]any)
	return chart.CoordOf([2]float64{p[0].(float64), p[1].(float64)})
}
