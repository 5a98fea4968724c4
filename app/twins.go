package app

import (
	"slices"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"
)

// twinsOf are the other sets that hold the same chart as one, such as a cell and the
// layers that were made of all of it.
func (r *charts) twinsOf(s *chartSet) (twins []*chartSet) {
	for _, o := range r.sets {
		if o != s && (slices.Contains(s.info.Twins, o.ID) || slices.Contains(o.info.Twins, s.ID)) {
			twins = append(twins, o)
		}
	}
	return twins
}

// title is what a set is called in the list of charts.
func (s *chartSet) title() string {
	if s.cell == "" && s.info.Title != "" {
		return s.info.Title
	}
	return s.Name
}

// offerTwin says that a chart that has just been opened is open twice, and offers to
// close one: the layers beside a cell, which has its updates and says its edition;
// else the one that came later.
func (r *charts) offerTwin(s *chartSet) {
	for _, o := range r.twinsOf(s) {
		close, keep := s, o
		if s.cell != "" && o.cell == "" {
			close, keep = o, s
		}
		r.notices.add(notice{text: close.title() + " is the same chart as " + keep.title() + ", and both are open: at least nine in ten of the objects of either are in the other. One is enough.",
			do: "set-remove", arg: close.ID, label: "Close " + close.title()})
	}
}

// twinLines say so in the list of charts.
func twinLines(r *Room, s *chartSet) (lines []ui.UI) {
	for _, o := range r.charts.twinsOf(s) {
		lines = append(lines, ui.P().Class("wrong").Text("The same chart is open as "+o.title()+" too. One is enough: remove the other."))
	}
	return lines
}
