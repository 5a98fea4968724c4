package geojson

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"keelroom/testdata/beside"
)

// TestLayersAgreeWithOracle reads every published layer, as GDAL wrote it, and
// compares it value by value with encoding/json.
func TestLayersAgreeWithOracle(t *testing.T) {
	files := 0
	err := filepath.WalkDir(beside.File(t, "charts"), func(path string, d fs.DirEntry, err error) error {
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
