package geojson

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// sharedFolder finds the folder shared beside the repository. Without it tests are
// skipped, but never where CI=true.
func sharedFolder(t *testing.T) string {
	t.Helper()
	dir, err := os.Getwd()
	for err == nil {
		if info, e := os.Stat(filepath.Join(dir, "shared", "charts")); e == nil && info.IsDir() {
			return filepath.Join(dir, "shared")
		}
		parent := filepath.Dir(dir)
		if parent == dir {
			break
		}
		dir = parent
	}
	if os.Getenv("CI") == "true" {
		t.Fatal("the folder shared is not beside the repository")
	}
	t.Skip("SKIPPED: the folder shared is not beside the repository")
	return ""
}

// TestLayersAgreeWithOracle reads every published layer, as GDAL wrote it, and
// compares it value by value with encoding/json.
func TestLayersAgreeWithOracle(t *testing.T) {
	files := 0
	err := filepath.WalkDir(filepath.Join(sharedFolder(t), "charts"), func(path string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".geojson") || strings.Contains(path, "errors") {
			return err
		}
		files++
		b, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		v, err := readAll(t, string(b))
		if err != nil {
			t.Errorf("%s: %v", filepath.Base(path), err)
			return nil
		}
		agreesWithOracle(t, b, v)
		if n, err := readLayer(b); err != nil || n == 0 && strings.Contains(string(b), `"coordinates"`) {
			t.Errorf("%s: %d positions, %v", filepath.Base(path), n, err)
		}
		return nil
	})
	if err != nil || files < 30 {
		t.Errorf("%d files, %v", files, err)
	}
}
