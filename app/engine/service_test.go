package engine

import (
	"archive/zip"
	"bytes"
	"errors"
	"path/filepath"
	"strings"
	"testing"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/hazards"
	"keelroom/hazards/words"
	"keelroom/testdata/beside"
)

// demoService has the demo's chart.
func demoService(t testing.TB, h *fakeHost) *Service {
	t.Helper()
	s := start(t, h)
	s.Handle(Request{ID: 1, Kind: PutSet, Set: "demo", Name: "The demo", ChartRev: 1, Files: demoFiles(t)})
	if r := h.end(t, 1); r.State != Done {
		t.Fatal(r.Words)
	}
	return s
}

func TestPutSet(t *testing.T) {
	h := newHost()
	s := demoService(t, h)
	r := h.end(t, 1)
	info := body[SetInfo](t, r)
	set := decodeFiles(t, demoFiles(t))
	if info.ID != "demo" || info.Name != "The demo" || info.Title != set.Title || info.Features != len(set.Features) ||
		info.Datum != 23 || info.DatumName != "lowest astronomical tide" || r.ChartRev != 1 || info.Bounds == nil {
		t.Errorf("%+v", info)
	}
	if strings.Join(r.Drawing, "") != strings.Join(Draw("demo", set, nil), "") {
		t.Error("the drawing is not that of the set")
	}
	// A refused file leaves the old set, and the check goes by it.
	s.Handle(Request{ID: 2, Kind: CheckPlan, Plan: demoPlan(t)})
	before := h.end(t, 2).Texts["report"]
	s.Handle(Request{ID: 3, Kind: PutSet, Set: "demo", ChartRev: 2, Files: []layer.File{{Name: "broken.geojson", Data: []byte(`{"type":"FeatureCollection",`)}}})
	r = h.end(t, 3)
	if m := body[SetInfo](t, r).Messages; r.State != Failed || len(m) == 0 || m[0].Level != "file" || m[0].Code != "E-JSON" || r.Words == "" {
		t.Errorf("a broken file: %s %q %+v", r.State, r.Words, m)
	}
	s.Handle(Request{ID: 4, Kind: CheckPlan, Plan: demoPlan(t)})
	if after := h.end(t, 4).Texts["report"]; after != before {
		t.Error("a refused file changed the chart")
	}
	s.Handle(Request{ID: 5, Kind: DropSet, Set: "demo"})
	s.Handle(Request{ID: 6, Kind: CheckPlan, Plan: demoPlan(t)})
	if got := body[CheckBody](t, h.end(t, 6)); got.Verdict != "not-clear" && got.Verdict != "no-data" {
		t.Errorf("without a chart the day is %s", got.Verdict)
	}
	s.Handle(Request{ID: 7, Kind: DropSet, Set: "none"})
	if r := h.end(t, 7); r.State != Done {
		t.Errorf("dropping a set that is not there: %s", r.State)
	}
}

// The report of the service is hazards.Check's, byte for byte: over two sets, in
// their order of arrival, with the hints that only the others give.
func TestCheckIsTheReport(t *testing.T) {
	h := newHost()
	s := demoService(t, h)
	sketch := []layer.File{{Name: "sketch.geojson", Data: []byte(`{"type":"FeatureCollection","layer":{"title":"INVENTED sketch"},"features":[
		{"type":"Feature","properties":{"OBJL":86,"VALSOU":0.5},"geometry":{"type":"Point","coordinates":[43.0008,-36.0216]}}]}`)}}
	s.Handle(Request{ID: 2, Kind: PutSet, Set: "own", Files: sketch})
	s.Handle(Request{ID: 3, Kind: CheckPlan, Plan: demoPlan(t), PlanRev: 7, ChartRev: 2})
	r := h.end(t, 3)
	sets := []*chart.Set{decodeFiles(t, demoFiles(t)), decodeFiles(t, sketch)}
	layer.AddSwapHints(sets)
	p := planOf(t, demoPlan(t))
	want, err := hazards.Check(chart.New(sets...), p)
	if err != nil {
		t.Fatal(err)
	}
	words.English.Fill(want, p.Zone)
	if r.State != Done || r.Texts["report"] != string(want.Encode(p.Zone)) || r.PlanRev != 7 || r.ChartRev != 2 {
		t.Errorf("%s %s, the report differs: %v", r.State, r.Words, r.Texts["report"] != string(want.Encode(p.Zone)))
	}
	if !strings.Contains(r.Texts["report"], "W-COORD") {
		t.Error("the hint at swapped coordinates is missing")
	}
	if !strings.Contains(r.Texts["private"], `"features":[`) || body[CheckBody](t, r).Verdict != want.Verdict.String() {
		t.Errorf("%s", r.Body)
	}
}

