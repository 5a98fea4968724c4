package chart

import (
	"slices"

	"keelroom/geo"
)

// Which areas a track is in follows from where it crosses their boundaries,
// once that is known for one place of it, the reference. A track may run along
// a boundary to the last digit, so the reference must not be judged by other
// arithmetic than the crossings: it is reached from a place beside the track,
// clear of all boundaries, by a path across the track that counts what it
// crosses with the same numbers and the same rule (a vertex on the track
// belongs to its port side). So the answers of all areas fit together, whatever
// is rounded.

// sureM is how far from any boundary a place is surely in the areas it seems to
// be in: edges are straight in degrees there and on the piece's plane here,
// which differ by 2 cm · tan(latitude) in the middle of an edge of a kilometre.
const sureM = 0.3

// besideM are the distances from the track at which a clear place is looked for.
var besideM = [...]float64{0, 1, -1, 3, -3, 8, -8, 0.4, -0.4}

// markReference marks the areas that hold a place of the piece and tells where
// it is.
func (q *Query) markReference(p *Piece) float64 {
	s := q.reference(p.LengthM)
	var best Coord
	most, aside := -1.0, 0.0
	for _, d := range besideM {
		c := CoordOf(p.beside(s, d))
		if clear := q.clearance(p, c); clear > most {
			best, most, aside = c, clear, d
		}
		if most >= sureM {
			break
		}
	}
	q.markInside(best)
	at := p.frame(best)
	if aside != 0 || most < sureM {
		q.markAcross(p, at)
	}
	return at.X
}

// reference is the place on the piece that lies farthest from any crossing.
func (q *Query) reference(length float64) float64 {
	q.cuts = append(q.cuts[:0], 0, length)
	for i := range q.work {
		q.cuts = append(q.cuts, q.work[i].cross...)
	}
	slices.Sort(q.cuts)
	best, ref := -1.0, length/2
	for i, at := range q.cuts[1:] {
		if from := q.cuts[i]; from >= 0 && at <= length && at-from > best {
			best, ref = at-from, (at+from)/2
		}
	}
	return ref
}

// clearance is the distance from a place to the nearest boundary of an area, at
// most a little more than sureM.
func (q *Query) clearance(p *Piece, c Coord) float64 {
	at, least := p.frame(c), sureM+resolutionM
	q.boundariesNear(p, at.X, at.Y, at.Y, least, func(_ int32, g segment) {
		least = min(least, segmentDistance(at, g.a, g.b))
	})
	return least
}

// markAcross takes the marks from a place beside the track to its foot on it.
func (q *Query) markAcross(p *Piece, at geo.XY) {
	q.boundariesNear(p, at.X, 0, at.Y, resolutionM, func(feature int32, g segment) {
		if g.crossesPath(at) {
			w := q.of(feature)
			w.odd = !w.odd
		}
	})
}

// segment is a part of a boundary in a piece's frame.
type segment struct{ a, b geo.XY }

// crossesPath reports whether the segment crosses the straight path from the foot
// of a place on the track to the place.
func (g segment) crossesPath(at geo.XY) bool {
	a, b := g.a, g.b
	if (a.X < at.X) == (b.X < at.X) {
		return false
	}
	y := a.Y + (b.Y-a.Y)*((at.X-a.X)/(b.X-a.X))
	return g.portOfFoot(at.X) != (y > at.Y)
}

// portOfFoot reports whether the segment, which spans a place x of the track,
// passes it on the port side: by its ends if they are on one side, else by
// where it crosses the track.
func (g segment) portOfFoot(x float64) bool {
	s, crosses := crossing(g.a, g.b)
	if !crosses {
		return g.a.Y >= 0
	}
	starboard := g.a
	if g.b.Y < 0 {
		starboard = g.b
	}
	return (starboard.X < x) == (s < x)
}

// boundariesNear calls fn for the edges of areas within reach of the path from
// (x, y0) to (x, y1) of the piece's frame, and some more.
func (q *Query) boundariesNear(p *Piece, x, y0, y1, reach float64, fn func(int32, segment)) {
	a, b := p.beside(x, y0), p.beside(x, y1)
	path := Piece{From: a, To: b, plane: p.plane}
	lo, hi := path.box(reach)
	q.chart.rims.search(lo, hi, func(k chunk) {
		f := q.chart.features[k.feature]
		from := p.frame(f.Coords[k.first])
		for _, c := range f.Coords[k.first+1 : k.first+k.segments+1] {
			to := p.frame(c)
			fn(k.feature, segment{from, to})
			from = to
		}
	})
}

// markInside finds the areas that hold a place.
func (q *Query) markInside(c Coord) {
	c = c.wrapped()
	q.chart.areas.at(c, func(feature int32) {
		if q.chart.boundaries[feature].holds(q.chart.features[feature].Coords, c, &q.looks) {
			w := q.of(feature)
			w.odd = !w.odd
		}
	})
}
