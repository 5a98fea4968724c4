//go:build !js

package cli

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/hazards"
	"keelroom/hazards/passage"
	"keelroom/hazards/plan"
	"keelroom/hazards/words"
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
	var track, soundings outFile
	f.Var(&track, "track", "a file to write the timed track to")
	f.Var(&soundings, "soundings", "a file to write the soundings of the charts to")
	if err := f.Parse(args); err != nil {
		return err
	}
	if err := oneDay(f, charts); err != nil {
		return err
	}
	if err := errors.Join(track.apartFrom(f.Arg(0), charts), soundings.apartFrom(f.Arg(0), charts)); err != nil {
		return err
	}
	c, err := check(charts, f.Arg(0), diag)
	if err != nil {
		return err
	}
	if err := errors.Join(track.writeTrack(c), soundings.writeSoundings(c, diag)); err != nil {
		return err
	}
	_, err = out.Write(c.report)
	return err
}

// oneDay gives the error of arguments that are not one plan and a chart at least.
func oneDay(f *flag.FlagSet, charts paths) error {
	switch {
	case f.NArg() != 1:
		return fmt.Errorf("%d plan files after the flags; one is wanted", f.NArg())
	case len(charts) == 0:
		return fmt.Errorf("no chart; at least one -chart PATH is wanted")
	}
	return nil
}

// checked is a plan that was checked.
type checked struct {
	plan   *plan.Plan
	sets   []*chart.Set
	track  *passage.Track
	report []byte
}

// check reads all there is before it gives up, so that every error is reported.
func check(charts []string, planPath string, diag io.Writer) (*checked, error) {
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
	writeMessages(diag, sets)
	if err := errors.Join(planErr, chartErr); err != nil {
		return nil, err
	}
	s := hazards.NewSession(indexed)
	report, err := s.Check(p)
	if err != nil {
		return nil, named(planPath, err)
	}
	words.English.Fill(report, p.Zone)
	return &checked{p, sets, s.Track(), report.Encode(p.Zone)}, nil
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

// writeMessages writes what was wrong or doubtful in sets that were read all the same:
// messages of one code and cause are counted after the first, over all sets.
func writeMessages(diag io.Writer, sets []*chart.Set) {
	var log layer.Log
	for _, s := range sets {
		for _, m := range s.Messages {
			log.Add(m)
		}
	}
	for _, m := range log.Messages() {
		fmt.Fprintf(diag, "%s: %s\n", m.Level, m)
	}
}
