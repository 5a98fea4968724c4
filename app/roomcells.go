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

	"keelroom/app/engine"
	"keelroom/geo/enc"
	"keelroom/geo/layer"
)

// cells are files of chart cells on their way into the charts: told apart, tried, taken or kept waiting.
type cells struct {
	aside   *aside
	charts  *charts
	notices *notices
	ports   *ports
	view    *view
	recheck func()

	opening []*opening
	spares  []cellFile
}

// opening is files of cells that the engine is looking into.
type opening struct {
	SavedSet        // the files, what was said of others, and how they are to be shown
	kept     string // id of the set in the store that they are taken from, "" none
	complete bool   // they are all that a cell has, also what could not be read
	words    string // what the engine is at
	stop     func() // ends looking into them, nil before it began
}

// stoppable tells whether they were just given: what is kept already is not given up
// halfway.
func (o *opening) stoppable() bool { return !o.complete && o.kept == "" }

// StopOpening ends looking into files that were just given: those with an id, "" for all.
func (r *cells) stopOpening(id string) {
	for _, o := range r.opening {
		if o.stoppable() && o.stop != nil && (id == "" || o.ID == id) {
			o.stop()
		}
	}
}

// notSorted tells why files were not told apart. Those of a kept chart stay as a row of
// their own: what is checked without it is not what the skipper asked for.
func (r *cells) notSorted(o *opening, why string) {
	r.notices.notify(true, fmt.Sprintf("%s cannot be opened: %s", o.Name, why))
	if o.kept != "" {
		r.charts.sets = append(r.charts.sets, &chartSet{SavedSet: o.SavedSet, kept: true, unsorted: true, failed: why})
		r.charts.rev++
		r.charts.chartChanged()
		r.recheck()
	}
	r.ports.redraw()
}

