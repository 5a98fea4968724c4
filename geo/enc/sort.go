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

// CancelFolder stands before the name of an update that cancels a cell: it may have
// the number of another.
const CancelFolder = "cancelled/"

// mostPaper is the most bytes of a text that is taken with a cell; longer ones are
// left out.
const mostPaper = 1 << 18

// mostPapers bounds all texts: one from a folder above many cells comes with each.
const mostPapers = 1 << 24

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
		for _, f := range updates {
			sorted = append(sorted, f.sorted(name))
		}
		sorted = append(sorted, j.papersOf(name, groups[name])...)
	}
	if j.left > 0 {
		j.say(chart.Message{Level: chart.Warning, Code: "W-TEXT", Found: fmt.Sprintf("texts that came with the cells, %d of them left out", j.left),
			Wanted: fmt.Sprintf("%d bytes or fewer, counted once for each cell that they came with", mostPapers)})
	}
	return sorted, nil
}

// papersOf are the texts that came with the files of a cell, as far as there is room.
func (j *job) papersOf(cell string, files []*file) (papers []Sorted) {
	for _, t := range j.texts {
		if len(t.Data) > mostPaper || bytes.IndexByte(t.Data, 0) >= 0 ||
			!slices.ContainsFunc(files, func(f *file) bool { return holds(folderOf(t.Name), folderOf(f.path)) }) {
			continue
		}
		const each = 1 << 10 // what a file costs beside its bytes
		if j.paperBytes += len(t.Data) + each; j.paperBytes > mostPapers {
			j.left++
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
	number, folder := f.update, ""
	if s.Base {
		number, s.Scale = 0, f.scale()
	}
	if s.Cancels {
		folder = CancelFolder
	}
	s.File = layer.File{Name: fmt.Sprintf("%s%s.%03d", folder, cell, number), Data: f.data}
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
