package app

import ui "github.com/maxence-charriere/go-app/v10/pkg/app"

// fieldBox makes the box of a field.
func fieldBox(r *Room, f field) ui.UI {
	b := &box{Room: r, ID: f.id, Label: f.label, Unit: f.unit, Help: f.help, Kind: f.kind, Options: f.options, Text: f.get(r.history.plan)}
	if t, ok := r.forms.typed[f.id]; ok {
		b.Text, b.Wrong = t.text, t.wrong
		for _, c := range t.choices {
			b.Choices = append(b.Choices, [2]string{c.value, c.label})
		}
	}
	return b
}

func form(r *Room, title string, list []field) ui.UI {
	body := make([]ui.UI, len(list))
	for i, f := range list {
		body[i] = fieldBox(r, f)
	}
	return ui.FieldSet().Class("form").Body(append([]ui.UI{ui.Legend().Text(title)}, body...)...)
}
