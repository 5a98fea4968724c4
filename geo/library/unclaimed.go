package library

import (
	"slices"
	"strings"
)

// Unclaimed are updates whose cell was removed: they join it when it is opened again.
// That a cell was cancelled must not be forgotten with its removal.
type Unclaimed struct{ files []CellFile }

// Add takes an update in, once.
func (u *Unclaimed) Add(f CellFile) {
	if f.Role != Base && f.Role != Text && !slices.ContainsFunc(u.files, f.Same) {
		u.files = append(u.files, f)
	}
}

// AddCancellations takes in what cancelled a cell that is removed.
func (u *Unclaimed) AddCancellations(cell string, files []File) {
	for _, f := range files {
		if strings.HasPrefix(f.Name, CancelFolder) {
			u.Add(CellFile{Name: f.Name, Cell: cell, Role: Cancellation, Edition: "0", Update: NumberOf(f.Name), Data: f.Data})
		}
	}
}

// HasUpdates says whether there are updates of a cell, cancellations apart.
func (u *Unclaimed) HasUpdates(cell string) bool {
	return slices.ContainsFunc(u.files, func(f CellFile) bool { return f.Cell == cell && f.Role != Cancellation })
}

// Claim moves the updates of a cell to files of it that came.
func (u *Unclaimed) Claim(g *Given) {
	u.files = slices.DeleteFunc(u.files, func(f CellFile) bool {
		if f.Cell == g.Cell && !slices.ContainsFunc(g.Files, f.Same) {
			g.Files = append(g.Files, f)
		}
		return f.Cell == g.Cell
	})
}
