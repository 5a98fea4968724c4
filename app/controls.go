package app

import (
	ui "github.com/maxence-charriere/go-app/v10/pkg/app"
)

// press is a button. Its action goes by name through Room.Do: go-app compares
// handlers by function, so a closure in a list would keep an old item.
type press struct {
	ui.Compo
	Room        *Room
	Label, Name string // Name: for those who do not see it; "" is Label
	Do, Arg     string
	Class       string
	Pressed     string // "true", "false" or "" for no toggle
	Off         bool
}

func (b *press) Render() ui.UI {
	e := ui.Button().Type("button").Class("press " + b.Class).Text(b.Label).OnClick(b.onClick)
	if b.Name != "" {
		e = e.Aria("label", b.Name)
	}
	if b.Pressed != "" {
		e = e.Aria("pressed", b.Pressed)
	}
	if b.Off {
		e = e.Disabled(true)
	}
	return e
}

func (b *press) onClick(ui.Context, ui.Event) { b.Room.Do(b.Do, b.Arg) }

// button is the usual press.
func (r *Room) button(label, do, arg string) *press {
	return &press{Room: r, Label: label, Do: do, Arg: arg}
}

// box is one field of a form: label, unit, what it means, and what is wrong.
type box struct {
	ui.Compo
	Room    *Room
	ID      string
	Label   string
	Unit    string
	Help    string
	Kind    string // boxText, boxArea, boxCheck or boxSelect
	Text    string
	Options [][2]string // value and label
	Wrong   string
	Choices [][2]string // value and label of the answers to a question
	Rows    int
}

// The kinds of a box.
const (
	boxText   = ""
	boxArea   = "area"
	boxCheck  = "check"
	boxSelect = "select"
)

func (b *box) Render() ui.UI {
	id := "field-" + b.ID
	label := ui.Label().For(id).Class("label").Text(b.Label)
	unit := ui.Span().Class("unit").Text(b.Unit)
	help := ui.Details().Class("help").Body(
		ui.Summary().Aria("label", "What "+b.Label+" means").Text("?"),
		ui.P().Text(b.Help),
	)
	wrong := ui.P().Class("wrong").ID(id + "-wrong").Role("alert").Text(b.Wrong)
	class := "field"
	switch {
	case b.Kind != boxText:
		class += " field-" + b.Kind
	case b.Unit == "":
		class += " field-plain"
	}
	if b.Wrong != "" {
		class += " field-wrong"
	}
	choices := make([]ui.UI, len(b.Choices))
	for i, c := range b.Choices {
		choices[i] = &press{Room: b.Room, Label: c[1], Do: "enter", Arg: b.ID + "\n" + c[0], Class: "choice"}
	}
	parts := []ui.UI{label, b.input(id), unit}
	if b.Help != "" {
		parts = append(parts, help)
	}
	parts = append(parts, wrong, ui.Div().Class("choices").Body(choices...))
	return ui.Div().Class(class).Body(parts...)
}

func (b *box) input(id string) ui.UI {
	invalid := "false"
	if b.Wrong != "" {
		invalid = "true"
	}
	switch b.Kind {
	case boxArea:
		return ui.Textarea().ID(id).Rows(max(b.Rows, 4)).Spellcheck(false).Aria("invalid", invalid).Aria("describedby", id+"-wrong").
			Attr("value", b.Text).OnChange(b.onChange)
	case boxCheck:
		return ui.Input().Type("checkbox").ID(id).Checked(b.Text == "yes").OnChange(b.onCheck)
	case boxSelect:
		options := make([]ui.UI, len(b.Options))
		for i, o := range b.Options {
			options[i] = ui.Option().Value(o[0]).Selected(o[0] == b.Text).Text(o[1])
		}
		return ui.Select().ID(id).Aria("describedby", id+"-wrong").OnChange(b.onChange).Body(options...)
	}
	return ui.Input().Type("text").ID(id).AutoComplete(false).Spellcheck(false).Aria("invalid", invalid).
		Aria("describedby", id+"-wrong").Value(b.Text).OnChange(b.onChange)
}

func (b *box) onChange(ctx ui.Context, _ ui.Event) {
	b.Room.Enter(b.ID, ctx.JSSrc().Get("value").String())
}

func (b *box) onCheck(ctx ui.Context, _ ui.Event) {
	text := "no"
	if ctx.JSSrc().Get("checked").Bool() {
		text = "yes"
	}
	b.Room.Enter(b.ID, text)
}
