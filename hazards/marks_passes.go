package hazards

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"keelroom/geo"
	"keelroom/geo/chart"
	"keelroom/hazards/passage"
)

// abeam is a mark seen from the place of a leg that is nearest to it.
type abeam struct {
	mark    *chart.Feature
	at      orb.Point
	metres  float64 // along the leg
	distM   float64
	toPort  bool
	ended   bool // the nearest place is the leg's end
	started bool // it is the leg's start
}

// passes lists the marks that the track passes on a leg: each time it comes
// within mark_m and draws away again is one pass. The distance along a leg has
// one least value; where that is at a waypoint, both legs beside it must have
// it there, and the first tells of it.
func (m *legMarks) passes() []abeam {
	var out []abeam
	for _, a := range m.marksBeside(m.track.Legs[m.index].Rhumb) {
		switch {
		case a.distM > m.plan.Margins.MarkM:
		case a.started && !m.routeStarts(m.index):
			// The leg before tells of it, if it is nearest there too.
		case a.ended && !m.routeEnds(m.index):
			if next, ok := m.seenFrom(m.index+1, a.mark); ok && next.started {
				a.toPort = m.outsideOfTurn(a.toPort)
				out = append(out, a)
			}
		default:
			out = append(out, a)
		}
	}
	return out
}

// seenFrom is the mark as another leg sees it.
func (m *legMarks) seenFrom(index int, f *chart.Feature) (abeam, bool) {
	list := m.marksBeside(m.track.Legs[index].Rhumb)
	i := slices.IndexFunc(list, func(a abeam) bool { return a.mark == f })
	if i < 0 {
		return abeam{}, false
	}
	return list[i], true
}

// outsideOfTurn is the hand on which a mark lies that is nearest to a waypoint
// itself: the one away from the turn. Without a turn it is the hand seen.
func (m *legMarks) outsideOfTurn(seenToPort bool) bool {
	turn := geo.Turn(m.track.Legs[m.index].Rhumb.CourseDeg, m.track.Legs[m.index+1].Rhumb.CourseDeg)
	if math.Abs(turn) < 1 {
		return seenToPort
	}
	return turn > 0
}

func (c *checker) routeStarts(index int) bool {
	return index == 0 || c.track.Legs[index-1].Route != c.track.Legs[index].Route
}

func (c *checker) routeEnds(index int) bool {
	return index == len(c.track.Legs)-1 || c.track.Legs[index+1].Route != c.track.Legs[index].Route
}

// atRouteEnd tells whether a mark is nearest to the route's start or end: it is
// beside her, but not passed.
func (m *legMarks) atRouteEnd(a abeam) bool {
	return a.started && m.routeStarts(m.index) || a.ended && m.routeEnds(m.index)
}

// marksBeside lists the marks near a leg, each seen from its nearest place.
func (c *checker) marksBeside(r geo.Rhumb) []abeam {
	g, reach := c.leg(r), c.plan.Margins.MarkM
	if list, seen := g.marks[reach]; seen {
		return list
	}
	var list []abeam
	for k := range g.pieces {
		for _, f := range c.query.MarksNear(g.pieces[k], reach) {
			a := place(f, &g.pieces[k], g.base(k))
			if !slices.ContainsFunc(list, func(b abeam) bool { return b.mark == f && b.distM <= a.distM }) {
				list = append(slices.DeleteFunc(list, func(b abeam) bool { return b.mark == f }), a)
			}
		}
	}
	for i := range list {
		list[i].started, list[i].ended = list[i].metres < 0.5, list[i].metres > r.LengthM-0.5
	}
	g.marks[reach] = list
	return list
}

// place sees a mark from the nearest place of a piece.
func place(f *chart.Feature, p *chart.Piece, base float64) abeam {
	nearest, s, distM := p.Nearest(f)
	at := nearest.Position()
	_, across := p.Frame(at)
	return abeam{mark: f, at: at, metres: base + s, distM: distM, toPort: across > 0}
}

// crossesBetween tells whether the leg passes between two places.
func crossesBetween(leg *passage.Leg, a, b orb.Point) bool {
	pieces := chart.Pieces(leg.Rhumb)
	for i := range pieces {
		p := &pieces[i]
		s0, d0 := p.Frame(a)
		s1, d1 := p.Frame(b)
		if (d0 > 0) == (d1 > 0) {
			continue
		}
		s := s0 + (s1-s0)*d0/(d0-d1)
		if s >= 0 && s <= p.LengthM {
			return true
		}
	}
	return false
}
