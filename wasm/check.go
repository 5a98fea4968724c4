//go:build !js

package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"keelroom/geo/chart"
	"keelroom/geo/enc"
	"keelroom/geo/layer"
	"keelroom/hazards"
	"keelroom/hazards/plan"
)

// paths collects a flag given several times.
type paths []string

func (p *paths) String() string     { return strings.Join(*p, " ") }
func (p *paths) Set(s string) error { *p = append(*p, s); return nil }

// runCheck checks a plan against charts and writes the report.
func runCheck(args []string, out, diag io.Writer) error {
	f := flags("check")
	var charts paths
	f.Var(&charts, "chart", "a GeoJSON layer, an S-57 cell, a zip of cells, or a folder of any of them; the layers of a folder are one chart, and each cell is one; may be given several times")
	if err := f.Parse(args); err != nil {
		return err
	}
	switch {
	case f.NArg() != 1:
		return fmt.Errorf("%d plan files after the flags; one is wanted", f.NArg())
	case len(charts) == 0:
		return fmt.Errorf("no chart; at least one -chart PATH is wanted")
	}
	report, err := check(charts, f.Arg(0), diag)
	if err != nil {
		return err
	}
	_, err = out.Write(report)
	return err
}

// check reads all there is before it gives up, so that every error is told.
func check(charts []string, planPath string, diag io.Writer) ([]byte, error) {
	p, planErr := readPlan(planPath)
	sets, chartErr := readSets(charts)
	var indexed *chart.Chart
	if chartErr == nil {
		layer.AddSwapHints(sets)
		indexed = chart.New(sets...)
		if bounds, ok := indexed.Bounds(); ok && p != nil {
			hazards.AddRouteHints(bounds, sets, p, filepath.Base(planPath))
		}
	}
	tell(diag, sets)
	if err := errors.Join(planErr, chartErr); err != nil {
		return nil, err
	}
	report, err := hazards.Check(indexed, p)
	if err != nil {
		return nil, named(planPath, err)
	}
	return report.Encode(p.Zone), nil
}

func readPlan(path string) (*plan.Plan, error) {
	b, err := readUpTo(path, plan.MaxBytes)
	if err != nil {
		return nil, err
	}
	p, err := plan.Decode(b)
	if err != nil {
		return nil, named(path, err)
	}
	return p, nil
}

// readSets reads each path as one chart, or one a cell. With an error, the sets are
// those that could be read.
func readSets(from []string) (sets []*chart.Set, err error) {
	var failed []error
	for _, path := range from {
		some, err := readSet(path)
		if err != nil {
			failed = append(failed, err)
			continue
		}
		sets = append(sets, some...)
	}
	return sets, errors.Join(failed...)
}

// readSet reads what one path holds. What is refused of it refuses all of it, so
// that nobody takes a part for the whole.
func readSet(path string) (sets []*chart.Set, err error) {
	files, err := layerFiles(path)
	if err != nil {
		return nil, err
	}
	charts, messages, _ := enc.ReadCharts(files, nil)
	var lines []string
	for _, m := range messages {
		if m.Level == chart.FileError {
			lines = append(lines, m.String())
		}
	}
	for _, c := range charts {
		sets = append(sets, c.Set)
	}
	if len(lines) == 0 && len(sets) == 0 {
		lines = []string{"it could not be read as a chart"}
	}
	if len(lines) > 0 {
		return nil, named(path, errors.New(strings.Join(lines, "\n")))
	}
	sets[0].Messages = append(messages, sets[0].Messages...)
	return sets, nil
}

// tell writes what was wrong or doubtful in sets that were read all the same.
func tell(diag io.Writer, sets []*chart.Set) {
	for _, s := range sets {
		for _, m := range s.Messages {
			fmt.Fprintf(diag, "%s: %s\n", m.Level, m)
		}
	}
}

// layerFiles reads a file, or the files of a folder that may be charts in byte
// order: GeoJSON, cells with their updates, zips of them; with the catalogue of an
// exchange set also the cells in the folders below. Reading stops at the limit of
// what is read at once, which the decoders report.
func layerFiles(path string) ([]layer.File, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	names := []string{path}
	if info.IsDir() {
		if names, err = layerNames(path); err != nil {
			return nil, err
		}
	}
	var files []layer.File
	for left := enc.MaxBytes; len(names) > 0 && left >= 0; names = names[1:] {
		b, err := readUpTo(names[0], left)
		if err != nil {
			return nil, err
		}
		left -= len(b)
		name := filepath.Base(names[0])
		if within, err := filepath.Rel(path, names[0]); err == nil && info.IsDir() {
			name = filepath.ToSlash(within)
		}
		files = append(files, layer.File{Name: name, Data: b})
	}
	return files, nil
}

func layerNames(folder string) ([]string, error) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil, err
	}
	var names []string
	exchange := false
	for _, e := range entries {
		switch {
		case e.IsDir():
		case strings.EqualFold(e.Name(), enc.CatalogueName):
			exchange = true
		case enc.NamesLayer(e.Name()) || enc.NamesCell(e.Name()):
			names = append(names, filepath.Join(folder, e.Name()))
		}
	}
	if exchange {
		if names, err = exchangeNames(folder); err != nil {
			return nil, err
		}
	}
	if len(names) == 0 {
		return nil, fmt.Errorf("%s holds no .geojson or .json file and no cell such as US5XX11M.000", folder)
	}
	slices.Sort(names)
	return names, nil
}

// exchangeNames are the files of an exchange set: its catalogue, and cells in any
// folder below it.
func exchangeNames(folder string) (names []string, err error) {
	err = filepath.WalkDir(folder, func(path string, e fs.DirEntry, err error) error {
		if err == nil && !e.IsDir() && (enc.NamesCell(path) || filepath.Dir(path) == folder && enc.NamesLayer(path)) {
			names = append(names, path)
		}
		if len(names) > enc.MaxFiles {
			return fmt.Errorf("%s holds more than %d files; fewer are wanted", folder, enc.MaxFiles)
		}
		return err
	})
	return names, err
}
