//go:build js

package main

import (
	"syscall/js"
	"time"

	"keelroom/app/state"
)

// lookout is what the anchor watch has of the machine, through the page's web/watch.js.
type lookout struct{ js js.Value }

// newLookout hands what happens on the machine to the room.
func newLookout(r *state.Room) lookout {
	l := lookout{js.Global().Get("keelroomWatch")}
	l.js.Call("mount", callback(func(args []js.Value) {
		kind, detail := args[0].String(), "{}"
		if len(args) > 1 && args[1].Truthy() {
			detail = js.Global().Get("JSON").Call("stringify", args[1]).String()
		}
		onTurn(func() { r.LookoutSays(kind, []byte(detail)) })
	}))
	return l
}

func (l lookout) Lacks() string                   { return l.js.Call("lacks").String() }
func (l lookout) Begin(askAfter time.Duration)    { l.js.Call("begin", askAfter.Seconds()) }
func (l lookout) End()                            { l.js.Call("end") }
func (l lookout) Healthy(toneAfter time.Duration) { l.js.Call("healthy", toneAfter.Seconds()) }
func (l lookout) Alarm(on bool)                   { l.js.Call("alarm", on) }
func (l lookout) Attempt()                        { l.js.Call("attempt") }
func (l lookout) SoundOn()                        { l.js.Call("soundOn") }
