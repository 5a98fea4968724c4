package enc

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/geo/library"
)

// The limits of what is read at once.
const (
	// MaxBytes is the most that all files together may have, unpacked.
	MaxBytes = 256 << 20
	// MaxFiles is the most files that are looked at, those in archives included.
	MaxFiles = 20_000
)

// Decoder reads cells. Its zero value is ready.
type Decoder struct {
	// Between, if it is set, is called from time to time, so that a program can
	// do something else meanwhile. An error of it ends the decoding, which
	// returns it.
	Between func() error
	// Unpacked, if it is set, is called with how many bytes have come out of archives.
	Unpacked func(bytes int)
}

// Result is what the files of one decoding hold.
type Result struct {
	// Cells are in the order of their names. A cell that was refused has no Set.
	Cells []Cell
	// Messages are those of all cells and of what belongs to none.
	Messages []chart.Message
	// Apart are those of Messages that are in no set.
	Apart []chart.Message
}

// Decode reads any mix of cells, updates, catalogues and zips of them, and
// gives one set for each cell that could be read, in the order of their names.
// The sets are not indexed: give them to package chart. It never panics on what
// a file holds.
func Decode(files []layer.File) ([]*chart.Set, []chart.Message) {
	var d Decoder
	r, _ := d.Decode(files)
	return r.Sets(), r.Messages
}

// Sets are the sets of the cells that have one.
func (r *Result) Sets() (sets []*chart.Set) {
	for i := range r.Cells {
		if s := r.Cells[i].Set; s != nil {
			sets = append(sets, s)
		}
	}
	return sets
}

// Decode is the function of the same name, with a description of each cell. The
// error is that of Between, nothing else.
func (d *Decoder) Decode(files []layer.File) (Result, error) {
	j := d.job()
	if err := j.run(files); err != nil {
		return Result{}, err
	}
	slices.SortStableFunc(j.result.Cells, func(a, b Cell) int { return strings.Compare(a.Name, b.Name) })
	return j.result, nil
}

// job is one decoding.
type job struct {
	between  func() error
	progress func(unpacked int)
	result   Result
	room     int // bytes that may still be unpacked
	unpacked int // bytes that were
	files    []*file
	others   []chart.Message // files of other products
	apart    bool            // the files are only sorted; texts are wanted beside the cells
	texts    []layer.File

	textBytes, left int // of texts: bytes given out, and how many did not fit
}

func (d *Decoder) job() *job {
	j := &job{between: d.Between, progress: d.Unpacked, room: MaxBytes}
	if j.between == nil {
		j.between = func() error { return nil }
	}
	return j
}

func (j *job) run(files []layer.File) error {
	if err := j.openAll(files); err != nil {
		return err
	}
	return j.cells()
}

// openAll unpacks files, compares them with the catalogues among them, and reads
// what each says of itself.
func (j *job) openAll(files []layer.File) error {
	all, err := j.unpack(files)
	if err != nil {
		return err
	}
	all, err = j.checkCatalogues(all)
	if err != nil {
		return err
	}
	for _, f := range all {
		j.open(f)
	}
	j.sayOthers()
	if len(j.files) == 0 && len(j.result.Messages) == 0 {
		j.say(chart.Message{Level: chart.FileError, Code: "E-CELL", Found: "no cell", Wanted: "a file such as US5XX11M.000, its updates, or a zip of them"})
	}
	return nil
}

// say keeps a message that belongs to no set.
func (j *job) say(m chart.Message) {
	j.result.Messages = append(j.result.Messages, m)
	j.result.Apart = append(j.result.Apart, m)
}

// open reads the identification of a file, or says why it is refused.
func (j *job) open(f given) {
	switch KindOf(f.File) {
	case Other:
		if library.NamesOtherProduct(f.Name) {
			j.passOver(library.BaseName(f.Name), "")
		}
		if library.NamesCellFile(f.Name) {
			j.refuse(library.BaseName(f.Name), &fault{"E-CELL", "", "a text", "a cell or an update, as the file is called"})
		}
		if j.apart && library.NamesText(f.Name) {
			j.texts = append(j.texts, f.File)
		}
		return
	case Catalogue:
		return
	}
	opened, err := open(f.Name, f.Data)
	if why := (*fault)(nil); errors.As(err, &why) && why.code == codeProduct {
		j.others = append(j.others, why.message(chart.FileError, opened.name))
		return
	}
	if err != nil {
		j.refuse(opened.name, err)
		return
	}
	opened.proved = f.proved
	j.files = append(j.files, opened)
}

