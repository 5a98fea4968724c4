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
	old     func() bool // whether that is of another state than the plan's, or of the last time
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
	turn       bool   // this tab is the one that watches and stores the watch
	EndAsked   bool   // the button that ends the watch was pressed once
	Resumed    time.Duration
	resumed    bool
	untimed    bool // for how long she was not seen before it is not known
	silentSeen bool // the skipper was told that nothing can be heard
	silentFrom time.Time
	keepFailed bool // and was told that the watch cannot be stored
	keptAt     time.Time
	drawn      string
	loud       bool
}

// Running says whether a watch is kept here.
func (a *AnchorWatch) Running() bool { return a.Watch.Running() }

// Status is how things are at the last tick.
func (a *AnchorWatch) Status() watch.Status { return a.Watch.Status(a.Now) }

// Sounding says whether an alarm is to be heard.
func (a *AnchorWatch) Sounding() bool {
	return a.Running() && (a.Status().Sounding || a.Battery.sounding())
}

// Resumes says for how long she was not seen before this watch went on; known is false where nobody
// can know, ok for one that began here.
func (a *AnchorWatch) Resumes() (blind time.Duration, known, ok bool) {
	return a.Resumed, !a.untimed, a.resumed
}

// silentAfter is how long a sound may be in coming: it comes a moment after the touch that lets it.
const silentAfter = time.Second

// Silent says that no alarm could be heard, and that the skipper has not been told so.
func (a *AnchorWatch) Silent() bool {
	return a.Running() && a.SoundKnown && !a.SoundOn && !a.silentSeen && a.Now.Sub(a.silentFrom) >= silentAfter
}

// soundOn lets the sound come that the browser held back.
func (a *AnchorWatch) soundOn() {
	a.silentSeen = true
	a.lookout.SoundOn()
}

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
	blind, known := w.Resume(a.Now)
	a.Resumed, a.untimed, a.resumed = blind, !known, true
	a.begin()
	a.follow()
}

// begin has the device watch.
func (a *AnchorWatch) begin() {
	a.Elsewhere, a.NoPosition, a.turn, a.EndAsked, a.silentSeen, a.keepFailed = false, "", false, false, false, false
	if why := a.lookout.Lacks(); why != "" {
		a.Watch.Lose(a.Now, watch.NoReceiver)
	}
	a.lookout.Begin(watch.AskAfter)
	a.lookout.Healthy(watch.ToneAfter) // before the first position too, the program may stop
}

// drop begins a watch: the anchor is down here.
func (a *AnchorWatch) drop() {
	a.Form.Wrong = ""
	laid, name, err := a.typed()
	if err == nil && a.Elsewhere {
		err = fmt.Errorf("the anchor watch is kept in another tab or window of this browser; go there, or close it")
	}
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
	a.Form, a.resumed, a.Battery.acked = watchForm{}, false, 0
	a.begin()
	a.follow()
	a.ports.Device.Focus("watch-state")
}

// askEnd asks once more before the watch ends, as a slip of the finger must not end it; goOn takes
// that back.
func (a *AnchorWatch) askEnd() { a.EndAsked = a.Running() }
func (a *AnchorWatch) goOn()   { a.EndAsked = false }

// end ends the watch: the anchor is up.
func (a *AnchorWatch) end() {
	if !a.Running() || !a.EndAsked {
		return
	}
	a.Watch.Weigh(a.ports.Device.Now())
	a.lookout.Alarm(false)
	a.lookout.End()
	a.loud, a.EndAsked, a.Form = false, false, watchForm{}
	if a.turn {
		a.ports.store.SaveSetting(settingWatch, "", func(error) {})
	}
	a.turn = false
	a.show()
}

// acknowledge silences the alarm that is shown, and no other.
func (a *AnchorWatch) acknowledge() {
	if !a.Running() {
		return
	}
	a.Now = a.ports.Device.Now()
	if a.Status().Sounding {
		a.Watch.Acknowledge(a.Now)
	} else {
		a.Battery.acked = a.Battery.grave()
	}
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

// keep stores the watch, if this tab is the one that watches.
func (a *AnchorWatch) keep() {
	if !a.turn || !a.Running() {
		return
	}
	text, err := json.Marshal(a.Watch)
	if err != nil {
		return
	}
	a.keptAt = a.Now
	a.ports.store.SaveSetting(settingWatch, string(text), func(err error) {
		if err != nil && !a.keepFailed { // one dismissed is not to come back every few seconds
			a.notices.notify(true, "The anchor watch cannot be kept on this device: "+sentence(err)+" It goes on as long as this page is open.")
		}
		a.keepFailed = err != nil
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
	Seen     string       `json:"seen"` // while she is not seen: when she was
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
	if s := a.Status(); s.Blind != watch.Sees {
		d.Seen = a.lastSeen()
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

// lastSeen words when the last good position came.
func (a *AnchorWatch) lastSeen() string {
	if a.Watch.Last.Time.IsZero() {
		return "Not seen yet"
	}
	if a.Watch.Untimed {
		return "Not seen now"
	}
	return "Last seen " + a.Watch.HealthyAt.In(a.Zone()).Format("15:04")
}

// Zone is the zone that the watch's times are written in: the plan's, else the device's.
func (a *AnchorWatch) Zone() *time.Location {
	if p := a.history.Plan; p != nil && p.Zone != nil {
		return p.Zone
	}
	name := a.ports.Device.Zone()
	if zone, err := time.LoadLocation(name); err == nil && name != "" {
		return zone
	}
	return time.UTC
}
