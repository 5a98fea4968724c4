package enc

import (
	"fmt"

	"keelroom/geo/chart"
)

// fault is a rule that a file breaks, with the place in the file.
type fault struct {
	code, place   string
	found, wanted string
}

func (f *fault) Error() string {
	return f.code + " " + f.place + ": " + f.found + "; " + f.wanted
}

// message is the fault of a file as a message.
func (f *fault) message(level chart.Level, file string) chart.Message {
	return chart.Message{Level: level, Code: f.code, File: file, Path: f.place, Found: f.found, Wanted: f.wanted}
}

// broken is the fault of a record that breaks a rule of the container or of
// S-57.
func broken(place, found, wanted string) error {
	return &fault{code: "E-CELL", place: place, found: found, wanted: wanted}
}

// at is the name of a record for messages: its number in the file, from 0 for
// the descriptive record.
func at(record int) string { return fmt.Sprintf("record %d", record) }
