package library

import (
	"fmt"
	"slices"
	"strings"

	"keelroom/geo/chart"
)

// Open is the state of a cell that was read, and of the base that it was read from.
type Open struct{ Is, Base State }

// OpenAs is the state of a cell by what it says of itself, with so many files of
// updates applied.
func OpenAs(edition, update string, applied int) *Open {
	is := State{Number(edition), Number(update)}
	return &Open{is, State{is.Edition, is.Update - applied}}
}

// Change is what a cell comes to when files join it. It takes effect once the files can
// be read.
type Change struct {
	Holding
	From  *Given
	Base  *CellFile // that is new in it, nil none
	Any   bool      // it differs from what was stored
	Notes []Note    // what was left out, and why
}

// Note is something that was left out, for whoever opened it.
type Note struct {
	Kind    NoteKind
	File    string
	Edition string // of what was left out, as it is written
	Open    int    // the edition that is open, or will be
	Found   string // what was wrong with it, where a message says so
}

// NoteKind is why something was left out.
type NoteKind uint8

// The kinds of notes.
const (
	OlderEdition NoteKind = iota // a base: a later edition is open
	OtherCopy                    // it is there with other bytes
	OlderUpdate                  // an update: a later edition is open
	ListedBase                   // a catalogue lists a base that did not come
	DamagedTwin                  // a copy was refused, and the whole one stays
)

// Join works out what a cell comes to. is is its state, nil where it was not read: then
// what is stored takes no part, as it is among what was given. What is in use stays: only
// what is later, or was not applied, comes in its place.
func Join(h Holding, is *Open, g *Given) *Change {
	j := &merge{Change: &Change{From: g}, cell: State{-1, -1}, base: State{-1, -1}}
	if !g.Complete {
		j.LeftOut = slices.Clone(h.LeftOut)
	}
	if is != nil {
		j.Files, j.cell, j.base = slices.Clone(h.Files), is.Is, is.Base
	}
	if base := g.Base(); base != nil {
		j.takeBase(base)
	}
	for _, f := range g.Files {
		if f.Role != Base {
			j.takeUpdate(f)
		}
	}
	j.reach()
	another := is != nil && j.cell.Edition != is.Is.Edition
	j.settle(another)
	return j.Change
}

// merge is a change that is being worked out, and the states that the cell and its
// base come to with it.
type merge struct {
	*Change
	cell, base State
}

// takeBase puts a base in, or notes why not. The updates that are not in it stay.
func (j *merge) takeBase(base *CellFile) {
	switch s := base.State(); {
	case s.Edition < j.cell.Edition:
		j.note(OlderEdition, *base)
		return
	case s.Edition == j.cell.Edition && s.Update <= j.base.Update:
		if s.Update == j.base.Update && !j.hasSame(*base) {
			j.note(OtherCopy, *base)
		}
		return
	}
	j.replaceBase(base)
	j.Base, j.Any = base, true
	if s := base.State(); s.Edition != j.cell.Edition {
		j.cell = State{s.Edition, -1}
	}
	j.base = base.State()
}

// replaceBase puts a later base in place of the files that it makes out of date, and
// the updates that waited for it beside it.
func (j *merge) replaceBase(base *CellFile) {
	edition := Number(base.Edition)
	var files []File
	for _, f := range j.Files {
		if !j.outdated(f.Name, base.State()) {
			files = append(files, f)
		}
	}
	waited := j.Files
	j.Files = slices.Insert(files, 0, File{base.Name, base.Data})
	for _, f := range waited {
		name := BaseName(f.Name)
		if Waits(f.Name) && editionOf(f.Name) == edition && NumberOf(name) > base.Update && !j.has(name) {
			j.Files = append(j.Files, File{name, f.Data})
		}
	}
}

// outdated says whether a stored file is out of date once a base is there. A
// cancellation is not: whether the base was issued after it is found when it is read.
func (j *merge) outdated(name string, base State) bool {
	switch {
	case cancels(name):
		return false
	case Waits(name):
		return editionOf(name) <= base.Edition
	case base.Edition > j.cell.Edition:
		return true
	}
	return !NamesText(name) && NumberOf(name) <= base.Update
}

// takeUpdate puts in what is no base. An update of a later edition waits for its base;
// a copy of one that is in use, or was not tried yet, is left out.
func (j *merge) takeUpdate(f CellFile) {
	switch s := f.State(); {
	case f.Role == Text, f.Role == Cancellation:
		j.put(f)
	case s.Edition > j.cell.Edition:
		waiting := f
		waiting.Name = waitingName(f)
		j.put(waiting)
		j.keep(laterUpdate(f))
	case s.Edition < j.cell.Edition:
		j.note(OlderUpdate, f)
	case s.Update <= j.base.Update: // it is in the base
	case j.has(f.Name) && s.Update != j.cell.Update+1:
		if !j.hasSame(f) {
			j.note(OtherCopy, f)
		}
	default:
		j.put(f)
	}
}

// laterUpdate is the message that stays with a cell of which a later edition is known.
func laterUpdate(f CellFile) Message {
	return Message{chart.Message{Level: chart.Warning, Code: "W-UPDATE", File: f.Name, Found: "an update of edition " + f.Edition + ": this edition is out of date",
		Wanted: f.Cell + ".000 of edition " + f.Edition}, f.Edition, f.Update}
}

func (j *merge) note(kind NoteKind, f CellFile) {
	j.Notes = append(j.Notes, Note{Kind: kind, File: f.Name, Edition: f.Edition, Open: j.cell.Edition})
}

func (j *merge) index(name string) int {
	return slices.IndexFunc(j.Files, func(f File) bool { return strings.EqualFold(f.Name, name) })
}

func (j *merge) has(name string) bool { return j.index(name) >= 0 }

func (j *merge) hasSame(f CellFile) bool {
	i := j.index(f.Name)
	return i >= 0 && sameBytes(j.Files[i].Data, f.Data)
}

// put puts a file in, in place of one of the same name.
func (j *merge) put(f CellFile) {
	if j.hasSame(f) {
		return
	}
	j.Files = slices.DeleteFunc(j.Files, func(o File) bool { return strings.EqualFold(o.Name, f.Name) })
	j.Files, j.Any = append(j.Files, File{f.Name, f.Data}), true
}

// keep keeps a message with the cell, once.
func (j *merge) keep(m Message) {
	if !slices.Contains(j.LeftOut, m) {
		j.LeftOut, j.Any = append(j.LeftOut, m), true
	}
}

// reach works out what state the cell comes to if all of its files fit.
func (j *merge) reach() {
	j.cell.Update = max(j.cell.Update, j.base.Update)
	for j.has(fmt.Sprintf("%s.%03d", j.From.Cell, j.cell.Update+1)) {
		j.cell.Update++
	}
}
