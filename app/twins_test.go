package app

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"keelroom/testdata/beside"
)

// realLayers are the GeoJSON layers made of the real cell US5MA12M
// (shared/charts/README.md).
func realLayers(t *testing.T) (files []File) {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(filepath.Dir(beside.File(t, "charts", "US5MA12M", "geojson", "DEPARE.geojson")), "*.geojson"))
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		b, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, File{Name: filepath.Base(name), Data: Bytes(b)})
	}
	return files
}

// A cell and the layers that were made of it are one chart: that is said, and the
// layers are offered to be closed. A neighbouring cell is another chart.
func TestSameChartTwice(t *testing.T) {
	g := newGround(t).start()
	r := g.room
	r.tab = tabCharts
	g.open(realLayers(t)...)
	g.open(realCell(t, "US5MA11M", "US5MA11M.000"))
	if strings.Contains(g.text(), "same chart") {
		t.Fatalf("two charts are taken for one: %s", g.text())
	}
	g.open(realCell(t, "US5MA12M", "US5MA12M.000"))
	layers := r.sets[1].title()
	g.wants(layers+" is the same chart as US5MA12M, and both are open", "Close "+layers, "The same chart is open as "+layers+" too", "The same chart is open as US5MA12M too")
	for _, n := range r.notices {
		if n.do == "set-remove" && n.arg == r.sets[1].ID {
			r.Do(n.do, n.arg)
		}
	}
	g.settle()
	if len(r.sets) != 3 || strings.Contains(g.text(), "The same chart is open") {
		t.Errorf("%d charts: %s", len(r.sets), g.text())
	}
}
