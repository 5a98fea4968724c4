package app

import (
	"errors"
	"fmt"

	"keelroom/hazards/plan"
)

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
func (r *Room) keep() {
	if r.save.broken || r.open.ID == "" || r.save.unreadable == r.open.ID {
		return
	}
	r.open.Changed = r.device.Now()
	r.open.Title = r.plan.Title
	r.listed(r.open.PlanHead)
	if r.save.busy {
		r.wait(r.open)
		return
	}
	delete(r.save.waiting, r.open.ID)
	r.saveNow(r.open)
}

// saveNow saves a state on top of the revision that it has.
func (r *Room) saveNow(p SavedPlan) {
	if r.save.gone[p.ID] {
		return
	}
	r.save.busy = true
	p.Rev++
	r.save.under = p
	r.revised(p.ID, p.Rev)
	under := true
	waiting := r.watchStore(func() bool { return under }, slowSaving)
	r.store.SavePlan(p, func(err error) {
		under = false
		waiting()
		r.kept(p, err)
	})
}

// revised notes the revision that the store has, or will have, of a plan.
func (r *Room) revised(id string, rev int) {
	if r.open.ID == id {
		r.open.Rev = rev
	}
	if w, ok := r.save.waiting[id]; ok {
		w.Rev = rev
		r.save.waiting[id] = w
	}
}

func (r *Room) kept(saved SavedPlan, err error) {
	r.save.busy = false
	switch {
	case errors.Is(err, ErrNewer):
		r.keepAsCopy(saved)
	case err != nil:
		r.save.failed = err.Error()
		if _, newer := r.save.waiting[saved.ID]; !newer {
			r.wait(saved)
		}
		r.revised(saved.ID, saved.Rev-1)
		r.tell(true, "Not saved: "+sentence(err)+" What was saved before is whole. "+remedy(err))
	default:
		r.save.failed = ""
	}
	if !r.save.busy && err == nil {
		r.saveWaiting()
	}
	r.redraw()
}

// wait keeps a state in memory until there is room for it.
func (r *Room) wait(p SavedPlan) {
	if r.save.gone[p.ID] {
		return
	}
	if r.save.waiting == nil {
		r.save.waiting = map[string]SavedPlan{}
	}
	r.save.waiting[p.ID] = p
}

// saveWaiting saves one of the states that wait.
func (r *Room) saveWaiting() {
	for id, next := range r.save.waiting {
		delete(r.save.waiting, id)
		r.saveNow(next)
		return
	}
}

// ErrNewer says that another tab saved a newer state of the plan.
var ErrNewer = errors.New("another tab has saved a newer state of this plan")

// keepAsCopy gives a state that another tab has overtaken a plan of its own.
func (r *Room) keepAsCopy(saved SavedPlan) {
	old := saved.ID
	if w, ok := r.save.waiting[old]; ok {
		saved = w
		delete(r.save.waiting, old)
	}
	if r.open.ID == old {
		saved = r.open
	}
	p, err := plan.DecodeDraft([]byte(saved.Text))
	if err == nil {
		p.Title += " (copy from another tab)"
		var b []byte
		if b, err = plan.Encode(p); err == nil {
			saved.ID, saved.Rev, saved.Text, saved.Title = r.device.NewID(), 0, string(b), p.Title
		}
	}
	if err != nil {
		r.tell(true, "Not saved: "+plain(err)+".")
		return
	}
	if r.open.ID == old {
		r.open, r.plan = saved, p
		r.chart.SetPlan(saved.Text)
		r.rev++
		r.set(settingPlan, saved.ID)
		r.recheck()
	}
	r.listed(saved.PlanHead)
	r.tell(true, fmt.Sprintf("This plan was changed in another tab. What you did here is kept as a plan of its own, %q.", saved.Title))
	r.saveNow(saved)
}

// OtherTab is told that another tab has saved a state of a plan.
func (r *Room) OtherTab(id string, rev int) {
	if id != r.open.ID || rev <= r.open.Rev || r.save.busy {
		return
	}
	if w, ok := r.save.waiting[id]; ok { // not saved yet: it becomes a copy
		delete(r.save.waiting, id)
		r.saveNow(w)
		return
	}
	r.store.Plan(id, func(p SavedPlan, err error) {
		if err != nil || p.ID != r.open.ID || p.Rev <= r.open.Rev || r.save.busy {
			return
		}
		r.open = p
		r.show()
		r.tell(false, "Another tab changed this plan; this is its newest state.")
	})
}

// listed puts a head into the list of plans.
func (r *Room) listed(h PlanHead) {
	for i := range r.plans {
		if r.plans[i].ID == h.ID {
			r.plans[i] = h
			return
		}
	}
	r.plans = append(r.plans, h)
}
