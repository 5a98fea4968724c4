package state_test

import (
	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/screen"
	"keelroom/app/state"
)

func init() {
	state.Draw = func(r *state.Room) string { return ui.HTMLString(screen.NewScreen(r, noViews{}).Render()) }
}

// noViews stands in for the chart and the strip.
type noViews struct{}

func (noViews) Chart(string, string, func(string, []byte)) state.ChartView { return nil }
func (noViews) Strip(string, func(string, []byte)) state.StripView         { return nil }
func (noViews) OnTurn(func(func()))                                        {}
func (noViews) Release()                                                   {}
