package app

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"

	"keelroom/app/engine"
	"keelroom/hazards/plan"
)

// text is what the whole screen shows.
func (g *ground) text() string {
	return plainText(ui.HTMLString(NewScreen(g.room, noViews{}).Render()))
}

// says gives a gesture to the room as the chart view would.
func (g *ground) says(kind string, detail any) {
	g.t.Helper()
	b, err := json.Marshal(detail)
	if err != nil {
		g.t.Fatal(err)
	}
	g.room.ChartSays(kind, b)
	g.settle()
}

func (g *ground) wants(texts ...string) {
	g.t.Helper()
	shown := g.text()
	for _, want := range texts {
		if !strings.Contains(shown, want) {
			g.t.Errorf("the screen does not show %q:\n%s", want, shown)
		}
	}
}

// feature finds a feature of the plan file by its role, from 0.
func (g *ground) feature(role string, n int) int {
	g.t.Helper()
	var file struct {
		Features []struct{ Properties struct{ Role string } }
	}
	if err := json.Unmarshal([]byte(g.room.open.Text), &file); err != nil {
		g.t.Fatal(err)
	}
	for i, f := range file.Features {
		if f.Properties.Role == role {
			if n == 0 {
				return i
			}
			n--
		}
	}
	g.t.Fatalf("the plan has no such %s", role)
	return -1
}

// The first opening shows the demo day, checked.
func TestFirstOpening(t *testing.T) {
	g := newGround(t).start()
	g.wants("INVENTED day: two bays in the lee", "Care is needed", "The demo waters are invented.", "A planning aid, not a chart.")
	if g.view.sets[demoSet] == "" || g.view.plan == "" {
		t.Error("the chart view has neither the demo chart nor the plan")
	}
	if len(g.store.plans) != 1 {
		t.Errorf("%d plans are kept, want the demo's", len(g.store.plans))
	}
}

// A waypoint dragged ashore makes the day not clear; undo takes it back, and
// redo brings it again; all of it is kept.
func TestDragUndoRedo(t *testing.T) {
	g := newGround(t).start()
	before := g.room.open.Text
	g.says("move", map[string]any{"feature": g.feature("route", 0), "vertex": 6, "lon": -36.02, "lat": 43.02})
	g.wants("Not clear: do not go as planned.")
	after := g.room.open.Text
	g.room.Do("undo", "")
	g.settle()
	g.wants("Care is needed")
	if g.room.open.Text != before {
		t.Error("undo gives another plan than the one before")
	}
	g.room.Do("redo", "")
	g.settle()
	g.wants("Not clear: do not go as planned.")
	kept := g.store.plans[g.room.open.ID]
	if kept.Text != after || len(kept.Past) != 1 || kept.Past[0] != before {
		t.Errorf("kept: %d earlier states, the newest is the plan on the screen: %v", len(kept.Past), kept.Text == after)
	}
}

// What is kept comes back, with its history.
func TestReload(t *testing.T) {
	g := newGround(t).start()
	g.room.Enter("title", "INVENTED other day")
	g.settle()
	again := newGround(t)
	again.store.plans, again.store.settings = g.store.plans, g.store.settings
	again.start().wants("INVENTED other day", "Care is needed")
	again.room.Do("undo", "")
	again.settle()
	again.wants("INVENTED day: two bays in the lee")
}

