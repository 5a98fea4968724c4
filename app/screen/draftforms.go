package screen

import (
	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/state"
)

// draftBox is a field of a draft.
func draftBox(r *state.Room, id, label, unit, help string) *box {
	return &box{Room: r, ID: id, Label: label, Unit: unit, Help: help, Text: r.Forms.Drafted(id), Wrong: r.Forms.Rejected[id].Wrong}
}

func draftSelect(r *state.Room, id, label, help string, options [][2]string) *box {
	b := draftBox(r, id, label, "", help)
	b.Kind, b.Options = state.BoxSelect, options
	return b
}

// sketchFormView is the form of the zone or danger just drawn.
func sketchFormView(r *state.Room) ui.UI {
	f := r.Sketch.Form
	if f == nil {
		return ui.Div()
	}
	title := "The zone you sketched"
	var fields []ui.UI
	if f.Mode == state.ModeZone {
		fields = []ui.UI{
			draftBox(r, "draft-name", "Name", "", "What you call it."),
			draftBox(r, "draft-limit", "Speed limit", "kn", "Empty where there is none."),
			draftSelect(r, "draft-rule", "Rule", "What is forbidden in it.", state.ZoneRules),
			draftBox(r, "draft-from", "In force from", "", "Month and day, as 05-01. Empty: all year."),
			draftBox(r, "draft-to", "In force to", "", "Month and day, as 09-30."),
		}
	} else {
		title = "The danger you sketched"
		fields = []ui.UI{
			draftBox(r, "draft-name", "Name", "", "What you call it."),
			draftSelect(r, "draft-kind", "Kind", "What it is.", state.DangerKinds),
			draftBox(r, "draft-depth", "Depth over it", "m", "Below chart datum, drying heights with a minus. Empty: not known, and then she keeps off."),
		}
	}
	fields = append(fields,
		ui.P().Class("wrong").Role("alert").Text(f.Wrong),
		ui.Div().Class("row").Body(&press{Room: r, Label: "Keep it", Do: "sketch-keep", Class: "chief"}, button(r, "Drop it", "sketch-drop", "")))
	return ui.FieldSet().Class("form").Body(append([]ui.UI{ui.Legend().Text(title)}, fields...)...)
}
