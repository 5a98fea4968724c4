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
func (r *Charts) removeSet(id string) {
	if _, s := r.FindSet(id); s != nil {
		r.remove([]*ChartSet{s})
	}
}

// removeAll takes all cells out.
func (r *Cells) removeAll() { r.charts.remove(r.CellRows()) }

// CellRows are the rows of cells, also of those that were refused or wait for a base.
func (r *Cells) CellRows() (rows []*ChartSet) {
	for _, s := range r.charts.Sets {
		if s.cell != "" {
			rows = append(rows, s)
		}
	}
	return rows
}

func (r *Charts) remove(sets []*ChartSet) {
	var gone, ids []string
	for _, s := range sets {
		if s.Failed == "" || s.kept || s.cell != "" && len(s.Files) > 0 {
			r.removed = append(r.removed, s)
			gone, ids = append(gone, s.Name), append(ids, s.ID)
		}
		r.takeOut(s)
	}
	switch {
	case len(gone) == 1:
		r.notices.add(Notice{Text: gone[0] + " is removed: it is no longer checked.", Do: "set-back", arg: ids[0]})
	case len(gone) > 1:
		r.notices.add(Notice{Text: phrase.Capital(phrase.Counted(len(gone), "chart", "charts")) + " are removed: they are no longer checked.", Do: "set-back", arg: strings.Join(ids, " ")})
	}
	r.ordered()
	r.ports.redraw()
}

func (r *Charts) takeOut(s *ChartSet) {
	r.Sets = slices.DeleteFunc(r.Sets, func(o *ChartSet) bool { return o == s })
	if s.joining != nil { // it waits for the removal to be undone
		s.waiting, s.joining = slices.Insert(s.waiting, 0, s.joining.from), nil
	}
	s.Reading, s.sorting = false, false
	r.cells.Opening = slices.DeleteFunc(r.cells.Opening, func(o *Opening) bool { return o.complete && o.Name == s.Name })
	s.asked++
	r.cells.leaveUnclaimed(s)
	if s.demo {
		r.settings.set(settingDemo, "removed")
	} else {
		r.ports.store.DeleteSet(s.ID, r.revs[s.ID], func(err error) {
			switch {
			case errors.Is(err, ErrNewer):
				r.notices.notify(true, "Another tab has changed "+s.Name+" meanwhile: it will be back when the page is loaded again.")
			case err != nil:
				r.notices.notify(true, "It will be back at the next start, as it cannot be deleted: "+err.Error())
			}
		})
	}
	r.rev++
	r.changed()
	r.ports.chart.SetSet(s.ID, nil)
	s.drawn = false
	r.ports.engine.Ask(engine.Request{Kind: engine.DropSet, Set: s.ID, ChartRev: r.rev}, func(a engine.Reply, _ map[string]Doc) {
		if a.State != engine.Progress {
			r.recheck()
		}
	})
}

// bringBack undoes a removal: the ids are separated by spaces.
func (r *Charts) bringBack(ids string) {
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
			r.bringDemoBack()
		case s.unsorted:
			r.keepChart(s, func(bool) { r.cells.openCells(&Opening{SavedSet: s.SavedSet, kept: s.ID}) })
		case r.cells.cellSet(s.cell) != nil: // it was opened meanwhile
			if len(s.Files) > 0 {
				r.cells.openCells(&Opening{SavedSet: s.SavedSet})
			}
			for _, g := range s.waiting {
				r.cells.takeCell(g)
			}
		default:
			s.Order = r.nextOrder()
			r.Sets = append(r.Sets, s)
			if s.kept {
				r.keepChart(s, func(bool) {})
			}
			if r.cells.unclaimed.HasUpdates(s.cell) {
				s.waiting = append(s.waiting, &cellFiles{Given: library.Given{Cell: s.cell}})
			}
			switch {
			case r.cells.waits(s), len(s.Files) == 0:
				r.cells.joinNext(s)
			default:
				r.send(s, func(taken bool) { r.opened(s, taken) })
			}
		}
	}
}

// bringDemoBack opens the demo's chart again.
func (r *Charts) bringDemoBack() {
	r.settings.set(settingDemo, "")
	if _, s := r.FindSet(DemoSet); s == nil {
		r.openDemoSet()
	}
	r.ports.redraw()
}
