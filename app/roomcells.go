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
	complete bool   // they are all that a cell has, also what could not be read
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
	// complete files are all that the cell has.
	complete bool
	batch    *batch // that wants to know what becomes of them, nil none
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
		defer func() {
			if s := r.cellSet(o.Name); o.complete && s != nil && s.sorting { // nothing came of it
				s.sorting = false
				r.joinNext(s)
			}
		}()
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
			i, groups = len(groups), append(groups, &cellFiles{cell: cell, hidden: o.Hidden, complete: o.complete})
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
		if cell != "" && (numberOf(m.File) > 0 || r.cellSet(cell) != nil || slices.ContainsFunc(groups, func(g *cellFiles) bool { return g.cell == cell })) {
			g := group(cell)
			g.said = append(g.said, m)
		} else {
			rest = append(rest, m)
		}
	}
	slices.SortStableFunc(groups, func(a, b *cellFiles) int { return cmp.Compare(scaleOf(b), scaleOf(a)) })
	r.notTaken(o, rest, all && len(groups) == 0)
	b := &batch{kept: o.kept, left: len(groups) + 1, whole: true}
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
	whole   bool     // everything was taken and is kept
	waits   []string // cells whose updates wait for their base, and what is told of them
	waiting []string
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
	switch len(b.waits) {
	case 0:
	case 1:
		r.tell(true, b.waiting[0])
	default:
		r.tell(true, fmt.Sprintf("Updates of %s are kept until their bases are opened: these cells are not open.", joined(b.waits)))
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
// base are kept until it comes; to a cell that could not be read its files are given
// once more, the new ones first.
func (r *Room) takeCell(g *cellFiles) {
	s := r.cellSet(g.cell)
	if s != nil && g.complete {
		s.sorting = false
		s.waiting = slices.Insert(s.waiting, 0, g)
		r.joinNext(s)
		return
	}
	idle := s == nil || !s.reading && !s.sorting && s.failed != ""
	switch {
	case idle && g.base() == nil && (s == nil || !hasBase(s.Files)):
		r.waitForBase(s, g)
		return
	case idle && s != nil && len(s.Files) > 0:
		o := &opening{SavedSet: SavedSet{Name: s.Name, Hidden: s.Hidden, Said: slices.Concat(s.Said, g.said)}, complete: true}
		for _, f := range g.files {
			o.Files = append(o.Files, File{Name: f.Name, Data: f.data})
		}
		o.Files = append(o.Files, s.Files...)
		s.sorting = true
		r.openCells(o)
		r.ends(g, false)
		return
	}
	if s == nil {
		s = r.newCell(g)
	}
	s.waiting = append(s.waiting, g)
	r.joinNext(s)
}

func (r *Room) newCell(g *cellFiles) *chartSet {
	s := &chartSet{SavedSet: SavedSet{ID: cellID(g.cell), Name: g.cell, Hidden: g.hidden, Order: r.nextOrder()}, cell: g.cell}
	r.sets = append(r.sets, s)
	return s
}

// hasBase says whether the base of a cell is among its files.
func hasBase(files []File) bool {
	return slices.ContainsFunc(files, func(f File) bool { return cellOf(f.Name) != "" && numberOf(f.Name) == 0 })
}

// waitsWords stand beside updates whose base is not there.
const waitsWords = "Waits for its base, the file that ends in .000: these updates are kept till then."

// waits says whether a set is updates without their base, and marks it so.
func (r *Room) waits(s *chartSet) bool {
	if s.cell == "" || len(s.Files) == 0 || hasBase(s.Files) {
		return false
	}
	s.failed, s.info.Messages = waitsWords, s.Said
	return true
}

// waitForBase keeps updates until their base is opened.
func (r *Room) waitForBase(s *chartSet, g *cellFiles) {
	if s == nil {
		s = r.newCell(g)
	}
	refused := s.failed
	s.hold(g)
	var updates []string
	for _, m := range g.said {
		if m.Level == "file" {
			r.tell(true, fmt.Sprintf("%s cannot be read: %s. The reasons are under Charts.", m.File, m.Found))
		}
	}
	for _, f := range g.files {
		switch {
		case f.Cancels:
			r.tell(true, fmt.Sprintf("%s says that its producer cancelled the cell %s, which is not open.", path.Base(f.Name), g.cell))
		case !f.Paper:
			updates = append(updates, f.Name)
		}
	}
	if len(updates) > 0 {
		words := fmt.Sprintf("%s %s of a cell that is not open, and kept until its base is: %s.000 of edition %s.", joined(updates), isAre(len(updates)), g.cell, g.files[0].Edition)
		if b := g.batch; b != nil {
			b.waits, b.waiting = append(b.waits, g.cell), append(b.waiting, words)
		} else {
			r.tell(true, words)
		}
	}
	if !r.waits(s) {
		s.failed = cmp.Or(refused, "Nothing of it could be read.")
		s.info.Messages = slices.Concat(s.info.Messages, g.said)
	}
	if len(s.Files) == 0 {
		r.ends(g, false)
		return
	}
	r.keepChart(s, func(kept bool) { r.ends(g, kept) })
}

// heldName is how an update is called that is kept for another edition or a base that
// is not there.
func heldName(f cellFile) string { return strings.TrimSpace(f.Edition) + "/" + path.Base(f.Name) }

// heldBack says whether a file is kept so, and is no part of the chart yet.
func heldBack(name string) bool {
	return strings.Contains(name, "/") && !strings.HasPrefix(name, enc.CancelFolder)
}

// hold keeps the updates among files beside those that a set has, each in a folder
// called after its edition, and what was said.
func (s *chartSet) hold(g *cellFiles) (more bool) {
	for _, f := range g.files {
		if f.Base || f.Paper || slices.ContainsFunc(s.Files, func(o File) bool { return bytes.Equal(o.Data.Bytes(), f.data.Bytes()) }) {
			continue
		}
		s.Files, more = append(s.Files, File{Name: heldName(f), Data: f.data}), true
	}
	for _, m := range g.said {
		if !slices.Contains(s.Said, m) {
			s.Said, more = append(s.Said, m), true
		}
	}
	return more
}

// like says whether two files are of the same cell, edition and number.
func (f cellFile) like(o cellFile) bool {
	return f.Name == o.Name && whole(f.Edition) == whole(o.Edition)
}

func isAre(n int) string {
	if n == 1 {
		return "is an update"
	}
	return "are updates"
}

// spareOf keeps what waited for a set that is removed, and what cancelled it.
func (r *Room) spareOf(s *chartSet) {
	for _, g := range s.waiting {
		for _, f := range g.files {
			if !f.Base && !f.Paper {
				r.spare(f)
			}
		}
		r.ends(g, false)
	}
	for _, f := range s.Files {
		if strings.HasPrefix(f.Name, enc.CancelFolder) {
			r.spare(cellFile{engine.SortedFile{Name: f.Name, Cell: s.cell, Edition: "0", Update: numberOf(f.Name), Cancels: true}, f.Data})
		}
	}
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
	t := &trial{from: g}
	if !g.complete {
		t.said = slices.Clone(s.Said)
	}
	edition, update, first := -1, -1, -1 // of the cell, and the update that its base states
	if s.failed == "" && s.info.Cell != nil {
		t.files = slices.Clone(s.Files)
		edition, update = whole(s.info.Cell.Edition), whole(s.info.Cell.Update)
		first = update - s.info.Cell.Applied
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
			later := f
			later.Name = heldName(f)
			t.put(later)
			t.say(engine.SetMessage{Level: "warning", Code: "W-UPDATE", File: f.Name, Edition: f.Edition, Update: f.Update, Found: "an update of edition " + f.Edition + ": this edition is out of date",
				Wanted: f.Cell + ".000 of edition " + f.Edition})
		case e < edition:
			t.notes = append(t.notes, fmt.Sprintf("%s is an update of edition %s and was left out: edition %d is open.", f.Name, f.Edition, edition))
		case f.Update <= first: // it is in the base
		case t.has(f.Name) && f.Update != update+1: // in use, or not tried yet
			if !t.same(f) {
				t.notes = append(t.notes, f.Name+" is another copy than the one that is there, with other bytes, and was left out.")
			}
		default:
			t.put(f)
		}
	}
	update = max(update, first)
	for t.has(fmt.Sprintf("%s.%03d", g.cell, update+1)) { // what it comes to, if all fits
		update++
	}
	t.settle(g, edition, update)
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
			t.notes = append(t.notes, base.Name+" is another copy than the one that is there, with other bytes, and was left out.")
		}
		return false
	}
	waited := slices.DeleteFunc(slices.Clone(t.files), func(f File) bool { return !heldBack(f.Name) || whole(path.Dir(f.Name)) != e })
	t.files = slices.DeleteFunc(t.files, func(f File) bool {
		if strings.HasPrefix(f.Name, enc.CancelFolder) { // what is issued later it does not cancel
			return false
		}
		if heldBack(f.Name) {
			return whole(path.Dir(f.Name)) <= e
		}
		return e > edition || !enc.NamesPaper(f.Name) && numberOf(f.Name) <= base.Update
	})
	t.files = slices.Insert(t.files, 0, File{Name: base.Name, Data: base.data})
	for _, f := range waited { // for this edition
		if name := path.Base(f.Name); numberOf(name) > base.Update && !t.has(name) {
			t.files = append(t.files, File{Name: name, Data: f.Data})
		}
	}
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
// file that came whole, or a state of the cell that is reached. Of a file that could
// not be read nobody knows what edition it was.
func (t *trial) settle(g *cellFiles, edition, update int) {
	came := func(name string) bool {
		n := numberOf(name)
		return slices.ContainsFunc(g.files, func(f cellFile) bool {
			return !f.Paper && !f.Cancels && whole(f.Edition) == edition && (f.Base && (n == 0 || n <= f.Update) || !f.Base && f.Update == n)
		})
	}
	holds := func(m engine.SetMessage) bool {
		switch n := numberOf(m.File); {
		case m.Edition != "":
			return whole(m.Edition) > edition || whole(m.Edition) == edition && m.Update > update
		case m.Code == "W-CATALOG":
			return !t.has(m.File) && n > update
		}
		return !came(m.File)
	}
	before := len(t.said)
	t.said = slices.DeleteFunc(t.said, func(m engine.SetMessage) bool { return !holds(m) })
	t.changed = t.changed || len(t.said) != before
	for _, m := range g.said {
		switch {
		case holds(m):
			t.say(m)
		case m.Code != "W-CATALOG" && m.Edition == "":
			t.notes = append(t.notes, fmt.Sprintf("Another copy of %s was refused (%s); the one that is whole stays.", m.File, m.Found))
		}
	}
}

