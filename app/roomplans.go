package app

import (
	"slices"
	"strings"
	"time"
	"unicode"

	"github.com/paulmach/orb"

	"keelroom/app/edit"
	"keelroom/app/gpx"
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

// ExportPlan, ExportReport and ExportGPX save files; SharePlan hands the plan to
// the device's share sheet.
func (e *exports) plan() {
	e.ports.device.Save(e.fileName(".geojson"), kindGeoJSON, withCautions(e.history.open.Text))
	e.keeper.wasExported(e.history.open.ID, e.history.open.Text)
}

// ExportReport saves the report of the plan as it is on the screen.
func (e *exports) report() {
	if e.checks.day.Report == nil || e.checks.stale() || e.checks.checking.tried {
		e.notices.notify(true, "There is no report of this plan yet.")
		return
	}
	e.ports.device.Save(e.fileName(" report.geojson"), kindGeoJSON, string(e.checks.day.Report.Encode(e.history.plan.Zone)))
}

// ExportGPX saves the routes for other devices.
func (e *exports) gpx() {
	b, err := gpx.Encode(e.history.plan, e.ports.device.Now())
	if err != nil {
		e.notices.notify(true, capital(plain(err))+".")
		return
	}
	e.ports.device.Save(e.fileName(".gpx"), "application/gpx+xml", string(b))
}

// SharePlan hands the plan file over.
func (e *exports) share() {
	e.ports.device.Share(e.fileName(".geojson"), kindGeoJSON, withCautions(e.history.open.Text), e.history.plan.Title, func(err error) {
		e.notices.notify(true, "Not shared: "+err.Error()+". Export the plan to a file instead.")
	})
}

const kindGeoJSON = "application/geo+json"

// fileName is the plan's title without what a file system may not like.
func (e *exports) fileName(ending string) string {
	name := strings.Map(func(c rune) rune {
		switch {
		case unicode.IsLetter(c) || unicode.IsDigit(c) || c == '-' || c == ' ':
			return c
		}
		return -1
	}, e.history.plan.Title)
	if name = strings.TrimSpace(name); name == "" {
		name = "plan"
	}
	return name + ending
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
