package app

import (
	"bytes"
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
	batch  *batch // that wants to know what becomes of them, nil none
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
// scales first, so that the larger lie above. What was said of a file goes with its
// cell, if that is open or among the files.
func (r *Room) takeCells(o *opening, files []cellFile, said []engine.SetMessage) {
	var groups []*cellFiles
	group := func(cell string) *cellFiles {
		i := slices.IndexFunc(groups, func(g *cellFiles) bool { return g.cell == cell })
		if i < 0 {
			i, groups = len(groups), append(groups, &cellFiles{cell: cell, hidden: o.Hidden})
		}
		return groups[i]
	}
	for _, f := range files {
		g := group(f.Cell)
		g.files = append(g.files, f)
	}
	all := len(groups) == 0
	var rest []engine.SetMessage
	for _, m := range said {
		cell := cellOf(m.File)
		if cell != "" && (r.cellSet(cell) != nil || slices.ContainsFunc(groups, func(g *cellFiles) bool { return g.cell == cell })) {
			g := group(cell)
			g.said = append(g.said, m)
		} else {
			rest = append(rest, m)
		}
	}
	slices.SortStableFunc(groups, func(a, b *cellFiles) int { return cmp.Compare(scaleOf(b), scaleOf(a)) })
	r.notTaken(o, rest, all && len(groups) == 0)
	b := &batch{kept: o.kept, left: len(groups) + 1, whole: len(rest) == 0}
	for _, g := range groups {
		g.batch = b
	}
	for _, g := range groups {
		r.takeCell(g)
	}
	r.ended(b, true)
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
	const most = 200
	set := &chartSet{SavedSet: SavedSet{ID: r.device.NewID(), Name: o.Name}, failed: words + why[0].Found + "; wanted: " + why[0].Wanted + "."}
	set.info.Messages, set.info.More = why[:min(most, len(why))], max(len(why)-most, 0)
	r.sets = append(r.sets, set)
}

// batch is what came of one opening, until it is known of every cell.
type batch struct {
	kept    string // id of the set in the store that it was taken from, "" none
	left    int
	whole   bool // everything was taken and is kept
	refused []string
	box     *[4]float64
}

// ended is told what became of a part of a batch.
func (r *Room) ended(b *batch, whole bool) {
	if b == nil {
		return
	}
	b.whole = b.whole && whole
	if b.left--; b.left > 0 {
		return
	}
	if b.kept != "" && b.whole {
		r.store.DeleteSet(b.kept, func(error) {}) // else it is opened again, to the same effect
	}
	if len(b.refused) > 0 {
		r.tell(true, fmt.Sprintf("%s %s refused as a whole; the charts that were there stay. The reasons are under Charts.", joined(b.refused), wasWere(len(b.refused))))
	}
	if b.box != nil && b.kept == "" {
		r.chart.Fit(*b.box)
	}
}

// ends tells the batch of some files what became of them, once.
func (r *Room) ends(g *cellFiles, whole bool) {
	b := g.batch
	g.batch = nil
	r.ended(b, whole)
}

func wasWere(n int) string {
	if n == 1 {
		return "was"
	}
	return "were"
}

// cellSet is the row of a cell, also while it is read or refused.
func (r *Room) cellSet(cell string) *chartSet {
	if i := slices.IndexFunc(r.sets, func(s *chartSet) bool { return cell != "" && s.cell == cell }); i >= 0 {
		return r.sets[i]
	}
	return nil
}

// cellID is the id of a cell's set: the same in every tab, so that a cell is kept once.
func cellID(cell string) string { return "cell-" + cell }

// takeCell has the files of a cell tried beside those that it has. Updates without a
// base wait for it.
func (r *Room) takeCell(g *cellFiles) {
	s := r.cellSet(g.cell)
	if s == nil && g.base() == nil {
		r.waitForBase(g)
		return
	}
	r.spares = slices.DeleteFunc(r.spares, func(f cellFile) bool {
		if f.Cell == g.cell && !slices.ContainsFunc(g.files, f.like) {
			g.files = append(g.files, f)
		}
		return f.Cell == g.cell
	})
	if s == nil {
		s = &chartSet{SavedSet: SavedSet{ID: cellID(g.cell), Name: g.cell, Hidden: g.hidden, Order: r.nextOrder()}, cell: g.cell}
		r.sets = append(r.sets, s)
	}
	s.waiting = append(s.waiting, g)
	r.joinNext(s)
}

// like says whether two files are of the same cell, edition and number.
func (f cellFile) like(o cellFile) bool {
	return f.Name == o.Name && whole(f.Edition) == whole(o.Edition)
}

// waitForBase keeps updates until their base is opened.
func (r *Room) waitForBase(g *cellFiles) {
	g.files = slices.DeleteFunc(g.files, func(f cellFile) bool { return f.Paper })
	for _, f := range g.files {
		r.spare(f)
		if f.Cancels {
			r.tell(true, fmt.Sprintf("%s says that its producer cancelled the cell %s, which is not open.", path.Base(f.Name), g.cell))
		}
	}
	updates := slices.DeleteFunc(slices.Clone(g.files), func(f cellFile) bool { return f.Cancels })
	if len(updates) > 0 {
		r.tell(true, fmt.Sprintf("%s %s of a cell that is not open. Open %s.000 of edition %s: they join it as long as this page stays open.",
			joined(names(updates)), isAre(len(updates)), g.cell, updates[len(updates)-1].Edition))
	}
	r.ends(g, false)
}

func isAre(n int) string {
	if n == 1 {
		return "is an update"
	}
	return "are updates"
}

func names(files []cellFile) (list []string) {
	for _, f := range files {
		list = append(list, f.Name)
	}
	return list
}

// spare keeps an update for the base it wants, until the page is closed.
func (r *Room) spare(f cellFile) {
	if !slices.ContainsFunc(r.spares, f.like) {
		r.spares = append(r.spares, f)
	}
}

// trial is what takes the place of a set's files when the engine has taken it.
type trial struct {
	from    *cellFiles
	files   []File
	said    []engine.SetMessage
	base    *cellFile // that is new in it, nil none
	changed bool      // it is not what the set has
	notes   []string  // what is left out, and why
}

// trialOf joins files to those of a cell. What is in use stays: only what is later,
// or was not applied, comes in its place, but for a cell that could not be read.
func (r *Room) trialOf(s *chartSet, g *cellFiles) *trial {
	t := &trial{from: g, files: slices.Clone(s.Files), said: slices.Clone(s.Said)}
	live := s.failed == "" && s.info.Cell != nil
	edition, update, first := -1, -1, -1 // of the cell, and the update that its base states
	switch {
	case live:
		edition, update = whole(s.info.Cell.Edition), whole(s.info.Cell.Update)
		first = update - s.info.Cell.Applied
	case len(s.Files) > 0:
		edition = s.Edition
	}
	if base := g.base(); base != nil && t.takesBase(s, base, edition, first) {
		t.base, t.changed = base, true
		if e := whole(base.Edition); e != edition {
			edition, update = e, -1
		}
		first = base.Update
	}
	for _, f := range g.files {
		e := whole(f.Edition)
		switch {
		case f.Base:
		case f.Paper, f.Cancels:
			t.put(f)
		case e > edition:
			r.spare(f)
			t.say(engine.SetMessage{Level: "warning", Code: "W-UPDATE", File: f.Name, Edition: f.Edition, Found: "an update of edition " + f.Edition + ": this edition is out of date",
				Wanted: f.Cell + ".000 of edition " + f.Edition})
		case e < edition:
			t.notes = append(t.notes, fmt.Sprintf("%s is an update of edition %s and was left out: edition %d is open.", f.Name, f.Edition, edition))
		case f.Update <= first: // it is in the base
		case f.Update <= update && t.has(f.Name):
			if !t.same(f) {
				t.notes = append(t.notes, f.Name+" is another copy than the one in use, with other bytes, and was left out.")
			}
		default:
			t.put(f)
		}
	}
	t.settle(g.said, edition, max(update, first))
	return t
}

// takesBase puts a base in, or says why not. The updates that are not in it stay.
func (t *trial) takesBase(s *chartSet, base *cellFile, edition, first int) bool {
	e := whole(base.Edition)
	switch {
	case e < edition:
		t.notes = append(t.notes, fmt.Sprintf("%s stays as it was: it is edition %d, and what was given is edition %d. Remove it first to open that one.", s.Name, edition, e))
		return false
	case e == edition && base.Update <= first:
		if base.Update == first && !t.same(*base) {
			t.notes = append(t.notes, base.Name+" is another copy than the one in use, with other bytes, and was left out.")
		}
		return false
	}
	t.files = slices.DeleteFunc(t.files, func(f File) bool {
		switch {
		case e > edition:
			return true
		case enc.NamesPaper(f.Name) || strings.HasPrefix(f.Name, enc.CancelFolder):
			return false
		}
		return numberOf(f.Name) <= base.Update
	})
	t.files = slices.Insert(t.files, 0, File{Name: base.Name, Data: base.data})
	return true
}

func (t *trial) index(name string) int {
	return slices.IndexFunc(t.files, func(f File) bool { return strings.EqualFold(f.Name, name) })
}

func (t *trial) has(name string) bool { return t.index(name) >= 0 }

func (t *trial) same(f cellFile) bool {
	i := t.index(f.Name)
	return i >= 0 && bytes.Equal(t.files[i].Data.Bytes(), f.data.Bytes())
}

// put puts a file in, in place of one of the same name.
func (t *trial) put(f cellFile) {
	if t.same(f) {
		return
	}
	t.files = slices.DeleteFunc(t.files, func(o File) bool { return strings.EqualFold(o.Name, f.Name) })
	t.files, t.changed = append(t.files, File{Name: f.Name, Data: f.data}), true
}

func (t *trial) say(m engine.SetMessage) {
	if !slices.Contains(t.said, m) {
		t.said, t.changed = append(t.said, m), true
	}
}

// settle takes in what was said of other files, and takes out what no longer holds: a
// file that is there now, or that a later edition has made useless.
func (t *trial) settle(said []engine.SetMessage, edition, update int) {
	there := func(m engine.SetMessage) bool {
		n := numberOf(m.File)
		return t.has(m.File) || n > 0 && n <= update
	}
	before := len(t.said)
	t.said = slices.DeleteFunc(t.said, func(m engine.SetMessage) bool {
		if m.Edition != "" {
			return whole(m.Edition) <= edition
		}
		return there(m)
	})
	t.changed = t.changed || len(t.said) != before
	for _, m := range said {
		switch {
		case m.Edition != "" && whole(m.Edition) > edition, m.Edition == "" && !there(m):
			t.say(m)
		case m.Code != "W-CATALOG" && m.Edition == "":
			t.notes = append(t.notes, fmt.Sprintf("Another copy of %s was refused (%s); the one in use stays.", m.File, m.Found))
		}
	}
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
	g := s.waiting[0]
	s.waiting = s.waiting[1:]
	t := r.trialOf(s, g)
	for _, n := range t.notes {
		r.tell(true, n)
	}
	was := s.info.Cell
	if s.failed != "" {
		was = nil
	}
	if was != nil && !t.changed {
		if len(t.notes) == 0 && (g.batch == nil || g.batch.kept == "") {
			r.tell(false, fmt.Sprintf("%s, %s, was open already.", was.Name, editionWords(was)))
		}
		r.ends(g, true)
		r.joinNext(s)
		return
	}
	s.trying = t
	r.send(s, func(taken bool) {
		if taken {
			r.cellTaken(s, t, was)
		} else {
			r.cellRefused(s, t, was)
		}
	})
}

// cellRefused leaves a cell as it was. The files that came with a base that was
// refused are tried without it, and that a later edition was seen stays told.
func (r *Room) cellRefused(s *chartSet, t *trial, was *engine.CellInfo) {
	g := t.from
	if was == nil {
		if !s.kept { // a better copy of the base may come
			s.Files, s.Said = t.files, t.said
			if t.base != nil {
				s.Edition = whole(t.base.Edition)
			}
		}
		if g.batch != nil {
			g.batch.refused = append(g.batch.refused, s.Name)
		}
		r.ends(g, false)
		return
	}
	why := s.failed
	s.failed = ""
	r.tell(true, why)
	if t.base == nil {
		r.ends(g, false)
		return
	}
	rest := &cellFiles{cell: g.cell, said: slices.Clone(g.said), batch: g.batch}
	for _, f := range g.files {
		if !f.Base {
			rest.files = append(rest.files, f)
		}
	}
	if whole(t.base.Edition) > whole(was.Edition) {
		rest.said = append(rest.said, engine.SetMessage{Level: "warning", Code: "W-UPDATE", File: t.base.Name, Edition: t.base.Edition,
			Found: "a base of edition " + t.base.Edition + " that was refused: this edition is out of date", Wanted: t.base.Name + " of edition " + t.base.Edition + ", whole"})
	}
	if len(rest.files) == 0 && len(rest.said) == 0 {
		r.ends(g, false)
		return
	}
	if rest.batch != nil {
		rest.batch.whole = false
	}
	s.waiting = slices.Insert(s.waiting, 0, rest)
}

// cellTaken keeps a cell that the engine took.
func (r *Room) cellTaken(s *chartSet, t *trial, was *engine.CellInfo) {
	now := s.info.Cell
	if now == nil {
		r.ends(t.from, false)
		return
	}
	s.Edition, s.Update = whole(now.Edition), whole(now.Update)
	r.keepChart(s, func(kept bool) {
		r.tellTaken(s, t, now, was)
		r.ends(t.from, kept)
	})
}

// tellTaken tells what became of a cell once it is kept.
func (r *Room) tellTaken(s *chartSet, t *trial, now, was *engine.CellInfo) {
	left := s.leftOut()
	switch {
	case now.Cancelled != "" && (was == nil || was.Cancelled == ""):
		r.tell(true, now.Name+": "+cancelledWords(now))
	case was == nil:
		if b := t.from.batch; b != nil {
			b.box = boxAbout(b.box, s.info.Bounds)
		}
	case now.Edition != was.Edition || now.Update != was.Update:
		r.tell(false, fmt.Sprintf("%s is now %s; it was %s.", now.Name, editionWords(now), editionWords(was)))
	case len(left) > 0:
		r.tell(true, fmt.Sprintf("%s stays %s: %s %s not applied. Why is told under Charts.", now.Name, editionWords(now), joined(left), wasWere(len(left))))
	}
	if n := countLevel(s, "file"); n > 0 {
		r.tell(true, fmt.Sprintf("Not all of %s could be read: %s. The reasons are under Charts.", s.Name, counted(n, "thing was refused", "things were refused")))
	}
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
