package enc

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/geo/library"
)

// MaxText is the most bytes of a text that is taken with a cell; longer ones are
// left out.
const MaxText = 1 << 18

// mostTexts bounds all texts: one from a folder above many cells comes with each.
const mostTexts = 1 << 24

// Sort looks into files without reading the cells: it unpacks archives, leaves out
// what is not as a catalogue among the files states, and sorts the rest. They
// come in the order of their cells, the base first, then the updates, then texts from
// their folders and those above. Of two bases
// of a cell the older is left out, of a file that is there twice the second. The
// messages say why files were left out and what is missing; those about one file
// name it. The error is that of Between, nothing else.
func (d *Decoder) Sort(files []layer.File) ([]library.CellFile, []chart.Message, error) {
	j := d.job()
	sorted, err := j.sorted(files)
	if err != nil {
		return nil, nil, err
	}
	return sorted, j.result.Messages, nil
}

func (j *job) sorted(files []layer.File) (sorted []library.CellFile, err error) {
	j.apart = true
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
			f := base.cellFile()
			f.Scale = base.scale()
			sorted = append(sorted, f)
		}
		for _, f := range updates {
			sorted = append(sorted, f.cellFile())
		}
		sorted = append(sorted, j.textsOf(name, groups[name])...)
	}
	if j.left > 0 {
		j.say(chart.Message{Level: chart.Warning, Code: "W-TEXT", Found: fmt.Sprintf("texts that came with the cells, %d of them left out", j.left),
			Wanted: fmt.Sprintf("%d bytes or fewer, counted once for each cell that they came with", mostTexts)})
	}
	return sorted, nil
}

// textsOf are the texts that came with the files of a cell, as far as there is room.
func (j *job) textsOf(cell string, files []*file) (texts []library.CellFile) {
	for _, t := range j.texts {
		if len(t.Data) > MaxText || bytes.IndexByte(t.Data, 0) >= 0 ||
			!slices.ContainsFunc(files, func(f *file) bool { return holds(folderOf(t.Name), folderOf(f.path)) }) {
			continue
		}
		const each = 1 << 10 // what a file costs beside its bytes
		if j.textBytes += len(t.Data) + each; j.textBytes > mostTexts {
			j.left++
			continue
		}
		text := t.Data
		if !utf8.Valid(text) {
			text = []byte(latin(string(text)))
		}
		texts = append(texts, library.CellFile{Name: library.BaseName(t.Name), Cell: cell, Role: library.Text, Data: library.Bytes(text)})
	}
	return texts
}

// holds reports whether a folder is another or lies above it.
func holds(folder, other string) bool {
	return folder == "." || folder == other || strings.HasPrefix(other, folder+"/")
}

// cellFile is the file by what it says of itself, called after its cell and number.
func (f *file) cellFile() library.CellFile {
	c := library.CellFile{Cell: f.stem(), Role: library.RoleOf(f.identity.profile == 1, f.identity.edition), Edition: f.identity.edition, Update: f.update, Data: library.Bytes(f.data)}
	number, folder := f.update, ""
	switch c.Role {
	case library.Base:
		number = 0
	case library.Cancellation:
		folder = library.CancelFolder
	}
	c.Name = fmt.Sprintf("%s%s.%03d", folder, c.Cell, number)
	return c
}

// scale is that of the record after the identification; what is wrong with it is
// reported when the cell is read.
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
