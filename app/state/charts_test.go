package state

import (
	"fmt"
	"strings"
	"testing"

	"keelroom/app/engine"
)

// A layer file that cannot be read leaves the layers that were there.
func TestRefusedLayer(t *testing.T) {
	g := newHarness(t).start()
	g.room.Files.Open([]File{{Name: "torn.geojson", Data: Bytes(`{"type":"FeatureCollection","features":[`)}})
	g.settle()
	g.wants("torn was refused as a whole", "Care is needed", "Refused:")
	if len(g.store.sets) != 0 {
		t.Error("a refused set is kept")
	}
	g.room.Do("set-remove", g.room.Charts.Sets[len(g.room.Charts.Sets)-1].ID)
	g.settle()
	g.wants("Care is needed")
}

// What is hidden is checked all the same; what is removed is not.
func TestHiddenIsChecked(t *testing.T) {
	g := newHarness(t).start()
	g.room.Do("set-show", DemoSet)
	g.settle()
	g.wants("Care is needed")
	g.room.Do("set-remove", DemoSet)
	g.settle()
	g.wants("Not known to be clear")
	g.room.Do("demo-chart", "")
	g.settle()
	g.wants("Care is needed")
}

// A zone and a danger that are sketched travel in the plan and are checked.
func TestOwnZoneAndDanger(t *testing.T) {
	g := newHarness(t).start()
	at := g.room.History.Plan.Routes()[0].Points[6]
	g.says("sketch", map[string]any{"mode": "danger", "coordinates": [][2]float64{{at[0], at[1]}}})
	g.wants("The danger you sketched")
	g.room.Enter("draft-name", "INVENTED Post")
	g.room.Do("sketch-keep", "")
	g.settle()
	g.wants("Not clear: do not go as planned.", "INVENTED Post")
	g.room.Do("private-gone", "0")
	g.settle()
	g.wants("Care is needed")
	// One with a depth is named in what is found, and its depth is below the
	// chart's datum.
	g.says("sketch", map[string]any{"mode": "danger", "coordinates": [][2]float64{{at[0], at[1]}}})
	g.room.Enter("draft-name", "INVENTED Shoal")
	g.room.Enter("draft-depth", "0.2")
	g.room.Do("sketch-keep", "")
	g.settle()
	g.wants("Not clear: do not go as planned.", "“INVENTED Shoal”: ")
	named := false
	for _, f := range g.room.Checks.Day.Report.Findings {
		if strings.Contains(f.Detail, "INVENTED Shoal") {
			named = true
			if strings.Contains(f.Detail, "different levels") {
				t.Errorf("the datum of the depth is not known: %s", f.Detail)
			}
		}
	}
	if !named {
		t.Error("nothing is found of the shoal")
	}
	g.room.Do("private-gone", "0")
	g.settle()
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
	for _, z := range g.room.Checks.Day.Report.Zones {
		found = found || z.Name == "INVENTED slow water" && z.LimitKn != nil && *z.LimitKn == 6
	}
	if !found {
		t.Errorf("the zone is not in the report: %+v", g.room.Checks.Day.Report.Zones)
	}
}

// A place that is pressed becomes the day's next aim; what is removed can be
// brought back.
func TestRouteToHereAndRemoval(t *testing.T) {
	g := newHarness(t).start()
	parts := len(g.room.History.Plan.Parts)
	g.says("press", map[string]any{"lon": -36.0473380, "lat": 43.0086414})
	g.room.Do("stay-here", "")
	g.settle()
	if n := len(g.room.History.Plan.Parts); n <= parts {
		t.Fatalf("%d parts, there were %d: %v", n, parts, g.room.Notices.list)
	}
	if last := g.room.History.Plan.Parts[len(g.room.History.Plan.Parts)-1]; last.Stay == nil {
		t.Error("the day does not end with the new stay")
	}
	g.room.Do("set-remove", DemoSet)
	g.settle()
	g.wants("is removed: it is no longer checked.", "Bring it back")
	g.room.Do("notice-do", fmt.Sprint(g.room.Notices.list[len(g.room.Notices.list)-1].ID))
	g.settle()
	if _, s := g.room.Charts.FindSet(DemoSet); s == nil {
		t.Error("the chart is not back")
	}
}

// A set that is removed while it is read does not come back.
func TestRemovedWhileRead(t *testing.T) {
	g := newHarness(t).start()
	h := &holding{harness: g, kind: engine.PutSet}
	g.room.Ports.engine = h
	layer := `{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"objectClass":"UWTROC"},"geometry":{"type":"Point","coordinates":[-36.02,42.99]}}]}`
	g.room.Files.Open([]File{{Name: "rock.geojson", Data: Bytes(layer)}})
	g.settle() // it was looked into; the engine reads it
	id := g.room.Charts.Sets[1].ID
	g.room.Do("set-remove", id)
	h.let()
	if g.view.sets[id] != "" || len(g.store.sets) != 0 {
		t.Error("a removed chart is drawn or kept")
	}
}

// Files from elsewhere are not opened unasked.
func TestSharedAsks(t *testing.T) {
	g := newHarness(t).start()
	layer := `{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"objectClass":"UWTROC"},"geometry":{"type":"Point","coordinates":[-36.02,42.99]}}]}`
	g.room.Files.Offer([]File{{Name: "rock.geojson", Data: Bytes(layer)}})
	g.settle()
	if len(g.room.Charts.Sets) != 1 {
		t.Error("it is opened unasked")
	}
	g.wants("Open it only if you sent it yourself", "Open it")
	g.room.Do("notice-do", fmt.Sprint(g.room.Notices.list[len(g.room.Notices.list)-1].ID))
	g.settle()
	if len(g.room.Charts.Sets) != 2 {
		t.Error("it is not opened")
	}
}

// What is sketched is drawn also while the plan is not complete.
func TestSketchedDangerIsDrawnAtOnce(t *testing.T) {
	g := newHarness(t).start()
	g.room.Do("plan-new", "")
	g.settle()
	g.says("sketch", map[string]any{"mode": "danger", "coordinates": [][2]float64{{-36.03, 43.0}}})
	g.room.Do("sketch-keep", "")
	g.settle()
	if g.room.Checks.Day.Report != nil || !strings.Contains(g.view.private, "OBSTRN") && !strings.Contains(g.view.private, "UWTROC") {
		t.Errorf("drawn: %q", g.view.private)
	}
}

// Of a cause that a chart has many messages of the first 20 are shown, then their
// number; the head counts all.
func TestMessagesOfOneCauseAreCountedOnTheScreen(t *testing.T) {
	g := newHarness(t).start()
	var features []string
	for i := range 300 {
		features = append(features, fmt.Sprintf(`{"type":"Feature","properties":{"objectClass":"DEPCNT","VALDCO":"2,5"},"geometry":{"type":"LineString","coordinates":[[-36,%g],[-35.9,%g]]}}`, 43+float64(i)/1000, 43+float64(i)/1000))
	}
	g.open(File{Name: "INVENTED.geojson", Data: Bytes(`{"type":"FeatureCollection","features":[` + strings.Join(features, ",") + `]}`)})
	g.wants("280 more like these", "300 things refused")
	if n := strings.Count(g.text(), "E-NUM INVENTED.geojson features["); n > 2*20 { // in the list, and in the report's
		t.Errorf("%d messages are shown one by one", n)
	}
}
