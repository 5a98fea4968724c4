//go:build !js

package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"keelroom/geo/chart"
	"keelroom/geo/enc"
	"keelroom/geo/layer"
	"keelroom/geo/library"
)

// readSets reads each path as one chart, or one a cell. With an error, the sets are
// those that could be read.
func readSets(from []string) (sets []*chart.Set, err error) {
	var failed []error
	var charts []enc.Loaded
	for _, path := range from {
		some, err := readCharts(path)
		if err != nil {
			failed = append(failed, err)
		}
		charts = append(charts, some...)
	}
	for i, c := range charts {
		for _, other := range charts[:i] {
			if c.Cell != nil && other.Cell != nil && c.Cell.Name == other.Cell.Name {
				c.Set.Messages = append(c.Set.Messages, chart.Message{Level: chart.Warning, Code: "W-CELL", File: c.Cell.File,
					Found: fmt.Sprintf("the cell twice, as of %s.%s and %s.%s: the checks go by both", other.Cell.Edition, other.Cell.Update, c.Cell.Edition, c.Cell.Update), Wanted: "each cell once"})
			}
		}
		sets = append(sets, c.Set)
	}
	return sets, errors.Join(failed...)
}

// readCharts reads what one path holds. What is refused of it refuses all of it, so
// that nobody takes a part for the whole.
func readCharts(path string) (charts []enc.Loaded, err error) {
	files, notes, err := layerFiles(path)
	if err != nil {
		return nil, err
	}
	charts, messages, _ := enc.ReadCharts(files, nil)
	var lines []string
	for _, m := range layer.Counted(messages) {
		if m.Level == chart.FileError {
			lines = append(lines, m.String())
		}
	}
	if len(lines) == 0 && len(charts) == 0 {
		lines = []string{"it could not be read as a chart"}
	}
	if len(lines) > 0 {
		return nil, named(path, errors.New(strings.Join(lines, "\n")))
	}
	first := charts[0].Set
	first.Messages = slices.Concat(notes, messages, first.Messages)
	return charts, nil
}

// layerFiles reads a file, or the files of a folder that may be charts in byte
// order: GeoJSON, cells with their updates, zips of them; with the catalogue of an
// exchange set, there or in the folder ENC_ROOT below, also the cells in the folders
// below. Reading stops at the limit of what is read at once, which the decoders
// report. The notes tell of cells that were passed by.
func layerFiles(path string) (files []layer.File, notes []chart.Message, err error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, nil, err
	}
	names := []string{path}
	if info.IsDir() {
		if names, notes, err = layerNames(path); err != nil {
			return nil, nil, err
		}
	}
	for left := enc.MaxBytes; len(names) > 0 && left >= 0; names = names[1:] {
		b, err := readPlain(names[0], left)
		if err != nil {
			return nil, nil, err
		}
		left -= len(b)
		name := filepath.Base(names[0])
		if within, err := filepath.Rel(path, names[0]); err == nil && info.IsDir() {
			name = filepath.ToSlash(within)
		}
		files = append(files, layer.File{Name: name, Data: b})
	}
	return files, notes, nil
}

func layerNames(folder string) (names []string, notes []chart.Message, err error) {
	if hasCatalogue(folder) || hasCatalogue(filepath.Join(folder, "ENC_ROOT")) {
		names, notes, err = exchangeNames(folder)
	} else {
		names, notes, err = flatNames(folder)
	}
	switch {
	case err != nil:
		return nil, nil, err
	case len(names) == 0 && len(notes) > 0:
		return nil, nil, fmt.Errorf("%s holds no chart; cells are in %s, which is looked into with CATALOG.031 only: give that folder", folder, notes[0].File)
	case len(names) == 0:
		return nil, nil, fmt.Errorf("%s holds no .geojson or .json file and no cell such as US5XX11M.000", folder)
	}
	slices.Sort(names)
	return names, notes, nil
}

func hasCatalogue(folder string) bool {
	entries, _ := os.ReadDir(folder) // a folder that is not there has none
	return slices.ContainsFunc(entries, func(e fs.DirEntry) bool { return !e.IsDir() && library.NamesCatalogue(e.Name()) })
}

// flatNames are the charts of a folder itself; the notes tell of folders in it that
// hold cells.
func flatNames(folder string) (names []string, notes []chart.Message, err error) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil, nil, err
	}
	for _, e := range entries {
		path := filepath.Join(folder, e.Name())
		info, err := os.Stat(path) // of what a link leads to
		switch {
		case err == nil && info.IsDir():
			if cells := cellsBelow(path); cells > 0 {
				notes = append(notes, chart.Message{Level: chart.Warning, Code: "W-FOLDER", File: e.Name(), Found: fmt.Sprintf("a folder with %d files of cells that are not read", cells),
					Wanted: "the catalogue " + library.CatalogueName + " beside it, or that folder as a chart of its own"})
			}
		case library.NamesLayer(e.Name()) || isCell(path):
			names = append(names, path)
		}
	}
	return names, notes, nil
}

// isCell tells a file of a cell by its name, or where that is not as it should be,
// such as "US5XX11M (1).000", by how it begins.
func isCell(path string) bool {
	if library.NamesCell(path) {
		return true
	}
	if extension := filepath.Ext(path); len(extension) != 4 || strings.Trim(extension[1:], "0123456789") != "" {
		return false
	}
	info, err := os.Stat(path)
	if err != nil || !info.Mode().IsRegular() {
		return err == nil && !info.IsDir() // a pipe or a device is refused by name when it is read
	}
	const head = 512
	b, err := readUpTo(path, head)
	return err == nil && enc.Holds(b)
}

// cellsBelow counts the files of cells in a folder and those below it, as far as
// files are looked at.
func cellsBelow(folder string) (n int) {
	if to, err := filepath.EvalSymlinks(folder); err == nil {
		folder = to
	}
	looked := 0
	_ = filepath.WalkDir(folder, func(path string, e fs.DirEntry, err error) error { // what cannot be read has no cells to tell of
		switch looked++; {
		case looked > enc.MaxFiles:
			return fs.SkipAll
		case err == nil && !e.IsDir() && library.NamesCell(path):
			n++
		}
		return nil
	})
	return n
}

// exchangeNames are the files of an exchange set: its catalogue, and cells in any
// folder below it. The notes tell of data sets of other products.
func exchangeNames(folder string) (names []string, notes []chart.Message, err error) {
	err = filepath.WalkDir(folder, func(path string, e fs.DirEntry, err error) error {
		switch {
		case err != nil || e.IsDir():
		case isCell(path) || filepath.Dir(path) == folder && library.NamesLayer(path):
			names = append(names, path)
		case library.NamesOtherProduct(path):
			notes = append(notes, enc.PassedOver(e.Name(), ""))
		}
		if len(names)+len(notes) > enc.MaxFiles {
			return fmt.Errorf("%s holds more than %d files; fewer are wanted", folder, enc.MaxFiles)
		}
		return err
	})
	return names, notes, err
}
