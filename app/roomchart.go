package app

import (
	"encoding/json"
	"errors"
	"fmt"
	"path"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"keelroom/app/engine"
	"keelroom/geo/enc"
	"keelroom/geo/layer"
)

// chartSet is a layer set that the checks go by.
type chartSet struct {
	SavedSet
	demo      bool
	reading   bool
	failed    string
	info      engine.SetInfo
	cell      string            // the name of the cell that it is, "" for layers
	sorting   bool              // what it has and what came is being told apart
	unsaved   bool              // its last saving failed
	saving    []func(kept bool) // that wait for the one that is under way, nil none
	kept      bool              // the store has it
	drawn     bool              // the chart view has it
	paper     string            // the text that came with it and is being read, "" none
	paperText string
	trying    *trial           // what is being read in place of Files
	waiting   []*cellFiles     // that are to be tried next
	asked     int              // how often it was sent: only the newest reply counts
	done      func(taken bool) // while it is being read
}

// The demo is a layer set of the app's own files, never stored.
const (
	demoSet    = "demo"
	demoFolder = "web/demo/"
	demoIndex  = demoFolder + "index.json"
)

// openSets brings the kept sets back, and the demo's unless it was removed.
func (r *Room) openSets(kept []SavedSet) {
	if r.settings[settingDemo] != "removed" {
		r.openDemoSet()
	}
	var old []*opening // what an earlier version kept
	for _, s := range kept {
		r.revs[s.ID] = s.Rev
		if len(s.Files) == 0 {
			r.store.DeleteSet(s.ID, func(error) {})
			continue
		}
		cell, mixed := cellOfAll(s.Files)
		if mixed || cell != "" && s.ID != cellID(cell) {
			old = append(old, &opening{SavedSet: s, kept: s.ID})
			continue
		}
		set := &chartSet{SavedSet: s, cell: cell, kept: true}
		r.sets = append(r.sets, set)
		if !r.waits(set) {
			r.send(set, nil)
		}
	}
	for _, o := range old {
		r.openCells(o)
	}
	r.ordered()
}

func (r *Room) openDemoSet() {
	set := &chartSet{SavedSet: SavedSet{ID: demoSet, Name: "Invented demo waters"}, demo: true, reading: true}
	r.sets = append([]*chartSet{set}, r.sets...)
	r.ordered()
	fail := func(err error) {
		if !r.has(set) {
			return
		}
		set.reading, set.failed = false, "The demo chart cannot be fetched: "+err.Error()
		r.redraw()
	}
	r.device.Fetch(demoIndex, func(b []byte, err error) {
		var index struct{ Chart []string }
		if err == nil {
			err = json.Unmarshal(b, &index)
		}
		if err != nil {
			fail(err)
			return
		}
		left := len(index.Chart)
		for _, name := range index.Chart {
			r.device.Fetch(demoFolder+name, func(b []byte, err error) {
				if err != nil {
					fail(err)
					return
				}
				set.Files = append(set.Files, File{Name: name, Data: Bytes(b)})
				if left--; left == 0 && r.has(set) {
					r.send(set, nil)
				}
			})
		}
	})
}

// has says whether a set is still one of the room's: what comes late for one that
// was removed meanwhile must not bring it back.
func (r *Room) has(set *chartSet) bool {
	_, s := r.findSet(set.ID)
	return s == set
}

