package state

import (
	"cmp"
	"encoding/json"
	"slices"
	"time"

	"github.com/paulmach/orb"

	"keelroom/app/edit"
	"keelroom/hazards/plan"
)

// Plans opens, begins, copies and deletes plans.
type Plans struct {
	history  *History
	keeper   *Keeper
	notices  *Notices
	ports    *Ports
	settings *Settings
	view     *View
	show     func()

	Deleted []SavedPlan
}

// open opens a kept plan.
func (c *Plans) open(id string) {
	if id == c.history.Open.ID {
		return
	}
	if w, ok := c.keeper.Save.waiting[id]; ok { // newer than what is kept
		c.history.Open = w
		c.settings.set(settingPlan, id)
		c.show()
		return
	}
	c.keeper.load(id, func(p SavedPlan, err error) {
		if err != nil {
			c.notices.notify(true, "This plan cannot be opened: "+err.Error())
			c.keeper.List = slices.DeleteFunc(c.keeper.List, func(h PlanHead) bool { return h.ID == id })
			if c.history.Open.ID == "" { // nothing typed may be without a place
				c.begin()
			}
			return
		}
		c.history.Open = p
		c.settings.set(settingPlan, id)
		c.show()
	})
}

// begin begins an empty day for the same boat.
func (c *Plans) begin() {
	const title = "A day afloat"
	zone := c.ports.Device.Zone()
	p, err := edit.NewDay(title, zone, c.history.Plan.Boat)
	if err != nil {
		c.notices.notify(true, "The time zone of this device, "+zone+", is not known here. Times are in UTC until you choose a zone under Day.")
		p, err = edit.NewDay(title, "UTC", c.history.Plan.Boat)
	}
	if err != nil {
		c.notices.notify(true, "The plan cannot be made: "+plain(err)+".")
		return
	}
	p.Margins = c.history.Plan.Margins
	p.Day = c.ports.Device.Now().In(p.Zone).Format(time.DateOnly)
	c.openNew(p)
}

// copyOpen makes a copy of the open plan and opens it.
func (c *Plans) copyOpen() {
	p, _, err := c.history.edited(func(p *plan.Plan) error { p.Title = "Copy of " + p.Title; return nil })
	if err != nil {
		c.notices.notify(true, "This plan cannot be copied: "+err.Error())
		return
	}
	c.openNew(p)
}

func (c *Plans) openNew(p *plan.Plan) {
	b, err := plan.Encode(p)
	if err != nil {
		c.notices.notify(true, "The plan cannot be made: "+err.Error())
		return
	}
	c.adopt(string(b))
	c.view.Tab = TabRoute
}

// delete deletes a plan; it can be brought back until the page is left.
func (c *Plans) delete(id string) {
	if id == c.history.Open.ID {
		c.deleteState(c.history.Open)
		return
	}
	if w, ok := c.keeper.Save.waiting[id]; ok {
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
func (c *Plans) deleteState(p SavedPlan) {
	if c.keeper.Save.Gone == nil {
		c.keeper.Save.Gone = map[string]bool{}
	}
	c.keeper.Save.Gone[p.ID] = true
	delete(c.keeper.Save.waiting, p.ID)
	c.ports.store.DeletePlan(p.ID, func(err error) {
		if err != nil {
			c.notices.notify(true, p.Title+" will be back at the next start, as it cannot be deleted: "+err.Error())
		}
	})
	c.ports.store.StoreDay("", nil) // the day that was checked last has the plan's text
	c.keeper.List = slices.DeleteFunc(c.keeper.List, func(h PlanHead) bool { return h.ID == p.ID })
	c.Deleted = append(c.Deleted, p)
	c.notices.add(Notice{Text: p.Title + " is deleted.", Do: "plan-back", arg: p.ID})
	if p.ID == c.history.Open.ID {
		c.history.Open.ID = ""
		if len(c.keeper.List) > 0 {
			c.open(newest(c.keeper.List).ID)
		} else {
			c.openDemo()
		}
	}
	c.ports.redraw()
}

// bringBack undoes a deletion: the plan comes back under a new name in the store.
func (c *Plans) bringBack(id string) {
	i := slices.IndexFunc(c.Deleted, func(p SavedPlan) bool { return p.ID == id })
	if i < 0 {
		return
	}
	p := c.Deleted[i]
	c.Deleted = slices.Delete(c.Deleted, i, i+1)
	p.ID, p.Rev = c.ports.Device.NewID(), 0
	c.history.Open = p
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

// Offline takes note whether the app works without a network.
func (r *Room) Offline(line string) {
	r.View.Offline = line
	r.Ports.redraw()
}

// Listed are the plans in the order they are listed: where they are many, the
// open one and the newest come first.
func (c *Plans) Listed() []PlanHead {
	if len(c.keeper.List) <= ListStep {
		return c.keeper.List
	}
	list := slices.Clone(c.keeper.List)
	slices.SortStableFunc(list, func(a, b PlanHead) int {
		if open := c.history.Open.ID; (a.ID == open) != (b.ID == open) {
			if a.ID == open {
				return -1
			}
			return 1
		}
		return cmp.Compare(b.Changed.UnixNano(), a.Changed.UnixNano())
	})
	return list[:c.view.RowsShown(ListPlans, len(list))]
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
func (c *Plans) openDemo() {
	c.view.Progress = "Fetching the demo day."
	c.ports.Device.Fetch(demoIndex, func(b []byte, err error) {
		var index struct{ Plan string }
		if err == nil {
			err = json.Unmarshal(b, &index)
		}
		if err != nil {
			c.notices.notify(true, "The demo day cannot be fetched: "+err.Error())
			c.begin()
			return
		}
		c.ports.Device.Fetch(demoFolder+index.Plan, func(b []byte, err error) {
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
func (c *Plans) adopt(text string) {
	c.history.Open = SavedPlan{PlanHead: PlanHead{ID: c.ports.Device.NewID(), Changed: c.ports.Device.Now()}, Text: text}
	c.show()
	c.settings.set(settingPlan, c.history.Open.ID)
	c.keeper.keep()
}
