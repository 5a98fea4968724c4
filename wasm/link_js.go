//go:build js

package main

import (
	"strconv"
	"syscall/js"
	"time"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/engine"
	"keelroom/app/state"
)

// link is the page's end of the engine, which runs in a worker. A worker that
// stops is started again, and the state hears of it, as it has lost the charts.
type link struct {
	worker    js.Value
	ready     bool
	waiting   []js.Value // messages for a worker that is not ready
	next      int
	answers   map[int]func(engine.Reply, map[string]state.Doc)
	starts    []time.Time
	heard     time.Time
	reading   int                 // requests that bring files, which may take long without a word
	asked     map[int]state.Asked // what the answers are to
	at        int                 // the request that the worker is at, 0 none
	onMessage js.Func
	onError   js.Func
	lost      func(why string)
	stopped   func(why string, at state.Asked) // as lost, where it is known at what
}

func newLink() *link {
	l := &link{answers: map[int]func(engine.Reply, map[string]state.Doc){}, asked: map[int]state.Asked{}, lost: func(string) {}}
	l.onMessage = js.FuncOf(func(_ js.Value, args []js.Value) any {
		defer guard()
		l.hear(args[0].Get("data"))
		return nil
	})
	l.onError = js.FuncOf(func(_ js.Value, args []js.Value) any {
		defer guard()
		l.again(text(args[0].Get("message")))
		return nil
	})
	l.start()
	l.watch()
	return l
}

// A worker that is killed from outside sends no word of it. While it works it says
// so every second, but for some steps on large files.
const (
	watchEvery  = 2 * time.Second
	silence     = 10 * time.Second
	longReading = 2 * time.Minute
)

// slow are the requests that read a large file or fetch one.
var slow = map[string]bool{engine.PutSet: true, engine.SortFiles: true, engine.OpenFile: true, engine.FindStations: true, engine.OneStation: true}

func (l *link) watch() {
	time.AfterFunc(watchEvery, func() {
		defer l.watch()
		defer guard()
		limit := silence
		if l.reading > 0 {
			limit = longReading
		}
		if len(l.answers) > 0 && time.Since(l.heard) > limit {
			l.again("it no longer answers")
		}
	})
}

// start starts a worker, with the program that the page has compiled already, and
// joins it with the chart view: where a point is dragged to passes there, not here.
func (l *link) start() {
	l.ready, l.heard, l.reading, l.at = false, time.Now(), 0, 0
	l.starts = append(l.starts, time.Now())
	l.worker = js.Global().Get("Worker").New(ui.Getenv("GOAPP_STATIC_RESOURCES_URL")+"/engine.js", map[string]any{"type": "module"})
	l.worker.Set("onmessage", l.onMessage)
	l.worker.Set("onerror", l.onError)
	moves := js.Global().Get("MessageChannel").New()
	js.Global().Get("keelroomChart").Call("connect", moves.Get("port1"))
	far := moves.Get("port2")
	l.worker.Call("postMessage", map[string]any{"module": js.Global().Get("keelroomModule"), "moves": far}, []any{far})
}

// tooMany starts within a minute mean that starting again is no cure.
const tooMany = 4

func (l *link) again(why string) {
	l.worker.Call("terminate")
	at, known := l.asked[l.at]
	l.answers, l.asked = map[int]func(engine.Reply, map[string]state.Doc){}, map[int]state.Asked{}
	l.waiting = nil
	if known && at.CanBeSetAside() { // it is set aside the next time: starting again is a cure
		l.starts = nil
	}
	if n := len(l.starts); n >= tooMany && time.Since(l.starts[n-tooMany]) < time.Minute {
		stopped("the part that checks cannot be kept running: " + why)
		return
	}
	l.start()
	onTurn(func() {
		if known {
			l.stopped(why, at)
			return
		}
		l.lost(why)
	})
}

func (l *link) hear(data js.Value) {
	l.heard = time.Now()
	switch {
	case data.Get("ready").Truthy():
		l.ready = true
		for _, m := range l.waiting {
			l.post(m)
		}
		l.waiting = nil
	case data.Get("at").Type() == js.TypeNumber:
		l.at = data.Get("at").Int()
	case data.Get("stopped").Truthy():
		l.again(text(data.Get("stopped")))
	case data.Get("head").Type() == js.TypeString:
		l.reply(data)
	}
}

func (l *link) reply(data js.Value) {
	a, err := engine.DecodeReply([]byte(data.Get("head").String()), nil)
	if err != nil {
		return
	}
	answer := l.answers[a.ID]
	if answer == nil {
		return
	}
	if a.State != engine.Progress {
		delete(l.answers, a.ID)
		delete(l.asked, a.ID)
		if slow[a.Kind] && l.reading > 0 {
			l.reading--
		}
	}
	docs := map[string]state.Doc{}
	if texts := data.Get("texts"); texts.Truthy() {
		names := js.Global().Get("Object").Call("keys", texts)
		for i := range names.Length() {
			name := names.Index(i).String()
			docs[name] = texts.Get(name)
		}
	}
	if files := data.Get("files"); files.Truthy() {
		for i := range files.Length() {
			docs[state.FileDoc(i)] = blob{files.Index(i)}
		}
	}
	onTurn(func() { answer(a, docs) })
}

// Ask sends a request.
func (l *link) Ask(r engine.Request, answer func(engine.Reply, map[string]state.Doc)) (cancel func()) {
	files := js.Global().Get("Array").New()
	for _, f := range r.Files {
		files.Call("push", map[string]any{"name": f.Name, "data": bytesOut(f.Data)})
	}
	return l.ask(r, state.AskedOf(r), files, answer)
}

// AskFile sends a request with a copy of a file.
func (l *link) AskFile(r engine.Request, f state.File, answer func(engine.Reply, map[string]state.Doc)) (cancel func()) {
	var data js.Value
	if b, ok := f.Data.(blob); ok {
		data = b.array.Call("slice")
	} else {
		data = bytesOut(f.Data.Bytes())
	}
	files := js.Global().Get("Array").New()
	files.Call("push", map[string]any{"name": f.Name, "data": data})
	return l.ask(r, state.AskedOfFile(r, f), files, answer)
}

// ask sends a request, and gives what ends it.
func (l *link) ask(r engine.Request, asked state.Asked, files js.Value, answer func(engine.Reply, map[string]state.Doc)) (cancel func()) {
	l.next++
	r.ID = l.next
	cancel = func() {
		l.Ask(engine.Request{Kind: engine.CancelRequest, Text: strconv.Itoa(r.ID)}, func(engine.Reply, map[string]state.Doc) {})
	}
	if len(l.answers) == 0 {
		l.heard = time.Now()
	}
	l.answers[r.ID], l.asked[r.ID] = answer, asked
	if slow[r.Kind] {
		l.reading++
	}
	head, texts, err := engine.EncodeRequest(r)
	if err != nil {
		return cancel
	}
	apart := map[string]any{}
	for name, text := range texts {
		apart[name] = text
	}
	m := js.ValueOf(map[string]any{"head": string(head), "files": files, "texts": apart})
	if !l.ready {
		l.waiting = append(l.waiting, m)
		return cancel
	}
	l.post(m)
	return cancel
}

// post hands the files over without a copy.
func (l *link) post(m js.Value) {
	buffers := js.Global().Get("Array").New()
	files := m.Get("files")
	for i := range files.Length() {
		buffers.Call("push", files.Index(i).Get("data").Get("buffer"))
	}
	l.worker.Call("postMessage", m, buffers)
}
