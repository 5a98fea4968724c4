package geo

import (
	"encoding/json"
	"math"
	"math/rand"
	"os"
	"testing"

	"github.com/paulmach/orb"
)

// Source of testdata/geodesy.json: GeographicLib 2.1.2 (GeodSolve, RhumbSolve);
// its own `source` member says how it was made.
func TestAgainstGeographicLib(t *testing.T) {
	var file struct {
		Rows []struct {
			ID                             string
			Lat1, Lon1, Lat2, Lon2         float64
			Geodesic_azi1, Geodesic_azi2   float64
			Geodesic_m, Rhumb_azi, Rhumb_m float64
		}
	}
	b, err := os.ReadFile("testdata/geodesy.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(b, &file); err != nil {
		t.Fatal(err)
	}
	if len(file.Rows) != 26 {
		t.Fatalf("%d rows, want 26", len(file.Rows))
	}
	for _, r := range file.Rows {
		t.Run(r.ID, func(t *testing.T) {
			a, b := orb.Point{r.Lon1, r.Lat1}, orb.Point{r.Lon2, r.Lat2}
			m, azi1, azi2 := Inverse(a, b)
			near(t, "geodesic", m, r.Geodesic_m, 0.001+1e-9*m)
			near(t, "azimuth 1", Turn(r.Geodesic_azi1, azi1), 0, 1e-6)
			near(t, "azimuth 2", Turn(r.Geodesic_azi2, azi2), 0, 1e-6)
			rh := NewRhumb(a, b)
			near(t, "rhumb", rh.LengthM, r.Rhumb_m, 0.01+1e-8*r.Rhumb_m)
			near(t, "course", Turn(r.Rhumb_azi, rh.CourseDeg), 0, 1e-6)
			near(t, "direct", DistanceM(Direct(a, azi1, m), b), 0, 0.001+1e-9*m)
			near(t, "rhumb end", DistanceM(rh.At(rh.LengthM), b), 0, 0.01+1e-8*m)
			near(t, "rhumb direct", DistanceM(RhumbDirect(a, r.Rhumb_azi, r.Rhumb_m), b), 0, 0.03+3e-8*r.Rhumb_m)
		})
	}
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.9g, want %.9g ± %.2g", what, got, want, tolerance)
	}
}

// A point of a rhumb line lies on the course and at the distance asked.
func TestRhumbAt(t *testing.T) {
	rnd := rand.New(rand.NewSource(1))
	for range 2000 {
		a := orb.Point{rnd.Float64()*360 - 180, rnd.Float64()*150 - 75}
		b := RhumbDirect(a, rnd.Float64()*360, rnd.Float64()*60000)
		r := NewRhumb(a, b)
		s := rnd.Float64() * r.LengthM
		mid := r.At(s)
		head, tail := NewRhumb(a, mid), NewRhumb(mid, b)
		near(t, "head", head.LengthM, s, 0.001)
		near(t, "whole", head.LengthM+tail.LengthM, r.LengthM, 0.001)
		if s > 100 {
			near(t, "course", Turn(head.CourseDeg, r.CourseDeg), 0, 1e-4)
		}
	}
}

// The plane agrees with geodesics (GeographicLib's method) within the error it
// states, and projects back to where it came from.
func TestPlane(t *testing.T) {
	rnd := rand.New(rand.NewSource(2))
	for range 5000 {
		o := orb.Point{rnd.Float64()*360 - 180, rnd.Float64()*140 - 70}
		p := NewPlane(o)
		a := Direct(o, rnd.Float64()*360, rnd.Float64()*1852)
		b := Direct(a, rnd.Float64()*360, rnd.Float64()*500)
		flat := p.XY(b).Sub(p.XY(a)).Len()
		near(t, "distance", flat, DistanceM(a, b), flat*p.ScaleError(2400)+0.001)
		far := Direct(o, rnd.Float64()*360, rnd.Float64()*15*1852)
		near(t, "there and back", DistanceM(p.Position(p.XY(far)), far), 0, 0.001)
	}
}

// A leg is straight in the plane: the middle of a rhumb line is on the segment.
func TestPlaneKeepsRhumbLinesStraight(t *testing.T) {
	rnd := rand.New(rand.NewSource(3))
	for range 2000 {
		a := orb.Point{rnd.Float64()*360 - 180, rnd.Float64()*140 - 70}
		r := NewRhumb(a, RhumbDirect(a, rnd.Float64()*360, 100+rnd.Float64()*3600))
		p := NewPlane(r.At(r.LengthM / 2))
		u, v, w := p.XY(r.From), p.XY(r.To), p.XY(r.At(rnd.Float64()*r.LengthM))
		off := v.Sub(u).Cross(w.Sub(u)) / v.Sub(u).Len()
		near(t, "off the line", off, 0, 0.002)
	}
}

func TestBearing(t *testing.T) {
	for _, c := range []struct{ in, want float64 }{{0, 0}, {360, 0}, {-1, 359}, {725, 5}, {-1e-20, 0}} {
		if got := Bearing(c.in); got != c.want {
			t.Errorf("Bearing(%v) = %v, want %v", c.in, got, c.want)
		}
	}
	for _, c := range []struct{ from, to, want float64 }{{350, 10, 20}, {10, 350, -20}, {0, 180, 180}, {180, 0, 180}} {
		if got := Turn(c.from, c.to); got != c.want {
			t.Errorf("Turn(%v, %v) = %v, want %v", c.from, c.to, got, c.want)
		}
	}
}