// send gives a set to the engine. done is told whether it was taken, also when the
// engine had to be started again meanwhile.
func (r *Room) send(set *chartSet, done func(taken bool)) {
	r.chartRev++
	r.chartChanged()
	set.reading, set.failed, set.done = true, "", done
	set.asked++
	asked := set.asked
	q := engine.Request{Kind: engine.PutSet, Set: set.ID, Name: set.Name, ChartRev: r.chartRev}
	files, said := set.Files, set.Said
	if t := set.trying; t != nil {
		files, said = t.files, t.said
	}
	q.Said = said
	for _, f := range files {
		if set.cell != "" && (enc.NamesPaper(f.Name) || heldBack(f.Name)) {
			continue
		}
		q.Files = append(q.Files, layer.File{Name: f.Name, Data: f.Data.Bytes()})
	}
	r.engine.Ask(q, func(a engine.Reply, docs map[string]Doc) {
		if a.State == engine.Progress {
			r.progress = a.Words
			return
		}
		if !r.has(set) || asked != set.asked {
			return
		}
		set.reading, set.trying = false, nil
		info := engine.SetInfo{}
		_ = json.Unmarshal(a.Body, &info) // without a body only the words are shown
		taken := a.State == engine.Done
		if taken || set.info.ID == "" || set.cell != "" && set.info.Cell == nil {
			set.info = info
		}
		if taken {
			set.Files, set.Said, set.drawn = files, said, true
			r.chart.SetSet(set.ID, docs["draw"])
			r.ordered()
		} else {
			set.failed = a.Words
		}
		r.recheck()
		if set.done = nil; done != nil {
			done(taken)
		}
		r.joinNext(set)
		r.redraw()
	})
	r.redraw()
}

// chartChanged takes off the screen what was worked out from other charts.
func (r *Room) chartChanged() {
	r.place = nil
	r.dropRibbon()
	r.fade()
}

// resend gives every set to an engine that has none: first what it had taken, so
// that a set cannot be lost to files that were only being tried.
func (r *Room) resend() {
	for _, s := range r.sets {
		done := s.done
		if s.trying != nil {
			s.waiting, s.trying, done = slices.Insert(s.waiting, 0, s.trying.from), nil, nil
		}
		switch {
		case r.waits(s):
			s.reading = false
			r.joinNext(s)
		case len(s.Files) > 0:
			r.send(s, done)
		case s.cell != "":
			s.reading = false
			r.joinNext(s)
		}
	}
	for _, o := range r.opening {
		r.lookInto(o)
	}
}

// OpenFiles takes files that were picked, dropped or shared: a plan file becomes
// a plan, the layers one set, the cells another.
func (r *Room) OpenFiles(files []File) {
	text := func(f File) bool { return !enc.NamesCell(f.Name) }
	if len(files) == 1 && text(files[0]) && (r.importArchive(files[0]) || r.importPlan(files[0])) {
		return
	}
	var layers, cells, papers []File
	for _, f := range files {
		if len(files) > 1 && text(f) && r.importPlan(f) {
			continue
		}
		switch {
		case enc.NamesCell(f.Name):
			cells = append(cells, f)
		case enc.NamesLayer(f.Name):
			layers = append(layers, f)
		case len(files) > 1 && enc.NamesPaper(f.Name):
			papers = append(papers, f)
		case enc.Holds(f.Data.Bytes()): // such as a second copy, which browsers rename
			cells = append(cells, f)
		default:
			r.tell(true, fmt.Sprintf("%s is not read: layers and plans are files that end in .geojson or .json, chart cells end in .000, their updates in .001 and so on, and exchange sets in .zip.", f.Name))
		}
	}
	if len(cells) == 0 && len(papers) > 0 {
		r.tell(true, papers[0].Name+" is not read: texts are taken with the chart cells they came with.")
	}
	if len(layers) > 0 {
		r.openSet(layers)
	}
	if len(cells) > 0 {
		r.tab = tabCharts
		r.openCells(&opening{SavedSet: SavedSet{Name: setName(cells), Files: slices.Concat(cells, papers)}})
	}
}

// nextOrder is that of a set above all others.
func (r *Room) nextOrder() (order int) {
	for _, s := range r.sets {
		order = max(order, s.Order+1)
	}
	return order
}

// Unreadable is told why files that were given cannot be read.
func (r *Room) Unreadable(why string) { r.tell(true, "Nothing was opened. "+why) }

// openSet takes files that belong together as a set of their own.
func (r *Room) openSet(layers []File) {
	set := &chartSet{SavedSet: SavedSet{ID: r.device.NewID(), Name: setName(layers), Files: layers, Order: r.nextOrder()}}
	r.tab = tabCharts
	r.sets = append(r.sets, set)
	r.send(set, func(taken bool) { r.opened(set, taken) })
}

