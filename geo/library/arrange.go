package library

import (
	"cmp"
	"slices"
)

// Candidate is a file of a cell of which there may be several.
type Candidate struct {
	CellFile
	Proved bool // its bytes are as a catalogue states
}

// Arrangement is the files of a cell in the order in which they are applied, by their
// places in what was given.
type Arrangement struct {
	Base    int // -1 none
	Updates []int
	Left    []Left
}

// Left is a file that is left out in favour of another.
type Left struct {
	File, Kept int
	Why        Reason
}

// Reason is why one of two files is left out.
type Reason uint8

// The reasons. A copy with the same bytes is left out without one.
const (
	SameCopy    Reason = iota // nothing is lost
	DamagedCopy               // a catalogue proves the other
	UnclearCopy               // their bytes differ: one is damaged, and it is not known which
	OlderBase                 // the other is a later base
)

// Arrange finds the base among the files of a cell, and puts the updates in their
// order, those that cancel it among them. Of two bases the later stays, of copies the
// one that a catalogue proves, else the first.
func Arrange(files []Candidate) Arrangement {
	a := Arrangement{Base: -1}
	for i, f := range files {
		switch {
		case f.Role != Base:
			a.Updates = append(a.Updates, i)
		case a.Base < 0:
			a.Base = i
		case f.better(files[a.Base]):
			a.leave(files, a.Base, i)
			a.Base = i
		default:
			a.leave(files, i, a.Base)
		}
	}
	slices.SortStableFunc(a.Updates, func(i, k int) int {
		f, g := files[i], files[k]
		return cmp.Or(cmp.Compare(f.Update, g.Update), cmp.Compare(Number(f.Edition), Number(g.Edition)), provedFirst(f, g))
	})
	a.Updates = a.once(files, a.Updates)
	return a
}

// once leaves out second copies of updates that are in order.
func (a *Arrangement) once(files []Candidate, updates []int) (kept []int) {
	for _, i := range updates {
		if n := len(kept); n > 0 && files[kept[n-1]].State() == files[i].State() {
			a.leave(files, i, kept[n-1])
			continue
		}
		kept = append(kept, i)
	}
	return kept
}

// better says whether a base is later than another, or a proved copy of it.
func (f Candidate) better(than Candidate) bool {
	return cmp.Or(f.State().Compare(than.State()), provedFirst(than, f)) > 0
}

func provedFirst(a, b Candidate) int {
	switch {
	case a.Proved == b.Proved:
		return 0
	case a.Proved:
		return -1
	}
	return 1
}

func (a *Arrangement) leave(files []Candidate, left, kept int) {
	why := UnclearCopy
	switch l, k := files[left], files[kept]; {
	case l.State() != k.State():
		why = OlderBase
	case sameBytes(l.Data, k.Data):
		why = SameCopy
	case k.Proved:
		why = DamagedCopy
	}
	a.Left = append(a.Left, Left{left, kept, why})
}