func TestIncompletePlan(t *testing.T) {
	h := newHost()
	s := start(t, h)
	s.Handle(Request{ID: 1, Kind: CheckPlan, Plan: `{"type":"FeatureCollection","plan":{"version":1},"features":[]}`})
	r := h.end(t, 1)
	b := body[ProblemsBody](t, r)
	paths := []string{}
	for _, p := range b.Problems {
		paths = append(paths, p.Path)
	}
	if r.State != Failed || !strings.Contains(strings.Join(paths, " "), "plan.time_zone") || b.Problems[0].Want == "" || r.Words == "" {
		t.Errorf("%s %q %+v", r.State, r.Words, b)
	}
	s.Handle(Request{ID: 2, Kind: Ribbon, Plan: `{`})
	if r := h.end(t, 2); r.State != Failed {
		t.Errorf("a ribbon of no plan: %s", r.State)
	}
	s.Handle(Request{ID: 3, Kind: "nonsense"})
	if r := h.end(t, 3); r.State != Failed || !strings.Contains(r.Words, "nonsense") {
		t.Errorf("%s %q", r.State, r.Words)
	}
}

// A mistake within ends one request, and the service goes on.
func TestPanicIsAReply(t *testing.T) {
	h := newHost()
	s := demoService(t, h)
	turns := 0
	h.watch(func(r Reply) {
		if r.ID == 2 && r.State == Progress {
			turns++
			panic("a mistake")
		}
	})
	s.Handle(Request{ID: 2, Kind: PutSet, Set: "x", Files: demoFiles(t)})
	if r := h.end(t, 2); r.State != Failed || !strings.Contains(r.Words, "a mistake") || turns != 1 {
		t.Errorf("%s %q", r.State, r.Words)
	}
	s.Handle(Request{ID: 3, Kind: CheckPlan, Plan: demoPlan(t)})
	if r := h.end(t, 3); r.State != Done {
		t.Errorf("after a mistake: %s %s", r.State, r.Words)
	}
}

// The newest of a kind wins, sets keep their order and are never left out, a
// check goes before the ribbon, and the ribbon goes on after it.
func TestOrder(t *testing.T) {
	h := newHost()
	s := demoService(t, h)
	done := make(chan bool)
	asked := false
	h.watch(func(r Reply) {
		switch {
		case r.ID == 2 && r.State == Progress && !asked:
			// In the midst of the ribbon, as the event loop would: what comes
			// now is queued.
			asked = true
			for id := 3; id <= 5; id++ {
				s.Handle(Request{ID: id, Kind: CheckPlan, Plan: demoPlan(t), PlanRev: id})
			}
		case r.ID == 2 && r.State != Progress:
			close(done)
		}
	})
	s.Handle(Request{ID: 2, Kind: Ribbon, Plan: demoPlan(t)})
	<-done
	var order []string
	for _, r := range h.all() {
		if r.State != Progress && r.ID > 1 {
			order = append(order, r.Kind+" "+r.State)
		}
	}
	want := "check cancelled, check cancelled, check done, ribbon done"
	if got := strings.Join(order, ", "); got != want {
		t.Errorf("%s; want %s", got, want)
	}
	if n := len(body[RibbonBody](t, h.end(t, 2)).Slots); n != 144 {
		t.Errorf("%d slots in an interrupted ribbon", n)
	}
}

// The kinds that take several departures to show: a set that changes ends a
// ribbon, a refused one does not.
func TestRibbonAndSets(t *testing.T) {
	for _, c := range []struct {
		files []layer.File
		want  string
	}{{demoFiles(t), Cancelled}, {nil, Done}} {
		h := newHost()
		s := demoService(t, h)
		asked := false
		h.watch(func(r Reply) {
			if r.ID == 2 && r.State == Progress && !asked {
				asked = true
				s.Handle(Request{ID: 3, Kind: PutSet, Set: "more", Files: c.files})
			}
		})
		s.Handle(Request{ID: 2, Kind: Ribbon, Plan: demoPlan(t)})
		if r := h.end(t, 2); r.State != c.want {
			t.Errorf("%d files: the ribbon is %s, want %s", len(c.files), r.State, c.want)
		}
	}
}

