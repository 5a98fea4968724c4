package state

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"path"
	"slices"
	"strings"

	"keelroom/app/engine"
	"keelroom/app/phrase"
	"keelroom/geo/enc"
	"keelroom/geo/layer"
	"keelroom/geo/library"
)

// Open takes files that were picked, dropped or shared: a plan file becomes
// a plan, the layers one set, the cells another. What may be a plan or an archive is
// looked into by the engine first, one file after the other.
func (fl *Files) Open(files []File) { fl.startup.whenStarted(func() { fl.openFiles(files) }) }

func (fl *Files) openFiles(files []File) {
	rest := make([]File, 0, len(files))
	var next func(i int)
	next = func(i int) {
		for ; i < len(files) && !mayBePlan(files[i]); i++ {
			rest = append(rest, files[i])
		}
		if i == len(files) {
			fl.openRest(rest, len(files) > 1)
			return
		}
		fl.lookInFile(files[i], func(taken bool) {
			if !taken {
				rest = append(rest, files[i])
			}
			next(i + 1)
		})
	}
	next(0)
}

// mayBePlan says whether a file may be a plan or an archive: some JSON, whatever it is
// called.
func mayBePlan(f File) bool {
	head := bytes.TrimLeft(bytes.TrimPrefix(f.Data.Head(64), []byte("\ufeff")), " \t\r\n")
	return !library.NamesCell(f.Name) && (len(head) == 0 || head[0] == '{')
}

// openRest takes files that are no plans.
func (fl *Files) openRest(files []File, several bool) {
	var layers, cells, texts []File
	for _, f := range files {
		switch {
		case library.NamesCell(f.Name):
			cells = append(cells, f)
		case library.NamesLayer(f.Name) && f.Data.Size() > layer.MaxBytes:
			fl.notices.notify(true, fmt.Sprintf("%s is not read: it has %d MB, and a layer has at most %d.", f.Name, (f.Data.Size()+1<<20-1)>>20, layer.MaxBytes>>20))
		case library.NamesLayer(f.Name):
			layers = append(layers, f)
		case several && library.NamesText(f.Name):
			texts = append(texts, f)
		case enc.Holds(f.Data.Bytes()): // such as a second copy, which browsers rename
			cells = append(cells, f)
		default:
			fl.notices.notify(true, fmt.Sprintf("%s is not read: layers and plans are files that end in .geojson or .json, chart cells end in .000, their updates in .001 and so on, and exchange sets in .zip.", f.Name))
		}
	}
	if len(cells) == 0 && len(texts) > 0 {
		fl.notices.notify(true, texts[0].Name+" is not read: texts are taken with the chart cells they came with.")
	}
	if len(layers) > 0 {
		fl.charts.openSet(layers)
	}
	if len(cells) > 0 {
		fl.view.Tab = TabCharts
		fl.cells.openCells(&Opening{SavedSet: SavedSet{Name: setName(cells), Files: slices.Concat(cells, texts)}})
	}
	fl.ports.redraw()
}

// lookInFile has the engine look into a file, and opens it if it is a plan or an
// archive.
func (fl *Files) lookInFile(f File, done func(taken bool)) {
	q := engine.Request{Kind: engine.OpenFile}
	if fl.aside.has(AskedOfFile(q, f)) {
		fl.notices.notify(true, f.Name+" cannot be opened: "+asideWords)
		done(true)
		return
	}
	t := &intake{name: f.Name, next: func() { done(true) }}
	fl.looking = append(fl.looking, t)
	t.stop = fl.ports.engine.AskFile(q, f, func(a engine.Reply, docs map[string]Doc) {
		if !slices.Contains(fl.looking, t) { // the engine was started again meanwhile
			return
		}
		var body engine.OpenBody
		if len(a.Body) > 0 {
			_ = json.Unmarshal(a.Body, &body) // without a body there is nothing in it
		}
		if a.State == engine.Progress {
			fl.receive(t, a, &body, docs)
			return
		}
		fl.aside.answered(AskedOfFile(q, f), a)
		fl.looking = slices.DeleteFunc(fl.looking, func(o *intake) bool { return o == t })
		fl.view.Progress = ""
		done(fl.opened(t, f, a, &body))
		fl.ports.redraw()
	})
}

