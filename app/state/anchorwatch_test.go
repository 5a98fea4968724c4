package state

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/hazards/watch"
)

// recordedLookout remembers what it was asked.
type recordedLookout struct {
	lacks              string
	begun, ended, tone int
	alarm              bool
}

func (l *recordedLookout) Lacks() string         { return l.lacks }
func (l *recordedLookout) Begin(time.Duration)   { l.begun++ }
func (l *recordedLookout) End()                  { l.ended++ }
func (l *recordedLookout) Healthy(time.Duration) { l.tone++ }
func (l *recordedLookout) Alarm(on bool)         { l.alarm = on }
func (l *recordedLookout) Attempt()              {}
func (l *recordedLookout) SoundOn()              {}

// bay is where she anchors in these tests.
var bay = orb.Point{-36.2, 43.05}

// hear gives the room a position so many metres from bay, some time after the last.
func (g *harness) hear(bearing, metres, accuracy float64, after time.Duration) {
	g.now = g.now.Add(after)
	at := geo.Direct(bay, bearing, metres)
	g.lookout("fix", fmt.Sprintf(`{"t":%d,"lon":%.9f,"lat":%.9f,"accuracy":%g}`, g.now.UnixMilli(), at[0], at[1], accuracy))
}

func (g *harness) lookout(kind, detail string) {
	g.room.Turn(func() { g.room.LookoutSays(kind, []byte(detail)) })
}

func (g *harness) presses(action string) { g.room.Turn(func() { g.room.Do(action, "") }) }

// anchoredRoom is a room whose watch knows the anchor's place.
func anchoredRoom(t *testing.T) (*harness, *recordedLookout) {
	t.Helper()
	g := newHarness(t)
	l := &recordedLookout{}
	g.room.AttachLookout(l)
	g.start()
	g.room.Enter(WatchRodeField, "25")
	g.room.Enter(WatchDepthField, "3")
	g.presses("watch-drop")
	if !g.room.Watch.Running() || l.begun != 1 {
		t.Fatalf("no watch runs: %q", g.room.Watch.Form.Wrong)
	}
	g.lookout("begun", "{}")
	for range 61 {
		g.hear(0, 0, 5, time.Second)
	}
	if g.room.Watch.Watch.Phase != watch.Watching {
		t.Fatal("after a minute the anchor has no place")
	}
	return g, l
}

func TestWatchDragsAndIsAcknowledged(t *testing.T) {
	g, l := anchoredRoom(t)
	if l.tone != 62 || l.alarm { // one before the first of them
		t.Errorf("%d healthy positions put the tone back %d times; alarm %v", 61, l.tone, l.alarm)
	}
	for m := 0.0; m < 100; m++ {
		g.hear(90, m, 5, 2*time.Second)
	}
	if !l.alarm || !g.room.Watch.Sounding() {
		t.Fatal("100 m away no alarm is heard")
	}
	if !strings.Contains(g.view.watch, `"alarm":true`) {
		t.Errorf("the chart shows %.120s", g.view.watch)
	}
	tone := l.tone
	g.presses("watch-ack")
	if l.alarm || l.tone != tone+1 {
		t.Error("acknowledged, it is heard, or the tone that was set ahead will be")
	}
	if g.presses("watch-end"); !g.room.Watch.Running() {
		t.Error("one press ends the watch")
	}
	g.presses("watch-keep-on")
	if g.presses("watch-end-now"); !g.room.Watch.Running() {
		t.Error("it ends though that was taken back")
	}
	g.presses("watch-end")
	g.presses("watch-end-now")
	if g.room.Watch.Running() || l.ended != 1 || g.view.watch != "" || g.store.settings[settingWatch] != "" {
		t.Errorf("the watch goes on: %q, %q", g.view.watch, g.store.settings[settingWatch])
	}
}

func TestWatchGoesBlind(t *testing.T) {
	for _, tt := range []struct {
		says  string
		after time.Duration
		back  string
		cause watch.Cause
	}{
		{"denied", time.Second, "granted", watch.NotPermitted},
		{"hidden", time.Second, "visible", watch.PageHidden},
		{"tick", 2 * time.Minute, "tick", watch.NoFix},
	} {
		g, l := anchoredRoom(t)
		g.now = g.now.Add(tt.after)
		g.lookout(tt.says, "{}")
		if s := g.room.Watch.Status(); !l.alarm || s.Cause != tt.cause {
			t.Errorf("%s: alarm %v, %+v", tt.says, l.alarm, s)
		}
		tone := l.tone
		if g.hear(0, 0, 5, time.Second); tt.cause == watch.PageHidden && l.tone != tone {
			t.Error("a hidden page puts the tone back")
		}
		g.lookout(tt.back, "{}")
		g.hear(0, 0, 5, time.Second)
		if l.alarm {
			t.Errorf("%s: seen again, the alarm is heard", tt.says)
		}
	}
}

