package hazards

import (
	"os"
	"path/filepath"
	"testing"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/hazards/plan"
	"keelroom/testdata/beside"
)

// loadFolder reads a folder of layers as one set.
func loadFolder(t testing.TB, folder string) *chart.Set {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(folder, "*.geojson"))
	if err != nil || len(names) == 0 {
		t.Fatalf("no layers in %s: %v", folder, err)
	}
	var files []layer.File
	for _, name := range names {
		b, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, layer.File{Name: filepath.Base(name), Data: b})
	}
	set, messages := layer.Decode(files)
	if set == nil {
		t.Fatalf("%s: %v", folder, messages)
	}
	return set
}

func readPlan(t testing.TB, parts ...string) *plan.Plan {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(append([]string{beside.Root(t)}, parts...)...))
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Decode(b)
	if err != nil {
		t.Fatal(err)
	}
	return p
}