// opened takes a file that was looked into, and says whether it did: a file that is
// neither a plan nor an archive is for others.
func (fl *Files) opened(t *intake, f File, a engine.Reply, body *engine.OpenBody) (taken bool) {
	switch {
	case a.State == engine.Cancelled:
	case a.State == engine.Failed:
		fl.notices.notify(true, f.Name+" cannot be opened: "+a.Words)
	case body.What == engine.IsArchive && body.Wrong != "":
		fl.notices.notify(true, f.Name+" is an archive that cannot be read, and nothing was changed: "+body.Wrong)
	case body.What == engine.IsArchive:
		t.whole = true
		fl.keepNext(t)
	case body.What == engine.IsPlan && body.Wrong != "":
		fl.notices.notify(true, f.Name+" is a plan file that cannot be read, and nothing was changed: "+body.Wrong)
	case body.What == engine.IsPlan:
		fl.plans.adopt(string(f.Data.Bytes()))
		fl.notices.notify(false, f.Name+" is opened as a plan of its own.")
	default:
		return false
	}
	return true
}

// nextOrder is that of a set above all others.
func (cs *Charts) nextOrder() (order int) {
	for _, s := range cs.Sets {
		order = max(order, s.Order+1)
	}
	return order
}

// Unreadable says why files that were given cannot be read.
func (fl *Files) Unreadable(why string) { fl.notices.notify(true, "Nothing was opened. "+why) }

// openSet takes files that belong together as a set of their own.
func (cs *Charts) openSet(layers []File) {
	set := &ChartSet{SavedSet: SavedSet{ID: cs.ports.Device.NewID(), Name: setName(layers), Files: layers, Order: cs.nextOrder()}}
	cs.view.Tab = TabCharts
	cs.Sets = append(cs.Sets, set)
	cs.send(set, func(taken bool) { cs.opened(set, taken) })
}

// opened keeps a set that was taken. One that was refused stays on the list with
// the reasons until it is dismissed; the others stay as they were.
func (cs *Charts) opened(set *ChartSet, taken bool) {
	if !taken {
		cs.notices.notify(true, fmt.Sprintf("%s was refused as a whole; the layers that were there stay. The reasons are under Charts.", set.Name))
		return
	}
	cs.keepChart(set, func(bool) {})
	if b := set.Info.Bounds; b != nil {
		cs.ports.chart.Fit(*b)
	}
}

// keepChart keeps a set for the next time.
func (cs *Charts) keepChart(set *ChartSet, done func(kept bool)) {
	if set.saving != nil { // the newest state is saved after the one that is under way
		set.saving = append(set.saving, done)
		return
	}
	set.saving = []func(bool){}
	set.Was, set.Rev = cs.revs[set.ID], cs.ports.Device.NewID()
	rev := set.Rev
	cs.ports.store.SaveSet(set.SavedSet, func(err error) {
		set.unsaved = err != nil
		switch {
		case errors.Is(err, ErrNewer):
			cs.notices.notify(true, "Another tab has changed "+set.Name+" meanwhile, and what was done here is not kept. Load the page again.")
		case err != nil:
			cs.notices.notify(true, set.Name+" is in use but cannot be kept for the next time: "+err.Error())
		default:
			set.kept, cs.revs[set.ID] = true, rev
		}
		done(err == nil)
		waiting := set.saving
		all := func(kept bool) {
			for _, done := range waiting {
				done(kept)
			}
		}
		switch set.saving = nil; {
		case len(waiting) == 0:
		case cs.has(set):
			cs.keepChart(set, all)
		default:
			all(false)
		}
	})
}

// countLevel counts the messages of a set of a level.
func countLevel(set *ChartSet, level string) (n int) {
	for _, m := range set.Info.Messages {
		if m.Level == level {
			n += max(1, m.More)
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

// Offer takes files that came by the share target, which any page can send to:
// nothing is opened before the skipper says so.
func (fl *Files) Offer(files []File) {
	names := make([]string, len(files))
	for i, f := range files {
		names[i] = f.Name
	}
	fl.shared = files
	fl.notices.add(Notice{Text: phrase.Joined(names) + " was shared with Keelroom from elsewhere. Open it only if you sent it yourself.", Do: "shared-open", label: "Open it"})
}

func (fl *Files) openShared() {
	files := fl.shared
	fl.shared = nil
	if len(files) > 0 {
		fl.Open(files)
	}
}
