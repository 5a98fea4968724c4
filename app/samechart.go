package app

import (
	"slices"
)

// sameAs are the other sets that are the same chart as one, such as a cell and the
// layers that were made of all of it.
func (r *charts) sameAs(s *chartSet) (same []*chartSet) {
	for _, o := range r.sets {
		if o != s && (slices.Contains(s.info.Same, o.ID) || slices.Contains(o.info.Same, s.ID)) {
			same = append(same, o)
		}
	}
	return same
}

// title is what a set is called in the list of charts.
func (s *chartSet) title() string {
	if s.cell == "" && s.info.Title != "" {
		return s.info.Title
	}
	return s.Name
}

// offerToClose says that a chart that has just been opened is open twice, and offers to
// close one: the layers beside a cell, which has its updates and says its edition;
// else the one that came later.
func (r *charts) offerToClose(s *chartSet) {
	for _, o := range r.sameAs(s) {
		close, keep := s, o
		if s.cell != "" && o.cell == "" {
			close, keep = o, s
		}
		r.notices.add(notice{text: close.title() + " is the same chart as " + keep.title() + ", and both are open: at least nine in ten of the objects of either are in the other. One is enough.",
			do: "set-remove", arg: close.ID, label: "Close " + close.title()})
	}
}