// While she is not seen the chart says so, and when she was.
func TestWatchDrawsBlindness(t *testing.T) {
	g, _ := anchoredRoom(t)
	if !strings.Contains(g.view.watch, `"seen":""`) {
		t.Errorf("seen, the chart has %.300s", g.view.watch)
	}
	last := g.now.In(g.room.Watch.Zone()).Format("15:04")
	g.now = g.now.Add(time.Minute)
	g.lookout("tick", "{}")
	if !strings.Contains(g.view.watch, `"seen":"Last seen `+last+`"`) {
		t.Errorf("unseen for a minute, the chart has %.300s", g.view.watch)
	}
}

// Back in front the tone that is set ahead is put back, as the program runs.
func TestWatchVisiblePutsToneBack(t *testing.T) {
	g, l := anchoredRoom(t)
	g.lookout("hidden", "{}")
	tone := l.tone
	if g.lookout("visible", "{}"); l.tone != tone+1 {
		t.Errorf("put back %d times", l.tone-tone)
	}
}

// A reason to be blind that ends leaves the other one.
func TestWatchLostTwice(t *testing.T) {
	g, l := anchoredRoom(t)
	g.lookout("denied", "{}")
	g.lookout("hidden", "{}")
	g.lookout("granted", "{}")
	if g.hear(0, 0, 5, time.Second); !l.alarm {
		t.Error("hidden, and permitted again: no alarm")
	}
}

// Where none can be heard the screen says so until it is touched, and anew once it is lost again.
func TestWatchSilent(t *testing.T) {
	g, _ := anchoredRoom(t)
	if g.room.Watch.Silent() {
		t.Error("it is not known yet, and said")
	}
	g.lookout("sound", `{"on":false}`)
	if g.room.Watch.Silent() {
		t.Error("said before the sound could come")
	}
	g.now = g.now.Add(time.Second)
	if g.lookout("tick", "{}"); !g.room.Watch.Silent() {
		t.Error("no sound, and no word")
	}
	if g.presses("watch-sound"); g.room.Watch.Silent() {
		t.Error("touched, it stands in the way")
	}
	g.lookout("sound", `{"on":true}`)
	g.lookout("sound", `{"on":false}`)
	g.now = g.now.Add(time.Second)
	if g.lookout("tick", "{}"); !g.room.Watch.Silent() {
		t.Error("lost again, it is not said")
	}
}

// A page with a running watch is not loaded again by a button.
func TestWatchIsUnsaved(t *testing.T) {
	g, _ := anchoredRoom(t)
	g.settle()
	if why := g.room.Unsaved(); !strings.Contains(why, "anchor watch is running") {
		t.Errorf("%q", why)
	}
	g.presses("watch-end")
	g.presses("watch-end-now")
	if why := g.room.Unsaved(); why != "" {
		t.Errorf("ended: %q", why)
	}
}

// What was typed for one watch is not taken for the next one.
func TestWatchFormIsNew(t *testing.T) {
	g, _ := anchoredRoom(t)
	g.room.Enter(WatchRodeField, "90")
	g.presses("watch-end")
	g.presses("watch-end-now")
	if f := g.room.Watch.Form; f != (watchForm{}) {
		t.Errorf("%+v", f)
	}
}

// Where she lies is in nothing that is exported.
func TestWatchIsInNoExport(t *testing.T) {
	g, _ := anchoredRoom(t)
	if g.store.settings[settingWatch] == "" {
		t.Fatal("the watch is not kept")
	}
	if _, there := g.room.Settings.Values[settingWatch]; there {
		t.Error("the watch is among the settings, which are exported")
	}
	again := newHarness(t)
	again.store = g.store
	again.room = NewRoom(again, g.store, again, "test")
	again.room.Attach(again.view, blindStrip{})
	again.start()
	for _, action := range []string{"export-all", "export-plan", "export-report", "export-gpx"} {
		again.presses(action)
		again.settle()
	}
	if len(again.saved) == 0 {
		t.Fatal("nothing was exported")
	}
	for name, text := range again.saved {
		for _, part := range []string{fmt.Sprintf("%.4f", bay[1]), settingWatch, "radius_m\\\""} {
			if strings.Contains(text, part) {
				t.Errorf("%s holds %q", name, part)
			}
		}
	}
}

// What the checks say of a stay is told only where she lies in it, and at its hour.
func TestWatchTellsOfItsOwnWater(t *testing.T) {
	g, _ := anchoredRoom(t)
	g.settle()
	a := g.room.Watch
	stay := a.Result()
	if stay == nil || stay.Arrive == nil {
		t.Fatal("the report has no stay")
	}
	inside := stay.Arrive.Add(time.Minute)
	for _, tt := range []struct {
		anchor orb.Point
		now    time.Time
		told   bool
	}{
		{geo.Direct(stay.At, 90, 20), inside, true},
		{geo.Direct(stay.At, 90, a.Watch.RadiusM+1), inside, false},
		{stay.At, stay.Arrive.Add(-time.Second), false},
		{stay.At, *stay.Until, false},
	} {
		a.Watch.Anchor, a.Now, g.now = tt.anchor, tt.now, tt.now
		if r, _ := a.Checked(); (r != nil) != tt.told {
			t.Errorf("%v at %v: %v", tt.anchor, tt.now, r)
		}
	}
	a.Watch.Anchor, a.Now = stay.At, inside
	g.room.Checks.Checking.since = noPlan // as after a change
	if r, _ := a.Checked(); r != nil {
		t.Error("what was checked before a change is told")
	}
}

