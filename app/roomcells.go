package app

import (
	"cmp"
	"encoding/json"
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
	"keelroom/geo/layer"
)

// opening is files of cells that the engine is looking into.
type opening struct {
	SavedSet        // the files, what was said of others, and how they are to be shown
	kept     string // id of the set in the store that they are taken from, "" none
}

// cellFile is a file of a cell, told apart by what it says of itself.
type cellFile struct {
	engine.SortedFile
	data Blob
}

// cellFiles are files of one cell that came together.
type cellFiles struct {
	cell   string
	files  []cellFile
	said   []engine.SetMessage
	hidden bool
}

func (g *cellFiles) base() *cellFile {
	if i := slices.IndexFunc(g.files, func(f cellFile) bool { return f.Base }); i >= 0 {
		return &g.files[i]
	}
	return nil
}

// openCells takes files of cells, catalogues and archives that were given together.
// The engine looks into them first: each cell in them is a chart of its own.
func (r *Room) openCells(o *opening) {
	r.opening = append(r.opening, o)
	r.lookInto(o)
	r.redraw()
}

func (r *Room) lookInto(o *opening) {
	q := engine.Request{Kind: engine.SortFiles}
	for _, f := range o.Files {
		q.Files = append(q.Files, layer.File{Name: f.Name, Data: f.Data.Bytes()})
	}
	r.engine.Ask(q, func(a engine.Reply, docs map[string]Doc) {
		i := slices.Index(r.opening, o)
		if a.State == engine.Progress || i < 0 {
			r.progress = a.Words
			return
		}
		r.opening = slices.Delete(r.opening, i, i+1)
		var body engine.SortBody
		if err := json.Unmarshal(a.Body, &body); a.State != engine.Done || err != nil {
			r.tell(true, fmt.Sprintf("%s cannot be opened: %s", o.Name, cmp.Or(a.Words, "the answer about it cannot be read")))
			r.redraw()
			return
		}
		var files []cellFile
		for i, f := range body.Files {
			if data, ok := docs[FileDoc(i)].(Blob); ok {
				files = append(files, cellFile{f, data})
			}
		}
		r.takeCells(o, files, slices.Concat(o.Said, body.Messages))
		r.redraw()
	})
}

// takeCells takes files that were told apart: cell by cell, those of the smaller
// scales first, so that the larger lie above.
func (r *Room) takeCells(o *opening, files []cellFile, said []engine.SetMessage) {
	var groups []*cellFiles
	for _, f := range files {
		if n := len(groups); n == 0 || groups[n-1].cell != f.Cell {
			groups = append(groups, &cellFiles{cell: f.Cell, hidden: o.Hidden})
		}
		g := groups[len(groups)-1]
		g.files = append(g.files, f)
	}
	var rest []engine.SetMessage
	for _, m := range said {
		if i := slices.IndexFunc(groups, func(g *cellFiles) bool { return g.cell == cellOf(m.File) }); i >= 0 {
			groups[i].said = append(groups[i].said, m)
		} else {
			rest = append(rest, m)
		}
	}
	slices.SortStableFunc(groups, func(a, b *cellFiles) int { return cmp.Compare(scaleOf(b), scaleOf(a)) })
	r.notTaken(o, rest, len(groups) == 0)
	b := &batch{kept: o.kept}
	for _, g := range groups {
		r.takeCell(b, g)
	}
	r.settled(b)
}

func scaleOf(g *cellFiles) int {
	if base := g.base(); base != nil {
		return base.Scale
	}
	return 0
}

// notTaken lists what was refused of files that were opened, or is missing, until it
// is dismissed.
func (r *Room) notTaken(o *opening, why []engine.SetMessage, all bool) {
	if len(why) == 0 {
		return
	}
	words := "Part of it was not taken: "
	if all {
		words = "Nothing of it was taken: "
		r.tell(true, fmt.Sprintf("%s was refused as a whole; the charts that were there stay. The reasons are under Charts.", o.Name))
	} else {
		r.tell(true, fmt.Sprintf("Not all of %s was taken: %s. The reasons are under Charts.", o.Name, counted(len(why), "thing was refused or is missing", "things were refused or are missing")))
	}
	set := &chartSet{SavedSet: SavedSet{ID: r.device.NewID(), Name: o.Name}, failed: words + why[0].Found + "; wanted: " + why[0].Wanted + "."}
	set.info.Messages = why
	r.sets = append(r.sets, set)
}

// batch is the new charts of one opening, until all are read.
type batch struct {
	kept    string
	sets    []*chartSet
	refused []string
	box     *[4]float64
	ended   bool
}

// settled ends a batch once none of its charts is being read.
func (r *Room) settled(b *batch) {
	if b.ended || slices.ContainsFunc(b.sets, func(s *chartSet) bool { return s.reading && r.has(s) }) {
		return
	}
	b.ended = true
	if b.kept != "" {
		r.store.DeleteSet(b.kept, func(error) {}) // else it is opened again, to the same effect
	}
	if len(b.refused) > 0 {
		r.tell(true, fmt.Sprintf("%s %s refused as a whole; the charts that were there stay. The reasons are under Charts.", joined(b.refused), wasWere(len(b.refused))))
	}
	if b.box != nil && b.kept == "" {
		r.chart.Fit(*b.box)
	}
}

