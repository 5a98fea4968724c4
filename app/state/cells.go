package state

import (
	"cmp"
	"encoding/json"
	"fmt"
	"slices"

	"keelroom/app/engine"
	"keelroom/app/phrase"
	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/geo/library"
)

// cells are files of chart cells on their way into the charts: sorted by the engine, joined
// to what a cell has, or kept until their base comes.
type Cells struct {
	aside   *Aside
	charts  *Charts
	notices *Notices
	ports   *Ports
	view    *View
	recheck func()

	Opening []*Opening
	// unclaimed are kept until the page is closed.
	unclaimed library.Unclaimed
}

// Opening is files of cells that the engine is looking into.
type Opening struct {
	SavedSet        // the files, messages about others, and how they are to be shown
	kept     string // id of the set in the store that they are taken from, "" none
	complete bool   // they are all that a cell has, also what could not be read
	Words    string // what the engine is at
	stop     func() // ends looking into them, nil before it began
}

// Stoppable says whether they were just given: what is kept already is not given up
// halfway.
func (o *Opening) Stoppable() bool { return !o.complete && o.kept == "" }

// stopOpening ends looking into files that were just given: those with an id, "" for all.
func (cl *Cells) stopOpening(id string) {
	for _, o := range cl.Opening {
		if o.Stoppable() && o.stop != nil && (id == "" || o.ID == id) {
			o.stop()
		}
	}
}

// notSorted says why files were not sorted. Those of a kept chart stay as a row of
// their own: what is checked without it is not what the skipper asked for.
func (cl *Cells) notSorted(o *Opening, why string) {
	cl.notices.notify(true, fmt.Sprintf("%s cannot be opened: %s", o.Name, why))
	if o.kept != "" {
		cl.charts.Sets = append(cl.charts.Sets, &ChartSet{SavedSet: o.SavedSet, kept: true, unsorted: true, Failed: why})
		cl.charts.rev++
		cl.charts.changed()
		cl.recheck()
	}
	cl.ports.redraw()
}

// sortAgain has a kept chart looked into once more that could not be sorted.
func (cl *Cells) sortAgain(s *ChartSet) {
	cl.charts.Sets = slices.DeleteFunc(cl.charts.Sets, func(o *ChartSet) bool { return o == s })
	cl.charts.rev++
	cl.charts.changed()
	cl.openCells(&Opening{SavedSet: s.SavedSet, kept: s.ID})
}

// cellFiles are files of one cell that came together.
type cellFiles struct {
	library.Given
	hidden bool
	batch  *batch // that wants to know what becomes of them, nil none
}

// openCells takes files of cells, catalogues and archives that were given together.
// The engine looks into them first: each cell in them is a chart of its own.
func (cl *Cells) openCells(o *Opening) {
	if o.ID == "" {
		o.ID = cl.ports.Device.NewID()
	}
	cl.Opening = append(cl.Opening, o)
	cl.lookInto(o)
	cl.ports.redraw()
}

// lookInto has the engine sort files that are to be opened.
func (cl *Cells) lookInto(o *Opening) {
	q := engine.Request{Kind: engine.SortFiles}
	for _, f := range o.Files {
		q.Files = append(q.Files, layer.File{Name: f.Name, Data: f.Data.Bytes()})
	}
	input := AskedOf(q)
	if cl.aside.has(input) {
		cl.answered(o, engine.Reply{State: engine.Failed, Words: asideWords}, nil)
		return
	}
	o.stop = cl.ports.engine.Ask(q, func(a engine.Reply, docs map[string]Doc) {
		cl.aside.answered(input, a)
		cl.answered(o, a, docs)
	})
}

// answered takes what the engine replies about files that are to be opened.
func (cl *Cells) answered(o *Opening, a engine.Reply, docs map[string]Doc) {
	defer cl.ports.redraw()
	i := slices.Index(cl.Opening, o)
	if a.State == engine.Progress || i < 0 {
		cl.view.Progress, o.Words = a.Words, a.Words
		return
	}
	cl.Opening = slices.Delete(cl.Opening, i, i+1)
	if a.State == engine.Cancelled && o.Stoppable() {
		cl.notices.notify(false, o.Name+" was not opened: you stopped it.")
		return
	}
	var body engine.SortBody
	if err := json.Unmarshal(a.Body, &body); a.State != engine.Done || err != nil {
		cl.notSorted(o, cmp.Or(a.Words, "the answer about it cannot be read"))
	} else {
		cl.takeCells(o, sortedFiles(body.Files, docs), slices.Concat(o.LeftOut, body.Messages))
	}
	if s := cl.cellSet(o.Name); o.complete && s != nil && s.sorting { // nothing came of it
		s.sorting = false
		cl.joinNext(s)
	}
}

