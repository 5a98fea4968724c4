package chart

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// Reach says how far from the track things count, in metres.
type Reach struct {
	HalfM   float64 // half-width of the corridor
	HazardM float64 // added to it for underwater dangers
	WideM   float64 // added to both to give the Wide spans (position accuracy)
}

// Hit is a feature that a piece of track meets. Spans are metres along the
// piece, merged and in order.
type Hit struct {
	*Feature
	// Near: some of it lies within the corridor (for areas: the area itself,
	// not just its boundary).
	Near []Span
	// Wide: the same for the widened corridor, each with the least distance.
	Wide []Span
	// Inside: the centre line is in the area.
	Inside []Span
	// Cross: where the centre line crosses the line or the area's boundary.
	Cross []float64
	// Soundings of a SOUNDG feature within the widened corridor.
	Soundings []Sounding

	edge []Span // where an area's boundary is within the widened corridor
}

// Sounding is one depth of a SOUNDG feature near the piece. Near is where it
// lies within the corridor (empty for none), Wide within the widened one.
type Sounding struct {
	DepthM     float64
	At         Coord
	Near, Wide Span
	InCorridor bool
}

// Met is what a piece of track meets.
type Met struct {
	Hits []Hit
	// Outside: part of the corridor lies where no set has data.
	Outside []Span
	// Untiled: part of the corridor lies where a chart that should describe
	// the water does not.
	Untiled []Span
}

// Query asks a chart. It keeps working space between calls: use one for each
// goroutine. What a call returns is the caller's.
type Query struct {
	chart *Chart
	slot  []int32 // feature -> index into work, valid if work[slot].feature is it
	work  []found
}

type found struct {
	feature   int32
	odd       bool // crossings of the ray east from the reference place
	near      []Span
	wide      []Span
	cross     []float64
	soundings []Sounding
}

// NewQuery gives a query of the chart.
func (c *Chart) NewQuery() *Query {
	return &Query{chart: c, slot: make([]int32, len(c.features))}
}

// reset starts a new search.
func (q *Query) reset() {
	q.work = q.work[:0]
}

// of gives the working entry of a feature, new if this search has not met it.
func (q *Query) of(feature int32) *found {
	if i := q.slot[feature]; int(i) < len(q.work) && q.work[i].feature == feature {
		return &q.work[i]
	}
	q.slot[feature] = int32(len(q.work))
	q.work = append(q.work, found{feature: feature})
	return &q.work[len(q.work)-1]
}

// Along gives all that a piece of track meets within reach. Features of a
// chart of smaller scale are left out where a larger one covers the whole
// corridor, but for land and things that are always in the way.
func (q *Query) Along(p Piece, r Reach) Met {
	q.reset()
	wide := (r.HalfM + r.HazardM + r.WideM) * p.scale
	lo, hi := p.box(wide)
	q.chart.edges.Search(lo, hi, func(_, _ [2]float64, c chunk) bool {
		q.collect(&p, r, c)
		return true
	})
	ref := q.reference(p.LengthM)
	q.markInside(CoordOf(p.At(ref)))
	hits := make([]Hit, 0, len(q.work))
	for i := range q.work {
		if h, ok := q.hit(&q.work[i], ref, p.LengthM); ok {
			hits = append(hits, h)
		}
	}
	slices.SortFunc(hits, func(a, b Hit) int { return a.order(b.Feature) })
	return q.chart.settle(hits, p.LengthM)
}

// order is the order features were given in: by set, then by place in it.
func (f *Feature) order(g *Feature) int {
	if f.Set != g.Set {
		if d := rank(f.Set) - rank(g.Set); d != 0 {
			return d
		}
	}
	if f.File != g.File {
		if f.File < g.File {
			return -1
		}
		return 1
	}
	if f.Class != g.Class {
		return int(f.Class) - int(g.Class)
	}
	return f.Index - g.Index
}

