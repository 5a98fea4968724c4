package watch

import (
	"math"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
)

// TrackPoint is where she was at a time of the clock.
type TrackPoint struct {
	T  int64     `json:"t"` // Unix seconds
	At orb.Point `json:"at"`
}

const (
	trackStep  = 30  // seconds from one point of the track to the next
	mostTrack  = 720 // points: six hours
	recentStep = 5
	mostRecent = 24 // points: two minutes
	mostLog    = 40
)

// follow adds a fix to the tracks.
func (w *Watch) follow(now time.Time, f *Fix) {
	p := TrackPoint{now.Unix(), f.At}
	w.Track = thinned(w.Track, p, trackStep, mostTrack)
	w.Recent = thinned(w.Recent, p, recentStep, mostRecent)
}

// thinned adds a point to a track that has one every so many seconds; the oldest go.
func thinned(track []TrackPoint, p TrackPoint, step int64, most int) []TrackPoint {
	if n := len(track); n > 0 && p.T >= track[n-1].T && p.T < track[n-1].T+step {
		return track
	}
	track = append(track, p)
	if len(track) > most {
		track = append(track[:0], track[len(track)-most:]...)
	}
	return track
}

// Drift is how fast and where to she went in the last two minutes: the slope of a straight line through
// her positions (least squares). ok is false where they do not span half a minute.
func (w *Watch) Drift(now time.Time) (kn, towardDeg float64, ok bool) {
	var list []TrackPoint
	for _, p := range w.Recent {
		if now.Unix()-p.T <= recentStep*mostRecent {
			list = append(list, p)
		}
	}
	if len(list) < 3 || list[len(list)-1].T-list[0].T < 30 {
		return 0, 0, false
	}
	plane := geo.NewPlane(list[0].At)
	var meanT, covX, covY, varT float64
	for _, p := range list {
		meanT += float64(p.T-list[0].T) / float64(len(list))
	}
	for _, p := range list {
		dt, at := float64(p.T-list[0].T)-meanT, plane.XY(p.At)
		covX, covY, varT = covX+dt*at.X, covY+dt*at.Y, varT+dt*dt
	}
	v := geo.XY{X: covX / varT, Y: covY / varT}
	return v.Len() / geo.KnotMPS, geo.Bearing(math.Atan2(v.X, v.Y) * 180 / math.Pi), true
}

// Event is a kind of what happened in a watch.
type Event string

// Events.
const (
	Began   Event = "began"
	Set     Event = "set" // the anchor's place is known
	Drags   Event = "drags"
	Holds   Event = "holds" // again, after dragging was acknowledged
	Moved   Event = "moved" // the circle, by hand
	Relaid  Event = "relaid"
	Blinded Event = "blind"
	Ended   Event = "ended"
)

// Entry is something that happened, from a time to a time.
type Entry struct {
	From  time.Time `json:"from"`
	To    time.Time `json:"to"`
	What  Event     `json:"what"`
	Cause Cause     `json:"cause,omitempty"` // of blindness
}

// note adds to the log.
func (w *Watch) note(from, to time.Time, what Event) { w.noteCause(from, to, what, "") }

func (w *Watch) noteCause(from, to time.Time, what Event, why Cause) {
	w.Log = append(w.Log, Entry{from, to, what, why})
	if len(w.Log) > mostLog {
		w.Log = append(w.Log[:0], w.Log[len(w.Log)-mostLog:]...)
	}
}
