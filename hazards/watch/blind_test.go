package watch

import (
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

// A clock that is set back hides no silence as long as the program runs.
func TestClockSetBack(t *testing.T) {
	s := anchored(t)
	s.clock = time.Now() // with a steady reading
	s.w.HealthyAt = s.clock
	wall := s.clock.Round(0).Add(-time.Hour)
	if got := elapsed(s.clock.Add(3*time.Minute), s.clock); got != 3*time.Minute {
		t.Errorf("%v", got)
	}
	if got := elapsed(wall, s.clock); got != 0 {
		t.Errorf("%v", got)
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
		if blind := s.w.Regain(s.clock); blind != 41*time.Second {
			t.Errorf("blind for %v", blind)
		}
		s.fix(0, 0, 5, time.Second)
		if st := s.status(); st.Blind != Sees || st.Sounding {
			t.Errorf("%+v", st)
		}
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
}

// After the program was stopped the watch goes on, and says how long it was blind.
func TestResume(t *testing.T) {
	for _, tt := range []struct {
		away time.Duration
		want Blindness
	}{{5 * time.Second, Sees}, {40 * time.Second, BlindWords}, {10 * time.Minute, BlindAlarm}} {
		s := anchored(t)
		s.w.Lose(s.clock, PageHidden) // as a page that is closed says
		s.clock = s.clock.Add(tt.away)
		if blind := s.w.Resume(s.clock); blind != tt.away {
			t.Errorf("blind for %v", blind)
		}
		st := s.status()
		if st.Blind != tt.want || tt.want != Sees && st.Cause != ProgramHalted {
			t.Errorf("%v: %+v", tt.away, st)
		}
		s.fix(0, 0, 5, time.Second)
		e := s.w.Log[len(s.w.Log)-1]
		if e.What != Blinded || e.Cause != ProgramHalted || e.To.Sub(e.From) != tt.away+time.Second {
			t.Errorf("the log ends with %+v", e)
		}
	}
	var none *Watch
	if none.Running() || none.Resume(start) != 0 {
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
