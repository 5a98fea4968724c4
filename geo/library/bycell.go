package library

import (
	"cmp"
	"slices"

	"keelroom/geo/chart"
)

// ByCell sorts files that came together into their cells, those of the smaller scales
// first, so that the larger lie above. A message goes with the cell that its file
// belongs to, if files of it came, it is one of the collection (known), or an update of
// it was refused: that must not be forgotten. rest are the messages about what belongs
// to no cell.
func ByCell(files []CellFile, messages []Message, known func(cell string) bool) (cells []*Given, rest []Message) {
	find := func(cell string) *Given {
		if i := slices.IndexFunc(cells, func(g *Given) bool { return g.Cell == cell }); i >= 0 {
			return cells[i]
		}
		return nil
	}
	of := func(cell string) *Given {
		if g := find(cell); g != nil {
			return g
		}
		cells = append(cells, &Given{Cell: cell})
		return cells[len(cells)-1]
	}
	for _, f := range files {
		g := of(f.Cell)
		g.Files = append(g.Files, f)
	}
	for _, m := range messages {
		cell := CellOf(m.File)
		refused := m.Level == chart.FileError && NumberOf(m.File) > 0
		if cell != "" && (refused || known(cell) || find(cell) != nil) {
			g := of(cell)
			g.LeftOut = append(g.LeftOut, m)
		} else {
			rest = append(rest, m)
		}
	}
	slices.SortStableFunc(cells, func(a, b *Given) int { return cmp.Compare(b.scale(), a.scale()) })
	return cells, rest
}

// scale is the denominator of the scale that the base states, 0 unknown.
func (g *Given) scale() int {
	if base := g.Base(); base != nil {
		return base.Scale
	}
	return 0
}
