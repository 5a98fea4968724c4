package enc

import (
	"fmt"

	"keelroom/geo/layer"
)

// A base and its update, of invented waters, become one chart set.
func Example() {
	files := []layer.File{squareCell(baseHeading(), nil), updateFile(1, rename(2, "Nyholm"))}
	var d Decoder
	r, _ := d.Decode(files)
	cell := r.Cells[0]
	fmt.Printf("%s, edition %s with update %s of %s, 1:%d, for %s use\n", cell.Name, cell.Edition, cell.Update, cell.IssueDate, cell.Scale, cell.Use)
	for i := range cell.Set.Features {
		if f := &cell.Set.Features[i]; f.Class.WaterArea() {
			fmt.Printf("%s from %.1f m at %v degrees\n", f.Class, f.DepthMinM, f.Coords[0].Position())
		}
	}
	// Output:
	// XX5INVNT, edition 2 with update 1 of 2025-01-02, 1:10000, for harbour use
	// DEPARE from 2.5 m at [10 50] degrees
}
