package sun_test

import (
	"fmt"
	"time"

	"keelroom/hazards/sun"

	"github.com/paulmach/orb"
)

// The light of a moment in invented waters on the equator, where day and night are
// nearly equal all year.
func ExampleLightAt() {
	place := orb.Point{-30, 0} // lon, lat: solar noon is about 14:00 UTC
	for _, hour := range []int{8, 14, 20, 21} {
		t := time.Date(2026, 3, 20, hour, 20, 0, 0, time.UTC)
		fmt.Println(t.Format("15:04 MST"), sun.LightAt(t, place))
	}
	// Output:
	// 08:20 UTC daylight
	// 14:20 UTC daylight
	// 20:20 UTC civil twilight
	// 21:20 UTC night
}
