package state

import (
	"slices"
)

// Startup holds back what was done before there is something to do it to.
type Startup struct {
	early      []func()
	choseEarly []func() // before the stored state was read
	Ready      bool     // the stored state has been read
	Started    bool     // a plan has been opened
}

// whenStarted does something to the plan once one is open. Before that there is none
// to do it to: what was kept is still being read, and must not be overwritten.
func (s *Startup) whenStarted(do func()) {
	if s.Started {
		do()
		return
	}
	s.early = append(s.early, do)
}

// tooEarly says whether something was done on the chart before there is a plan, and
// keeps it for then.
func (r *Room) tooEarly(kind string, detail []byte) bool {
	if r.Startup.Started || !edits[kind] {
		return false
	}
	r.Startup.whenStarted(func() { r.ChartSays(kind, detail) })
	return true
}

// edits are the gestures that change the plan or ask about a place.
var edits = map[string]bool{"move": true, "insert": true, "remove": true, "sketch": true, "place": true, "press": true}

// catchUp does what came before the first plan was open, in its order.
func (s *Startup) catchUp() {
	if s.Started {
		return
	}
	s.Started = true
	early := s.early
	s.early = nil
	for _, do := range early {
		do()
	}
}

// atOnce are the actions that touch neither plans nor charts nor settings.
var atOnce = map[string]bool{"tab": true, "dismiss": true, "notice-do": true, "zoom-in": true, "zoom-out": true, "reload": true,
	"watch-ack": true, "watch-attempt": true, "watch-sound": true}

// onlyChoices are the actions that touch settings alone: they need no plan, but would be
// overwritten by the settings that are still being read.
var onlyChoices = map[string]bool{"palette": true, "understood": true, "hints-gone": true}

// whenReady does something once what is kept has been read.
func (s *Startup) whenReady(do func()) {
	if s.Ready {
		do()
		return
	}
	s.choseEarly = append(s.choseEarly, do)
}

// chooseEarly makes the choices that came before what is kept was read.
func (s *Startup) chooseEarly() {
	chosen := s.choseEarly
	s.choseEarly = nil
	for _, do := range chosen {
		do()
	}
}

func (cs *Charts) saving() bool {
	return slices.ContainsFunc(cs.Sets, func(s *ChartSet) bool { return s.saving != nil })
}

// Overtaken takes note that a newer version of the app, in another tab, has changed
// how things are kept: from now on this page can save nothing.
func (r *Room) Overtaken() {
	r.Notices.add(Notice{Grave: true, Text: "From now on nothing is saved here: " + ErrOvertaken.Error() + " What was saved is whole. " + remedy(ErrOvertaken), Do: "reload", label: "Load again"})
}
