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
	if kind == "elsewhere" {
		a.Watch, a.Elsewhere = nil, true
		a.notices.notify(true, "The anchor watch is kept in another tab or window of this browser, and not in this one.")
		a.follow()
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
	"begun":       func(a *AnchorWatch, _ *lookoutDetail) {},
	"fix":         func(a *AnchorWatch, d *lookoutDetail) { a.fix(d) },
	"denied":      func(a *AnchorWatch, _ *lookoutDetail) { a.Watch.Lose(a.Now, watch.NotPermitted); a.keep() },
	"granted":     func(a *AnchorWatch, _ *lookoutDetail) { a.regain(watch.NotPermitted) },
	"hidden":      func(a *AnchorWatch, _ *lookoutDetail) { a.Watch.Lose(a.Now, watch.PageHidden); a.keep() },
	"visible":     func(a *AnchorWatch, _ *lookoutDetail) { a.regain(watch.PageHidden) },
	"no position": func(a *AnchorWatch, d *lookoutDetail) { a.NoPosition = d.Text },
	"sound":       func(a *AnchorWatch, d *lookoutDetail) { a.SoundOn, a.SoundKnown = d.On, true },
	"screen":      func(a *AnchorWatch, d *lookoutDetail) { a.ScreenOn, a.ScreenAble = d.On, d.Able },
	"battery": func(a *AnchorWatch, d *lookoutDetail) {
		seen := a.Battery.seen
		a.Battery = Battery{Known: true, Watched: d.Watched, Charging: d.Charging, Level: d.Level}
		a.Battery.seen = seen && a.Battery.Low()
	},
}

// regain goes on after fixes could not be heard for one reason.
func (a *AnchorWatch) regain(from watch.Cause) {
	if a.Watch.Lost == from {
		a.Watch.Regain(a.Now)
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
	if a.Watch.Lost == "" {
		a.lookout.Healthy(watch.ToneAfter)
	}
	if a.Watch.Phase != phase || a.Watch.Dragging != drags || a.Now.Sub(a.keptAt) >= watchKeptEvery || a.Now.Before(a.keptAt) {
		a.keep()
	}
}
