package state

import (
	"errors"
	"fmt"

	"keelroom/hazards/plan"
)

// Keeper saves plans, and knows which are kept.
type Keeper struct {
	history      *History
	notices      *Notices
	ports        *Ports
	settings     *Settings
	startup      *Startup
	recheck      func()
	show         func()
	savingCharts func() bool

	Save       saving
	List       []PlanHead
	asked      bool // the device, to keep what is saved
	Unpromised bool // the device has not promised it
}

// saving is what is under way with the store: one save at a time, and of each
// plan the newest state waits.
type saving struct {
	busy, Broken bool
	unreadable   string          // the id of a plan that must be left as it is
	Gone         map[string]bool // deleted here: nothing may bring them back but the skipper
	waiting      map[string]SavedPlan
	under        SavedPlan         // while busy
	archived     int               // plans of an archive that are on their way to the store
	exported     map[string]string // the states that are in a file of the skipper's, by id
	Failed       string
}

// keep saves the open plan as it is now, whatever is opened meanwhile.
func (k *Keeper) keep() {
	if k.Save.Broken || k.history.Open.ID == "" || k.Save.unreadable == k.history.Open.ID {
		return
	}
	k.history.Open.Changed = k.ports.Device.Now()
	k.history.Open.Title = k.history.Plan.Title
	k.putHead(k.history.Open.PlanHead)
	if k.Save.busy {
		k.wait(k.history.Open)
		return
	}
	delete(k.Save.waiting, k.history.Open.ID)
	k.saveNow(k.history.Open)
}

// saveNow saves a state on top of the revision that it has.
func (k *Keeper) saveNow(p SavedPlan) {
	if k.Save.Gone[p.ID] {
		return
	}
	k.Save.busy = true
	p.Rev++
	k.Save.under = p
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
func (k *Keeper) revised(id string, rev int) {
	if k.history.Open.ID == id {
		k.history.Open.Rev = rev
	}
	if w, ok := k.Save.waiting[id]; ok {
		w.Rev = rev
		k.Save.waiting[id] = w
	}
}

func (k *Keeper) saved(saved SavedPlan, err error) {
	k.Save.busy = false
	switch {
	case errors.Is(err, ErrNewer):
		k.keepAsCopy(saved)
	case err != nil:
		k.Save.Failed = err.Error()
		if _, newer := k.Save.waiting[saved.ID]; !newer {
			k.wait(saved)
		}
		k.revised(saved.ID, saved.Rev-1)
		k.notices.notify(true, "Not saved: "+sentence(err)+" What was saved before is whole. "+remedy(err))
	default:
		k.Save.Failed = ""
	}
	if !k.Save.busy && err == nil {
		k.saveWaiting()
	}
	k.ports.redraw()
}

// wait keeps a state in memory until there is room for it.
func (k *Keeper) wait(p SavedPlan) {
	if k.Save.Gone[p.ID] {
		return
	}
	if k.Save.waiting == nil {
		k.Save.waiting = map[string]SavedPlan{}
	}
	k.Save.waiting[p.ID] = p
}

// saveWaiting saves one of the states that wait.
func (k *Keeper) saveWaiting() {
	for id, next := range k.Save.waiting {
		delete(k.Save.waiting, id)
		k.saveNow(next)
		return
	}
}

// ErrNewer says that another tab saved a newer state of the plan.
var ErrNewer = errors.New("another tab has saved a newer state of this plan")

// keepAsCopy gives a state that another tab has overtaken a plan of its own.
func (k *Keeper) keepAsCopy(saved SavedPlan) {
	old := saved.ID
	if w, ok := k.Save.waiting[old]; ok {
		saved = w
		delete(k.Save.waiting, old)
	}
	if k.history.Open.ID == old {
		saved = k.history.Open
	}
	p, err := plan.DecodeDraft([]byte(saved.Text))
	if err == nil {
		p.Title += " (copy from another tab)"
		var b []byte
		if b, err = plan.Encode(p); err == nil {
			saved.ID, saved.Rev, saved.Text, saved.Title = k.ports.Device.NewID(), 0, string(b), p.Title
		}
	}
	if err != nil {
		k.notices.notify(true, "Not saved: "+plain(err)+".")
		return
	}
	if k.history.Open.ID == old {
		k.history.Open, k.history.Plan = saved, p
		k.ports.chart.SetPlan(saved.Text)
		k.history.rev++
		k.settings.set(settingPlan, saved.ID)
		k.recheck()
	}
	k.putHead(saved.PlanHead)
	k.notices.notify(true, fmt.Sprintf("This plan was changed in another tab. What you did here is kept as a plan of its own, %q.", saved.Title))
	k.saveNow(saved)
}

// OtherTab takes note that another tab has saved a state of a plan.
func (k *Keeper) OtherTab(id string, rev int) {
	if id != k.history.Open.ID || rev <= k.history.Open.Rev || k.Save.busy {
		return
	}
	if w, ok := k.Save.waiting[id]; ok { // not saved yet: it becomes a copy
		delete(k.Save.waiting, id)
		k.saveNow(w)
		return
	}
	k.ports.store.Plan(id, func(p SavedPlan, err error) {
		if err != nil || p.ID != k.history.Open.ID || p.Rev <= k.history.Open.Rev || k.Save.busy {
			return
		}
		k.history.Open = p
		k.show()
		k.notices.notify(false, "Another tab changed this plan; this is its newest state.")
	})
}

// putHead puts a head into the list of plans.
func (k *Keeper) putHead(h PlanHead) {
	for i := range k.List {
		if k.List[i].ID == h.ID {
			k.List[i] = h
			return
		}
	}
	k.List = append(k.List, h)
}

func (k *Keeper) known(id string) bool {
	for _, p := range k.List {
		if p.ID == id {
			return true
		}
	}
	return false
}

// persist asks the device once to keep what is saved when room gets short.
func (k *Keeper) persist() {
	if k.asked {
		return
	}
	k.asked = true
	k.ports.Device.Persist(func(kept bool) { k.Unpromised = !kept; k.ports.redraw() })
}