// A field that cannot be read keeps the plan, and says beside it what is wanted.
func TestFieldThatIsWrong(t *testing.T) {
	for _, test := range []struct{ tab, id, text, want string }{
		{tabBoat, "draught", "3 ft", "0.91"},
		{tabBoat, "draught", "deep", "deep"},
		{tabBoat, "draught", "-1", "-1"},
		{tabBoat, "burn", "22 48 3", "ine 1"},
		{tabDay, "zone", "Nowhere/At all", "Nowhere"},
		{tabDay, "depart", "25:00", "25:00"},
		{tabDay, "depart-day", "18.7.", "18.7."},
		{tabDay, "wind", "09:00 12", "ine 1"},
		{tabDay, "adjust", "1 ft", "0.3"},
		{tabRoute, "at-0-1", "somewhere", "type"},
	} {
		t.Run(test.id+" "+test.text, func(t *testing.T) {
			g := newGround(t).start()
			before := g.room.open.Text
			g.room.tab = test.tab
			g.room.Enter(test.id, test.text)
			g.settle()
			if g.room.open.Text != before {
				t.Error("the plan has changed")
			}
			wrong := g.room.typed[test.id].wrong
			if !strings.Contains(wrong, test.want) {
				t.Errorf("beside the field: %q, want it to name %q", wrong, test.want)
			}
			g.wants(strings.ReplaceAll(wrong, "\n", " "))
		})
	}
}

// Every field that a panel shows can be entered with what it shows, and that
// changes nothing.
func TestFieldsGiveBackWhatTheyShow(t *testing.T) {
	g := newGround(t).start()
	r := g.room
	for _, list := range [][]field{dayFields, boatFields, marginFields, chartFields, r.stayFields(), r.routeFields(), tideFields, weatherFields} {
		for _, f := range list {
			before := r.open.Text
			r.Enter(f.id, f.get(r.plan))
			if wrong, bad := r.typed[f.id]; bad {
				t.Errorf("%s does not take its own %q: %s", f.id, f.get(r.plan), wrong.wrong)
			}
			if sameExceptDefaults(before, r.open.Text) != nil {
				t.Errorf("%s: entering what it shows changes the plan: %v", f.id, sameExceptDefaults(before, r.open.Text))
			}
			r.open.Text = before
			if p, err := plan.DecodeDraft([]byte(before)); err == nil {
				r.plan = p
			}
		}
	}
}

// sameExceptDefaults compares what two plan files mean for the positions, which
// are typed with fewer decimals than they are kept with, and the boat.
func sameExceptDefaults(a, b string) error {
	x, err := plan.DecodeDraft([]byte(a))
	if err != nil {
		return err
	}
	y, err := plan.DecodeDraft([]byte(b))
	if err != nil {
		return err
	}
	if x.Boat.DraughtM != y.Boat.DraughtM || fmt.Sprint(x.Margins) != fmt.Sprint(y.Margins) {
		return errors.New("boat or margins differ")
	}
	if len(x.Parts) != len(y.Parts) || len(x.Wind) != len(y.Wind) || len(x.Swell) != len(y.Swell) {
		return errors.New("parts, wind or swell differ")
	}
	for i := range x.Wind {
		if x.Wind[i].FromDeg != y.Wind[i].FromDeg || x.Wind[i].Kn != y.Wind[i].Kn || !x.Wind[i].Time.Equal(y.Wind[i].Time) {
			return fmt.Errorf("wind %d differs", i)
		}
	}
	return nil
}

// A state that another tab has overtaken is kept as a plan of its own.
func TestStaleTab(t *testing.T) {
	g := newGround(t).start()
	id := g.room.open.ID
	other := g.store.plans[id]
	other.Rev, other.Title = other.Rev+1, "INVENTED by another tab"
	g.store.plans[id] = other
	g.room.Enter("title", "INVENTED here")
	g.settle()
	if g.store.plans[id].Title != "INVENTED by another tab" {
		t.Error("the other tab's state is lost")
	}
	g.wants("INVENTED here (copy from another tab)", "kept as a plan of its own")
	if len(g.store.plans) != 2 {
		t.Errorf("%d plans, want 2", len(g.store.plans))
	}
}

