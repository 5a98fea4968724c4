package hazards

import (
	"errors"
	"fmt"
	"math/rand"
	"reflect"
	"slices"
	"testing"
	"time"

	"keelroom/geo/chart"
	"keelroom/hazards/plan"
	"keelroom/testdata/beside"
)

// departing compares the outlooks of many departures with those of each by itself.
type departing struct {
	t      *testing.T
	name   string
	chart  *chart.Chart
	kept   *Session
	shared int // departures that were of a block
	passed int // legs of them that a block passed over
}

func newDeparting(t *testing.T, name string, c *chart.Chart) *departing {
	return &departing{t: t, name: name, chart: c, kept: NewSession(c)}
}

// compare asks for some of a day's 144 departures in a random order.
func (d *departing) compare(p *plan.Plan, step time.Duration, some int, rnd *rand.Rand) {
	d.t.Helper()
	first := p.Parts[0].Route.Depart.Add(-time.Duration(rnd.Intn(144)) * step)
	all, single := d.kept.Departures(p, first, step, 144), NewSession(d.chart)
	for _, k := range rnd.Perm(144)[:some] {
		want, wrong := single.Outlook(shifted(p, first.Add(time.Duration(k)*step)))
		got, err := all.Outlook(k)
		if fmt.Sprint(err) != fmt.Sprint(wrong) {
			d.t.Fatalf("%s, departure %d: %v, by itself %v", d.name, k, err, wrong)
		}
		if !reflect.DeepEqual(withoutThings(got), withoutThings(want)) {
			d.t.Fatalf("%s, departure %d: %v %+v, by itself %v %+v", d.name, k, got.Verdict, got.Worst, want.Verdict, want.Worst)
		}
		if err == nil {
			d.bounds(all, k)
		}
	}
}

// withoutThings is an outlook whose features are known by their findings' ids alone: two
// sessions read a plan's own layer into two.
func withoutThings(o Outlook) Outlook {
	o.Worst = slices.Clone(o.Worst)
	for i := range o.Worst {
		if s := o.Worst[i].Source; s != nil {
			without := *s
			without.Thing = nil
			o.Worst[i].Source = &without
		}
	}
	return o
}

// bounds holds that no leg of a departure has worse than a block of it says.
func (d *departing) bounds(all *Departures, k int) {
	d.t.Helper()
	smallest, err := all.blockOf(k)
	if err != nil {
		d.t.Fatal(err)
	}
	if smallest == nil {
		return
	}
	d.shared++
	c, err := all.begin(k, 0)
	if err != nil {
		d.t.Fatal(err)
	}
	c.track = smallest.track.Shifted(c.plan, time.Duration(k-smallest.first)*all.step, nil)
	c.harbours, c.cells = smallest.harbours, make([][]seaCell, len(c.track.Legs))
	for i := range c.track.Legs {
		clear(c.told)
		w := worstOf(reusing{c}.judgeLeg(i))
		before := len(c.report.Findings)
		hours{c}.legLight(i)
		light := noFinding
		for _, f := range c.report.Findings[before:] {
			light = weightOf(f.Severity)
		}
		for b := smallest; b != nil; b = b.within {
			if b.settles(i, soFar{}, nil); b.worst[i].weight < w || b.light(i) < light {
				d.t.Fatalf("%s, departure %d, leg %d: %d, light %d, above the bound %d, %d of the block from %d", d.name, k, i, w, light, b.worst[i].weight, b.light(i), b.first)
			}
			if b.worst[i].weight < weightOf(plan.NotClear) {
				d.passed++
			}
		}
	}
}

