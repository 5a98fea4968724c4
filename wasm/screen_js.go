//go:build js

package main

import (
	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/screen"
	"keelroom/app/state"
)

// runScreen shows the screen, for ever.
func runScreen() {
	screen := func() ui.Composer {
		link := newLink()
		room := state.NewRoom(link, newStore(), device{}, ui.Getenv("GOAPP_VERSION"))
		link.lost, link.stopped = room.EngineLost, room.EngineStoppedOn
		room.AttachLookout(newLookout(room))
		listen(room)
		return screen.NewScreen(room, &views{})
	}
	ui.Route("/", screen)
	ui.Route("/index.html", screen)
	ui.RunWhenOnBrowser()
}

// guard keeps a mistake in a callback from ending the program in silence: the
// page says that it has stopped.
func guard() {
	if r := recover(); r != nil {
		stopped(r)
	}
}
