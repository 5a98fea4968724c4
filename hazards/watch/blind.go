package watch

import (
	"slices"
	"time"
)

// Cause is why a watch does not see her.
type Cause string

// Causes.
const (
	NoFix         Cause = "no fix"
	PoorAccuracy  Cause = "poor accuracy"
	NotPermitted  Cause = "not permitted"
	PageHidden    Cause = "page hidden"
	NoReceiver    Cause = "no receiver"
	ProgramHalted Cause = "program halted"
	NoAccuracy    Cause = "no accuracy"    // positions come without it, and may be anywhere
	ClockSetBack  Cause = "clock set back" // how long she was not seen cannot be known
)

// Blindness is how much of a matter it is that she is not seen.
type Blindness int

// Degrees of it.
const (
	Sees Blindness = iota
	BlindWords
	BlindAlarm
)

const (
	// wordsAfter and alarmAfter are how long without a good fix is worth words and an alarm.
	wordsAfter = 30 * time.Second
	alarmAfter = 2 * time.Minute
	// AskAfter is how long without a fix one is asked for: a receiver that lies still may
	// send none by itself.
	AskAfter = 15 * time.Second
	// ToneAfter is how far ahead the tone is set that sounds though nothing runs any more.
	// It is longer than alarmAfter: while the program runs it gives the alarm itself.
	ToneAfter = 150 * time.Second
)

// Loss is a reason why no fix can come, or may not be heard, and since when.
type Loss struct {
	Why Cause     `json:"why"`
	At  time.Time `json:"at"`
}

// blindness says how long she was not seen, and why.
func (w *Watch) blindness(now time.Time) (Blindness, time.Duration, Cause) {
	unseen := w.unseen(now)
	switch {
	case len(w.Losses) > 0:
		return BlindAlarm, max(unseen, elapsed(now, w.Losses[0].At)), w.Losses[0].Why
	case w.Untimed:
		return BlindAlarm, unseen, ClockSetBack
	case unseen >= alarmAfter:
		return BlindAlarm, unseen, w.cause(now)
	case unseen >= wordsAfter || w.Stopped:
		return BlindWords, unseen, w.cause(now)
	}
	return Sees, unseen, ""
}

// unseen is how long she was not seen, by the clock at the last good fix and by the one at the start
// of the program: that one is steady even where the wall clock was set.
func (w *Watch) unseen(now time.Time) time.Duration {
	unseen := elapsed(now, w.HealthyAt)
	if w.Stopped && !w.resumedAt.IsZero() {
		unseen = max(unseen, elapsed(now, w.resumedAt))
	}
	return unseen
}

// cause is why no good fix has come.
func (w *Watch) cause(now time.Time) Cause {
	switch {
	case w.PoorAt.After(w.HealthyAt) && elapsed(now, w.PoorAt) < wordsAfter && w.Poor.accurate():
		return PoorAccuracy
	case w.PoorAt.After(w.HealthyAt) && elapsed(now, w.PoorAt) < wordsAfter:
		return NoAccuracy
	case w.Stopped:
		return ProgramHalted
	}
	return NoFix
}

// sees takes note that a good fix came; a time that she was not seen is over.
func (w *Watch) sees(now time.Time) {
	if degree, _, cause := w.blindness(now); !w.Deaf() && (degree != Sees || w.Stopped) {
		w.noteCause(w.HealthyAt, now, Blinded, cause)
	}
	w.HealthyAt, w.Stopped, w.Untimed = now, false, false
	if !w.Deaf() {
		w.BlindSeen = false
	}
}

// Deaf says that no fix can come, or that none may be heard.
func (w *Watch) Deaf() bool { return len(w.Losses) > 0 }

// lost is the place of a reason among those for which no fix is heard, -1 where it is none of them.
func (w *Watch) lost(why Cause) int {
	return slices.IndexFunc(w.Losses, func(l Loss) bool { return l.Why == why })
}

// Lose takes in a reason why fixes can no longer be heard, which is an alarm at once.
func (w *Watch) Lose(now time.Time, why Cause) {
	if !w.Running() || w.lost(why) >= 0 {
		return
	}
	w.Losses = append(w.Losses, Loss{why, now})
	w.BlindSeen = false // another reason is another alarm
}

// Regain takes in that a reason is no more. They can be heard again once none is left. ok is
// false where it was no reason; blind is how long it was one.
func (w *Watch) Regain(now time.Time, why Cause) (blind time.Duration, ok bool) {
	i := w.lost(why)
	if i < 0 {
		return 0, false
	}
	at := w.Losses[i].At
	w.noteCause(at, now, Blinded, why)
	if w.Losses = slices.Delete(w.Losses, i, i+1); !w.Deaf() {
		w.BlindSeen = false
	}
	return elapsed(now, at), true
}

// Resume takes in that the program runs again, after it was stopped with the watch running;
// blind is how long she was not seen. known is false where the clock was set back meanwhile: then
// nobody can say how long, which is an alarm until a good fix comes. Nothing stays silent that was
// acknowledged before.
func (w *Watch) Resume(now time.Time) (blind time.Duration, known bool) {
	if !w.Running() {
		return 0, false
	}
	w.Stopped, w.Losses, w.resumedAt = true, nil, now
	w.Untimed = w.Untimed || w.HealthyAt.After(now)
	w.Drop.Fixes, w.TooLate = nil, w.TooLate || w.Started.After(now)
	w.BlindSeen, w.DragSeen, w.PlaceSeen = false, false, false
	w.BlindAcked, w.DragAcked, w.PlaceAcked = time.Time{}, time.Time{}, time.Time{}
	return elapsed(now, w.HealthyAt), !w.Untimed
}
