package state

import (
	"fmt"
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
	g := newHarness(t).start()
	r := g.room
	r.View.Tab = TabCharts
	g.open(realLayers(t)...)
	g.open(realCell(t, "US5MA11M", "US5MA11M.000"))
	if strings.Contains(g.text(), "same chart") {
		t.Fatalf("two charts are taken for one: %s", g.text())
	}
	g.open(realCell(t, "US5MA12M", "US5MA12M.000"))
	layers := r.Charts.Sets[1].Title()
	g.wants(layers+" is the same chart as US5MA12M, and both are open", "Close "+layers, "The same chart is open as "+layers+" too", "The same chart is open as US5MA12M too")
	for _, n := range r.Notices.list {
		if n.Do == "set-remove" && n.arg == r.Charts.Sets[1].ID {
			r.Do(n.Do, n.arg)
		}
	}
	g.settle()
	if len(r.Charts.Sets) != 3 || strings.Contains(g.text(), "The same chart is open") {
		t.Errorf("%d charts: %s", len(r.Charts.Sets), g.text())
	}
}

// A layer that was made of a part of a chart, with dangers of its own, is another
// chart: nothing offers to close it, as the dangers would go with it.
func TestLayerWithDangersOfItsOwnIsNoTwin(t *testing.T) {
	g := newHarness(t).start()
	g.room.View.Tab = TabCharts
	wreck := func(i int, named bool) string {
		name := ""
		if named {
			name = fmt.Sprintf(`"LNAM":"FFFF%08X0001",`, i)
		}
		return fmt.Sprintf(`{"type":"Feature","properties":{%s"OBJL":159,"VALSOU":1.5},"geometry":{"type":"Point","coordinates":[%.4f,43.5]}}`, name, -36.5+0.001*float64(i))
	}
	layer := func(name string, named, own int) File {
		var list []string
		for i := range named + own {
			list = append(list, wreck(i, i < named))
		}
		return File{Name: name, Data: Bytes(`{"type":"FeatureCollection","layer":{"title":"INVENTED ` + name + `"},"features":[` + strings.Join(list, ",") + `]}`)}
	}
	g.open(layer("chart.geojson", 10, 0))
	g.open(layer("dangers.geojson", 10, 200))
	if len(g.room.Charts.Sets) != 3 {
		t.Fatalf("%d charts: %s", len(g.room.Charts.Sets), g.text())
	}
	if strings.Contains(g.text(), "same chart") {
		t.Errorf("the layer with 200 dangers of its own is offered to be closed: %s", g.text())
	}
}
