package state

import (
	"strings"
	"testing"
	"time"
)

// loadedAgain is the page of a harness loaded again, some time after.
func loadedAgain(t *testing.T, g *harness, after time.Duration) (*harness, *recordedLookout) {
	t.Helper()
	again, l := newHarness(t), &recordedLookout{}
	again.store, again.now = g.store, g.now.Add(after)
	again.room = NewRoom(again, g.store, again, "test")
	again.room.AttachLookout(l)
	again.room.Attach(again.view, blindStrip{})
	again.start()
	return again, l
}

// With a clock that was set back meanwhile nobody knows how long she was not seen: it is an alarm
// at once, and stays one when the page is loaded once more.
func TestWatchResumesWithClockSetBack(t *testing.T) {
	g, _ := anchoredRoom(t)
	again, l := loadedAgain(t, g, -time.Hour)
	again.lookout("begun", "{}")
	if _, known, ok := again.room.Watch.Resumes(); known || !ok || !l.alarm || !strings.Contains(again.view.watch, `"seen":"Not seen now"`) {
		t.Errorf("known %v, %v; alarm %v; %.200s", known, ok, l.alarm, again.view.watch)
	}
	third, l := loadedAgain(t, again, time.Second)
	if !l.alarm {
		t.Error("loaded once more it is silent")
	}
	if third.hear(0, 0, 5, time.Second); l.alarm {
		t.Error("seen, it is heard")
	}
}

// Dragging that was acknowledged is heard again after a reload.
func TestWatchResumesDragging(t *testing.T) {
	g, _ := anchoredRoom(t)
	for range 60 {
		g.hear(90, 120, 5, time.Second)
	}
	g.presses("watch-ack")
	if g.room.Watch.Sounding() {
		t.Fatal("acknowledged, it is heard")
	}
	if _, l := loadedAgain(t, g, -20*time.Second); !l.alarm {
		t.Error("after the reload it is silent")
	}
}

// A reload in the middle: the watch goes on, and says how long it was blind.
func TestWatchResumes(t *testing.T) {
	g, _ := anchoredRoom(t)
	again, l := loadedAgain(t, g, 200*time.Second)
	blind, known, ok := again.room.Watch.Resumes()
	if !again.room.Watch.Running() || l.begun != 1 || !ok || !known || blind < 200*time.Second || blind > 206*time.Second {
		t.Fatalf("blind for %v, %v; begun %d", blind, ok, l.begun)
	}
	if !l.alarm {
		t.Error("unseen for more than two minutes, no alarm is heard")
	}
	again.hear(0, 0, 5, time.Second)
	if l.alarm || again.room.Watch.Watch.Anchor != g.room.Watch.Watch.Anchor {
		t.Error("the watch does not go on where it was")
	}
}

// A kept watch that cannot be read is told of; one that has no circle sees nothing.
func TestWatchSpoilt(t *testing.T) {
	for _, tt := range []struct {
		kept  string
		told  bool
		alarm bool
	}{
		{"not JSON", true, false}, {`{"version":99}`, true, false}, {`[]`, true, false}, {"", false, false},
		{`{"version":1,"phase":"weighed"}`, false, false}, {`{"version":1,"phase":"watching"}`, false, true},
	} {
		g := newHarness(t)
		l := &recordedLookout{}
		g.room.AttachLookout(l)
		g.store.settings[settingWatch] = tt.kept
		g.start()
		told := false
		for _, n := range g.room.Notices.Current() {
			told = told || strings.Contains(n.Text, "anchor watch was running and cannot be read")
		}
		if g.hear(0, 0, 5, time.Second); told != tt.told || l.alarm != tt.alarm {
			t.Errorf("%q: told %v, alarm %v", tt.kept, told, l.alarm)
		}
	}
}

// Another tab keeps the watch: this one neither watches nor spoils what is kept.
func TestWatchElsewhere(t *testing.T) {
	g, _ := anchoredRoom(t)
	kept := g.store.settings[settingWatch]
	other, l := loadedAgain(t, g, time.Second)
	other.presses("watch-end")
	other.presses("watch-end-now") // before it is known that another tab watches
	other.room.Enter(WatchRodeField, "50")
	other.room.Enter(WatchDepthField, "3")
	other.presses("watch-drop")
	if g.store.settings[settingWatch] != kept {
		t.Fatal("what the other tab keeps is overwritten")
	}
	other.lookout("elsewhere", "{}")
	begun := l.begun
	other.presses("watch-drop")
	other.hear(0, 0, 5, time.Minute)
	if w := other.room.Watch; w.Running() || !w.Elsewhere || g.store.settings[settingWatch] != kept || l.begun != begun || !strings.Contains(w.Form.Wrong, "another tab") {
		t.Errorf("two tabs watch: %q", w.Form.Wrong)
	}
}

// The tab that watched is gone: its watch goes on in the one that waited, blind until a fix comes.
func TestWatchTakenOver(t *testing.T) {
	g, _ := anchoredRoom(t)
	other, l := loadedAgain(t, g, time.Second)
	other.lookout("elsewhere", "{}")
	other.now = other.now.Add(10 * time.Minute)
	other.lookout("alone", "{}")
	if w := other.room.Watch; !w.Running() || w.Elsewhere || !l.alarm || w.Watch.Anchor != g.room.Watch.Watch.Anchor {
		t.Fatalf("running %v, elsewhere %v, alarm %v", w.Running(), w.Elsewhere, l.alarm)
	}
	other.lookout("begun", "{}")
	if other.hear(0, 0, 5, time.Second); l.alarm {
		t.Error("seen, it is heard")
	}
}

// The tab that watched has ended its watch: nothing goes on, and another tab may have its turn.
func TestWatchEndedElsewhere(t *testing.T) {
	g, _ := anchoredRoom(t)
	other, l := loadedAgain(t, g, time.Second)
	other.lookout("elsewhere", "{}")
	g.presses("watch-end")
	g.presses("watch-end-now")
	other.lookout("alone", "{}")
	if w := other.room.Watch; w.Running() || w.Elsewhere || l.ended != 1 {
		t.Errorf("running %v, elsewhere %v, ended %d times", w.Running(), w.Elsewhere, l.ended)
	}
}