// A full device loses nothing that was saved, and the screen says so.
func TestNoRoomLeft(t *testing.T) {
	g := newGround(t).start()
	before := g.store.plans[g.room.open.ID]
	g.store.full = errors.New("there is no room left on this device.")
	g.room.Enter("title", "INVENTED unsaved")
	g.settle()
	g.wants("Not saved: there is no room left on this device.")
	if g.store.plans[before.ID].Text != before.Text {
		t.Error("the saved state is no longer whole")
	}
	g.store.full = nil
	g.room.Enter("title", "INVENTED saved again")
	g.settle()
	if g.store.plans[before.ID].Title != "INVENTED saved again" {
		t.Error("with room again it is still not saved")
	}
}

// A layer file that cannot be read leaves the layers that were there.
func TestRefusedLayer(t *testing.T) {
	g := newGround(t).start()
	g.room.OpenFiles([]File{{Name: "torn.geojson", Data: Bytes(`{"type":"FeatureCollection","features":[`)}})
	g.settle()
	g.wants("torn was refused as a whole", "Care is needed", "Refused:")
	if len(g.store.sets) != 0 {
		t.Error("a refused set is kept")
	}
	g.room.Do("set-remove", g.room.sets[len(g.room.sets)-1].ID)
	g.settle()
	g.wants("Care is needed")
}

// What is hidden is checked all the same; what is removed is not.
func TestHiddenIsChecked(t *testing.T) {
	g := newGround(t).start()
	g.room.Do("set-show", demoSet)
	g.settle()
	g.wants("Care is needed")
	g.room.Do("set-remove", demoSet)
	g.settle()
	g.wants("Not known to be clear")
	g.room.Do("demo-chart", "")
	g.settle()
	g.wants("Care is needed")
}

// A plan exported and opened elsewhere is the same plan.
func TestExportImport(t *testing.T) {
	g := newGround(t).start()
	g.room.Do("export-plan", "")
	if len(g.saved) != 1 {
		t.Fatalf("%d files are saved", len(g.saved))
	}
	for name, text := range g.saved {
		other := newGround(t).start()
		other.room.OpenFiles([]File{{Name: name, Data: Bytes(text)}})
		other.settle()
		other.room.Do("export-plan", "")
		if other.saved[name] != text {
			t.Error("the plan is another one")
		}
		if !strings.Contains(text, plan.CautionAid) {
			t.Error("the file carries no caution")
		}
		other.wants("opened as a plan of its own", "Care is needed")
	}
	g.room.OpenFiles([]File{{Name: "bad.geojson", Data: Bytes(`{"type":"FeatureCollection","plan":{"version":9},"features":[]}`)}})
	g.settle()
	g.wants("bad.geojson is a plan file that cannot be read", "version")
}

// A new day, from nothing: sketched, stayed at, and back again.
func TestNewDay(t *testing.T) {
	g := newGround(t).start()
	g.room.Do("plan-new", "")
	g.settle()
	g.wants("This day has no route yet.")
	g.says("sketch", map[string]any{"mode": "route", "coordinates": [][2]float64{{-36.0473380, 43.0086414}, {-36.0419420, 43.0010802}, {-36.0202352, 42.9824471}}})
	g.wants("Not known to be clear") // no tide and no wind were given
	g.room.Do("place-stay", "")
	g.settle()
	g.room.Do("way-back", "")
	g.settle()
	if n := len(g.room.plan.Parts); n != 3 {
		t.Fatalf("%d parts, want a route, a stay and a route", n)
	}
	for range 3 {
		g.room.Do("undo", "")
		g.settle()
	}
	g.wants("There is no route yet")
}

