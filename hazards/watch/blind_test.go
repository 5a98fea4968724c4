package watch

import (
	"encoding/json"
	"testing"
	"time"
)

// Words after 30 s without a fix, an alarm after 120.
func TestBlind(t *testing.T) {
	s := anchored(t)
	for _, tt := range []struct {
		after time.Duration
		want  Blindness
	}{{29 * time.Second, Sees}, {30 * time.Second, BlindWords}, {119 * time.Second, BlindWords}, {2 * time.Minute, BlindAlarm}, {time.Hour, BlindAlarm}} {
		st := s.w.Status(s.clock.Add(tt.after))
		if st.Blind != tt.want || st.BlindFor != tt.after || st.Sounding != (tt.want == BlindAlarm) {
			t.Errorf("after %v: %+v", tt.after, st)
		}
		if want := (map[bool]Cause{true: NoFix})[tt.want != Sees]; st.Cause != want {
			t.Errorf("after %v: cause %q", tt.after, st.Cause)
		}
	}
	s.fix(0, 0, 5, 200*time.Second)
	if st := s.status(); st.Blind != Sees || st.Sounding {
		t.Errorf("a good fix has come: %+v", st)
	}
	if e := s.w.Log[len(s.w.Log)-1]; e.What != Blinded || e.Cause != NoFix || e.To.Sub(e.From) != 200*time.Second {
		t.Errorf("the log ends with %+v", e)
	}
}

// While the anchor's place is being taken she may be unseen too.
func TestBlindWithoutAnyFix(t *testing.T) {
	s := newSea(t)
	if st := s.w.Status(start.Add(2 * time.Minute)); st.Blind != BlindAlarm || !st.Sounding {
		t.Errorf("%+v", st)
	}
}

// A fix that the receiver repeats is no sight of her, nor is one that is older.
func TestRepeatedFix(t *testing.T) {
	s := anchored(t)
	old := s.w.Last
	for range 120 {
		s.clock = s.clock.Add(time.Second)
		if s.w.Fix(s.clock, old) || s.w.Fix(s.clock, Fix{Time: old.Time.Add(-20 * time.Second), At: old.At, AccuracyM: 5}) {
			t.Fatal("it is taken for another")
		}
	}
	if st := s.status(); st.Blind != BlindAlarm {
		t.Errorf("%+v", st)
	}
}

// A receiver whose time is not the clock's, or is set anew, is heard all the same.
func TestReceiverTime(t *testing.T) {
	s := anchored(t)
	for i, shift := range []time.Duration{-20 * 365 * 24 * time.Hour, 3 * time.Minute, -2 * time.Hour} {
		for range 5 {
			s.clock = s.clock.Add(time.Second)
			if !s.w.Fix(s.clock, Fix{Time: s.clock.Add(shift), At: place, AccuracyM: 5}) {
				t.Fatalf("shift %d is not heard", i)
			}
		}
	}
	if st := s.status(); st.Share != 0 {
		t.Errorf("%+v", st)
	}
}

// stopped has the program end and begin again some time after: what is not stored is lost.
func (s *sea) stopped(after time.Duration) (blind time.Duration, known bool) {
	s.t.Helper()
	text, err := json.Marshal(s.w)
	if err != nil {
		s.t.Fatal(err)
	}
	s.w = &Watch{}
	if err := json.Unmarshal(text, s.w); err != nil {
		s.t.Fatal(err)
	}
	s.clock = s.clock.Add(after)
	return s.w.Resume(s.clock)
}

// A clock that is set back hides no silence as long as the program runs.
func TestClockSetBack(t *testing.T) {
	s := anchored(t)
	s.clock = time.Now() // with a steady reading
	s.w.HealthyAt = s.clock
	if got := elapsed(s.clock.Add(3*time.Minute), s.clock); got != 3*time.Minute {
		t.Errorf("%v", got)
	}
}

