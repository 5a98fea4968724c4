package hazards

import (
	"errors"
	"reflect"
	"testing"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
	"keelroom/hazards/words"
	"keelroom/testdata/beside"
)

// An outlook is the check's verdict, its first worst finding and the time of
// return, for every departure of several days over several waters, however much
// the session remembers of others.
func TestOutlookIsTheChecks(t *testing.T) {
	demo := demoChart(t)
	days := append(wanderings(t, demo, 8), readPlan(t, "web", "demo", "plan.geojson"), readPlan(t, "testdata", "plans", "demo-late.geojson"))
	compareOutlooks(t, demo, days)
	hull := loadFolder(t, beside.File(t, "charts", "hull"))
	roads := readPlan(t, "testdata", "plans", "roads-day.geojson")
	roads.Boat.Rode.ChainM, roads.Stays()[0].RodeM = ptr(300.0), nil // enough for the roads
	compareOutlooks(t, hull, []*plan.Plan{roads})
}

func compareOutlooks(t *testing.T, set *chart.Set, days []*plan.Plan) {
	t.Helper()
	c := chart.New(set)
	kept := NewSession(c)
	verdicts := map[plan.Severity]int{}
	for i, p := range days {
		for h := range 24 {
			q := shifted(p, p.Parts[0].Route.Depart.Add(time.Duration(h-12)*61*time.Minute))
			want := apartReport(t, NewSession(c), q) // an outlook ends before it can know where else a finding holds
			wantFirst(t, want.Worst(q.Zone), check(t, NewSession(c), q).Worst(q.Zone))
			got, err := kept.Outlook(q)
			if err != nil {
				t.Fatal(err)
			}
			first := words.English.First(got.Worst, q.Zone, *want.Depart)
			if got.Verdict != want.Verdict || !got.Back.Equal(*want.Back) || !reflect.DeepEqual(first, want.Worst(q.Zone)) {
				t.Fatalf("day %d, departure %d: %v %+v, the check says %v %+v", i, h, got.Verdict, first, want.Verdict, want.Worst(q.Zone))
			}
			verdicts[got.Verdict]++
		}
	}
	t.Logf("verdicts: %v", verdicts)
	if len(verdicts) < 2 {
		t.Errorf("all days alike: %v", verdicts)
	}
}

// wantFirst holds that the report which tells everything once has the same finding
// first: of the same check and weight, at the same place and time.
func wantFirst(t *testing.T, apart, once *plan.Finding) {
	t.Helper()
	if (apart == nil) != (once == nil) || apart != nil && (apart.Check != once.Check || apart.Severity != once.Severity || apart.Leg != once.Leg || !startOf(apart).Equal(startOf(once))) {
		t.Errorf("first %+v, apart %+v", once, apart)
	}
}

// Between is called often, its error ends the check, and the session is as good
// as before.
func TestBetween(t *testing.T) {
	s := NewSession(chart.New(demoChart(t)))
	p := readPlan(t, "web", "demo", "plan.geojson")
	calls := 0
	s.Between = func() error { calls++; return nil }
	want := string(check(t, s, p).Encode(p.Zone))
	if calls < 20 {
		t.Errorf("called %d times in a day of 20 legs", calls)
	}
	stop := errors.New("stop")
	for at := 1; at <= calls; at += 1 + calls/15 {
		left := at
		fresh := NewSession(s.base)
		fresh.Between = func() error {
			if left--; left == 0 {
				return stop
			}
			return nil
		}
		if _, err := fresh.Check(p); !errors.Is(err, stop) {
			t.Errorf("stopped at call %d: %v", at, err)
		}
		left = calls * 2
		if got := string(check(t, fresh, p).Encode(p.Zone)); got != want {
			t.Errorf("the check after one stopped at call %d differs", at)
		}
	}
}

// The shortcut by daylight changes nothing.
func TestSurelyDay(t *testing.T) {
	defer func() { everyLook = false }()
	s := NewSession(chart.New(demoChart(t)))
	p := readPlan(t, "web", "demo", "plan.geojson")
	for k := range 72 {
		q := shifted(p, time.Date(2026, 7, 18, 2, 7, 0, 0, time.UTC).Add(time.Duration(k)*20*time.Minute))
		everyLook = false
		short := string(check(t, s, q).Encode(q.Zone))
		everyLook = true
		if whole := string(check(t, s, q).Encode(q.Zone)); whole != short {
			t.Fatalf("departure %d differs", k)
		}
	}
}
