package chart_test

import (
	"flag"
	"math/rand"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/testdata/beside"
)

func decode(t testing.TB, folder string) *chart.Set {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(folder, "*.geojson"))
	if err != nil || len(names) == 0 {
		t.Fatalf("%s holds no layers (%v)", folder, err)
	}
	var files []layer.File
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, layer.File{Name: filepath.Base(name), Data: data})
	}
	set, messages := layer.Decode(files)
	if set == nil {
		t.Fatal(messages)
	}
	return set
}

func hull(t testing.TB) *chart.Set { return decode(t, beside.File(t, "charts", "hull")) }
func fullCell(t testing.TB) *chart.Set {
	return decode(t, beside.File(t, "charts", "US5MA12M", "geojson"))
}
func demo(t testing.TB) *chart.Set {
	return decode(t, filepath.Join(beside.Root(t), "web", "demo", "chart"))
}

var long = flag.Bool("long", false, "compare with the oracle for minutes")

// fewer takes a number of trials down where the tests run slowly.
func fewer(n int) int {
	if *long {
		return n * 20
	}
	if runtime.GOARCH == "wasm" {
		return max(1, n/8)
	}
	if testing.Short() {
		return max(1, n/4)
	}
	return n
}

// within gives a random position in a box.
func within(rng *rand.Rand, b orb.Bound) orb.Point {
	return orb.Point{b.Min[0] + rng.Float64()*(b.Max[0]-b.Min[0]), b.Min[1] + rng.Float64()*(b.Max[1]-b.Min[1])}
}