// The anchor's place is in the plan, and in its file, once the skipper says so.
func TestWatchIntoPlan(t *testing.T) {
	g, _ := anchoredRoom(t)
	g.settle()
	g.presses("export-plan")
	g.presses("watch-plan")
	g.settle()
	stay := g.room.Watch.Stay()
	if stay.Dropped == nil || stay.Dropped.At != g.room.Watch.Watch.Anchor {
		t.Fatalf("the plan has %+v", stay.Dropped)
	}
	before := g.saved
	g.saved = map[string]string{}
	g.presses("export-plan")
	for name, text := range g.saved {
		if !strings.Contains(text, "anchor_dropped") || strings.Contains(before[name], "anchor_dropped") {
			t.Errorf("%s: %.200s", name, text)
		}
	}
	g.presses("undo")
	if g.room.Watch.Stay().Dropped != nil || !g.room.Watch.Running() {
		t.Error("undone, it is still in the plan, or the watch has ended")
	}
}

func TestWatchBadInput(t *testing.T) {
	for _, tt := range []struct{ rode, depth, lacks, want string }{
		{"", "3", "", "How much rode is laid is not given; type its metres"},
		{"-4", "3", "", "rode"},
		{"much", "3", "", "much"},
		{"5", "40", "", "do not reach the ground"},
		{"30", "deep", "", "deep"},
		{"30", "3", "insecure", "open it over https, or as localhost"},
		{"30", "3", "none", "gives no position"},
	} {
		g := newHarness(t)
		l := &recordedLookout{lacks: tt.lacks}
		g.room.AttachLookout(l)
		g.start()
		g.room.Enter(WatchRodeField, tt.rode)
		g.room.Enter(WatchDepthField, tt.depth)
		g.presses("watch-drop")
		if wrong := g.room.Watch.Form.Wrong; g.room.Watch.Running() || l.begun != 0 || !strings.Contains(wrong, tt.want) {
			t.Errorf("%+v: %q", tt, wrong)
		}
	}
}

func TestWatchBattery(t *testing.T) {
	g, l := anchoredRoom(t)
	for _, tt := range []struct {
		detail string
		alarm  bool
	}{
		{`{"watched":false}`, false}, {`{"watched":true,"level":0.15,"charging":false}`, false},
		{`{"watched":true,"level":0.14,"charging":true}`, false}, {`{"watched":true,"level":0.14,"charging":false}`, true},
	} {
		if g.lookout("battery", tt.detail); l.alarm != tt.alarm {
			t.Errorf("%s: alarm %v", tt.detail, l.alarm)
		}
	}
	if g.presses("watch-ack"); l.alarm {
		t.Error("acknowledged, it is heard")
	}
	for _, tt := range []struct {
		level float64
		alarm bool
	}{{0.13, false}, {0.09, true}, {0.08, true}} {
		if g.lookout("battery", fmt.Sprintf(`{"watched":true,"level":%v,"charging":false}`, tt.level)); l.alarm != tt.alarm {
			t.Errorf("%v: alarm %v", tt.level, l.alarm)
		}
	}
	for range 60 {
		g.hear(90, 120, 5, time.Second)
	}
	g.presses("watch-ack") // only dragging is shown
	if !l.alarm {
		t.Error("the battery was acknowledged though dragging was shown")
	}
	if g.presses("watch-ack"); l.alarm {
		t.Error("both were acknowledged")
	}
}

func TestWatchMoved(t *testing.T) {
	g, _ := anchoredRoom(t)
	g.room.Enter(WatchBearingField, "90")
	g.room.Enter(WatchDistanceField, "20")
	g.presses("watch-move")
	if d := geo.DistanceM(g.room.Watch.Watch.Anchor, geo.Direct(bay, 90, 20)); d > 0.1 {
		t.Errorf("the anchor lies %.1f m from where it was put", d)
	}
	g.room.Enter(WatchDistanceField, "far")
	if g.presses("watch-move"); g.room.Watch.Form.MoveWrong == "" {
		t.Error("no distance is taken for one")
	}
	g.room.Enter(WatchRodeField, "40")
	radius := g.room.Watch.Watch.RadiusM
	if g.presses("watch-relay"); g.room.Watch.Watch.RadiusM < radius+14 {
		t.Error("15 m more of rode leave the circle as it was")
	}
	var kept watch.Watch
	if err := json.Unmarshal([]byte(g.store.settings[settingWatch]), &kept); err != nil || kept.RadiusM != g.room.Watch.Watch.RadiusM {
		t.Errorf("what is kept lags behind: %v", err)
	}
}
