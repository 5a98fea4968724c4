package state

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"keelroom/app/engine"
	"keelroom/app/phrase"
	"keelroom/geo/library"
	"keelroom/hazards/plan"
)

// all saves everything in one file.
func (e *Exports) all() {
	a := engine.Archive{Version: engine.ArchiveVersion, Cautions: plan.StandingCautions(), Settings: e.settings.Values}
	for _, s := range e.charts.Sets {
		if s.demo || s.Failed != "" && !s.kept && s.cell == "" {
			continue
		}
		files := s.Files
		if len(files) == 0 && s.joining != nil { // it is being read
			files = s.joining.Files
		}
		if len(files) == 0 {
			continue
		}
		a.Sets = append(a.Sets, archivedOf(s.SavedSet, files))
	}
	for _, o := range e.cells.Opening {
		if o.kept != "" { // of an earlier version, and being looked into
			a.Sets = append(a.Sets, archivedOf(o.SavedSet, o.Files))
		}
	}
	e.archivePlans(a, e.keeper.List)
}

func archivedOf(s SavedSet, files []File) engine.ArchivedSet {
	set := engine.ArchivedSet{Name: s.Name, Hidden: s.Hidden, LeftOut: s.LeftOut}
	for _, f := range files {
		kept := engine.ArchivedFile{Name: f.Name}
		if b := f.Data.Bytes(); utf8.Valid(b) {
			kept.Text = string(b)
		} else {
			kept.Bytes = b
		}
		set.Files = append(set.Files, kept)
	}
	return set
}

// archivePlans fetches one plan after the other, then saves.
func (e *Exports) archivePlans(a engine.Archive, left []PlanHead) {
	if len(left) == 0 {
		b, err := json.Marshal(a)
		if err != nil {
			e.notices.notify(true, "The archive cannot be written: "+err.Error())
			return
		}
		e.ports.Device.Save("Keelroom archive.json", "application/json", string(b))
		for _, p := range a.Plans {
			e.keeper.wasExported(p.ID, p.Plan)
		}
		return
	}
	take := func(p SavedPlan, err error) {
		if err != nil {
			e.notices.notify(true, fmt.Sprintf("%s cannot be read and is not in the archive: %v", left[0].Title, err))
		} else {
			a.Plans = append(a.Plans, engine.ArchivedPlan{ID: p.ID, Plan: p.Text, Past: p.Past, Future: p.Future})
		}
		e.archivePlans(a, left[1:])
	}
	if left[0].ID == e.history.Open.ID {
		take(e.history.Open, nil)
		return
	}
	if w, ok := e.keeper.Save.waiting[left[0].ID]; ok {
		take(w, nil)
		return
	}
	e.ports.store.Plan(left[0].ID, take)
}

// intake is a file that is being looked into, and an archive that is being taken in
// beside what is there: plan after plan, so that the screen goes on meanwhile. Nothing
// that is kept already is changed.
type intake struct {
	name   string
	stop   func()
	next   func()              // goes on with the files that came with it
	notice int                 // of how far it is, 0 none
	queue  []engine.OpenedPlan // that are to be kept
	saving bool
	whole  bool // nothing more comes
	ended  bool // by the skipper, or for want of room: what comes after that is not taken
	total  int
	plans  int // kept
	sets   int
	failed []string // the titles of plans that were refused
	why    error    // of the last of them
}

// receive takes a slice of an archive, or a reply on the way to it.
func (fl *Files) receive(t *intake, a engine.Reply, body *engine.OpenBody, docs map[string]Doc) {
	fl.view.Progress = a.Words
	if body.What != engine.IsArchive || t.ended {
		return
	}
	t.total = max(t.total, a.Total)
	file := 0
	for _, s := range body.Sets {
		files := make([]File, len(s.Files))
		for i := range files {
			data, _ := docs[FileDoc(file)].(Blob)
			files[i] = File{Name: s.Files[i].Name, Data: data}
			file++
		}
		t.sets++
		fl.archivedSet(s, files)
	}
	t.queue = append(t.queue, body.Plans...)
	fl.keepNext(t)
}

// keepNext keeps the next plan of an archive once the one before is kept.
func (fl *Files) keepNext(t *intake) {
	switch {
	case t.saving || t.ended:
		return
	case len(t.queue) > 0:
		p := t.queue[0]
		t.queue, t.saving = t.queue[1:], true
		fl.keeper.saveArchived(p, func(err error) { fl.planKept(t, p.Title, err) })
	case t.whole:
		fl.endIntake(t)
		fl.showOutcome(t, len(t.failed))
	}
}

