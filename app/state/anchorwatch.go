package state

import (
	"encoding/json"
	"fmt"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/hazards/watch"
)

// settingWatch is where a running watch is kept. It never joins Settings.Values: those go into
// exports, and where she lies is in none.
const settingWatch = "anchor-watch"

// watchKeptEvery is how long a stored watch may lag behind.
const watchKeptEvery = 5 * time.Second

// AnchorWatch watches that the anchor holds: it hands what the device tells to the watch, and
// what the watch says to the device, the chart and the store.
type AnchorWatch struct {
	history *History
	notices *Notices
	ports   *Ports
	report  func() *Day
	aimed   func() (at orb.Point, tapped, ok bool)

	lookout Lookout
	Watch   *watch.Watch // nil: there has been none
	Now     time.Time    // of the last tick
	Form    watchForm

	SoundOn    bool
	SoundKnown bool
	ScreenOn   bool
	ScreenAble bool
	Battery    Battery
	NoPosition string // what the device said last
	Elsewhere  bool   // another tab keeps the watch
	Resumed    time.Duration
	resumed    bool
	keptAt     time.Time
	drawn      string
	loud       bool
}

// Battery is what the device tells of its battery.
type Battery struct {
	Known, Watched, Charging bool
	Level                    float64
	seen                     bool // acknowledged while low
}

// lowBattery is the level under which a watch may soon end.
const lowBattery = 0.15

// Low says that the watch may soon end for want of power.
func (b *Battery) Low() bool { return b.Watched && !b.Charging && b.Level < lowBattery }

// Running says whether a watch is kept here.
func (a *AnchorWatch) Running() bool { return a.Watch.Running() }

// Status is how things are at the last tick.
func (a *AnchorWatch) Status() watch.Status { return a.Watch.Status(a.Now) }

// Sounding says whether an alarm is to be heard.
func (a *AnchorWatch) Sounding() bool {
	return a.Running() && (a.Status().Sounding || a.Battery.Low() && !a.Battery.seen)
}

// Resumes says for how long she was not seen before this watch went on; ok is false for one
// that began here.
func (a *AnchorWatch) Resumes() (blind time.Duration, ok bool) { return a.Resumed, a.resumed }

// take reads the watch that was kept and takes it out of the settings, which are exported.
func (a *AnchorWatch) take(settings map[string]string) {
	text := settings[settingWatch]
	delete(settings, settingWatch)
	if text == "" {
		return
	}
	var w watch.Watch
	if err := json.Unmarshal([]byte(text), &w); err != nil || w.Version != watch.Version {
		a.notices.notify(true, "An anchor watch was running and cannot be read again: nothing is watched. Start another one.")
		return
	}
	if !w.Running() {
		return
	}
	a.Watch, a.Now = &w, a.ports.Device.Now()
	a.Resumed, a.resumed = w.Resume(a.Now), true
	a.begin()
	a.follow()
}

// begin has the device watch.
func (a *AnchorWatch) begin() {
	a.Elsewhere, a.NoPosition = false, ""
	if why := a.lookout.Lacks(); why != "" {
		a.Watch.Lose(a.Now, watch.NoReceiver)
	}
	a.lookout.Begin(watch.AskAfter)
}

// drop begins a watch: the anchor is down here.
func (a *AnchorWatch) drop() {
	a.Form.Wrong = ""
	laid, name, err := a.typed()
	if err == nil && a.lookout.Lacks() != "" {
		err = fmt.Errorf("%s", LackWords(a.lookout.Lacks()))
	}
	if err == nil {
		a.Now = a.ports.Device.Now()
		a.Watch, err = watch.Begin(a.Now, name, laid, a.bow())
	}
	if err != nil {
		a.Form.Wrong = sentenceOf(err)
		return
	}
	a.resumed, a.Battery.seen = false, false
	a.begin()
	a.keep()
	a.follow()
	a.ports.Device.Focus("watch-state")
}

// end ends the watch: the anchor is up.
func (a *AnchorWatch) end() {
	if !a.Running() {
		return
	}
	a.Watch.Weigh(a.ports.Device.Now())
	a.lookout.Alarm(false)
	a.lookout.End()
	a.loud = false
	a.ports.store.SaveSetting(settingWatch, "", func(error) {})
	a.show()
}

// acknowledge silences what sounds.
func (a *AnchorWatch) acknowledge() {
	if !a.Running() {
		return
	}
	a.Watch.Acknowledge(a.ports.Device.Now())
	a.Battery.seen = a.Battery.seen || a.Battery.Low()
	a.lookout.Healthy(watch.ToneAfter) // the tone set ahead would break the silence; the alarm is back before it
	a.keep()
	a.follow()
}

// goTo shows the circle on the chart, or where she is while the anchor has no place.
func (a *AnchorWatch) goTo() {
	if !a.Running() {
		return
	}
	at := a.Watch.Anchor
	if a.Watch.Phase != watch.Watching {
		if a.Watch.Last.Time.IsZero() {
			return
		}
		at = a.Watch.Last.At
	}
	plane := geo.NewPlane(at)
	dLon, dLat := plane.DegreesAround(1.6 * a.Watch.RadiusM)
	a.ports.chart.Fit([4]float64{at[0] - dLon, at[1] - dLat, at[0] + dLon, at[1] + dLat})
}

// follow has the sound, the chart and the screen follow the watch.
func (a *AnchorWatch) follow() {
	if loud := a.Sounding(); loud != a.loud {
		a.loud = loud
		a.lookout.Alarm(loud)
	}
	a.show()
}

// keep stores the watch.
func (a *AnchorWatch) keep() {
	text, err := json.Marshal(a.Watch)
	if err != nil {
		return
	}
	a.keptAt = a.Now
	a.ports.store.SaveSetting(settingWatch, string(text), func(err error) {
		if err != nil {
			a.notices.notify(true, "The anchor watch cannot be kept on this device: "+sentence(err)+" It goes on as long as this page is open.")
		}
	})
}

// show draws on the chart what has changed.
func (a *AnchorWatch) show() {
	text := ""
	if a.Running() {
		text = a.drawing()
	}
	if text != a.drawn {
		a.drawn = text
		a.ports.chart.SetWatch(text)
	}
	a.ports.redraw()
}

// watchDrawing is what the chart shows of a watch.
type watchDrawing struct {
	Anchor   *[2]float64  `json:"anchor"` // nil while its place is being taken
	RadiusM  float64      `json:"radius_m"`
	Track    [][2]float64 `json:"track"`
	Boat     *[2]float64  `json:"boat"`
	Accuracy float64      `json:"accuracy_m"`
	Alarm    bool         `json:"alarm"`
}

func (a *AnchorWatch) drawing() string {
	w := a.Watch
	d := watchDrawing{RadiusM: w.RadiusM, Alarm: w.Dragging, Track: [][2]float64{}}
	if w.Phase == watch.Watching {
		at := [2]float64(w.Anchor)
		d.Anchor = &at
	}
	if !w.Last.Time.IsZero() {
		at := [2]float64(w.Last.At)
		d.Boat, d.Accuracy = &at, w.Last.AccuracyM
	}
	for _, p := range w.Track {
		d.Track = append(d.Track, [2]float64(p.At))
	}
	text, err := json.Marshal(d)
	if err != nil {
		return ""
	}
	return string(text)
}
