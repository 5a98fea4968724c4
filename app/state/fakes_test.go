package state

import (
	"errors"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	_ "time/tzdata"

	"github.com/paulmach/orb"

	"keelroom/app/engine"
	"keelroom/geo/layer"
	"keelroom/hazards"
	"keelroom/hazards/tide/stationdata"
)

// harness is a room on a real engine, with a store, a clock and views of its own.
type harness struct {
	t       *testing.T
	room    *Room
	service *engine.Service
	turns   chan func()
	pending sync.WaitGroup
	answers map[int]func(engine.Reply, map[string]Doc)
	next    int
	store   *memoryStore
	view    *recorder
	saved   map[string]string // files by name
	now     time.Time
	ids     int
	picks   []File
	onAsk   func(engine.Request)
	moves   chan engine.Reply // answers to the chart view
	seq     int
}

func newHarness(t *testing.T) *harness {
	t.Helper()
	g := &harness{t: t, turns: make(chan func(), 1000), moves: make(chan engine.Reply, 100), answers: map[int]func(engine.Reply, map[string]Doc){}, saved: map[string]string{},
		store: newMemoryStore(), view: &recorder{}, now: time.Date(2026, 7, 18, 8, 12, 0, 0, time.UTC)}
	g.startEngine()
	g.room = NewRoom(g, g.store, g, "test")
	g.room.Attach(g.view, blindStrip{})
	return g
}

func (g *harness) startEngine() {
	g.service = engine.New(g, func(path string) ([]byte, error) {
		if path == "stations.bin" {
			return stationdata.Bytes, nil
		}
		return nil, errors.New(path + " is away")
	})
	go g.service.Run()
	g.t.Cleanup(g.service.Stop)
}

// start begins as the screen does, and waits until nothing is left to do.
func (g *harness) start() *harness {
	g.t.Helper()
	g.room.Start()
	g.settle()
	return g
}

// settle runs turns until every request is answered.
func (g *harness) settle() {
	g.t.Helper()
	defer inStep(g.t, g.room)
	limit := time.After(time.Minute)
	for {
		select {
		case run := <-g.turns:
			g.room.Turn(run)
			continue
		default:
		}
		if len(g.answers) == 0 && len(g.turns) == 0 {
			return
		}
		select {
		case run := <-g.turns:
			g.room.Turn(run)
		case <-limit:
			g.t.Fatalf("%d requests have no answer after a minute", len(g.answers))
		}
	}
}

// Post takes the engine's replies.
func (g *harness) Post(a engine.Reply) {
	if a.Kind == engine.MovePoint {
		g.moves <- a
		return
	}
	g.turns <- func() {
		answer := g.answers[a.ID]
		if answer == nil {
			return
		}
		if a.State != engine.Progress {
			delete(g.answers, a.ID)
		}
		docs := map[string]Doc{}
		for name, text := range a.Texts {
			docs[name] = document(text)
		}
		if len(a.Drawing) > 0 {
			docs["draw"] = document(strings.Join(a.Drawing, ""))
		}
		for i, f := range a.Files {
			docs[FileDoc(i)] = Bytes(f.Data)
		}
		answer(a, docs)
	}
}

func (g *harness) Turn()  {}
func (g *harness) At(int) {}

func (g *harness) Ask(r engine.Request, answer func(engine.Reply, map[string]Doc)) (cancel func()) {
	g.next++
	r.ID = g.next
	g.answers[r.ID] = answer
	if g.onAsk != nil {
		g.onAsk(r)
	}
	g.service.Handle(r)
	return func() {
		g.Ask(engine.Request{Kind: engine.CancelRequest, Text: strconv.Itoa(r.ID)}, func(engine.Reply, map[string]Doc) {})
	}
}

func (g *harness) AskFile(r engine.Request, f File, answer func(engine.Reply, map[string]Doc)) (cancel func()) {
	r.Files = []layer.File{{Name: f.Name, Data: f.Data.Bytes()}}
	return g.Ask(r, answer)
}

func (g *harness) Now() time.Time { return g.now }
func (g *harness) NewID() string {
	g.ids++
	return "id" + string(rune('a'+g.ids))
}
func (g *harness) Zone() string                               { return "Etc/GMT+2" }
func (g *harness) Save(name, _, text string)                  { g.saved[name] = text }
func (g *harness) CanShare() bool                             { return false }
func (g *harness) Share(_, _, _, _ string, _ func(error))     {}
func (g *harness) Pick(_ bool, _ string, picked func([]File)) { picked(g.picks) }
func (g *harness) Print()                                     {}
func (g *harness) SetPalette(string)                          {}
func (g *harness) Persist(done func(bool))                    { done(true) }
func (g *harness) Reload()                                    {}
func (g *harness) StartIsOver()                               {}
func (g *harness) Reveal(string)                              {}
func (g *harness) Focus(string)                               {}

// After passes no time, but for the sheet for the printer.
func (g *harness) After(d time.Duration, run func()) {
	if d == sheetAfter {
		run()
	}
}

// Fetch reads the app's own files from the folder they are kept in.
func (g *harness) Fetch(path string, done func([]byte, error)) {
	if path == demoIndex {
		names, err := filepath.Glob("../../web/demo/chart/*.geojson")
		list := ""
		for i, name := range names {
			if i > 0 {
				list += ","
			}
			list += `"chart/` + filepath.Base(name) + `"`
		}
		done([]byte(`{"plan":"plan.geojson","chart":[`+list+`]}`), err)
		return
	}
	b, err := os.ReadFile(filepath.Join("..", "..", path))
	done(b, err)
}

