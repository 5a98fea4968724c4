package watch

import "time"

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

// blindness says how long she was not seen, and why.
func (w *Watch) blindness(now time.Time) (Blindness, time.Duration, Cause) {
	unseen := elapsed(now, w.HealthyAt)
	switch {
	case w.Lost != "":
		return BlindAlarm, max(unseen, elapsed(now, w.LostAt)), w.Lost
	case unseen >= alarmAfter:
		return BlindAlarm, unseen, w.cause(now)
	case unseen >= wordsAfter:
		return BlindWords, unseen, w.cause(now)
	}
	return Sees, unseen, ""
}

// cause is why no good fix has come.
func (w *Watch) cause(now time.Time) Cause {
	switch {
	case w.PoorAt.After(w.HealthyAt) && elapsed(now, w.PoorAt) < wordsAfter:
		return PoorAccuracy
	case w.Stopped:
		return ProgramHalted
	}
	return NoFix
}

// sees takes note that a good fix came; a time that she was not seen is over.
func (w *Watch) sees(now time.Time) {
	if degree, _, cause := w.blindness(now); w.Lost == "" && (degree != Sees || w.Stopped) {
		if cause == "" {
			cause = ProgramHalted
		}
		w.noteCause(w.HealthyAt, now, Blinded, cause)
	}
	w.HealthyAt, w.Stopped = now, false
	if w.Lost == "" {
		w.BlindSeen = false
	}
}

// Lose takes in that fixes can no longer be heard, which is an alarm at once.
func (w *Watch) Lose(now time.Time, why Cause) {
	if !w.Running() || w.Lost != "" {
		return
	}
	w.Lost, w.LostAt = why, now
}

// Regain takes in that they can be heard again; blind is how long they could not.
func (w *Watch) Regain(now time.Time) (blind time.Duration) {
	if w.Lost == "" {
		return 0
	}
	blind = elapsed(now, w.LostAt)
	w.noteCause(w.LostAt, now, Blinded, w.Lost)
	w.Lost, w.BlindSeen = "", false
	return blind
}

// Resume takes in that the program runs again, after it was stopped with the watch running;
// blind is how long she was not seen.
func (w *Watch) Resume(now time.Time) (blind time.Duration) {
	if !w.Running() {
		return 0
	}
	w.Stopped, w.Lost, w.BlindSeen = true, "", false
	return elapsed(now, w.HealthyAt)
}
