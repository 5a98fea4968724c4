package layer

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

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
