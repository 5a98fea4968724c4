package app

import (
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/paulmach/orb"

	"keelroom/app/engine"
	"keelroom/app/entry"
	"keelroom/geo/enc"
)

// cells are what is told of the cells in a set.
func (s *chartSet) cells() (of []*engine.CellInfo) {
	for _, p := range s.info.Parts {
		if p.Cell != nil {
			of = append(of, p.Cell)
		}
	}
	return of
}

func (s *chartSet) cell(name string) *engine.CellInfo {
	for _, c := range s.cells() {
		if c.Name == name {
			return c
		}
	}
	return nil
}

// cellOf is the cell that a file belongs to by its name, and whether it is the
// cell's base; "" for a zip or a catalogue.
func cellOf(file string) (cell string, base bool) {
	stem, extension, _ := strings.Cut(path.Base(strings.ReplaceAll(file, `\`, "/")), ".")
	if _, err := strconv.Atoi(extension); err != nil || isCatalogue(file) {
		return "", false
	}
	return strings.ToUpper(stem), extension == "000"
}

func isCatalogue(file string) bool {
	return strings.EqualFold(path.Base(strings.ReplaceAll(file, `\`, "/")), enc.CatalogueName)
}

// openCells takes files of cells that were given together. Files of a cell that is
// open already join it; the rest is one set.
func (r *Room) openCells(files []File) {
	joining := map[*chartSet][]File{}
	var order []*chartSet
	var rest, catalogues []File
	for _, f := range files {
		if isCatalogue(f.Name) {
			catalogues = append(catalogues, f)
			continue
		}
		cell, _ := cellOf(f.Name)
		i := slices.IndexFunc(r.sets, func(s *chartSet) bool { return s.takesIn(cell) })
		if i < 0 {
			rest = append(rest, f)
			continue
		}
		if joining[r.sets[i]] == nil {
			order = append(order, r.sets[i])
		}
		joining[r.sets[i]] = append(joining[r.sets[i]], f)
	}
	// A catalogue guards all that came with it.
	if len(rest) > 0 || len(order) == 0 {
		r.openSet(slices.Concat(rest, catalogues))
	}
	for _, s := range order {
		r.joinCells(s, slices.Concat(joining[s], catalogues))
	}
}

// joinCells has a set read again with more files: updates, or a newer edition in
// place of the one that is there. Sets are read one join after the other.
func (r *Room) joinCells(s *chartSet, more []File) {
	r.tab = tabCharts
	s.waiting = append(s.waiting, more)
	r.joinNext(s)
}

// joinNext tries what waits longest to join a set, once nothing of it is being
// read. What was open, and what is kept, stays when that comes to nothing.
func (r *Room) joinNext(s *chartSet) {
	if s.reading || len(s.waiting) == 0 || !r.has(s) {
		return
	}
	if s.failed != "" {
		s.waiting = nil
		r.tell(true, "What was opened after "+s.Name+" to join it was not read, as "+s.Name+" was refused.")
		return
	}
	was := s.cells()
	s.trying, s.waiting = s.waiting[0], s.waiting[1:]
	r.send(s, func(taken bool) {
		if !taken {
			why := s.failed
			s.failed = ""
			r.tell(true, why)
			return
		}
		r.opened(s, true)
		for _, c := range s.cells() {
			i := slices.IndexFunc(was, func(w *engine.CellInfo) bool { return w.Name == c.Name })
			if i < 0 || was[i].Edition == c.Edition && was[i].Update == c.Update {
				continue
			}
			r.tell(false, fmt.Sprintf("%s is now %s; it was %s.", c.Name, editionWords(c), editionWords(was[i])))
		}
	})
}

// takesIn says whether files of a cell belong to a set: it has the cell, or it is
// being read and has a file of it.
func (s *chartSet) takesIn(cell string) bool {
	if cell == "" || s.demo || s.failed != "" {
		return false
	}
	return s.cell(cell) != nil || s.reading && slices.ContainsFunc(s.Files, func(f File) bool {
		of, _ := cellOf(f.Name)
		return of == cell
	})
}

// withFiles are a set's files with more: one of the same name is replaced, and a
// base takes the place of all that its cell had. A catalogue speaks of the files it
// came with, which were held to it when they were read: it does not stay.
func withFiles(old, more []File) []File {
	if len(more) == 0 {
		return old
	}
	kept := slices.DeleteFunc(slices.Clone(old), func(o File) bool {
		if isCatalogue(o.Name) {
			return true
		}
		cell, _ := cellOf(o.Name)
		return slices.ContainsFunc(more, func(f File) bool {
			name, base := cellOf(f.Name)
			return cell != "" && cell == name && (base || strings.EqualFold(path.Base(f.Name), path.Base(o.Name)))
		})
	})
	return append(kept, more...)
}

// supersede removes the sets all of whose cells a set has as new or newer, once it
// is kept; and the set itself where it is the older one.
func (r *Room) supersede(set *chartSet) {
	for _, other := range slices.Clone(r.sets) {
		if other == set || other.reading || other.failed != "" || !r.has(set) {
			continue
		}
		older, newer := overlap(set, other)
		switch {
		case older+newer == 0:
		case newer == 0 && older == len(other.cells()):
			r.RemoveSet(other.ID)
			r.tell(false, fmt.Sprintf("What was open of %s is replaced by what was opened now.", cellNames(other)))
		case older == 0 && newer == len(set.cells()):
			r.RemoveSet(set.ID)
			r.tell(true, fmt.Sprintf("%s is older than what is open, and was not taken.", cellNames(set)))
		default:
			r.tell(true, fmt.Sprintf("Some cells of %s are open twice, of different editions, and the checks go by both. Remove the older files.", cellNames(set)))
		}
	}
}

// overlap counts the cells of another set that a set has as new or newer, and
// those that the other has newer.
func overlap(set, other *chartSet) (older, newer int) {
	for _, c := range other.cells() {
		own := set.cell(c.Name)
		switch {
		case own == nil:
		case c.Later(own):
			newer++
		default:
			older++
		}
	}
	return older, newer
}

func cellNames(s *chartSet) string {
	var names []string
	for _, c := range s.cells() {
		names = append(names, c.Name)
	}
	return joined(names)
}

func editionWords(c *engine.CellInfo) string {
	words := "edition " + c.Edition
	if c.Update != "" && c.Update != "0" {
		words += " with updates to " + c.Update
	}
	return words
}

// leftOut names the update files that were not applied.
func (s *chartSet) leftOut() (files []string) {
	for _, m := range s.info.Messages {
		if m.Code == "W-UPDATE" {
			files = append(files, m.File)
		}
	}
	return files
}

// copyWords stand beside every cell.
const copyWords = "A copy, not the official chart: the producer's terms and its notices to mariners hold, and what was changed since is not in it."

// cellLine tells a cell in a sentence or two.
func cellLine(c *engine.CellInfo, now time.Time) string {
	line := c.Name + ", " + editionWords(c)
	if c.IssueDate != "" {
		line += ", issued " + c.IssueDate + ageWords(c.IssueDate, now)
	}
	line += fmt.Sprintf(". A cell for %s use, 1:%d", purposeWords(c.Purpose), c.Scale)
	if c.Producer != "" {
		line += ", made by " + c.Producer
	}
	if b := c.Bounds; b != nil {
		line += fmt.Sprintf(", from %s to %s", entry.FormatPosition(orb.Point{b[0], b[1]}), entry.FormatPosition(orb.Point{b[2], b[3]}))
	}
	if c.DatumName != "" {
		line += ". Depths below " + c.DatumName
	}
	if c.Comment != "" {
		line += ". It says: " + c.Comment
	}
	return strings.TrimSuffix(line, ".") + "."
}

func purposeWords(purpose string) string {
	if purpose == "not stated" {
		return "no stated"
	}
	return purpose
}

// ageWords says how old a date is: " (2 years old)".
func ageWords(date string, now time.Time) string {
	t, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return ""
	}
	days := int(now.Sub(t).Hours() / 24)
	switch {
	case days < 0:
		return " (later than this device's date)"
	case days < 60:
		return " (" + counted(days, "day", "days") + " old)"
	case days < 730:
		return fmt.Sprintf(" (%d months old)", days*12/365)
	}
	return fmt.Sprintf(" (%d years old)", days*100/36525)
}
