//go:build js

package main

import (
	"fmt"
	"syscall/js"

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
	service := engine.New(newHost(), fetch)
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

// host gives the engine a way to answer and to let messages in.
type host struct {
	port js.Value
	turn chan struct{}
}

func newHost() *host {
	h := &host{turn: make(chan struct{}, 1)}
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
	head, err := engine.EncodeReply(a)
	if err != nil {
		post(map[string]any{"stopped": err.Error()})
		return
	}
	texts := map[string]any{}
	for name, t := range a.Texts {
		texts[name] = t
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

func post(message map[string]any) { js.Global().Call("postMessage", message) }
