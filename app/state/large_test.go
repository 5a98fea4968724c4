package state

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"keelroom/app/engine"
)

// sealed is a file of so many bytes that must not be read on the screen's turn.
type sealed struct {
	t    *testing.T
	head string
	size int
}

func (s sealed) Bytes() []byte     { s.t.Error("the file is read"); return nil }
func (s sealed) Size() int         { return s.size }
func (s sealed) Head(n int) []byte { return []byte(s.head[:min(n, len(s.head))]) }

// A layer that is larger than any may be is refused by its size, unread.
func TestTooLargeIsRefusedUnread(t *testing.T) {
	g := newHarness(t).start()
	g.room.Files.openRest([]File{{Name: "sea.geojson", Data: sealed{t, "{", 65 << 20}}}, false)
	g.wants("sea.geojson is not read: it has 65 MB, and a layer has at most 64.")
}

// manyPlans is an archive of so many plans.
func manyPlans(g *harness, n int) File {
	a := engine.Archive{Version: engine.ArchiveVersion}
	for i := range n {
		a.Plans = append(a.Plans, engine.ArchivedPlan{ID: fmt.Sprint("p", i), Plan: strings.Replace(g.room.History.Open.Text, "INVENTED day", fmt.Sprintf("INVENTED day %d", i), 1)})
	}
	b, err := json.Marshal(a)
	if err != nil {
		g.t.Fatal(err)
	}
	return File{Name: "all.json", Data: Bytes(b)}
}

// An archive of very many plans is taken in plan after plan: one save at a time, how far
// it is in sight, and stopped where it is when the skipper says so.
func TestArchiveOfManyPlans(t *testing.T) {
	g := newHarness(t).start()
	slow := &slowStore{memoryStore: g.store}
	g.room.Ports.store = slow
	g.room.Files.Open([]File{manyPlans(g, 120)})
	g.settle()
	for range 100 {
		if len(slow.held) != 1 {
			t.Fatalf("%d saves at a time", len(slow.held))
		}
		slow.next()
	}
	g.wants("all.json: 100 of 120 plans and charts are taken in.", "Stop")
	g.room.Do("taking-stop", "all.json")
	g.settle()
	slow.let()
	if n := len(g.store.plans); n > 102 || n < 100 {
		t.Errorf("%d plans are kept; the stop came after 100", n)
	}
	g.wants("all.json: stopped after 100 plans; what was taken in stays.")
}

// However many plans there are, the list shows the newest, and more when asked to.
func TestListOfManyPlansIsShort(t *testing.T) {
	g := newHarness(t).start()
	g.room.Files.Open([]File{manyPlans(g, 200)})
	g.settle()
	g.room.Do("tab", TabPlans)
	rows := func() int { return strings.Count(g.text(), "Delete") }
	first := rows()
	if first > 80 {
		t.Errorf("%d plans are listed at once", first)
	}
	g.wants("Show more")
	g.room.Do("list-more", "plans")
	if more := rows(); more <= first {
		t.Errorf("%d plans are listed after asking for more than %d", more, first)
	}
}

// A plan as large as it may be is listed piece by piece.
func TestListsOfALargePlanAreShort(t *testing.T) {
	g := newHarness(t).start()
	var line, zones strings.Builder
	for i := range 1900 {
		fmt.Fprintf(&line, "[-36.%04d,43.1],", i)
	}
	for i := range 2000 {
		fmt.Fprintf(&zones, `{"type":"Feature","properties":{"role":"hazard","objectClass":"UWTROC","WATLEV":3},"geometry":{"type":"Point","coordinates":[-36.5,43.%04d]}},`, i)
	}
	text := `{"type":"FeatureCollection","plan":{"version":1,"time_zone":"UTC"},"features":[` + zones.String() +
		`{"type":"Feature","properties":{"role":"route","name":"out"},"geometry":{"type":"LineString","coordinates":[` + strings.TrimSuffix(line.String(), ",") + `]}}]}`
	g.room.Files.Open([]File{{Name: "large.geojson", Data: Bytes(text)}})
	g.settle()
	for tab, most := range map[string]int{TabRoute: 80, TabCharts: 80} {
		g.room.Do("tab", tab)
		if n := strings.Count(g.text(), "Delete"); n > most || n < 20 {
			t.Errorf("%s: %d rows at once", tab, n)
		}
	}
	g.room.Do("tab", TabRoute)
	g.room.Do("go-vertex", "0,1500")
	if !strings.Contains(Draw(g.room), "Show waypoint 1501") {
		t.Error("the waypoint that is chosen is not among those listed")
	}
}
