package chart

import (
	"math"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo"
)

// INVENTED waters: squares about 43°N 36°W, where no coast is. One unit is
// 0.001 degrees: 81 m east, 111 m north.
const (
	lon0, lat0 = -36.0, 43.0
	unit       = 0.001
)

func at(x, y float64) orb.Point { return orb.Point{lon0 + x*unit, lat0 + y*unit} }

func ring(points ...orb.Point) []Coord {
	var out []Coord
	for _, p := range points {
		out = append(out, CoordOf(p))
	}
	return append(out, out[0])
}

func rectangle(x0, y0, x1, y1 float64) []Coord {
	return ring(at(x0, y0), at(x1, y0), at(x1, y1), at(x0, y1))
}

func area(class Class, drval1, drval2 float64, rings ...[]Coord) Feature {
	f := Feature{Class: class, DepthMinM: drval1, DepthMaxM: drval2}
	f.Prim = Area
	for _, r := range rings {
		f.Coords = append(f.Coords, r...)
		f.Ends = append(f.Ends, int32(len(f.Coords)))
	}
	return f
}

func point(class Class, depth float64, x, y float64) Feature {
	f := Feature{Class: class, DepthMinM: depth, DepthMaxM: Unknown}
	f.Prim, f.Coords = Point, []Coord{CoordOf(at(x, y))}
	if class == SOUNDG {
		f.DepthsM = []float64{depth}
	}
	if class.Danger() {
		f.Danger = &Danger{}
	}
	return f
}

func cover(rings ...[]Coord) Feature {
	f := area(MCOVR, Unknown, Unknown, rings...)
	f.Meta = &Meta{CatCov: 1}
	return f
}

func set(features ...Feature) *Set {
	for i := range features {
		features[i].Index = i
	}
	return &Set{Authority: Derived, Scale: 12000, SoundingDatum: 23, Features: features}
}

func along(c *Chart, x0, y0, x1, y1 float64, r Reach) Met {
	return c.NewQuery().Along(NewPiece(at(x0, y0), at(x1, y1)), r)
}

func (m Met) of(class Class) []Hit {
	var out []Hit
	for _, h := range m.Hits {
		if h.Class == class {
			out = append(out, h)
		}
	}
	return out
}

// Expected lengths come from geodesics (Karney 2013, checked in package geo).
func metres(x0, y0, x1, y1 float64) float64 { return geo.DistanceM(at(x0, y0), at(x1, y1)) }

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.4f, want %.4f ± %v", what, got, want, tolerance)
	}
}

func TestAlongFindsAreasWithinTheCorridor(t *testing.T) {
	c := New(set(
		cover(rectangle(0, 0, 20, 20)),
		area(DEPARE, 5, 10, rectangle(0, 0, 10, 20)),
		area(DEPARE, 2, 5, rectangle(10, 0, 20, 20)),
	))
	m := along(c, 2, 10, 18, 10, Reach{HalfM: 25})
	if len(m.Outside)+len(m.Untiled) != 0 {
		t.Errorf("outside %v, untiled %v; want none", m.Outside, m.Untiled)
	}
	areas := m.of(DEPARE)
	if len(areas) != 2 {
		t.Fatalf("%d areas, want 2", len(areas))
	}
	border := metres(2, 10, 10, 10)
	near(t, "deep water ends", areas[0].Near[0].To, border+25, 0.2)
	near(t, "shoal water begins", areas[1].Near[0].From, border-25, 0.2)
	near(t, "centre line enters", areas[1].Inside[0].From, border, 0.05)
	if len(areas[1].Cross) != 1 || areas[0].Cross[0] != areas[1].Cross[0] {
		t.Errorf("neighbours are crossed at %v and %v, want one same place", areas[0].Cross, areas[1].Cross)
	}
}

