package geojson

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
)

// bigLayer returns a collection of 1 000 000 positions in lines of 100, spelled
// with 7 decimals as GDAL spells them.
func bigLayer() []byte {
	rng := rand.New(rand.NewPCG(1, 2))
	var b strings.Builder
	b.WriteString(`{"type":"FeatureCollection","features":[`)
	for f := range 10_000 {
		if f > 0 {
			b.WriteString(",\n")
		}
		b.WriteString(`{"type":"Feature","properties":{"OBJL":43,"VALDCO":5.4,"SORDAT":"20000101"},"geometry":{"type":"LineString","coordinates":[ `)
		for i := range 100 {
			if i > 0 {
				b.WriteString(", ")
			}
			fmt.Fprintf(&b, "[ %.7f, %.7f ]", -36+rng.Float64(), 43+rng.Float64())
		}
		b.WriteString(` ]}}`)
	}
	b.WriteString("]}")
	return []byte(b.String())
}

// readLayer reads every geometry and property and returns the position count.
func readLayer(b []byte) (int, error) {
	r := NewReader(b)
	var g Geometry
	n := 0
	err := r.Object(func(key string) error {
		if key != "features" {
			return nil
		}
		return r.Array(func(int) error {
			return r.Object(func(key string) error {
				switch key {
				case "properties":
					_, err := r.Value()
					return err
				case "geometry":
					err := r.Geometry(&g)
					n += len(g.Positions)
					return err
				}
				return nil
			})
		})
	})
	if err != nil {
		return n, err
	}
	return n, r.End()
}

func BenchmarkMillionPositions(b *testing.B) {
	layer := bigLayer()
	b.SetBytes(int64(len(layer)))
	b.ReportAllocs()
	for b.Loop() {
		if n, err := readLayer(layer); n != 1_000_000 || err != nil {
			b.Fatal(n, err)
		}
	}
}
