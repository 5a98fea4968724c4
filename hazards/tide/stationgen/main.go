// Stationgen makes the built-in list of tide stations (hazards/tide/stationdata/stations.bin) from
// the tide database that testdata/npm/tide-stations installs:
//
//	npm ci --prefix testdata/npm/tide-stations
//	node testdata/npm/tide-stations/dump.mjs | go run ./hazards/tide/stationgen -out hazards/tide/stationdata/stations.bin
//
// It keeps stations of kind tide whose licence is exactly public domain or CC BY 4.0, that have
// constituents or a kept reference, a datum, and a height of mean sea level above it; prints what
// it left out and why; and fails if heights from the list are more than 2 mm from those of the
// constants as they were.
package main

import (
	"flag"
	"fmt"
	"os"
)

func main() {
	out := flag.String("out", "", "file to write")
	flag.Parse()
	if err := run(*out); err != nil {
		fmt.Fprintln(os.Stderr, "stationgen:", err)
		os.Exit(1)
	}
}

func run(out string) error {
	if out == "" {
		return fmt.Errorf("-out: wanted the file to write")
	}
	all, err := readDump(os.Stdin)
	if err != nil {
		return fmt.Errorf("standard input: %w", err)
	}
	kept, left := choose(all)
	for i := range kept {
		left.notes = append(left.notes, kept[i].tidy()...)
	}
	data := encode(kept)
	if err := verify(data, kept, os.Stdout); err != nil {
		return err
	}
	left.print(os.Stdout, len(all), len(kept))
	fmt.Printf("%d stations, %d bytes\n", len(kept), len(data))
	return os.WriteFile(out, data, 0o644)
}
