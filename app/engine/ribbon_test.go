package engine

import (
	"math/rand"
	"path/filepath"
	"reflect"
	"testing"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards"
	"keelroom/hazards/plan"
	"keelroom/hazards/words"
	"keelroom/testdata/beside"
)

// Twenty departures of a ribbon, at random, are those of full checks made
// afresh: verdict, reason and return.
func TestRibbonIsTheChecks(t *testing.T) {
	h := newHost()
	s := demoService(t, h)
	s.Handle(Request{ID: 2, Kind: Ribbon, Plan: demoPlan(t), PlanRev: 4})
	r := h.end(t, 2)
	b := body[RibbonBody](t, r)
	p := planOf(t, demoPlan(t))
	if r.State != Done || len(b.Slots) != 144 || b.StepMin != 10 || r.PlanRev != 4 {
		t.Fatalf("%s, %d slots", r.State, len(b.Slots))
	}
	if first := time.Unix(b.Slots[0].T, 0).In(p.Zone).Format("15:04 2006-01-02"); first != "00:00 2026-07-18" {
		t.Errorf("the first departure is at %s", first)
	}
	c := chart.New(decodeFiles(t, demoFiles(t)))
	rnd := rand.New(rand.NewSource(20260720))
	for _, i := range rnd.Perm(len(b.Slots))[:20] {
		q := p.Later(time.Unix(b.Slots[i].T, 0).Sub(*p.Routes()[0].Depart))
		report, err := hazards.Check(c, q)
		if err != nil {
			t.Fatal(err)
		}
		words.English.Fill(report, q.Zone)
		want, elsewhere := slotOfReport(time.Unix(b.Slots[i].T, 0), report, q)
		if elsewhere { // the report may tell worse of it from where it holds again
			want.Title, want.Why = b.Slots[i].Title, b.Slots[i].Why
		}
		if !reflect.DeepEqual(b.Slots[i], want) {
			t.Errorf("slot %d: %+v, a check says %+v", i, b.Slots[i], want)
		}
	}
	// What was told on the way is what was told at the end.
	var told []Slot
	for _, r := range h.all() {
		if r.ID == 2 && r.State == Progress && len(r.Body) > 0 {
			told = append(told, body[RibbonBody](t, r).Slots...)
			if r.Done != len(told) || r.Total != 144 {
				t.Errorf("%d of %d told, %d slots came", r.Done, r.Total, len(told))
			}
		}
	}
	if len(told) > 0 && !reflect.DeepEqual(told, b.Slots[:len(told)]) {
		t.Error("the slots told on the way differ")
	}
}

// slotOfReport reads a report as written: the first of its findings of the worst
// severity, and whether that holds elsewhere too.
func slotOfReport(at time.Time, r *plan.Report, p *plan.Plan) (s Slot, elsewhere bool) {
	s = Slot{T: at.Unix(), Verdict: r.Verdict.String(), Back: r.Back.Unix()}
	read, err := plan.DecodeReport(r.Encode(p.Zone))
	if err != nil || r.Verdict == plan.Clear {
		return s, false
	}
	for _, f := range read.Findings {
		if f.Severity != r.Verdict {
			continue
		}
		s.Title, s.Why, s.Check, s.Leg = f.Title, f.Detail, f.Check, f.Leg
		elsewhere = len(f.Also) > 0
		for i := range r.Findings { // with the position unrounded
			if g := &r.Findings[i]; g.Title == f.Title && g.Detail == f.Detail && g.Leg == f.Leg {
				s.At = placeOf(g.Geometry)
				break
			}
		}
		break
	}
	return s, elsewhere
}

// A day of clock change has its own number of departures. Local time, by RFC
// 9557 tz database rules for Europe/Berlin: forward on 2026-03-29, back on
// 2026-10-25.
func TestRibbonOfClockChange(t *testing.T) {
	for date, want := range map[string]int{"2026-03-29": 23 * 6, "2026-10-25": 25 * 6, "2026-06-01": 24 * 6} {
		p := planOf(t, demoPlan(t))
		if err := p.SetZone("Europe/Berlin"); err != nil {
			t.Fatal(err)
		}
		day, _ := time.ParseInLocation(time.DateOnly, date, p.Zone)
		moved := p.Later(day.Add(10 * time.Hour).Sub(*p.Routes()[0].Depart))
		moved.BackBy, moved.Wind, moved.Swell = nil, nil, nil
		text, err := plan.Encode(moved)
		if err != nil {
			t.Fatal(err)
		}
		w := newRibbon(planOf(t, string(text)))
		if w.total != want {
			t.Errorf("%s: %d departures, want %d", date, w.total, want)
		}
	}
}

// BenchmarkRibbon is the ribbon of the demo's day, all of it.
func BenchmarkRibbon(b *testing.B) {
	demo := decodeFiles(b, demoFiles(b))
	hull := decodeFiles(b, folder(b, beside.File(b, "charts", "hull")))
	roads := string(readFile(b, filepath.Join(beside.Root(b), "testdata", "plans", "roads-day.geojson")))
	for _, c := range []struct {
		name, plan string
		set        *chart.Set
	}{{"demo", demoPlan(b), demo}, {"roads", roads, hull}} {
		b.Run(c.name, func(b *testing.B) {
			s := New(newHost(), nil)
			s.charts.sets = []*loadedSet{{id: c.name, set: c.set}}
			if _, err := s.charts.ready(&job{}); err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				if err := s.ribbon(&job{Request: Request{Kind: Ribbon, Plan: c.plan}}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
