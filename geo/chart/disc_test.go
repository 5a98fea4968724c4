package chart_test

import (
	"math"
	"math/rand"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/geo/chart/demobed"
)

// What lies in a disc, and on which bearings from its middle, is compared with plain
// walking: line by line to the edge, against every segment of every feature.
func TestDiscAgainstTheOracle(t *testing.T) {
	c := chart.New(hull(t))
	q, rnd := c.NewQuery(), rand.New(rand.NewSource(20261128))
	all := shapes(c, chart.DEPARE, chart.DEPCNT, chart.LNDARE, chart.COALNE, chart.UWTROC, chart.OBSTRN, chart.WRECKS, chart.SOUNDG, chart.PONTON)
	things, held := 0, 0
	for range fewer(100) {
		at := besideAShape(rnd, all)
		radius, hazard := 5+rnd.Float64()*90, rnd.Float64()*15
		d := q.Disc(at, radius, hazard)
		got := map[*chart.Feature]*chart.InDisc{}
		for i := range d.Things {
			got[d.Things[i].Feature] = &d.Things[i]
		}
		for i := range all {
			l := lookFrom(&all[i], at, radius, hazard)
			if thing := got[all[i].Feature]; thing != nil {
				things++
				held += l.compare(t, thing)
			} else if l.distM < l.reachM()-0.05 {
				t.Fatalf("%v, %.1f m: %s %.2f m off is not in the disc", at, radius, all[i].Class, l.distM)
			}
		}
	}
	if things < fewer(100) || held < fewer(100)*10 {
		t.Errorf("only %d things, on %d bearings", things, held)
	}
}

// besideAShape is a place within 60 m of one of the shapes.
func besideAShape(rnd *rand.Rand, all []shape) orb.Point {
	r := all[rnd.Intn(len(all))].parts[0]
	return geo.Direct(r[rnd.Intn(len(r))], rnd.Float64()*360, rnd.Float64()*60)
}

// looking is a shape as it is walked about from a place.
type looking struct {
	at          orb.Point
	radius, off float64
	near        stretch
	holds       bool
	distM       float64 // to the boundary
}

func lookFrom(s *shape, at orb.Point, radius, hazard float64) looking {
	l := looking{at: at, radius: radius, near: s.inBox(orb.Bound{Min: at, Max: at}.Pad(0.003)), holds: s.holds(at)}
	if s.Class.Danger() {
		l.off = hazard
	}
	l.distM = l.near.distance(at)
	return l
}

func (l *looking) reachM() float64 { return l.radius + l.off }

// meets is how far, at least and in steps of a quarter metre, a line on a bearing passes
// off the shape; 0 where it crosses it.
func (l *looking) meets(deg float64) float64 {
	end := geo.Direct(l.at, deg, l.radius)
	if l.holds || len(l.near.crossings([]orb.Point{l.at, end})) > 0 {
		return 0
	}
	least := math.Inf(1)
	for m := 0.0; ; m += 0.25 {
		m = math.Min(m, l.radius)
		least = math.Min(least, l.near.distance(geo.Direct(l.at, deg, m)))
		if m == l.radius {
			return least
		}
	}
}

// compare tells on how many bearings both say that the thing is met.
func (l *looking) compare(t *testing.T, thing *chart.InDisc) (met int) {
	t.Helper()
	const slackM = 0.15 // of a step of a quarter metre, and of two frames
	want := math.Max(0, l.distM-l.off)
	if l.holds {
		want = 0
	}
	if math.Abs(thing.DistM-want) > 0.05 {
		t.Fatalf("%v: %s lies %.2f m off, by the oracle %.2f m", l.at, thing.Class, thing.DistM, want)
	}
	for deg := 1.7; deg < 360; deg += 9 {
		in, off := thing.Bearings.Holds(deg), l.meets(deg)
		if in && off > l.off+slackM || !in && off < l.off-slackM || !in && off == 0 {
			t.Fatalf("%v, %.1f m: %s on %.1f°: %v, by the oracle it passes %.2f m off, %.2f m count: %v", l.at, l.radius, thing.Class, deg, in, off, l.off, thing.Bearings)
		}
		if !in {
			continue
		}
		met++
		if m, _, ok := thing.Nearest(geo.Arcs{{FromDeg: deg, ToDeg: deg}}); !ok || m > l.radius+0.05 || m < thing.DistM-0.05 {
			t.Fatalf("%v: %s on %.1f° is met after %.2f m, %v; it lies %.2f m off", l.at, thing.Class, deg, m, ok, thing.DistM)
		}
	}
	return met
}

