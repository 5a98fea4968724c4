package state

import (
	"fmt"
	"slices"

	"keelroom/app/engine"
	"keelroom/app/phrase"
	"keelroom/geo/library"
)

// holding is what is stored of a set, as the rules of the collection know it.
func (s *SavedSet) holding() library.Holding {
	h := library.Holding{Files: s.Files}
	for _, m := range s.LeftOut {
		h.LeftOut = append(h.LeftOut, m.Library())
	}
	return h
}

// hold makes a holding what is stored of a set.
func (s *SavedSet) hold(h library.Holding) { s.Files, s.LeftOut = h.Files, keptMessages(h.LeftOut) }

func keptMessages(list []library.Message) (kept []engine.SetMessage) {
	for _, m := range list {
		kept = append(kept, engine.KeptMessage(m))
	}
	return kept
}

// open is the state of a cell that was read, nil of one that was not.
func (s *ChartSet) open() *library.Open {
	if c := s.Info.Cell; s.Failed == "" && c != nil {
		return library.OpenAs(c.Edition, c.Update, c.Applied)
	}
	return nil
}

// noteWords say what was left out of files that were opened, and why.
func noteWords(cell string, n library.Note) string {
	switch n.Kind {
	case library.OlderEdition:
		return fmt.Sprintf("%s stays as it was: it is edition %d, and what was given is edition %d. Remove it first to open that one.", cell, n.Open, library.Number(n.Edition))
	case library.OtherCopy:
		return n.File + " is another copy than the one that is there, with other bytes, and was left out."
	case library.OlderUpdate:
		return fmt.Sprintf("%s is an update of edition %s and was left out: edition %d is open.", n.File, n.Edition, n.Open)
	case library.ListedBase:
		return n.Found + "; what is open of it stays."
	}
	return fmt.Sprintf("Another copy of %s was refused (%s); the one that is whole stays.", n.File, n.Found)
}

// joining is a change of a cell that the engine is reading, and the files that it is
// made from.
type joining struct {
	*library.Change
	from *cellFiles
}

// joinNext tries what waits longest to join a cell, once nothing of it is being
// read. What was open, and what is kept, stays when that comes to nothing.
func (cl *Cells) joinNext(s *ChartSet) {
	if s.Reading || s.sorting || len(s.waiting) == 0 || !cl.charts.has(s) {
		return
	}
	g := s.waiting[0]
	s.waiting = s.waiting[1:]
	switch library.WayOf(s.Failed == "", s.holding(), &g.Given) {
	case library.KeepThem:
		cl.waitForBase(s, g)
		cl.joinNext(s)
		return
	case library.SortAll:
		cl.takeCell(g)
		return
	}
	cl.unclaimed.Claim(&g.Given)
	open, was := s.open(), s.Info.Cell
	if open == nil {
		was = nil
	}
	c := &joining{library.Join(s.holding(), open, &g.Given), g}
	if was != nil && !c.Any {
		cl.unchanged(s, c, was)
		return
	}
	s.joining = c
	cl.charts.send(s, func(taken bool) {
		if taken {
			cl.cellTaken(s, c, was)
		} else {
			cl.cellRefused(s, c, was)
		}
	})
}

// unchanged goes on where nothing new was given.
func (cl *Cells) unchanged(s *ChartSet, c *joining, was *engine.CellInfo) {
	g := c.from
	cl.showNotes(s, c.Notes)
	if len(c.Notes) == 0 && len(g.Files) > 0 && (g.batch == nil || g.batch.kept == "") {
		cl.notices.notify(false, fmt.Sprintf("%s, %s, was open already.", was.Name, editionWords(was)))
	}
	if s.kept && !s.unsaved {
		cl.ends(g, true)
	} else {
		cl.charts.keepChart(s, func(kept bool) { cl.ends(g, kept) })
	}
	cl.joinNext(s)
}

// cellRefused leaves a cell as it was. The files that came with a base that was
// refused are tried without it, and that a later edition was seen is kept.
func (cl *Cells) cellRefused(s *ChartSet, c *joining, was *engine.CellInfo) {
	if was == nil {
		cl.staysRefused(s, c)
		return
	}
	g := c.from
	why := s.Failed
	s.Failed = ""
	cl.notices.notify(true, why)
	if c.Base == nil {
		cl.ends(g, false)
		return
	}
	is := library.OpenAs(was.Edition, was.Update, was.Applied).Is
	left := library.WithoutBase(&g.Given, c.Base, is)
	if left == nil {
		cl.ends(g, false)
		return
	}
	rest := &cellFiles{Given: *left, batch: g.batch}
	if rest.batch != nil {
		rest.batch.whole = false
	}
	s.waiting = slices.Insert(s.waiting, 0, rest)
}

// staysRefused keeps the updates of a cell that could not be read for a better base.
func (cl *Cells) staysRefused(s *ChartSet, c *joining) {
	g, more := c.from, false
	if c.Base != nil {
		g.LeftOut = append(slices.Clone(g.LeftOut), library.RefusedBase(c.Base))
	}
	if s.kept && library.HasBase(s.Files) {
		s.Failed += " Remove it first to open another edition."
	}
	if g.batch != nil {
		g.batch.refused = append(g.batch.refused, s.Name)
	}
	if !s.kept && g.batch != nil && g.batch.kept != "" { // the store has it in another set
		s.hold(c.Holding)
		more = true
	} else {
		more = s.keepForBase(g)
	}
	if more && len(s.Files) > 0 {
		cl.charts.keepChart(s, func(kept bool) { cl.ends(g, kept) })
	} else {
		cl.ends(g, false)
	}
}

// cellTaken keeps a cell that the engine took.
func (cl *Cells) cellTaken(s *ChartSet, c *joining, was *engine.CellInfo) {
	now := s.Info.Cell
	if now == nil {
		cl.ends(c.from, false)
		return
	}
	cl.charts.keepChart(s, func(kept bool) {
		cl.showTaken(s, c, now, was)
		cl.ends(c.from, kept)
	})
}

func (cl *Cells) showNotes(s *ChartSet, notes []library.Note) {
	for _, n := range notes {
		cl.notices.notify(true, noteWords(s.Name, n))
	}
}

// showTaken says what became of a cell once it is kept.
func (cl *Cells) showTaken(s *ChartSet, c *joining, now, was *engine.CellInfo) {
	cl.showNotes(s, c.Notes)
	left := s.Unapplied()
	switch {
	case now.Cancelled != "" && (was == nil || was.Cancelled == ""):
		cl.notices.notify(true, now.Name+": "+CancelledWords(now))
	case was == nil:
		if b := c.from.batch; b != nil {
			b.box = boxAbout(b.box, s.Info.Bounds)
		}
	case now.Edition != was.Edition || now.Update != was.Update:
		cl.notices.notify(false, fmt.Sprintf("%s is now %s; it was %s.", now.Name, editionWords(now), editionWords(was)))
	case len(left) > 0:
		cl.notices.notify(true, fmt.Sprintf("%s stays %s: %s %s not applied. Why is told under Charts.", now.Name, editionWords(now), phrase.Joined(left), wasWere(len(left))))
	}
	if n := countLevel(s, "file"); n > 0 {
		cl.notices.notify(true, fmt.Sprintf("Not all of %s could be read: %s. The reasons are under Charts.", s.Name, phrase.Counted(n, "thing was refused", "things were refused")))
	}
}
