package state

import (
	"errors"
	"strings"
	"time"
)

// patience is how long the device's store may take before a message says so: far longer
// than it takes on a slow device that works.
const patience = 10 * time.Second

// The messages about a store that does not answer. Loading again would lose a change
// that is not saved, so that is offered only while nothing is open yet.
var (
	slowOpening = Notice{Grave: true, Do: "reload", label: "Load again",
		Text: "The device has not opened what is kept on it. What is kept is not lost by that. What you do on this page waits for it, and goes with this page. " +
			"Close other tabs and windows of Keelroom, then load it again; if that does not help, close the browser and start it anew."}
	slowPlan = Notice{Grave: true,
		Text: "The device has not opened this plan yet; the one on the screen is still the one before. Close other tabs and windows of Keelroom."}
	slowSaving = Notice{Grave: true,
		Text: "The device has not saved the last change yet. What was saved before is whole. Export this plan to a file before you leave this page."}
)

// watchStore shows a message about a call to the store that is still under way after the time
// of patience, and takes that back when the caller says that it has ended.
func (k *Keeper) watchStore(under func() bool, n Notice) (ended func()) {
	shown := -1
	k.ports.Device.After(patience, func() {
		if !under() {
			return
		}
		if why := k.ports.store.Waits(); why != "" {
			n.Text = why + " " + n.Text
		}
		k.notices.add(n)
		shown = k.notices.lastID
	})
	return func() { k.notices.dismiss(shown) }
}

// load gives a kept plan, and shows a message when that takes too long.
func (k *Keeper) load(id string, take func(SavedPlan, error)) {
	slow, under := slowPlan, true
	if !k.startup.Started {
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

// Status is a word, always in sight, for whether what was done is kept by now.
func (k *Keeper) Status() string {
	switch {
	case !k.startup.Started:
		return ""
	case k.Save.Broken || k.Save.Failed != "" || k.history.Open.ID == "" || k.Save.unreadable == k.history.Open.ID || k.Save.Gone[k.history.Open.ID]:
		return "Not saved"
	case k.Busy():
		return "Saving"
	case k.Unpromised:
		return "Saved for now"
	}
	return "Saved"
}

// Busy reports whether something was done that the store has not confirmed yet.
func (k *Keeper) Busy() bool {
	return k.Save.busy || len(k.Save.waiting) > 0 || k.Save.archived > 0 || k.savingCharts()
}

// Unpromised is added where the screen says that plans are kept.
const Unpromised = " This browser has not promised to keep it: when room gets short on the device it may throw everything away. Export everything to a file now and then."
