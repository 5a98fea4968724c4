package layer

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// shared returns the path of a file or folder of the reference data that lies
// beside the repository. Without it the test is skipped, and fails under CI.
func shared(t testing.TB, parts ...string) string {
	t.Helper()
	for up, n := ".", 0; n < 8; up, n = filepath.Join(up, ".."), n+1 {
		if _, err := os.Stat(filepath.Join(up, "go.mod")); err != nil {
			continue
		}
		path := filepath.Join(append([]string{up, "..", "shared"}, parts...)...)
		if _, err := os.Stat(path); err == nil {
			return path
		}
	}
	if os.Getenv("CI") == "true" {
		t.Fatalf("shared/%s is not beside the repository", strings.Join(parts, "/"))
	}
	t.Skipf("SKIPPED, NOT CHECKED: shared/%s is not beside the repository", strings.Join(parts, "/"))
	return ""
}

func readFile(t testing.TB, path string) File {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return File{Name: path, Data: data}
}

// folder reads the *.geojson of a folder.
func folder(t testing.TB, path string) (files []File) {
	t.Helper()
	entries, err := os.ReadDir(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if strings.HasSuffix(e.Name(), ".geojson") {
			files = append(files, readFile(t, filepath.Join(path, e.Name())))
		}
	}
	if len(files) == 0 {
		t.Fatalf("%s holds no layers", path)
	}
	slices.SortFunc(files, func(a, b File) int { return strings.Compare(a.Name, b.Name) })
	return files
}