func TestAlongInsideAnAreaFarFromItsBoundary(t *testing.T) {
	c := New(set(cover(rectangle(0, 0, 40, 40)), area(DEPARE, 5, 10, rectangle(0, 0, 40, 40))))
	m := along(c, 19, 20, 21, 20, Reach{HalfM: 25})
	if len(m.Hits) != 2 || len(m.Outside) != 0 {
		t.Fatalf("got %d hits, outside %v", len(m.Hits), m.Outside)
	}
	near(t, "whole piece", m.of(DEPARE)[0].Near[0].To, metres(19, 20, 21, 20), 0.05)
}

func TestIslandIsAHoleAndAHit(t *testing.T) {
	islet := rectangle(9, 9, 11, 11)
	c := New(set(cover(rectangle(0, 0, 20, 20)),
		area(DEPARE, 5, 10, rectangle(0, 0, 20, 20), islet), area(LNDARE, Unknown, Unknown, islet)))
	m := along(c, 2, 10, 18, 10, Reach{HalfM: 8})
	land := m.of(LNDARE)
	if len(land) != 1 || len(land[0].Inside) != 1 {
		t.Fatalf("land hits: %v", land)
	}
	near(t, "landfall", land[0].Inside[0].From, metres(2, 10, 9, 10), 0.05)
	if water := m.of(DEPARE); len(water[0].Inside) != 2 {
		t.Errorf("water before and behind the islet: %v", water[0].Inside)
	}
	if len(m.Untiled) != 0 {
		t.Errorf("untiled %v, want none", m.Untiled)
	}
}

// A hole in the tiling that the track passes but does not enter is unknown
// water all the same.
func TestHoleBesideTheTrackIsUnknown(t *testing.T) {
	hole := rectangle(9, 10.1, 11, 12)
	c := New(set(cover(rectangle(0, 0, 20, 20)), area(DEPARE, 5, 10, rectangle(0, 0, 20, 20), hole)))
	if m := along(c, 2, 10, 18, 10, Reach{HalfM: 8}); len(m.Untiled) != 0 {
		t.Errorf("11 m away: untiled %v with a corridor of 8 m", m.Untiled)
	}
	m := along(c, 2, 10, 18, 10, Reach{HalfM: 25})
	if len(m.Untiled) != 1 {
		t.Fatalf("untiled %v, want one span beside the hole", m.Untiled)
	}
	if s := m.Untiled[0]; s.From > metres(2, 10, 9, 10) || s.To < metres(2, 10, 11, 10) {
		t.Errorf("untiled %v does not hold the whole side of the hole", s)
	}
}

func TestEdgeOfTheData(t *testing.T) {
	c := New(set(cover(rectangle(0, 0, 20, 20)), area(DEPARE, 5, 10, rectangle(0, 0, 20, 20))))
	m := along(c, 10, 10, 30, 10, Reach{HalfM: 25})
	if len(m.Outside) != 1 {
		t.Fatalf("outside: %v", m.Outside)
	}
	near(t, "data end a corridor early", m.Outside[0].From, metres(10, 10, 20, 10)-25, 0.1)
	if m := along(c, 10, 0.1, 15, 0.1, Reach{HalfM: 25}); len(m.Outside) != 1 {
		t.Errorf("beside the edge: outside %v, want the whole piece", m.Outside)
	}
	if m := New().NewQuery().Along(NewPiece(at(0, 0), at(1, 0)), Reach{HalfM: 8}); len(m.Outside) != 1 {
		t.Errorf("no chart at all: outside %v", m.Outside)
	}
}

// Two charts that meet leave no gap, though neither holds the whole corridor
// and their borders have different vertices.
func TestChartsThatMeet(t *testing.T) {
	west := set(cover(rectangle(0, 0, 10, 20)), area(DEPARE, 5, 10, rectangle(0, 0, 10, 20)))
	edge := ring(at(10, 0), at(20, 0), at(20, 20), at(10, 20), at(10, 13), at(10, 4))
	east := set(cover(edge), area(DEPARE, 3, 10, edge))
	m := along(New(west, east), 2, 10, 18, 10, Reach{HalfM: 25})
	if len(m.Outside)+len(m.Untiled) != 0 {
		t.Errorf("outside %v, untiled %v; want none", m.Outside, m.Untiled)
	}
}

