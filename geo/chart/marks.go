package chart

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"keelroom/geo"
)

// MarksNear gives the buoys and beacons within reach (metres) of a piece of
// track, in the order of the layers, those that were left out (UnreadMark) among
// them.
func (q *Query) MarksNear(p Piece, reachM float64) []*Feature {
	reach := reachM * p.scaleWithin(reachM)
	lo, hi := p.box(reach)
	seen := map[int32]bool{}
	var out []*Feature
	q.chart.marks.search(lo, hi, func(c chunk) {
		f := q.chart.features[c.feature]
		if _, _, distM := p.Nearest(f); !seen[c.feature] && distM <= reach {
			seen[c.feature] = true
			out = append(out, f)
		}
	})
	sortFeatures(out)
	return out
}

// Nearest gives the place on the piece that is nearest to a mark, and the place of
// the mark itself: along is in metres of the piece, the distance in metres. A mark
// that was left out may lie anywhere in its box, so its nearest place counts.
func (p *Piece) Nearest(f *Feature) (at Coord, along, distM float64) {
	if f.Class != refusedMark {
		at = f.Coords[0]
		along, distM = p.nearestTo(p.frame(at))
		return at, along, distM
	}
	for _, s := range [3]float64{0, p.LengthM / 2, p.LengthM} {
		if c := CoordOf(p.At(s)); f.contains(c) {
			return c, s, 0
		}
	}
	distM = math.Inf(1)
	f.edges(func(e edge) {
		a, b := p.frame(e.a), p.frame(e.b)
		d := distance(a, b, p.LengthM)
		if d >= distM {
			return
		}
		from, to, _ := within(a, b, d+resolutionM, p.LengthM)
		along, distM = (from+to)/2, d
		at = CoordOf(p.plane.Position(p.origin.Add(p.unframe(segmentFoot(geo.XY{X: along}, a, b)))))
	})
	return at, along, distM
}

// nearestTo is the place on the piece nearest to a point of its frame.
func (p *Piece) nearestTo(q geo.XY) (along, distM float64) {
	return max(0, min(p.LengthM, q.X)), pointDistance(q, p.LengthM)
}

// unframe turns a vector of the piece's frame to one of its plane.
func (p *Piece) unframe(v geo.XY) geo.XY {
	return p.dir.Scale(v.X).Add(geo.XY{X: -p.dir.Y, Y: p.dir.X}.Scale(v.Y))
}

// segmentFoot is the point of the segment a-b nearest to p.
func segmentFoot(p, a, b geo.XY) geo.XY {
	v := b.Sub(a)
	l2 := v.Dot(v)
	if l2 == 0 {
		return a
	}
	return a.Add(v.Scale(max(0, min(1, p.Sub(a).Dot(v)/l2))))
}

// AreasAt gives the areas that hold a place, of all that a leg may meet: those of
// official charts first, then derived ones, then private layers.
func (q *Query) AreasAt(p orb.Point) []*Feature {
	q.reset()
	q.markInside(CoordOf(p))
	var out []*Feature
	for _, w := range q.work {
		if w.odd {
			out = append(out, q.chart.features[w.feature])
		}
	}
	slices.SortFunc(out, func(a, b *Feature) int {
		return cmp.Or(cmp.Compare(q.chart.standing(b.Set), q.chart.standing(a.Set)), a.order(b))
	})
	return out
}
