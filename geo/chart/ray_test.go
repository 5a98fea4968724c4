package chart_test

import (
	"math"
	"math/rand"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo/chart"
)

// rayLine is a ray as the oracle walks it: a rhumb line, its end found with the
// isometric latitude so that the course is held.
func rayLine(from orb.Point, deg, metres float64, n int) []orb.Point {
	sin, cos := math.Sincos(deg * math.Pi / 180)
	east, _ := local(from[1])
	// On the Mercator chart true at the start; the latitude by Newton's method.
	q := isometric(from[1]) + metres*cos/east*math.Pi/180
	lat := from[1]
	for range 8 {
		s, c := math.Sincos(lat * math.Pi / 180)
		lat -= (isometric(lat) - q) / ((1 - ecc2) / ((1 - ecc2*s*s) * c) * math.Pi / 180)
	}
	return samples(from, orb.Point{from[0] + metres*sin/east, lat}, n)
}

func TestCastAgreesWithWalking(t *testing.T) {
	for name, load := range map[string]func(testing.TB) *chart.Set{"hull": hull, "US5MA12M": fullCell, "demo": demo} {
		t.Run(name, func(t *testing.T) {
			c := chart.New(load(t))
			q, rng := c.NewQuery(), rand.New(rand.NewSource(20260719))
			bounds, _ := c.Bounds()
			all := shapes(c, chart.LNDARE, chart.DEPARE, chart.DRGARE, chart.UNSARE, chart.MCOVR)
			cast, open := 0, 0
			for range fewer(150) {
				r := oneRay{c: c, q: q, all: all, from: within(rng, bounds), deg: 360 * rng.Float64(), driesM: -3 * rng.Float64(), maxM: 300 + 8000*rng.Float64()}
				if got := r.compare(t); got.LengthM > 0 {
					cast++
					if got.Open {
						open++
					}
				}
			}
			t.Logf("%d rays, %d of them open", cast, open)
			if cast == 0 {
				t.Error("no ray was cast")
			}
		})
	}
}

type oneRay struct {
	c            *chart.Chart
	q            *chart.Query
	all          []shape
	from         orb.Point
	deg          float64
	driesM, maxM float64
}

// stops: land, or an area that dries throughout, at or above the level.
func (r *oneRay) stops(s *shape) bool {
	return s.Prim == chart.Area && (s.Class == chart.LNDARE || s.Class == chart.DEPARE && s.DepthMaxM < 0 && s.DepthMaxM <= r.driesM)
}

func (r *oneRay) compare(t *testing.T) chart.Ray {
	t.Helper()
	got := r.q.Cast(r.q.Origin(r.from), r.deg, r.maxM, func(d float64) bool { return d <= r.driesM })
	want, open, grazes := r.walk()
	if grazes {
		return got
	}
	// The walk goes on in steps of the length over 400; crossings are exact.
	if math.Abs(got.LengthM-want) > 0.3 || got.Open != open {
		t.Errorf("from %v toward %.2f°, dry from %.2f m: %.2f m, open %v; walking gives %.2f m, %v", r.from, r.deg, r.driesM, got.LengthM, got.Open, want, open)
	}
	if got.LengthM > 1 && !math.IsInf(got.MeanDepthM, 1) {
		if mean := r.meanDepth(got.LengthM); got.MeanDepthM < mean-0.01 {
			t.Errorf("from %v toward %.2f°, %.1f m long: mean depth %.3f m, walking gives %.3f m", r.from, r.deg, got.LengthM, got.MeanDepthM, mean)
		}
	}
	return got
}

// walk finds the nearest crossing by looking at every segment. A start too near
// a boundary to tell is grazing.
func (r *oneRay) walk() (length float64, open, grazes bool) {
	inCover := false
	for i := range r.all {
		s := &r.all[i]
		near := s.inBox(orb.Bound{Min: r.from, Max: r.from}.Pad(1e-5))
		if near.distance(r.from) < 0.1 {
			return 0, false, true
		}
		covers := s.Class == chart.MCOVR && s.Meta.CatCov == 1
		if (covers || r.stops(s)) && s.holds(r.from) {
			if !covers {
				return 0, false, false
			}
			inCover = true
		}
	}
	if !inCover {
		return 0, true, false
	}
	return r.walkOut()
}

func (r *oneRay) walkOut() (length float64, open, grazes bool) {
	line := rayLine(r.from, r.deg, r.maxM, 400)
	box := orb.MultiPoint{line[0], line[len(line)-1]}.Bound().Pad(1e-6)
	length = r.maxM
	for i := range r.all {
		s := &r.all[i]
		covers := s.Class == chart.MCOVR && s.Meta.CatCov == 1
		if !covers && !r.stops(s) {
			continue
		}
		near := s.inBox(box)
		if at := near.crossings(line); len(at) > 0 && at[0]*r.maxM < length {
			length, open = at[0]*r.maxM, covers
		}
	}
	return length, open, false
}

// meanDepth is the mean of DRVAL2 along the ray, +Inf if some of it is unknown.
func (r *oneRay) meanDepth(length float64) float64 {
	const n = 300
	sum, count := 0.0, 0
	for _, at := range rayLine(r.from, r.deg, length, n)[1:n] {
		deepest := math.Inf(-1)
		for i := range r.all {
			s := &r.all[i]
			if !s.Class.WaterArea() || !s.holds(at) {
				continue
			}
			if !chart.Known(s.DepthMaxM) || !chart.Known(s.DepthMinM) {
				return math.Inf(1)
			}
			deepest = math.Max(deepest, s.DepthMaxM)
		}
		if !math.IsInf(deepest, -1) {
			sum, count = sum+deepest, count+1
		}
	}
	return sum / float64(count)
}
