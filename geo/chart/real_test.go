package chart_test

import (
	"fmt"
	"math"
	"math/rand"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
)

// classesMet are classes of the layer profile, section 2, that a leg may meet
// and that the Boston cells hold.
var classesMet = []chart.Class{chart.DEPARE, chart.DRGARE, chart.UNSARE, chart.LNDARE, chart.DEPCNT, chart.SOUNDG,
	chart.UWTROC, chart.WRECKS, chart.OBSTRN, chart.PONTON, chart.PILPNT, chart.COALNE, chart.SLCONS, chart.RESARE,
	chart.PRCARE, chart.BRIDGE, chart.MCOVR, chart.MQUAL, chart.CBLARE}

// Tolerances in metres. Edges are straight in degrees for the oracle and on a
// Mercator plane for the chart: 2 cm · tan(latitude) apart in the middle of an
// edge of a kilometre. The chart takes all reaches 2 cm larger, and its frame
// is out by Plane.ScaleError, 0.03 % of the reach on these pieces.
const (
	lessM = 0.02
	moreM = 0.06
)

func TestAlongAgreesWithWalking(t *testing.T) {
	for name, load := range map[string]func(testing.TB) *chart.Set{"hull": hull, "US5MA12M": fullCell} {
		t.Run(name, func(t *testing.T) {
			c := chart.New(load(t))
			w := newWalker(t, c)
			rng := rand.New(rand.NewSource(20260719))
			for range fewer(32) {
				from := w.place(rng)
				length := 3000 * rng.Float64() * rng.Float64() * rng.Float64()
				to := geo.Direct(from, 360*rng.Float64(), length)
				r := chart.Reach{HalfM: 60 * rng.Float64(), HazardM: float64(rng.Intn(2)) * 15, WideM: float64(rng.Intn(3)) * 20}
				w.compare(chart.NewPiece(from, to), r)
				if t.Failed() {
					return
				}
			}
			t.Logf("%d samples, %d hits, %d soundings compared", w.samples, w.hits, w.soundings)
		})
	}
}

// walker compares a chart with the oracle.
type walker struct {
	t      *testing.T
	c      *chart.Chart
	query  *chart.Query
	shapes []shape
	bounds orb.Bound

	samples, hits, soundings int
}

func newWalker(t *testing.T, c *chart.Chart) *walker {
	b, _ := c.Bounds()
	return &walker{t: t, c: c, query: c.NewQuery(), shapes: shapes(c, classesMet...), bounds: b.Pad(0.002)}
}

// place is a random one, every other time close to a vertex of the chart.
func (w *walker) place(rng *rand.Rand) orb.Point {
	if rng.Intn(2) == 0 {
		return within(rng, w.bounds)
	}
	s := w.shapes[rng.Intn(len(w.shapes))]
	part := s.parts[rng.Intn(len(s.parts))]
	return geo.Direct(part[rng.Intn(len(part))], 360*rng.Float64(), 40*rng.Float64())
}

func (w *walker) compare(p chart.Piece, r chart.Reach) {
	met := w.query.Along(p, r)
	step := math.Max(0.5, p.LengthM/300)
	line := samples(p.From, p.To, int(p.LengthM/step)+1)
	w.samples += len(line)
	box := orb.Bound{Min: p.From, Max: p.From}.Extend(p.To).Pad(200.0 / 60000)
	found := map[*chart.Feature]*chart.Hit{}
	for i := range met.Hits {
		found[met.Hits[i].Feature] = &met.Hits[i]
	}
	for i := range w.shapes {
		s := &w.shapes[i]
		if near := s.inBox(box); len(near.segments) > 0 || s.holds(p.From) {
			h := found[s.Feature]
			if h == nil {
				h = &chart.Hit{}
			}
			w.compareFeature(p, r, line, s, &near, h)
		}
	}
	w.compareGaps(p, r, line, &met)
}

func (w *walker) compareFeature(p chart.Piece, r chart.Reach, line []orb.Point, s *shape, near *stretch, h *chart.Hit) {
	w.hits++
	half := r.HalfM
	if s.Class.Danger() {
		half += r.HazardM
	}
	for i, at := range line {
		along := p.LengthM * (float64(i) / float64(len(line)-1))
		edge, inside := near.distance(at), s.holds(at)
		d := edge
		if inside {
			d = 0
		}
		what := fmt.Sprintf("%s %d of %s, %.2f m along %v-%v (%.3f m from it, inside %v)", s.Class, s.Index, s.File, along, p.From, p.To, edge, inside)
		w.agree(what+": near", inSpans(h.Near, along), d, half)
		if s.Class != chart.MCOVR { // looked at more widely, as it may
			w.agree(what+": wide", inSpans(h.Wide, along), d, half+r.WideM)
		}
		if edge > 0.05 && s.Prim == chart.Area && inSpans(h.Inside, along) != inside {
			w.t.Errorf("%s: the chart says otherwise", what)
		}
		if d <= half+r.WideM-lessM && !(h.LeastDistanceM() <= d+lessM) {
			w.t.Errorf("%s: least distance %.3f", what, h.LeastDistanceM())
		}
	}
	w.compareCrossings(p, line, s, near, h)
	if s.Class == chart.SOUNDG {
		w.compareSoundings(p, r, line, s, h)
	}
}