func TestCancel(t *testing.T) {
	h := newHost()
	s := demoService(t, h)
	h.watch(func(r Reply) {
		if r.ID == 2 && r.State == Progress {
			s.Handle(Request{ID: 3, Kind: CancelRequest, Text: "2"})
		}
	})
	s.Handle(Request{ID: 2, Kind: Ribbon, Plan: demoPlan(t)})
	if r := h.end(t, 2); r.State != Cancelled {
		t.Errorf("cancelled by hand: %s", r.State)
	}
	if r := h.end(t, 3); r.State != Done {
		t.Errorf("the cancelling: %s", r.State)
	}
	// A set that waits is not cancelled, a check that waits is.
	asked := false
	h.watch(func(r Reply) {
		if r.ID == 4 && !asked {
			asked = true
			s.Handle(Request{ID: 5, Kind: PutSet, Set: "x"})
			s.Handle(Request{ID: 6, Kind: CheckPlan, Plan: demoPlan(t)})
			s.Handle(Request{ID: 7, Kind: CancelRequest, Text: "5"})
			s.Handle(Request{ID: 8, Kind: CancelRequest, Text: "6"})
		}
	})
	s.Handle(Request{ID: 4, Kind: Ribbon, Plan: demoPlan(t)})
	for id, want := range map[int]string{4: Done, 5: Failed, 6: Cancelled, 7: Done, 8: Done} {
		if r := h.end(t, id); r.State != want {
			t.Errorf("request %d is %s, want %s", id, r.State, want)
		}
	}
}

// The event loop gets its turn while a large chart is read and put together and
// a long check runs.
func TestTurns(t *testing.T) {
	files := folder(t, beside.File(t, "charts", "US5MA12M", "geojson"))
	h := newHost()
	s := start(t, h)
	s.Handle(Request{ID: 1, Kind: PutSet, Set: "cell", Files: files})
	h.end(t, 1)
	put := h.turns
	s.Handle(Request{ID: 2, Kind: Ribbon, Plan: string(readFile(t, filepath.Join(beside.Root(t), "testdata", "plans", "roads-day.geojson")))})
	if r := h.end(t, 2); r.State != Done {
		t.Fatal(r.Words)
	}
	if put < 5 || h.turns-put < 5 {
		t.Errorf("%d turns while reading, %d in a ribbon", put, h.turns-put)
	}
	t.Logf("%d turns while reading, %d in a ribbon", put, h.turns-put)
}

// The list of stations is fetched once, while other requests are answered; one
// that cannot be fetched is said so and asked for again.
func TestStationsWait(t *testing.T) {
	h := newHost()
	release := make(chan error)
	fetched := 0
	s := New(h, func(string) ([]byte, error) { fetched++; return nil, <-release })
	go s.Run()
	t.Cleanup(s.Stop)
	s.Handle(Request{ID: 1, Kind: FindStations, Text: "boston"})
	s.Handle(Request{ID: 2, Kind: OneStation, Text: "noaa/8443970"})
	s.Handle(Request{ID: 3, Kind: CheckPlan, Plan: demoPlan(t)})
	if r := h.end(t, 3); r.State != Done {
		t.Errorf("a check while a file is fetched: %s %s", r.State, r.Words)
	}
	s.Handle(Request{ID: 4, Kind: FindStations, Text: "newlyn"})
	if r := h.end(t, 1); r.State != Cancelled {
		t.Errorf("an older search: %s", r.State)
	}
	s.Handle(Request{ID: 5, Kind: CancelRequest, Text: "0"})
	h.end(t, 5)
	release <- errors.New("no network")
	for _, id := range []int{2, 4} {
		if r := h.end(t, id); r.State != Failed || !strings.Contains(r.Words, "no network") {
			t.Errorf("request %d without the list: %s %q", id, r.State, r.Words)
		}
	}
	if fetched != 1 {
		t.Errorf("fetched %d times", fetched)
	}
}

// Unpacking tells how far it is, and can be stopped; what was open stays.
func TestUnpackingIsStopped(t *testing.T) {
	var packed bytes.Buffer
	z := zip.NewWriter(&packed)
	w, err := z.Create("XX5INVNT.000")
	if err == nil {
		_, err = w.Write(make([]byte, 60<<20))
	}
	if err != nil || z.Close() != nil {
		t.Fatal(err)
	}
	h := newHost()
	s := start(t, h)
	h.watch(func(r Reply) {
		if r.ID == 1 && r.State == Progress && strings.HasPrefix(r.Words, "Unpacking") {
			s.Handle(Request{ID: 2, Kind: CancelRequest, Text: "1"})
		}
	})
	s.Handle(Request{ID: 1, Kind: SortFiles, Files: []layer.File{{Name: "set.zip", Data: packed.Bytes()}}})
	if r := h.end(t, 1); r.State != Cancelled {
		t.Errorf("%s %q, want it cancelled", r.State, r.Words)
	}
	if r := h.end(t, 2); r.State != Done {
		t.Errorf("the stop itself: %s %q", r.State, r.Words)
	}
}
