package layer

import (
	"bytes"
	"fmt"
	"runtime"
	"slices"
	"testing"
	"time"
)

// The heap, file included, stays within three times the file (the budget for a
// browser's worker), whatever a layer of 20 MB is made of.
func TestMemory(t *testing.T) {
	if testing.Short() {
		t.Skip("SKIPPED under -short: it reads 20 MB")
	}
	tests := map[string]func() []byte{
		"areas":     func() []byte { return depthAreas(800, 1000) },
		"soundings": func() []byte { return soundings(60_000) },
	}
	for name, makeFile := range tests {
		t.Run(name, func(t *testing.T) {
			data := slices.Clip(bytes.Clone(makeFile()))
			peak := peakHeap(func() {
				if set, messages := Decode([]File{{"x.geojson", data}}); set == nil {
					t.Error(messages)
				}
			})
			runtime.KeepAlive(data)
			t.Logf("file %d MB, heap at most %d MB", len(data)>>20, peak>>20)
			if len(data) < 19<<20 || peak > 3*uint64(len(data)) {
				t.Errorf("file %d bytes, heap %d, more than three times as much", len(data), peak)
			}
		})
	}
}

// peakHeap is the largest heap seen while fn runs.
func peakHeap(fn func()) (peak uint64) {
	runtime.GC()
	done, sampled := make(chan bool), make(chan bool)
	look := func() {
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		peak = max(peak, m.HeapAlloc)
	}
	go func() {
		defer close(sampled)
		for {
			select {
			case <-done:
				return
			case <-time.After(time.Millisecond):
				look()
			}
		}
	}()
	fn()
	close(done)
	<-sampled
	look()
	return peak
}

// soundings is a layer of single soundings in invented waters.
func soundings(n int) []byte {
	var buf bytes.Buffer
	buf.WriteString(`{"type":"FeatureCollection","name":"SOUNDG","features":[`)
	for i := range n {
		if i > 0 {
			buf.WriteByte(',')
		}
		depth := float64(i%200) / 10
		fmt.Fprintf(&buf, "\n"+`{ "type": "Feature", "properties": { "RCID": 3134, "PRIM": 1, "GRUP": 2, "OBJL": 129, "RVER": 1, "AGEN": 550, "FIDN": 2060283420, "FIDS": 7363, "LNAM": "02267ACD6E1C1CC3", "SCAMIN": 29999, "SORDAT": "20010714", "SORIND": "XX,XX,graph,INVENTED", "DEPTH": %.1f }, "geometry": { "type": "Point", "coordinates": [ %.7f, %.7f, %.1f ] } }`,
			depth, 10+float64(i%300)*0.001, 50+float64(i/300)*0.001, depth)
	}
	buf.WriteString("\n]}")
	return buf.Bytes()
}