// The least distance on some bearings is that of single lines, walked one by one.
func TestNearestOnBearings(t *testing.T) {
	c := chart.New(hull(t))
	q, rnd := c.NewQuery(), rand.New(rand.NewSource(20261129))
	all := shapes(c, chart.DEPARE, chart.LNDARE, chart.UWTROC, chart.COALNE)
	for range fewer(100) {
		at := besideAShape(rnd, all)
		d := q.Disc(at, 80, 10)
		of := geo.Arcs{geo.ArcAbout(rnd.Float64()*360, 0, rnd.Float64()*200)}
		for i := range d.Things {
			thing := &d.Things[i]
			got, on, ok := thing.Nearest(of)
			least := math.Inf(1)
			for k := 0.0; k <= 1; k += 1.0 / 256 {
				deg := of[0].FromDeg + k*of[0].WidthDeg()
				if m, _, ok := thing.Nearest(geo.Arcs{{FromDeg: geo.Bearing(deg), ToDeg: geo.Bearing(deg)}}); ok {
					least = math.Min(least, m)
				}
			}
			if turn, _, _ := of.TurnTo(thing.Bearings); ok && got <= 80 && turn > 0 {
				t.Fatalf("%v: %s is met after %.2f m on bearings %g° from those it takes up", at, thing.Class, got, turn)
			}
			if m, _, _ := thing.Nearest(geo.Arcs{{FromDeg: on, ToDeg: on}}); ok && math.Abs(m-got) > 1e-6 {
				t.Fatalf("%v: %s is met after %.6f m on %v, after %.6f m on %g°", at, thing.Class, got, of, m, on)
			}
			if got > least+1e-6 || ok && got < least-2 && got < thing.DistM-1e-6 {
				t.Fatalf("%v: %s on %v: %.2f m, by single lines %.2f m", at, thing.Class, of, got, least)
			}
		}
	}
}

// The water in a disc is never deeper than the bed anywhere in it.
func TestDiscIsNeverDeeperThanItsBed(t *testing.T) {
	c := chart.New(demo(t))
	q, rnd := c.NewQuery(), rand.New(rand.NewSource(20261130))
	known := 0
	for range fewer(10_000) {
		at, radius := within(rnd, demobed.Bounds()), 5+rnd.Float64()*80
		d := q.Disc(at, radius, 0)
		claims := claimsIn(&d)
		if d.Unknown != nil || claims == nil {
			continue
		}
		known++
		for range 30 {
			deg, m := rnd.Float64()*360, radius*math.Sqrt(rnd.Float64())
			bed := demobed.DepthM(geo.Direct(at, deg, m))
			if claim := leastOn(claims, deg); claim > bed {
				t.Fatalf("%v: on %.1f° the chart claims %.2f m within %.1f m, the bed %.1f m off is at %.3f m", at, deg, claim, radius, m, bed)
			}
		}
	}
	if known < fewer(10_000)/2 {
		t.Errorf("only %d discs of known water", known)
	}
}

// depthOn is a depth and the bearings on which it is claimed.
type depthOn struct {
	depthM   float64
	bearings geo.Arcs
}

// claimsIn are the depths claimed in a disc; nil where some are not known. Land is as
// high as you like.
func claimsIn(d *chart.Disc) (out []depthOn) {
	for i := range d.Things {
		switch s := &d.Things[i]; {
		case s.UnknownWater():
			return nil
		case s.Class == chart.LNDARE:
			out = append(out, depthOn{math.Inf(-1), s.Bearings})
		case s.Class.WaterArea(), s.Class == chart.DEPCNT && chart.Known(s.DepthMinM):
			out = append(out, depthOn{s.DepthMinM, s.Bearings})
		case s.Class == chart.SOUNDG:
			for _, one := range s.Soundings {
				out = append(out, depthOn{one.DepthM, one.Bearings})
			}
		}
	}
	return out
}