// A zone and a danger that are sketched travel in the plan and are checked.
func TestOwnZoneAndDanger(t *testing.T) {
	g := newGround(t).start()
	at := g.room.plan.Routes()[0].Points[6]
	g.says("sketch", map[string]any{"mode": "danger", "coordinates": [][2]float64{{at[0], at[1]}}})
	g.wants("The danger you sketched")
	g.room.Enter("draft-name", "INVENTED Post")
	g.room.Do("sketch-keep", "")
	g.settle()
	g.wants("Not clear: do not go as planned.", "INVENTED Post")
	g.room.Do("private-gone", "0")
	g.settle()
	g.wants("Care is needed")
	d := 0.004
	g.says("sketch", map[string]any{"mode": "zone", "coordinates": [][2]float64{{at[0] - d, at[1] - d}, {at[0] + d, at[1] - d}, {at[0] + d, at[1] + d}, {at[0] - d, at[1] + d}}})
	g.room.Do("sketch-keep", "")
	g.wants("would warn of nothing")
	g.room.Enter("draft-name", "INVENTED slow water")
	g.room.Enter("draft-limit", "6")
	g.room.Enter("draft-from", "05-01")
	g.room.Do("sketch-keep", "")
	g.wants("both ends of the season are wanted")
	g.room.Enter("draft-to", "09-30")
	g.room.Do("sketch-keep", "")
	g.settle()
	found := false
	for _, z := range g.room.day.Report.Zones {
		found = found || z.Name == "INVENTED slow water" && z.LimitKn != nil && *z.LimitKn == 6
	}
	if !found {
		t.Errorf("the zone is not in the report: %+v", g.room.day.Report.Zones)
	}
}

// A tide table is refused until its zone and its datum are chosen.
func TestTideTableAsks(t *testing.T) {
	g := newGround(t).start()
	g.room.tab = tabDay
	table := "2026-07-18 04:05 0.6\n2026-07-18 10:20 2.5\n2026-07-18 16:30 0.7\n2026-07-18 22:40 2.6"
	g.room.Enter("draft-tide", table)
	g.room.Do("tide-table", "")
	g.wants("Choose the zone that the times of the table are in")
	g.room.Enter("draft-tide-zone", "ut")
	g.room.Do("tide-table", "")
	g.wants("Choose what the heights are above")
	g.room.Enter("draft-tide-datum", "23")
	g.room.Do("tide-table", "")
	g.settle()
	events := g.room.plan.Tide.Events
	if len(events) != 4 || events[0].Time.UTC().Format("15:04") != "04:05" {
		t.Fatalf("the tide is %+v", g.room.plan.Tide)
	}
	g.wants("a table of four high and low waters")
}

// Another tab's newer state is shown.
func TestOtherTabChanged(t *testing.T) {
	g := newGround(t).start()
	kept := g.store.plans[g.room.open.ID]
	p, _ := plan.DecodeDraft([]byte(kept.Text))
	p.Title = "INVENTED elsewhere"
	b, err := plan.Encode(p)
	if err != nil {
		t.Fatal(err)
	}
	kept.Text, kept.Title, kept.Rev = string(b), p.Title, kept.Rev+1
	g.store.plans[kept.ID] = kept
	g.room.OtherTab(kept.ID, kept.Rev)
	g.settle()
	g.wants("INVENTED elsewhere", "Another tab changed this plan")
}

// An engine that stopped gets its charts again.
func TestEngineStartsAgain(t *testing.T) {
	g := newGround(t).start()
	g.room.EngineLost("of its own making")
	g.settle()
	g.wants("was started again", "Care is needed")
}

// A place that is pressed becomes the day's next aim; what is removed can be
// brought back.
func TestRouteToHereAndRemoval(t *testing.T) {
	g := newGround(t).start()
	parts := len(g.room.plan.Parts)
	g.says("press", map[string]any{"lon": -36.0473380, "lat": 43.0086414})
	g.room.Do("stay-here", "")
	g.settle()
	if n := len(g.room.plan.Parts); n <= parts {
		t.Fatalf("%d parts, there were %d: %v", n, parts, g.room.notices)
	}
	if last := g.room.plan.Parts[len(g.room.plan.Parts)-1]; last.Stay == nil {
		t.Error("the day does not end with the new stay")
	}
	g.room.Do("set-remove", demoSet)
	g.settle()
	g.wants("is removed: it is no longer checked.", "Bring it back")
	g.room.Do("notice-do", fmt.Sprint(g.room.notices[len(g.room.notices)-1].id))
	g.settle()
	if _, s := g.room.findSet(demoSet); s == nil {
		t.Error("the chart is not back")
	}
}

