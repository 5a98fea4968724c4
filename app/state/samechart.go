package state

import (
	"slices"
)

// SameAs are the other sets that are the same chart as one, such as a cell and the
// layers that were made of all of it.
func (cs *Charts) SameAs(s *ChartSet) (same []*ChartSet) {
	for _, o := range cs.Sets {
		if o != s && (slices.Contains(s.Info.Same, o.ID) || slices.Contains(o.Info.Same, s.ID)) {
			same = append(same, o)
		}
	}
	return same
}

// Title is what a set is called in the list of charts.
func (s *ChartSet) Title() string {
	if s.cell == "" && s.Info.Title != "" {
		return s.Info.Title
	}
	return s.Name
}

// offerToClose says that a chart that has just been opened is open twice, and offers to
// close one: the layers beside a cell, which has its updates and says its edition;
// else the one that came later.
func (cs *Charts) offerToClose(s *ChartSet) {
	for _, o := range cs.SameAs(s) {
		close, keep := s, o
		if s.cell != "" && o.cell == "" {
			close, keep = o, s
		}
		cs.notices.add(Notice{Text: close.Title() + " is the same chart as " + keep.Title() + ", and both are open: at least nine in ten of the objects of either are in the other. One is enough.",
			Do: "set-remove", arg: close.ID, label: "Close " + close.Title()})
	}
}
