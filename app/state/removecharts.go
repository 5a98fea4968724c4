package state

import (
	"errors"
	"slices"
	"strings"

	"keelroom/app/engine"
	"keelroom/app/phrase"
	"keelroom/geo/library"
)

// removeSet takes a set out of the view and out of the checks.
func (cs *Charts) removeSet(id string) {
	if _, s := cs.FindSet(id); s != nil {
		cs.remove([]*ChartSet{s})
	}
}

// removeAll takes all cells out.
func (cl *Cells) removeAll() { cl.charts.remove(cl.CellRows()) }

// CellRows are the rows of cells, also of those that were refused or wait for a base.
func (cl *Cells) CellRows() (rows []*ChartSet) {
	for _, s := range cl.charts.Sets {
		if s.cell != "" {
			rows = append(rows, s)
		}
	}
	return rows
}

func (cs *Charts) remove(sets []*ChartSet) {
	var gone, ids []string
	for _, s := range sets {
		if s.Failed == "" || s.kept || s.cell != "" && len(s.Files) > 0 {
			cs.removed = append(cs.removed, s)
			gone, ids = append(gone, s.Name), append(ids, s.ID)
		}
		cs.takeOut(s)
	}
	switch {
	case len(gone) == 1:
		cs.notices.add(Notice{Text: gone[0] + " is removed: it is no longer checked.", Do: "set-back", arg: ids[0]})
	case len(gone) > 1:
		cs.notices.add(Notice{Text: phrase.Capital(phrase.Counted(len(gone), "chart", "charts")) + " are removed: they are no longer checked.", Do: "set-back", arg: strings.Join(ids, " ")})
	}
	cs.ordered()
	cs.ports.redraw()
}

func (cs *Charts) takeOut(s *ChartSet) {
	cs.Sets = slices.DeleteFunc(cs.Sets, func(o *ChartSet) bool { return o == s })
	if s.joining != nil { // it waits for the removal to be undone
		s.waiting, s.joining = slices.Insert(s.waiting, 0, s.joining.from), nil
	}
	s.Reading, s.sorting = false, false
	cs.cells.Opening = slices.DeleteFunc(cs.cells.Opening, func(o *Opening) bool { return o.complete && o.Name == s.Name })
	s.asked++
	cs.cells.leaveUnclaimed(s)
	if s.demo {
		cs.settings.set(settingDemo, "removed")
	} else {
		cs.ports.store.DeleteSet(s.ID, cs.revs[s.ID], func(err error) {
			switch {
			case errors.Is(err, ErrNewer):
				cs.notices.notify(true, "Another tab has changed "+s.Name+" meanwhile: it will be back when the page is loaded again.")
			case err != nil:
				cs.notices.notify(true, "It will be back at the next start, as it cannot be deleted: "+err.Error())
			}
		})
	}
	cs.rev++
	cs.changed()
	cs.ports.chart.SetSet(s.ID, nil)
	s.drawn = false
	cs.ports.engine.Ask(engine.Request{Kind: engine.DropSet, Set: s.ID, ChartRev: cs.rev}, func(a engine.Reply, _ map[string]Doc) {
		if a.State != engine.Progress {
			cs.recheck()
		}
	})
}

// bringBack undoes a removal: the ids are separated by spaces.
func (cs *Charts) bringBack(ids string) {
	for _, id := range strings.Fields(ids) {
		i := len(cs.removed) - 1 // a cell may have been removed before
		for i >= 0 && cs.removed[i].ID != id {
			i--
		}
		if i < 0 {
			continue
		}
		s := cs.removed[i]
		cs.removed = slices.Delete(cs.removed, i, i+1)
		switch {
		case s.demo:
			cs.bringDemoBack()
		case s.unsorted:
			cs.keepChart(s, func(bool) { cs.cells.openCells(&Opening{SavedSet: s.SavedSet, kept: s.ID}) })
		case cs.cells.cellSet(s.cell) != nil: // it was opened meanwhile
			if len(s.Files) > 0 {
				cs.cells.openCells(&Opening{SavedSet: s.SavedSet})
			}
			for _, g := range s.waiting {
				cs.cells.takeCell(g)
			}
		default:
			s.Order = cs.nextOrder()
			cs.Sets = append(cs.Sets, s)
			if s.kept {
				cs.keepChart(s, func(bool) {})
			}
			if cs.cells.unclaimed.HasUpdates(s.cell) {
				s.waiting = append(s.waiting, &cellFiles{Given: library.Given{Cell: s.cell}})
			}
			switch {
			case cs.cells.waits(s), len(s.Files) == 0:
				cs.cells.joinNext(s)
			default:
				cs.send(s, func(taken bool) { cs.opened(s, taken) })
			}
		}
	}
}

// bringDemoBack opens the demo's chart again.
func (cs *Charts) bringDemoBack() {
	cs.settings.set(settingDemo, "")
	if _, s := cs.FindSet(DemoSet); s == nil {
		cs.openDemoSet()
	}
	cs.ports.redraw()
}
