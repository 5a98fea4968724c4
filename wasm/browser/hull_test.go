//go:build !js

package browser

import (
	"bytes"
	"os/exec"
	"path/filepath"
	"testing"

	"keelroom/testdata/beside"
)

// checked is the report that the program gives for the same files at a command
// line: read by other code of its own, without a page, a worker or storage.
func checked(t *testing.T, plan string, charts ...string) []byte {
	t.Helper()
	var flags []string
	for _, c := range charts {
		flags = append(flags, "-chart", c)
	}
	var told bytes.Buffer
	cmd := exec.Command(program, append(append([]string{"check"}, flags...), plan)...)
	cmd.Stderr = &told
	report, err := cmd.Output()
	if err != nil {
		t.Fatalf("check: %v\n%s", err, told.String())
	}
	return report
}

// reported is the report that the page hands over.
func (p *tab) reported() []byte {
	p.t.Helper()
	p.section("plans")
	return p.downloaded(func() { p.press(button("Export the report")) }).data
}

func geojson(t *testing.T, folder string) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(folder, "*.geojson"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no layers in %s: %v", folder, err)
	}
	return files
}

// The page and the command line must give one report for one plan.
func TestReportIsTheCommandLines(t *testing.T) {
	t.Parallel()
	p := atSea(t, desk)
	plan := filepath.Join(root, "web", "demo", "plan.geojson")
	sameJSON(t, "the demo day", p.reported(), checked(t, plan, filepath.Join(root, "web", "demo", "chart")))
}

// Real layers of NOAA (shared/charts/README.md), opened by the file chooser.
func TestReportOverRealChartsIsTheCommandLines(t *testing.T) {
	t.Parallel()
	hull := beside.File(t, "charts", "hull")
	screened(t, func(t *testing.T, v view) {
		p := atSea(t, v)
		p.section("charts")
		p.press(removeDemo)
		p.sees("No chart is open: nothing can be checked.")
		p.opened(geojson(t, hull)...)
		p.listed("li.set", "US5MA12M")
		p.seesNone("Being read.")
		plan := filepath.Join(root, "testdata", "plans", "roads-day.geojson")
		p.section("plans")
		p.give(func() { p.press(button("Open a plan file")) }, plan)
		p.sees("A test day over real charts, not for navigation")
		p.verdictOf(plan, hull)
		p.shot("hull-" + v.name())
	})
}

// verdictOf waits for the page's verdict on a plan, and compares all of its
// report with the command line's.
func (p *tab) verdictOf(plan string, charts ...string) {
	p.t.Helper()
	want := checked(p.t, plan, charts...)
	p.verdict(verdictWords(p.t, want))
	sameJSON(p.t, filepath.Base(plan), p.reported(), want)
}

// verdictWords are the words on the screen for the verdict of a report.
func verdictWords(t *testing.T, report []byte) string {
	t.Helper()
	for _, c := range []struct{ code, words string }{{"not-clear", isNotClear}, {"no-data", isUnknown}, {"care", isCare}, {"clear", isClear}} {
		if bytes.Contains(report, []byte(`"verdict":"`+c.code+`"`)) {
			return c.words
		}
	}
	t.Fatalf("a report without a verdict: %.200s", report)
	return ""
}

// A real chart that stays with the demo's: both are in the report, whichever
// was read first.
func TestReportOverTwoSets(t *testing.T) {
	t.Parallel()
	hull := beside.File(t, "charts", "hull")
	p := atSea(t, desk)
	p.opened(geojson(t, hull)...)
	p.listed("li.set", "US5MA12M")
	p.seesNone("Being read.")
	p.verdictOf(filepath.Join(root, "web", "demo", "plan.geojson"), filepath.Join(root, "web", "demo", "chart"), hull)
}