// opened keeps a set that was taken. One that was refused stays on the list with
// the reasons until it is dismissed; the others stay as they were.
func (r *Room) opened(set *chartSet, taken bool) {
	if !taken {
		r.tell(true, fmt.Sprintf("%s was refused as a whole; the layers that were there stay. The reasons are under Charts.", set.Name))
		return
	}
	r.keepChart(set, func(bool) {})
	if b := set.info.Bounds; b != nil {
		r.chart.Fit(*b)
	}
}

// keepChart keeps a set for the next time.
func (r *Room) keepChart(set *chartSet, done func(kept bool)) {
	if set.saving != nil { // the newest state is saved after the one that is under way
		set.saving = append(set.saving, done)
		return
	}
	set.saving = []func(bool){}
	set.Was, set.Rev = r.revs[set.ID], r.device.NewID()
	rev := set.Rev
	r.store.SaveSet(set.SavedSet, func(err error) {
		set.unsaved = err != nil
		switch {
		case errors.Is(err, ErrNewer):
			r.tell(true, "Another tab has changed "+set.Name+" meanwhile, and what was done here is not kept. Load the page again.")
		case err != nil:
			r.tell(true, set.Name+" is in use but cannot be kept for the next time: "+err.Error())
		default:
			set.kept, r.revs[set.ID] = true, rev
		}
		done(err == nil)
		waiting := set.saving
		if set.saving = nil; len(waiting) > 0 && r.has(set) {
			r.keepChart(set, func(kept bool) {
				for _, tell := range waiting {
					tell(kept)
				}
			})
		}
	})
}

// countLevel counts the messages of a set of a level.
func countLevel(set *chartSet, level string) (n int) {
	for _, m := range set.info.Messages {
		if m.Level == level {
			n++
		}
	}
	return n
}

// setName names a set after its file, or the folder-like beginning of several.
func setName(files []File) string {
	first := strings.TrimSuffix(path.Base(files[0].Name), path.Ext(files[0].Name))
	if len(files) == 1 {
		return first
	}
	return fmt.Sprintf("%s and %d more", first, len(files)-1)
}

func (r *Room) findSet(id string) (int, *chartSet) {
	for i, s := range r.sets {
		if s.ID == id {
			return i, s
		}
	}
	return -1, nil
}

// ShowSet shows or hides a set. What is hidden is checked all the same.
func (r *Room) ShowSet(id string) {
	_, s := r.findSet(id)
	if s == nil {
		return
	}
	s.Hidden = !s.Hidden
	r.ordered()
	r.keepSet(s)
	r.redraw()
}

// RaiseSet moves a set one up in the order of drawing.
func (r *Room) RaiseSet(id string) {
	i, _ := r.findSet(id)
	if i < 0 || i == len(r.sets)-1 {
		return
	}
	r.sets[i], r.sets[i+1] = r.sets[i+1], r.sets[i]
	for n, s := range r.sets {
		if s.Order != n {
			s.Order = n
			r.keepSet(s)
		}
	}
	r.ordered()
	r.redraw()
}

func (r *Room) keepSet(s *chartSet) {
	if s.demo {
		return
	}
	r.store.ArrangeSet(s.ID, s.Hidden, s.Order, func(err error) {
		if err != nil {
			r.tell(true, "This choice cannot be kept: "+err.Error())
		}
	})
}

// RemoveSet takes a set out of the view and out of the checks.
func (r *Room) RemoveSet(id string) {
	if _, s := r.findSet(id); s != nil {
		r.remove([]*chartSet{s})
	}
}

// RemoveCells takes all cells out.
func (r *Room) RemoveCells() { r.remove(r.cellRows()) }

// cellRows are the rows of cells, also of those that were refused or wait for a base.
func (r *Room) cellRows() (rows []*chartSet) {
	for _, s := range r.sets {
		if s.cell != "" {
			rows = append(rows, s)
		}
	}
	return rows
}

func (r *Room) remove(sets []*chartSet) {
	var gone, ids []string
	for _, s := range sets {
		if s.failed == "" || s.kept {
			r.removed = append(r.removed, s)
			gone, ids = append(gone, s.Name), append(ids, s.ID)
		}
		r.takeOut(s)
	}
	switch {
	case len(gone) == 1:
		r.say(notice{text: gone[0] + " is removed: it is no longer checked.", do: "set-back", arg: ids[0]})
	case len(gone) > 1:
		r.say(notice{text: capital(counted(len(gone), "chart", "charts")) + " are removed: they are no longer checked.", do: "set-back", arg: strings.Join(ids, " ")})
	}
	r.ordered()
	r.redraw()
}

