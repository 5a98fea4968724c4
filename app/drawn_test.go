package app

import (
	ui "github.com/maxence-charriere/go-app/v10/pkg/app"
)

// Draw is the HTML of the whole screen.
var Draw = func(r *Room) string { return ui.HTMLString(NewScreen(r, noViews{}).Render()) }

type noViews struct{}

func (noViews) Chart(string, string, func(string, []byte)) ChartView { return blindChart{} }
func (noViews) Strip(string, func(string, []byte)) StripView         { return blindStrip{} }
func (noViews) OnTurn(func(func()))                                  {}
func (noViews) Release()                                             {}
