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
	var cover, tiles, gaps, holes []Span
	for i := range hits {
		switch h := &hits[i]; {
		case h.Class == gapCover:
			gaps = append(gaps, h.Near...)
		case h.Class == gapTiles:
			holes = append(holes, h.Near...)
		case c.familyCover(h.Feature):
			cover = append(cover, h.Inside...)
		}
	}
	m.Hits = withoutCovered(hits)
	for i := range m.Hits {
		if h := &m.Hits[i]; c.familyTiles(h.Feature) {
			tiles = append(tiles, h.Inside...)
		}
	}
	dry := q.bare(p, gapsIn(mergeSpans(cover), p.LengthM), q.covered)
	m.Outside = mergeSpans(append(gaps, dry...))
	bare := q.bare(p, gapsIn(mergeSpans(tiles), p.LengthM), q.tiled)
	m.Untiled = subtractSpans(mergeSpans(append(holes, bare...)), m.Outside)
	return m
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
					h.trim(mergeSpans(covered[s]))
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