func (r *Room) takeOut(s *chartSet) {
	r.sets = slices.DeleteFunc(r.sets, func(o *chartSet) bool { return o == s })
	if s.trying != nil { // it waits for the removal to be undone
		s.waiting, s.trying = slices.Insert(s.waiting, 0, s.trying.from), nil
	}
	s.reading, s.sorting = false, false
	r.opening = slices.DeleteFunc(r.opening, func(o *opening) bool { return o.complete && o.Name == s.Name })
	s.asked++
	r.spareOf(s)
	if s.demo {
		r.set(settingDemo, "removed")
	} else {
		r.store.DeleteSet(s.ID, func(err error) {
			if err != nil {
				r.tell(true, "It will be back at the next start, as it cannot be deleted: "+err.Error())
			}
		})
	}
	r.chartRev++
	r.chartChanged()
	r.chart.SetSet(s.ID, nil)
	s.drawn = false
	r.engine.Ask(engine.Request{Kind: engine.DropSet, Set: s.ID, ChartRev: r.chartRev}, func(a engine.Reply, _ map[string]Doc) {
		if a.State != engine.Progress {
			r.recheck()
		}
	})
}

// BringSetBack undoes a removal: the ids are separated by spaces.
func (r *Room) BringSetBack(ids string) {
	for _, id := range strings.Fields(ids) {
		i := len(r.removed) - 1 // a cell may have been removed before
		for i >= 0 && r.removed[i].ID != id {
			i--
		}
		if i < 0 {
			continue
		}
		s := r.removed[i]
		r.removed = slices.Delete(r.removed, i, i+1)
		switch {
		case s.demo:
			r.BringDemoBack()
		case r.cellSet(s.cell) != nil: // it was opened meanwhile
			if len(s.Files) > 0 {
				r.openCells(&opening{SavedSet: s.SavedSet})
			}
			for _, g := range s.waiting {
				r.takeCell(g)
			}
		default:
			s.Order = r.nextOrder()
			r.sets = append(r.sets, s)
			if s.kept {
				r.keepChart(s, func(bool) {})
			}
			if slices.ContainsFunc(r.spares, func(f cellFile) bool { return f.Cell == s.cell && !f.Cancels }) {
				s.waiting = append(s.waiting, &cellFiles{cell: s.cell})
			}
			switch {
			case r.waits(s), len(s.Files) == 0:
				r.joinNext(s)
			default:
				r.send(s, func(taken bool) { r.opened(s, taken) })
			}
		}
	}
}

// BringDemoBack opens the demo's chart again.
func (r *Room) BringDemoBack() {
	r.set(settingDemo, "")
	if _, s := r.findSet(demoSet); s == nil {
		r.openDemoSet()
	}
	r.redraw()
}

// ordered tells the order of drawing.
func (r *Room) ordered() {
	var list []ShownSet
	for _, s := range r.sets {
		if s.drawn {
			list = append(list, ShownSet{s.ID, !s.Hidden})
		}
	}
	r.chart.SetOrder(list)
}

// middle is about where the charts or the route are.
func (r *Room) middle() (orb.Point, bool) {
	if r.viewAt != nil {
		return *r.viewAt, true
	}
	if b, ok := planBounds(r.plan); ok {
		return orb.Point{(b[0] + b[2]) / 2, (b[1] + b[3]) / 2}, true
	}
	return orb.Point{}, false
}

// Shared takes files that came by the share target, which any page can send to:
// nothing is opened before the skipper says so.
func (r *Room) Shared(files []File) {
	names := make([]string, len(files))
	for i, f := range files {
		names[i] = f.Name
	}
	r.shared = files
	r.say(notice{text: joined(names) + " was shared with Keelroom from elsewhere. Open it only if you sent it yourself.", do: "shared-open", label: "Open it"})
}

func (r *Room) openShared() {
	files := r.shared
	r.shared = nil
	if len(files) > 0 {
		r.OpenFiles(files)
	}
}
