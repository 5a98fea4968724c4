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

// OpenPlan opens a kept plan.
func (r *Room) OpenPlan(id string) {
	if id == r.open.ID {
		return
	}
	if w, ok := r.save.waiting[id]; ok { // newer than what is kept
		r.open = w
		r.set(settingPlan, id)
		r.show()
		return
	}
	r.planKept(id, func(p SavedPlan, err error) {
		if err != nil {
			r.tell(true, "This plan cannot be opened: "+err.Error())
			r.plans = slices.DeleteFunc(r.plans, func(h PlanHead) bool { return h.ID == id })
			if r.open.ID == "" { // nothing typed may be without a place
				r.NewPlan()
			}
			return
		}
		r.open = p
		r.set(settingPlan, id)
		r.show()
	})
}

// NewPlan begins an empty day for the same boat.
func (r *Room) NewPlan() {
	const title = "A day afloat"
	zone := r.device.Zone()
	p, err := edit.NewDay(title, zone, r.plan.Boat)
	if err != nil {
		r.tell(true, "The time zone of this device, "+zone+", is not known here. Times are in UTC until you choose a zone under Day.")
		p, err = edit.NewDay(title, "UTC", r.plan.Boat)
	}
	if err != nil {
		r.tell(true, "The plan cannot be made: "+plain(err)+".")
		return
	}
	p.Margins = r.plan.Margins
	p.Day = r.device.Now().In(p.Zone).Format(time.DateOnly)
	r.begun(p)
}

// CopyPlan makes a copy of the open plan and opens it.
func (r *Room) CopyPlan() {
	p, _, err := r.edited(func(p *plan.Plan) error { p.Title = "Copy of " + p.Title; return nil })
	if err != nil {
		r.tell(true, "This plan cannot be copied: "+err.Error())
		return
	}
	r.begun(p)
}

func (r *Room) begun(p *plan.Plan) {
	b, err := plan.Encode(p)
	if err != nil {
		r.tell(true, "The plan cannot be made: "+err.Error())
		return
	}
	r.adopt(string(b))
	r.tab = tabRoute
}

// DeletePlan deletes a plan; it can be brought back until the page is left.
func (r *Room) DeletePlan(id string) {
	if id == r.open.ID {
		r.deleteState(r.open)
		return
	}
	if w, ok := r.save.waiting[id]; ok {
		r.deleteState(w)
		return
	}
	r.store.Plan(id, func(p SavedPlan, err error) {
		if err != nil {
			r.tell(true, "This plan cannot be deleted: "+err.Error())
			return
		}
		r.deleteState(p)
	})
}

// deleteState deletes a plan of which this is the newest state.
func (r *Room) deleteState(p SavedPlan) {
	if r.save.gone == nil {
		r.save.gone = map[string]bool{}
	}
	r.save.gone[p.ID] = true
	delete(r.save.waiting, p.ID)
	r.store.DeletePlan(p.ID, func(err error) {
		if err != nil {
			r.tell(true, p.Title+" will be back at the next start, as it cannot be deleted: "+err.Error())
		}
	})
	r.plans = slices.DeleteFunc(r.plans, func(h PlanHead) bool { return h.ID == p.ID })
	r.deletedPlans = append(r.deletedPlans, p)
	r.say(notice{text: p.Title + " is deleted.", do: "plan-back", arg: p.ID})
	if p.ID == r.open.ID {
		r.open.ID = ""
		if len(r.plans) > 0 {
			r.OpenPlan(newest(r.plans).ID)
		} else {
			r.openDemo()
		}
	}
	r.redraw()
}

// BringBack undoes a deletion: the plan comes back under a new name in the store.
func (r *Room) BringBack(id string) {
	i := slices.IndexFunc(r.deletedPlans, func(p SavedPlan) bool { return p.ID == id })
	if i < 0 {
		return
	}
	p := r.deletedPlans[i]
	r.deletedPlans = slices.Delete(r.deletedPlans, i, i+1)
	p.ID, p.Rev = r.device.NewID(), 0
	r.open = p
	r.set(settingPlan, p.ID)
	r.show()
	r.keep()
}

// ExportPlan, ExportReport and ExportGPX save files; SharePlan hands the plan to
// the device's share sheet.
func (r *Room) ExportPlan() {
	r.device.Save(r.fileName(".geojson"), kindGeoJSON, withCautions(r.open.Text))
	r.wasExported(r.open.ID, r.open.Text)
}

// ExportReport saves the report of the plan as it is on the screen.
func (r *Room) ExportReport() {
	if r.day.Report == nil || r.stale() || r.checking.tried {
		r.tell(true, "There is no report of this plan yet.")
		return
	}
	r.device.Save(r.fileName(" report.geojson"), kindGeoJSON, string(r.day.Report.Encode(r.plan.Zone)))
}

// ExportGPX saves the routes for other devices.
func (r *Room) ExportGPX() {
	b, err := gpx.Encode(r.plan, r.device.Now())
	if err != nil {
		r.tell(true, capital(plain(err))+".")
		return
	}
	r.device.Save(r.fileName(".gpx"), "application/gpx+xml", string(b))
}

// SharePlan hands the plan file over.
func (r *Room) SharePlan() {
	r.device.Share(r.fileName(".geojson"), kindGeoJSON, withCautions(r.open.Text), r.plan.Title, func(err error) {
		r.tell(true, "Not shared: "+err.Error()+". Export the plan to a file instead.")
	})
}

const kindGeoJSON = "application/geo+json"

// fileName is the plan's title without what a file system may not like.
func (r *Room) fileName(ending string) string {
	name := strings.Map(func(c rune) rune {
		switch {
		case unicode.IsLetter(c) || unicode.IsDigit(c) || c == '-' || c == ' ':
			return c
		}
		return -1
	}, r.plan.Title)
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
	r.offline = line
	r.redraw()
}
