package state

import (
	"strings"

	"keelroom/app/phrase"
)

// draft holds what is typed into forms that are taken as a whole: a sketched
// zone, a tide table, a secondary port, a wind table.
type draft map[string]string

// formOf finds the draft that a field belongs to, nil for a field of the plan.
func (fm *Forms) formOf(id string) *draft {
	if strings.HasPrefix(id, "draft-") {
		form := formName(id)
		if fm.drafts == nil {
			fm.drafts = map[string]draft{}
		}
		if fm.drafts[form] == nil {
			fm.drafts[form] = draft{}
		}
		d := fm.drafts[form]
		return &d
	}
	return nil
}

// formName is the form that a drafted field belongs to.
func formName(id string) string {
	for _, form := range []string{"draft-tide", "draft-level", "draft-second", "draft-hw", "draft-lw"} {
		if strings.HasPrefix(id, form) {
			switch form {
			case "draft-hw", "draft-lw":
				return "draft-second"
			}
			return form
		}
	}
	return "draft-sketch"
}

// Drafted is what was typed into a field of a draft.
func (fm *Forms) Drafted(id string) string { return fm.drafts[formName(id)][id] }

// clearDraft empties the form that a field belongs to.
func (fm *Forms) clearDraft(id string) { delete(fm.drafts, formName(id)) }

// wrongAt says beside a field of a draft what is wrong.
func (fm *Forms) wrongAt(id string, err error) {
	delete(fm.Rejected, id)
	if err != nil {
		fm.Rejected[id] = rejected{Wrong: phrase.Capital(plain(err)) + "."}
	}
}
