package app

import "fmt"

// Unsaved says what would be lost with this page and what to do first, "" where
// nothing would be. What was exported to a file is not lost. Before a plan is open
// there is nothing that could be exported.
func (r *Room) Unsaved() string {
	if !r.started {
		return ""
	}
	for _, p := range r.unsavedStates() {
		switch {
		case r.save.exported[p.ID] == p.Text:
		case p.ID == r.open.ID:
			return "Export this plan first: it is not saved."
		default:
			return fmt.Sprintf("Export everything first: %s is not saved.", p.Title)
		}
	}
	switch {
	case r.save.archived > 0:
		return "Plans of an archive are still being saved: wait for that first, or stop it."
	case r.savingCharts():
		return "Charts are still being saved: wait for that first."
	}
	return ""
}

// unsavedStates are the plans of which the store does not have the newest state, the
// open one first.
func (r *Room) unsavedStates() (list []SavedPlan) {
	changed := len(r.open.Past)+len(r.open.Future) > 0
	if r.save.gone[r.open.ID] || r.save.broken && changed {
		list = append(list, r.open)
	}
	if r.save.busy && !r.save.gone[r.save.under.ID] {
		list = append(list, r.newestOf(r.save.under))
	}
	for _, p := range r.save.waiting {
		list = append(list, r.newestOf(p))
	}
	return list
}

// newestOf is the newest state of a plan that is being saved.
func (r *Room) newestOf(p SavedPlan) SavedPlan {
	if p.ID == r.open.ID {
		return r.open
	}
	if w, ok := r.save.waiting[p.ID]; ok {
		return w
	}
	return p
}

// wasExported notes that a state of a plan is in a file of the skipper's.
func (r *Room) wasExported(id, text string) {
	if r.save.exported == nil {
		r.save.exported = map[string]string{}
	}
	r.save.exported[id] = text
}

// loadAgain loads the page again, unless something would be lost by that.
func (r *Room) loadAgain() {
	if why := r.Unsaved(); why != "" {
		r.say(notice{grave: true, text: why, do: "reload", label: "Load again"})
		return
	}
	r.device.Reload()
}