// collect adds what one chunk has within reach of the piece.
func (q *Query) collect(p *Piece, r Reach, c chunk) {
	f := q.chart.features[c.feature]
	near := r.HalfM
	if f.Class.Danger() {
		near += r.HazardM
	}
	near *= p.scale
	wide := near + r.WideM*p.scale
	a := p.frame(f.Coords[c.first])
	if c.segments == 0 {
		q.collectPoint(p, f, c, near, wide)
		return
	}
	var w *found
	for i := c.first + 1; i <= c.first+c.segments; i++ {
		b := p.frame(f.Coords[i])
		from, to, ok := within(a, b, wide, p.LengthM)
		if ok {
			if w == nil {
				w = q.of(c.feature)
			}
			w.wide = append(w.wide, Span{from, to, distance(a, b, p.LengthM)})
			if from, to, ok := within(a, b, near, p.LengthM); ok {
				w.near = append(w.near, Span{from, to, 0})
			}
			if s, ok := crossing(a, b); ok && s >= 0 && s <= p.LengthM {
				w.cross = append(w.cross, s)
			}
		}
		a = b
	}
}

func (q *Query) collectPoint(p *Piece, f *Feature, c chunk, near, wide float64) {
	a := p.frame(f.Coords[c.first])
	from, to, ok := within(a, a, wide, p.LengthM)
	if !ok {
		return
	}
	w := q.of(c.feature)
	span := Span{from, to, pointDistance(a, p.LengthM)}
	w.wide = append(w.wide, span)
	s := Sounding{At: f.Coords[c.first], Wide: span}
	if from, to, ok := within(a, a, near, p.LengthM); ok {
		s.Near, s.InCorridor = Span{from, to, span.DistM}, true
		w.near = append(w.near, s.Near)
	}
	if f.Class == SOUNDG {
		s.DepthM = f.DepthsM[c.first]
		w.soundings = append(w.soundings, s)
	}
}

// reference is the place on the piece that lies farthest from any crossing:
// there it is surest which areas it is in.
func (q *Query) reference(length float64) float64 {
	var all []float64
	for i := range q.work {
		all = append(all, q.work[i].cross...)
	}
	all = append(all, 0, length)
	slices.Sort(all)
	best, ref := -1.0, length/2
	for i := 1; i < len(all); i++ {
		if gap := all[i] - all[i-1]; gap > best {
			best, ref = gap, (all[i]+all[i-1])/2
		}
	}
	return ref
}

// markInside finds the areas that hold a place.
func (q *Query) markInside(c Coord) {
	q.chart.edges.searchEast(c.Position(), func(k chunk) {
		f := q.chart.features[k.feature]
		if f.Prim != Area {
			return
		}
		odd := false
		for i := k.first; i < k.first+k.segments; i++ {
			if crossesEast(c, f.Coords[i], f.Coords[i+1]) {
				odd = !odd
			}
		}
		if odd {
			w := q.of(k.feature)
			w.odd = !w.odd
		}
	})
}

// hit turns what was collected of a feature into a Hit.
func (q *Query) hit(w *found, ref, length float64) (Hit, bool) {
	h := Hit{Feature: q.chart.features[w.feature], Cross: slices.Clone(w.cross), Soundings: w.soundings}
	near, wide := w.near, w.wide
	if h.Prim == Area {
		h.Inside = insideSpans(h.Cross, w.odd, ref, length)
		h.edge = mergeSpans(slices.Clone(wide), 0)
		near, wide = append(near, h.Inside...), append(wide, h.Inside...)
	} else {
		slices.Sort(h.Cross)
	}
	h.Near, h.Wide = mergeSpans(near, 0), mergeSpans(wide, 0)
	return h, len(h.Wide) > 0
}

// At gives what lies at a place, within reach around it. The piece has no
// length, so every span is [0, 0].
func (q *Query) At(pos orb.Point, r Reach) Met { return q.Along(NewPiece(pos, pos), r) }

