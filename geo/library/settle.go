package library

import "slices"

// The codes of messages that settle treats in a way of their own; see package enc.
const (
	codeListed = "W-CATALOG" // a catalogue lists a file that is not there
	codeCopies = "E-COPY"    // two copies of a file differ
)

// settle takes in what was left out of what came, and drops messages that no longer
// hold. What a catalogue missed, and which of two copies is damaged, is nothing to
// another edition.
func (j *merge) settle(another bool) {
	before := len(j.LeftOut)
	j.LeftOut = slices.DeleteFunc(j.LeftOut, func(m Message) bool {
		return !j.holds(m) || another && (m.Code == codeListed || m.Code == codeCopies)
	})
	j.Any = j.Any || len(j.LeftOut) != before
	for _, m := range j.From.LeftOut {
		switch {
		case j.holds(m):
			j.keep(m)
		case m.Code == codeListed && NumberOf(m.File) == 0 && j.From.Base() == nil:
			j.Notes = append(j.Notes, Note{Kind: ListedBase, File: m.File, Found: m.Found})
		case m.Code != codeListed && m.Edition == "":
			j.Notes = append(j.Notes, Note{Kind: DamagedTwin, File: m.File, Found: m.Found})
		}
	}
}

// holds says whether a message still holds: until the file came whole, or the cell has
// reached the state that it is about. Of a file that could not be read nobody knows what
// edition it was.
func (j *merge) holds(m Message) bool {
	switch n := NumberOf(m.File); {
	case m.Edition != "":
		return m.state().Compare(j.cell) > 0
	case m.Code == codeListed:
		return !j.has(m.File) && !j.has(CancelFolder+m.File) && n > j.cell.Update
	case m.Code == codeCopies:
		return true
	}
	return !j.came(m.File)
}

// came says whether a file that is called so is among what came for the edition that
// the cell comes to, or is in the base that came.
func (j *merge) came(name string) bool {
	n := NumberOf(name)
	return slices.ContainsFunc(j.From.Files, func(f CellFile) bool {
		switch {
		case Number(f.Edition) != j.cell.Edition:
			return false
		case f.Role == Base:
			return n <= f.Update
		}
		return f.Role == Update && f.Update == n
	})
}