// The outlooks of departures are those of each by itself, over random days, the demo's
// and real charts, from a minute to an hour apart, and in whatever order they are asked for.
func TestDeparturesAreOutlooks(t *testing.T) {
	rnd := rand.New(rand.NewSource(20260723))
	demo, hull := demoChart(t), loadFolder(t, beside.File(t, "charts", "hull"))
	roads := func() *plan.Plan { return readPlan(t, "testdata", "plans", "roads-day.geojson") }
	for _, on := range []struct {
		name string
		set  *chart.Set
		days []*plan.Plan
	}{
		{"demo", demo, append(wanderings(t, demo, 8), readPlan(t, "web", "demo", "plan.geojson"), readPlan(t, "testdata", "plans", "demo-late.geojson"))},
		{"hull", hull, []*plan.Plan{roads(), cutToForty(t, roads())}},
	} {
		d := newDeparting(t, on.name, chart.New(on.set))
		for _, p := range on.days {
			d.compare(p, 10*time.Minute, 72, rnd)
			d.compare(p, time.Duration(1+rnd.Intn(90))*time.Minute, 20, rnd)
		}
		t.Logf("%s: %d departures of blocks, %d legs bounded", on.name, d.shared, d.passed)
		if d.shared < 100 || d.passed < 1000 {
			t.Errorf("%s: %d departures of blocks, %d legs bounded: hardly any", on.name, d.shared, d.passed)
		}
	}
}

// The same of random days over random waters, with whatever a plan can hold.
func TestDeparturesOfAnyPlanAreOutlooks(t *testing.T) {
	shared, passed := 0, 0
	for seed := range int64(4) {
		ru := randomReuser(t, 60+seed)
		if seed%2 == 0 {
			ru.enrich()
		}
		d := newDeparting(t, ru.name, ru.chart)
		for range 12 {
			path, q := ru.edit(func(list []memberEdit) memberEdit { return ru.any(list) })
			if q == nil || len(q.Routes()) == 0 {
				continue
			}
			d.name = ru.name + ", " + path
			if ru.rnd.Intn(4) > 0 { // days of streams and rough seas share nothing
				q.Stream, q.Boat.SeaLimitM = nil, max(q.Boat.SeaLimitM, 1.5)
				for i := range q.Wind {
					q.Wind[i].Kn /= 2
				}
			}
			d.compare(q, time.Duration(1+ru.rnd.Intn(40))*time.Minute, 8, ru.rnd)
			if ru.rnd.Intn(2) == 0 {
				ru.plan = q
			}
		}
		shared, passed = shared+d.shared, passed+d.passed
	}
	t.Logf("%d departures of blocks, %d legs bounded", shared, passed)
	if shared < 50 || passed < 200 {
		t.Errorf("%d departures of blocks, %d legs bounded: hardly any", shared, passed)
	}
}

// Departures that are stopped, wherever that is, are as good as new ones after, other checks of
// the session in between.
func TestStoppedDeparturesSpoilNothing(t *testing.T) {
	c := chart.New(demoChart(t))
	p := readPlan(t, "web", "demo", "plan.geojson")
	other := readPlan(t, "testdata", "plans", "demo-late.geojson")
	first, stop := p.Parts[0].Route.Depart.Add(-5*time.Hour), errors.New("stop")
	var want []Outlook
	for k, d := 0, NewSession(c).Departures(p, first, 20*time.Minute, 30); k < 30; k++ {
		o, err := d.Outlook(k)
		if err != nil {
			t.Fatal(err)
		}
		want = append(want, o)
	}
	s := NewSession(c)
	d, stopped := s.Departures(p, first, 20*time.Minute, 30), 0
	for k := 0; k < 30; {
		left := 1 + k*7 + stopped
		s.Between = func() error {
			if left--; left < 0 {
				return stop
			}
			return nil
		}
		o, err := d.Outlook(k)
		switch {
		case errors.Is(err, stop):
			stopped++
			s.Between = nil
			check(t, s, other)
		case err != nil:
			t.Fatal(err)
		case !reflect.DeepEqual(o, want[k]):
			t.Fatalf("departure %d: %+v, never stopped %+v", k, o, want[k])
		default:
			k++
		}
	}
	if stopped < 10 {
		t.Errorf("stopped %d times", stopped)
	}
}
