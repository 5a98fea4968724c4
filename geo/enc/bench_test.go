package enc

import (
	"testing"

	"keelroom/geo/layer"
)

// Reading a real cell with its updates, from bytes to chart features.
func BenchmarkDecode(b *testing.B) {
	for _, c := range realCells {
		files := cellFiles(b, c.name, c.updates)
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			size := 0
			for _, f := range files {
				size += len(f.Data)
			}
			b.SetBytes(int64(size))
			for b.Loop() {
				if sets, messages := Decode(files); len(sets) != 1 {
					b.Fatal(messages)
				}
			}
		})
	}
}

// The same zipped, as an exchange set comes.
func BenchmarkDecodeZip(b *testing.B) {
	archive := zipOf(b, cellFiles(b, "US5MA11M", 3)...)
	b.ReportAllocs()
	for b.Loop() {
		if sets, messages := Decode([]layer.File{archive}); len(sets) != 1 {
			b.Fatal(messages)
		}
	}
}