func wasWere(n int) string {
	if n == 1 {
		return "was"
	}
	return "were"
}

// takeCell opens a cell, or gives its files to the one that is open. Updates without
// a base wait for it.
func (r *Room) takeCell(b *batch, g *cellFiles) {
	for _, f := range r.spares {
		if f.Cell == g.cell && !slices.ContainsFunc(g.files, func(o cellFile) bool { return o.Name == f.Name && o.Edition == f.Edition }) {
			g.files = append(g.files, f)
		}
	}
	if i := slices.IndexFunc(r.sets, func(s *chartSet) bool { return s.cell == g.cell && s.failed == "" }); i >= 0 {
		r.sets[i].waiting = append(r.sets[i].waiting, g)
		r.joinNext(r.sets[i])
		return
	}
	base := g.base()
	if base == nil {
		g.files = slices.DeleteFunc(g.files, func(f cellFile) bool { return f.Paper })
		r.spare(g.files)
		last := g.files[len(g.files)-1]
		r.tell(true, fmt.Sprintf("%s %s updates of a cell that is not open. Open %s.000 of edition %s: they join it as long as this page stays open.",
			joined(names(g.files)), isAre(len(g.files)), g.cell, last.Edition))
		return
	}
	// A row about files of the cell that were refused has had its time.
	r.sets = slices.DeleteFunc(r.sets, func(s *chartSet) bool { return s.cell == g.cell })
	s := &chartSet{SavedSet: SavedSet{ID: r.device.NewID(), Name: g.cell, Hidden: g.hidden, Order: r.nextOrder()}, cell: g.cell}
	s.Files, s.Said = r.merged(nil, nil, g, base.Edition)
	r.sets = append(r.sets, s)
	b.sets = append(b.sets, s)
	r.send(s, func(taken bool) {
		if taken {
			r.cellTaken(s)
			b.box = boxAbout(b.box, s.info.Bounds)
		} else {
			b.refused = append(b.refused, s.Name)
		}
		r.settled(b)
	})
}

func isAre(n int) string {
	if n == 1 {
		return "is one of the"
	}
	return "are"
}

func names(files []cellFile) (list []string) {
	for _, f := range files {
		list = append(list, f.Name)
	}
	return list
}

// spare keeps updates for the base they want, until the page is closed.
func (r *Room) spare(files []cellFile) {
	for _, f := range files {
		if !slices.ContainsFunc(r.spares, func(o cellFile) bool { return o.Name == f.Name && o.Edition == f.Edition }) {
			r.spares = append(r.spares, f)
		}
	}
}

// merged are the files of a cell with more, and what is said beside them. Updates
// of a later edition than its base are spared and told, those of an earlier one are
// of no use.
func (r *Room) merged(files []File, said []engine.SetMessage, g *cellFiles, edition string) ([]File, []engine.SetMessage) {
	files, said = slices.Clone(files), slices.Clone(said)
	for _, f := range g.files {
		if !f.Base && !f.Cancels && !f.Paper && f.Edition != edition {
			if whole(f.Edition) > whole(edition) {
				r.spare([]cellFile{f})
				said = append(said, engine.SetMessage{Level: "warning", Code: "W-UPDATE", File: f.Name, Found: "an update of edition " + f.Edition + ": this edition is out of date",
					Wanted: f.Cell + ".000 of edition " + f.Edition})
			}
			continue
		}
		same := func(name string) bool { return strings.EqualFold(path.Base(name), f.Name) }
		files = slices.DeleteFunc(files, func(o File) bool { return same(o.Name) })
		said = slices.DeleteFunc(said, func(m engine.SetMessage) bool { return same(m.File) })
		files = append(files, File{Name: f.Name, Data: f.data})
	}
	return files, append(said, g.said...)
}

// withFiles are the files of an open cell with more. A base takes the place of all
// that the cell had, but for later updates of the same edition.
func (r *Room) withFiles(s *chartSet, g *cellFiles) ([]File, []engine.SetMessage) {
	edition := s.info.Cell.Edition
	base := g.base()
	switch {
	case base == nil:
		return r.merged(s.Files, s.Said, g, edition)
	case base.Edition != edition:
		return r.merged(nil, nil, g, base.Edition)
	}
	later := slices.DeleteFunc(slices.Clone(s.Files), func(f File) bool { return !enc.NamesPaper(f.Name) && numberOf(f.Name) <= base.Update })
	return r.merged(later, s.Said, g, edition)
}

func whole(s string) int { n, _ := strconv.Atoi(s); return n }

// numberOf is the number of an update by the name of its file, 0 for a base.
func numberOf(file string) int { return whole(strings.TrimPrefix(path.Ext(file), ".")) }