// sortedFiles are the files of a reply with their contents.
func sortedFiles(list []library.CellFile, docs map[string]Doc) (files []library.CellFile) {
	for i, f := range list {
		if data, ok := docs[FileDoc(i)].(Blob); ok {
			f.Data = data
			files = append(files, f)
		}
	}
	return files
}

// takeCells takes files that were sorted, cell by cell, with the messages about
// those that were left out.
func (cl *Cells) takeCells(o *Opening, files []library.CellFile, leftOut []engine.SetMessage) {
	messages := make([]library.Message, len(leftOut))
	for i, m := range leftOut {
		messages[i] = m.Library()
	}
	given, others := library.ByCell(files, messages, func(cell string) bool { return cl.cellSet(cell) != nil })
	rest := keptMessages(others)
	groups := make([]*cellFiles, len(given))
	for i, g := range given {
		g.Complete = o.complete
		groups[i] = &cellFiles{Given: *g, hidden: o.Hidden}
	}
	if o.kept != "" && len(groups) == 0 {
		cl.notSorted(o, nothingIn(rest))
		return
	}
	cl.notTaken(o, rest, len(groups) == 0)
	b := &batch{kept: o.kept, left: len(groups) + 1, whole: true}
	for _, g := range groups {
		g.batch = b
	}
	for _, g := range groups {
		cl.takeCell(g)
	}
	cl.ended(b, true)
}

// nothingIn says why nothing came of files.
func nothingIn(why []engine.SetMessage) string {
	if len(why) == 0 {
		return "there is no chart in it that can be read."
	}
	return "nothing of it was taken: " + why[0].Found + "; wanted: " + why[0].Wanted + "."
}

// notTaken lists what was refused of files that were opened, or is missing, until it
// is dismissed.
func (cl *Cells) notTaken(o *Opening, why []engine.SetMessage, all bool) {
	if len(why) == 0 {
		return
	}
	words := "Part of it was not taken: "
	if all {
		words = "Nothing of it was taken: "
		cl.notices.notify(true, fmt.Sprintf("%s was refused as a whole; the charts that were there stay. The reasons are under Charts.", o.Name))
	} else {
		cl.notices.notify(true, fmt.Sprintf("Not all of %s was taken: %s. The reasons are under Charts.", o.Name, phrase.Counted(len(why), "thing was refused or is missing", "things were refused or are missing")))
	}
	const most = 200
	set := &ChartSet{SavedSet: SavedSet{ID: cl.ports.Device.NewID(), Name: o.Name}, Failed: words + why[0].Found + "; wanted: " + why[0].Wanted + "."}
	set.Info.Messages, set.Info.More = why[:min(most, len(why))], max(len(why)-most, 0)
	cl.charts.Sets = append(cl.charts.Sets, set)
}

// batch is what came of one opening, until it is known of every cell.
type batch struct {
	kept    string // id of the set in the store that it was taken from, "" none
	left    int
	whole   bool     // everything was taken and is kept
	waits   []string // cells whose updates wait for their base, and the words about them
	waiting []string
	refused []string
	box     *[4]float64
}

// ended takes in what became of a part of a batch.
func (cl *Cells) ended(b *batch, whole bool) {
	if b == nil {
		return
	}
	b.whole = b.whole && whole
	if b.left--; b.left > 0 {
		return
	}
	if b.kept != "" && b.whole {
		cl.ports.store.DeleteSet(b.kept, cl.charts.revs[b.kept], func(error) {}) // else it is opened again, to the same effect
	}
	switch len(b.waits) {
	case 0:
	case 1:
		cl.notices.notify(true, b.waiting[0])
	default:
		cl.notices.notify(true, fmt.Sprintf("Updates of %s are kept until their bases are opened: these cells are not open.", phrase.Joined(b.waits)))
	}
	if len(b.refused) > 0 {
		cl.notices.notify(true, fmt.Sprintf("%s %s refused as a whole; the charts that were there stay. The reasons are under Charts.", phrase.Joined(b.refused), wasWere(len(b.refused))))
	}
	if b.box != nil && b.kept == "" {
		cl.ports.chart.Fit(*b.box)
	}
}

// ends reports to the batch of some files what became of them, once.
func (cl *Cells) ends(g *cellFiles, whole bool) {
	b := g.batch
	g.batch = nil
	cl.ended(b, whole)
}

// cellSet is the row of a cell, also while it is read or refused.
func (cl *Cells) cellSet(cell string) *ChartSet {
	if i := slices.IndexFunc(cl.charts.Sets, func(s *ChartSet) bool { return cell != "" && s.cell == cell }); i >= 0 {
		return cl.charts.Sets[i]
	}
	return nil
}

// cellID is the id of a cell's set: the same in every tab, so that a cell is kept once.
func cellID(cell string) string { return "cell-" + cell }

