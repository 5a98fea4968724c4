package state

import (
	"errors"
	"strings"
	"testing"
	"time"
)

// lateStore gives what is kept only when it is let.
type lateStore struct {
	*memoryStore
	held  []func()
	waits string
}

func (s *lateStore) Load(done func(Kept, error)) {
	s.held = append(s.held, func() { s.memoryStore.Load(done) })
}

func (s *lateStore) Plan(id string, done func(SavedPlan, error)) {
	s.held = append(s.held, func() { s.memoryStore.Plan(id, done) })
}

func (s *lateStore) Waits() string { return s.waits }

func (s *lateStore) let() {
	for len(s.held) > 0 {
		do := s.held[0]
		s.held = s.held[1:]
		do()
	}
}

// clockwork is a device on which time passes when it is told to, and which does
// not promise to keep anything.
type clockwork struct {
	*harness
	later   []func()
	reloads int
}

func (c *clockwork) After(_ time.Duration, run func()) { c.later = append(c.later, run) }
func (c *clockwork) Reload()                           { c.reloads++ }
func (c *clockwork) Persist(done func(bool))           { done(false) }

// pass lets all the time pass that anything waits for.
func (c *clockwork) pass() {
	for len(c.later) > 0 {
		run := c.later[0]
		c.later = c.later[1:]
		run()
	}
}

// lateGround is a room on a device that has a plan, whose store is held.
func lateGround(t *testing.T) (*harness, *lateStore, *clockwork) {
	t.Helper()
	before := newHarness(t).start()
	g := newHarness(t)
	g.ids = 9 // names that are not given yet
	g.store.plans, g.store.settings = before.store.plans, before.store.settings
	late, device := &lateStore{memoryStore: g.store}, &clockwork{harness: g}
	g.room.Ports.store, g.room.Ports.Device = late, device
	g.room.Start()
	return g, late, device
}

// What is done before the store is read is done to the plan that opens: it is not
// lost, and nothing that was kept is overwritten.
func TestEditsBeforeTheStoreIsRead(t *testing.T) {
	g, late, _ := lateGround(t)
	var id, text string
	for key, p := range late.plans {
		id, text = key, p.Text
	}
	g.room.Enter("draught", "1.37")
	g.room.Enter("palette", "night")
	g.room.Do("undo", "")
	g.room.Do("redo", "")
	g.says("press", map[string]any{"lon": -36.03, "lat": 42.99})
	if len(late.plans) != 1 || late.plans[id].Text != text {
		t.Fatal("something is saved before it is known what is kept")
	}
	late.let()
	g.settle()
	if g.room.History.Open.ID != id || !strings.Contains(g.room.History.Open.Text, `"draught_m":1.37`) {
		t.Errorf("the plan %s is open, with the edit: %v", g.room.History.Open.ID, strings.Contains(g.room.History.Open.Text, `"draught_m":1.37`))
	}
	kept := late.plans[id]
	if len(late.plans) != 1 || len(kept.Past) != 1 || kept.Past[0] != text || kept.Text != g.room.History.Open.Text {
		t.Errorf("%d plans are kept, the plan with %d earlier states", len(late.plans), len(kept.Past))
	}
	if g.room.Settings.Values[SettingPalette] != "night" || late.settings[SettingPalette] != "night" {
		t.Error("the choice of colours is lost")
	}
}

// A file that is dropped and a day that is begun before the store is read are
// plans of their own, in the list, beside what was kept.
func TestPlansBeforeTheStoreIsRead(t *testing.T) {
	g, late, _ := lateGround(t)
	file := File{Name: "dropped.geojson", Data: Bytes(planOf(t, late.memoryStore, "INVENTED dropped"))}
	g.room.Files.Open([]File{file})
	g.room.Do("plan-new", "")
	late.let()
	g.settle()
	g.room.Do("tab", TabPlans)
	g.wants("INVENTED dropped", "INVENTED day: two bays in the lee", "A day afloat")
	if len(late.plans) != 3 || len(g.room.Keeper.List) != 3 {
		t.Errorf("%d plans are kept and %d listed, want 3", len(late.plans), len(g.room.Keeper.List))
	}
}

// planOf is the text of the one plan that is kept, with another title.
func planOf(t *testing.T, s *memoryStore, title string) string {
	t.Helper()
	for _, p := range s.plans {
		return changed(t, p.Text, "INVENTED day: two bays in the lee", title)
	}
	t.Fatal("no plan is kept")
	return ""
}

func changed(t *testing.T, text, old, now string) string {
	t.Helper()
	if !strings.Contains(text, old) {
		t.Fatalf("no %q in the text to change", old)
	}
	return strings.Replace(text, old, now, 1)
}

// A store that never answers is told, with what to do; when it answers after all,
// the message goes and everything is there.
func TestStoreThatDoesNotAnswer(t *testing.T) {
	g, late, device := lateGround(t)
	g.wants("Opening what was kept.")
	late.waits = "An older Keelroom is open in another tab or window, and has to be closed first."
	device.pass()
	g.wants("The device has not opened what is kept on it.", "Close other tabs and windows", late.waits)
	g.room.Do("notice-do", "1")
	if device.reloads != 1 {
		t.Errorf("loaded again %d times, want once", device.reloads)
	}
	g, late, device = lateGround(t)
	device.pass()
	late.let()
	g.settle()
	g.wants("INVENTED day: two bays in the lee", "Care is needed")
	if strings.Contains(g.text(), "has not opened what is kept") {
		t.Error("the message stays though the store has answered")
	}
}

