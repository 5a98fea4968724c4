//go:build js

package main

import (
	"encoding/json"
	"fmt"
	"strings"
	"syscall/js"
	"time"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/engine"
	"keelroom/app/state"
)

// turn runs something on the screen's turn; before there is a screen it waits.
var (
	turn    func(run func())
	early   []func()
	offline string
)

func onTurn(run func()) {
	if turn == nil {
		early = append(early, run)
		return
	}
	turn(func() {
		defer guard()
		run()
	})
}

// stopped tells the page that the program can no longer be gone by.
func stopped(why any) { js.Global().Call("keelroomStopped", fmt.Sprint(why)) }

// device is the machine, through the page's web/device.js.
type device struct{}

func page() js.Value { return js.Global().Get("keelroomDevice") }

// Now is the machine's time.
func (device) Now() time.Time { return time.Now() }

// NewID is a random name.
func (device) NewID() string { return js.Global().Get("crypto").Call("randomUUID").String() }

// Zone is the machine's time zone.
func (device) Zone() string {
	zone := js.Global().Get("Intl").Get("DateTimeFormat").New().Call("resolvedOptions").Get("timeZone")
	if zone.Type() != js.TypeString {
		return ""
	}
	return zone.String()
}

// Save offers a file for saving.
func (device) Save(name, kind, text string) { page().Call("save", name, kind, text) }

// CanShare says whether there is a share sheet for files.
func (device) CanShare() bool { return page().Call("canShare").Bool() }

// Share opens it.
func (device) Share(name, kind, title, text string, failed func(error)) {
	asked := page().Call("share", name, kind, title, text)
	go func() {
		defer guard()
		if _, err := await(asked); err != nil {
			onTurn(func() { failed(err) })
		}
	}()
}

// Pick lets the skipper choose files.
func (device) Pick(many bool, accept string, picked func([]state.File)) {
	var got js.Func
	got = js.FuncOf(func(_ js.Value, args []js.Value) any {
		defer guard()
		got.Release()
		files := filesOf(args[0])
		if len(files) > 0 {
			onTurn(func() { picked(files) })
		}
		return nil
	})
	page().Call("pick", many, accept, got, unread)
}

// unread is called with why files cannot be read.
var (
	unread     js.Func
	unreadable = func(string) {}
)

func init() {
	unread = callback(func(args []js.Value) {
		why := args[0].String()
		onTurn(func() { unreadable(why) })
	})
}

func filesOf(list js.Value) []state.File {
	files := make([]state.File, list.Length())
	for i := range files {
		f := list.Index(i)
		files[i] = state.File{Name: f.Get("name").String(), Data: blob{f.Get("data")}}
	}
	return files
}

// Print opens the printer's dialogue.
func (device) Print() { page().Call("print") }

// SetPalette colours the page.
func (device) SetPalette(name string) { page().Call("setPalette", name) }

// Fetch gets a file of the app, which is below the folder of its version.
func (device) Fetch(path string, done func([]byte, error)) {
	go func() {
		defer guard()
		b, err := fetch(ui.Getenv("GOAPP_STATIC_RESOURCES_URL") + strings.TrimPrefix(path, "web"))
		onTurn(func() { done(b, err) })
	}()
}

// Persist asks that nothing be thrown away when room gets short.
func (device) Persist(done func(bool)) {
	asked := page().Call("persist")
	go func() {
		defer guard()
		v, err := await(asked)
		onTurn(func() { done(err == nil && v.Truthy()) })
	}()
}

// StartIsOver lets go on what had to wait for the first verdict.
func (device) StartIsOver() { page().Call("startIsOver") }

// Reload loads the page again.
func (device) Reload() { page().Call("reload") }

// After runs something later.
func (device) After(d time.Duration, run func()) { time.AfterFunc(d, func() { onTurn(run) }) }

// Focus moves the focus once the screen is drawn.
func (device) Focus(id string) { page().Call("focus", id) }

// Reveal scrolls something into view.
func (device) Reveal(id string) { page().Call("reveal", id) }

// listen gives the room what comes from elsewhere: other tabs, dropped files,
// the state of the files kept for use without a network.
func listen(r *state.Room) {
	js.Global().Get("keelroomStore").Call("onOther", callback(func(args []js.Value) {
		id, rev := args[0].String(), args[1].Int()
		onTurn(func() { r.Keeper.OtherTab(id, rev) })
	}))
	js.Global().Get("keelroomStore").Call("onOvertaken", callback(func([]js.Value) { onTurn(r.Overtaken) }))
	js.Global().Set("keelroomUnsaved", js.FuncOf(func(js.Value, []js.Value) any {
		defer guard()
		return r.Unsaved()
	}))
	unreadable = r.Files.Unreadable
	limits, _ := json.Marshal(engine.Limits()) // plain values
	page().Call("limitFiles", string(limits))
	page().Call("onFiles", callback(func(args []js.Value) {
		files := filesOf(args[0])
		onTurn(func() { r.Files.Open(files) })
	}), unread)
	page().Call("onShared", callback(func(args []js.Value) {
		files := filesOf(args[0])
		onTurn(func() { r.Files.Offer(files) })
	}), unread)
	page().Call("onOffline", callback(func(args []js.Value) {
		line := args[0].String()
		onTurn(func() { r.Offline(line) })
	}))
	page().Call("onKey", callback(func(args []js.Value) {
		name := args[0].String()
		onTurn(func() { r.Do(name, "") })
	}))
}

// callback is for calls that last as long as the page.
func callback(take func(args []js.Value)) js.Func {
	return js.FuncOf(func(_ js.Value, args []js.Value) any {
		defer guard()
		take(args)
		return nil
	})
}
