//go:build !js

package hazards

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"math/rand"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
	"keelroom/testdata/beside"
)

var updateGolden = flag.Bool("update", false, "write the golden reports anew")

// goldenDay is a plan whose report is kept.
type goldenDay struct {
	name    string
	session *Session
	plan    *plan.Plan
}

// goldenDays are the days of the golden reports: the demo's own, random ones over
// its water, and invented days over the real charts.
func goldenDays(t *testing.T) []goldenDay {
	demo := demoChart(t)
	onDemo := NewSession(chart.New(demo))
	out := []goldenDay{
		{"demo", onDemo, readPlan(t, "web", "demo", "plan.geojson")},
		{"demo late", onDemo, readPlan(t, "testdata", "plans", "demo-late.geojson")},
	}
	for i, p := range wanderings(t, demo, 20) {
		out = append(out, goldenDay{fmt.Sprintf("demo wandering %d", i), onDemo, p})
	}
	base := readPlan(t, "testdata", "plans", "roads-day.geojson")
	cell := loadFolder(t, beside.File(t, "charts", "US5MA12M", "geojson"))
	onCell := NewSession(chart.New(cell))
	out = append(out, goldenDay{"roads on the cell", onCell, base}, goldenDay{"forty legs", onCell, fortyLegs(t, cell, base)})
	for i := range ordinaryDays {
		out = append(out, goldenDay{ordinaryDays[i].name, onCell, ordinaryDays[i].plan(base)})
	}
	hull := loadFolder(t, beside.File(t, "charts", "hull"))
	onHull := NewSession(chart.New(hull))
	d := dragger{dangers: dangersOf(hull), rnd: rand.New(rand.NewSource(20261127)), base: base}
	for i := range 30 {
		out = append(out, goldenDay{fmt.Sprintf("hull dragged %d", i), onHull, d.next()})
	}
	return out
}

// goldenReport is a report without what names a finding: its code and its id.
func goldenReport(t *testing.T, encoded []byte) map[string]any {
	t.Helper()
	var report map[string]any
	if err := json.Unmarshal(encoded, &report); err != nil {
		t.Fatal(err)
	}
	for _, f := range report["features"].([]any) {
		properties := f.(map[string]any)["properties"].(map[string]any)
		delete(properties, "code")
		delete(properties, "id")
	}
	return report
}

// TestGoldenReports holds the reports of many days as they were before the checks
// were built anew from numbers and words: only `code` and `id` of a finding are not
// compared. Reports are the same in the browser but for the last digit of a figure,
// so this is for the machine's own Go.
func TestGoldenReports(t *testing.T) {
	path := filepath.Join(beside.Root(t), "hazards", "testdata", "golden-reports.jsonl.gz")
	var lines [][]byte
	days := goldenDays(t)
	for _, d := range days {
		report := goldenReport(t, check(t, d.session, d.plan).Encode(d.plan.Zone))
		line, err := json.Marshal(report)
		if err != nil {
			t.Fatal(err)
		}
		lines = append(lines, line)
	}
	if *updateGolden {
		writeGolden(t, path, lines)
		return
	}
	want := readGolden(t, path)
	if len(want) != len(lines) {
		t.Fatalf("%d reports are kept, %d days are checked", len(want), len(lines))
	}
	for i := range lines {
		if !bytes.Equal(lines[i], want[i]) {
			t.Errorf("%s:\n%s", days[i].name, goldenDifference(t, want[i], lines[i]))
		}
	}
}

// goldenDifference names the first few features that differ.
func goldenDifference(t *testing.T, want, got []byte) string {
	w, g := goldenReport(t, want), goldenReport(t, got)
	var out []string
	if !reflect.DeepEqual(w["report"], g["report"]) {
		for key, v := range w["report"].(map[string]any) {
			if u := g["report"].(map[string]any)[key]; !reflect.DeepEqual(v, u) {
				out = append(out, fmt.Sprintf("report.%s\n  was %s\n  is  %s", key, short(v), short(u)))
			}
		}
	}
	a, b := w["features"].([]any), g["features"].([]any)
	if len(a) != len(b) {
		out = append(out, fmt.Sprintf("%d features, were %d", len(b), len(a)))
	}
	for i := 0; i < min(len(a), len(b)) && len(out) < 6; i++ {
		if !reflect.DeepEqual(a[i], b[i]) {
			out = append(out, fmt.Sprintf("feature %d\n  was %s\n  is  %s", i, short(a[i]), short(b[i])))
		}
	}
	return strings.Join(out, "\n")
}

func short(v any) string {
	b, err := json.Marshal(v)
	if err != nil {
		return err.Error()
	}
	return string(b[:min(len(b), 900)])
}

func readGolden(t *testing.T, path string) [][]byte {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	all, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	return slices.DeleteFunc(bytes.Split(all, []byte("\n")), func(b []byte) bool { return len(b) == 0 })
}

func writeGolden(t *testing.T, path string, lines [][]byte) {
	t.Helper()
	var b bytes.Buffer
	z := gzip.NewWriter(&b)
	for _, line := range lines {
		if _, err := z.Write(append(line, '\n')); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
}
