// Package waters reads charts and plans for tests.
package waters

import (
	"os"
	"path/filepath"
	"testing"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/hazards/plan"
	"keelroom/testdata/beside"
)

// Folder is the layer set of the GeoJSON files in a folder.
func Folder(t testing.TB, folder string) *chart.Set {
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

// Demo is the invented waters of the demo.
func Demo(t testing.TB) *chart.Set {
	t.Helper()
	return Folder(t, filepath.Join(beside.Root(t), "web", "demo", "chart"))
}

// Plan is a plan of the repository.
func Plan(t testing.TB, parts ...string) *plan.Plan {
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
