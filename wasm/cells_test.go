//go:build !js

package main

import (
	"archive/zip"
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"keelroom/hazards/plan"
	"keelroom/testdata/beside"
)

const roadsDay = "../testdata/plans/roads-day.geojson"

var fingerprint = regexp.MustCompile(`"sha256":"[0-9a-f]{64}"`)

// The same chart as a cell and as the GeoJSON that ogr2ogr (GDAL 3.6.2) made of it
// must give the same report but for the fingerprint of the files.
func TestCellReportIsTheLayersReport(t *testing.T) {
	folder := beside.File(t, "charts", "US5MA12M")
	report := func(at string) string {
		status, out, diag := cli("check", "-chart", at, roadsDay)
		if status != statusOK {
			t.Fatalf("%s: status %d: %s", at, status, diag)
		}
		if n := len(fingerprint.FindAllString(out, -1)); n != 1 {
			t.Fatalf("%d fingerprints, one chart", n)
		}
		return fingerprint.ReplaceAllString(out, "")
	}
	want := report(filepath.Join(folder, "geojson"))
	for _, at := range []string{filepath.Join(folder, "US5MA12M.000"), folder, zipped(t, filepath.Join(folder, "US5MA12M.000"))} {
		if report(at) != want {
			t.Errorf("%s gives another report than its GeoJSON", at)
		}
	}
}

// zipped is a zip of files as an exchange set is packed.
func zipped(t *testing.T, files ...string) string {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, f := range files {
		w, err := z.Create("ENC_ROOT/" + filepath.Base(f))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := w.Write([]byte(read(t, f))); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return scratch(t, "set.zip", b.String())
}

// Each cell of a folder is a chart; updates are in.
func TestCellsOfAFolder(t *testing.T) {
	folder := t.TempDir()
	for _, name := range []string{"US5MA12M/US5MA12M.000", "US5MA11M/US5MA11M.000", "US5MA11M/US5MA11M.001", "US5MA11M/US5MA11M.003"} {
		text := read(t, filepath.Join(beside.File(t, "charts"), filepath.FromSlash(name)))
		if err := os.WriteFile(filepath.Join(folder, filepath.Base(name)), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	status, out, diag := cli("check", "-chart", folder, roadsDay)
	if status != statusOK {
		t.Fatalf("status %d: %s", status, diag)
	}
	r, err := plan.DecodeReport([]byte(out))
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Charts) != 2 {
		t.Errorf("%d charts; two cells are in the folder", len(r.Charts))
	}
	// Update 2 is missing: 3 is not applied, and both places say so.
	if !strings.Contains(diag, "W-UPDATE US5MA11M.003") || !strings.Contains(strings.Join(r.Messages, "\n"), "W-UPDATE US5MA11M.003") {
		t.Errorf("the update that was left out is not told:\n%s\n%q", diag, r.Messages)
	}
}

func TestCellsThatAreRefused(t *testing.T) {
	update := beside.File(t, "charts", "US5MA11M", "US5MA11M.001")
	cell := read(t, beside.File(t, "charts", "US5MA12M", "US5MA12M.000"))
	refused(t, []string{"check", "-chart", update, roadsDay}, "E-CELL", "an update without its base", "US5MA11M.000")
	refused(t, []string{"check", "-chart", scratch(t, "US5MA12M.000", cell[:len(cell)/2]), roadsDay}, "E-CELL", "US5MA12M.000")
	refused(t, []string{"check", "-chart", scratch(t, "XX5AB001.000", strings.Repeat("\x8f\x02\xd1", 4000)), roadsDay}, "E-LOCKED", "encrypted")
	refused(t, []string{"check", "-chart", scratch(t, "set.zip", "PK\x03\x04 and no more"), roadsDay}, "E-ZIP")
}