// sortAgain has a kept chart looked into once more that could not be told apart.
func (r *cells) sortAgain(s *chartSet) {
	r.charts.sets = slices.DeleteFunc(r.charts.sets, func(o *chartSet) bool { return o == s })
	r.charts.rev++
	r.charts.chartChanged()
	r.openCells(&opening{SavedSet: s.SavedSet, kept: s.ID})
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
func (r *cells) openCells(o *opening) {
	if o.ID == "" {
		o.ID = r.ports.device.NewID()
	}
	r.opening = append(r.opening, o)
	r.lookInto(o)
	r.ports.redraw()
}

func (r *cells) lookInto(o *opening) {
	q := engine.Request{Kind: engine.SortFiles}
	for _, f := range o.Files {
		q.Files = append(q.Files, layer.File{Name: f.Name, Data: f.Data.Bytes()})
	}
	input := AskedOf(q)
	answer := func(a engine.Reply, docs map[string]Doc) {
		i := slices.Index(r.opening, o)
		if a.State == engine.Progress || i < 0 {
			r.view.progress, o.words = a.Words, a.Words
			r.ports.redraw()
			return
		}
		r.opening = slices.Delete(r.opening, i, i+1)
		if a.State == engine.Cancelled && o.stoppable() {
			r.notices.notify(false, o.Name+" was not opened: you stopped it.")
			r.ports.redraw()
			return
		}
		var body engine.SortBody
		defer func() {
			if s := r.cellSet(o.Name); o.complete && s != nil && s.sorting { // nothing came of it
				s.sorting = false
				r.joinNext(s)
			}
		}()
		if err := json.Unmarshal(a.Body, &body); a.State != engine.Done || err != nil {
			r.notSorted(o, cmp.Or(a.Words, "the answer about it cannot be read"))
			return
		}
		var files []cellFile
		for i, f := range body.Files {
			if data, ok := docs[FileDoc(i)].(Blob); ok {
				files = append(files, cellFile{f, data})
			}
		}
		r.takeCells(o, files, slices.Concat(o.Said, body.Messages))
		r.ports.redraw()
	}
	if r.aside.has(input) {
		answer(engine.Reply{State: engine.Failed, Words: asideWords}, nil)
		return
	}
	o.stop = r.ports.engine.Ask(q, func(a engine.Reply, docs map[string]Doc) {
		r.aside.answered(input, a)
		answer(a, docs)
	})
}

// takeCells takes files that were told apart: cell by cell, those of the smaller
// scales first, so that the larger lie above. What was said of a file goes with its
// cell, if that is open or among the files.
func (r *cells) takeCells(o *opening, files []cellFile, said []engine.SetMessage) {
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
		if cell != "" && (m.Level == "file" && numberOf(m.File) > 0 || r.cellSet(cell) != nil || slices.ContainsFunc(groups, func(g *cellFiles) bool { return g.cell == cell })) {
			g := group(cell)
			g.said = append(g.said, m)
		} else {
			rest = append(rest, m)
		}
	}
	slices.SortStableFunc(groups, func(a, b *cellFiles) int { return cmp.Compare(scaleOf(b), scaleOf(a)) })
	if o.kept != "" && len(groups) == 0 {
		r.notSorted(o, nothingIn(rest))
		return
	}
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

// nothingIn says why nothing came of files.
func nothingIn(said []engine.SetMessage) string {
	if len(said) == 0 {
		return "there is no chart in it that can be read."
	}
	return "nothing of it was taken: " + said[0].Found + "; wanted: " + said[0].Wanted + "."
}

func scaleOf(g *cellFiles) int {
	if base := g.base(); base != nil {
		return base.Scale
	}
	return 0
}

// notTaken lists what was refused of files that were opened, or is missing, until it
// is dismissed.
func (r *cells) notTaken(o *opening, why []engine.SetMessage, all bool) {
	if len(why) == 0 {
		return
	}
	words := "Part of it was not taken: "
	if all {
		words = "Nothing of it was taken: "
		r.notices.notify(true, fmt.Sprintf("%s was refused as a whole; the charts that were there stay. The reasons are under Charts.", o.Name))
	} else {
		r.notices.notify(true, fmt.Sprintf("Not all of %s was taken: %s. The reasons are under Charts.", o.Name, counted(len(why), "thing was refused or is missing", "things were refused or are missing")))
	}
	const most = 200
	set := &chartSet{SavedSet: SavedSet{ID: r.ports.device.NewID(), Name: o.Name}, failed: words + why[0].Found + "; wanted: " + why[0].Wanted + "."}
	set.info.Messages, set.info.More = why[:min(most, len(why))], max(len(why)-most, 0)
	r.charts.sets = append(r.charts.sets, set)
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
func (r *cells) ended(b *batch, whole bool) {
	if b == nil {
		return
	}
	b.whole = b.whole && whole
	if b.left--; b.left > 0 {
		return
	}
	if b.kept != "" && b.whole {
		r.ports.store.DeleteSet(b.kept, r.charts.revs[b.kept], func(error) {}) // else it is opened again, to the same effect
	}
	switch len(b.waits) {
	case 0:
	case 1:
		r.notices.notify(true, b.waiting[0])
	default:
		r.notices.notify(true, fmt.Sprintf("Updates of %s are kept until their bases are opened: these cells are not open.", joined(b.waits)))
	}
	if len(b.refused) > 0 {
		r.notices.notify(true, fmt.Sprintf("%s %s refused as a whole; the charts that were there stay. The reasons are under Charts.", joined(b.refused), wasWere(len(b.refused))))
	}
	if b.box != nil && b.kept == "" {
		r.ports.chart.Fit(*b.box)
	}
}

// ends tells the batch of some files what became of them, once.
func (r *cells) ends(g *cellFiles, whole bool) {
	b := g.batch
	g.batch = nil
	r.ended(b, whole)
}

// cellSet is the row of a cell, also while it is read or refused.
func (r *cells) cellSet(cell string) *chartSet {
	if i := slices.IndexFunc(r.charts.sets, func(s *chartSet) bool { return cell != "" && s.cell == cell }); i >= 0 {
		return r.charts.sets[i]
	}
	return nil
}

// cellID is the id of a cell's set: the same in every tab, so that a cell is kept once.
func cellID(cell string) string { return "cell-" + cell }

// takeCell has the files of a cell tried beside those that it has. Updates without a
// base are kept until it comes; to a cell that could not be read its files are given
// once more, the new ones first.
func (r *cells) takeCell(g *cellFiles) {
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

func (r *cells) newCell(g *cellFiles) *chartSet {
	s := &chartSet{SavedSet: SavedSet{ID: cellID(g.cell), Name: g.cell, Hidden: g.hidden, Order: r.charts.nextOrder()}, cell: g.cell}
	r.charts.sets = append(r.charts.sets, s)
	return s
}

// hasBase says whether the base of a cell is among its files.
func hasBase(files []File) bool {
	return slices.ContainsFunc(files, func(f File) bool { return cellOf(f.Name) != "" && numberOf(f.Name) == 0 })
}

// waits says whether a set is updates without their base, and marks it so.
func (r *cells) waits(s *chartSet) bool {
	if s.cell == "" || len(s.Files) == 0 || hasBase(s.Files) {
		return false
	}
	s.failed, s.info.Messages = waitsWords, s.Said
	return true
}

// waitForBase keeps updates until their base is opened.
func (r *cells) waitForBase(s *chartSet, g *cellFiles) {
	if s == nil {
		s = r.newCell(g)
	}
	refused := s.failed
	s.hold(g)
	var updates []string
	edition := ""
	for _, m := range g.said {
		if m.Level == "file" {
			r.notices.notify(true, fmt.Sprintf("%s cannot be read: %s. The reasons are under Charts.", m.File, m.Found))
		}
	}
	for _, f := range g.files {
		switch {
		case f.Cancels:
			r.notices.notify(true, fmt.Sprintf("%s says that its producer cancelled the cell %s, which is not open.", path.Base(f.Name), g.cell))
		case !f.Paper:
			updates, edition = append(updates, f.Name), f.Edition
		}
	}
	if len(updates) > 0 {
		words := fmt.Sprintf("%s %s of a cell that is not open, and kept until its base is: %s.000 of edition %s.", joined(updates), isAre(len(updates)), g.cell, edition)
		if b := g.batch; b != nil {
			b.waits, b.waiting = append(b.waits, g.cell), append(b.waiting, words)
		} else {
			r.notices.notify(true, words)
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
	r.charts.keepChart(s, func(kept bool) { r.ends(g, kept) })
}

// heldName is how an update is called that is kept for another edition or a base that
// is not there.
func heldName(f cellFile) string {
	if f.Cancels {
		return f.Name
	}
	return strings.TrimSpace(f.Edition) + "/" + path.Base(f.Name)
}

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

// spareOf keeps what waited for a set that is removed, and what cancelled it.
func (r *cells) spareOf(s *chartSet) {
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
func (r *cells) spare(f cellFile) {
	if !slices.ContainsFunc(r.spares, f.like) {
		r.spares = append(r.spares, f)
	}
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
func (r *cells) charted() (of []*chartSet) {
	for _, s := range r.charts.sets {
		if s.info.Cell != nil {
			of = append(of, s)
		}
	}
	return of
}