// joinNext tries what waits longest to join a cell, once nothing of it is being
// read. What was open, and what is kept, stays when that comes to nothing.
func (r *Room) joinNext(s *chartSet) {
	if s.reading || len(s.waiting) == 0 || !r.has(s) {
		return
	}
	if s.failed != "" || s.info.Cell == nil { // there is nothing to join
		waiting := s.waiting
		s.waiting = nil
		for _, g := range waiting {
			r.takeCell(&batch{}, g)
		}
		return
	}
	was := *s.info.Cell
	g := s.waiting[0]
	s.waiting = s.waiting[1:]
	s.trying = &trial{from: g}
	s.trying.files, s.trying.said = r.withFiles(s, g)
	r.send(s, func(taken bool) {
		if !taken {
			why := s.failed
			s.failed = ""
			r.tell(true, why)
			return
		}
		r.cellTaken(s)
		switch now := s.info.Cell; {
		case now.Edition != was.Edition || now.Update != was.Update:
			r.tell(false, fmt.Sprintf("%s is now %s; it was %s.", now.Name, editionWords(now), editionWords(&was)))
		case len(s.leftOut()) > 0:
			r.tell(true, fmt.Sprintf("%s stays %s: %s not applied. Why is told under Charts.", now.Name, editionWords(now), joined(s.leftOut())+" "+wasWere(len(s.leftOut()))))
		default:
			r.tell(false, fmt.Sprintf("%s, %s, was open already.", now.Name, editionWords(now)))
		}
	})
}

// cellTaken keeps a cell that the engine took, and tells what is wrong with it.
func (r *Room) cellTaken(s *chartSet) {
	c := s.info.Cell
	if c == nil {
		return
	}
	r.spares = slices.DeleteFunc(r.spares, func(f cellFile) bool { return f.Cell == c.Name && whole(f.Edition) <= whole(c.Edition) })
	if n := countLevel(s, "file"); n > 0 {
		r.tell(true, fmt.Sprintf("Not all of %s could be read: %s. The reasons are under Charts.", s.Name, counted(n, "thing was refused", "things were refused")))
	}
	if c.Cancelled != "" {
		r.tell(true, c.Name+": "+cancelledWords(c))
	}
	r.keepChart(s)
}

// cancelledWords stand beside a cell that is no longer in force.
func cancelledWords(c *engine.CellInfo) string {
	return fmt.Sprintf("Its producer cancelled this cell (%s): it is no chart in force. The checks let it add dangers, and take no depth and no coverage from it beside another chart. Open what replaces it, or remove it.", c.Cancelled)
}

// cellOf is the cell that a file belongs to by its name, "" for a zip, a catalogue
// or a layer.
func cellOf(file string) string {
	name := path.Base(strings.ReplaceAll(file, `\`, "/"))
	stem, extension, _ := strings.Cut(name, ".")
	if _, err := strconv.Atoi(extension); err != nil || strings.EqualFold(name, enc.CatalogueName) {
		return ""
	}
	return strings.ToUpper(stem)
}

// cellOfAll is the cell that all files belong to, and whether there are files of
// cells among them that are still to be told apart.
func cellOfAll(files []File) (cell string, mixed bool) {
	for _, f := range files {
		if enc.NamesPaper(f.Name) {
			continue
		}
		of := cellOf(f.Name)
		mixed = mixed || of == "" && enc.NamesCell(f.Name) || cell != "" && of != cell
		cell = of
	}
	return cell, mixed
}

// cells are the charts that are cells.
func (r *Room) cells() (of []*chartSet) {
	for _, s := range r.sets {
		if s.info.Cell != nil {
			of = append(of, s)
		}
	}
	return of
}

// boxAbout is the box about two boxes, of which either may be nil.
func boxAbout(a, b *[4]float64) *[4]float64 {
	if a == nil || b == nil {
		return cmp.Or(a, b)
	}
	return &[4]float64{min(a[0], b[0]), min(a[1], b[1]), max(a[2], b[2]), max(a[3], b[3])}
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
		if m.Code == "W-UPDATE" && !slices.Contains(files, m.File) {
			files = append(files, m.File)
		}
	}
	return files
}

// papers are the texts that came with a cell.
func (s *chartSet) papers() (names []string) {
	for _, f := range s.Files {
		if s.cell != "" && enc.NamesPaper(f.Name) {
			names = append(names, f.Name)
		}
	}
	return names
}

// ReadPaper shows or hides a text that came with a cell.
func (r *Room) ReadPaper(arg string) {
	id, name, _ := strings.Cut(arg, " ")
	_, s := r.findSet(id)
	if s == nil || s.paper == name {
		if s != nil {
			s.paper, s.paperText = "", ""
		}
		r.redraw()
		return
	}
	if i := slices.IndexFunc(s.Files, func(f File) bool { return f.Name == name }); i >= 0 {
		s.paper, s.paperText = name, string(s.Files[i].Data.Bytes())
	}
	r.redraw()
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