// Everything goes into one file and comes out of it elsewhere; what is there
// stays, and a torn archive changes nothing.
func TestArchive(t *testing.T) {
	g := newGround(t).start()
	g.room.Enter("title", "INVENTED kept")
	layer := `{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"objectClass":"UWTROC"},"geometry":{"type":"Point","coordinates":[-36.02,42.99]}}]}`
	g.room.OpenFiles([]File{{Name: "rock.geojson", Data: Bytes(layer)}})
	g.settle()
	g.room.Do("export-all", "")
	text := g.saved["Keelroom archive.json"]
	other := newGround(t).start()
	other.room.OpenFiles([]File{{Name: "torn.json", Data: Bytes(text[:len(text)-9])}})
	other.settle()
	other.wants("is an archive that cannot be read, and nothing was changed")
	plans, sets := len(other.store.plans), len(other.store.sets)
	other.room.OpenFiles([]File{{Name: "all.json", Data: Bytes(text)}})
	other.settle()
	if len(other.store.plans) != plans+1 || len(other.store.sets) != sets+1 {
		t.Fatalf("%d plans and %d sets are kept: %v", len(other.store.plans), len(other.store.sets), other.room.notices)
	}
	for _, p := range other.store.plans {
		if p.Title == "INVENTED kept" && len(p.Past) == 1 && p.Text == g.room.open.Text {
			return
		}
	}
	t.Error("the plan is not kept as it was, with its earlier state")
}

// slowStore answers only when it is let.
type slowStore struct {
	*memoryStore
	held []func()
}

func (s *slowStore) SavePlan(p SavedPlan, done func(error)) {
	s.held = append(s.held, func() { s.memoryStore.SavePlan(p, done) })
}

func (s *slowStore) let() {
	for len(s.held) > 0 {
		next := s.held[0]
		s.held = s.held[1:]
		next()
	}
}

// An edit that waits for a save belongs to its plan, whatever is opened
// meanwhile.
func TestSaveWhileAnotherPlanIsOpened(t *testing.T) {
	g := newGround(t).start()
	first := g.room.open.ID
	g.room.Do("plan-copy", "")
	g.settle()
	second := g.room.open.ID
	slow := &slowStore{memoryStore: g.store}
	g.room.store = slow
	g.room.Enter("title", "INVENTED one")
	g.room.Enter("title", "INVENTED two")
	g.room.Do("open-plan", first)
	g.settle()
	g.room.Enter("title", "INVENTED first plan")
	g.room.Do("open-plan", second)
	g.wants("INVENTED two") // not yet kept, and shown all the same
	slow.let()
	g.settle()
	if a, b := g.store.plans[first].Title, g.store.plans[second].Title; a != "INVENTED first plan" || b != "INVENTED two" {
		t.Errorf("kept: %q and %q", a, b)
	}
	g.room.Enter("title", "INVENTED three")
	slow.let()
	if got := g.store.plans[second]; got.Title != "INVENTED three" || len(g.store.plans) != 2 {
		t.Errorf("kept: %q among %d plans", got.Title, len(g.store.plans))
	}
}

// water records what the depths are coloured by.
type waterView struct {
	recorder
	water *Water
}

func (v *waterView) SetWater(w *Water, _ []string) { v.water = w }

// What cannot be checked has no coloured water, no findings and no departures.
func TestNothingOldStaysOnTheViews(t *testing.T) {
	g := newGround(t)
	view := &waterView{}
	g.room.chart = view
	g.start()
	if view.water == nil {
		t.Fatal("the demo's water is not coloured")
	}
	g.room.Do("plan-new", "")
	g.settle()
	if view.water != nil || g.room.day.Report != nil || len(g.room.ribbon.slots) > 0 {
		t.Error("a day that is not checked has the water of another")
	}
}

