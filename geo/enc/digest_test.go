package enc

import (
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
)

// digestFile holds digests of GDAL's output, for where GDAL is not there.
// `go test ./geo/enc -run AsGDAL -update` writes it anew with GDAL's programs.
var digestFile = filepath.Join("testdata", "gdal.json")

func storedDigests(t *testing.T) map[string]string {
	t.Helper()
	data, err := os.ReadFile(digestFile)
	if errors.Is(err, fs.ErrNotExist) {
		return map[string]string{}
	}
	stored := map[string]string{}
	if err == nil {
		err = json.Unmarshal(data, &stored)
	}
	if err != nil {
		t.Fatal(err)
	}
	return stored
}

// The same as the comparison with GDAL itself, by digests of its output.
func TestStoredDigests(t *testing.T) {
	stored := storedDigests(t)
	for _, c := range realCells {
		files := cellFiles(t, c.name, c.updates)
		if got, want := digest(canonicalRecords(t, readModel(t, files))), stored[c.name+" records"]; got != want {
			t.Errorf("%s: records %s, want %s", c.name, got, want)
		}
		if got, want := digest(canonicalFeatures(readCell(t, files).Set.Features)), stored[c.name+" features"]; got != want {
			t.Errorf("%s: features %s, want %s", c.name, got, want)
		}
	}
}