// memoryStore keeps what a store keeps, and fails when it is told to.
type memoryStore struct {
	plans    map[string]SavedPlan
	sets     map[string]SavedSet
	settings map[string]string
	full     error
	dayOf    string
	day      map[string]Doc
}

func newMemoryStore() *memoryStore {
	return &memoryStore{map[string]SavedPlan{}, map[string]SavedSet{}, map[string]string{SettingCaution: "read", SettingHints: "gone"}, nil, "", nil}
}

func (m *memoryStore) Load(done func(Kept, error)) {
	k := Kept{Settings: map[string]string{}}
	for _, p := range m.plans {
		k.Plans = append(k.Plans, p.PlanHead)
	}
	for _, s := range m.sets {
		k.Sets = append(k.Sets, s)
	}
	for name, value := range m.settings {
		k.Settings[name] = value
	}
	done(k, nil)
}

func (m *memoryStore) Waits() string { return "" }

func (m *memoryStore) SavePlan(p SavedPlan, done func(error)) {
	old, there := m.plans[p.ID]
	switch {
	case m.full != nil:
		done(m.full)
	case there && old.Rev != p.Rev-1:
		done(ErrNewer)
	default:
		m.plans[p.ID] = p
		done(nil)
	}
}

func (m *memoryStore) Plan(id string, done func(SavedPlan, error)) {
	p, ok := m.plans[id]
	if !ok {
		done(p, errors.New("it is no longer kept on this device"))
		return
	}
	done(p, nil)
}

func (m *memoryStore) DeletePlan(id string, done func(error)) { delete(m.plans, id); done(m.full) }
func (m *memoryStore) SaveSet(s SavedSet, done func(error)) {
	old, there := m.sets[s.ID]
	switch {
	case m.full != nil:
		done(m.full)
	case there && old.Rev != s.Was:
		done(ErrNewer)
	default:
		m.sets[s.ID] = s
		done(nil)
	}
}
func (m *memoryStore) ArrangeSet(id string, hidden bool, order int, done func(error)) {
	if s, ok := m.sets[id]; ok {
		s.Hidden, s.Order = hidden, order
		m.sets[id] = s
	}
	done(m.full)
}
func (m *memoryStore) DeleteSet(id, was string, done func(error)) {
	if s, there := m.sets[id]; there && s.Rev != was {
		done(ErrNewer)
		return
	}
	delete(m.sets, id)
	done(m.full)
}
func (m *memoryStore) SaveSetting(name, value string, done func(error)) {
	m.settings[name] = value
	done(nil)
}
func (m *memoryStore) StoreDay(of string, docs map[string]Doc) { m.dayOf, m.day = of, docs }
func (m *memoryStore) LastDay(of string, done func(map[string]Doc)) {
	if of != m.dayOf {
		done(nil)
		return
	}
	done(m.day)
}

// slowStore keeps plans and sets only when it is let.
type slowStore struct {
	*memoryStore
	held []func()
}

func (s *slowStore) SavePlan(p SavedPlan, done func(error)) {
	s.held = append(s.held, func() { s.memoryStore.SavePlan(p, done) })
}

func (s *slowStore) SaveSet(set SavedSet, done func(error)) {
	s.held = append(s.held, func() { s.memoryStore.SaveSet(set, done) })
}

// next lets the oldest of what is held.
func (s *slowStore) next() {
	do := s.held[0]
	s.held = s.held[1:]
	do()
}

func (s *slowStore) let() {
	for len(s.held) > 0 {
		s.next()
	}
}

// recorder is a chart view that remembers what it was given.
type recorder struct {
	blindChart
	sets map[string]string
	plan string
	mode string

	private  string
	selected pointRef
	water    *hazards.Water
	place    *orb.Point
	watch    string
	lying    []orb.Point // the places to lie at

	planRev, chartRev int // that the engine was given
	followed          int // how often
}

func (v *recorder) Follow(planRev, chartRev int) {
	v.planRev, v.chartRev = planRev, chartRev
	v.followed++
}

func (v *recorder) SetWater(w *hazards.Water, _ []string) { v.water = w }
func (v *recorder) SetWatch(drawing string)               { v.watch = drawing }
func (v *recorder) MarkPlace(at *orb.Point)               { v.place = at }
func (v *recorder) MarkAnchorages(at []orb.Point)         { v.lying = at }

func (v *recorder) Select(feature, vertex int) { v.selected = pointRef{feature, vertex} }

func (v *recorder) SetSet(id string, draw Doc) {
	if v.sets == nil {
		v.sets = map[string]string{}
	}
	if draw == nil {
		delete(v.sets, id)
		return
	}
	v.sets[id] = draw.String()
}
func (v *recorder) SetPrivate(draw Doc) {
	if v.private = ""; draw != nil {
		v.private = draw.String()
	}
}
func (v *recorder) SetPlan(text string) { v.plan = text }
func (v *recorder) SetMode(mode string) { v.mode = mode }

// document is a Doc of the program's own.
type document string

func (t document) String() string { return string(t) }