// A drag that ends where it began leaves the report of the plan as it is.
func TestDragBackAgain(t *testing.T) {
	g := newGround(t).start()
	feature := g.feature("route", 0)
	at := g.room.plan.Routes()[0].Points[6]
	g.says("drag", map[string]any{"feature": feature, "vertex": 6, "lon": -36.02, "lat": 43.02})
	g.wants("Not clear: do not go as planned.")
	g.says("move", map[string]any{"feature": feature, "vertex": 6, "lon": at[0], "lat": at[1]})
	g.wants("Care is needed")
	if len(g.room.open.Past) != 0 {
		t.Error("nothing was changed, and there is something to undo")
	}
}

// held lets a test hold the engine's requests of a kind back.
type held struct {
	*ground
	kind string
	kept []func()
}

func (h *held) Ask(r engine.Request, answer func(engine.Reply, map[string]Doc)) {
	if r.Kind == h.kind {
		h.kept = append(h.kept, func() { h.ground.Ask(r, answer) })
		return
	}
	h.ground.Ask(r, answer)
}

func (h *held) let() {
	for len(h.kept) > 0 {
		next := h.kept[0]
		h.kept = h.kept[1:]
		next()
	}
	h.settle()
}

// Between a change of plan or charts and its check, nothing is shown, printed or
// exported as current.
func TestNothingIsCurrentUntilChecked(t *testing.T) {
	for name, change := range map[string]func(r *Room){
		"draught": func(r *Room) { r.Enter("draught", "2.9") },
		"chart":   func(r *Room) { r.Do("set-remove", demoSet) },
	} {
		g := newGround(t).start()
		h := &held{ground: g, kind: engine.CheckPlan}
		g.room.engine = h
		change(g.room)
		g.settle()
		g.wants("being checked again", "not checked since the last change")
		g.room.Do("export-report", "")
		if len(g.saved) != 0 {
			t.Errorf("%s: the old report is exported", name)
		}
		h.let()
		if strings.Contains(g.text(), "being checked again") {
			t.Errorf("%s: still called unchecked", name)
		}
	}
}

// A set that is removed while it is read does not come back.
func TestRemovedWhileRead(t *testing.T) {
	g := newGround(t).start()
	h := &held{ground: g, kind: engine.PutSet}
	g.room.engine = h
	layer := `{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"objectClass":"UWTROC"},"geometry":{"type":"Point","coordinates":[-36.02,42.99]}}]}`
	g.room.OpenFiles([]File{{Name: "rock.geojson", Data: Bytes(layer)}})
	id := g.room.sets[1].ID
	g.room.Do("set-remove", id)
	h.let()
	if g.view.sets[id] != "" || len(g.store.sets) != 0 {
		t.Error("a removed chart is drawn or kept")
	}
}

// What could not be saved is kept in memory and saved once there is room,
// whatever was opened meanwhile.
func TestSavedOnceThereIsRoom(t *testing.T) {
	g := newGround(t).start()
	first := g.room.open.ID
	g.room.Do("plan-copy", "")
	g.settle()
	second := g.room.open.ID
	g.store.full = errors.New("there is no room left on this device.")
	g.room.Enter("title", "INVENTED unsaved")
	g.room.Do("open-plan", first)
	g.settle()
	g.store.full = nil
	g.room.Do("open-plan", second)
	g.settle()
	g.wants("INVENTED unsaved")
	g.room.Enter("title", "INVENTED saved")
	g.settle()
	if got := g.store.plans[second].Title; got != "INVENTED saved" {
		t.Errorf("kept: %q", got)
	}
}

