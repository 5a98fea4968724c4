package screen

import (
	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/state"
)

// fieldBox makes the box of a field.
func fieldBox(r *state.Room, f state.Field) ui.UI {
	b := &box{Room: r, ID: f.ID, Label: f.Label, Unit: f.Unit, Help: f.Help, Kind: f.Kind, Options: f.Options, Text: f.Get(r.History.Plan)}
	if t, ok := r.Forms.Rejected[f.ID]; ok {
		b.Text, b.Wrong = t.Text, t.Wrong
		for _, c := range t.Choices {
			b.Choices = append(b.Choices, [2]string{c.Value, c.Label})
		}
	}
	return b
}

func form(r *state.Room, title string, list []state.Field) ui.UI {
	body := make([]ui.UI, len(list))
	for i, f := range list {
		body[i] = fieldBox(r, f)
	}
	return ui.FieldSet().Class("form").Body(append([]ui.UI{ui.Legend().Text(title)}, body...)...)
}
