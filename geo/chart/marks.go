package chart

import "github.com/paulmach/orb"

// MarksNear gives the buoys and beacons within reach (metres) of a piece of
// track, in the order of the layers.
func (q *Query) MarksNear(p Piece, reachM float64) []*Feature {
	reach := reachM * p.scaleWithin(reachM)
	lo, hi := p.box(reach)
	seen := map[int32]bool{}
	var out []*Feature
	q.chart.marks.search(lo, hi, func(c chunk) {
		f := q.chart.features[c.feature]
		if !seen[c.feature] && pointDistance(p.frame(f.Coords[c.first]), p.LengthM) <= reach {
			seen[c.feature] = true
			out = append(out, f)
		}
	})
	sortFeatures(out)
	return out
}

// AreasAt gives the areas that hold a place, of all that a leg may meet.
func (q *Query) AreasAt(p orb.Point) []*Feature {
	q.reset()
	q.markInside(CoordOf(p))
	var out []*Feature
	for _, w := range q.work {
		if w.odd {
			out = append(out, q.chart.features[w.feature])
		}
	}
	sortFeatures(out)
	return out
}
