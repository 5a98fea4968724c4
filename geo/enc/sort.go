package enc

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
)

// Sorted is a file of a cell by what it says of itself, whatever it was called.
type Sorted struct {
	File    layer.File // called after the cell and its number, such as US5XX11M.001
	Cell    string
	Edition string
	Update  int // 0 for a base without updates in it
	Base    bool
	Cancels bool // it cancels the cell
	Scale   int  // denominator of the compilation scale that a base states, 0 unknown
	Paper   bool // it is a text that came with the cell, in UTF-8, and none of its files
}

// mostPaper is the most bytes of a text that is taken with a cell; longer ones are
// left out.
const mostPaper = 1 << 18

// Sort looks into files without reading the cells: it unpacks archives, leaves out
// what is not as a catalogue among the files states, and tells the rest apart. They
// come in the order of their cells, the base first, then the updates, then texts from
// their folders and those above. Of two bases
// of a cell the older is left out, of a file that is there twice the second. The
// messages say why files were left out and what is missing; those about one file
// name it. The error is that of Between, nothing else.
func (d *Decoder) Sort(files []layer.File) ([]Sorted, []chart.Message, error) {
	j := d.job()
	sorted, err := j.sorted(files)
	if err != nil {
		return nil, nil, err
	}
	return sorted, j.result.Messages, nil
}

func (j *job) sorted(files []layer.File) (sorted []Sorted, err error) {
	j.papers = true
	if err := j.openAll(files); err != nil {
		return nil, err
	}
	names, groups := j.grouped()
	for _, name := range names {
		if err := j.between(); err != nil {
			return nil, err
		}
		base, updates := j.sort(groups[name])
		if base != nil {
			sorted = append(sorted, base.sorted(name))
		}
		var last *file
		for _, f := range updates {
			if last == nil || !bytes.Equal(f.data, last.data) {
				sorted = append(sorted, f.sorted(name))
			}
			last = f
		}
		sorted = append(sorted, papersOf(name, groups[name], j.texts)...)
	}
	return sorted, nil
}

// papersOf are the texts that came with the files of a cell.
func papersOf(cell string, files []*file, texts []layer.File) (papers []Sorted) {
	for _, t := range texts {
		if len(t.Data) > mostPaper || bytes.IndexByte(t.Data, 0) >= 0 ||
			!slices.ContainsFunc(files, func(f *file) bool { return holds(folderOf(t.Name), folderOf(f.path)) }) {
			continue
		}
		text := t.Data
		if !utf8.Valid(text) {
			text = []byte(latin(string(text)))
		}
		papers = append(papers, Sorted{File: layer.File{Name: baseName(t.Name), Data: text}, Cell: cell, Paper: true})
	}
	return papers
}

// holds tells whether a folder is another or lies above it.
func holds(folder, other string) bool {
	return folder == "." || folder == other || strings.HasPrefix(other, folder+"/")
}

func (f *file) sorted(cell string) Sorted {
	s := Sorted{Cell: cell, Edition: f.identity.edition, Update: f.update, Base: f.identity.profile == 1, Cancels: f.cancels()}
	number := f.update
	if s.Base {
		number, s.Scale = 0, f.scale()
	}
	s.File = layer.File{Name: fmt.Sprintf("%s.%03d", cell, number), Data: f.data}
	return s
}

// scale is that of the record after the identification; what is wrong with it is
// told when the cell is read.
func (f *file) scale() int {
	if ok, err := f.next(); !ok || err != nil || f.main() != "DSPM" {
		return 0
	}
	p, err := f.parameters()
	if err != nil {
		return 0
	}
	return p.scale
}