func leastOn(claims []depthOn, deg float64) float64 {
	least := math.Inf(1)
	for _, c := range claims {
		if c.depthM < least && c.bearings.Holds(deg) {
			least = c.depthM
		}
	}
	return least
}

// Where no chart has data, or describes the water, is unknown: beyond an edge of the
// data, and all about where the place itself lies beyond it.
func TestUnknownInADisc(t *testing.T) {
	half := rectangleOf(0, 0, 50, 100)
	s := &chart.Set{Authority: chart.Official, SoundingDatum: 23, Features: []chart.Feature{
		{Class: chart.MCOVR, Geometry: half, Meta: &chart.Meta{CatCov: 1}},
		{Class: chart.DEPARE, Geometry: half, DepthMinM: 5, DepthMaxM: 10},
	}}
	q := chart.New(s).NewQuery()
	for _, c := range []struct {
		name       string
		x, radius  float64
		none, many bool
		distM      float64
	}{{"well inside", 49.9, 5, true, false, 0}, {"near the edge", 49.9, 20, false, false, 11.1}, {"outside", 50.1, 20, false, true, 0}} {
		d := q.Disc(orb.Point{c.x / 1000, 0.05}, c.radius, 0)
		if (d.Unknown == nil) != c.none {
			t.Errorf("%s: unknown %v", c.name, d.Unknown)
			continue
		}
		if u := d.Unknown; u != nil && (u.Bearings.Whole() != c.many || math.Abs(u.DistM-c.distM) > 0.1 || !u.Bearings.Holds(90)) {
			t.Errorf("%s: %.2f m off, on %v", c.name, u.DistM, u.Bearings)
		}
	}
}

// rectangleOf is a box in thousandths of a degree.
func rectangleOf(x0, y0, x1, y1 int32) chart.Geometry {
	c := func(x, y int32) chart.Coord { return chart.Coord{Lon: x * 10000, Lat: y * 10000} }
	return chart.Geometry{Prim: chart.Area, Coords: []chart.Coord{c(x0, y0), c(x1, y0), c(x1, y1), c(x0, y1), c(x0, y0)}, Ends: []int32{5}}
}

// A smaller disc of one that is at hand is that of a look of its own.
func TestSmallerDisc(t *testing.T) {
	c := chart.New(hull(t))
	if !c.OneScale() {
		t.Fatal("one chart is of one scale")
	}
	q, rnd := c.NewQuery(), rand.New(rand.NewSource(20261201))
	all := shapes(c, chart.DEPARE, chart.LNDARE, chart.UWTROC)
	for range fewer(100) {
		at, radius := besideAShape(rnd, all), 5+rnd.Float64()*90
		large := q.Disc(at, radius+rnd.Float64()*60, 10)
		got, want := large.Within(radius), q.Disc(at, radius, 10)
		if len(got.Things) != len(want.Things) || (got.Unknown == nil) != (want.Unknown == nil) {
			t.Fatalf("%v, %.1f m: %d things and %v, by itself %d and %v", at, radius, len(got.Things), got.Unknown, len(want.Things), want.Unknown)
		}
		for i := range want.Things {
			a, b := &got.Things[i], &want.Things[i]
			if a.Feature != b.Feature || math.Abs(a.DistM-b.DistM) > 1e-3 || len(a.Bearings) != len(b.Bearings) || len(a.Soundings) != len(b.Soundings) {
				t.Fatalf("%v, %.1f m: %s %.3f m off on %v, by itself %s %.3f m off on %v", at, radius, a.Class, a.DistM, a.Bearings, b.Class, b.DistM, b.Bearings)
			}
			for k := range b.Bearings {
				if math.Abs(a.Bearings[k].FromDeg-b.Bearings[k].FromDeg)+math.Abs(a.Bearings[k].ToDeg-b.Bearings[k].ToDeg) > 0.01 {
					t.Fatalf("%v, %.1f m: %s on %v, by itself %v", at, radius, a.Class, a.Bearings, b.Bearings)
				}
			}
		}
	}
}