func (j *job) refuse(name string, err error) { j.say(messageOf(chart.FileError, name, err)) }

func messageOf(level chart.Level, name string, err error) chart.Message {
	var f *fault
	if errors.As(err, &f) {
		return f.message(level, name)
	}
	return chart.Message{Level: level, Code: "E-CELL", File: name, Found: err.Error(), Wanted: "a file that can be read"}
}

// stem is the name of the cell that a file belongs to: that of its DSNM, or of
// the file where that says nothing.
func (f *file) stem() string {
	before := func(name string) string {
		name, _, _ = strings.Cut(library.BaseName(name), ".")
		return strings.ToUpper(name)
	}
	return cmp.Or(before(f.identity.name), before(f.name), "CELL")
}

// grouped are the files by their cell, and the names of the cells in order.
func (j *job) grouped() (names []string, groups map[string][]*file) {
	groups = map[string][]*file{}
	for _, f := range j.files {
		if groups[f.stem()] == nil {
			names = append(names, f.stem())
		}
		groups[f.stem()] = append(groups[f.stem()], f)
	}
	j.files = nil
	slices.Sort(names)
	return names, groups
}

// cells reads each cell.
func (j *job) cells() error {
	names, groups := j.grouped()
	for _, name := range names {
		if err := j.cell(name, groups[name]); err != nil {
			return err
		}
		delete(groups, name)
	}
	return nil
}

// cell reads one cell of its base and updates.
func (j *job) cell(name string, files []*file) error {
	base, updates := j.sort(files)
	if base == nil {
		for _, f := range updates {
			j.refuse(f.name, &fault{"E-CELL", "", "an update without its base", f.stem() + ".000 of edition " + f.identity.edition})
		}
		return nil
	}
	b := &build{job: j, cell: Cell{Name: name}, size: len(base.data)}
	if err := b.read(base, updates); err != nil {
		var f *fault
		if !errors.As(err, &f) {
			return err
		}
		j.refuse(base.name, err)
		b.cell.Set = nil
	}
	j.result.Cells = append(j.result.Cells, b.cell)
	return nil
}

// sort finds the base among the files of a cell and puts the updates in their order. It
// says what was left out.
func (j *job) sort(files []*file) (base *file, updates []*file) {
	if !j.apart { // files that are only sorted are in the order of preference
		slices.SortStableFunc(files, func(a, b *file) int { return strings.Compare(a.path, b.path) })
	}
	candidates := make([]library.Candidate, len(files))
	for i, f := range files {
		candidates[i] = library.Candidate{CellFile: f.cellFile(), Proved: f.proved}
	}
	a := library.Arrange(candidates)
	if a.Base >= 0 {
		base = files[a.Base]
	}
	for _, i := range a.Updates {
		updates = append(updates, files[i])
	}
	for _, l := range a.Left {
		j.leftOut(files[l.File], files[l.Kept], l.Why)
	}
	return base, updates
}

// leftOut says that one of two files was left out, and why.
func (j *job) leftOut(left, kept *file, why library.Reason) {
	switch why {
	case library.DamagedCopy:
		why := &fault{"W-COPY", "", "another copy of the file with other bytes, which is damaged", "one; the copy that the catalogue proves is taken"}
		j.say(why.message(chart.Warning, left.name))
	case library.UnclearCopy:
		j.refuse(left.name, &fault{"E-COPY", "", "another copy of the file with other bytes: one of the two is damaged, and it is not known which", "one copy"})
	case library.OlderBase:
		j.refuse(left.name, &fault{"E-CELL", "record 1 DSID", "a second base of the cell, edition " + left.identity.edition,
			fmt.Sprintf("one; edition %s is read", kept.identity.edition)})
	}
}
