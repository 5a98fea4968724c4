package app

import "fmt"

// Unsaved says what would be lost with this page and what to do first, "" where
// nothing would be. What was exported to a file is not lost. Before a plan is open
// there is nothing that could be exported.
func (r *Room) Unsaved() string {
	if !r.startup.started {
		return ""
	}
	for _, p := range r.keeper.unsavedStates() {
		switch {
		case r.keeper.save.exported[p.ID] == p.Text:
		case p.ID == r.history.open.ID:
			return "Export this plan first: it is not saved."
		default:
			return fmt.Sprintf("Export everything first: %s is not saved.", p.Title)
		}
	}
	switch {
	case r.keeper.save.archived > 0:
		return "Plans of an archive are still being saved: wait for that first, or stop it."
	case r.charts.saving():
		return "Charts are still being saved: wait for that first."
	}
	return ""
}

// unsavedStates are the plans of which the store does not have the newest state, the
// open one first.
func (k *keeper) unsavedStates() (list []SavedPlan) {
	changed := len(k.history.open.Past)+len(k.history.open.Future) > 0
	if k.save.gone[k.history.open.ID] || k.save.broken && changed {
		list = append(list, k.history.open)
	}
	if k.save.busy && !k.save.gone[k.save.under.ID] {
		list = append(list, k.newestOf(k.save.under))
	}
	for _, p := range k.save.waiting {
		list = append(list, k.newestOf(p))
	}
	return list
}

// newestOf is the newest state of a plan that is being saved.
func (k *keeper) newestOf(p SavedPlan) SavedPlan {
	if p.ID == k.history.open.ID {
		return k.history.open
	}
	if w, ok := k.save.waiting[p.ID]; ok {
		return w
	}
	return p
}

// wasExported notes that a state of a plan is in a file of the skipper's.
func (k *keeper) wasExported(id, text string) {
	if k.save.exported == nil {
		k.save.exported = map[string]string{}
	}
	k.save.exported[id] = text
}

// loadAgain loads the page again, unless something would be lost by that.
func (r *Room) loadAgain() {
	if why := r.Unsaved(); why != "" {
		r.notices.add(notice{grave: true, text: why, do: "reload", label: "Load again"})
		return
	}
	r.ports.device.Reload()
}
