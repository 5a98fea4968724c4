package hazards

import (
	"testing"
	"time"

	"keelroom/geo/chart"
)

// BenchmarkDemoSweep checks every departure of the demo's day.
func BenchmarkDemoSweep(b *testing.B) {
	s := NewSession(chart.New(demoChart(b)))
	p := readPlan(b, "web", "demo", "plan.geojson")
	day := time.Date(2026, 7, 18, 2, 0, 0, 0, time.UTC)
	i := 0
	for b.Loop() {
		i++
		for k := range 144 {
			if _, err := s.Outlook(shifted(p, day.Add(time.Duration(k)*10*time.Minute+time.Duration(i%60)*time.Second))); err != nil {
				b.Fatal(err)
			}
		}
	}
}
