package geo

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
)

// parallel is the radius of a parallel of WGS 84, metres (Snyder 1987, Map
// Projections: A Working Manual, equations 4-20 and 4-21; WGS 84's axis and
// eccentricity from NGA.STND.0036).
func parallel(latDeg float64) float64 {
	const a, e2 = 6378137, 0.00669437999014
	sin, cos := math.Sincos(latDeg * math.Pi / 180)
	return a * cos / math.Sqrt(1-e2*sin*sin)
}

// Mercator's scale at a latitude, beside that where it is true, is the ratio of the
// parallels (Snyder 1987, equation 7-8). ScaleError bounds what it is out by, north
// and south, and is no wider than it needs to be: 15 % less would be too small.
func TestScaleErrorIsABound(t *testing.T) {
	for lat := -70.0; lat <= 70; lat += 2.5 {
		o := orb.Point{12, lat}
		p := NewPlane(o)
		for _, d := range []float64{1, 10, 100, 926, 1852, 2400, 5000, 15 * 1852} {
			bound := p.ScaleError(d)
			for _, azimuth := range []float64{0, 180} {
				there := Direct(o, azimuth, d)
				out := math.Abs(parallel(lat)/parallel(there[1]) - 1)
				if out > bound*(1+1e-9)+1e-13 {
					t.Errorf("%g m from %g°: out by %.4g, more than the bound %.4g", d, lat, out, bound)
				}
				poleward := (azimuth == 0) == (lat > 0)
				if poleward && math.Abs(lat) >= 10 && out < 0.95*bound {
					t.Errorf("%g m from %g°: out by %.4g, far less than the bound %.4g", d, lat, out, bound)
				}
			}
		}
	}
}
