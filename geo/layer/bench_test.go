package layer

import (
	"bytes"
	"fmt"
	"math"
	"testing"

	"keelroom/testdata/beside"
)

func BenchmarkDecodeUS5MA12M(b *testing.B) {
	files := folder(b, beside.File(b, "charts", "US5MA12M", "geojson"))
	size := 0
	for _, f := range files {
		size += len(f.Data)
	}
	b.SetBytes(int64(size))
	b.ReportAllocs()
	for b.Loop() {
		if set, messages := Decode(files); set == nil {
			b.Fatal(messages)
		}
	}
}

func BenchmarkDecodeMillionVertices(b *testing.B) {
	file := File{"DEPARE.geojson", depthAreas(1000, 1000)}
	b.SetBytes(int64(len(file.Data)))
	b.ReportAllocs()
	for b.Loop() {
		if set, messages := Decode([]File{file}); set == nil {
			b.Fatal(messages)
		}
	}
}

func BenchmarkCrossing(b *testing.B) {
	for _, n := range []int{15_000, 200_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			g := ringOf(wavy(n))
			var x crossing
			for b.Loop() {
				if x.found(&g) {
					b.Fatal("no crossing is there")
				}
			}
		})
	}
}

// depthAreas is a layer of round depth areas with that many vertices each, in
// invented waters.
func depthAreas(areas, vertices int) []byte {
	var buf bytes.Buffer
	buf.WriteString(`{"type":"FeatureCollection","name":"DEPARE","features":[`)
	for i := range areas {
		if i > 0 {
			buf.WriteByte(',')
		}
		fmt.Fprintf(&buf, "\n"+`{ "type": "Feature", "properties": { "RCID": %d, "PRIM": 3, "OBJL": 42, "LNAM": "0226%08X0001", "DRVAL1": %d.6, "DRVAL2": %d.1 }, "geometry": { "type": "Polygon", "coordinates": [ [ `, i, i, i%9, i%9+3)
		for k := range vertices {
			a := 2 * math.Pi * float64(k%(vertices-1)) / float64(vertices-1)
			if k > 0 {
				buf.WriteString(", ")
			}
			fmt.Fprintf(&buf, "[ %.7f, %.7f ]", 10+float64(i%30)*0.05+0.02*math.Cos(a), 50+float64(i/30)*0.05+0.02*math.Sin(a))
		}
		buf.WriteString(" ] ] } }")
	}
	buf.WriteString("\n]}")
	return buf.Bytes()
}
