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
	"slices"
	"testing"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
	"keelroom/testdata/beside"
)

var updateGolden = flag.Bool("update", false, "write the golden reports anew")

// goldenDay is a report that is kept, and of what day it is.
type goldenDay struct {
	name   string
	report []byte
}

func goldenDayOf(t *testing.T, name string, s *Session, p *plan.Plan) goldenDay {
	t.Helper()
	return goldenDay{name, check(t, s, p).Encode(p.Zone)}
}

// goldenDays are the days of the golden reports: the demo's own, random ones over
// its water, invented days over the real charts, days with something missing, and
// one of every class on the track and beside it.
func goldenDays(t *testing.T) []goldenDay {
	demo := demoChart(t)
	onDemo := NewSession(chart.New(demo))
	out := []goldenDay{
		goldenDayOf(t, "demo", onDemo, readPlan(t, "web", "demo", "plan.geojson")),
		goldenDayOf(t, "demo late", onDemo, readPlan(t, "testdata", "plans", "demo-late.geojson")),
	}
	for i, p := range wanderings(t, demo, 20) {
		out = append(out, goldenDayOf(t, fmt.Sprintf("demo wandering %d", i), onDemo, p))
	}
	out = append(out, goldenRealDays(t)...)
	out = append(out, goldenPoorDays(t)...)
	return append(out, goldenPlanted(t)...)
}

// goldenRealDays are invented days over the real charts.
func goldenRealDays(t *testing.T) []goldenDay {
	base := readPlan(t, "testdata", "plans", "roads-day.geojson")
	cell := loadFolder(t, beside.File(t, "charts", "US5MA12M", "geojson"))
	onCell := NewSession(chart.New(cell))
	out := []goldenDay{goldenDayOf(t, "roads on the cell", onCell, base), goldenDayOf(t, "forty legs", onCell, fortyLegs(t, cell, base))}
	for i := range ordinaryDays {
		out = append(out, goldenDayOf(t, ordinaryDays[i].name, onCell, ordinaryDays[i].plan(base)))
	}
	hull := loadFolder(t, beside.File(t, "charts", "hull"))
	onHull := NewSession(chart.New(hull))
	d := dragger{dangers: dangersOf(hull), rnd: rand.New(rand.NewSource(20261127)), base: base}
	for i := range 30 {
		out = append(out, goldenDayOf(t, fmt.Sprintf("hull dragged %d", i), onHull, d.next()))
	}
	return out
}

// goldenPoorDays are random days, and the same with one thing missing or spoiled. A
// file that is refused gives no report; what it is refused for is kept.
func goldenPoorDays(t *testing.T) []goldenDay {
	rnd := rand.New(rand.NewSource(20261128))
	var out []goldenDay
	add := func(name string, day, waters document) {
		r := read(t, day, waters)
		if r.report == nil {
			refused, _ := json.Marshal(map[string]any{"report": map[string]any{"refused": r.refused}, "features": []any{}}) // plain text does not fail
			out = append(out, goldenDay{name, refused})
			return
		}
		out = append(out, goldenDay{name, r.report.Encode(time.UTC)})
	}
	for i := range 40 {
		day := randomDay(rnd)
		waters := randomWaters(rnd, day)
		add(fmt.Sprintf("random %d", i), day, waters)
		for _, w := range waysOf(day, waters, rnd) {
			if d, l := day.copied(), waters.copied(); rnd.Intn(8) == 0 && w.change(d, l) {
				add(fmt.Sprintf("random %d, %s", i, w.name), d, l)
			}
		}
	}
	return out
}

// goldenPlanted are the objects of every class, in every kind of geometry, on the
// track and beside it.
func goldenPlanted(t *testing.T) []goldenDay {
	legal := legalGeometries(t)
	var out []goldenDay
	for _, p := range everyClass {
		for _, kind := range legal[p.class] {
			for _, off := range []float64{0.5, p.besideM} {
				f := decoded(t, p.class, p.attributes, shapeOff(kind, off))
				out = append(out, goldenDayOf(t, fmt.Sprintf("%s {%s} as a %s %.1f m off", p.class, p.attributes, kind, off), NewSession(chart.New(set(buoyage(1, 90), f))), day()))
			}
		}
	}
	return out
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
		line, err := json.Marshal(goldenReport(t, d.report))
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
