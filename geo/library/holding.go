package library

import (
	"fmt"
	"slices"

	"keelroom/geo/chart"
)

// Holding is what is stored of a cell: its files, those that wait for their base among
// them, and what is known to be refused or missing.
type Holding struct {
	Files   []File
	LeftOut []Message
}

// Given is files of one cell that came together.
type Given struct {
	Cell    string
	Files   []CellFile
	LeftOut []Message // what was refused or is missing beside them
	// Complete says that they are all that there is of the cell, what is stored included:
	// what was left out before is among LeftOut, or no longer holds.
	Complete bool
}

// Base is the base among the files, nil where there is none.
func (g *Given) Base() *CellFile {
	if i := slices.IndexFunc(g.Files, func(f CellFile) bool { return f.Role == Base }); i >= 0 {
		return &g.Files[i]
	}
	return nil
}

// Way is how files that came are taken in.
type Way uint8

// The ways.
const (
	JoinThem Way = iota // they join what is stored: see Join
	KeepThem            // there is no base: they are stored until it comes
	SortAll             // with what is stored they are sorted once more
)

// WayOf says how files are taken in. open says that the cell was read: of one that was
// refused, or is not there, it is not known what each stored file is.
func WayOf(open bool, h Holding, g *Given) Way {
	switch {
	case open:
		return JoinThem
	case g.Base() == nil && (g.Complete || !HasBase(h.Files)):
		return KeepThem
	case !g.Complete && len(h.Files) > 0:
		return SortAll
	}
	return JoinThem
}

// Keep is a holding with updates beside its files until their base comes, each in a
// folder called after its edition, and with what was left out. more says that
// something was added.
func (h Holding) Keep(g *Given) (kept Holding, more bool) {
	kept = Holding{slices.Clip(h.Files), slices.Clip(h.LeftOut)}
	for _, f := range g.Files {
		there := func(o File) bool { return sameBytes(o.Data, f.Data) }
		if f.Role == Base || f.Role == Text || slices.ContainsFunc(kept.Files, there) {
			continue
		}
		kept.Files, more = append(kept.Files, File{waitingName(f), f.Data}), true
	}
	for _, m := range g.LeftOut {
		if !slices.Contains(kept.LeftOut, m) {
			kept.LeftOut, more = append(kept.LeftOut, m), true
		}
	}
	return kept, more
}

// Parts are the files that a chart is made of: neither those that wait for their base
// nor the texts.
func (h Holding) Parts() (files []File) {
	for _, f := range h.Files {
		if !NamesText(f.Name) && !Waits(f.Name) {
			files = append(files, f)
		}
	}
	return files
}

// Texts are the names of the texts that came with a cell.
func (h Holding) Texts() (names []string) {
	for _, f := range h.Files {
		if NamesText(f.Name) {
			names = append(names, f.Name)
		}
	}
	return names
}

// RefusedBase is the message that stays with a cell of which a later base could not be
// read.
func RefusedBase(base *CellFile) Message {
	what := "edition " + base.Edition
	if base.Update > 0 {
		what += fmt.Sprintf(" with updates to %d in it", base.Update)
	}
	return Message{chart.Message{Level: chart.Warning, Code: "W-UPDATE", File: base.Name,
		Found: "a base of " + what + " that was refused: what is older is out of date", Wanted: base.Name + " of " + what + ", whole"}, base.Edition, base.Update}
}

// WithoutBase is what is tried next of files whose base was refused, beside a cell that
// stays as it is: the others, and that there is a later base. Nil is nothing.
func WithoutBase(g *Given, base *CellFile, is State) *Given {
	rest := &Given{Cell: g.Cell, LeftOut: slices.Clone(g.LeftOut)}
	for _, f := range g.Files {
		if f.Role != Base {
			rest.Files = append(rest.Files, f)
		}
	}
	if base.State().Compare(is) > 0 {
		rest.LeftOut = append(rest.LeftOut, RefusedBase(base))
	}
	if len(rest.Files) == 0 && len(rest.LeftOut) == 0 {
		return nil
	}
	return rest
}

// Replaces says whether a chart may take the place of another under its id: it must be
// the same cell, and not an older state of it.
func Replaces(cell string, is State, by string, becomes State) Replacement {
	switch {
	case cell != by:
		return AnotherChart
	case is.Compare(becomes) > 0:
		return OlderState
	}
	return Allowed
}

// Replacement is the answer of Replaces.
type Replacement uint8

// The answers.
const (
	Allowed Replacement = iota
	AnotherChart
	OlderState
)