// settle applies the priority of sets and finds where data are missing.
func (c *Chart) settle(hits []Hit, length float64) Met {
	var m Met
	var cover, tiles, gaps, holes []Span
	for i := range hits {
		switch h := &hits[i]; {
		case h.Class == gapCover:
			gaps = append(gaps, h.Near...)
		case h.Class == gapTiles:
			holes = append(holes, h.Near...)
		default:
			if c.familyCover(h.Feature) {
				cover = append(cover, h.Inside...)
			}
			if c.familyTiles(h.Feature) {
				tiles = append(tiles, h.Inside...)
			}
		}
	}
	m.Outside = mergeSpans(append(gaps, gapsIn(mergeSpans(cover, 0), length)...), 0)
	m.Untiled = mergeSpans(append(holes, gapsIn(mergeSpans(tiles, 0), length)...), 0)
	m.Untiled = subtractSpans(m.Untiled, m.Outside)
	m.Hits = withoutCovered(hits)
	return m
}

// withoutCovered takes away what a set of larger scale has charted better.
func withoutCovered(hits []Hit) []Hit {
	covered := map[*Set][]Span{}
	var sets []*Set
	for i := range hits {
		if h := &hits[i]; h.covers() && h.Set.Authority != Private {
			if _, seen := covered[h.Set]; !seen {
				sets = append(sets, h.Set)
			}
			covered[h.Set] = append(covered[h.Set], fullyInside(h)...)
		}
	}
	out := hits[:0]
	for _, h := range hits {
		if h.Class == gapCover || h.Class == gapTiles {
			continue
		}
		if h.yields() {
			for _, s := range sets {
				if rank(s) < rank(h.Set) {
					h.trim(mergeSpans(covered[s], 0))
				}
			}
		}
		if len(h.Wide) > 0 {
			out = append(out, h)
		}
	}
	return out
}

// fullyInside gives where the whole widened corridor lies in the area.
func fullyInside(h *Hit) []Span { return subtractSpans(h.Inside, h.edge) }

// yields tells whether a larger scale's coverage replaces the feature: depths
// and dangers of charts do; land, things in the way and rules stay, and a
// private layer is never overruled.
func (f *Feature) yields() bool {
	return f.Set.Authority != Private &&
		(f.Class.WaterArea() || f.Class.Danger() || f.Class == DEPCNT || f.Class == SOUNDG || f.Class == MQUAL || f.Class == refusedArea)
}

// trim takes spans away from the hit.
func (h *Hit) trim(covered []Span) {
	if len(covered) == 0 {
		return
	}
	h.Near, h.Wide, h.Inside = subtractSpans(h.Near, covered), subtractSpans(h.Wide, covered), subtractSpans(h.Inside, covered)
	h.Soundings = slices.DeleteFunc(h.Soundings, func(s Sounding) bool {
		return len(subtractSpans([]Span{s.Wide}, covered)) == 0
	})
}

// UnknownWater tells whether the feature says that its water is unknown: an
// unsurveyed area, a depth area without a least depth, a refused feature.
func (f *Feature) UnknownWater() bool {
	return f.Class == UNSARE || f.Class == refusedArea || f.Class.WaterArea() && !Known(f.DepthMinM)
}

// RefusedFeature tells whether the feature stands for one that was left out;
// Info then holds the message code.
func (f *Feature) RefusedFeature() bool { return f.Class == refusedArea }

// LeastDistanceM is the least distance in metres from the track to the feature
// (0 inside an area), within the widened corridor.
func (h *Hit) LeastDistanceM() float64 {
	d := math.Inf(1)
	for _, s := range h.Wide {
		d = math.Min(d, s.DistM)
	}
	return d
}

// Beyond gives the spans that only the widened corridor reaches.
func (h *Hit) Beyond() []Span { return subtractSpans(h.Wide, h.Near) }

func sortFeatures(fs []*Feature) { slices.SortFunc(fs, (*Feature).order) }