// agree: closer than the reach is in, farther is out.
func (w *walker) agree(what string, in bool, d, reach float64) {
	if d <= reach-lessM && !in || d > reach*1.0005+moreM && in {
		w.t.Errorf("%s within %.2f m: %v", what, reach, in)
	}
}

func (w *walker) compareCrossings(p chart.Piece, line []orb.Point, s *shape, near *stretch, h *chart.Hit) {
	want := near.crossings(line)
	for _, x := range want {
		if !slices.ContainsFunc(h.Cross, func(c float64) bool { return math.Abs(c-x*p.LengthM) < 0.5 }) {
			// A touch of centimetres may be no crossing on the plane.
			if at := samples(p.From, p.To, 1000)[int(math.Round(x*1000))]; len(want)%2 == 1 || near.distance(at) > 2 {
				w.t.Errorf("%s %d: not crossed at %.2f m of %v-%v, only at %v", s.Class, s.Index, x*p.LengthM, p.From, p.To, h.Cross)
			}
		}
	}
	if d := len(h.Cross) - len(want); d%2 != 0 && near.distance(p.From) > 0.1 && near.distance(p.To) > 0.1 && s.Prim == chart.Area {
		w.t.Errorf("%s %d: crossed at %v, want %d crossings of %v-%v", s.Class, s.Index, h.Cross, len(want), p.From, p.To)
	}
}

func (w *walker) compareSoundings(p chart.Piece, r chart.Reach, line []orb.Point, s *shape, h *chart.Hit) {
	for k, part := range s.parts {
		one := stretch{segments: [][2]orb.Point{{part[0], part[0]}}}
		least := math.Inf(1)
		for _, at := range line {
			least = math.Min(least, one.distance(at))
		}
		i := slices.IndexFunc(h.Soundings, func(sd chart.Sounding) bool { return sd.At == s.Coords[k] && sd.DepthM == s.DepthsM[k] })
		if least <= r.HalfM-lessM && (i < 0 || !h.Soundings[i].InCorridor) {
			w.t.Errorf("sounding of %.1f m at %v is missing, %.2f m from %v-%v", s.DepthsM[k], part[0], least, p.From, p.To)
		}
		if least <= r.HalfM+r.WideM-lessM {
			w.soundings++
			if i < 0 {
				w.t.Errorf("sounding of %.1f m at %v is missing in the widened corridor", s.DepthsM[k], part[0])
			}
		}
	}
}

// compareGaps probes the corridor for places without data or depth.
func (w *walker) compareGaps(p chart.Piece, r chart.Reach, line []orb.Point, met *chart.Met) {
	for i := 0; i < len(line); i += 1 + len(line)/40 {
		along := p.LengthM * (float64(i) / float64(len(line)-1))
		outside, untiled := w.probe(line[i], r.HalfM)
		if outside && !inSpans(met.Outside, along) {
			w.t.Errorf("%.2f m along %v-%v there are no data within %.1f m, outside %v", along, p.From, p.To, r.HalfM, met.Outside)
		}
		if untiled && !inSpans(met.Outside, along) && !inSpans(met.Untiled, along) {
			w.t.Errorf("%.2f m along %v-%v there is no depth within %.1f m, untiled %v", along, p.From, p.To, r.HalfM, met.Untiled)
		}
		if !outside && inSpans(met.Outside, along) && !w.nearBorder(line[i], r.HalfM) {
			w.t.Errorf("%.2f m along %v-%v is not outside: %v", along, p.From, p.To, met.Outside)
		}
		if !untiled && inSpans(met.Untiled, along) && !w.nearBorder(line[i], r.HalfM) {
			w.t.Errorf("%.2f m along %v-%v (%v) nothing shows that it is untiled: %v", along, p.From, p.To, line[i], met.Untiled)
		}
	}
}

// probe looks at places within reach of one that lie clear of boundaries.
func (w *walker) probe(at orb.Point, reach float64) (outside, untiled bool) {
	for k := range 17 {
		q := at
		if k > 0 {
			q = geo.Direct(at, float64(k)*45+10, (reach-0.1)*float64(1+k%2)/2)
		}
		cover, tile, close := false, false, false
		b := orb.Bound{Min: q, Max: q}.Pad(1e-5)
		for i := range w.shapes {
			s := &w.shapes[i]
			isCover := s.Class == chart.MCOVR && s.Meta.CatCov == 1
			isTile := s.Prim == chart.Area && (s.Class.WaterArea() || s.Class == chart.LNDARE || s.Class == chart.PONTON)
			if !isCover && !isTile || !s.box.Intersects(b) {
				continue
			}
			near := s.inBox(b)
			close = close || near.distance(q) < 0.05
			if s.holds(q) {
				cover, tile = cover || isCover, tile || isTile
			}
		}
		if !close {
			outside, untiled = outside || !cover, untiled || cover && !tile
		}
	}
	return outside, untiled
}

// nearBorder reports whether the border of the coverage is within reach.
func (w *walker) nearBorder(at orb.Point, reach float64) bool {
	for i := range w.shapes {
		if s := &w.shapes[i]; s.Class == chart.MCOVR {
			near := s.inBox(orb.Bound{Min: at, Max: at}.Pad(0.005))
			if near.distance(at) < reach*1.001+moreM {
				return true
			}
		}
	}
	return false
}
