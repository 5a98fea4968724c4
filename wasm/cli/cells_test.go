//go:build !js

package cli

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

const roadsDay = "../../testdata/plans/roads-day.geojson"

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
	refused(t, []string{"check", "-chart", scratch(t, "set.zip", "<html>not found</html>"), roadsDay}, "E-ZIP")
}

// tree writes files into a folder that ends with the test: each path and the real
// cell's file that it is a copy of.
func tree(t *testing.T, files map[string]string) string {
	t.Helper()
	top := t.TempDir()
	for path, from := range files {
		at := filepath.Join(top, filepath.FromSlash(path))
		if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(at, []byte(read(t, filepath.Join(beside.File(t, "charts"), filepath.FromSlash(from)))), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return top
}

// emptyCatalogue is a catalogue that lists nothing: the descriptive record alone
// (S-57 Part 3, 7.4).
const emptyCatalogue = "002213LE1 0900073 ! 660400000000190000000001000025000019CATD000104000044\x1e0000;&   \x1f0001CATD\x1e" +
	"0100;&   A field\x1f\x1f(I(5))\x1e1600;&   A field\x1fRCNM!RCID!FILE!LFIL!VOLM!IMPL!SLAT!WLON!NLAT!ELON!CRCS!COMT\x1f(A(2),I(10),3A,A(3),4R,2A)\x1e"

// What of a folder is a chart: what lies in it, whatever a copy is called; with a
// catalogue, there or in ENC_ROOT, also what lies below. Cells that are passed by,
// and a cell that is given twice, are told.
func TestFoldersOfCells(t *testing.T) {
	const harbour, first, approach = "US5MA11M/US5MA11M.000", "US5MA11M/US5MA11M.001", "US5MA12M/US5MA12M.000"
	// The real cells come without a catalogue; this one lists nothing.
	catalogue := func(top, folder string) string {
		at := filepath.Join(top, folder, "CATALOG.031")
		if err := os.WriteFile(at, []byte(emptyCatalogue), 0o644); err != nil {
			t.Fatal(err)
		}
		return top
	}
	deep := map[string]string{"ENC_ROOT/US/US5MA11M/0/US5MA11M.000": harbour, "ENC_ROOT/US/US5MA11M/1/US5MA11M.001": first, "ENC_ROOT/US/US5MA12M/0/US5MA12M.000": approach}
	for _, c := range []struct {
		name string
		top  string
		want []string // the editions of the charts
		said string
	}{
		{"a copy", tree(t, map[string]string{"US5MA11M (1).000": harbour}), []string{"31.0"}, ""},
		{"an exchange set", catalogue(tree(t, deep), "ENC_ROOT"), []string{"31.1", "32.0"}, ""},
		{"cells below", tree(t, map[string]string{"US5MA12M.000": approach, "more/US5MA11M.000": harbour}), []string{"32.0"}, "W-FOLDER more : a folder with 1 files of cells that are not read"},
	} {
		t.Run(c.name, func(t *testing.T) {
			status, out, diag := cli("check", "-chart", c.top, roadsDay)
			if status != statusOK {
				t.Fatalf("status %d: %s", status, diag)
			}
			r, err := plan.DecodeReport([]byte(out))
			if err != nil {
				t.Fatal(err)
			}
			var got []string
			for _, u := range r.Charts {
				got = append(got, u.Edition)
			}
			if strings.Join(got, " ") != strings.Join(c.want, " ") || !strings.Contains(diag, c.said) || !strings.Contains(strings.Join(r.Messages, "\n"), c.said) {
				t.Errorf("charts %q, said %q; want %q, %q", got, diag, c.want, c.said)
			}
		})
	}
	refused(t, []string{"check", "-chart", tree(t, deep), roadsDay}, "cells are in ENC_ROOT")
	linked := tree(t, map[string]string{"US5MA12M.000": approach})
	if err := os.Symlink(tree(t, deep), filepath.Join(linked, "more")); err != nil {
		t.Fatal(err)
	}
	if _, _, diag := cli("check", "-chart", linked, roadsDay); !strings.Contains(diag, "W-FOLDER more : a folder with 3 files of cells") {
		t.Errorf("a link to a folder of cells is not told: %s", diag)
	}
	whole := beside.File(t, "charts", "US5MA11M")
	if _, _, diag := cli("check", "-chart", whole, "-chart", filepath.Join(whole, "US5MA11M.000"), roadsDay); !strings.Contains(diag, "W-CELL US5MA11M.000 : the cell twice, as of 31.3 and 31.0") {
		t.Errorf("a cell that is given twice is not told: %s", diag)
	}
}

// A cell that its producer cancelled gives no coverage beside another chart, and care
// where it is alone (layer-profile.md, Priority: as a private layer).
func TestCancelledCellIsNoChart(t *testing.T) {
	top := tree(t, map[string]string{"US5MA12M.000": "US5MA12M/US5MA12M.000"})
	const issued = "20151117"
	text := read(t, beside.File(t, "charts", "US5MA11M", "US5MA11M.001"))
	for _, change := range [][2]string{{"US5MA11M", "US5MA12M"}, {"\x1f31\x1f", "\x1f00\x1f"}, {issued, "20230101"}} { // after the cell was
		if strings.Count(text[:2000], change[0]) != 1 {
			t.Fatalf("%q is not once in the head of the update", change[0])
		}
		text = strings.Replace(text, change[0], change[1], 1)
	}
	if err := os.WriteFile(filepath.Join(top, "US5MA12M.001"), []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	status, out, diag := cli("check", "-chart", top, roadsDay)
	r, err := plan.DecodeReport([]byte(out))
	if status != statusOK || err != nil {
		t.Fatalf("status %d, %v: %s", status, err, diag)
	}
	legs := map[int]bool{}
	for _, f := range r.Findings {
		if f.Check == plan.CheckCoverage && f.Severity == plan.Care {
			legs[f.Leg] = true
			for _, p := range f.Also {
				legs[p.Leg] = true
			}
		}
	}
	if len(legs) != len(r.Legs) || !strings.Contains(diag, "W-CANCEL US5MA12M.001") || !strings.Contains(strings.Join(r.Cautions, "\n"), "was cancelled by its producer (US5MA12M.001)") {
		t.Errorf("%d of %d legs have care for a chart that is not in force; %s", len(legs), len(r.Legs), diag)
	}
	// Beside a chart that is in force but elsewhere it gives no coverage.
	status, out, diag = cli("check", "-chart", top, "-chart", filepath.Join("..", "..", "web", "demo", "chart"), roadsDay)
	if r, err = plan.DecodeReport([]byte(out)); status != statusOK || err != nil {
		t.Fatalf("status %d, %v: %s", status, err, diag)
	}
	outside := false
	for _, f := range r.Findings {
		outside = outside || f.Check == plan.CheckCoverage && f.Severity == plan.NoData
	}
	if !outside || r.Verdict == plan.Clear || r.Verdict == plan.Care {
		t.Errorf("the day is %s by a cancelled cell", r.Verdict)
	}
}
