package sea_test

import (
	"fmt"
	"math"
	"time"

	"keelroom/hazards/sea"

	"github.com/paulmach/orb"
)

// The worked example of SPM 1984, section 3-VI: 22 m/s of adjusted wind over
// 24.4 km of water 10.7 m deep.
func ExampleGrow() {
	hs, period := sea.Grow(22, 24_400, 10.7)
	fmt.Printf("%.1f m, %.1f s\n", hs, period)
	// Output: 1.5 m, 4.4 s
}

// bight is invented water: land 400 m to the north, the data's edge 3 km off
// everywhere else, depths unknown.
type bight struct{}

func (bight) Cast(_ orb.Point, towardDeg, _ float64, _ time.Time) sea.Ray {
	if towardDeg < 90 || towardDeg > 270 {
		return sea.Ray{LengthM: 400, MeanDepthM: math.Inf(1)}
	}
	return sea.Ray{LengthM: 3000, Open: true, MeanDepthM: math.Inf(1)}
}

// A wind off the land leaves the water flat; off the open water it does not, and
// the two figures tell how much of that lies beyond the chart. By hand from SPM 1984
// eq 3-39 with UA = 8.77 m/s: 0.089, 0.244 and 0.616 m over 400 m, 3 km and 20 km.
func ExampleModel_At() {
	noon := time.Date(2026, 7, 1, 12, 0, 0, 0, time.UTC)
	for _, fromDeg := range []float64{0, 180} {
		wind, err := sea.NewWindSeries([]sea.Wind{{Time: noon, FromDeg: fromDeg, Kn: 15, GustKn: 21}})
		if err != nil {
			fmt.Println(err)
			return
		}
		m := sea.Model{Wind: wind, Cast: bight{}, OpenFetchM: 20_000}
		s, _ := m.At(orb.Point{0, 0}, noon)
		fmt.Printf("from %03.0f°: %.2f m within the data, %.2f m with %d rays open\n", fromDeg, s.HsM, s.WithOpenHsM, s.OpenRays)
	}
	// Output:
	// from 000°: 0.09 m within the data, 0.09 m with 0 rays open
	// from 180°: 0.24 m within the data, 0.62 m with 9 rays open
}
