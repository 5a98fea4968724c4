package app

import (
	"cmp"
	"encoding/json"
	"slices"
	"time"

	"github.com/paulmach/orb"

	"keelroom/app/edit"
	"keelroom/hazards/plan"
)

// plans opens, begins, copies and deletes plans.
type plans struct {
	history  *history
	keeper   *keeper
	notices  *notices
	ports    *ports
	settings *settings
	view     *view
	show     func()

	deleted []SavedPlan
}

// OpenPlan opens a kept plan.
func (c *plans) open(id string) {
	if id == c.history.open.ID {
		return
	}
	if w, ok := c.keeper.save.waiting[id]; ok { // newer than what is kept
		c.history.open = w
		c.settings.set(settingPlan, id)
		c.show()
		return
	}
	c.keeper.load(id, func(p SavedPlan, err error) {
		if err != nil {
			c.notices.notify(true, "This plan cannot be opened: "+err.Error())
			c.keeper.list = slices.DeleteFunc(c.keeper.list, func(h PlanHead) bool { return h.ID == id })
			if c.history.open.ID == "" { // nothing typed may be without a place
				c.begin()
			}
			return
		}
		c.history.open = p
		c.settings.set(settingPlan, id)
		c.show()
	})
}

// NewPlan begins an empty day for the same boat.
func (c *plans) begin() {
	const title = "A day afloat"
	zone := c.ports.device.Zone()
	p, err := edit.NewDay(title, zone, c.history.plan.Boat)
	if err != nil {
		c.notices.notify(true, "The time zone of this device, "+zone+", is not known here. Times are in UTC until you choose a zone under Day.")
		p, err = edit.NewDay(title, "UTC", c.history.plan.Boat)
	}
	if err != nil {
		c.notices.notify(true, "The plan cannot be made: "+plain(err)+".")
		return
	}
	p.Margins = c.history.plan.Margins
	p.Day = c.ports.device.Now().In(p.Zone).Format(time.DateOnly)
	c.begun(p)
}

// CopyPlan makes a copy of the open plan and opens it.
func (c *plans) copyOpen() {
	p, _, err := c.history.edited(func(p *plan.Plan) error { p.Title = "Copy of " + p.Title; return nil })
	if err != nil {
		c.notices.notify(true, "This plan cannot be copied: "+err.Error())
		return
	}
	c.begun(p)
}

func (c *plans) begun(p *plan.Plan) {
	b, err := plan.Encode(p)
	if err != nil {
		c.notices.notify(true, "The plan cannot be made: "+err.Error())
		return
	}
	c.adopt(string(b))
	c.view.tab = tabRoute
}

// DeletePlan deletes a plan; it can be brought back until the page is left.
func (c *plans) delete(id string) {
	if id == c.history.open.ID {
		c.deleteState(c.history.open)
		return
	}
	if w, ok := c.keeper.save.waiting[id]; ok {
		c.deleteState(w)
		return
	}
	c.ports.store.Plan(id, func(p SavedPlan, err error) {
		if err != nil {
			c.notices.notify(true, "This plan cannot be deleted: "+err.Error())
			return
		}
		c.deleteState(p)
	})
}

// deleteState deletes a plan of which this is the newest state.
func (c *plans) deleteState(p SavedPlan) {
	if c.keeper.save.gone == nil {
		c.keeper.save.gone = map[string]bool{}
	}
	c.keeper.save.gone[p.ID] = true
	delete(c.keeper.save.waiting, p.ID)
	c.ports.store.DeletePlan(p.ID, func(err error) {
		if err != nil {
			c.notices.notify(true, p.Title+" will be back at the next start, as it cannot be deleted: "+err.Error())
		}
	})
	c.keeper.list = slices.DeleteFunc(c.keeper.list, func(h PlanHead) bool { return h.ID == p.ID })
	c.deleted = append(c.deleted, p)
	c.notices.add(notice{text: p.Title + " is deleted.", do: "plan-back", arg: p.ID})
	if p.ID == c.history.open.ID {
		c.history.open.ID = ""
		if len(c.keeper.list) > 0 {
			c.open(newest(c.keeper.list).ID)
		} else {
			c.openDemo()
		}
	}
	c.ports.redraw()
}

// BringBack undoes a deletion: the plan comes back under a new name in the store.
func (c *plans) bringBack(id string) {
	i := slices.IndexFunc(c.deleted, func(p SavedPlan) bool { return p.ID == id })
	if i < 0 {
		return
	}
	p := c.deleted[i]
	c.deleted = slices.Delete(c.deleted, i, i+1)
	p.ID, p.Rev = c.ports.device.NewID(), 0
	c.history.open = p
	c.settings.set(settingPlan, p.ID)
	c.show()
	c.keeper.keep()
}

// planBounds is the box of the routes and stays of a plan.
func planBounds(p *plan.Plan) (b [4]float64, ok bool) {
	var all orb.MultiPoint
	for _, part := range p.Parts {
		if part.Route != nil {
			all = append(all, part.Route.Points...)
		} else {
			all = append(all, part.Stay.At)
		}
	}
	if len(all) == 0 {
		return b, false
	}
	box := all.Bound()
	return [4]float64{box.Min[0], box.Min[1], box.Max[0], box.Max[1]}, true
}

// Offline is told whether the app works without a network.
func (r *Room) Offline(line string) {
	r.view.offline = line
	r.ports.redraw()
}

// plansListed are the plans in the order they are listed: where they are many, the
// open one and the newest come first.
func (c *plans) sorted() []PlanHead {
	if len(c.keeper.list) <= listStep {
		return c.keeper.list
	}
	list := slices.Clone(c.keeper.list)
	slices.SortStableFunc(list, func(a, b PlanHead) int {
		if open := c.history.open.ID; (a.ID == open) != (b.ID == open) {
			if a.ID == open {
				return -1
			}
			return 1
		}
		return cmp.Compare(b.Changed.UnixNano(), a.Changed.UnixNano())
	})
	return list[:c.view.rowsShown(listPlans, len(list))]
}

func newest(list []PlanHead) PlanHead {
	best := list[0]
	for _, p := range list[1:] {
		if p.Changed.After(best.Changed) {
			best = p
		}
	}
	return best
}

// openDemo makes a plan of the demo day.
func (c *plans) openDemo() {
	c.view.progress = "Fetching the demo day."
	c.ports.device.Fetch(demoIndex, func(b []byte, err error) {
		var index struct{ Plan string }
		if err == nil {
			err = json.Unmarshal(b, &index)
		}
		if err != nil {
			c.notices.notify(true, "The demo day cannot be fetched: "+err.Error())
			c.begin()
			return
		}
		c.ports.device.Fetch(demoFolder+index.Plan, func(b []byte, err error) {
			if err == nil {
				_, err = plan.Decode(b)
			}
			if err != nil {
				c.notices.notify(true, "The demo day cannot be opened: "+err.Error())
				c.begin()
				return
			}
			c.adopt(string(b))
		})
	})
}

// adopt makes a plan file the open plan, as a new one.
func (c *plans) adopt(text string) {
	c.history.open = SavedPlan{PlanHead: PlanHead{ID: c.ports.device.NewID(), Changed: c.ports.device.Now()}, Text: text}
	c.show()
	c.settings.set(settingPlan, c.history.open.ID)
	c.keeper.keep()
}
