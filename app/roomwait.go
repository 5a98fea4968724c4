package app

import (
	"errors"
	"slices"
	"strings"
	"time"
)

// startup holds back what was done before there is something to do it to.
type startup struct {
	early      []func()
	choseEarly []func() // before the stored state was read
	ready      bool     // the stored state has been read
	started    bool     // a plan has been opened
}

// whenStarted does something to the plan once one is open. Before that there is none
// to do it to: what was kept is still being read, and must not be overwritten.
func (s *startup) whenStarted(do func()) {
	if s.started {
		do()
		return
	}
	s.early = append(s.early, do)
}

// tooEarly says whether something was done on the chart before there is a plan, and
// keeps it for then.
func (r *Room) tooEarly(kind string, detail []byte) bool {
	if r.startup.started || !edits[kind] {
		return false
	}
	r.startup.whenStarted(func() { r.ChartSays(kind, detail) })
	return true
}

// edits are the gestures that change the plan or ask about a place.
var edits = map[string]bool{"move": true, "insert": true, "remove": true, "sketch": true, "place": true, "press": true}

// catchUp does what came before the first plan was open, in its order.
func (s *startup) catchUp() {
	if s.started {
		return
	}
	s.started = true
	early := s.early
	s.early = nil
	for _, do := range early {
		do()
	}
}

// atOnce are the actions that touch neither plans nor charts nor settings.
var atOnce = map[string]bool{"tab": true, "dismiss": true, "notice-do": true, "zoom-in": true, "zoom-out": true, "reload": true}

// onlyChoices are the actions that touch settings alone: they need no plan, but would be
// overwritten by the settings that are still being read.
var onlyChoices = map[string]bool{"palette": true, "understood": true, "hints-gone": true}

// whenReady does something once what is kept has been read.
func (s *startup) whenReady(do func()) {
	if s.ready {
		do()
		return
	}
	s.choseEarly = append(s.choseEarly, do)
}

// chooseEarly makes the choices that came before what is kept was read.
func (s *startup) chooseEarly() {
	chosen := s.choseEarly
	s.choseEarly = nil
	for _, do := range chosen {
		do()
	}
}

// patience is how long the device's store may take before that is told: far longer
// than it takes on a slow device that works.
const patience = 10 * time.Second

// What is told of a store that does not answer. Loading again would lose a change
// that is not saved, so that is offered only while nothing is open yet.
var (
	slowOpening = notice{grave: true, do: "reload", label: "Load again",
		text: "The device has not opened what is kept on it. What is kept is not lost by that. What you do on this page waits for it, and goes with this page. " +
			"Close other tabs and windows of Keelroom, then load it again; if that does not help, close the browser and start it anew."}
	slowPlan = notice{grave: true,
		text: "The device has not opened this plan yet; the one on the screen is still the one before. Close other tabs and windows of Keelroom."}
	slowSaving = notice{grave: true,
		text: "The device has not saved the last change yet. What was saved before is whole. Export this plan to a file before you leave this page."}
)

// watchStore tells of a call to the store that is still under way after the time
// of patience, and takes that back when the caller says that it has ended.
func (k *keeper) watchStore(under func() bool, n notice) (ended func()) {
	told := -1
	k.ports.device.After(patience, func() {
		if !under() {
			return
		}
		if why := k.ports.store.Waits(); why != "" {
			n.text = why + " " + n.text
		}
		k.notices.add(n)
		told = k.notices.lastID
	})
	return func() { k.notices.dismiss(told) }
}

// planKept gives a kept plan, and tells when that takes too long.
func (k *keeper) load(id string, take func(SavedPlan, error)) {
	slow, under := slowPlan, true
	if !k.startup.started {
		slow = slowOpening
	}
	ended := k.watchStore(func() bool { return under }, slow)
	k.ports.store.Plan(id, func(p SavedPlan, err error) {
		under = false
		ended()
		take(p, err)
	})
}

// sentence is an error with a full stop.
func sentence(err error) string {
	text := err.Error()
	if strings.HasSuffix(text, ".") {
		return text
	}
	return text + "."
}

// ErrNoRoom says that the device has no room for more.
var ErrNoRoom = errors.New("there is no room left on this device.")

// ErrOvertaken says that a newer version of the app has changed what is kept, and
// how, so that this one can neither read nor save any more.
var ErrOvertaken = errors.New("a newer Keelroom, open in another tab or window, keeps things in another way now.")

// remedy is what can be done about a plan that could not be saved.
func remedy(err error) string {
	switch {
	case errors.Is(err, ErrNoRoom):
		return "Export this plan to a file, or make room on the device."
	case errors.Is(err, ErrOvertaken):
		return "Export this plan to a file, then load this page again."
	}
	return "Export this plan to a file."
}

// keptWord says in sight whether what was done is kept by now.
func (k *keeper) status() string {
	switch {
	case !k.startup.started:
		return ""
	case k.save.broken || k.save.failed != "" || k.history.open.ID == "" || k.save.unreadable == k.history.open.ID || k.save.gone[k.history.open.ID]:
		return "Not saved"
	case k.busy():
		return "Saving"
	case k.unpromised:
		return "Saved for now"
	}
	return "Saved"
}

// savingNow says whether something has been done that the store has not said it keeps.
func (k *keeper) busy() bool {
	return k.save.busy || len(k.save.waiting) > 0 || k.save.archived > 0 || k.savingCharts()
}

func (r *charts) saving() bool {
	return slices.ContainsFunc(r.sets, func(s *chartSet) bool { return s.saving != nil })
}

// unpromised is told where plans are kept.
const unpromised = " This browser has not promised to keep it: when room gets short on the device it may throw everything away. Export everything to a file now and then."

// Overtaken is told that a newer version of the app, in another tab, has changed
// how things are kept: from now on this page can save nothing.
func (r *Room) Overtaken() {
	r.notices.add(notice{grave: true, text: "From now on nothing is saved here: " + ErrOvertaken.Error() + " What was saved is whole. " + remedy(ErrOvertaken), do: "reload", label: "Load again"})
}
