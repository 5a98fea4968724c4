package demobed_test

import (
	"fmt"

	"keelroom/geo/chart/demobed"
)

func ExampleDepthM() {
	fmt.Printf("harbour mouth: %.1f m below the sounding datum\n", demobed.DepthM(demobed.HarbourMouth))
	fmt.Println("headland is land:", demobed.DepthM(demobed.At(-330, 500)) < -demobed.LandHeightM)
	// Output:
	// harbour mouth: 3.2 m below the sounding datum
	// headland is land: true
}
