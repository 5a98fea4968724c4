//go:build !js

package cli

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The track and the soundings go to files beside the report, which stays what it was.
func TestCheckWritesGeometries(t *testing.T) {
	dir := t.TempDir()
	_, alone, _ := cli("check", "-chart", goodChart, goodPlan)
	for ending, begins := range map[string][2]string{".wkt": {"LINESTRING M (", ""}, ".geojson": {`{"type":"FeatureCollection"`, `{"type":"FeatureCollection"`}} {
		track, soundings := filepath.Join(dir, "track"+ending), filepath.Join(dir, "soundings"+ending)
		status, out, diag := cli("check", "-track", track, "-soundings", soundings, "-chart", goodChart, goodPlan)
		if status != statusOK || out != alone {
			t.Fatalf("status %d, %s; the report is %d bytes, alone %d", status, diag, len(out), len(alone))
		}
		if got := read(t, track); !strings.HasPrefix(got, begins[0]) {
			t.Errorf("%s begins %.40q", track, got)
		}
		if got := read(t, soundings); !strings.HasPrefix(got, begins[1]) {
			t.Errorf("%s begins %.40q", soundings, got)
		}
	}
}

// Nothing is written over that is read, nor before the check has an answer.
func TestCheckRefusesFilesToWrite(t *testing.T) {
	own := scratch(t, "plan.geojson", read(t, goodPlan))
	linked := filepath.Join(filepath.Dir(own), "track.json")
	if err := os.Link(own, linked); err != nil {
		t.Fatal(err)
	}
	unwritten := filepath.Join(t.TempDir(), "track.wkt")
	for _, c := range []struct {
		flag, file, chart, plan string
		want                    string
	}{
		{"-track", own, depare, own, "the name of a file elsewhere is wanted"},
		{"-track", linked, depare, own, "the name of a file elsewhere is wanted"},
		{"-soundings", depare, depare, own, "the name of a file elsewhere is wanted"},
		{"-soundings", filepath.Join(goodChart, "new.geojson"), goodChart, own, "the name of a file elsewhere is wanted"},
		{"-track", "track.kml", depare, own, ".wkt or .geojson is wanted"},
		{"-track", filepath.Join(filepath.Dir(own), "none", "track.wkt"), depare, own, "no such file or directory"},
		{"-track", unwritten, depare, "nothing.geojson", "nothing.geojson"},
	} {
		refused(t, []string{"check", c.flag, c.file, "-chart", c.chart, c.plan}, c.want)
	}
	if _, err := os.Stat(unwritten); err == nil {
		t.Error("a track is written of a plan that was not checked")
	}
	if read(t, own) != read(t, goodPlan) {
		t.Error("the plan was written over")
	}
}
