package state

import (
	"errors"
	"strings"
	"testing"

	"keelroom/app/engine"
)

// A plan that was deleted and comes back from an archive is a plan of its own, and is
// kept like any other.
func TestDeletedPlanBackFromAnArchive(t *testing.T) {
	g := newHarness(t).start()
	g.room.Enter("title", "INVENTED back again")
	g.settle()
	g.room.Do("export-all", "")
	archive := File{Name: "all.json", Data: Bytes(g.saved["Keelroom archive.json"])}
	g.room.Do("plan-delete", g.room.History.Open.ID)
	g.settle()
	g.room.Files.Open([]File{archive})
	g.settle()
	for _, h := range g.room.Keeper.List {
		if h.Title == "INVENTED back again" {
			g.room.Do("open-plan", h.ID)
		}
	}
	g.settle()
	g.wants("INVENTED back again")
	g.room.Enter("title", "INVENTED changed after that")
	g.settle()
	if got := g.store.plans[g.room.History.Open.ID].Title; got != "INVENTED changed after that" {
		t.Errorf("kept is %q, and the screen says %q", got, g.room.Keeper.Status())
	}
}

// Of a plan that is deleted nothing is saved, so it is not called saved.
func TestDeletedPlanIsNotCalledSaved(t *testing.T) {
	g := newHarness(t).start()
	g.room.Keeper.Save.Gone = map[string]bool{g.room.History.Open.ID: true}
	if got := g.room.Keeper.Status(); got != "Not saved" {
		t.Errorf("the plan that is deleted is called %q", got)
	}
}

// fullAfter is a store that refuses plans after so many.
type fullAfter struct {
	*memoryStore
	room  int
	why   error
	asked int
}

func (s *fullAfter) SavePlan(p SavedPlan, done func(error)) {
	if s.asked++; s.asked > s.room {
		done(s.why)
		return
	}
	s.memoryStore.SavePlan(p, done)
}

// Plans of an archive that could not be kept are not counted as taken in; without room
// no more are tried.
func TestArchiveThatDoesNotFit(t *testing.T) {
	g := newHarness(t).start()
	full := &fullAfter{memoryStore: g.store, room: 40, why: ErrNoRoom}
	g.room.Ports.store = full
	g.room.Files.Open([]File{manyPlans(g, 500)})
	g.settle()
	g.wants("all.json: 460 of 500 plans and charts could not be kept: there is no room left on this device.", "40 plans are taken in")
	if full.asked != 41 {
		t.Errorf("%d plans were tried, want 40 and the first without room", full.asked)
	}
}

// Another failure ends only the plan that it hits, and is counted.
func TestArchiveOfWhichSomeIsRefused(t *testing.T) {
	g := newHarness(t).start()
	g.room.Ports.store = &fullAfter{memoryStore: g.store, room: 3, why: errors.New("the device refused.")}
	g.room.Files.Open([]File{manyPlans(g, 5)})
	g.settle()
	g.wants("all.json: 2 of 5 plans and charts could not be kept: the device refused.", "three plans are taken in", "INVENTED day 3")
}

// What of an archive arrives after the stop is not kept.
func TestNothingIsTakenInAfterTheStop(t *testing.T) {
	g := newHarness(t).start()
	text, before := g.room.History.Open.Text, len(g.store.plans)
	slow := &slowStore{memoryStore: g.store}
	g.room.Ports.store = slow
	slice := func(n int) *engine.OpenBody {
		body := &engine.OpenBody{What: engine.IsArchive}
		for range n {
			body.Plans = append(body.Plans, engine.OpenedPlan{Title: "INVENTED", ArchivedPlan: engine.ArchivedPlan{Plan: text}})
		}
		return body
	}
	taking := &intake{name: "all.json", stop: func() {}}
	g.room.Files.receive(taking, engine.Reply{Total: 80}, slice(60), nil)
	for range progressEvery {
		slow.next()
	}
	g.room.Do("taking-stop", "all.json")
	g.room.Files.receive(taking, engine.Reply{Total: 80}, slice(20), nil) // it was on its way
	slow.let()
	taking.whole = true
	g.room.Files.keepNext(taking)
	if n := len(g.store.plans) - before; n > progressEvery+1 {
		t.Errorf("%d plans are kept, though the stop came after %d", n, progressEvery)
	}
	if strings.Contains(g.text(), "being opened") {
		t.Error("the archive is said to be taken in")
	}
}