// planKept goes on after a plan was kept, or was not. Without room the rest would fare no
// better, so it is not tried.
func (fl *Files) planKept(t *intake, title string, err error) {
	t.saving = false
	if err == nil {
		t.plans++
	} else {
		t.failed, t.why = append(t.failed, title), err
	}
	switch {
	case t.ended:
	case errors.Is(err, ErrNoRoom):
		fl.endIntake(t)
		t.stop()
		fl.showOutcome(t, max(t.total-t.plans-t.sets, len(t.failed)))
	default:
		if (t.plans+len(t.failed))%progressEvery == 0 {
			fl.showProgress(t)
		}
		fl.keepNext(t)
	}
}

// endIntake takes nothing more in of an archive.
func (fl *Files) endIntake(t *intake) {
	t.queue, t.whole, t.ended = nil, false, true
	fl.stopping = slices.DeleteFunc(fl.stopping, func(o *intake) bool { return o == t })
	fl.notices.dismiss(t.notice)
}

// showOutcome says what of an archive was taken in, and how much of it was not.
func (fl *Files) showOutcome(t *intake, failed int) {
	taken := fmt.Sprintf("%s taken in, %s being opened.", phrase.Counted(t.plans, "plan is", "plans are"), phrase.Counted(t.sets, "set of chart files is", "sets of chart files are"))
	if failed == 0 {
		fl.notices.notify(false, t.name+": "+taken)
		return
	}
	fl.notices.notify(true, fmt.Sprintf("%s: %d of %d plans and charts could not be kept: %s The first of them is %s. %s", t.name, failed, t.total, sentence(t.why), t.failed[0], taken))
}

// progressEvery is after how many plans it is shown how far an archive is taken in.
const progressEvery = 50

// showProgress says how far an archive is taken in, and offers to stop there.
func (fl *Files) showProgress(t *intake) {
	fl.notices.dismiss(t.notice)
	fl.notices.add(Notice{Text: fmt.Sprintf("%s: %d of %d plans and charts are taken in.", t.name, t.plans+t.sets, t.total), Do: "taking-stop", arg: t.name, label: "Stop"})
	t.notice = fl.notices.lastID
	fl.stopping = append(slices.DeleteFunc(fl.stopping, func(o *intake) bool { return o == t }), t)
}

// stopIntake ends the taking in of an archive; what was taken in stays.
func (fl *Files) stopIntake(name string) {
	for _, t := range slices.Clone(fl.stopping) {
		if t.name != name || t.queue == nil && !t.saving {
			continue
		}
		t.stop()
		fl.endIntake(t)
		fl.notices.notify(false, fmt.Sprintf("%s: stopped after %s; what was taken in stays.", t.name, phrase.Counted(t.plans, "plan", "plans")))
	}
}

// archivedSet opens a set of an archive.
func (fl *Files) archivedSet(s engine.ArchivedSet, files []File) {
	set := &ChartSet{SavedSet: SavedSet{ID: fl.ports.Device.NewID(), Name: s.Name, Hidden: s.Hidden, Order: fl.charts.nextOrder(), LeftOut: s.LeftOut, Files: files}}
	if cell, mixed := library.OneCell(set.Files); cell != "" || mixed { // it may be open already
		fl.cells.openCells(&Opening{SavedSet: set.SavedSet})
		return
	}
	fl.charts.Sets = append(fl.charts.Sets, set)
	fl.charts.send(set, func(taken bool) { fl.charts.opened(set, taken) })
}

// saveArchived keeps a plan of an archive, as a new one where there is one by its id
// already, or was one that is deleted: under that id nothing is saved any more.
func (k *Keeper) saveArchived(p engine.OpenedPlan, done func(error)) {
	kept := SavedPlan{PlanHead: PlanHead{ID: p.ID, Title: p.Title, Rev: 1, Changed: k.ports.Device.Now()}, Text: p.Plan, Past: p.Past, Future: p.Future}
	if kept.ID == "" || k.known(kept.ID) || k.Save.Gone[kept.ID] {
		kept.ID = k.ports.Device.NewID()
	}
	k.Save.archived++
	k.ports.store.SavePlan(kept, func(err error) {
		k.Save.archived--
		if err == nil {
			k.putHead(kept.PlanHead)
		}
		done(err)
	})
}

// withCautions puts the standing cautions into a plan file that leaves the
// device: a foreign member, which readers of GeoJSON pass over.
func withCautions(planFile string) string {
	if strings.Contains(planFile, `"cautions"`) || !strings.HasPrefix(planFile, "{") {
		return planFile
	}
	list, _ := json.Marshal(plan.StandingCautions()) // texts only: does not fail
	return `{"cautions":` + string(list) + "," + planFile[1:]
}
