//go:build !js

package cli

import (
	"slices"
	"strings"
	"testing"

	"keelroom/hazards/plan"
)

// hinted runs a check that succeeds, and wants a hint at swapped positions in
// both places, or in neither.
func hinted(t *testing.T, want string, args ...string) *plan.Report {
	t.Helper()
	status, out, diag := cli(append([]string{"check"}, args...)...)
	if status != statusOK {
		t.Fatalf("status %d: %s", status, diag)
	}
	r, err := plan.DecodeReport([]byte(out))
	if err != nil {
		t.Fatal(err)
	}
	in := func(text string) bool {
		if want == "" {
			return strings.Contains(text, "W-COORD")
		}
		return strings.Contains(text, "W-COORD "+want)
	}
	if said, kept := in(diag), slices.ContainsFunc(r.Messages, in); said != (want != "") || kept != said {
		t.Errorf("hint %q: on standard error %t, in the report %t\n%s", want, said, kept, diag)
	}
	return r
}

// A position that is possible either way round is checked as it stands, and a
// hint says what it looks like.
func TestSwappedPositions(t *testing.T) {
	good := read(t, goodPlan)
	turned := strings.NewReplacer("-36.08, 43.02", "43.02, -36.08", "-36.06, 43.05", "43.05, -36.06").Replace(good)
	r := hinted(t, `swapped.geojson route 1 "out"`, "-chart", depare, scratch(t, "swapped.geojson", turned))
	if r.Verdict == plan.Clear || r.Verdict == plan.Care {
		t.Errorf("verdict %s on a plan that lies outside every chart", r.Verdict)
	}
	hinted(t, "", "-chart", depare, goodPlan)

	elsewhere := strings.NewReplacer("-36.08, 43.02", "-56.08, 43.02", "-36.06, 43.05", "-56.06, 43.05").Replace(good)
	hinted(t, "", "-chart", depare, scratch(t, "elsewhere.geojson", elsewhere))

	layer := changed(t, read(t, "testdata/chart/UWTROC.json"), "-36.01, 43.09", "43.09, -36.01")
	layer = changed(t, layer, `"deep"`, `1.5`)
	hinted(t, "UWTROC.geojson features[0].geometry", "-chart", depare, "-chart", scratch(t, "UWTROC.geojson", layer), goodPlan)
}
