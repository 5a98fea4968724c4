package state

import "fmt"

// Unsaved says what would be lost with this page and what to do first, "" where
// nothing would be. What was exported to a file is not lost. Before a plan is open
// there is nothing that could be exported.
func (r *Room) Unsaved() string {
	if r.Watch.Running() {
		return "The anchor watch is running, and nobody watches while the page loads: end the watch first."
	}
	if !r.Startup.Started {
		return ""
	}
	for _, p := range r.Keeper.unsavedStates() {
		switch {
		case r.Keeper.Save.exported[p.ID] == p.Text:
		case p.ID == r.History.Open.ID:
			return "Export this plan first: it is not saved."
		default:
			return fmt.Sprintf("Export everything first: %s is not saved.", p.Title)
		}
	}
	switch {
	case r.Keeper.Save.archived > 0:
		return "Plans of an archive are still being saved: wait for that first, or stop it."
	case r.Charts.saving():
		return "Charts are still being saved: wait for that first."
	}
	return ""
}

// unsavedStates are the plans of which the store does not have the newest state, the
// open one first.
func (k *Keeper) unsavedStates() (list []SavedPlan) {
	changed := len(k.history.Open.Past)+len(k.history.Open.Future) > 0
	if k.Save.Gone[k.history.Open.ID] || k.Save.Broken && changed {
		list = append(list, k.history.Open)
	}
	if k.Save.busy && !k.Save.Gone[k.Save.under.ID] {
		list = append(list, k.newestOf(k.Save.under))
	}
	for _, p := range k.Save.waiting {
		list = append(list, k.newestOf(p))
	}
	return list
}

// newestOf is the newest state of a plan that is being saved.
func (k *Keeper) newestOf(p SavedPlan) SavedPlan {
	if p.ID == k.history.Open.ID {
		return k.history.Open
	}
	if w, ok := k.Save.waiting[p.ID]; ok {
		return w
	}
	return p
}

// wasExported notes that a state of a plan is in a file of the skipper's.
func (k *Keeper) wasExported(id, text string) {
	if k.Save.exported == nil {
		k.Save.exported = map[string]string{}
	}
	k.Save.exported[id] = text
}

// loadAgain loads the page again, unless something would be lost by that.
func (r *Room) loadAgain() {
	if why := r.Unsaved(); why != "" {
		r.Notices.add(Notice{Grave: true, Text: why, Do: "reload", label: "Load again"})
		return
	}
	r.Ports.Device.Reload()
}
