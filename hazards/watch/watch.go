package watch

import (
	"fmt"
	"math"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
)

// Version of the stored form of a Watch.
const Version = 1

// Phase is how far a watch has come.
type Phase string

// Phases.
const (
	Dropping Phase = "dropping" // the place of the anchor is being taken
	Watching Phase = "watching"
	Weighed  Phase = "weighed" // over
)

// quietFor is how long an alarm that was acknowledged stays silent: time to look about, and
// at 0.3 knots she drags 20 m in it.
const quietFor = 2 * time.Minute

// Watch is an anchor watch. Its members are plain values, so that it can be written as JSON at
// any time and goes on when it is read again; they are changed by its methods.
type Watch struct {
	Version int       `json:"version"`
	Name    string    `json:"name"` // of the stay
	Started time.Time `json:"started"`
	Phase   Phase     `json:"phase"`
	Drop    Drop      `json:"drop"`
	Anchor  orb.Point `json:"anchor"`
	Dropped time.Time `json:"dropped"`            // when the anchor's place was known
	TooLate bool      `json:"too_late,omitempty"` // the place was not found in time
	Laid    Laid      `json:"laid"`
	RadiusM float64   `json:"radius_m"`

	Test      Test      `json:"test"`
	Last      Fix       `json:"last"`       // the newest that was good enough
	HealthyAt time.Time `json:"healthy_at"` // when it came
	Poor      Fix       `json:"poor"`       // the newest that was too poor
	PoorAt    time.Time `json:"poor_at"`    // when it came

	Losses  []Loss `json:"losses,omitempty"`  // why no fix can come, or may not be heard; the oldest first
	Stopped bool   `json:"stopped,omitempty"` // the program did not run, and no good fix has come since
	Untimed bool   `json:"untimed,omitempty"` // for how long she was not seen is not known

	Dragging   bool      `json:"dragging,omitempty"`
	DragSince  time.Time `json:"drag_since"`
	DragSeen   bool      `json:"drag_seen,omitempty"` // acknowledged
	DragAcked  time.Time `json:"drag_acked"`          // when
	BlindSeen  bool      `json:"blind_seen,omitempty"`
	BlindAcked time.Time `json:"blind_acked"`
	PlaceSeen  bool      `json:"place_seen,omitempty"`
	PlaceAcked time.Time `json:"place_acked"`

	Track  []TrackPoint `json:"track,omitempty"`  // the last hours
	Recent []TrackPoint `json:"recent,omitempty"` // the last minutes, for the drift
	Log    []Entry      `json:"log,omitempty"`    // what happened, the newest last

	resumedAt time.Time // by the clock of the program that runs; it has a steady reading
}

// Begin starts a watch: the anchor is on the ground now. The error says what is missing.
func Begin(now time.Time, name string, laid Laid, drop Drop) (*Watch, error) {
	radius, err := laid.RadiusM()
	if err != nil {
		return nil, err
	}
	drop.Fixes = nil
	w := &Watch{Version: Version, Name: name, Started: now, HealthyAt: now, Phase: Dropping, Drop: drop, Laid: laid, RadiusM: radius}
	w.note(now, now, Began)
	return w, nil
}

// Running says whether the watch is kept.
func (w *Watch) Running() bool { return w != nil && (w.Phase == Dropping || w.Phase == Watching) }

// Fix takes a position in that came at a time, and says whether it was a healthy one: a new
// one, and more accurate than the circle is wide.
func (w *Watch) Fix(now time.Time, f Fix) bool {
	if !w.Running() || !geo.ValidPosition(f.At) {
		return false
	}
	if !f.accurate() || f.AccuracyM > w.RadiusM {
		w.poor(now, f)
		return false
	}
	if !f.after(&w.Last) {
		return false
	}
	gap, since := elapsed(now, w.HealthyAt), w.since(now, &f)
	w.sees(now)
	w.Last = f
	w.follow(now, &f)
	switch w.Phase {
	case Dropping:
		w.collect(now, &f, gap)
	case Watching:
		w.judge(now, &f, since)
	}
	return true
}

