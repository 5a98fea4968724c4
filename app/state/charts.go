package state

import (
	"encoding/json"
	"slices"

	"github.com/paulmach/orb"

	"keelroom/app/engine"
	"keelroom/geo/layer"
	"keelroom/geo/library"
)

// Charts are the sets of charts that the checks go by, as they are opened, shown and kept.
type Charts struct {
	aside      *Aside
	cells      *Cells
	notices    *Notices
	ports      *Ports
	settings   *Settings
	view       *View
	recheck    func()
	setPlace   func(info *PlaceInfo)
	dropRibbon func()
	fade       func()

	Sets    []*ChartSet // the lowest first
	rev     int
	removed []*ChartSet
	revs    map[string]string // of the sets in the store, as far as this tab knows
}

// ChartSet is a layer set that the checks go by.
type ChartSet struct {
	SavedSet
	demo      bool
	Reading   bool
	Failed    string
	Info      engine.SetInfo
	cell      string            // the name of the cell that it is, "" for layers
	sorting   bool              // what it has and what came is being sorted
	unsaved   bool              // its last saving failed
	saving    []func(kept bool) // that wait for the one that is under way, nil none
	kept      bool              // the store has it
	aside     bool              // the engine has stopped on it too often: see setaside.go
	unsorted  bool              // it is kept as files that could not be sorted
	drawn     bool              // the chart view has it
	Text      string            // the text file that came with it and is being shown, "" none
	TextShown string
	joining   *joining         // what is being read in place of Files
	waiting   []*cellFiles     // that are to be tried next
	asked     int              // how often it was sent: only the newest reply counts
	done      func(taken bool) // while it is being read
}

// The demo is a layer set of the app's own files, never stored.
const (
	DemoSet    = "demo"
	demoFolder = "web/demo/"
	demoIndex  = demoFolder + "index.json"
)

// openSets brings the kept sets back, and the demo's unless it was removed.
func (cs *Charts) openSets(kept []SavedSet) {
	if cs.settings.Values[settingDemo] != "removed" {
		cs.openDemoSet()
	}
	var old []*Opening // what an earlier version kept
	for _, s := range kept {
		cs.revs[s.ID] = s.Rev
		if len(s.Files) == 0 {
			cs.ports.store.DeleteSet(s.ID, s.Rev, func(error) {})
			continue
		}
		cell, mixed := library.OneCell(s.Files)
		if mixed || cell != "" && s.ID != cellID(cell) {
			old = append(old, &Opening{SavedSet: s, kept: s.ID})
			continue
		}
		set := &ChartSet{SavedSet: s, cell: cell, kept: true}
		cs.Sets = append(cs.Sets, set)
		if !cs.cells.waits(set) {
			cs.send(set, nil)
		}
	}
	for _, o := range old {
		cs.cells.openCells(o)
	}
	cs.ordered()
}

func (cs *Charts) openDemoSet() {
	set := &ChartSet{SavedSet: SavedSet{ID: DemoSet, Name: "Invented demo waters"}, demo: true, Reading: true}
	cs.Sets = append([]*ChartSet{set}, cs.Sets...)
	cs.ordered()
	cs.ports.Device.Fetch(demoIndex, func(b []byte, err error) {
		var index struct{ Chart []string }
		if err == nil {
			err = json.Unmarshal(b, &index)
		}
		if err != nil {
			cs.demoFailed(set, err)
			return
		}
		cs.fetchDemo(set, index.Chart)
	})
}

// fetchDemo fetches the files of the demo's chart.
func (cs *Charts) fetchDemo(set *ChartSet, names []string) {
	left := len(names)
	for _, name := range names {
		cs.ports.Device.Fetch(demoFolder+name, func(b []byte, err error) {
			if err != nil {
				cs.demoFailed(set, err)
				return
			}
			set.Files = append(set.Files, File{Name: name, Data: Bytes(b)})
			if left--; left == 0 && cs.has(set) {
				cs.send(set, nil)
			}
		})
	}
}

func (cs *Charts) demoFailed(set *ChartSet, err error) {
	if cs.has(set) {
		set.Reading, set.Failed = false, "The demo chart cannot be fetched: "+err.Error()
		cs.recheck()
		cs.ports.redraw()
	}
}

// has says whether a set is still one of the room's: what comes late for one that
// was removed meanwhile must not bring it back.
func (cs *Charts) has(set *ChartSet) bool {
	_, s := cs.FindSet(set.ID)
	return s == set
}

// send gives a set to the engine. done is called with whether it was taken, also when
// the engine had to be started again meanwhile.
func (cs *Charts) send(set *ChartSet, done func(taken bool)) {
	cs.rev++
	set.Reading, set.Failed, set.done = true, "", done
	cs.changed()
	set.asked++
	asked, has := set.asked, set.holding()
	if c := set.joining; c != nil {
		has = c.Holding
	}
	q := set.request(has, cs.rev)
	input := AskedOf(q)
	if set.aside = cs.aside.has(input); set.aside {
		cs.leaveAside(set)
		return
	}
	cs.ports.engine.Ask(q, func(a engine.Reply, docs map[string]Doc) {
		if a.State == engine.Progress {
			cs.view.Progress = a.Words
			return
		}
		cs.aside.answered(input, a)
		if cs.has(set) && asked == set.asked {
			cs.answered(set, has, a, docs["draw"])
		}
	})
	cs.ports.redraw()
}

