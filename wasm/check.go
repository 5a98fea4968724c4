//go:build !js

package main

import (
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
	f := flags("check", diag)
	var charts paths
	f.Var(&charts, "chart", "a GeoJSON layer, or a folder of them, read as one chart; may be given several times")
	if err := f.Parse(args); err != nil {
		return err
	}
	if f.NArg() != 1 {
		return fmt.Errorf("one plan file is wanted, %d given", f.NArg())
	}
	report, err := check(charts, f.Arg(0), diag)
	if err != nil {
		return err
	}
	_, err = out.Write(report)
	return err
}

func check(charts []string, planPath string, diag io.Writer) ([]byte, error) {
	b, err := os.ReadFile(planPath)
	if err != nil {
		return nil, err
	}
	p, err := plan.Decode(b)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", planPath, err)
	}
	c, err := loadChart(charts, diag)
	if err != nil {
		return nil, err
	}
	report, err := hazards.Check(c, p)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", planPath, err)
	}
	return report.Encode(p.Zone), nil
}

// loadChart reads each path as one layer set.
func loadChart(from []string, diag io.Writer) (*chart.Chart, error) {
	var sets []*chart.Set
	for _, path := range from {
		files, err := layerFiles(path)
		if err != nil {
			return nil, err
		}
		set, messages := layer.Decode(files)
		for _, m := range messages {
			fmt.Fprintf(diag, "%s: %s\n", m.Level, m)
		}
		if set == nil {
			return nil, fmt.Errorf("%s could not be read as a chart: see the messages above", path)
		}
		sets = append(sets, set)
	}
	return chart.New(sets...), nil
}

// layerFiles reads a file, or a folder's GeoJSON files in byte order.
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
	files := make([]layer.File, len(names))
	for i, name := range names {
		b, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		files[i] = layer.File{Name: filepath.Base(name), Data: b}
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
		if ext := filepath.Ext(e.Name()); !e.IsDir() && (ext == ".geojson" || ext == ".json") {
			names = append(names, filepath.Join(folder, e.Name()))
		}
	}
	if len(names) == 0 {
		return nil, fmt.Errorf("%s holds no .geojson or .json file", folder)
	}
	slices.Sort(names)
	return names, nil
}
