//go:build !js

package cli

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"keelroom/testdata/beside"
)

// The command finds places for a stay of the demo day and writes them best first.
func TestAnchorages(t *testing.T) {
	demo := filepath.Join(beside.Root(t), "web", "demo")
	status, out, diag := cli("anchorages", "-chart", filepath.Join(demo, "chart"), "-within", "-35.99,42.995,0.6", "-stay", "2", filepath.Join(demo, "plan.geojson"))
	if status != statusOK || !strings.Contains(diag, "a planning aid, not a chart") {
		t.Fatalf("exit status %d: %s", status, diag)
	}
	var doc struct {
		Features []struct {
			Geometry   struct{ Coordinates [2]float64 }
			Properties struct {
				Kind, Severity string
				Rank           int
				Why            []string
				Points         map[string]float64
			}
		}
	}
	if err := json.Unmarshal([]byte(out), &doc); err != nil {
		t.Fatal(err)
	}
	last := 0.0
	for i, f := range doc.Features {
		p := f.Properties
		if p.Kind != "anchorage" || p.Rank != i+1 || p.Severity != "clear" && p.Severity != "care" || len(p.Why) == 0 {
			t.Errorf("place %d: %+v", i+1, p)
		}
		sum := 0.0
		for _, v := range p.Points {
			sum += v
		}
		if sum < last-0.3 { // each part is written to a tenth
			t.Errorf("place %d has %.1f points, the one before it %.1f", i+1, sum, last)
		}
		last = sum
		if at := f.Geometry.Coordinates; at[0] < -36.01 || at[0] > -35.97 || at[1] < 42.98 || at[1] > 43.01 {
			t.Errorf("place %d lies outside the area: %v", i+1, at)
		}
	}
	if len(doc.Features) < 3 {
		t.Errorf("%d places", len(doc.Features))
	}
}

func TestAnchoragesRefused(t *testing.T) {
	demo := filepath.Join(beside.Root(t), "web", "demo")
	charts, day := filepath.Join(demo, "chart"), filepath.Join(demo, "plan.geojson")
	for _, test := range []struct {
		args []string
		want string
	}{
		{[]string{day}, "at least one -chart"},
		{[]string{"-chart", charts}, "one is wanted"},
		{[]string{"-chart", charts, "-stay", "9", day}, "stays 1 to 2"},
		{[]string{"-chart", charts, "-stay", "0", day}, "stays 1 to 2"},
		{[]string{"-chart", charts, "-within", "-36,43", day}, "lon,lat,nm"},
		{[]string{"-chart", charts, "-within", "-36,43,here", day}, `"here" is no number`},
		{[]string{"-chart", charts, "-within", "-36,43,40", day}, "at most 30 each way"},
		{[]string{"-chart", charts, "-box", "-35,43,-36,44", day}, "west, south, east and north"},
		{[]string{"-chart", charts, "-box", "1,2,3,4", "-within", "1,2,3", day}, "one of them"},
		{[]string{"-chart", charts, filepath.Join(charts, "none.geojson")}, "none.geojson"},
	} {
		status, out, diag := cli(append([]string{"anchorages"}, test.args...)...)
		if status != statusError || out != "" || !strings.Contains(diag, test.want) {
			t.Errorf("%v: exit status %d, %q; want %q", test.args, status, diag, test.want)
		}
	}
}