// Until the store has acknowledged an edit, that is in sight; so is a store that
// does not, and a device that has promised nothing.
func TestSavingIsInSight(t *testing.T) {
	g := newHarness(t).start()
	slow, device := &slowStore{memoryStore: g.store}, &clockwork{harness: g}
	g.room.Ports.store, g.room.Ports.Device = slow, device
	if got := g.room.Keeper.Status(); got != "Saved" {
		t.Errorf("before an edit: %q", got)
	}
	g.room.Enter("draught", "1.1")
	g.settle()
	if got := g.room.Keeper.Status(); got != "Saving" || !strings.Contains(g.text(), "Saving") {
		t.Errorf("an edit that is not acknowledged: %q", got)
	}
	device.pass()
	g.wants("The device has not saved the last change yet.", "Export this plan to a file")
	if strings.Contains(g.text(), "Load again") {
		t.Error("loading again is offered, which would lose the change")
	}
	slow.let()
	g.settle()
	if got := g.room.Keeper.Status(); got != "Saved for now" {
		t.Errorf("acknowledged by a device that promised nothing: %q", got)
	}
	if strings.Contains(g.text(), "has not saved the last change") {
		t.Error("the message stays though the change is saved")
	}
	g.room.Do("tab", TabPlans)
	g.wants("Saved on this device, with one earlier state.", "This browser has not promised to keep it")
	g.store.full = ErrNoRoom
	g.room.Enter("draught", "1.2")
	slow.let()
	if got := g.room.Keeper.Status(); got != "Not saved" {
		t.Errorf("not saved: %q", got)
	}
}

// What helps depends on what is wrong: room helps where there is none, and nothing
// but the newest version helps a page that a newer one has overtaken.
func TestWhatHelpsWhenNotSaved(t *testing.T) {
	for _, test := range []struct {
		err       error
		want, not string
	}{
		{ErrNoRoom, "there is no room left on this device. What was saved before is whole. Export this plan to a file, or make room on the device.", "load this page again"},
		{ErrOvertaken, "Export this plan to a file, then load this page again.", "make room"},
		{errors.New("the device refused"), "the device refused. What was saved before is whole. Export this plan to a file.", "make room"},
	} {
		g := newHarness(t).start()
		g.store.full = test.err
		g.room.Enter("draught", "1.1")
		g.settle()
		if !strings.Contains(g.text(), test.want) || strings.Contains(g.text(), test.not) {
			t.Errorf("%v: the screen shows %s", test.err, g.text())
		}
	}
	g := newHarness(t).start()
	g.room.Overtaken()
	g.wants("From now on nothing is saved here", "then load this page again")
}

// A store that lists the plans but never gives the one that was open is told like one
// that does not answer; what needs no plan is done meanwhile.
func TestPlanThatIsNeverGiven(t *testing.T) {
	g, late, device := lateGround(t)
	delete(late.settings, SettingCaution)
	delete(late.settings, SettingHints)
	g.room.Do("understood", "") // before the list is there
	load := late.held[0]
	late.held = nil
	load()
	if !g.room.Startup.Ready || g.room.Startup.Started || len(late.held) != 1 {
		t.Fatal("the list is not read, or the plan is open")
	}
	if late.settings[SettingCaution] != "read" {
		t.Error("what was understood before the list was read is not noted once it is")
	}
	g.room.Do("hints-gone", "")
	g.room.Enter("palette", "night")
	if late.settings[SettingHints] != "gone" || g.room.Settings.Values[SettingPalette] != "night" {
		t.Errorf("hints %q, colours %q", late.settings[SettingHints], g.room.Settings.Values[SettingPalette])
	}
	device.pass()
	g.wants("The device has not opened what is kept on it.", "Load again")
	late.let()
	g.settle()
	g.wants("INVENTED day: two bays in the lee", "Care is needed")
	if strings.Contains(g.text(), "has not opened what is kept") {
		t.Error("the message stays though the plan is open")
	}
}

// Another plan that is asked for and never given is told too. Loading again is not
// offered, as there is a plan open that could have a change.
func TestOtherPlanThatIsNeverGiven(t *testing.T) {
	g := newHarness(t).start()
	first := g.room.History.Open.ID
	g.room.Do("plan-copy", "")
	g.settle()
	late, device := &lateStore{memoryStore: g.store}, &clockwork{harness: g}
	g.room.Ports.store, g.room.Ports.Device = late, device
	g.room.Do("open-plan", first)
	device.pass()
	g.wants("The device has not opened this plan yet; the one on the screen is still the one before.")
	if strings.Contains(g.text(), "Load again") {
		t.Error("loading again is offered")
	}
	late.let()
	g.settle()
	if g.room.History.Open.ID != first || strings.Contains(g.text(), "has not opened this plan") {
		t.Error("the plan is not open, or the message stays")
	}
}