// poor takes note of a fix that is no sight of her. It has no say in which of the good ones is new.
func (w *Watch) poor(now time.Time, f Fix) {
	if !f.after(&w.Poor) {
		return
	}
	if !f.accurate() {
		f.AccuracyM = 0 // what is no number could not be stored
	}
	w.Poor, w.PoorAt = f, now
}

// collect takes a fix in for the place of the anchor, some time after the one before. A minute that
// was broken begins anew; one that ends too late after the anchor went down gives no
// place, as she has fallen back from it by then.
func (w *Watch) collect(now time.Time, f *Fix, gap time.Duration) {
	if n := len(w.Drop.Fixes); n > 0 && max(gap, f.Time.Sub(w.Drop.Fixes[n-1].Time)) > dropGap {
		w.Drop.Fixes = nil
	}
	if w.Drop.add(f) && !w.Unplaced(now) {
		w.Place(now, w.Drop.place())
	}
}

// Unplaced says that the place of the anchor was not found in time, and has to be set by hand:
// until then nobody sees whether she drags.
func (w *Watch) Unplaced(now time.Time) bool {
	late := w.TooLate || elapsed(now, w.Started) > dropWithin || !w.resumedAt.IsZero() && elapsed(now, w.resumedAt) > dropWithin
	return w.Running() && w.Phase == Dropping && late
}

// since is the time since the good fix before, by the receiver's own time and no longer than
// the clock says. Where the receiver's time goes back, the clock alone says it.
func (w *Watch) since(now time.Time, f *Fix) time.Duration {
	if w.Last.Time.IsZero() {
		return 0
	}
	by := elapsed(now, w.HealthyAt)
	if d := f.Time.Sub(w.Last.Time); d >= 0 {
		return min(d, by+time.Second)
	}
	return min(by, longestS*time.Second)
}

// judge asks the test of a fix.
func (w *Watch) judge(now time.Time, f *Fix, since time.Duration) {
	over := w.Test.add(geo.DistanceM(w.Anchor, f.At)-w.RadiusM, f.weight(), since)
	switch {
	case over && !w.Dragging:
		w.Dragging, w.DragSince, w.DragSeen = true, now, false
		w.note(now, now, Drags)
	case w.Dragging && w.DragSeen && w.Test.Sum == 0 && geo.DistanceM(w.Anchor, f.At) <= w.RadiusM && elapsed(now, w.DragAcked) >= quietFor:
		w.Dragging = false // acknowledged, and she lies in the circle again
		w.note(now, now, Holds)
	}
}

// Place sets the place of the anchor, at the end of the minute or by hand: she is watched about
// it from now on, and what was counted before is forgotten.
func (w *Watch) Place(now time.Time, at orb.Point) {
	if w.Phase == Watching {
		w.note(now, now, Moved)
	} else {
		w.note(now, now, Set)
		w.Dropped = now
	}
	w.Phase, w.Anchor = Watching, at
	w.Test, w.Dragging, w.DragSeen = Test{}, false, false
	w.Drop.Fixes, w.TooLate, w.PlaceSeen = nil, false, false
}

// PlaceFrom is the place that lies so far from the boat's position now.
func (w *Watch) PlaceFrom(now time.Time, bearingDeg, metres float64) (orb.Point, error) {
	switch {
	case w.Last.Time.IsZero():
		return orb.Point{}, fmt.Errorf("no position of the boat has come yet; wait for one, or set the anchor on the chart")
	case w.Stopped || w.unseen(now) > wordsAfter:
		return orb.Point{}, fmt.Errorf("the last position of the boat is too old to count from; wait for a new one, or set the anchor on the chart")
	case !(bearingDeg >= 0 && bearingDeg <= 360):
		return orb.Point{}, fmt.Errorf("the bearing of the anchor is not given; degrees true from 0 to 360 are wanted")
	case !(metres >= 0 && metres <= 1000):
		return orb.Point{}, fmt.Errorf("the distance to the anchor is not given; metres from 0 to 1000 are wanted")
	}
	return geo.Direct(w.Last.At, bearingDeg, metres), nil
}

