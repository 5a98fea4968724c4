package screen

import (
	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/state"
)

// press is a button. Its action goes by name through Room.Do: go-app compares
// handlers by function, so a closure in a list would keep an old item.
type press struct {
	ui.Compo
	Room        *state.Room
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
func button(r *state.Room, label, do, arg string) *press {
	return &press{Room: r, Label: label, Do: do, Arg: arg}
}
