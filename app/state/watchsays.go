package state

import (
	"encoding/json"
	"math"
	"time"

	"github.com/paulmach/orb"

	"keelroom/hazards/watch"
)

// lookoutDetail is what the device tells of what happened.
type lookoutDetail struct {
	T        float64 `json:"t"` // Unix milliseconds, the receiver's
	Lon      float64 `json:"lon"`
	Lat      float64 `json:"lat"`
	Accuracy float64 `json:"accuracy"`
	Text     string  `json:"text"`
	On       bool    `json:"on"`
	Able     bool    `json:"able"`
	Watched  bool    `json:"watched"`
	Charging bool    `json:"charging"`
	Level    float64 `json:"level"`
}

// LookoutSays takes what happens on the device.
func (r *Room) LookoutSays(kind string, detail []byte) {
	var d lookoutDetail
	if json.Unmarshal(detail, &d) != nil {
		return
	}
	a := r.Watch
	switch kind {
	case "elsewhere":
		a.elsewhere()
		return
	case "alone":
		a.alone()
		return
	}
	if hears, ok := lookoutHears[kind]; ok && a.Running() {
		a.Now = r.Ports.Device.Now()
		hears(a, &d)
		a.follow()
	}
}

// lookoutHears are the kinds of what happens.
var lookoutHears = map[string]func(a *AnchorWatch, d *lookoutDetail){
	"tick":        func(a *AnchorWatch, _ *lookoutDetail) {},
	"begun":       func(a *AnchorWatch, _ *lookoutDetail) { a.hasTurn() },
	"fix":         func(a *AnchorWatch, d *lookoutDetail) { a.fix(d) },
	"denied":      func(a *AnchorWatch, _ *lookoutDetail) { a.Watch.Lose(a.Now, watch.NotPermitted); a.keep() },
	"granted":     func(a *AnchorWatch, _ *lookoutDetail) { a.regain(watch.NotPermitted) },
	"hidden":      func(a *AnchorWatch, _ *lookoutDetail) { a.Watch.Lose(a.Now, watch.PageHidden); a.keep() },
	"visible":     func(a *AnchorWatch, _ *lookoutDetail) { a.inFront() },
	"no position": func(a *AnchorWatch, d *lookoutDetail) { a.NoPosition = d.Text },
	"sound":       func(a *AnchorWatch, d *lookoutDetail) { a.hears(d.On) },
	"screen":      func(a *AnchorWatch, d *lookoutDetail) { a.ScreenOn, a.ScreenAble = d.On, d.Able },
	"battery":     func(a *AnchorWatch, d *lookoutDetail) { a.Battery.says(d) },
}

// hears takes in whether an alarm can be heard now. When it no longer can, the skipper is told anew.
func (a *AnchorWatch) hears(on bool) {
	if !on && (a.SoundOn || !a.SoundKnown) {
		a.silentFrom = a.Now
	}
	a.SoundOn, a.SoundKnown = on, true
	a.silentSeen = a.silentSeen && !on
}

// inFront goes on after the page was hidden: the program runs, so the tone that is set ahead may be put back.
func (a *AnchorWatch) inFront() {
	a.regain(watch.PageHidden)
	a.lookout.Healthy(watch.ToneAfter)
}

// regain goes on after fixes could not be heard for one reason.
func (a *AnchorWatch) regain(from watch.Cause) {
	if _, ok := a.Watch.Regain(a.Now, from); ok {
		a.keep()
	}
}

// fix takes a position.
func (a *AnchorWatch) fix(d *lookoutDetail) {
	whole, part := math.Modf(d.T / 1000)
	f := watch.Fix{Time: time.Unix(int64(whole), int64(part*1e9)).UTC(), At: orb.Point{d.Lon, d.Lat}, AccuracyM: d.Accuracy}
	phase, drags := a.Watch.Phase, a.Watch.Dragging
	a.regain(watch.NotPermitted) // a position is the proof that it is permitted
	a.regain(watch.NoReceiver)
	if !a.Watch.Fix(a.Now, f) {
		return
	}
	a.NoPosition = ""
	if a.Watch.Phase != phase {
		a.goTo() // the circle is there now
	}
	if !a.Watch.Deaf() {
		a.lookout.Healthy(watch.ToneAfter)
	}
	if a.Watch.Phase != phase || a.Watch.Dragging != drags || a.Now.Sub(a.keptAt) >= watchKeptEvery || a.Now.Before(a.keptAt) {
		a.keep()
	}
}