// request is what the engine is asked to read of a set.
func (set *ChartSet) request(has library.Holding, rev int) engine.Request {
	q := engine.Request{Kind: engine.PutSet, Set: set.ID, Name: set.Name, ChartRev: rev, LeftOut: keptMessages(has.LeftOut)}
	files := has.Files
	if set.cell != "" {
		files = has.Parts()
	}
	for _, f := range files {
		q.Files = append(q.Files, layer.File{Name: f.Name, Data: f.Data.Bytes()})
	}
	return q
}

// answered goes on once the engine has read a set, or refused it.
func (cs *Charts) answered(set *ChartSet, has library.Holding, a engine.Reply, drawing Doc) {
	set.joining = nil
	info := engine.SetInfo{}
	_ = json.Unmarshal(a.Body, &info) // without a body only the words are shown
	taken := a.State == engine.Done
	if taken || set.Info.ID == "" || set.cell != "" && set.Info.Cell == nil {
		set.Info = info
	}
	if taken {
		set.hold(has)
		set.drawn = true
		cs.ports.chart.SetSet(set.ID, drawing)
		cs.ordered()
		if !set.kept && !set.demo {
			cs.offerToClose(set)
		}
	} else {
		set.Failed = a.Words
	}
	cs.wasRead(set, taken)
}

// wasRead goes on with what waits for a set to be read.
func (cs *Charts) wasRead(set *ChartSet, taken bool) {
	set.Reading = false
	cs.recheck()
	done := set.done
	if set.done = nil; done != nil {
		done(taken)
	}
	cs.cells.joinNext(set)
	cs.ports.redraw()
}

// leaveAside goes on without a chart that the engine has stopped on twice.
func (cs *Charts) leaveAside(set *ChartSet) {
	set.Failed, set.joining = asideWords, nil
	cs.wasRead(set, false)
}

// changed takes off the screen what was worked out from other charts.
func (cs *Charts) changed() {
	cs.setPlace(nil)
	cs.dropRibbon()
	cs.fade()
}

// resend gives every set to an engine that has none: first what it had taken, so
// that a set cannot be lost to files that were only being tried.
func (cs *Charts) resend() {
	for _, s := range cs.Sets {
		done := s.done
		if s.joining != nil {
			s.waiting, s.joining, done = slices.Insert(s.waiting, 0, s.joining.from), nil, nil
		}
		switch {
		case s.unsorted: // it is no chart yet
		case cs.cells.waits(s):
			s.Reading = false
			cs.cells.joinNext(s)
		case len(s.Files) > 0:
			cs.send(s, done)
		case s.cell != "":
			s.Reading = false
			cs.cells.joinNext(s)
		}
	}
	for _, o := range slices.Clone(cs.cells.Opening) {
		cs.cells.lookInto(o)
	}
}

func (cs *Charts) FindSet(id string) (int, *ChartSet) {
	for i, s := range cs.Sets {
		if s.ID == id {
			return i, s
		}
	}
	return -1, nil
}

// show shows or hides a set. What is hidden is checked all the same.
func (cs *Charts) show(id string) {
	_, s := cs.FindSet(id)
	if s == nil {
		return
	}
	s.Hidden = !s.Hidden
	cs.ordered()
	cs.keepSet(s)
	cs.ports.redraw()
}

// raise moves a set one up in the order of drawing.
func (cs *Charts) raise(id string) {
	i, _ := cs.FindSet(id)
	if i < 0 || i == len(cs.Sets)-1 {
		return
	}
	cs.Sets[i], cs.Sets[i+1] = cs.Sets[i+1], cs.Sets[i]
	for n, s := range cs.Sets {
		if s.Order != n {
			s.Order = n
			cs.keepSet(s)
		}
	}
	cs.ordered()
	cs.ports.redraw()
}

func (cs *Charts) keepSet(s *ChartSet) {
	if s.demo {
		return
	}
	cs.ports.store.ArrangeSet(s.ID, s.Hidden, s.Order, func(err error) {
		if err != nil {
			cs.notices.notify(true, "This choice cannot be kept: "+err.Error())
		}
	})
}

// ordered gives the chart view the order of drawing.
func (cs *Charts) ordered() {
	var list []ShownSet
	for _, s := range cs.Sets {
		if s.drawn {
			list = append(list, ShownSet{s.ID, !s.Hidden})
		}
	}
	cs.ports.chart.SetOrder(list)
}

// middle is about where the charts or the route are.
func (s *Stations) middle() (orb.Point, bool) {
	if s.view.viewAt != nil {
		return *s.view.viewAt, true
	}
	if b, ok := planBounds(s.history.Plan); ok {
		return orb.Point{(b[0] + b[2]) / 2, (b[1] + b[3]) / 2}, true
	}
	return orb.Point{}, false
}

// datumAt is the sounding datum (VERDAT) that all open charts about a place have, 0
// where they differ or one does not state it.
func (cs *Charts) datumAt(at orb.Point) (datum int) {
	for _, s := range cs.Sets {
		b := s.Info.Bounds
		if s.Reading {
			return 0 // it may have another
		}
		if s.Failed != "" || b == nil || at[0] < b[0] || at[1] < b[1] || at[0] > b[2] || at[1] > b[3] {
			continue
		}
		if s.Info.Datum == 0 || datum != 0 && s.Info.Datum != datum {
			return 0
		}
		datum = s.Info.Datum
	}
	return datum
}

// reading says whether a chart is being read.
func (cs *Charts) reading() bool {
	for _, s := range cs.Sets {
		if s.Reading {
			return true
		}
	}
	return false
}
