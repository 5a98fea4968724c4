package tide_test

import (
	"fmt"
	"time"

	"keelroom/hazards/tide"
)

// The waters of this table are invented.
func ExampleNewTable() {
	clock := func(hour, minute int) time.Time { return time.Date(2026, 7, 1, hour, minute, 0, 0, time.UTC) }
	t, err := tide.NewTable([]tide.Water{
		{Time: clock(5, 30), HeightM: 4.2}, {Time: clock(11, 42), HeightM: 0.6}, {Time: clock(17, 58), HeightM: 4.4},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	h, _ := t.HeightM(clock(8, 36))
	fmt.Printf("%.2f m at half-tide\n", h)
	least, _ := t.Least(clock(8, 0), clock(16, 0))
	fmt.Printf("%.2f m at least\n", least)
	_, known := t.HeightM(clock(18, 0))
	fmt.Println("known after the table ends:", known)
	// Output:
	// 2.40 m at half-tide
	// 0.60 m at least
	// known after the table ends: false
}