// takeCell has the files of a cell tried beside those that it has. Updates without a
// base are kept until it comes; to a cell that could not be read its files are given
// once more, the new ones first.
func (cl *Cells) takeCell(g *cellFiles) {
	s := cl.cellSet(g.Cell)
	if s != nil && g.Complete {
		s.sorting = false
		s.waiting = slices.Insert(s.waiting, 0, g)
		cl.joinNext(s)
		return
	}
	var has library.Holding
	if s != nil {
		has = s.holding()
	}
	busy := s != nil && (s.Reading || s.sorting)
	switch library.WayOf(busy || s != nil && s.Failed == "", has, &g.Given) {
	case library.KeepThem:
		cl.waitForBase(s, g)
		return
	case library.SortAll:
		cl.sortWith(s, g)
		return
	}
	if s == nil {
		s = cl.newCell(g)
	}
	s.waiting = append(s.waiting, g)
	cl.joinNext(s)
}

// sortWith has files sorted once more together with those that a cell has.
func (cl *Cells) sortWith(s *ChartSet, g *cellFiles) {
	o := &Opening{SavedSet: SavedSet{Name: s.Name, Hidden: s.Hidden, LeftOut: slices.Concat(s.LeftOut, keptMessages(g.LeftOut))}, complete: true}
	for _, f := range g.Files {
		o.Files = append(o.Files, File{Name: f.Name, Data: f.Data})
	}
	o.Files = append(o.Files, s.Files...)
	s.sorting = true
	cl.openCells(o)
	cl.ends(g, false)
}

func (cl *Cells) newCell(g *cellFiles) *ChartSet {
	s := &ChartSet{SavedSet: SavedSet{ID: cellID(g.Cell), Name: g.Cell, Hidden: g.hidden, Order: cl.charts.nextOrder()}, cell: g.Cell}
	cl.charts.Sets = append(cl.charts.Sets, s)
	return s
}

// waits says whether a set is updates without their base, and marks it so.
func (cl *Cells) waits(s *ChartSet) bool {
	if s.cell == "" || len(s.Files) == 0 || library.HasBase(s.Files) {
		return false
	}
	s.Failed, s.Info.Messages = WaitsWords, s.LeftOut
	return true
}

// waitForBase keeps updates until their base is opened.
func (cl *Cells) waitForBase(s *ChartSet, g *cellFiles) {
	if s == nil {
		s = cl.newCell(g)
	}
	refused := s.Failed
	s.keepForBase(g)
	cl.showWaiting(g)
	if !cl.waits(s) {
		s.Failed = cmp.Or(refused, "Nothing of it could be read.")
		s.Info.Messages = slices.Concat(s.Info.Messages, keptMessages(g.LeftOut))
	}
	if len(s.Files) == 0 {
		cl.ends(g, false)
		return
	}
	cl.charts.keepChart(s, func(kept bool) { cl.ends(g, kept) })
}

// showWaiting says what came of a cell whose base is not there.
func (cl *Cells) showWaiting(g *cellFiles) {
	for _, m := range g.LeftOut {
		if m.Level == chart.FileError {
			cl.notices.notify(true, fmt.Sprintf("%s cannot be read: %s. The reasons are under Charts.", m.File, m.Found))
		}
	}
	var updates []string
	edition := ""
	for _, f := range g.Files {
		switch f.Role {
		case library.Cancellation:
			cl.notices.notify(true, fmt.Sprintf("%s says that its producer cancelled the cell %s, which is not open.", library.BaseName(f.Name), g.Cell))
		case library.Update:
			updates, edition = append(updates, f.Name), f.Edition
		}
	}
	if len(updates) == 0 {
		return
	}
	words := fmt.Sprintf("%s %s of a cell that is not open, and kept until its base is: %s.000 of edition %s.", phrase.Joined(updates), isAre(len(updates)), g.Cell, edition)
	if b := g.batch; b != nil {
		b.waits, b.waiting = append(b.waits, g.Cell), append(b.waiting, words)
	} else {
		cl.notices.notify(true, words)
	}
}

// keepForBase keeps updates beside what a set has until their base comes, and says
// whether that is something new.
func (s *ChartSet) keepForBase(g *cellFiles) (more bool) {
	h, more := s.holding().Keep(&g.Given)
	s.hold(h)
	return more
}

// leaveUnclaimed keeps what waited for a set that is removed, and what cancelled it.
func (cl *Cells) leaveUnclaimed(s *ChartSet) {
	for _, g := range s.waiting {
		for _, f := range g.Files {
			cl.unclaimed.Add(f)
		}
		cl.ends(g, false)
	}
	cl.unclaimed.AddCancellations(s.cell, s.Files)
}
