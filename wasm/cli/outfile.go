//go:build !js

package cli

import (
	"fmt"
	"io"
	"os"
	"path/filepath"

	"keelroom/app/ogc"
)

// outFile is a file that a flag names to write geometries to.
type outFile struct {
	path   string // "" none
	format ogc.Format
}

func (o *outFile) String() string { return o.path }

// Set takes the file's name, which says the format.
func (o *outFile) Set(path string) (err error) {
	o.path = path
	o.format, err = ogc.FormatOf(path)
	return err
}

// apartFrom refuses a file that is read, or lies in the folder of a chart: it would be
// written over, or be part of that chart the next time.
func (o *outFile) apartFrom(planPath string, charts []string) error {
	if o.path == "" {
		return nil
	}
	whole, err := filepath.Abs(o.path)
	if err != nil {
		return err
	}
	for _, input := range append([]string{planPath}, charts...) {
		if holdsFile(input, whole) {
			return fmt.Errorf("%s is, or lies in, %s, which is read; the name of a file elsewhere is wanted", o.path, input)
		}
	}
	return nil
}

// holdsFile reports whether a path is a file, or a folder above it.
func holdsFile(path, file string) bool {
	input, err := os.Stat(path)
	if err != nil { // reading it fails too, and says why
		return false
	}
	for at := file; ; at = filepath.Dir(at) {
		if there, err := os.Stat(at); err == nil && os.SameFile(input, there) {
			return true
		}
		if at == filepath.Dir(at) {
			return false
		}
	}
}

func (o *outFile) writeTrack(c *checked) error {
	if o.path == "" {
		return nil
	}
	b, err := ogc.Track(c.track, c.plan.Title, c.plan.Zone, o.format)
	if err != nil {
		return fmt.Errorf("%s: %w", o.path, err)
	}
	return os.WriteFile(o.path, b, 0o644)
}

func (o *outFile) writeSoundings(c *checked, diag io.Writer) error {
	if o.path == "" {
		return nil
	}
	b, unknown, err := ogc.Soundings(c.sets, o.format)
	if err != nil {
		return fmt.Errorf("%s: %w", o.path, err)
	}
	if unknown > 0 {
		fmt.Fprintf(diag, "warning: %d soundings of unknown depth are not in %s\n", unknown, o.path)
	}
	return os.WriteFile(o.path, b, 0o644)
}