// A clock that is set back while the program is stopped: nobody knows how long she was not seen,
// which is an alarm until a good fix comes.
func TestClockSetBackWhileStopped(t *testing.T) {
	for _, back := range []time.Duration{-time.Second, -time.Hour, -365 * 24 * time.Hour} {
		s := anchored(t)
		if _, known := s.stopped(back); known {
			t.Error("it is known how long she was not seen")
		}
		for _, later := range []time.Duration{0, time.Second, time.Hour} {
			if st := s.w.Status(s.clock.Add(later)); st.Blind != BlindAlarm || !st.Sounding || !st.Untimed || st.Cause != ClockSetBack {
				t.Errorf("%v back, %v later: %+v", back, later, st)
			}
		}
		if s.stopped(time.Second); !s.status().Untimed {
			t.Error("stopped again, it is known how long")
		}
		s.fix(0, 0, 5, time.Minute+time.Second) // by a receiver whose time was set back too
		if st := s.status(); back < -time.Minute && (st.Blind != Sees || st.Sounding || st.Untimed) {
			t.Errorf("a good fix has come: %+v", st)
		}
	}
}

// A clock that is set back after the program began again, before any fix: the steady reading says
// how long none has come.
func TestClockSetBackAfterResume(t *testing.T) {
	s := anchored(t)
	s.clock = time.Now()
	s.w.HealthyAt = s.clock.Add(-10 * time.Second)
	s.stopped(0)
	s.w.HealthyAt = s.w.HealthyAt.Add(time.Hour) // as a clock an hour back has it
	if st := s.w.Status(s.clock.Add(2 * time.Minute)); st.Blind != BlindAlarm || !st.Sounding {
		t.Errorf("%+v", st)
	}
}

// What was acknowledged before the program was stopped is heard again after it, whatever the clock.
func TestResumeForgetsAcknowledged(t *testing.T) {
	for _, away := range []time.Duration{time.Second, -time.Hour} {
		s := anchored(t)
		for range 60 {
			s.fix(0, 50, 5, time.Second)
		}
		s.w.Acknowledge(s.clock)
		if s.status().Sounding {
			t.Fatal("acknowledged, it is heard")
		}
		s.stopped(away)
		if st := s.status(); !st.Dragging || st.Alarm != DragAlarm {
			t.Errorf("%v: %+v", away, st)
		}
	}
}

// Fixes worse than the circle is wide are no sight of her.
func TestPoorAccuracy(t *testing.T) {
	s := anchored(t)
	for i := range 120 {
		if s.fix(0, 0, 30.5, time.Second) {
			t.Fatal("it is taken for a good one")
		}
		want := Sees
		switch {
		case i+1 >= 120:
			want = BlindAlarm
		case i+1 >= 30:
			want = BlindWords
		}
		if st := s.status(); st.Blind != want || want != Sees && st.Cause != PoorAccuracy {
			t.Fatalf("after %d s: %+v", i+1, st)
		}
	}
	if s.fix(0, 0, 30, time.Second); s.status().Blind != Sees {
		t.Error("one as good as the circle is wide is not taken")
	}
}

// When it is known that no fix will be heard the alarm is at once.
func TestLost(t *testing.T) {
	for _, why := range []Cause{NotPermitted, PageHidden, NoReceiver} {
		s := anchored(t)
		s.w.Lose(s.clock, why)
		if st := s.status(); st.Blind != BlindAlarm || st.Cause != why || !st.Sounding {
			t.Errorf("%+v", st)
		}
		s.fix(0, 0, 5, time.Second) // a hidden page may still get some
		if st := s.status(); st.Blind != BlindAlarm {
			t.Errorf("%+v", st)
		}
		s.clock = s.clock.Add(40 * time.Second)
		if blind, ok := s.w.Regain(s.clock, why); blind != 41*time.Second || !ok {
			t.Errorf("blind for %v, %v", blind, ok)
		}
		s.fix(0, 0, 5, time.Second)
		if st := s.status(); st.Blind != Sees || st.Sounding {
			t.Errorf("%+v", st)
		}
	}
}

// Two reasons at once: the watch is blind until neither is left, in whatever order they end.
func TestLostTwice(t *testing.T) {
	for _, ends := range [][2]Cause{{NotPermitted, PageHidden}, {PageHidden, NotPermitted}} {
		s := anchored(t)
		s.w.Lose(s.clock, NotPermitted)
		s.w.Lose(s.clock, PageHidden)
		s.w.Regain(s.clock, ends[0])
		if s.fix(0, 0, 5, time.Second); s.status().Blind != BlindAlarm || s.status().Cause != ends[1] {
			t.Errorf("%v has ended: %+v", ends[0], s.status())
		}
		s.w.Regain(s.clock, ends[1])
		if s.fix(0, 0, 5, time.Second); s.status().Blind != Sees {
			t.Errorf("both have ended: %+v", s.status())
		}
	}
}

