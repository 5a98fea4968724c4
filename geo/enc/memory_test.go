//go:build !js

package enc

import (
	"math/rand/v2"
	"runtime"
	"testing"

	"keelroom/geo/layer"
)

// What is in use at any moment, the records and the finished set, stays within
// four times the file, beside the file itself, for real cells, whole and
// damaged.
func TestMemory(t *testing.T) {
	for _, c := range realCells {
		files := cellFiles(t, c.name, c.updates)
		size := 0
		for _, f := range files {
			size += len(f.Data)
		}
		peak := inUse(t, files)
		t.Logf("%s: %d bytes, %d bytes of heap, %.2f times as many", c.name, size, peak, float64(peak)/float64(size))
		if peak > uint64(4*size) {
			t.Errorf("%s: %d bytes of heap beside a file of %d", c.name, peak, size)
		}
	}
	r := rand.New(rand.NewPCG(57, 31))
	whole := cellFiles(t, "US5MA12M", 0)[0]
	rounds := 10
	if *long {
		rounds = 200
	}
	worst := uint64(0)
	for range rounds {
		damaged := layer.File{Name: whole.Name, Data: mutated(r, whole.Data)}
		worst = max(worst, inUse(t, []layer.File{damaged}))
	}
	t.Logf("%d damaged cells: at most %.2f times the file", rounds, float64(worst)/float64(len(whole.Data)))
	if worst > uint64(4*len(whole.Data)) {
		t.Errorf("%d bytes of heap beside a file of %d", worst, len(whole.Data))
	}
}

// inUse is the most heap that a decoding has in use, beside its files: looked
// at whenever it lets the program do something else, and at its end, garbage
// collected first.
func inUse(t *testing.T, files []layer.File) (peak uint64) {
	t.Helper()
	heap := func() uint64 {
		var m runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	before := heap()
	look := func() error {
		peak = max(peak, heap())
		return nil
	}
	d := Decoder{Between: look}
	r, _ := d.Decode(files)
	_ = look()
	runtime.KeepAlive(files)
	if len(r.Cells) == 0 && len(r.Messages) == 0 {
		t.Error("neither a set nor a reason")
	}
	return peak - min(before, peak)
}