// Each deletion has its own way back.
func TestTwoDeletions(t *testing.T) {
	g := newGround(t).start()
	for _, title := range []string{"INVENTED A", "INVENTED B"} {
		g.room.Do("plan-copy", "")
		g.room.Enter("title", title)
		g.settle()
	}
	b := g.room.open.ID
	g.room.Do("plan-delete", b)
	g.settle()
	a := g.room.open.ID
	g.room.Do("plan-delete", a)
	g.settle()
	g.room.Do("plan-back", a)
	g.settle()
	g.room.Do("plan-back", b)
	g.settle()
	titles := map[string]int{}
	for _, p := range g.store.plans {
		titles[p.Title]++
	}
	if titles["INVENTED A"] != 1 || titles["INVENTED B"] != 1 || len(g.store.plans) != 3 {
		t.Errorf("kept: %v", titles)
	}
}

// A station that was chosen for one plan is not put into another.
func TestStationOfAnotherPlan(t *testing.T) {
	g := newGround(t).start()
	h := &held{ground: g, kind: engine.OneStation}
	g.room.engine = h
	g.room.Do("station", "noaa/8443970")
	g.room.Do("plan-copy", "")
	g.settle()
	before := g.room.open.Text
	h.let()
	if g.room.open.Text != before {
		t.Error("the tide of another plan has changed")
	}
}

// A gauge's level is taken as it is read; the time to be back keeps its day.
func TestLevelAndBackBy(t *testing.T) {
	g := newGround(t).start()
	g.room.Enter("back-by", "2026-07-19 10:00")
	if got := g.room.typed["back-by"].wrong; got != "" || backText(g.room.plan) != "2026-07-19 10:00" {
		t.Errorf("back by %q: %s", backText(g.room.plan), got)
	}
	g.room.Enter("adjust", "0.5")
	g.room.Enter("draft-level", "0.2")
	g.room.Enter("draft-level-datum", "23")
	g.room.Do("tide-level", "")
	if a := g.room.plan.Tide; a.LevelM == nil || *a.LevelM != 0.2 || a.AdjustM != 0 {
		t.Errorf("the tide is %+v", a)
	}
}

// A dropped sketch leaves nothing in the next one's form, and a table that is
// being typed stays.
func TestDraftsStayApart(t *testing.T) {
	g := newGround(t).start()
	g.room.Enter("draft-tide", "2026-07-18 03:12 0.4")
	for range 2 {
		g.says("sketch", map[string]any{"mode": "danger", "coordinates": [][2]float64{{-36.03, 43.0}}})
		if d := g.room.drafted("draft-depth"); d != "" {
			t.Errorf("the depth of the danger before, %q", d)
		}
		g.room.Enter("draft-depth", "12")
		g.room.Do("sketch-drop", "")
	}
	if g.room.drafted("draft-tide") == "" {
		t.Error("the tide table is gone")
	}
}

// Files from elsewhere are not opened unasked.
func TestSharedAsks(t *testing.T) {
	g := newGround(t).start()
	layer := `{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"objectClass":"UWTROC"},"geometry":{"type":"Point","coordinates":[-36.02,42.99]}}]}`
	g.room.Shared([]File{{Name: "rock.geojson", Data: Bytes(layer)}})
	g.settle()
	if len(g.room.sets) != 1 {
		t.Error("it is opened unasked")
	}
	g.wants("Open it only if you sent it yourself", "Open it")
	g.room.Do("notice-do", fmt.Sprint(g.room.notices[len(g.room.notices)-1].id))
	g.settle()
	if len(g.room.sets) != 2 {
		t.Error("it is not opened")
	}
}

// What is sketched is drawn also while the plan is not complete.
func TestSketchedDangerIsDrawnAtOnce(t *testing.T) {
	g := newGround(t).start()
	g.room.Do("plan-new", "")
	g.settle()
	g.says("sketch", map[string]any{"mode": "danger", "coordinates": [][2]float64{{-36.03, 43.0}}})
	g.room.Do("sketch-keep", "")
	g.settle()
	if g.room.day.Report != nil || !strings.Contains(g.view.private, "OBSTRN") && !strings.Contains(g.view.private, "UWTROC") {
		t.Errorf("drawn: %q", g.view.private)
	}
}