// Poor fixes that are stamped ahead keep no good one from being heard.
func TestPoorFixesAhead(t *testing.T) {
	s := anchored(t)
	for range 200 {
		s.clock = s.clock.Add(time.Second)
		s.w.Fix(s.clock, Fix{Time: s.clock.Add(40 * time.Second), At: place, AccuracyM: 900})
		s.w.Fix(s.clock, Fix{Time: s.clock, At: place, AccuracyM: 5})
	}
	if st := s.status(); st.Blind != Sees {
		t.Errorf("%+v", st)
	}
}

// Positions without an accuracy may be anywhere: the watch is blind, and says why.
func TestNoAccuracy(t *testing.T) {
	s := anchored(t)
	for range 130 {
		s.clock = s.clock.Add(time.Second)
		if s.w.Fix(s.clock, Fix{Time: s.clock, At: place}) {
			t.Fatal("it is taken for a good one")
		}
	}
	if st := s.status(); st.Blind != BlindAlarm || st.Cause != NoAccuracy {
		t.Errorf("%+v", st)
	}
}

// The alarm of a watch that is blind is silent for two minutes once acknowledged; one that
// comes later is heard at once.
func TestAcknowledgeBlind(t *testing.T) {
	s := anchored(t)
	s.clock = s.clock.Add(130 * time.Second)
	s.w.Acknowledge(s.clock)
	if s.status().Sounding || s.w.Status(s.clock.Add(119*time.Second)).Sounding {
		t.Error("it is heard though acknowledged")
	}
	if !s.w.Status(s.clock.Add(2 * time.Minute)).Sounding {
		t.Error("it is not heard again")
	}
	s.fix(0, 0, 5, time.Second)
	s.w.Lose(s.clock, PageHidden)
	if !s.status().Sounding {
		t.Error("another alarm is not heard")
	}
}

// What was acknowledged of one alarm says nothing of the other.
func TestAcknowledgeOne(t *testing.T) {
	s := anchored(t)
	s.clock = s.clock.Add(130 * time.Second)
	s.w.Acknowledge(s.clock)
	for range 60 {
		s.fix(0, 80, 5, time.Second)
	}
	if st := s.status(); !st.Dragging || !st.Sounding {
		t.Errorf("%+v", st)
	}
	s.clock = s.clock.Add(130 * time.Second) // and blind
	if st := s.status(); st.Alarm != DragAlarm {
		t.Errorf("the gravest is %v", st.Alarm)
	}
	s.w.Acknowledge(s.clock)
	if st := s.status(); st.Alarm != SightAlarm {
		t.Errorf("dragging was acknowledged, and nothing else: %+v", st)
	}
	if s.w.Acknowledge(s.clock); s.status().Sounding {
		t.Error("both were acknowledged")
	}
}

// After the program was stopped the watch goes on, and says how long it was blind.
func TestResume(t *testing.T) {
	for _, tt := range []struct {
		away time.Duration
		want Blindness
	}{{5 * time.Second, BlindWords}, {40 * time.Second, BlindWords}, {10 * time.Minute, BlindAlarm}} {
		s := anchored(t)
		s.w.Lose(s.clock, PageHidden) // as a page that is closed says
		s.clock = s.clock.Add(tt.away)
		if blind, known := s.w.Resume(s.clock); blind != tt.away || !known {
			t.Errorf("blind for %v, %v", blind, known)
		}
		st := s.status()
		if st.Blind != tt.want || st.Cause != ProgramHalted {
			t.Errorf("%v: %+v", tt.away, st)
		}
		s.fix(0, 0, 5, time.Second)
		e := s.w.Log[len(s.w.Log)-1]
		if e.What != Blinded || e.Cause != ProgramHalted || e.To.Sub(e.From) != tt.away+time.Second {
			t.Errorf("the log ends with %+v", e)
		}
	}
	var none *Watch
	if blind, _ := none.Resume(start); none.Running() || blind != 0 {
		t.Error("no watch is taken for one")
	}
}

// The anchor dragged while the program did not run: that is told within seconds.
func TestDraggedMeanwhile(t *testing.T) {
	s := anchored(t)
	s.clock = s.clock.Add(20 * time.Minute)
	s.w.Resume(s.clock)
	for range 10 {
		s.fix(90, 300, 5, time.Second)
	}
	if st := s.status(); !st.Dragging || !st.Sounding {
		t.Errorf("%+v", st)
	}
}
