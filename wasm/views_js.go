//go:build js

package main

import (
	"syscall/js"

	"github.com/paulmach/orb"

	"keelroom/app/engine"
	"keelroom/app/state"
	"keelroom/hazards"
)

// views makes the chart view and the day strip, which are scripts of the page.
type views struct{ kept []js.Func }

// OnTurn takes what runs things on the screen's turn.
func (*views) OnTurn(t func(run func())) {
	turn = t
	for _, run := range early {
		onTurn(run)
	}
	early = nil
}

// Release lets the views go.
func (v *views) Release() {
	js.Global().Get("keelroomChart").Call("unmount")
	js.Global().Get("keelroomStrip").Call("unmount")
	for _, f := range v.kept {
		f.Release()
	}
	v.kept, turn = nil, nil
}

func (v *views) mount(view js.Value, id string, handle func(string, []byte)) {
	notify := js.FuncOf(func(_ js.Value, args []js.Value) any {
		defer guard()
		detail := "{}"
		if len(args) > 1 && args[1].Truthy() {
			detail = js.Global().Get("JSON").Call("stringify", args[1]).String()
		}
		handle(args[0].String(), []byte(detail))
		return nil
	})
	v.kept = append(v.kept, notify)
	view.Call("mount", js.Global().Get("document").Call("getElementById", id), notify, js.Global().Get("JSON").Call("parse", string(engine.Rules())))
}

// Chart makes the chart view.
func (v *views) Chart(id, key string, handle func(string, []byte)) state.ChartView {
	view := js.Global().Get("keelroomChart")
	v.mount(view, id, handle)
	return chartView{view, js.Global().Get("document").Call("getElementById", key)}
}

// Strip makes the day strip.
func (v *views) Strip(id string, handle func(string, []byte)) state.StripView {
	view := js.Global().Get("keelroomStrip")
	v.mount(view, id, handle)
	return stripView{view}
}

// out hands a document on without reading it.
func out(d state.Doc) any {
	switch d := d.(type) {
	case nil:
		return nil
	case js.Value:
		return d
	default:
		return d.String()
	}
}

// chartView is the chart and the element of its key.
type chartView struct{ js, key js.Value }

func (c chartView) SetSet(id string, draw state.Doc) { c.js.Call("setSet", id, out(draw)) }
func (c chartView) SetPrivate(draw state.Doc)        { c.js.Call("setPrivate", out(draw)) }
func (c chartView) SetPlan(planFile string)          { c.js.Call("setPlan", planFile) }
func (c chartView) SetReport(report state.Doc)       { c.js.Call("setReport", out(report)) }
func (c chartView) Follow(planRev, chartRev int)     { c.js.Call("follow", planRev, chartRev) }
func (c chartView) SetMode(mode string)              { c.js.Call("setMode", mode) }
func (c chartView) SketchDone()                      { c.js.Call("finishSketch") }
func (c chartView) SketchBack()                      { c.js.Call("undoSketchPoint") }
func (c chartView) SketchCancel()                    { c.js.Call("cancelSketch") }
func (c chartView) AddAtCentre()                     { c.js.Call("addAtCentre") }
func (c chartView) GoTo(at orb.Point)                { c.js.Call("goTo", at[0], at[1]) }
func (c chartView) Select(feature, vertex int)       { c.js.Call("select", feature, vertex) }
func (c chartView) SetWatch(drawing string)          { c.js.Call("setWatch", drawing) }
func (c chartView) ZoomBy(steps float64)             { c.js.Call("zoomBy", steps) }

// MarkPlace marks the place that was asked about.
func (c chartView) MarkPlace(at *orb.Point) {
	if at == nil {
		c.js.Call("markPlace", nil)
		return
	}
	c.js.Call("markPlace", []any{at[0], at[1]})
}

// MarkAnchorages marks places to lie at by their numbers.
func (c chartView) MarkAnchorages(at []orb.Point) {
	list := make([]any, len(at))
	for i, p := range at {
		list[i] = []any{p[0], p[1]}
	}
	c.js.Call("markAnchorages", list)
}

// SetPalette colours the chart, and its key.
func (c chartView) SetPalette(name string) {
	c.js.Call("setPalette", name)
	c.js.Call("legend", c.key)
}

func (c chartView) Fit(b [4]float64) { c.js.Call("fit", []any{b[0], b[1], b[2], b[3]}) }

func (c chartView) SetOrder(shown []state.ShownSet) {
	list := make([]any, len(shown))
	for i, s := range shown {
		list[i] = map[string]any{"id": s.ID, "shown": s.Shown}
	}
	c.js.Call("setOrder", list)
}

func (c chartView) SetWater(w *hazards.Water, sets []string) {
	ids := make([]any, len(sets))
	for i, id := range sets {
		ids[i] = id
	}
	if w == nil {
		c.js.Call("setWater", nil, ids)
		return
	}
	c.js.Call("setWater", map[string]any{"dries_m": w.DriesM, "afloat_m": w.AfloatM, "enough_m": w.EnoughM}, ids)
}

type stripView struct{ js js.Value }

func (s stripView) SetDay(day state.Doc)   { s.js.Call("setDay", out(day)) }
func (s stripView) SetCursor(at int64)     { s.js.Call("setCursor", at) }
func (s stripView) SetPalette(name string) { s.js.Call("setPalette", name) }

// SetRibbon gives the strip the departures as it wants them: an object.
func (s stripView) SetRibbon(ribbon string) {
	if ribbon == "" {
		s.js.Call("setRibbon", nil)
		return
	}
	s.js.Call("setRibbon", js.Global().Get("JSON").Call("parse", ribbon))
}
