package ogc

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
	_ "time/tzdata"

	"keelroom/geo/chart"
	"keelroom/geo/enc"
	"keelroom/geo/layer"
	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
	"keelroom/testdata/beside"
)

// gdal runs a program of GDAL, which reads what this package writes. Without it the test
// is skipped; under CI it is installed.
func gdal(t *testing.T, program string, args ...string) string {
	t.Helper()
	tool, err := exec.Command(filepath.Join(beside.Root(t), ".ci", "gdal")).Output()
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal(err)
		}
		t.Skip("SKIPPED, nothing outside reads what is written: GDAL is not there")
	}
	cmd := exec.Command(filepath.Join(filepath.Dir(strings.TrimSpace(string(tool))), program), args...)
	cmd.Env = append(os.Environ(), "OGR_S57_OPTIONS=UPDATES=IGNORE,SPLIT_MULTIPOINT=ON,ADD_SOUNDG_DEPTH=ON")
	out, err := cmd.Output()
	if failed := (*exec.ExitError)(nil); errors.As(err, &failed) {
		t.Fatalf("%s: %s", program, failed.Stderr)
	} else if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// file writes a file that ends with the test.
func file(t *testing.T, name, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// textFile holds lines of well-known text as GDAL reads them: a table with such a column.
func textFile(t *testing.T, b []byte) string {
	t.Helper()
	table := "id,WKT\n"
	for i, line := range strings.Split(strings.TrimSpace(string(b)), "\n") {
		table += fmt.Sprintf("%d,%q\n", i, line)
	}
	return file(t, "geometries.csv", table)
}

// triples are the vertices with three ordinates in what ogrinfo prints of geometries that
// begin with a word.
func triples(t *testing.T, printed, begins string) (list [][3]float64) {
	t.Helper()
	vertex := regexp.MustCompile(`(-?[\d.]+) (-?[\d.]+) (-?[\d.]+)`)
	for line := range strings.Lines(printed) {
		if !strings.HasPrefix(strings.TrimSpace(line), begins) {
			continue
		}
		for _, m := range vertex.FindAllStringSubmatch(line, -1) {
			var v [3]float64
			for i := range v {
				v[i], _ = strconv.ParseFloat(m[i+1], 64) // by the pattern it is a number
			}
			list = append(list, v)
		}
	}
	return list
}

// day is an invented plan, laid out in time.
func day(t *testing.T) (*plan.Plan, *passage.Track) {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(beside.Root(t), "testdata", "plans", "roads-day.geojson"))
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Decode(b)
	if err != nil {
		t.Fatal(err)
	}
	track, err := passage.Lay(p, passage.Waters{})
	if err != nil {
		t.Fatal(err)
	}
	return p, track
}

// GDAL reads the track with the times that the plan has: from its departure to the end
// of the last leg, never backwards.
func TestTrackAsText(t *testing.T) {
	p, track := day(t)
	b, err := Track(track, p.Title, p.Zone, WKT)
	if err != nil {
		t.Fatal(err)
	}
	got := triples(t, gdal(t, "ogrinfo", "-ro", "-al", "-q", textFile(t, b)), "LINESTRING M ")
	if len(got) < len(track.Steps)+1 {
		t.Fatalf("%d vertices of %d steps", len(got), len(track.Steps))
	}
	depart := p.Routes()[0].Depart
	first, last := got[0], got[len(got)-1]
	if first[2] != float64(depart.Unix()) || last[2] != float64(track.Back.UnixMilli())/1000 {
		t.Errorf("from %f to %f, want %v to %v", first[2], last[2], depart, track.Back)
	}
	if at := p.Routes()[0].Points[0]; first[0] != at.Lon() || first[1] != at.Lat() {
		t.Errorf("it begins at %v, want %v", first, at)
	}
	if !slices.IsSortedFunc(got, func(a, b [3]float64) int { return int(1000 * (a[2] - b[2])) }) {
		t.Error("it goes back in time")
	}
}

