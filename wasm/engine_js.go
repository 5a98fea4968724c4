//go:build js

package main

import (
	"fmt"
	"syscall/js"

	"github.com/paulmach/orb"

	"keelroom/app/engine"
	"keelroom/geo/layer"
)

// runEngine answers the page's requests, for ever.
func runEngine() {
	defer func() {
		if r := recover(); r != nil {
			post(map[string]any{"stopped": fmt.Sprint(r)})
		}
	}()
	moves := js.Global().Get("keelroomMoves")
	service := engine.New(newHost(moves), fetch)
	moves.Set("onmessage", js.FuncOf(func(_ js.Value, args []js.Value) any {
		service.HandleMove(moveOf(args[0].Get("data")))
		return nil
	}))
	js.Global().Set("onmessage", js.FuncOf(func(_ js.Value, args []js.Value) any {
		r, err := requestOf(args[0].Get("data"))
		if err != nil {
			post(map[string]any{"stopped": err.Error()})
			return nil
		}
		service.Handle(r)
		return nil
	}))
	post(map[string]any{"ready": true})
	service.Run()
}

func requestOf(data js.Value) (engine.Request, error) {
	var files []layer.File
	if list := data.Get("files"); list.Truthy() {
		for i := range list.Length() {
			f := list.Index(i)
			files = append(files, layer.File{Name: f.Get("name").String(), Data: bytesIn(f.Get("data"))})
		}
	}
	texts := map[string]string{}
	if apart := data.Get("texts"); apart.Truthy() {
		names := js.Global().Get("Object").Call("keys", apart)
		for i := range names.Length() {
			texts[names.Index(i).String()] = apart.Get(names.Index(i).String()).String()
		}
	}
	return engine.DecodeRequest([]byte(data.Get("head").String()), files, texts)
}

// moveOf reads a place of a point that is dragged, as web/moves.js sends it.
func moveOf(data js.Value) engine.Move {
	n := func(i int) int { return int(data.Index(i).Float()) }
	return engine.Move{Seq: n(0), PlanRev: n(1), ChartRev: n(2), Feature: n(3), Vertex: n(4), Insert: n(5) != 0,
		At: orb.Point{data.Index(6).Float(), data.Index(7).Float()}, Has: n(8)}
}

// host gives the engine a way to answer and to let messages in.
type host struct {
	port  js.Value
	moves js.Value // the chart view's end of the way of a drag
	turn  chan struct{}
}

func newHost(moves js.Value) *host {
	h := &host{moves: moves, turn: make(chan struct{}, 1)}
	channel := js.Global().Get("MessageChannel").New()
	channel.Get("port1").Set("onmessage", js.FuncOf(func(js.Value, []js.Value) any {
		h.turn <- struct{}{}
		return nil
	}))
	h.port = channel.Get("port2")
	return h
}

// Turn lets the worker hear what was sent meanwhile.
func (h *host) Turn() {
	h.port.Call("postMessage", js.Null())
	<-h.turn
}

// At tells the page what is being worked on, and that the work goes on.
func (h *host) At(id int) { post(map[string]any{"at": id}) }

// Post sends a reply. Its documents stay apart: the page hands them on unread.
func (h *host) Post(a engine.Reply) {
	if a.Kind == engine.MovePoint {
		h.moves.Call("postMessage", string(a.View))
		return
	}
	head, err := engine.EncodeReply(a)
	if err != nil {
		post(map[string]any{"stopped": err.Error()})
		return
	}
	texts := map[string]any{}
	for name, t := range a.Texts {
		texts[name] = t
	}
	if len(a.Drawing) > 0 {
		texts["draw"] = joined(a.Drawing)
	}
	message := map[string]any{"head": string(head), "texts": texts}
	if len(a.Files) == 0 {
		post(message)
		return
	}
	files, buffers := js.Global().Get("Array").New(), js.Global().Get("Array").New()
	for _, f := range a.Files {
		data := bytesOut(f.Data)
		files.Call("push", data)
		buffers.Call("push", data.Get("buffer"))
	}
	message["files"] = files
	js.Global().Call("postMessage", message, buffers)
}

// joined is a text whose pieces are put together outside of the program's memory.
func joined(pieces []string) js.Value {
	list := js.Global().Get("Array").New()
	for _, p := range pieces {
		list.Call("push", p)
	}
	return list.Call("join", "")
}

func post(message map[string]any) { js.Global().Call("postMessage", message) }
