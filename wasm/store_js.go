//go:build js

package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"syscall/js"
	"time"

	"keelroom/app/state"
)

// store keeps things in the page's IndexedDB, through web/store.js. Calls are
// carried out one after the other.
type store struct{ queue chan func() }

func newStore() *store {
	s := &store{queue: make(chan func(), 256)}
	go func() {
		for do := range s.queue {
			do()
		}
	}()
	return s
}

// call queues a call and gives its answer on the screen's turn.
func (s *store) call(done func(js.Value, error), method string, args ...any) {
	do := func() {
		defer guard()
		v, err := await(js.Global().Get("keelroomStore").Call(method, args...))
		if known := storeErrors[fmt.Sprint(err)]; known != nil {
			err = known
		}
		onTurn(func() { done(v, err) })
	}
	select {
	case s.queue <- do:
	default: // never hold the screen up
		go func() { s.queue <- do }()
	}
}

// storeErrors are those that web/store.js names by a word.
var storeErrors = map[string]error{"no room": state.ErrNoRoom, "overtaken": state.ErrOvertaken}

// Waits says what a call waits for.
func (s *store) Waits() string { return js.Global().Get("keelroomStore").Call("waits").String() }

// Load gives all that is kept.
func (s *store) Load(done func(state.Kept, error)) {
	s.call(func(v js.Value, err error) {
		if err != nil {
			done(state.Kept{}, err)
			return
		}
		done(keptOf(v), nil)
	}, "load")
}

func keptOf(v js.Value) state.Kept {
	k := state.Kept{Settings: map[string]string{}}
	plans, sets, settings := v.Get("plans"), v.Get("sets"), v.Get("settings")
	for i := range plans.Length() {
		k.Plans = append(k.Plans, headOf(plans.Index(i)))
	}
	for i := range sets.Length() {
		k.Sets = append(k.Sets, setOf(sets.Index(i)))
	}
	names := js.Global().Get("Object").Call("keys", settings)
	for i := range names.Length() {
		name := names.Index(i).String()
		k.Settings[name] = text(settings.Get(name))
	}
	return k
}

func headOf(v js.Value) state.PlanHead {
	return state.PlanHead{ID: v.Get("id").String(), Title: v.Get("title").String(), Rev: v.Get("rev").Int(),
		Changed: time.UnixMilli(int64(v.Get("changed").Float()))}
}

func setOf(v js.Value) state.SavedSet {
	s := state.SavedSet{ID: v.Get("id").String(), Name: v.Get("name").String(), Hidden: v.Get("hidden").Bool(), Order: v.Get("order").Int()}
	if rev := v.Get("rev"); rev.Type() == js.TypeString {
		s.Rev = rev.String()
	}
	if said := v.Get("said"); said.Type() == js.TypeString {
		_ = json.Unmarshal([]byte(said.String()), &s.LeftOut) // what cannot be read was reported at the time
	}
	files := v.Get("files")
	for i := range files.Length() {
		f := files.Index(i)
		s.Files = append(s.Files, state.File{Name: f.Get("name").String(), Data: blob{f.Get("data")}})
	}
	return s
}

// blob is a Uint8Array that the program has not read.
type blob struct{ array js.Value }

// Bytes copies it in.
func (b blob) Bytes() []byte { return bytesIn(b.array) }

// Size is how many bytes it has.
func (b blob) Size() int { return b.array.Length() }

// Head copies the first n bytes in.
func (b blob) Head(n int) []byte { return bytesIn(b.array.Call("subarray", 0, n)) }

func (b blob) String() string { return string(b.Bytes()) }

// Plan gives one plan.
func (s *store) Plan(id string, done func(state.SavedPlan, error)) {
	s.call(func(v js.Value, err error) {
		switch {
		case err != nil:
			done(state.SavedPlan{}, err)
		case !v.Truthy():
			done(state.SavedPlan{}, errors.New("it is no longer kept on this device"))
		default:
			done(state.SavedPlan{PlanHead: headOf(v), Text: v.Get("text").String(), Past: textsOf(v.Get("past")), Future: textsOf(v.Get("future"))}, nil)
		}
	}, "plan", id)
}

func textsOf(v js.Value) []string {
	list := make([]string, v.Length())
	for i := range list {
		list[i] = v.Index(i).String()
	}
	return list
}

func textsOut(list []string) []any {
	out := make([]any, len(list))
	for i, t := range list {
		out[i] = t
	}
	return out
}

// SavePlan keeps a plan.
func (s *store) SavePlan(p state.SavedPlan, done func(error)) {
	s.call(func(v js.Value, err error) {
		if err == nil && v.String() == "newer" {
			err = state.ErrNewer
		}
		done(err)
	}, "savePlan", map[string]any{
		"id": p.ID, "title": p.Title, "rev": p.Rev, "changed": p.Changed.UnixMilli(), "text": p.Text,
		"past": textsOut(p.Past), "future": textsOut(p.Future),
	})
}

// DeletePlan deletes a plan.
func (s *store) DeletePlan(id string, done func(error)) { s.call(fails(done), "deletePlan", id) }

// SaveSet keeps a layer set.
func (s *store) SaveSet(set state.SavedSet, done func(error)) {
	files := make([]any, len(set.Files))
	for i, f := range set.Files {
		var data js.Value
		if b, ok := f.Data.(blob); ok {
			data = b.array
		} else {
			data = bytesOut(f.Data.Bytes())
		}
		files[i] = map[string]any{"name": f.Name, "data": data}
	}
	leftOut, _ := json.Marshal(set.LeftOut) // plain data: does not fail
	s.call(newerOr(done), "saveSet", map[string]any{"id": set.ID, "name": set.Name, "hidden": set.Hidden, "order": set.Order, "files": files, "said": string(leftOut),
		"rev": set.Rev, "was": set.Was})
}

// ArrangeSet changes how a set is shown.
func (s *store) ArrangeSet(id string, hidden bool, order int, done func(error)) {
	s.call(fails(done), "arrangeSet", id, hidden, order)
}

// DeleteSet deletes a layer set.
func (s *store) DeleteSet(id, was string, done func(error)) {
	s.call(newerOr(done), "deleteSet", id, was)
}

// newerOr takes the answer of a call that another tab may have been faster with.
func newerOr(done func(error)) func(js.Value, error) {
	return func(v js.Value, err error) {
		if err == nil && v.Type() == js.TypeString && v.String() == "newer" {
			err = state.ErrNewer
		}
		done(err)
	}
}

// SaveSetting keeps a setting.
func (s *store) SaveSetting(name, value string, done func(error)) {
	s.call(fails(done), "saveSetting", name, value)
}

// StoreDay stores a checked day, unread.
func (s *store) StoreDay(of string, docs map[string]state.Doc) {
	day := map[string]any{"of": of}
	for _, name := range state.DayDocs {
		day[name] = ""
		if d := docs[name]; d != nil {
			day[name] = out(d)
		}
	}
	js.Global().Get("keelroomLastDay").Call("keep", day)
}

// LastDay gives the one stored last. It does not wait for other calls: no other changes it.
func (s *store) LastDay(of string, done func(map[string]state.Doc)) {
	go func() {
		defer guard()
		v, err := await(js.Global().Get("keelroomLastDay").Call("take", of))
		var docs map[string]state.Doc
		if err == nil && v.Truthy() {
			docs = map[string]state.Doc{}
			for _, name := range state.DayDocs {
				docs[name] = v.Get(name)
			}
		}
		onTurn(func() { done(docs) })
	}()
}

func fails(done func(error)) func(js.Value, error) { return func(_ js.Value, err error) { done(err) } }