func TestLargerScaleRules(t *testing.T) {
	large := set(cover(rectangle(5, 0, 15, 20)), area(DEPARE, 6, 10, rectangle(5, 0, 15, 20)))
	small := set(cover(rectangle(0, 0, 20, 20)), area(DEPARE, 2, 5, rectangle(0, 0, 20, 20)), point(UWTROC, Unknown, 10, 10))
	large.Scale, small.Scale = 10000, 50000
	m := along(New(small, large), 2, 10, 18, 10, Reach{HalfM: 25})
	if len(m.of(UWTROC)) != 0 {
		t.Error("a rock of the small scale counts where the large scale has coverage")
	}
	var two []Span
	for _, h := range m.of(DEPARE) {
		if h.DepthMinM == 2 {
			two = h.Near
		}
	}
	if len(two) != 2 {
		t.Fatalf("the small scale counts on %v, want both ends", two)
	}
	near(t, "until the corridor is within the large scale", two[0].To, metres(2, 10, 5, 10)+25, 0.2)
}

// A private layer adds danger and never takes any away; alone it gives
// coverage.
func TestPrivateLayers(t *testing.T) {
	own := &Set{Authority: Private, Features: []Feature{area(DEPARE, 20, 30, rectangle(0, 0, 20, 20)), point(OBSTRN, Unknown, 10, 10)}}
	chart := set(cover(rectangle(0, 0, 20, 20)), area(DEPARE, 2, 5, rectangle(0, 0, 20, 20)))
	m := along(New(own, chart), 2, 10, 18, 10, Reach{HalfM: 25})
	if got := m.of(DEPARE); len(got) != 2 || got[0].DepthMinM != 2 {
		t.Errorf("depth areas %v, want the chart's and the private one", got)
	}
	if len(m.of(OBSTRN)) != 1 {
		t.Error("the private danger is missing")
	}
	alone := New(own)
	if m := along(alone, 2, 10, 18, 10, Reach{HalfM: 25}); len(m.Outside) != 0 || !alone.OnlyPrivate() {
		t.Errorf("alone: outside %v, only private %v", m.Outside, alone.OnlyPrivate())
	}
	if m := along(New(own, set()), 2, 10, 18, 10, Reach{HalfM: 25}); len(m.Outside) != 1 {
		t.Errorf("beside a chart without data a private area gives coverage: %v", m.Outside)
	}
}

func TestRefusedFeatureIsUnknownWater(t *testing.T) {
	s := set(cover(rectangle(0, 0, 20, 20)), area(DEPARE, 5, 10, rectangle(0, 0, 20, 20)))
	s.Refused = []Refused{{Class: DEPARE, Index: 7, Min: CoordOf(at(9, 9)), Max: CoordOf(at(11, 11)), Code: "E-RANGE"}}
	for _, h := range along(New(s), 2, 10, 18, 10, Reach{HalfM: 8}).Hits {
		if h.RefusedFeature() {
			if !h.UnknownWater() || h.Info != "E-RANGE" {
				t.Errorf("refused feature %+v", h.Feature)
			}
			return
		}
	}
	t.Error("no refused feature met")
}

func TestAtAPlace(t *testing.T) {
	c := New(set(cover(rectangle(0, 0, 20, 20)), area(DEPARE, 5, 10, rectangle(0, 0, 10, 20)),
		area(DEPARE, 2, 5, rectangle(10, 0, 20, 20)), point(SOUNDG, 1.5, 9.9, 10)))
	m := c.NewQuery().At(at(9.8, 10), Reach{HalfM: 10})
	if len(m.of(DEPARE)) != 1 || len(m.of(SOUNDG)) != 1 {
		t.Errorf("within 10 m: %d areas, %d soundings; want 1 and 1", len(m.of(DEPARE)), len(m.of(SOUNDG)))
	}
	m = c.NewQuery().At(at(9.8, 10), Reach{HalfM: 20})
	if len(m.of(DEPARE)) != 2 {
		t.Errorf("within 20 m: %d areas, want 2", len(m.of(DEPARE)))
	}
}

