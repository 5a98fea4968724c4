package hazards

import (
	"os"
	"path/filepath"
	"testing"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/hazards/plan"
)

// repoRoot is the folder of go.mod.
func repoRoot(t testing.TB) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		up := filepath.Dir(dir)
		if up == dir {
			t.Fatal("no go.mod above the test")
		}
		dir = up
	}
}

// sharedFile is a path in the folder of real charts and check values beside
// the repository. Without it the test is skipped, but never in CI.
func sharedFile(t testing.TB, parts ...string) string {
	t.Helper()
	path := filepath.Join(append([]string{repoRoot(t), "..", "shared"}, parts...)...)
	if _, err := os.Stat(path); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("the real charts are missing: %v", err)
		}
		t.Skipf("SKIPPED, the real charts are missing: %v", err)
	}
	return path
}

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
	b, err := os.ReadFile(filepath.Join(append([]string{repoRoot(t)}, parts...)...))
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Decode(b)
	if err != nil {
		t.Fatal(err)
	}
	return p
}
