package app

import (
	"bytes"
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"

	"keelroom/app/engine"
	"keelroom/geo/enc"
)

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
func (r *cells) trialOf(s *chartSet, g *cellFiles) *trial {
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
		if !f.Base {
			t.takesUpdate(f, edition, update, first)
		}
	}
	update = max(update, first)
	for t.has(fmt.Sprintf("%s.%03d", g.cell, update+1)) { // what it comes to, if all fits
		update++
	}
	t.settle(g, edition, update, s.failed == "" && s.info.Cell != nil && edition != whole(s.info.Cell.Edition))
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

// takesUpdate puts in what is no base. An update of a later edition waits for its base;
// a copy of one that is in use, or was not tried yet, is left out.
func (t *trial) takesUpdate(f cellFile, edition, update, first int) {
	e := whole(f.Edition)
	switch {
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
	case t.has(f.Name) && f.Update != update+1:
		if !t.same(f) {
			t.notes = append(t.notes, f.Name+" is another copy than the one that is there, with other bytes, and was left out.")
		}
	default:
		t.put(f)
	}
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
// not be read nobody knows what edition it was; what a catalogue missed, and which of
// two copies is damaged, is nothing to another edition.
func (t *trial) settle(g *cellFiles, edition, update int, another bool) {
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
			return !t.has(m.File) && !t.has(enc.CancelFolder+m.File) && n > update
		case m.Code == "E-COPY":
			return true
		}
		return !came(m.File)
	}
	before := len(t.said)
	t.said = slices.DeleteFunc(t.said, func(m engine.SetMessage) bool {
		return !holds(m) || another && (m.Code == "W-CATALOG" || m.Code == "E-COPY")
	})
	t.changed = t.changed || len(t.said) != before
	for _, m := range g.said {
		switch {
		case holds(m):
			t.say(m)
		case m.Code == "W-CATALOG" && numberOf(m.File) == 0 && g.base() == nil:
			t.notes = append(t.notes, fmt.Sprintf("%s; what is open of it stays.", m.Found))
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
func (r *cells) joinNext(s *chartSet) {
	if s.reading || s.sorting || len(s.waiting) == 0 || !r.charts.has(s) {
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
		r.unchanged(s, t, was)
		return
	}
	s.trying = t
	r.charts.send(s, func(taken bool) {
		if taken {
			r.cellTaken(s, t, was)
		} else {
			r.cellRefused(s, t, was)
		}
	})
}

// refusedBase is what stays said of a base that could not be read.
func refusedBase(base *cellFile) engine.SetMessage {
	what := "edition " + base.Edition
	if base.Update > 0 {
		what += fmt.Sprintf(" with updates to %d in it", base.Update)
	}
	return engine.SetMessage{Level: "warning", Code: "W-UPDATE", File: base.Name, Edition: base.Edition, Update: base.Update,
		Found: "a base of " + what + " that was refused: what is older is out of date", Wanted: base.Name + " of " + what + ", whole"}
}

// unchanged goes on where nothing new was given.
func (r *cells) unchanged(s *chartSet, t *trial, was *engine.CellInfo) {
	g := t.from
	r.tellAll(t.notes)
	if len(t.notes) == 0 && len(g.files) > 0 && (g.batch == nil || g.batch.kept == "") {
		r.notices.notify(false, fmt.Sprintf("%s, %s, was open already.", was.Name, editionWords(was)))
	}
	if s.kept && !s.unsaved {
		r.ends(g, true)
	} else {
		r.charts.keepChart(s, func(kept bool) { r.ends(g, kept) })
	}
	r.joinNext(s)
}

// cellRefused leaves a cell as it was. The files that came with a base that was
// refused are tried without it, and that a later edition was seen stays told.
func (r *cells) cellRefused(s *chartSet, t *trial, was *engine.CellInfo) {
	if was == nil {
		r.staysRefused(s, t)
		return
	}
	g := t.from
	why := s.failed
	s.failed = ""
	r.notices.notify(true, why)
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
	if e := whole(t.base.Edition); e > whole(was.Edition) || e == whole(was.Edition) && t.base.Update > whole(was.Update) {
		rest.said = append(rest.said, refusedBase(t.base))
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

// staysRefused keeps the updates of a cell that could not be read for a better base.
func (r *cells) staysRefused(s *chartSet, t *trial) {
	g, more := t.from, false
	if t.base != nil {
		g.said = append(slices.Clone(g.said), refusedBase(t.base))
	}
	if s.kept && hasBase(s.Files) {
		s.failed += " Remove it first to open another edition."
	}
	if g.batch != nil {
		g.batch.refused = append(g.batch.refused, s.Name)
	}
	if !s.kept && g.batch != nil && g.batch.kept != "" { // the store has it in another set
		s.Files, s.Said, more = t.files, t.said, true
	} else {
		more = s.hold(g)
	}
	if more && len(s.Files) > 0 {
		r.charts.keepChart(s, func(kept bool) { r.ends(g, kept) })
	} else {
		r.ends(g, false)
	}
}

// cellTaken keeps a cell that the engine took.
func (r *cells) cellTaken(s *chartSet, t *trial, was *engine.CellInfo) {
	now := s.info.Cell
	if now == nil {
		r.ends(t.from, false)
		return
	}
	r.charts.keepChart(s, func(kept bool) {
		r.tellTaken(s, t, now, was)
		r.ends(t.from, kept)
	})
}

func (r *cells) tellAll(notes []string) {
	for _, n := range notes {
		r.notices.notify(true, n)
	}
}

// tellTaken tells what became of a cell once it is kept.
func (r *cells) tellTaken(s *chartSet, t *trial, now, was *engine.CellInfo) {
	r.tellAll(t.notes)
	left := s.leftOut()
	switch {
	case now.Cancelled != "" && (was == nil || was.Cancelled == ""):
		r.notices.notify(true, now.Name+": "+cancelledWords(now))
	case was == nil:
		if b := t.from.batch; b != nil {
			b.box = boxAbout(b.box, s.info.Bounds)
		}
	case now.Edition != was.Edition || now.Update != was.Update:
		r.notices.notify(false, fmt.Sprintf("%s is now %s; it was %s.", now.Name, editionWords(now), editionWords(was)))
	case len(left) > 0:
		r.notices.notify(true, fmt.Sprintf("%s stays %s: %s %s not applied. Why is told under Charts.", now.Name, editionWords(now), joined(left), wasWere(len(left))))
	}
	if n := countLevel(s, "file"); n > 0 {
		r.notices.notify(true, fmt.Sprintf("Not all of %s could be read: %s. The reasons are under Charts.", s.Name, counted(n, "thing was refused", "things were refused")))
	}
}
