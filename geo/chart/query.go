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
	// CloseM is how near things count that are passed close by (Class.CloseBy); an
	// isolated danger mark, and a crane for what is under it, count in the corridor
	// too.
	CloseM float64
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
	chart  *Chart
	slot   []int32   // feature -> index into work, valid if work[slot].feature is it
	work   []found   // what the running search has met; its slices are used again
	near   []chunk   // found by the search at hand
	spans  []Span    // room for the spans of one answer
	places []float64 // room for its crossings
	met    []Hit     // before they are in order
	order  []int32   // of met
	asked  asked     // of the last place
	cuts   []float64
	disc   *discWork // nil but while a disc is looked at
	looks  int       // runs of boundary looked at by markInside, a measure of work
}

type found struct {
	feature   int32
	odd       bool // the reference place is inside
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
	n := len(q.work)
	q.slot[feature] = int32(n)
	if n < cap(q.work) {
		q.work = q.work[:n+1]
	} else {
		q.work = append(q.work, found{})
	}
	w := &q.work[n]
	*w = found{feature: feature, near: w.near[:0], wide: w.wide[:0], cross: w.cross[:0]}
	return w
}

// Along gives all that a piece of track meets within reach. Features of a
// chart of smaller scale are left out where a larger one covers the whole
// corridor, but for land and things that are always in the way.
func (q *Query) Along(p Piece, r Reach) Met {
	q.reset()
	w := widths(&p, r)
	lo, hi := p.box(w.greatest())
	windows, n := windowsOf(p.strip(w.greatest()), lo, hi)
	q.collectAlong(q.chart.rims, &p, w, windows[:n])
	q.collectAlong(q.chart.others, &p, w, windows[:n])
	return q.settle(&p, q.hits(q.markReference(&p), p.LengthM))
}

// hits are what the search has met, in the order of the features.
func (q *Query) hits(ref, length float64) []Hit {
	q.spans, q.places = nil, nil
	q.met, q.order = q.met[:0], q.order[:0]
	for i := range q.work {
		if h, ok := q.hit(&q.work[i], ref, length); ok {
			q.order = append(q.order, int32(len(q.met)))
			q.met = append(q.met, h)
		}
	}
	slices.SortFunc(q.order, func(a, b int32) int { return q.met[a].order(q.met[b].Feature) })
	out := make([]Hit, len(q.order))
	for i, k := range q.order {
		out[i] = q.met[k]
	}
	return out
}

// At gives what lies at a place, within reach around it. The piece has no
// length, so every span is [0, 0].
func (q *Query) At(pos orb.Point, r Reach) Met { return q.Along(NewPiece(pos, pos), r) }

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

// hit turns what was collected of a feature into a Hit.
func (q *Query) hit(w *found, ref, length float64) (Hit, bool) {
	h := Hit{Feature: q.chart.features[w.feature], Soundings: w.soundings}
	slices.Sort(w.cross)
	if h.Prim == Area {
		h.Inside = insideSpans(q.room(len(w.cross)/2+1), w.cross, w.odd, ref, length)
		if h.covers() { // where it ends, for what it takes away
			h.edge = mergeSpans(slices.Clone(w.wide))
		}
		w.near, w.wide = append(w.near, h.Inside...), append(w.wide, h.Inside...)
	}
	h.Near, h.Wide = q.keep(mergeSpans(w.near)), q.keep(mergeSpans(w.wide))
	h.Cross = q.keepPlaces(crossingsOn(w.cross, length))
	return h, len(h.Wide) > 0
}

// room gives an empty slice for n spans that is the caller's.
func (q *Query) room(n int) []Span {
	if len(q.spans) < n {
		q.spans = make([]Span, max(n, 64))
	}
	s := q.spans[:0:n]
	q.spans = q.spans[n:]
	return s
}

// keep copies spans out of the working space.
func (q *Query) keep(s []Span) []Span {
	if len(s) == 0 {
		return nil
	}
	return append(q.room(len(s)), s...)
}

// keepPlaces copies crossings out of the working space.
func (q *Query) keepPlaces(s []float64) []float64 {
	if len(s) == 0 {
		return nil
	}
	if len(q.places) < len(s) {
		q.places = make([]float64, max(len(s), 64))
	}
	out := q.places[:len(s):len(s)]
	q.places = q.places[len(s):]
	copy(out, s)
	return out
}

// UnknownWater reports whether the feature says that its water is unknown: an
// unsurveyed area, a depth area without a least depth, a refused feature.
func (f *Feature) UnknownWater() bool {
	return f.Class == UNSARE || f.Class == refusedArea || f.Class.WaterArea() && !Known(f.DepthMinM)
}

// RefusedFeature reports whether the feature stands for one that was left out;
// Info then holds the message code.
func (f *Feature) RefusedFeature() bool { return f.Class == refusedArea || f.Class == refusedMark }

// UnreadMark reports whether the feature stands for a mark that was left out: it lies
// somewhere in the box that is its geometry.
func (f *Feature) UnreadMark() bool { return f.Class == refusedMark }

// Meant is the class of the feature, of one that was left out what it was, NoClass
// where that could not be read either.
func (f *Feature) Meant() Class {
	if f.RefusedFeature() {
		return f.leftOut
	}
	return f.Class
}

// LeastDistanceM is the least distance in metres from the track to the feature
// (0 inside an area), within the widened corridor.
func (h *Hit) LeastDistanceM() float64 {
	d := math.Inf(1)
	for _, s := range h.Wide {
		d = min(d, s.DistM)
	}
	return d
}

// Beyond gives the spans that only the widened corridor reaches.
func (h *Hit) Beyond() []Span { return subtractSpans(h.Wide, h.Near) }

func sortFeatures(fs []*Feature) { slices.SortFunc(fs, (*Feature).order) }
