package app

import (
	"errors"
	"fmt"

	"keelroom/hazards/plan"
)

// keeper saves plans, and knows which are kept.
type keeper struct {
	history      *history
	notices      *notices
	ports        *ports
	settings     *settings
	startup      *startup
	recheck      func()
	show         func()
	savingCharts func() bool

	save       saving
	list       []PlanHead
	asked      bool // the device, to keep what is saved
	unpromised bool // the device has not promised it
}

// saving is what is under way with the store: one save at a time, and of each
// plan the newest state waits.
type saving struct {
	busy, broken bool
	unreadable   string          // the id of a plan that must be left as it is
	gone         map[string]bool // deleted here: nothing may bring them back but the skipper
	waiting      map[string]SavedPlan
	under        SavedPlan         // while busy
	archived     int               // plans of an archive that are on their way to the store
	exported     map[string]string // the states that are in a file of the skipper's, by id
	failed       string
}

// keep saves the open plan as it is now, whatever is opened meanwhile.
func (k *keeper) keep() {
	if k.save.broken || k.history.open.ID == "" || k.save.unreadable == k.history.open.ID {
		return
	}
	k.history.open.Changed = k.ports.device.Now()
	k.history.open.Title = k.history.plan.Title
	k.listed(k.history.open.PlanHead)
	if k.save.busy {
		k.wait(k.history.open)
		return
	}
	delete(k.save.waiting, k.history.open.ID)
	k.saveNow(k.history.open)
}

// saveNow saves a state on top of the revision that it has.
func (k *keeper) saveNow(p SavedPlan) {
	if k.save.gone[p.ID] {
		return
	}
	k.save.busy = true
	p.Rev++
	k.save.under = p
	k.revised(p.ID, p.Rev)
	under := true
	waiting := k.watchStore(func() bool { return under }, slowSaving)
	k.ports.store.SavePlan(p, func(err error) {
		under = false
		waiting()
		k.saved(p, err)
	})
}

// revised notes the revision that the store has, or will have, of a plan.
func (k *keeper) revised(id string, rev int) {
	if k.history.open.ID == id {
		k.history.open.Rev = rev
	}
	if w, ok := k.save.waiting[id]; ok {
		w.Rev = rev
		k.save.waiting[id] = w
	}
}

func (k *keeper) saved(saved SavedPlan, err error) {
	k.save.busy = false
	switch {
	case errors.Is(err, ErrNewer):
		k.keepAsCopy(saved)
	case err != nil:
		k.save.failed = err.Error()
		if _, newer := k.save.waiting[saved.ID]; !newer {
			k.wait(saved)
		}
		k.revised(saved.ID, saved.Rev-1)
		k.notices.notify(true, "Not saved: "+sentence(err)+" What was saved before is whole. "+remedy(err))
	default:
		k.save.failed = ""
	}
	if !k.save.busy && err == nil {
		k.saveWaiting()
	}
	k.ports.redraw()
}

// wait keeps a state in memory until there is room for it.
func (k *keeper) wait(p SavedPlan) {
	if k.save.gone[p.ID] {
		return
	}
	if k.save.waiting == nil {
		k.save.waiting = map[string]SavedPlan{}
	}
	k.save.waiting[p.ID] = p
}

// saveWaiting saves one of the states that wait.
func (k *keeper) saveWaiting() {
	for id, next := range k.save.waiting {
		delete(k.save.waiting, id)
		k.saveNow(next)
		return
	}
}

// ErrNewer says that another tab saved a newer state of the plan.
var ErrNewer = errors.New("another tab has saved a newer state of this plan")

// keepAsCopy gives a state that another tab has overtaken a plan of its own.
func (k *keeper) keepAsCopy(saved SavedPlan) {
	old := saved.ID
	if w, ok := k.save.waiting[old]; ok {
		saved = w
		delete(k.save.waiting, old)
	}
	if k.history.open.ID == old {
		saved = k.history.open
	}
	p, err := plan.DecodeDraft([]byte(saved.Text))
	if err == nil {
		p.Title += " (copy from another tab)"
		var b []byte
		if b, err = plan.Encode(p); err == nil {
			saved.ID, saved.Rev, saved.Text, saved.Title = k.ports.device.NewID(), 0, string(b), p.Title
		}
	}
	if err != nil {
		k.notices.notify(true, "Not saved: "+plain(err)+".")
		return
	}
	if k.history.open.ID == old {
		k.history.open, k.history.plan = saved, p
		k.ports.chart.SetPlan(saved.Text)
		k.history.rev++
		k.settings.set(settingPlan, saved.ID)
		k.recheck()
	}
	k.listed(saved.PlanHead)
	k.notices.notify(true, fmt.Sprintf("This plan was changed in another tab. What you did here is kept as a plan of its own, %q.", saved.Title))
	k.saveNow(saved)
}

// OtherTab is told that another tab has saved a state of a plan.
func (k *keeper) otherTab(id string, rev int) {
	if id != k.history.open.ID || rev <= k.history.open.Rev || k.save.busy {
		return
	}
	if w, ok := k.save.waiting[id]; ok { // not saved yet: it becomes a copy
		delete(k.save.waiting, id)
		k.saveNow(w)
		return
	}
	k.ports.store.Plan(id, func(p SavedPlan, err error) {
		if err != nil || p.ID != k.history.open.ID || p.Rev <= k.history.open.Rev || k.save.busy {
			return
		}
		k.history.open = p
		k.show()
		k.notices.notify(false, "Another tab changed this plan; this is its newest state.")
	})
}

// listed puts a head into the list of plans.
func (k *keeper) listed(h PlanHead) {
	for i := range k.list {
		if k.list[i].ID == h.ID {
			k.list[i] = h
			return
		}
	}
	k.list = append(k.list, h)
}

func (k *keeper) known(id string) bool {
	for _, p := range k.list {
		if p.ID == id {
			return true
		}
	}
	return false
}

// persist asks the device once to keep what is saved when room gets short.
func (k *keeper) persist() {
	if k.asked {
		return
	}
	k.asked = true
	k.ports.device.Persist(func(kept bool) { k.unpromised = !kept; k.ports.redraw() })
}
