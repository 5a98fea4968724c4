package engine

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"keelroom/geo/layer"
)

func archiveOf(t testing.TB, plans int, spoiled string) []byte {
	t.Helper()
	a := Archive{Version: ArchiveVersion}
	for i := range plans {
		text := strings.Replace(demoPlan(t), "INVENTED day", fmt.Sprintf("INVENTED day %d", i), 1)
		a.Plans = append(a.Plans, ArchivedPlan{ID: fmt.Sprint("p", i), Plan: text, Past: []string{text}})
	}
	if spoiled != "" {
		a.Plans[plans-1].Past[0] = spoiled
	}
	a.Sets = []ArchivedSet{{Name: "bank", Files: []ArchivedFile{{Name: "a.geojson", Text: "{}"}, {Name: "b.000", Bytes: []byte{0, 255}}}}}
	b, err := json.Marshal(a)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func openRequest(id int, name string, b []byte) Request {
	return Request{ID: id, Kind: OpenFile, Files: []layer.File{{Name: name, Data: b}}}
}

// An archive is handed over in slices, each small enough to be read between two frames
// of the screen, with how far it is; all of it is looked at before.
func TestArchiveInSlices(t *testing.T) {
	h := newHost()
	s := start(t, h)
	s.Handle(openRequest(1, "archive.json", archiveOf(t, 90, "")))
	if end := body[OpenBody](t, h.end(t, 1)); end.What != IsArchive || end.Wrong != "" {
		t.Fatalf("%+v", end)
	}
	plans, sets, files, slices := 0, 0, 0, 0
	for _, r := range h.all() {
		if len(r.Body) > 2*sliceBytes+100_000 { // JSON within JSON takes more than the text
			t.Errorf("a slice of %d bytes", len(r.Body))
		}
		if r.State != Progress || r.Body == nil {
			continue
		}
		b := body[OpenBody](t, r)
		for _, p := range b.Plans {
			if p.ID != fmt.Sprint("p", plans) || !strings.HasPrefix(p.Title, fmt.Sprintf("INVENTED day %d", plans)) || len(p.Past) != 1 {
				t.Errorf("plan %d is %s %q", plans, p.ID, p.Title)
			}
			plans++
		}
		sets, files, slices = sets+len(b.Sets), files+len(r.Files), slices+1
		if r.Total != 91 || r.Done != plans+sets {
			t.Errorf("%d of %d after %d", r.Done, r.Total, plans+sets)
		}
	}
	if plans != 90 || sets != 1 || files != 2 || slices < 5 {
		t.Errorf("%d plans, %d sets, %d files in %d slices", plans, sets, files, slices)
	}

	s.Handle(openRequest(2, "archive.json", archiveOf(t, 30, "{}")))
	if end := body[OpenBody](t, h.end(t, 2)); !strings.Contains(end.Wrong, "plan 30") {
		t.Errorf("a torn archive: %+v", end)
	}
	for _, r := range h.all() {
		if r.ID == 2 && r.State == Progress && r.Body != nil {
			t.Error("part of a torn archive is handed over")
		}
	}
}

// An archive that is no longer wanted ends where it is.
func TestArchiveIsCancelled(t *testing.T) {
	h := newHost()
	s := start(t, h)
	h.watch(func(r Reply) {
		if r.ID == 1 && r.Done >= 20 {
			s.Handle(Request{ID: 2, Kind: CancelRequest, Text: "1"})
		}
	})
	s.Handle(openRequest(1, "archive.json", archiveOf(t, 200, "")))
	if end := h.end(t, 1); end.State != Cancelled {
		t.Errorf("%s %s", end.State, end.Words)
	}
}

// A plan is told from a layer, and one that cannot be read is told why.
func TestOpenFileTellsPlans(t *testing.T) {
	h := newHost()
	s := start(t, h)
	for i, c := range []struct{ text, what, wrong string }{
		{demoPlan(t), IsPlan, ""},
		{`{"type":"FeatureCollection","features":[]}`, "", ""},
		{`{"type":"FeatureCollection","plan":{"version":9},"features":[]}`, IsPlan, "version 9"},
		{`{"plan":`, "", ""},
		{`no JSON`, "", ""},
	} {
		s.Handle(openRequest(i+1, "x.geojson", []byte(c.text)))
		got := body[OpenBody](t, h.end(t, i+1))
		if got.What != c.what || (c.wrong == "") != (got.Wrong == "") || !strings.Contains(got.Wrong, c.wrong) {
			t.Errorf("%.40s: %+v", c.text, got)
		}
	}
}
