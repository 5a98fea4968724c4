//go:build !js

package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"keelroom/geo/chart"
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
	f.Var(&charts, "chart", "a GeoJSON layer, or a folder of them, read as one chart; may be given several times")
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

// readSets reads each path as one layer set. With an error, the sets are those
// that could be read.
func readSets(from []string) (sets []*chart.Set, err error) {
	var failed []error
	for _, path := range from {
		set, err := readSet(path)
		if err != nil {
			failed = append(failed, err)
			continue
		}
		sets = append(sets, set)
	}
	return sets, errors.Join(failed...)
}

func readSet(path string) (*chart.Set, error) {
	files, err := layerFiles(path)
	if err != nil {
		return nil, err
	}
	set, messages := layer.Decode(files)
	if set != nil {
		return set, nil
	}
	var lines []string
	for _, m := range messages {
		if m.Level == chart.FileError {
			lines = append(lines, m.String())
		}
	}
	if len(lines) == 0 {
		lines = []string{"it could not be read as a chart"}
	}
	return nil, named(path, errors.New(strings.Join(lines, "\n")))
}

// tell writes what was wrong or doubtful in sets that were read all the same.
func tell(diag io.Writer, sets []*chart.Set) {
	for _, s := range sets {
		for _, m := range s.Messages {
			fmt.Fprintf(diag, "%s: %s\n", m.Level, m)
		}
	}
}

// layerFiles reads a file, or a folder's GeoJSON files in byte order. Reading
// stops at the limit of a set, which the decoder reports.
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
	for left := layer.MaxBytes; len(names) > 0 && left >= 0; names = names[1:] {
		b, err := readUpTo(names[0], left)
		if err != nil {
			return nil, err
		}
		left -= len(b)
		files = append(files, layer.File{Name: filepath.Base(names[0]), Data: b})
	}
	return files, nil
}

func layerNames(folder string) ([]string, error) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil, err
	}
	var names []string
	for _, e := range entries {
		if ext := strings.ToLower(filepath.Ext(e.Name())); !e.IsDir() && (ext == ".geojson" || ext == ".json") {
			names = append(names, filepath.Join(folder, e.Name()))
		}
	}
	if len(names) == 0 {
		return nil, fmt.Errorf("%s holds no .geojson or .json file", folder)
	}
	slices.Sort(names)
	return names, nil
}
