package hazards

import (
	"math/rand"
	"slices"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/plan"
	"keelroom/testdata/beside"
)

// fortyLegs is a day of 40 legs over the deeper soundings of a set, from west
// to east: it meets many boundaries and stays mostly afloat.
func fortyLegs(t testing.TB, set *chart.Set, base *plan.Plan) *plan.Plan {
	t.Helper()
	var deep []orb.Point
	for i := range set.Features {
		f := &set.Features[i]
		if f.Class == chart.SOUNDG && f.DepthsM[0] > 6 {
			deep = append(deep, f.Coords[0].Position())
		}
	}
	slices.SortFunc(deep, func(a, b orb.Point) int {
		if a[0] < b[0] {
			return -1
		}
		return 1
	})
	route := *base.Parts[0].Route
	route.Points, route.SpeedsKn = nil, nil
	for i := range 41 {
		route.Points = append(route.Points, deep[i*(len(deep)-1)/40])
	}
	p := *base
	p.Parts = []plan.Part{{Route: &route}}
	return &p
}

// finger moves a waypoint about where it is, within some ten metres and never to the
// same place twice.
func finger(p *orb.Point) (move func()) {
	rnd, from := rand.New(rand.NewSource(20261128)), *p
	return func() { *p = orb.Point{from[0] + 2e-4*(rnd.Float64()-0.5), from[1] + 2e-4*(rnd.Float64()-0.5)} }
}

// BenchmarkRecheck40Legs moves one waypoint by a few metres each time, as a
// finger does.
func BenchmarkRecheck40Legs(b *testing.B) {
	set := loadFolder(b, beside.File(b, "charts", "US5MA12M", "geojson"))
	s := NewSession(chart.New(set))
	p := fortyLegs(b, set, readPlan(b, "testdata", "plans", "roads-day.geojson"))
	points := p.Parts[0].Route.Points
	b.ReportAllocs()
	move := finger(&points[20])
	for b.Loop() {
		move()
		if _, err := s.Check(p); err != nil {
			b.Fatal(err)
		}
	}
}

// cutToForty is a plan with its longest legs halved until there are forty: a day out
// and home with a stay, as people plan them.
func cutToForty(t testing.TB, p *plan.Plan) *plan.Plan {
	t.Helper()
	legs := 0
	for _, r := range p.Routes() {
		legs += r.Legs()
	}
	for legs < 40 {
		r, i := longestLeg(p)
		r.Points = slices.Insert(r.Points, i+1, between(r.Points[i], r.Points[i+1]))
		if r.SpeedsKn != nil {
			r.SpeedsKn = slices.Insert(r.SpeedsKn, i, r.SpeedsKn[i])
		}
		legs++
	}
	return p
}

func longestLeg(p *plan.Plan) (route *plan.Route, leg int) {
	longest := 0.0
	for _, r := range p.Routes() {
		for i := range r.Legs() {
			if m := geo.DistanceM(r.Points[i], r.Points[i+1]); m > longest {
				route, leg, longest = r, i, m
			}
		}
	}
	return route, leg
}

// BenchmarkRecheckDayOf40Legs moves one waypoint on the way out of a day with a stay
// and a way home.
func BenchmarkRecheckDayOf40Legs(b *testing.B) {
	set := loadFolder(b, beside.File(b, "charts", "US5MA12M", "geojson"))
	s := NewSession(chart.New(set))
	p := cutToForty(b, readPlan(b, "testdata", "plans", "roads-day.geojson"))
	points := p.Parts[0].Route.Points
	b.ReportAllocs()
	move := finger(&points[len(points)/2])
	for b.Loop() {
		move()
		if _, err := s.Check(p); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkRibbon40Legs asks for the outlook of every departure of a day.
func BenchmarkRibbon40Legs(b *testing.B) {
	set := loadFolder(b, beside.File(b, "charts", "US5MA12M", "geojson"))
	s := NewSession(chart.New(set))
	p := cutToForty(b, readPlan(b, "testdata", "plans", "roads-day.geojson"))
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		i++
		for k := range 144 {
			at := time.Date(2026, 7, 18, 4, 0, i%60, 0, time.UTC).Add(time.Duration(k) * 10 * time.Minute)
			if _, err := s.Outlook(shifted(p, at)); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// BenchmarkDepartures40Legs asks for the same of the departures together.
func BenchmarkDepartures40Legs(b *testing.B) {
	set := loadFolder(b, beside.File(b, "charts", "US5MA12M", "geojson"))
	s := NewSession(chart.New(set))
	p := cutToForty(b, readPlan(b, "testdata", "plans", "roads-day.geojson"))
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		i++
		d := s.Departures(p, time.Date(2026, 7, 18, 4, 0, i%60, 0, time.UTC), 10*time.Minute, 144)
		for k := range 144 {
			if _, err := d.Outlook(k); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// BenchmarkDepartureSweep checks every departure of a day, ten minutes apart.
func BenchmarkDepartureSweep(b *testing.B) {
	set := loadFolder(b, beside.File(b, "charts", "hull"))
	s := NewSession(chart.New(set))
	p := readPlan(b, "testdata", "plans", "roads-day.geojson")
	i := 0
	for b.Loop() {
		i++
		for k := range 144 {
			at := time.Date(2026, 7, 18, 4, 0, i%60, 0, time.UTC).Add(time.Duration(k) * 10 * time.Minute)
			if _, err := s.Check(shifted(p, at)); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// shifted is the plan leaving at another time, its stays moved along.
func shifted(p *plan.Plan, depart time.Time) *plan.Plan {
	q := *p
	q.Parts = slices.Clone(p.Parts)
	by := depart.Sub(*p.Parts[0].Route.Depart)
	route := *p.Parts[0].Route
	route.Depart = &depart
	q.Parts[0].Route = &route
	for i, part := range q.Parts {
		if part.Stay != nil {
			stay := *part.Stay
			stay.Until = stay.Until.Add(by)
			q.Parts[i].Stay = &stay
		}
	}
	return &q
}
