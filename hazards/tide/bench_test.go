package tide

import (
	"testing"
	"time"
)

func boston(b testing.TB) *Harmonic {
	var ref refStation
	readJSON(b, "tide_noaa_8443970.json", &ref)
	return mustHarmonic(b, ref.Z0, ref.constituents())
}

// mayport has all of NOAA's 37 constituents, 0 or not.
func mayport37(b testing.TB) *Harmonic {
	var ref refStation
	readJSON(b, "tide_noaa_8720218.json", &ref)
	cs := ref.constituents()
	have := map[string]bool{}
	for _, c := range cs {
		have[canonical(c.Name)] = true
	}
	for n := range publishedSpeeds {
		if !have[n] {
			cs = append(cs, Constituent{n, 0.001, 0})
		}
	}
	h := mustHarmonic(b, ref.Z0, cs)
	if len(h.terms) != 37 {
		b.Fatalf("%d constituents", len(h.terms))
	}
	return h
}

var sink float64

// BenchmarkHeight37 is one height of tide from 37 constituents, at another time each iteration:
// 37-minute steps through the year.
func BenchmarkHeight37(b *testing.B) {
	h := mayport37(b)
	t := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		v, _ := h.HeightM(t.Add(time.Duration(i%14000) * 37 * time.Minute))
		sink += v
	}
}

// BenchmarkYearOfExtremes is a year of high and low waters, a year on each iteration.
func BenchmarkYearOfExtremes(b *testing.B) {
	h := mayport37(b)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		from := time.Date(2000+i%50, 1, 1, 0, 0, 0, 0, time.UTC)
		sink += float64(len(h.Events(from, from.AddDate(1, 0, 0))))
	}
}

// BenchmarkLeastInWindow is the least height of half an hour, from a window of three days.
func BenchmarkLeastInWindow(b *testing.B) {
	t := time.Date(2026, 7, 1, 0, 0, 0, 0, time.UTC)
	w := NewWindow(mayport37(b), t, t.Add(72*time.Hour))
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		from := t.Add(time.Duration(i%4000) * time.Minute)
		v, _ := w.Least(from, from.Add(30*time.Minute))
		sink += v
	}
}

// BenchmarkLeast is the same without a window.
func BenchmarkLeast(b *testing.B) {
	t := time.Date(2026, 7, 1, 0, 0, 0, 0, time.UTC)
	h := mayport37(b)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		from := t.Add(time.Duration(i%4000) * time.Minute)
		v, _ := h.Least(from, from.Add(30*time.Minute))
		sink += v
	}
}
