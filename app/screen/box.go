package screen

import (
	"slices"

	"keelroom/app/state"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"
)

// box is one field of a form: label, unit, what it means, and what is wrong.
type box struct {
	ui.Compo
	Room    *state.Room
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

	drawn string // the text that was drawn last
}

// CompoID has go-app make a new control for another field: what was typed into one
// must never stand in the other.
func (b *box) CompoID() string { return b.ID }

func (b *box) Render() ui.UI {
	b.drawn = b.shownText()
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
	case b.Kind != state.BoxText:
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
	case state.BoxArea:
		return ui.Textarea().ID(id).Rows(max(b.Rows, 4)).Spellcheck(false).Aria("invalid", invalid).Aria("describedby", id+"-wrong").
			Attr("value", b.Text).OnChange(b.onChange).OnBlur(b.onBlur)
	case state.BoxCheck:
		return ui.Input().Type("checkbox").ID(id).Checked(b.Text == "yes").OnChange(b.onCheck)
	case state.BoxSelect:
		list := b.offered()
		options := make([]ui.UI, len(list))
		for i, o := range list {
			options[i] = ui.Option().Value(o[0]).Selected(o[0] == b.drawn).Text(o[1])
		}
		return ui.Select().ID(id).Aria("invalid", invalid).Aria("describedby", id+"-wrong").OnChange(b.onChange).OnBlur(b.onBlur).Body(options...)
	}
	return ui.Input().Type("text").ID(id).AutoComplete(false).Spellcheck(false).Aria("invalid", invalid).
		Aria("describedby", id+"-wrong").Value(b.Text).OnChange(b.onChange).OnBlur(b.onBlur)
}

// offered are the options of a choice, with the plan's own answer where a file gives
// one that is not among them: another must not be shown in its place.
func (b *box) offered() [][2]string {
	if b.Text == "" || slices.ContainsFunc(b.Options, func(o [2]string) bool { return o[0] == b.Text }) {
		return b.Options
	}
	return append(slices.Clone(b.Options), [2]string{b.Text, b.Text})
}

// shownText is what the control is to hold: a choice without an answer shows its
// first option.
func (b *box) shownText() string {
	if b.Kind == state.BoxSelect && b.Text == "" && len(b.Options) > 0 {
		return b.Options[0][0]
	}
	return b.Text
}

func (b *box) onChange(ctx ui.Context, _ ui.Event) {
	text := ctx.JSSrc().Get("value").String()
	b.Room.Enter(b.ID, text)
	ctx.Defer(func(ui.Context) { b.settle(text) })
}

// onBlur looks at a control that is left. What is typed back to what stood there at the
// start makes no change event, though the plan may hold another text by now.
func (b *box) onBlur(ctx ui.Context, _ ui.Event) {
	text := ctx.JSSrc().Get("value").String()
	ctx.Defer(func(ui.Context) { b.settle(text) })
}

func (b *box) onCheck(ctx ui.Context, _ ui.Event) {
	text := "no"
	if ctx.JSSrc().Get("checked").Bool() {
		text = "yes"
	}
	b.Room.Enter(b.ID, text)
	ctx.Defer(func(ui.Context) { b.settle(text) })
}

// OnUpdate has the control show the text once it is drawn.
func (b *box) OnUpdate(ctx ui.Context) {
	was := b.drawn
	ctx.Defer(func(ui.Context) { b.settle(was) })
}

// settle gives the live control what was drawn. go-app compares only what it drew
// before with what it draws now, and takes an empty value for no value at all: what
// the skipper typed in between would stay, and pass for the plan's. taken is what
// the room has seen of the control; anything else in a control that has the focus is
// still being typed, and is left alone.
func (b *box) settle(taken string) {
	if !b.Mounted() {
		return
	}
	control := b.JSValue().Call("querySelector", "input, textarea, select")
	if !control.Truthy() {
		return
	}
	if b.Kind == state.BoxCheck {
		control.Set("checked", b.Text == "yes")
		return
	}
	live, want := control.Get("value").String(), b.shownText()
	if live == want || live != taken && ui.Window().Get("document").Get("activeElement").Equal(control) {
		return
	}
	control.Set("value", want)
}