func whole(s string) int { n, _ := strconv.Atoi(s); return n }

// numberOf is the number of an update by the name of its file, 0 for a base.
func numberOf(file string) int { return whole(strings.TrimPrefix(path.Ext(file), ".")) }

// joinNext tries what waits longest to join a cell, once nothing of it is being
// read. What was open, and what is kept, stays when that comes to nothing.
func (r *Room) joinNext(s *chartSet) {
	if s.reading || s.sorting || len(s.waiting) == 0 || !r.has(s) {
		return
	}
	g := s.waiting[0]
	s.waiting = s.waiting[1:]
	switch refused := s.failed != ""; {
	case refused && g.base() == nil && (g.complete || !hasBase(s.Files)):
		r.waitForBase(s, g)
		r.joinNext(s)
		return
	case refused && !g.complete && len(s.Files) > 0:
		r.takeCell(g) // its files are told apart once more
		return
	}
	r.spares = slices.DeleteFunc(r.spares, func(f cellFile) bool {
		if f.Cell == g.cell && !slices.ContainsFunc(g.files, f.like) {
			g.files = append(g.files, f)
		}
		return f.Cell == g.cell
	})
	t := r.trialOf(s, g)
	was := s.info.Cell
	if s.failed != "" {
		was = nil
	}
	if was != nil && !t.changed {
		r.tellAll(t.notes)
		if len(t.notes) == 0 && (g.batch == nil || g.batch.kept == "") {
			r.tell(false, fmt.Sprintf("%s, %s, was open already.", was.Name, editionWords(was)))
		}
		if s.kept && !s.unsaved {
			r.ends(g, true)
		} else {
			r.keepChart(s, func(kept bool) { r.ends(g, kept) })
		}
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
		if g.batch != nil {
			g.batch.refused = append(g.batch.refused, s.Name)
		}
		more := false
		if !s.kept && g.batch != nil && g.batch.kept != "" { // the store has it in another set
			s.Files, s.Said, more = t.files, t.said, true
		} else {
			more = s.hold(g)
		}
		if more && len(s.Files) > 0 {
			r.keepChart(s, func(kept bool) { r.ends(g, kept) })
		} else {
			r.ends(g, false)
		}
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
	switch e := whole(t.base.Edition); {
	case e == whole(was.Edition) && t.base.Update > whole(was.Update):
		rest.said = append(rest.said, engine.SetMessage{Level: "warning", Code: "W-UPDATE", File: t.base.Name, Edition: t.base.Edition, Update: t.base.Update,
			Found: fmt.Sprintf("a base with updates to %d in it that was refused: the cell is out of date", t.base.Update), Wanted: t.base.Name + ", whole"})
	case e > whole(was.Edition):
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
	r.keepChart(s, func(kept bool) {
		r.tellTaken(s, t, now, was)
		r.ends(t.from, kept)
	})
}

func (r *Room) tellAll(notes []string) {
	for _, n := range notes {
		r.tell(true, n)
	}
}

// tellTaken tells what became of a cell once it is kept.
func (r *Room) tellTaken(s *chartSet, t *trial, now, was *engine.CellInfo) {
	r.tellAll(t.notes)
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
	stem, _, _ = strings.Cut(stem, " (") // a second copy, as browsers call it
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