func TestCastToTheShore(t *testing.T) {
	c := New(set(cover(rectangle(0, 0, 100, 100)),
		area(DEPARE, 5, 12, rectangle(0, 0, 40, 100)),
		area(DEPARE, -2, -1, rectangle(40, 0, 50, 100)),
		area(LNDARE, Unknown, Unknown, rectangle(50, 0, 100, 100)),
		point(LNDARE, Unknown, 30, 50)))
	q := c.NewQuery()
	from := at(20, 50)
	wet := func(float64) bool { return false }
	dry := func(d float64) bool { return d <= -0.5 }
	r := q.Cast(q.Origin(from), 90, 30000, wet)
	near(t, "to the land", r.LengthM, metres(20, 50, 50, 50), 1)
	r = q.Cast(q.Origin(from), 90, 30000, dry)
	near(t, "to the bank, dry", r.LengthM, metres(20, 50, 40, 50), 1)
	near(t, "mean depth", r.MeanDepthM, 12, 0.001)
	if r = q.Cast(q.Origin(from), 270, 30000, wet); !r.Open {
		t.Errorf("west: %+v, want open", r)
	}
	near(t, "to the end of the data", r.LengthM, metres(20, 50, 0, 50), 1)
	if r = q.Cast(q.Origin(at(60, 50)), 90, 30000, wet); r.Open || r.LengthM != 0 {
		t.Errorf("from the land: %+v", r)
	}
	if r = q.Cast(q.Origin(at(-5, 50)), 90, 30000, wet); !r.Open || r.LengthM != 0 {
		t.Errorf("from outside: %+v", r)
	}
	if r = q.Cast(q.Origin(from), 0, 300, wet); r.Open || r.LengthM != 300 {
		t.Errorf("to the greatest length asked: %+v", r)
	}
}

// Out of patience, the index takes unmatched edges for gaps: never the other
// way round.
func TestOutOfPatienceIsUnknown(t *testing.T) {
	was := maxGapLooks
	maxGapLooks = 0
	defer func() { maxGapLooks = was }()
	many := area(DEPARE, 5, 10, rectangle(0, 0, 9, 20), rectangle(11, 0, 20, 20))
	c := New(set(cover(rectangle(0, 0, 20, 20)), many, area(DEPARE, 5, 10, rectangle(9, 0, 11, 20))))
	m := along(c, 2, 10, 18, 10, Reach{HalfM: 25})
	if len(m.Untiled)+len(m.Outside) == 0 {
		t.Error("unseen edges count as matched")
	}
}

// What was left out of a small scale's land, rules or bridges does not yield to
// a larger scale, as they themselves would not; depths and dangers do.
func TestRefusedYieldsAsItWouldHave(t *testing.T) {
	for class, stays := range map[Class]bool{LNDARE: true, RESARE: true, BRIDGE: true, NoClass: true, DEPARE: false, UWTROC: false} {
		large := set(cover(rectangle(0, 0, 20, 20)), area(DEPARE, 5, 10, rectangle(0, 0, 20, 20)))
		small := set(cover(rectangle(0, 0, 20, 20)), area(DEPARE, 5, 10, rectangle(0, 0, 20, 20)))
		small.Scale = 80000
		small.Refused = []Refused{{Class: class, Min: CoordOf(at(9, 9)), Max: CoordOf(at(11, 11)), Code: "E-NUM"}}
		met := false
		for _, h := range along(New(large, small), 2, 10, 18, 10, Reach{HalfM: 8}).Hits {
			met = met || h.RefusedFeature()
		}
		if met != stays {
			t.Errorf("a refused %v is met: %v, want %v", class, met, stays)
		}
	}
}