// As GeoJSON, which has no measures, each position has its time beside it, in the plan's
// zone.
func TestTrackAsGeoJSON(t *testing.T) {
	p, track := day(t)
	b, err := Track(track, p.Title, p.Zone, GeoJSON)
	if err != nil {
		t.Fatal(err)
	}
	var read struct {
		Features []struct {
			Geometry struct {
				Type        string
				Coordinates [][]float64
			}
			Properties struct {
				Title           string
				Times, Cautions []string
			}
		}
	}
	if err := json.Unmarshal(b, &read); err != nil || len(read.Features) != 1 {
		t.Fatal(err, string(b))
	}
	f := read.Features[0]
	if f.Geometry.Type != "LineString" || len(f.Geometry.Coordinates) != len(f.Properties.Times) || f.Properties.Title != p.Title || len(f.Properties.Cautions) == 0 {
		t.Errorf("%s of %d positions, %d times, title %q", f.Geometry.Type, len(f.Geometry.Coordinates), len(f.Properties.Times), f.Properties.Title)
	}
	for i, at := range f.Geometry.Coordinates {
		if len(at) != 2 {
			t.Fatalf("position %d is %v, want two numbers", i, at)
		}
	}
	first, err := time.Parse(time.RFC3339, f.Properties.Times[0])
	if depart := p.Routes()[0].Depart; err != nil || !first.Equal(*depart) || f.Properties.Times[0] != depart.In(p.Zone).Format("2006-01-02T15:04:05.000Z07:00") {
		t.Errorf("it begins at %s, %v", f.Properties.Times[0], err)
	}
	if out := gdal(t, "ogrinfo", "-ro", "-al", "-so", file(t, "track.geojson", string(b))); !strings.Contains(out, "Geometry: Line String") {
		t.Errorf("GDAL reads %s", out)
	}
}

// The soundings of a real cell, as GDAL reads them from the cell itself, from our text and
// from our GeoJSON.
func TestSoundings(t *testing.T) {
	path, err := filepath.Abs(beside.File(t, "charts", "US5MA12M", "US5MA12M.000"))
	if err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	sets, _ := enc.Decode([]layer.File{{Name: "US5MA12M.000", Data: data}})
	order := func(list [][3]float64) [][3]float64 {
		slices.SortFunc(list, func(a, b [3]float64) int { return slices.Compare(a[:], b[:]) })
		return list
	}
	want := order(triples(t, gdal(t, "ogrinfo", "-ro", "-q", path, "SOUNDG"), "POINT Z "))
	for _, f := range []Format{WKT, GeoJSON} {
		b, unknown, err := Soundings(sets, f)
		if err != nil || unknown != 0 {
			t.Fatal(err, unknown)
		}
		written := textFile(t, b)
		if f == GeoJSON {
			written = file(t, "soundings.geojson", string(b))
		}
		if got := order(triples(t, gdal(t, "ogrinfo", "-ro", "-al", "-q", written), "MULTIPOINT Z ")); len(want) < 1000 || !slices.Equal(got, want) {
			t.Errorf("format %d: %d soundings, GDAL has %d of the cell", f, len(got), len(want))
		}
	}
}

// A sounding of unknown depth is left out and counted: it has no Z that could be written.
func TestSoundingsOfUnknownDepth(t *testing.T) {
	set := &chart.Set{Title: "Invented", Features: []chart.Feature{
		{Class: chart.SOUNDG, Geometry: chart.Geometry{Coords: []chart.Coord{{Lon: 1e7, Lat: 2e7}, {Lon: 3e7, Lat: 4e7}, {Lon: 5e7, Lat: 6e7}}, DepthsM: []float64{1.5, chart.Unknown}}},
		{Class: chart.UWTROC, Geometry: chart.Geometry{Coords: []chart.Coord{{Lon: 7e7, Lat: 8e7}}}},
	}}
	none := &chart.Set{Title: "Empty"}
	for _, c := range []struct {
		sets    []*chart.Set
		text    string
		unknown int
	}{
		{[]*chart.Set{none}, "", 0},
		{[]*chart.Set{none, set}, "MULTIPOINT Z (1 2 1.5)\n", 2},
		{[]*chart.Set{set, set}, "MULTIPOINT Z (1 2 1.5)\nMULTIPOINT Z (1 2 1.5)\n", 4},
	} {
		b, unknown, err := Soundings(c.sets, WKT)
		if err != nil || string(b) != c.text || unknown != c.unknown {
			t.Errorf("%q, %d unknown, %v; want %q, %d", b, unknown, err, c.text, c.unknown)
		}
	}
	if b, _, err := Soundings([]*chart.Set{none}, GeoJSON); err != nil || strings.TrimSpace(string(b)) != `{"type":"FeatureCollection","features":[]}` {
		t.Errorf("%s, %v", b, err)
	}
}

func TestFormatOf(t *testing.T) {
	for name, want := range map[string]Format{"a.wkt": WKT, "b/A.WKT": WKT, "c.geojson": GeoJSON, "d.JSON": GeoJSON} {
		if got, err := FormatOf(name); err != nil || got != want {
			t.Errorf("%s: %d, %v", name, got, err)
		}
	}
	for _, name := range []string{"", "wkt", "track.kml", "geojson.txt"} {
		if _, err := FormatOf(name); err == nil || !strings.Contains(err.Error(), ".wkt or .geojson is wanted") {
			t.Errorf("%q: %v", name, err)
		}
	}
}
