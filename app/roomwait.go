package app

import (
	"errors"
	"slices"
	"strings"
	"time"
)

// whenStarted does something to the plan once one is open. Before that there is none
// to do it to: what was kept is still being read, and must not be overwritten.
func (r *Room) whenStarted(do func()) {
	if r.started {
		do()
		return
	}
	r.early = append(r.early, do)
}

// tooEarly says whether something was done on the chart before there is a plan, and
// keeps it for then.
func (r *Room) tooEarly(kind string, detail []byte) bool {
	if r.started || !edits[kind] {
		return false
	}
	r.whenStarted(func() { r.ChartSays(kind, detail) })
	return true
}

// edits are the gestures that change the plan or ask about a place.
var edits = map[string]bool{"move": true, "insert": true, "remove": true, "sketch": true, "place": true, "press": true}

// catchUp does what came before the first plan was open, in its order.
func (r *Room) catchUp() {
	if r.started {
		return
	}
	r.started = true
	early := r.early
	r.early = nil
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
func (r *Room) whenReady(do func()) {
	if r.ready {
		do()
		return
	}
	r.choseEarly = append(r.choseEarly, do)
}

// chooseEarly makes the choices that came before what is kept was read.
func (r *Room) chooseEarly() {
	chosen := r.choseEarly
	r.choseEarly = nil
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
func (r *Room) watchStore(under func() bool, n notice) (ended func()) {
	told := -1
	r.device.After(patience, func() {
		if !under() {
			return
		}
		if why := r.store.Waits(); why != "" {
			n.text = why + " " + n.text
		}
		r.say(n)
		told = r.told
	})
	return func() { r.dismiss(told) }
}

// planKept gives a kept plan, and tells when that takes too long.
func (r *Room) planKept(id string, take func(SavedPlan, error)) {
	slow, under := slowPlan, true
	if !r.started {
		slow = slowOpening
	}
	ended := r.watchStore(func() bool { return under }, slow)
	r.store.Plan(id, func(p SavedPlan, err error) {
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
func (r *Room) keptWord() string {
	switch {
	case !r.started:
		return ""
	case r.save.broken || r.save.failed != "" || r.open.ID == "" || r.save.unreadable == r.open.ID || r.save.gone[r.open.ID]:
		return "Not saved"
	case r.savingNow():
		return "Saving"
	case r.unpromised:
		return "Saved for now"
	}
	return "Saved"
}

// savingNow says whether something has been done that the store has not said it keeps.
func (r *Room) savingNow() bool {
	return r.save.busy || len(r.save.waiting) > 0 || r.save.archived > 0 || r.savingCharts()
}

func (r *Room) savingCharts() bool {
	return slices.ContainsFunc(r.sets, func(s *chartSet) bool { return s.saving != nil })
}

// unpromised is told where plans are kept.
const unpromised = " This browser has not promised to keep it: when room gets short on the device it may throw everything away. Export everything to a file now and then."

// Overtaken is told that a newer version of the app, in another tab, has changed
// how things are kept: from now on this page can save nothing.
func (r *Room) Overtaken() {
	r.say(notice{grave: true, text: "From now on nothing is saved here: " + ErrOvertaken.Error() + " What was saved is whole. " + remedy(ErrOvertaken), do: "reload", label: "Load again"})
}
