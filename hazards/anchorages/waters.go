package anchorages

import (
	"github.com/paulmach/orb"

	"keelroom/hazards"
)

// forest tells which of the places found lie in one water: in it each
// place names another of its water, and the first one itself (Galler and Fischer 1964).
type forest []int

// first is the place that stands for the water of a place.
func (w forest) first(i int) int {
	for w[i] != i {
		w[i] = w[w[i]]
		i = w[i]
	}
	return i
}

func (w forest) same(i, j int) bool { return w.first(i) == w.first(j) }

func (w forest) join(i, j int) { w[w.first(j)] = w.first(i) }

// join notes in which water the place found last lies: in that of places near by with
// nothing between that may part them, and of the nodes next to it where nothing
// between is ruled out.
func (s *Search) join(l *hazards.Lying) {
	last := len(s.found) - 1
	s.waters = append(s.waters, last)
	for i := range s.found[:last] {
		if s.waters.same(i, last) {
			continue
		}
		gap := s.lattice.gapM(s.found[i].node, s.found[last].node)
		switch {
		case gap > reachM:
		case s.lattice.joined(s.found[i].node, s.found[last].node), gap < 1.5*stepM && between(l, s.found[i].At, s.found[last].At):
			s.waters.join(i, last)
		}
	}
}

// between reports whether nothing is ruled out between two places next to each other,
// every 15 to 25 m.
func between(l *hazards.Lying, a, b orb.Point) bool {
	for _, t := range []float64{0.25, 0.5, 0.75} {
		if _, out := l.RuledOut(orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}); out {
			return false
		}
	}
	return true
}