// Relay takes in that more or less rode is laid.
func (w *Watch) Relay(now time.Time, laid Laid) error {
	radius, err := laid.RadiusM()
	if err != nil {
		return err
	}
	w.Laid, w.RadiusM = laid, radius
	w.Test, w.Dragging, w.DragSeen = Test{}, false, false
	w.note(now, now, Relaid)
	return nil
}

// Acknowledge silences the alarm that is heard, for a while, and no other. What was counted
// against the anchor is forgotten: if she does drag there is more of it by then.
func (w *Watch) Acknowledge(now time.Time) {
	switch w.Status(now).Alarm {
	case DragAlarm:
		w.DragSeen, w.DragAcked, w.Test.Sum = true, now, 0
	case SightAlarm:
		w.BlindSeen, w.BlindAcked = true, now
	case PlaceAlarm:
		w.PlaceSeen, w.PlaceAcked = true, now
	}
}

// Weigh ends the watch.
func (w *Watch) Weigh(now time.Time) {
	w.note(now, now, Ended)
	w.Phase, w.Dragging, w.Losses = Weighed, false, nil
}

// Alarm is what an alarm is about.
type Alarm int

// Alarms, the gravest last.
const (
	NoAlarm    Alarm = iota
	PlaceAlarm       // the anchor's place was not found
	SightAlarm       // she is not seen
	DragAlarm
)

// Status is what a watch has to say at a time.
type Status struct {
	Phase      Phase
	Known      bool    // where she is and how far from the anchor: Last
	DistanceM  float64 // from the anchor
	BeyondM    float64 // the circle; negative inside
	BearingDeg float64 // from the anchor to her
	Share      float64 // how near the test is to an alarm, 0 to 1

	Dragging  bool
	DragSince time.Time
	Blind     Blindness
	BlindFor  time.Duration // since the last good fix
	Untimed   bool          // or longer: the clock was set back
	Unplaced  bool          // the anchor's place was not found in time
	Cause     Cause
	Alarm     Alarm // the gravest that is to be heard now
	Sounding  bool  // there is one
}

// Status tells how things are at a time.
func (w *Watch) Status(now time.Time) Status {
	s := Status{Phase: w.Phase, Share: w.Test.Share()}
	if !w.Running() {
		return s
	}
	if w.Phase == Watching && !w.Last.Time.IsZero() {
		s.Known = true
		s.DistanceM, s.BearingDeg, _ = geo.Inverse(w.Anchor, w.Last.At)
		s.BeyondM = s.DistanceM - w.RadiusM
	}
	s.Blind, s.BlindFor, s.Cause = w.blindness(now)
	s.Untimed, s.Unplaced = w.Untimed, w.Unplaced(now)
	s.Dragging, s.DragSince = w.Dragging, w.DragSince
	s.Alarm = w.alarm(now, &s)
	s.Sounding = s.Alarm != NoAlarm
	return s
}

// alarm is the gravest alarm that nobody has acknowledged, or not lately.
func (w *Watch) alarm(now time.Time, s *Status) Alarm {
	switch {
	case s.Dragging && (!w.DragSeen || w.Test.drags() && elapsed(now, w.DragAcked) >= quietFor):
		return DragAlarm
	case s.Blind == BlindAlarm && (!w.BlindSeen || elapsed(now, w.BlindAcked) >= quietFor):
		return SightAlarm
	case s.Unplaced && (!w.PlaceSeen || elapsed(now, w.PlaceAcked) >= quietFor):
		return PlaceAlarm
	}
	return NoAlarm
}

// LeeMinutes is how long she would take to drag through the room to leeward at a speed.
func LeeMinutes(roomM, kn float64) float64 {
	if !(kn > 0) {
		return math.Inf(1)
	}
	return math.Max(0, roomM) / (kn * geo.KnotMPS) / 60
}
