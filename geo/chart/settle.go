package chart

import (
	"math"
	"slices"
)

// settle applies the priority of sets and finds where data are missing. What
// tiles the surface is asked after the smaller scales have given way: where the
// largest scale has coverage and a hole, nothing else fills it.
func (q *Query) settle(p *Piece, hits []Hit) Met {
	c := q.chart
	var m Met
	var gaps, holes []Span
	for i := range hits {
		switch h := &hits[i]; h.Class {
		case gapCover:
			gaps = append(gaps, h.Near...)
		case gapTiles:
			holes = append(holes, h.Near...)
		}
	}
	covers := c.coverages(hits)
	dry := q.bare(p, gapsIn(covers.inside(nil), p.LengthM), q.covered)
	m.Outside = mergeSpans(append(gaps, dry...))
	holes = append(holes, q.bare(p, c.untiled(hits, covers, p.LengthM), q.tiled)...)
	m.Untiled = subtractSpans(mergeSpans(holes), m.Outside)
	m.Hits = c.withoutCovered(hits, covers)
	return m
}

// untiled gives where the track is in no area that describes the surface. Where
// derived charts lie beside official ones, each of them must describe what it has
// data of: scale alone decides whose areas count for all, and official ones alone
// for what official charts have data of.
func (c *Chart) untiled(hits []Hit, covers coverages, length float64) []Span {
	byScale := func(s, other *Set) bool { return rank(s) < rank(other) }
	out := gapsIn(c.tiles(hits, covers, byScale, nil), length)
	if !c.mixed {
		return out
	}
	isOfficial := func(s *Set) bool { return c.standing(s) == official }
	open := gapsIn(c.tiles(hits, covers, c.takesFrom, isOfficial), length)
	out = append(out, intersectSpans(open, covers.inside(isOfficial))...)
	return mergeSpans(out)
}

// tiles gives where the track is in an area of some sets (nil: all) that describes
// the surface, once those have given way that have to.
func (c *Chart) tiles(hits []Hit, covers coverages, takes func(s, other *Set) bool, of func(*Set) bool) []Span {
	var out []Span
	for i := range hits {
		h := &hits[i]
		if !c.familyTiles(h.Feature) || of != nil && !of(h.Set) {
			continue
		}
		inside := h.Inside
		if h.yields() {
			inside = subtractSpans(inside, covers.taking(h.Set, takes))
		}
		out = append(out, inside...)
	}
	return mergeSpans(out)
}

// bare keeps those of the gaps of a tiling along the track that are more than
// slivers: neighbours that share a border but not its vertices leave cracks a
// centimetre wide, and a track may run along one. A gap is a crack if at every
// metre of it the tiling is there on both sides.
func (q *Query) bare(p *Piece, gaps []Span, fine func(Coord) bool) []Span {
	const side = 0.1 // metres
	return slices.DeleteFunc(gaps, func(g Span) bool {
		n := int(math.Ceil(g.To-g.From)) + 1
		for i := range n {
			s := g.From + (g.To-g.From)*(float64(i)+0.5)/float64(n)
			if !fine(CoordOf(p.beside(s, side))) || !fine(CoordOf(p.beside(s, -side))) {
				return false
			}
		}
		return true
	})
}

// coverages is what sets have data of along a piece.
type coverages []*coverage

// coverage is where the track, and where the whole widened corridor, lies in what
// one set has data of. Of sets whose coverage only counts alone there is no whole.
type coverage struct {
	set            *Set
	insides, whole []Span
}

// coverages lists the coverage of each set: M_COVR 1, less M_COVR 2 of the same.
func (c *Chart) coverages(hits []Hit) coverages {
	var all coverages
	of := func(s *Set) *coverage {
		for _, v := range all {
			if v.set == s {
				return v
			}
		}
		all = append(all, &coverage{set: s})
		return all[len(all)-1]
	}
	for i := range hits {
		h := &hits[i]
		if !c.familyCover(h.Feature) {
			continue
		}
		v := of(h.Set)
		v.insides = append(v.insides, h.Inside...)
		if h.covers() && h.Set.Authority != Private {
			v.whole = append(v.whole, fullyInside(h)...)
		}
	}
	for _, v := range all {
		v.insides, v.whole = mergeSpans(v.insides), mergeSpans(v.whole)
	}
	for i := range hits {
		if h := &hits[i]; c.familyBare(h.Feature) {
			v := of(h.Set)
			v.insides, v.whole = subtractSpans(v.insides, h.Inside), subtractSpans(v.whole, h.Wide)
		}
	}
	return all
}

// inside gives where the track is in what some of the sets, or all for nil, have
// data of.
func (all coverages) inside(of func(*Set) bool) []Span {
	var out []Span
	for _, v := range all {
		if of == nil || of(v.set) {
			out = append(out, v.insides...)
		}
	}
	return mergeSpans(out)
}

// taking gives where other sets take away what a set says.
func (all coverages) taking(from *Set, takes func(s, other *Set) bool) []Span {
	var out []Span
	for _, v := range all {
		if takes(v.set, from) {
			out = append(out, v.whole...)
		}
	}
	return mergeSpans(out)
}

// withoutCovered takes away what a set of larger scale has charted better.
func (c *Chart) withoutCovered(hits []Hit, covers coverages) []Hit {
	out := hits[:0]
	for i := range hits {
		h := &hits[i]
		if h.Class == gapCover || h.Class == gapTiles {
			continue
		}
		if h.yields() {
			h.trim(covers.taking(h.Set, c.takesFrom))
		}
		if len(h.Wide) > 0 {
			out = append(out, *h)
		}
	}
	return out
}

// fullyInside gives where the whole widened corridor lies in the area.
func fullyInside(h *Hit) []Span { return subtractSpans(h.Inside, h.edge) }

// yields reports whether a larger scale's coverage replaces the feature: depths
// and dangers of charts do; land, things in the way and rules stay, and a
// private layer is never overruled.
func (f *Feature) yields() bool {
	k := f.Class
	if k == refusedArea {
		k = f.leftOut // what was left out yields as it would have itself
	}
	return f.Set.Authority != Private && (k.WaterArea() || k.Danger() || k == DEPCNT || k == SOUNDG || k == MQUAL)
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
	h.Cross = slices.DeleteFunc(h.Cross, func(s float64) bool {
		return len(subtractSpans([]Span{{From: s, To: s}}, covered)) == 0
	})
}
