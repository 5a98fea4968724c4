package sea

import (
	"testing"

	"github.com/paulmach/orb"
)

func benchModel(b *testing.B) *Model {
	kn := [][4]float64{}
	for h := -24.0; h <= 24; h++ {
		kn = append(kn, [4]float64{h, 200 + h, 12 + h/4, 20 + h/4})
	}
	return &Model{Wind: wind(b, kn...), Cast: basin{min: orb.Point{-3000, -2000}, max: orb.Point{5000, 4000}, openNorth: true, depthM: 7}}
}

// The sea at one place and time, the rays themselves nearly free.
func BenchmarkAt(b *testing.B) {
	m := benchModel(b)
	b.ReportAllocs()
	for b.Loop() {
		m.At(origin, noon)
	}
}

// The wind's room over a stay of six hours.
func BenchmarkWindRoom(b *testing.B) {
	m := benchModel(b)
	b.ReportAllocs()
	for b.Loop() {
		m.WindRoom(origin, noon, hours(6), noon, 0.5)
	}
}
